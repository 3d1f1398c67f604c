//! The bath at its start: what was planned, said and photographed, with ranges.

use super::{AssumedInput, BathForecastError, substance, water, with_tap_water};
use crate::{
    bath::{self, THERMOMETER_ERROR, guide},
    chemistry::{
        equilibrium::Mix,
        substance::{SODIUM_CARBONATE, SODIUM_HYPOCHLORITE, in_moles_per_litre, moles_per_litre},
    },
    colour::{
        kubelka_munk::{k_over_s, reflectance},
        space::Lab,
    },
    derive::{Swatch, drying_shift, swatches},
    journal::{Active, Amount, Batch, BathStarted, BathView, Body, Figure, PlanRecord, PulpState},
    quantity::{Basis, Estimate, grams_per_litre},
};

/// The bath at its start. Units as in a `ForecastRequest`.
pub(super) struct Start {
    pub mix: Mix,
    pub strength: Estimate<f64>,
    pub ph: Estimate<f64>,
    pub celsius: Estimate<f64>,
    pub consistency: Estimate<f64>,
    /// L*, a*, b* of the dry pulp.
    pub colour: [Estimate<f64>; 3],
    pub drying: Estimate<f64>,
    /// The swatch that the colour is from, if it was wet: it is compared with at minute 0.
    pub wet_swatch: Option<Swatch>,
    /// pH of a sample cooled to 25 °C over that in the bath.
    pub cooled_by: f64,
    pub assumed: Vec<AssumedInput>,
}

/// Strength of a bath that nobody planned, g/L: what baths have (see `bath_limit`).
const STRENGTH: Estimate<f64> = assumed(1.0, 0.3, 4.0);
/// Its consistency.
const CONSISTENCY: Estimate<f64> = assumed(0.05, 0.02, 0.10);
/// pH of an untested bath (the windows of practice, a little wider; own estimate).
const CHLORINE_PH: Estimate<f64> = assumed(10.2, 9.0, 11.6);
const PEROXIDE_PH: Estimate<f64> = assumed(10.4, 9.4, 11.3);
/// A bath that nobody measured may be much colder than planned: cold pulp, cold vessel (own
/// estimate).
const COLDER: f64 = 6.0;
const WARMER: f64 = 3.0;
/// L*, a*, b* of cooked, unbleached plant pulp, dry: from dark straw to pale bast (own estimate).
const COLOUR: [Estimate<f64>; 3] =
    [assumed(64.0, 48.0, 79.0), assumed(5.0, 1.0, 9.0), assumed(19.0, 10.0, 27.0)];
/// Dried over wet K/S of a pulp without a pair of its own: L* of 60 dries to 65 to 70 (own
/// estimate).
const DRYING: Estimate<f64> = assumed(0.5, 0.3, 0.75);
/// How far a* and b* of a wet swatch are from those of the dry one (own estimate).
const HUE_SHIFT: f64 = 3.0;

const fn assumed(value: f64, low: f64, high: f64) -> Estimate<f64> {
    Estimate { value, low, high, basis: Basis::Assumed }
}

