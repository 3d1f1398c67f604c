//! Remedies: the smallest changes that make a refused request feasible.
//!
//! Each is found by search, and offered only if the changed request is feasible.

use super::{
    carry_over::ExpressedWater,
    check::CheckedRequest,
    error::PlanError,
    feasibility::check_feasible,
    request::{BathAim, BathSize, Bleach, BleachAmount, PlanRequest},
    solve::solve,
};
use crate::{
    bath::{
        peroxide_bottle::{PeroxideBasis, PeroxideBottle},
        strength::{Bottle, LabelBasis, Powder},
    },
    chemistry::{Oxidant, Residual, alkali::strip_ph, compatibility::Ingredient},
    message::{Message, Value},
    pulp::{PRESSED_AT_MOST, WetPulp},
    quantity::{
        Basis, Celsius, Estimate, MassConcentration, Ratio, Volume, grams, grams_per_litre,
        in_grams, in_grams_per_litre, in_millilitres, in_share, millilitres, share,
    },
};

/// One change that makes a refused request feasible.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remedy {
    /// Press the pulp to at least this dryness.
    Press(Ratio),
    /// A lower consistency.
    Consistency(Ratio),
    /// A larger bath.
    Volume(Volume),
    /// Less bleach: this dose, which is this charge.
    LessBleach { dose: BleachAmount, charge: Ratio },
    /// A weaker liquor.
    Strength(MassConcentration),
    /// A bottle with at least this much available chlorine.
    StrongerBottle(MassConcentration),
    /// A temperature of at least this.
    Warm(Celsius),
    /// Wash out the other oxidant and test that it is gone.
    WashFirst,
    /// Leave this ingredient out.
    LeaveOut(Ingredient),
    /// Rinse the pulp until its water reads as the tap's.
    RinsePulp,
    /// Soak the pulp in soda and test again.
    SoakInSoda,
    /// Measure the strength of the bleach.
    MeasureStrength(Oxidant),
    /// Buy a new bottle or tub with its strength on the label.
    NewBleach,
    /// Buy peroxide that is weak enough.
    WeakerPeroxide,
}

impl Remedy {
    /// The request with this change made.
    #[must_use]
    pub fn apply(&self, request: &PlanRequest) -> PlanRequest {
        let mut changed = request.clone();
        match *self {
            Remedy::Press(dryness) => changed.pulp = pressed(&request.pulp, in_share(dryness)),
            Remedy::Consistency(consistency) => changed.size = BathSize::Consistency(consistency),
            Remedy::Volume(volume) => changed.size = BathSize::TotalVolume(volume),
            Remedy::LessBleach { charge, .. } => changed.aim = BathAim::Charge(charge),
            Remedy::Strength(strength) => changed.aim = BathAim::Strength(strength),
            Remedy::StrongerBottle(strength) => {
                changed.bleach = Bleach::Hypochlorite(Bottle::labelled(
                    in_grams_per_litre(strength),
                    LabelBasis::ChlorineGramsPerLitre,
                ));
            }
            Remedy::Warm(temperature) => changed.temperature = temperature,
            Remedy::WashFirst => changed.residual = Residual::None,
            Remedy::LeaveOut(what) => changed.other_ingredients.retain(|one| *one != what),
            Remedy::RinsePulp | Remedy::SoakInSoda => {
                changed.expressed_water = request.expressed_water.map(rinsed);
            }
            Remedy::WeakerPeroxide => {
                changed.bleach =
                    Bleach::Peroxide(PeroxideBottle::labelled(SOLD_PERCENT, PeroxideBasis::ByMass));
            }
            Remedy::MeasureStrength(_) | Remedy::NewBleach => {
                changed.bleach = measured(request.bleach);
            }
        }
        changed
    }

    /// The message for a person.
    pub fn message(&self) -> Message {
        let new = |key, name, value| Message::new(key).with(name, value);
        let share = |ratio| Value::Share(in_share(ratio));
        match *self {
            Self::Press(x) => new("way-squeeze", "dryness", share(x)),
            Self::Consistency(x) => new("way-consistency", "consistency", share(x)),
            Self::Volume(x) => new("way-volume", "volume", Value::Volume(x)),
            Self::LessBleach { dose, charge } => {
                new("way-use", "dose", dose.value()).with("charge", share(charge))
            }
            Self::Strength(x) => new("way-strength", "strength", Value::Concentration(x)),
            Self::StrongerBottle(x) => {
                new("way-stronger_bottle", "strength", Value::Concentration(x))
            }
            Self::Warm(x) => new("way-warm", "temperature", Value::Celsius(x.get())),
            Self::WashFirst => Message::new("way-wash_first"),
            Self::RinsePulp => Message::new("way-rinse_pulp"),
            Self::SoakInSoda => Message::new("way-soak_in_soda"),
            Self::MeasureStrength(Oxidant::Hypochlorite) => Message::new("way-measure_bottle"),
            Self::MeasureStrength(Oxidant::Percarbonate) => Message::new("way-measure_powder"),
            Self::MeasureStrength(Oxidant::Peroxide) => Message::new("way-measure_peroxide"),
            Self::NewBleach => Message::new("way-new_bleach"),
            Self::WeakerPeroxide => {
                new("way-weaker_peroxide", "percent", Value::Share(SOLD_PERCENT / 100.0))
            }
            Self::LeaveOut(what) => new("way-leave_out", "what", Value::Word(what.key())),
        }
    }
}

