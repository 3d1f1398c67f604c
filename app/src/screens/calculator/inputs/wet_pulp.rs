//! Wet pulp: its mass, and its dryness.

use bleachfield_core::{
    journal::{DrySample, DrynessFrom, OwnFigureOf, Weighed},
    message::{Field, Message},
    pulp::{
        ASSUMED_DRYNESS, DRYNESS, DryingMethod, DrynessSource, SAMPLE_DRIED, SAMPLE_WET, WET_MASS,
        WetPulp,
        wash::{own_dryness, recorded_dryness},
    },
    quantity::{
        Basis, Estimate, Mass, QuantityKind, Ratio, Unit, grams, in_grams, in_share, share, weighed,
    },
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, NumberField, NumberInput, RadioGroup, RecordedInput, Term},
    i18n::{format_number, t, t_with},
    route::Sum,
    screens::calculator::session::{keep_choice, keep_inputs},
    state::app_state,
};

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct WetPulpForm {
    wet: RecordedInput<Estimate<Mass>>,
    method: RwSignal<DrynessMethod>,
    sample_wet: RecordedInput<Estimate<Mass>>,
    sample_dried: RecordedInput<Estimate<Mass>>,
    /// `None` while nobody said.
    drying: RwSignal<Option<DryingMethod>>,
    own: RecordedInput<Estimate<Ratio>>,
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
        let sample = |field, min| {
            let input = NumberInput::new(field, QuantityKind::Mass).unit(Unit::Gram);
            empty(input.between(min, 5_000.0))
        };
        let dryness = NumberInput::new(DRYNESS, QuantityKind::Share).between(0.005, 0.95);
        let method = if own.is_some() { DrynessMethod::Own } else { DrynessMethod::Sample };
        Self {
            wet: empty(NumberInput::new(WET_MASS, QuantityKind::Mass).between(1.0, 200_000.0)),
            method: RwSignal::new(method),
            sample_wet: sample(SAMPLE_WET, 1.0),
            sample_dried: sample(SAMPLE_DRIED, 0.05),
            drying: RwSignal::new(None),
            own: RecordedInput::new(dryness, own.map(recorded_dryness), percent),
        }
    }

    /// The form with the assumed dryness chosen, unless the studio has its own.
    pub fn assuming() -> Self {
        let form = Self::new();
        if form.method.get_untracked() == DrynessMethod::Sample {
            form.method.set(DrynessMethod::Assumed);
        }
        form
    }

    /// The form filled with an earlier weighing, whose figures keep their range and basis.
    pub fn of(entry: &Weighed) -> Self {
        let form = Self::new();
        form.wet.fill(entry.wet_mass_g.map(grams), in_grams_value);
        match (entry.how, &entry.sample) {
            (DrynessFrom::Assumed, _) => form.method.set(DrynessMethod::Assumed),
            // Kept as a sample, which says more than the dryness alone.
            (DrynessFrom::DriedSample, Some(sample)) => {
                form.method.set(DrynessMethod::Sample);
                form.sample_wet.fill(sample.wet_g.map(grams), in_grams_value);
                form.sample_dried.fill(sample.dry_g.map(grams), in_grams_value);
                form.drying.set(drying(sample, entry.dryness.value));
            }
            _ => {
                form.method.set(DrynessMethod::Own);
                form.own.fill(entry.dryness.map(share), percent);
            }
        }
        form
    }

    /// Presses the pulp to a dryness, as the remedy of a refused plan: the fibre stays and water
    /// goes. Both figures are worked out, not measured, until they are typed over.
    pub fn set_dryness(self, dryness: f64) {
        if let Some(weighed) = self.weighed_pulp() {
            self.wet.fill(pressed(&weighed.pulp, dryness), in_grams_value);
        }
        self.method.set(DrynessMethod::Own);
        self.own.fill(Estimate::exact(share(dryness), Basis::Computed), percent);
    }

    /// Keeps what is typed and chosen in this tab, for a sum of Mix.
    pub fn keep(self, sum: Sum) {
        use DrynessMethod::{Assumed, Own, Sample};
        let inputs = [self.wet.input, self.sample_wet.input, self.sample_dried.input];
        keep_inputs(sum, &inputs);
        keep_inputs(sum, &[self.own.input]);
        keep_choice(sum, "dryness_method", self.method, &[Sample, Own, Assumed]);
        let dryings = &[None, Some(DryingMethod::Oven), Some(DryingMethod::Air)];
        keep_choice(sum, "drying", self.drying, dryings);
    }

    /// The pulp as answered so far; `None` while a field is empty or refused.
    pub fn weighed_pulp(self) -> Option<WeighedPulp> {
        self.read().ok().flatten()
    }

    /// The first field that is empty or refused. Tracked.
    pub fn missing(self) -> Option<Field> {
        let dryness: &[NumberInput] = match self.method.get() {
            DrynessMethod::Sample => &[self.sample_wet.input, self.sample_dried.input],
            DrynessMethod::Own => &[self.own.input],
            DrynessMethod::Assumed => &[],
        };
        let fields = [self.wet.input].into_iter().chain(dryness.iter().copied());
        let unread =
            fields.into_iter().find(|input| input.base().is_none()).map(NumberInput::field);
        unread.or_else(|| self.read().err().map(|error| error.field.unwrap_or(WET_MASS)))
    }

    /// Marks missing fields; whether the form is complete.
    pub fn try_now(self) -> bool {
        let dryness = match self.method.get() {
            DrynessMethod::Sample => {
                self.sample_wet.input.try_now() & self.sample_dried.input.try_now()
            }
            DrynessMethod::Own => self.own.input.try_now(),
            DrynessMethod::Assumed => true,
        };
        self.wet.input.try_now() & dryness && self.weighed_pulp().is_some()
    }

    fn read(self) -> Result<Option<WeighedPulp>, Message> {
        let by_scale = |g| weighed(grams(g));
        let Some(wet) = self.wet.get(by_scale) else { return Ok(None) };
        let (source, how, sample) = match self.method.get() {
            DrynessMethod::Assumed => (DrynessSource::Assumed, DrynessFrom::Assumed, None),
            DrynessMethod::Own => {
                let Some(own) = self.own.get(|own| own_dryness(share(own))) else {
                    return Ok(None);
                };
                (DrynessSource::Own(own), DrynessFrom::OwnFigure, None)
            }
            DrynessMethod::Sample => {
                let sample = (self.sample_wet.get(by_scale), self.sample_dried.get(by_scale));
                let (Some(wet), Some(dried)) = sample else { return Ok(None) };
                let drying = self.drying.get();
                let (wet_g, dry_g) = (wet.map(in_grams), dried.map(in_grams));
                let sample = DrySample { wet_g, dry_g, drying };
                let source = DrynessSource::Sample { wet, dried, how: drying };
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
        view! { <div class="stack">{self.wet_field()}{self.dryness_fields()}</div> }.into_any()
    }

    /// The mass of the wet pulp.
    pub fn wet_field(self) -> AnyView {
        let refused = Signal::derive(move || self.read().err());
        view! { <NumberField ask=self.wet.input hint=t!("lump-wet_hint") refused /> }.into_any()
    }

    /// How the dryness is found. Tracked.
    pub fn dryness_is_assumed(self) -> bool {
        self.method.get() == DrynessMethod::Assumed
    }

    /// The fields of the dryness.
    pub fn dryness_fields(self) -> AnyView {
        let refused = Signal::derive(move || self.read().err());
        view! {
            <div class="stack">
                <RadioGroup label=t!("lump-how") value=self.method options=vec![
                    (DrynessMethod::Sample, t!("lump-sample")),
                    (DrynessMethod::Own, t!("lump-own")),
                    (DrynessMethod::Assumed, t!("lump-assumed")),
                ] />
                {move || match self.method.get() {
                    DrynessMethod::Sample => view! {
                        <div class="stack">
                            <p class="small soft">{t!("lump-sample_why")}</p>
                            <NumberField ask=self.sample_wet.input refused />
                            <NumberField ask=self.sample_dried.input refused />
                            <RadioGroup label=t!("lump-dried") value=self.drying options=vec![
                                (Some(DryingMethod::Oven), t!("lump-oven")),
                                (Some(DryingMethod::Air), t!("lump-air")),
                                (None, t!("lump-drying_unsaid")),
                            ] />
                            {move || self.drying.get().is_none().then(|| view! {
                                <p class="small soft">{t!("lump-drying_unsaid_why")}</p>
                            })}
                        </div>
                    }.into_any(),
                    DrynessMethod::Own => view! {
                        <NumberField ask=self.own.input hint=t!("lump-own_hint") refused
                            term=Term::Dryness />
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

fn empty(input: NumberInput) -> RecordedInput<Estimate<Mass>> {
    RecordedInput::new(input, None, in_grams_value)
}

fn in_grams_value(mass: Estimate<Mass>) -> f64 {
    in_grams(mass.value)
}

fn percent(dryness: Estimate<Ratio>) -> f64 {
    in_share(dryness.value) * 100.0
}

/// The mass of pulp that is pressed to a dryness.
fn pressed(pulp: &WetPulp, dryness: f64) -> Estimate<Mass> {
    pulp.oven_dry().map(|dry| dry / dryness).estimate()
}

/// How a sample was dried: as recorded, or as its dryness shows in an entry of an earlier
/// version.
fn drying(sample: &DrySample, dryness: f64) -> Option<DryingMethod> {
    let shown = || DryingMethod::of(sample.wet_g.value, sample.dry_g.value, dryness);
    sample.drying.or_else(shown)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pressing_takes_water_and_leaves_the_fibre() {
        let wet = Estimate::within(grams(1000.0), 0.01, Basis::Measured);
        let dryness = Estimate::within(share(0.2), 0.1, Basis::OwnRecord);
        let Ok(pulp) = WetPulp::new(wet, dryness) else { panic!("pulp") };
        let wet = pressed(&pulp, 0.25).map(in_grams);
        assert!((wet.value - 800.0).abs() < 1e-9);
        assert!(wet.low < 740.0 && wet.high > 860.0);
        assert!(wet.basis >= Basis::Computed);
    }

    #[test]
    fn the_drying_of_a_sample_is_as_recorded_or_as_its_dryness_shows() {
        let figure = |value| Estimate::exact(value, Basis::Measured);
        let old = DrySample { wet_g: figure(50.0), dry_g: figure(10.0), drying: None };
        assert_eq!(drying(&old, 0.2), Some(DryingMethod::Oven));
        assert_eq!(drying(&old, 0.185), Some(DryingMethod::Air));
        let said = DrySample { drying: Some(DryingMethod::Air), ..old };
        assert_eq!(drying(&said, 0.2), Some(DryingMethod::Air));
    }
}