impl Start {
    pub(super) fn of(
        batch: &Batch,
        view: &BathView,
        plan: Option<&PlanRecord>,
    ) -> Result<Self, BathForecastError> {
        let mut missing = Vec::new();
        let said = started(batch, view);
        let oxidant = bath::Oxidant::from(view.oxidant);
        let celsius = celsius(oxidant, said, plan, &mut missing);
        let strength = strength(oxidant, said, plan).unwrap_or_else(|| {
            missing.push(AssumedInput::Strength);
            STRENGTH.map(|g_per_l| g_per_l / substance(oxidant).grams_per_mole)
        });
        let ph = plan.and_then(|plan| plan.ph).unwrap_or_else(|| {
            missing.push(AssumedInput::Ph);
            if oxidant.is_peroxide() { PEROXIDE_PH } else { CHLORINE_PH }
        });
        let consistency = plan.map_or_else(
            || {
                missing.push(AssumedInput::Consistency);
                CONSISTENCY
            },
            |plan| plan.consistency,
        );
        let mix = with_soda(with_tap_water(water(celsius.value)?, 1.0), plan);
        let all = swatches(batch);
        let drying = drying_shift(&all).map_or_else(
            || {
                missing.push(AssumedInput::Drying);
                DRYING
            },
            // Of the green channel, which is nearest to the luminance.
            |shift| shift.factor[1],
        );
        let swatch = swatch_before(batch, view, all);
        let colour = swatch.as_ref().map_or_else(
            || {
                missing.push(AssumedInput::Colour);
                COLOUR
            },
            |swatch| dry_colour(swatch, drying),
        );
        let wet_swatch = swatch.filter(|swatch| swatch.reading.pulp == PulpState::Wet);
        let cooled_by = cooled_by(oxidant, &mix, strength.value, ph.value);
        let (ph, strength) = (clamped(ph, 3.5, 12.9), clamped(strength, 0.0, 0.49));
        let consistency = clamped(consistency, 0.001, 0.45);
        Ok(Self {
            mix,
            strength,
            ph,
            celsius,
            consistency,
            colour,
            drying,
            wet_swatch,
            cooled_by,
            assumed: missing,
        })
    }
}

/// The entry that started the bath, as corrected.
fn started<'a>(batch: &'a Batch, view: &BathView) -> Option<&'a BathStarted> {
    batch.visible_entries().find_map(|entry| match &entry.body {
        Body::BathStarted(started) if started.bath == view.id => Some(started),
        _ => None,
    })
}

fn celsius(
    oxidant: bath::Oxidant,
    said: Option<&BathStarted>,
    plan: Option<&PlanRecord>,
    missing: &mut Vec<AssumedInput>,
) -> Estimate<f64> {
    let measured = said
        .and_then(|started| started.celsius)
        .filter(|read| !matches!(read.basis, Basis::Assumed | Basis::Computed));
    let celsius = measured.unwrap_or_else(|| {
        missing.push(AssumedInput::Celsius);
        let (least, most) = guide(oxidant).temperature.practice;
        match plan.map(|plan| plan.celsius) {
            Some(value) => assumed(value, value - COLDER, value + WARMER),
            None => assumed(f64::midpoint(least, most), least - COLDER, most),
        }
    });
    // A stated figure is never better than a thermometer.
    let Estimate { value, low, high, basis } = clamped(celsius, 5.0, 80.0);
    let half = THERMOMETER_ERROR / 2.0;
    let value = Estimate { value, low: low.min(value - half), high: high.max(value + half), basis };
    clamped(value, 5.0, 80.0)
}

/// The plan's strength, mol/L, by what was really measured in.
fn strength(
    oxidant: bath::Oxidant,
    said: Option<&BathStarted>,
    plan: Option<&PlanRecord>,
) -> Option<Estimate<f64>> {
    let plan = plan?;
    let grams_per_mole = match plan.counted_as {
        Active::AvailableChlorine | Active::HydrogenPeroxide => substance(oxidant).grams_per_mole,
        Active::SodiumHypochlorite => SODIUM_HYPOCHLORITE.grams_per_mole,
        Active::Product => return None,
    };
    let planned = plan.liquor_strength_g_per_l.map(|g_per_l| g_per_l / grams_per_mole);
    let measured = |figure: &Figure| figure.basis == Basis::Measured;
    let ratio = said.and_then(|started| started.product_amount).and_then(|amount| {
        match (amount, plan.product_amount) {
            (Amount::MassG(went_in), Amount::MassG(planned))
            | (Amount::VolumeMl(went_in), Amount::VolumeMl(planned)) => {
                let usable = measured(&went_in) && planned.value > 0.0;
                usable.then(|| went_in.value / planned.value)
            }
            _ => None,
        }
    });
    let water = said
        .and_then(|started| started.water_added_ml)
        .filter(measured)
        .map_or(0.0, |water| water.value - plan.water_to_add_ml.value);
    let liquor = plan.liquor_ml.value.max(1.0);
    let thinner = liquor / (liquor + water).max(0.1 * liquor);
    Some(planned.map(|strength| strength * ratio.unwrap_or(1.0) * thinner))
}