/// Remedies for `error`, the smallest change first. What must be washed out or measured comes
/// before any other question, so those are offered whatever the rest of the request is.
pub(super) fn remedies(request: &PlanRequest, error: &PlanError) -> Vec<Remedy> {
    let found = match error {
        PlanError::OutOfRange(_) | PlanError::NotFinite => return Vec::new(),
        PlanError::WouldMix { .. } => vec![if_feasible(request, Remedy::WashFirst)],
        PlanError::Clash(clash) => vec![
            if_feasible(request, Remedy::LeaveOut(clash.second)),
            if_feasible(request, Remedy::LeaveOut(clash.first)),
        ],
        PlanError::AcidPulp { .. } => vec![Some(Remedy::RinsePulp), Some(Remedy::SoakInSoda)],
        PlanError::BottleTooUncertain { .. }
        | PlanError::PowderTooUncertain { .. }
        | PlanError::PeroxideTooUncertain { .. } => {
            let measure = Remedy::MeasureStrength(request.bleach.oxidant());
            vec![Some(measure), Some(Remedy::NewBleach)]
        }
        PlanError::PeroxideTooStrong { .. } => vec![Some(Remedy::WeakerPeroxide)],
        PlanError::TooWeak { .. } => vec![weaker_liquor(request), stronger_bottle(request)],
        PlanError::PulpTooWet { .. } | PlanError::NoRoomForBleach { .. } => vec![
            press(request),
            larger_bath(request),
            less_bleach(request),
            weaker_liquor(request),
            stronger_bottle(request),
        ],
        PlanError::WillNotDissolve { .. } => vec![
            warmer(request),
            larger_bath(request),
            less_bleach(request),
            weaker_liquor(request),
        ],
        PlanError::NotEnough { .. } => vec![less_bleach(request), weaker_liquor(request)],
    };
    found.into_iter().flatten().collect()
}

/// The pulp's water as a strip reads it at the tap's pH.
fn rinsed(water: ExpressedWater) -> ExpressedWater {
    ExpressedWater { ph: strip_ph(TAP_PH), ..water }
}

/// The bleach at the middle of its range, known to 5 %.
fn measured(bleach: Bleach) -> Bleach {
    match bleach {
        Bleach::Hypochlorite(bottle) => Bleach::Hypochlorite(Bottle {
            figure: Estimate::within(bottle.figure.value, 0.05, Basis::Measured),
            ..bottle
        }),
        Bleach::Percarbonate(powder) => Bleach::Percarbonate(Powder {
            figure: Estimate::within(powder.figure.value, 0.05, Basis::Measured),
            ..powder
        }),
        Bleach::Peroxide(bottle) => Bleach::Peroxide(PeroxideBottle {
            figure: Estimate::within(bottle.figure.value, 0.05, Basis::Measured),
            ..bottle
        }),
    }
}

/// Hydrogen peroxide as pharmacies sell it, % (common practice, no source).
const SOLD_PERCENT: f64 = 3.0;

/// pH of tap water (from memory).
const TAP_PH: f64 = 7.5;

/// The pulp pressed to `dryness`: the fibre stays, water leaves.
fn pressed(pulp: &WetPulp, dryness: f64) -> WetPulp {
    let oven_dry = in_grams(pulp.wet.value) * in_share(pulp.dryness.value);
    // The uncertainty of the fibre is unchanged; the new dryness is a target.
    let relative = |end: Ratio| in_share(end) / in_share(pulp.dryness.value);
    let wet = oven_dry / dryness;
    let up = (in_grams(pulp.wet.high) / in_grams(pulp.wet.value)).max(relative(pulp.dryness.high));
    let down = (in_grams(pulp.wet.low) / in_grams(pulp.wet.value)).min(relative(pulp.dryness.low));
    let wet = Estimate { value: wet, low: wet * down, high: wet * up, basis: Basis::Computed };
    WetPulp { wet: wet.map(grams), dryness: Estimate::exact(share(dryness), Basis::Assumed) }
}

