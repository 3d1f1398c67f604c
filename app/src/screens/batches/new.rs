//! A new batch: fibre, weighed pulp, and how it was cooked.

use bleachfield_core::{
    journal::{Alkali, BatchStarted, Body, Cook, Subject},
    message::{Field, Message},
    pulp::{FIBRES, oven_dry_raw},
    quantity::{Basis, QuantityKind, Unit, grams, in_grams, weighed},
};
use jiff::Timestamp;
use leptos::{prelude::*, task::spawn_local};

use super::{
    entry::name_of,
    form::inputs::{figure, ph_figure, trimmed},
};
use crate::{
    components::{NumberField, NumberInput, Page, RadioGroup, Term, TextField, to_first_wrong},
    i18n::{key, t, t_with},
    platform::{clock, draft},
    route::{self, Route},
    screens::calculator::inputs::WetPulpForm,
    state::app_state,
};

const RAW_FIBRE: Field = Field("raw_fibre");
const COOK_HOURS: Field = Field("cook_hours");
const CARRY_OVER_PH: Field = Field("carry_over_ph");

/// `/batches/new`.
#[component]
pub fn NewBatch() -> impl IntoView {
    let studio = app_state();
    let form = NewBatchForm::new();
    let saving = RwSignal::new(false);
    let save = move |_| {
        let Some(bodies) = form.bodies() else { return to_first_wrong() };
        saving.set(true);
        let from = route::current();
        spawn_local(async move {
            let batch = studio.fresh_id();
            let bodies = bodies.map(|body| (Subject::Batch(batch), body)).into();
            let saved = studio.write_all(bodies).await;
            let _ = saving.try_set(false);
            if saved.is_some() {
                draft::discard(&Route::NewBatch.href());
                route::go_from(&from, &Route::Plan(batch));
            }
        });
    };
    view! {
        <Page title=t!("start-title") back=Route::Batches>
            <div class="stack wide">
                <section class="card stack">
                    <h2>{t!("start-fibre_head")}</h2>
                    {form.fibre_fields()}
                </section>
                <section class="card stack">
                    <h2>{t!("start-lump_head")}</h2>
                    {form.pulp.view()}
                </section>
                <details class="more">
                    <summary>{t!("start-cook_head")}</summary>
                    <div class="inside stack">{form.cook_fields()}</div>
                </details>
                <button class="button touch" disabled=move || saving.get() on:click=save>
                    {t!("start-save")}
                </button>
            </div>
        </Page>
    }
}

#[derive(Clone, Copy)]
struct NewBatchForm {
    opened_at: Timestamp,
    fibre: RwSignal<String>,
    fibre_missing: RwSignal<bool>,
    name: RwSignal<String>,
    pulp: WetPulpForm,
    /// `None` while nobody said.
    alkali: RwSignal<Option<Alkali>>,
    raw: NumberInput,
    hours: NumberInput,
    ph: NumberInput,
    note: RwSignal<String>,
}

impl NewBatchForm {
    fn new() -> Self {
        Self {
            opened_at: clock::now(),
            fibre: RwSignal::new(String::new()),
            fibre_missing: RwSignal::new(false),
            name: RwSignal::new(String::new()),
            pulp: WetPulpForm::new(),
            alkali: RwSignal::new(None),
            raw: NumberInput::new(RAW_FIBRE, QuantityKind::Mass)
                .unit(Unit::Gram)
                .between(1.0, 500_000.0)
                .optional(),
            hours: NumberInput::new(COOK_HOURS, QuantityKind::Duration)
                .unit(Unit::Hour)
                .between(0.0, 4_320.0)
                .optional(),
            ph: NumberInput::new(CARRY_OVER_PH, QuantityKind::Ph).optional(),
            note: RwSignal::new(String::new()),
        }
    }

    /// The entries to write; `None` if something is missing or invalid, which the
    /// fields then show.
    fn bodies(self) -> Option<[Body; 2]> {
        let fibre = trimmed(self.fibre);
        self.fibre_missing.set(fibre.is_empty());
        let cook_valid = self.raw.try_now() & self.hours.try_now() & self.ph.try_now();
        if !self.pulp.try_now() || fibre.is_empty() || !cook_valid {
            return None;
        }
        let pulp = self.pulp.weighed_pulp()?.entry;
        let name = Some(trimmed(self.name)).filter(|name| !name.is_empty());
        let started = BatchStarted {
            name: name.unwrap_or_else(|| self.default_name(&fibre)),
            fibre_key: FIBRES
                .iter()
                .find(|row| fibre_name(row.id) == fibre)
                .map(|row| row.id.to_owned()),
            fibre,
            cook: said(self.cook()),
            raw_dry_g: self.raw.base().map(|raw| oven_dry_raw(weighed(grams(raw))).map(in_grams)),
            note: String::new(),
        };
        Some([Body::BatchStarted(started), Body::Weighed(pulp)])
    }

    fn cook(self) -> Cook {
        let minutes = figure(self.hours, Basis::Measured);
        Cook {
            alkali: self.alkali.get_untracked(),
            hours: minutes.map(|minutes| minutes.map(|minutes| minutes / 60.0)),
            ph_after_rinse: ph_figure(self.ph, true),
            note: trimmed(self.note),
            ..Cook::default()
        }
    }

    fn default_name(self, fibre: &str) -> String {
        let date = clock::local_date(self.opened_at);
        t_with!("start-usual_name", &[("fibre", fibre), ("date", &date)])
    }

    fn fibre_fields(self) -> AnyView {
        let offers = FIBRES.iter().map(|row| fibre_name(row.id)).collect();
        let problem = Signal::derive(move || {
            (self.fibre_missing.get() && self.fibre.with(|f| f.trim().is_empty()))
                .then(|| Message::new(key!("start-fibre_missing")))
        });
        view! {
            <TextField label=t!("start-fibre") text=self.fibre offers problem
                hint=t!("start-fibre_hint") />
            <TextField label=t!("start-name") text=self.name hint=t!("start-name_hint") />
        }
        .into_any()
    }

    fn cook_fields(self) -> AnyView {
        let alkalis = [
            Alkali::SodaAsh,
            Alkali::WashingSoda,
            Alkali::Lye,
            Alkali::WoodAsh,
            Alkali::Lime,
            Alkali::None,
            Alkali::Other,
        ];
        let unsaid = (None, t!("start-alkali_unsaid"));
        let named = alkalis.map(|alkali| (Some(alkali), name_of("alkali", alkali)));
        let options = named.into_iter().chain([unsaid]).collect();
        view! {
            <RadioGroup label=t!("start-alkali") value=self.alkali options />
            <NumberField ask=self.hours />
            <NumberField ask=self.raw hint=t!("start-raw_hint") />
            <NumberField ask=self.ph hint=t!("start-ph_hint") term=Term::CarryOver />
            <TextField label=t!("start-cook_note") text=self.note long=true />
        }
        .into_any()
    }
}

/// The cook, if anything was said of it.
fn said(cook: Cook) -> Option<Cook> {
    (cook != Cook::default()).then_some(cook)
}

fn fibre_name(id: &str) -> String {
    t(&format!("fibre-{id}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cook_of_which_nothing_was_said_is_not_recorded() {
        assert_eq!(said(Cook::default()), None);
        let noted = Cook { note: "twice".to_owned(), ..Cook::default() };
        assert_eq!(said(noted.clone()).and_then(|cook| cook.alkali), None);
        assert_eq!(said(noted.clone()), Some(noted));
    }
}
