//! A new batch: which fibre, how it was cooked, and the wet lump on the scale.

use bleachfield_core::{
    journal::{Alkali, BatchStarted, Body, Cook, Subject},
    message::Field,
    pulp::FIBRES,
    quantity::{Basis, Estimate, QuantityKind, Unit},
};
use jiff::Timestamp;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::screens::calculator::inputs::WetPulpForm;
use crate::{
    components::{NumberField, NumberInput, Page, RadioGroup, TextField, to_first_wrong},
    i18n::{key, t, t_with},
    platform::clock,
    route::{Route, go},
    state::app_state,
};

const RAW_FIBRE: Field = Field("raw_fibre");
const COOK_HOURS: Field = Field("cook_hours");
const CARRY_OVER_PH: Field = Field("carry_over_ph");

/// The screen at `/batches/new`.
#[component]
pub fn NewBatch() -> impl IntoView {
    let form = NewBatchForm::new();
    let saving = RwSignal::new(false);
    let save = move |_| {
        let Some(bodies) = form.bodies() else { return to_first_wrong() };
        saving.set(true);
        spawn_local(async move {
            let studio = studio_of(form);
            let batch = studio.fresh_id();
            let about = Subject::Batch(batch);
            let bodies = bodies.into_iter().map(|body| (about, body)).collect();
            let saved = studio.write_all(bodies).await;
            let _ = saving.try_set(false);
            if saved.is_some() {
                go(&Route::Plan(batch));
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
                    {form.lump.view()}
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
    studio: crate::state::AppState,
    begun: Timestamp,
    fibre: RwSignal<String>,
    fibre_missing: RwSignal<bool>,
    name: RwSignal<String>,
    lump: WetPulpForm,
    alkali: RwSignal<Alkali>,
    raw: NumberInput,
    hours: NumberInput,
    ph: NumberInput,
    note: RwSignal<String>,
}

fn studio_of(form: NewBatchForm) -> crate::state::AppState {
    form.studio
}

impl NewBatchForm {
    fn new() -> Self {
        Self {
            studio: app_state(),
            begun: clock::now(),
            fibre: RwSignal::new(String::new()),
            fibre_missing: RwSignal::new(false),
            name: RwSignal::new(String::new()),
            lump: WetPulpForm::new(),
            alkali: RwSignal::new(Alkali::SodaAsh),
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

    /// What to write, or `None` when something is missing or refused; the
    /// fields then say what.
    fn bodies(self) -> Option<Vec<Body>> {
        let fibre = self.fibre.get_untracked().trim().to_owned();
        self.fibre_missing.set(fibre.is_empty());
        let cook_read = self.raw.try_now() & self.hours.try_now() & self.ph.try_now();
        if !self.lump.try_now() || fibre.is_empty() || !cook_read {
            return None;
        }
        let weighed = self.lump.weighed_pulp()?.entry;
        let typed = self.name.get_untracked().trim().to_owned();
        let name = if typed.is_empty() { self.usual_name(&fibre) } else { typed };
        let key =
            FIBRES.iter().find(|row| fibre_name(row.id) == fibre).map(|row| row.id.to_owned());
        let measured = |value: f64| Estimate::exact(value, Basis::Measured);
        let cook = Cook {
            alkali: Some(self.alkali.get_untracked()),
            hours: self.hours.base().map(|minutes| measured(minutes / 60.0)),
            ph_after_rinse: self.ph.base().map(|ph| Estimate {
                value: ph,
                low: (ph - STRIP_OFF).max(0.0),
                high: (ph + STRIP_OFF).min(14.0),
                basis: Basis::Strip,
            }),
            note: self.note.get_untracked().trim().to_owned(),
            ..Cook::default()
        };
        let started = BatchStarted {
            name,
            fibre,
            fibre_key: key,
            cook: Some(cook),
            raw_dry_g: self
                .raw
                .base()
                .map(|raw| Estimate::within(raw * AIR_DRY_RAW, 0.03, Basis::Measured)),
            note: String::new(),
        };
        Some(vec![Body::BatchStarted(started), Body::Weighed(weighed)])
    }

    fn usual_name(self, fibre: &str) -> String {
        t_with!("start-usual_name", &[("fibre", fibre), ("date", &clock::local_date(self.begun))])
    }

    fn fibre_fields(self) -> AnyView {
        let offers = FIBRES.iter().map(|row| fibre_name(row.id)).collect();
        let problem = Signal::derive(move || {
            (self.fibre_missing.get() && self.fibre.with(|f| f.trim().is_empty()))
                .then(|| bleachfield_core::message::Message::new(key!("start-fibre_missing")))
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
            (Alkali::SodaAsh, key!("alkali-soda_ash")),
            (Alkali::WashingSoda, key!("alkali-washing_soda")),
            (Alkali::Lye, key!("alkali-lye")),
            (Alkali::WoodAsh, key!("alkali-wood_ash")),
            (Alkali::Lime, key!("alkali-lime")),
            (Alkali::None, key!("alkali-none")),
            (Alkali::Other, key!("alkali-other")),
        ];
        let options = alkalis.into_iter().map(|(alkali, key)| (alkali, t(key))).collect();
        view! {
            <RadioGroup label=t!("start-alkali") value=self.alkali options />
            <NumberField ask=self.hours />
            <NumberField ask=self.raw hint=t!("start-raw_hint") />
            <NumberField ask=self.ph hint=t!("start-ph_hint") />
            <TextField label=t!("start-cook_note") text=self.note long=true />
        }
        .into_any()
    }
}

/// The trade's name for a fibre of the core's table.
fn fibre_name(id: &str) -> String {
    t(&format!("fibre-{id}"))
}

/// A strip is read to half a unit either way (common practice, no source).
const STRIP_OFF: f64 = 0.5;

/// Oven-dry share of air-dry plant: 91 %, ±3 (common practice, no source).
const AIR_DRY_RAW: f64 = 0.91;