/// Steps of 0.5 % dryness.
fn press(request: &PlanRequest) -> Option<Remedy> {
    let now = in_share(request.pulp.dryness.value);
    let first = (now * 200.0).floor() as u32 + 1;
    let last = (PRESSED_AT_MOST * 200.0) as u32;
    smallest(first, last, |n| Some(Remedy::Press(share(f64::from(n) / 200.0))), request)
}

/// A lower consistency in steps of 0.1 %, or a larger volume in steps of 10 or
/// 100 mL, whichever the bath is sized by.
fn larger_bath(request: &PlanRequest) -> Option<Remedy> {
    match request.size {
        BathSize::Consistency(now) => {
            let now = (in_share(now) * 1000.0).ceil() as u32;
            let remedy =
                |n: u32| Some(Remedy::Consistency(share(f64::from(now.checked_sub(n)?) / 1000.0)));
            smallest(1, now.saturating_sub(1), remedy, request)
        }
        BathSize::TotalVolume(now) => {
            let now = in_millilitres(now);
            let step = if now < 1000.0 { 10.0 } else { 100.0 };
            let remedy = |n: u32| {
                let volume = ((now / step).floor() + f64::from(n)) * step;
                Some(Remedy::Volume(millilitres(volume)))
            };
            smallest(1, 10_000, remedy, request)
        }
    }
}

/// A lower charge in steps of 0.1 %, if the bath is made by charge.
fn less_bleach(request: &PlanRequest) -> Option<Remedy> {
    let BathAim::Charge(now) = request.aim else { return None };
    let now = (in_share(now) * 1000.0).ceil() as u32;
    let remedy = |n: u32| {
        let charge = share(f64::from(now.checked_sub(n)?) / 1000.0);
        let with = PlanRequest { aim: BathAim::Charge(charge), ..request.clone() };
        let checked = CheckedRequest::new(&with).ok()?;
        let dose = checked.bleach_amount(checked.amounts(checked.nominal()).dose);
        Some(Remedy::LessBleach { dose, charge })
    };
    let found = smallest(1, now.saturating_sub(1), remedy, request)?;
    let with = found.apply(request);
    // Feasible at the inputs' values; the ranges must have a solution as well.
    solve(&CheckedRequest::new(&with).ok()?).map(|_| found)
}

/// A weaker liquor in steps of 0.1 g/L, if the bath is made by strength.
fn weaker_liquor(request: &PlanRequest) -> Option<Remedy> {
    let BathAim::Strength(now) = request.aim else { return None };
    let now = (in_grams_per_litre(now) * 10.0).ceil() as u32;
    let remedy =
        |n: u32| Some(Remedy::Strength(grams_per_litre(f64::from(now.checked_sub(n)?) / 10.0)));
    smallest(1, now.saturating_sub(1), remedy, request)
}

/// A stronger bottle in steps of 1 g/L, up to the strongest that is accepted.
fn stronger_bottle(request: &PlanRequest) -> Option<Remedy> {
    let Bleach::Hypochlorite(bottle) = &request.bleach else { return None };
    let now = in_grams_per_litre(bottle.liquid().ok()?.available_chlorine.value);
    let remedy = |n: u32| Some(Remedy::StrongerBottle(grams_per_litre(f64::from(n))));
    smallest(now.floor() as u32 + 1, 175, remedy, request)
}

/// A higher temperature in steps of 5 °C, up to 40 °C.
fn warmer(request: &PlanRequest) -> Option<Remedy> {
    let now = (request.temperature.get() / 5.0).floor() as u32;
    let remedy = |n: u32| Celsius::new(f64::from(n) * 5.0).ok().map(Remedy::Warm);
    smallest(now + 1, 8, remedy, request)
}

/// Binary search for the smallest step in `first..=last` whose remedy is
/// feasible. Feasibility must be monotonic in the step.
fn smallest(
    first: u32,
    last: u32,
    remedy: impl Fn(u32) -> Option<Remedy>,
    request: &PlanRequest,
) -> Option<Remedy> {
    let feasible = |n: u32| if_feasible(request, remedy(n)?);
    let (mut low, mut high) = (first, last);
    if low > high {
        return None;
    }
    let mut found = feasible(high)?;
    while low < high {
        let middle = low + (high - low) / 2;
        match feasible(middle) {
            Some(remedy) => (found, high) = (remedy, middle),
            None => low = middle + 1,
        }
    }
    Some(found)
}

fn if_feasible(request: &PlanRequest, remedy: Remedy) -> Option<Remedy> {
    let changed = remedy.apply(request);
    let checked = CheckedRequest::new(&changed).ok()?;
    check_feasible(&checked).is_ok().then_some(remedy)
}
