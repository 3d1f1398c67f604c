//! The wet lump: what it weighs, and how dry it is.

use bleachfield_core::{
    journal::{DrySample, DrynessFrom as Noted, OwnFigureOf, Weighed},
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

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct LumpForm {
    wet: NumberInput,
    how: RwSignal<DrynessMethod>,
    sample_wet: NumberInput,
    sample_dried: NumberInput,
    dried: RwSignal<DryingMethod>,
    own: NumberInput,
}

/// How the dryness is come by.
#[derive(Clone, Copy, PartialEq)]
enum DrynessMethod {
    Sample,
    Own,
    Assumed,
}

/// A lump that can be reckoned with, and the entry that says how it was weighed.
#[derive(Clone, PartialEq)]
pub struct WeighedPulp {
    pub pulp: WetPulp,
    pub entry: Weighed,
}

impl LumpForm {
    /// An empty form. The studio's own squeeze figure is filled in if it has one.
    pub fn new() -> Self {
        let own = app_state().book_now(|book| {
            book.studio.figures.get(&OwnFigureOf::SqueezeDryness).map(|(f, _)| *f)
        });
        let own_ask = NumberInput::new(DRYNESS, QuantityKind::Share).between(0.005, 0.95);
        let own_text = own.map(|own| format_number(own.value * 100.0, 3)).unwrap_or_default();
        Self {
            wet: NumberInput::new(WET_MASS, QuantityKind::Mass).between(1.0, 200_000.0),
            how: RwSignal::new(if own.is_some() {
                DrynessMethod::Own
            } else {
                DrynessMethod::Sample
            }),
            sample_wet: NumberInput::new(SAMPLE_WET, QuantityKind::Mass)
                .unit(Unit::Gram)
                .between(1.0, 5_000.0),
            sample_dried: NumberInput::new(SAMPLE_DRIED, QuantityKind::Mass)
                .unit(Unit::Gram)
                .between(0.05, 5_000.0),
            dried: RwSignal::new(DryingMethod::Oven),
            own: own_ask.filled(own_text),
        }
    }

    /// The form filled with an earlier weighing.
    pub fn of(entry: &Weighed) -> Self {
        let form = Self::new();
        form.wet.text.set(format_number(entry.wet_mass_g.value, 6));
        match (entry.how, &entry.sample) {
            (Noted::Assumed, _) => form.how.set(DrynessMethod::Assumed),
            // A dried sample says more than a figure that is typed: it is kept as one.
            (Noted::DriedSample, Some(sample)) => {
                form.how.set(DrynessMethod::Sample);
                form.sample_wet.text.set(format_number(sample.wet_g.value, 6));
                form.sample_dried.text.set(format_number(sample.dry_g.value, 6));
                let as_weighed = sample.dry_g.value / sample.wet_g.value;
                let oven = (as_weighed - entry.dryness.value).abs() < 1e-6;
                form.dried.set(if oven { DryingMethod::Oven } else { DryingMethod::Air });
            }
            _ => {
                form.how.set(DrynessMethod::Own);
                form.own.text.set(format_number(entry.dryness.value * 100.0, 4));
            }
        }
        form
    }

    /// Writes a dryness into the form, as a plan that was refused may ask for.
    pub fn set_dryness(self, dryness: f64) {
        self.how.set(DrynessMethod::Own);
        self.own.text.set(format_number(dryness * 100.0, 4));
    }

    /// The lump as answered so far; `None` while a field is empty or refused.
    pub fn lump(self) -> Option<WeighedPulp> {
        self.read().ok().flatten()
    }

    /// Marks what is missing, and says whether the screen may go on.
    pub fn try_now(self) -> bool {
        let asked = match self.how.get() {
            DrynessMethod::Sample => self.sample_wet.try_now() & self.sample_dried.try_now(),
            DrynessMethod::Own => self.own.try_now(),
            DrynessMethod::Assumed => true,
        };
        self.wet.try_now() & asked && self.read().is_ok_and(|lump| lump.is_some())
    }

    fn refused(self) -> Option<Message> {
        self.read().err()
    }

    fn read(self) -> Result<Option<WeighedPulp>, Message> {
        let Some(wet) = self.wet.base() else { return Ok(None) };
        let wet = weighed(grams(wet));
        let (from, how, sample) = match self.how.get() {
            DrynessMethod::Assumed => (DrynessSource::Assumed, Noted::Assumed, None),
            DrynessMethod::Own => {
                let Some(own) = self.own.base() else { return Ok(None) };
                let own = Estimate::within(own, OWN_SQUEEZE_VARIES, Basis::OwnRecord).map(share);
                (DrynessSource::Own(own), Noted::OwnFigure, None)
            }
            DrynessMethod::Sample => {
                let (Some(wet), Some(dried)) = (self.sample_wet.base(), self.sample_dried.base())
                else {
                    return Ok(None);
                };
                let (wet, dried) = (weighed(grams(wet)), weighed(grams(dried)));
                let sample = DrySample { wet_g: wet.map(in_grams), dry_g: dried.map(in_grams) };
                let from = DrynessSource::Sample { wet, dried, how: self.dried.get() };
                (from, Noted::DriedSample, Some(sample))
            }
        };
        let dryness = from.estimate().map_err(|error| error.message())?;
        let pulp = WetPulp::new(wet, dryness).map_err(|error| error.message())?;
        let entry =
            Weighed { wet_mass_g: wet.map(in_grams), dryness: dryness.map(in_share), how, sample };
        Ok(Some(WeighedPulp { pulp, entry }))
    }

    /// The fields.
    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || self.refused());
        let how = self.how;
        view! {
            <div class="stack">
                <NumberField ask=self.wet hint=t!("lump-wet_hint") refused />
                <RadioGroup label=t!("lump-how") value=how options=vec![
                    (DrynessMethod::Sample, t!("lump-sample")),
                    (DrynessMethod::Own, t!("lump-own")),
                    (DrynessMethod::Assumed, t!("lump-assumed")),
                ] />
                {move || match how.get() {
                    DrynessMethod::Sample => view! {
                        <div class="stack">
                            <p class="small soft">{t!("lump-sample_why")}</p>
                            <NumberField ask=self.sample_wet refused />
                            <NumberField ask=self.sample_dried refused />
                            <RadioGroup label=t!("lump-dried") value=self.dried options=vec![
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

/// How far a studio's own squeeze varies from one lump to the next: a tenth of
/// itself (common practice, no source).
const OWN_SQUEEZE_VARIES: f64 = 0.10;
