//! Setting a trial up: bleaches, number of pots, what differs. Everything has a value from the
//! start.

use bleachfield_core::{
    derive::{TrialDraft, TrialError, TrialSetup},
    journal::{Batch, Weighed},
    message::{Field, Message, Value},
    quantity::{QuantityKind, Unit, grams, share},
};
use jiff::SignedDuration;
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;

use super::{
    levels::{BleachLevels, Differs},
    words::{bleach_name, pot_title, treatment},
};
use crate::{
    components::{NumberField, NumberInput, Page, RadioGroup, to_first_wrong},
    i18n::{format_duration, format_number, format_value, key, render, t, t_with},
    platform::{draft, random},
    route::{self, BatchForm, Route},
    screens::{
        batches::batch_name,
        plan::{expressed_water, residual},
    },
    state::app_state,
};

const POT_MASS: Field = Field("trial_pot_mass");
const APART: Field = Field("trial_apart");
/// Consistency of every pot: stirs by hand.
const CONSISTENCY: f64 = 0.05;
/// Pots that the choice offers.
const POTS: [usize; 5] = [4, 6, 8, 10, 12];

/// `/batch/ID/trial`.
#[component]
pub fn NewTrial(batch: Ulid) -> impl IntoView {
    let found = app_state().book_now(|book| book.batches.get(&batch).cloned());
    let Some(of) = found else {
        return view! {
            <Page title=t!("trial-title") back=Route::Batches><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any();
    };
    let form = SetupForm::new(&of);
    let title = t_with!("trial-title_of", &[("batch", &batch_name(&of))]);
    match (of.weighed.clone(), form.bleaches.with_value(Vec::is_empty)) {
        (None, _) => view! {
            <Page title back=Route::batch(batch)>
                <div class="stack">
                    <p>{t!("trial-weigh_first")}</p>
                    <a class="button touch" href=Route::form(batch, BatchForm::Weigh).href()>
                        {t!("next-weigh")}
                    </a>
                </div>
            </Page>
        }
        .into_any(),
        (_, true) => view! {
            <Page title back=Route::batch(batch)>
                <div class="stack">
                    <p>{t!("trial-shelf_first")}</p>
                    <a class="button touch" href=Route::NewProduct.href()>{t!("trial-to_shelf")}</a>
                </div>
            </Page>
        }
        .into_any(),
        (Some(weighed), false) => setup_page(form, of, weighed, title),
    }
}

#[derive(Clone, Copy)]
struct SetupForm {
    bleaches: StoredValue<Vec<BleachLevels>>,
    pots: RwSignal<usize>,
    differs: Differs,
    pot_mass: NumberInput,
    apart: NumberInput,
    seed: RwSignal<u32>,
    of: StoredValue<Batch>,
}

impl SetupForm {
    fn new(of: &Batch) -> Self {
        let mut bleaches: Vec<BleachLevels> = Vec::new();
        for product in
            app_state().book_now(|book| book.shelf().into_iter().cloned().collect::<Vec<_>>())
        {
            bleaches.extend(BleachLevels::new(&product, bleaches.is_empty()));
        }
        let wet = of.weighed.as_ref().map_or(600.0, |weighed| weighed.wet_mass_g.value);
        // At most half of the lump, in steps that a scale shows.
        let each = ((wet / 12.0) / 5.0).floor() * 5.0;
        Self {
            bleaches: StoredValue::new(bleaches),
            pots: RwSignal::new(6),
            differs: Differs {
                charge: RwSignal::new(true),
                time: RwSignal::new(true),
                temperature: RwSignal::new(false),
            },
            pot_mass: NumberInput::new(POT_MASS, QuantityKind::Mass)
                .unit(Unit::Gram)
                .between(1.0, 5000.0)
                .filled(each.clamp(20.0, 100.0)),
            apart: NumberInput::new(APART, QuantityKind::Duration).between(1.0, 30.0).filled(3.0),
            seed: RwSignal::new(random::bits() as u32),
            of: StoredValue::new(of.clone()),
        }
    }

    /// Three charges where there are pots enough.
    fn charges(self) -> usize {
        if self.pots.get() >= 6 { 3 } else { 2 }
    }

    /// `None` while an answer is missing or wrong, which its field says. Tracked.
    fn draft(self) -> Option<Result<TrialDraft, Message>> {
        let chosen = self.bleaches.get_value().into_iter().filter(|bleach| bleach.chosen.get());
        let bleaches = chosen.map(|bleach| bleach.to_try(self.differs, self.charges()));
        let bleaches = bleaches.collect::<Option<Vec<_>>>()?;
        let (mass, apart) = (self.pot_mass.base()?, self.apart.base()?);
        let pots = self.pots.get();
        let (dryness, wet) = self.of.with_value(|of| {
            let weighed = of.weighed.as_ref();
            weighed.map(|weighed| (weighed.dryness, weighed.wet_mass_g.value))
        })?;
        if mass * pots as f64 > wet {
            let refused = Message::new(key!("refusal-trial_lump"))
                .beside(POT_MASS)
                .with("pots", Value::Count(pots as u64))
                .with("all", Value::Mass(grams(wet)));
            return Some(Err(refused));
        }
        let setup = self.of.with_value(|of| TrialSetup {
            bleaches,
            pots,
            seed: self.seed.get(),
            pot: grams(mass),
            dryness: dryness.map(share),
            consistency: CONSISTENCY,
            apart,
            residual: residual(of),
            expressed_water: expressed_water(of),
        });
        let beside_mass = |error: &TrialError| matches!(error, TrialError::Dose(_));
        Some(TrialDraft::new(&setup).map_err(|error| {
            let message = error.message();
            if beside_mass(&error) { message.beside(POT_MASS) } else { message }
        }))
    }
}

fn setup_page(form: SetupForm, of: Batch, weighed: Weighed, title: String) -> AnyView {
    let batch = of.id;
    let draft = Memo::new(move |_| form.draft());
    let busy = RwSignal::new(false);
    let keep = move |_| {
        let Some(Ok(made)) = draft.get_untracked() else {
            form.bleaches.with_value(|all| all.iter().for_each(|one| one.try_now(form.differs)));
            return to_first_wrong();
        };
        if busy.get_untracked() {
            return;
        }
        busy.set(true);
        let state = app_state();
        let from = route::current();
        let name = |number: u32| {
            let pot = pot_title(number);
            t_with!("trial-pot_name", &[("batch", &batch_name(&of)), ("pot", &pot)])
        };
        let (trial, entries) = made.entries(&of, &weighed, name, || state.fresh_id());
        spawn_local(async move {
            if state.write_entries(entries).await.is_some() {
                draft::discard(&Route::NewTrial(batch).href());
                route::go_from(&from, &Route::Trial(trial));
            }
            let _ = busy.try_set(false);
        });
    };
    let refused = Signal::derive(move || draft.get().and_then(Result::err));
    let beside_field = move || refused.get().is_some_and(|refused| refused.field == Some(POT_MASS));
    view! {
        <Page title back=Route::batch(batch)>
            <div class="stack wide trial">
                <p class="small">{t!("trial-what")}</p>
                {bleach_choice(form)}
                <section class="card stack">
                    <RadioGroup label=t!("trial-how_many") value=form.pots
                        options=POTS.map(|pots| (pots, pots.to_string())).to_vec() />
                    <fieldset class="ticks">
                        <legend>{t!("trial-differs")}</legend>
                        {tick(t!("trial-factor-charge"), form.differs.charge)}
                        {tick(t!("trial-factor-time"), form.differs.time)}
                        {tick(t!("trial-factor-temperature"), form.differs.temperature)}
                    </fieldset>
                    <NumberField ask=form.pot_mass hint=t!("trial-pot_mass_hint") refused />
                </section>
                <details class="more">
                    <summary>{t!("trial-levels")}</summary>
                    <div class="inside stack">
                        {move || form.bleaches.get_value().into_iter()
                            .filter(|bleach| bleach.chosen.get())
                            .map(|bleach| bleach.view(form.differs)).collect_view()}
                        <NumberField ask=form.apart hint=t!("trial-apart_hint") />
                    </div>
                </details>
                <div role="status">
                    {move || match draft.get() {
                        None => view! { <p class="refused">{t!("trial-missing")}</p> }.into_any(),
                        Some(Err(_)) if beside_field() => ().into_any(),
                        Some(Err(why)) => view! {
                            <p class="refused" role="alert">{render(&why)}</p>
                        }
                        .into_any(),
                        Some(Ok(draft)) => preview(form, &draft),
                    }}
                </div>
                <button class="button touch" disabled=move || busy.get() on:click=keep>
                    {t!("trial-keep")}
                </button>
            </div>
        </Page>
    }
    .into_any()
}

fn tick(label: String, value: RwSignal<bool>) -> AnyView {
    view! {
        <label class="tick">
            <input type="checkbox" prop:checked=move || value.get()
                on:change=move |event| value.set(event_target_checked(&event)) />
            <span>{label}</span>
        </label>
    }
    .into_any()
}

fn bleach_choice(form: SetupForm) -> AnyView {
    let all = form.bleaches.get_value();
    let several = move || {
        let oxidants: Vec<bool> = form
            .bleaches
            .get_value()
            .into_iter()
            .filter(|bleach| bleach.chosen.get())
            .map(|bleach| bleach.oxidant().is_peroxide())
            .collect();
        oxidants.contains(&true) && oxidants.contains(&false)
    };
    view! {
        <fieldset class="card ticks">
            <legend>{t!("trial-bleaches")}</legend>
            {all.into_iter().map(|bleach| {
                let name = bleach.product.with_value(|product| product.name.clone());
                tick(name, bleach.chosen)
            }).collect_view()}
            {move || several().then(|| view! {
                <p class="caution danger" role="note">{t!("trial-two_bleaches")}</p>
            })}
        </fieldset>
    }
    .into_any()
}

/// What the trial will be: each pot in its order, how long it takes, what it uses.
fn preview(form: SetupForm, draft: &TrialDraft) -> AnyView {
    let rows = draft.pots.iter().map(|pot| {
        let record = &pot.record;
        let at = format_value(&Value::Minutes(pot.times.start));
        let bleach = bleach_name(&record.product.name, record.oxidant);
        view! {
            <li>
                <b>{pot.number}</b>
                <span>{treatment(record)}<small>{bleach}</small></span>
                <span class="soft">{t_with!("trial-in_at", &[("time", &at)])}</span>
            </li>
        }
    });
    let length = format_duration(SignedDuration::from_secs_f64(60.0 * draft.minutes()));
    let [chlorine, peroxide] = draft.active();
    let total = |active: f64| format!("{}\u{a0}g", format_number(active, 2));
    let pulp: f64 = draft.pots.iter().map(|pot| pot.record.wet_mass_g.value).sum();
    let pulp = format_value(&Value::Mass(grams(pulp)));
    view! {
        <section class="stack">
            <h2>{t!("trial-order")}</h2>
            <ol class="trial-pots">{rows.collect_view()}</ol>
            <p>{t_with!("trial-takes", &[("length", &length), ("pulp", &pulp)])}</p>
            {(chlorine > 0.0).then(|| view! {
                <p class="small">{t_with!("trial-chlorine", &[("amount", &total(chlorine))])}</p>
            })}
            {(peroxide > 0.0).then(|| view! {
                <p class="small">{t_with!("trial-peroxide", &[("amount", &total(peroxide))])}</p>
            })}
            <button class="button bare" on:click=move |_| form.seed.set(random::bits() as u32)>
                {t!("trial-other_order")}
            </button>
            <p class="soft small">{move || t_with!("trial-seed", &[
                ("seed", &form.seed.get().to_string())
            ])}</p>
        </section>
    }
    .into_any()
}
