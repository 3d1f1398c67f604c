//! Wet pulp: its mass, and its dryness.

use bleachfield_core::{
    journal::{DrySample, DrynessFrom, OwnFigureOf, Weighed},
    message::Message,
    pulp::{
        ASSUMED_DRYNESS, DRYNESS, DryingMethod, DrynessSource, SAMPLE_DRIED, SAMPLE_WET, WET_MASS,
        WetPulp,
    },
    quantity::{Basis, Estimate, QuantityKind, Unit, grams, in_grams, in_share, share, weighed},
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, NumberField, NumberInput, RadioGroup},
    i18n::{format_number, t, t_with},
    state::app_state,
};

/// Variation of a studio's own squeeze from one lump to the next, as a share of the figure
/// (common practice, no source).
const OWN_SQUEEZE_VARIES: f64 = 0.10;

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct WetPulpForm {
    wet: NumberInput,
    method: RwSignal<DrynessMethod>,
    sample_wet: NumberInput,
    sample_dried: NumberInput,
    drying: RwSignal<DryingMethod>,
    own: NumberInput,
}

/// How the dryness is found.
#[derive(Clone, Copy, PartialEq)]
enum DrynessMethod {
    Sample,
    Own,
    Assumed,
}

/// Pulp to calculate with, and the entry that records how it was weighed.
#[derive(Clone, PartialEq)]
pub struct WeighedPulp {
    pub pulp: WetPulp,
    pub entry: Weighed,
}

impl WetPulpForm {
    /// An empty form, with the studio's own squeeze dryness if it has one.
    pub fn new() -> Self {
        let own = app_state().book_now(|book| {
            book.studio.figures.get(&OwnFigureOf::SqueezeDryness).map(|(f, _)| *f)
        });
        let own_text = own.map(|own| format_number(own.value * 100.0, 3)).unwrap_or_default();
        let sample = |field, min| {
            NumberInput::new(field, QuantityKind::Mass).unit(Unit::Gram).between(min, 5_000.0)
        };
        let method = if own.is_some() { DrynessMethod::Own } else { DrynessMethod::Sample };
        Self {
            wet: NumberInput::new(WET_MASS, QuantityKind::Mass).between(1.0, 200_000.0),
            method: RwSignal::new(method),
            sample_wet: sample(SAMPLE_WET, 1.0),
            sample_dried: sample(SAMPLE_DRIED, 0.05),
            drying: RwSignal::new(DryingMethod::Oven),
            own: NumberInput::new(DRYNESS, QuantityKind::Share)
                .between(0.005, 0.95)
                .filled(own_text),
        }
    }

    /// The form filled with an earlier weighing.
    pub fn of(entry: &Weighed) -> Self {
        let form = Self::new();
        form.wet.text.set(format_number(entry.wet_mass_g.value, 6));
        match (entry.how, &entry.sample) {
            (DrynessFrom::Assumed, _) => form.method.set(DrynessMethod::Assumed),
            // Kept as a sample, which says more than the dryness alone.
            (DrynessFrom::DriedSample, Some(sample)) => {
                form.method.set(DrynessMethod::Sample);
                form.sample_wet.text.set(format_number(sample.wet_g.value, 6));
                form.sample_dried.text.set(format_number(sample.dry_g.value, 6));
                let as_weighed = sample.dry_g.value / sample.wet_g.value;
                let oven = (as_weighed - entry.dryness.value).abs() < 1e-6;
                form.drying.set(if oven { DryingMethod::Oven } else { DryingMethod::Air });
            }
            _ => {
                form.method.set(DrynessMethod::Own);
                form.own.text.set(format_number(entry.dryness.value * 100.0, 4));
            }
        }
        form
    }

    /// Sets the dryness, as the remedy of a refused plan.
    pub fn set_dryness(self, dryness: f64) {
        self.method.set(DrynessMethod::Own);
        self.own.text.set(format_number(dryness * 100.0, 4));
    }

    /// The pulp as answered so far; `None` while a field is empty or refused.
    pub fn weighed_pulp(self) -> Option<WeighedPulp> {
        self.read().ok().flatten()
    }

    /// Marks missing fields; whether the form is complete.
    pub fn try_now(self) -> bool {
        let dryness = match self.method.get() {
            DrynessMethod::Sample => self.sample_wet.try_now() & self.sample_dried.try_now(),
            DrynessMethod::Own => self.own.try_now(),
            DrynessMethod::Assumed => true,
        };
        self.wet.try_now() & dryness && self.weighed_pulp().is_some()
    }

    fn read(self) -> Result<Option<WeighedPulp>, Message> {
        let Some(wet) = self.wet.base() else { return Ok(None) };
        let wet = weighed(grams(wet));
        let (source, how, sample) = match self.method.get() {
            DrynessMethod::Assumed => (DrynessSource::Assumed, DrynessFrom::Assumed, None),
            DrynessMethod::Own => {
                let Some(own) = self.own.base() else { return Ok(None) };
                let own = Estimate::within(own, OWN_SQUEEZE_VARIES, Basis::OwnRecord).map(share);
                (DrynessSource::Own(own), DrynessFrom::OwnFigure, None)
            }
            DrynessMethod::Sample => {
                let (Some(wet), Some(dried)) = (self.sample_wet.base(), self.sample_dried.base())
                else {
                    return Ok(None);
                };
                let (wet, dried) = (weighed(grams(wet)), weighed(grams(dried)));
                let sample = DrySample { wet_g: wet.map(in_grams), dry_g: dried.map(in_grams) };
                let source = DrynessSource::Sample { wet, dried, how: self.drying.get() };
                (source, DrynessFrom::DriedSample, Some(sample))
            }
        };
        let dryness = source.estimate().map_err(|error| error.message())?;
        let pulp = WetPulp::new(wet, dryness).map_err(|error| error.message())?;
        let entry =
            Weighed { wet_mass_g: wet.map(in_grams), dryness: dryness.map(in_share), how, sample };
        Ok(Some(WeighedPulp { pulp, entry }))
    }

    /// The fields.
    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || self.read().err());
        view! {
            <div class="stack">
                <NumberField ask=self.wet hint=t!("lump-wet_hint") refused />
                <RadioGroup label=t!("lump-how") value=self.method options=vec![
                    (DrynessMethod::Sample, t!("lump-sample")),
                    (DrynessMethod::Own, t!("lump-own")),
                    (DrynessMethod::Assumed, t!("lump-assumed")),
                ] />
                {move || match self.method.get() {
                    DrynessMethod::Sample => view! {
                        <div class="stack">
                            <p class="small soft">{t!("lump-sample_why")}</p>
                            <NumberField ask=self.sample_wet refused />
                            <NumberField ask=self.sample_dried refused />
                            <RadioGroup label=t!("lump-dried") value=self.drying options=vec![
                                (DryingMethod::Oven, t!("lump-oven")),
                                (DryingMethod::Air, t!("lump-air")),
                            ] />
                        </div>
                    }.into_any(),
                    DrynessMethod::Own => view! {
                        <NumberField ask=self.own hint=t!("lump-own_hint") refused />
                    }.into_any(),
                    DrynessMethod::Assumed => view! {
                        <p>
                            {t_with!("lump-assumed_why", &[
                                ("middle", &format_number(ASSUMED_DRYNESS.value * 100.0, 3)),
                                ("low", &format_number(ASSUMED_DRYNESS.low * 100.0, 3)),
                                ("high", &format_number(ASSUMED_DRYNESS.high * 100.0, 3)),
                            ])}
                            " "<Assumed />
                        </p>
                    }.into_any(),
                }}
            </div>
        }
        .into_any()
    }
}