/// With the soda ash that was weighed for a peroxide bath.
fn with_soda(mix: Mix, plan: Option<&PlanRecord>) -> Mix {
    let Some((plan, soda)) = plan.and_then(|plan| Some((plan, plan.soda_ash_g?))) else {
        return mix;
    };
    let litres = plan.liquor_ml.value.max(1.0) / 1000.0;
    mix.with_soda_ash(SODIUM_CARBONATE.molar(grams_per_litre(soda.value / litres)))
}

/// The last colour reading of the pulp as it went into this bath: after the bath before, and not
/// aged. One in the first two minutes counts too.
fn swatch_before(batch: &Batch, view: &BathView, all: Vec<Swatch>) -> Option<Swatch> {
    let before = batch.baths.iter().filter(|bath| bath.started < view.started);
    let since = before.filter_map(|bath| bath.stopped.map(|stopped| stopped.at)).max();
    let is_of_start = |swatch: &Swatch| {
        let early = swatch.at.duration_since(view.started).as_secs() <= 120;
        early && since.is_none_or(|since| swatch.at >= since) && swatch.reading.ageing.is_none()
    };
    let all: Vec<Swatch> = all.into_iter().filter(is_of_start).collect();
    let dried = all.iter().rev().find(|swatch| swatch.reading.pulp == PulpState::Dried);
    dried.or(all.last()).cloned()
}

/// L*, a*, b* of a swatch once dry.
fn dry_colour(swatch: &Swatch, drying: Estimate<f64>) -> [Estimate<f64>; 3] {
    let [lightness, a, b] = swatch.figures();
    if swatch.reading.pulp == PulpState::Dried {
        return [clamped(lightness, 6.0, 99.0), clamped(a, -39.0, 59.0), clamped(b, -39.0, 59.0)];
    }
    let dried = |wet: f64, factor: f64| {
        let y = Lab { l: wet, a: 0.0, b: 0.0 }.to_xyz().y / 100.0;
        let dry = k_over_s(y.clamp(1e-3, 0.985)).and_then(|k| reflectance(k * factor));
        let y = 100.0 * dry.unwrap_or(y);
        Lab::from_xyz(crate::colour::space::Xyz { x: 0.950_47 * y, y, z: 1.088_83 * y }).l
    };
    // Pressed pulp is between wet and dry.
    let pressed = swatch.reading.pulp == PulpState::Pressed;
    let most = if pressed { 1.0 } else { drying.high };
    let lightness = Estimate {
        value: dried(lightness.value, drying.value),
        low: dried(lightness.low, most),
        high: dried(lightness.high, drying.low),
        basis: Basis::Computed,
    };
    let hue = |figure: Figure| Estimate {
        value: figure.value,
        low: figure.low - HUE_SHIFT,
        high: figure.high + HUE_SHIFT,
        basis: Basis::Computed,
    };
    [clamped(lightness, 6.0, 99.0), clamped(hue(a), -39.0, 59.0), clamped(hue(b), -39.0, 59.0)]
}

/// How much higher the pH of a cooled sample is; 0 where it cannot be solved.
fn cooled_by(oxidant: bath::Oxidant, mix: &Mix, strength: f64, ph: f64) -> f64 {
    let amount = moles_per_litre(strength);
    let mix = match oxidant {
        bath::Oxidant::Hypochlorite => mix.with_bleach(amount),
        bath::Oxidant::Percarbonate => mix.with_percarbonate(amount / 1.5),
        bath::Oxidant::Peroxide => mix.with_peroxide(amount),
    };
    let cooled = || {
        let base = in_moles_per_litre(mix.hidden_base(ph).ok()?);
        let mix = mix.with_strong_acid(moles_per_litre(-base));
        let at_25 = mix.brought_to(crate::chemistry::alkali::WINDOW_CELSIUS).ok()?;
        Some(at_25.solve().ok()?.ph() - ph)
    };
    cooled().unwrap_or(0.0)
}

/// An estimate with value and ends within limits and in order.
pub(super) fn clamped(of: Estimate<f64>, least: f64, most: f64) -> Estimate<f64> {
    let value = of.value.clamp(least, most);
    Estimate { value, low: of.low.clamp(least, value), high: of.high.clamp(value, most), ..of }
}
