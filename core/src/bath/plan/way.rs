//! The nearest plans that would work: each is found by trying, and is offered
//! only if the plan with it does work.

use super::{
    super::{Bottle, LabelBasis},
    Aim, Bleach, OnHand, Reason, Request, Size,
    facts::works,
    plan,
};
use crate::{
    caution::Residual,
    chemistry::compatibility::Ingredient,
    message::{Message, Value},
    pulp::{PRESSED_AT_MOST, WetPulp},
    quantity::{
        Basis, Celsius, Known, MassConcentration, Ratio, Volume, grams, grams_per_litre, in_grams,
        in_grams_per_litre, in_millilitres, in_share, millilitres, share,
    },
};

/// One change that makes a refused plan work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// Squeeze the pulp to at least this dryness, and weigh it again.
    Squeeze(Ratio),
    /// Take a lower consistency.
    Consistency(Ratio),
    /// Take a larger bath.
    Volume(Volume),
    /// Use this much of the bleach, which makes this charge.
    Use { dose: OnHand, charge: Ratio },
    /// Take a weaker liquor.
    Strength(MassConcentration),
    /// Find a bottle of at least this much available chlorine.
    StrongerBottle(MassConcentration),
    /// Have the water at least this warm.
    Warm(Celsius),
    /// Wash the other bleach out and test that it is gone.
    WashFirst,
    /// Keep this out of the bath, and the bath out of it.
    LeaveOut(Ingredient),
}

impl Way {
    /// The request with this change made.
    #[must_use]
    pub fn apply(&self, request: &Request) -> Request {
        let mut changed = request.clone();
        match *self {
            Way::Squeeze(dryness) => changed.pulp = squeezed(&request.pulp, in_share(dryness)),
            Way::Consistency(consistency) => changed.size = Size::Consistency(consistency),
            Way::Volume(volume) => changed.size = Size::TotalVolume(volume),
            Way::Use { charge, .. } => changed.aim = Aim::Charge(charge),
            Way::Strength(strength) => changed.aim = Aim::Strength(strength),
            Way::StrongerBottle(strength) => {
                changed.bleach = Bleach::Hypochlorite(Bottle::labelled(
                    in_grams_per_litre(strength),
                    LabelBasis::ChlorineGramsPerLitre,
                ));
            }
            Way::Warm(temperature) => changed.temperature = temperature,
            Way::WashFirst => changed.carried = Residual::None,
            Way::LeaveOut(what) => changed.company.retain(|one| *one != what),
        }
        changed
    }

    /// What to say on the button.
    pub fn message(&self) -> Message {
        match *self {
            Way::Squeeze(x) => {
                Message::new("way-squeeze").with("dryness", Value::Share(in_share(x)))
            }
            Way::Consistency(x) => {
                Message::new("way-consistency").with("consistency", Value::Share(in_share(x)))
            }
            Way::Volume(x) => Message::new("way-volume").with("volume", Value::Volume(x)),
            Way::Use { dose, charge } => Message::new("way-use")
                .with("dose", dose.value())
                .with("charge", Value::Share(in_share(charge))),
            Way::Strength(x) => {
                Message::new("way-strength").with("strength", Value::Concentration(x))
            }
            Way::StrongerBottle(x) => {
                Message::new("way-stronger_bottle").with("strength", Value::Concentration(x))
            }
            Way::Warm(x) => Message::new("way-warm").with("temperature", Value::Celsius(x.get())),
            Way::WashFirst => Message::new("way-wash_first"),
            Way::LeaveOut(what) => {
                Message::new("way-leave_out").with("what", Value::Word(what.key()))
            }
        }
    }
}

/// The ways round `reason`, the gentlest change first.
pub(super) fn ways(request: &Request, reason: &Reason) -> Vec<Way> {
    let found = match reason {
        Reason::OutOfRange(_) | Reason::NotFinite => return Vec::new(),
        Reason::WouldMix { .. } => vec![works_with(request, Way::WashFirst)],
        Reason::Clash(clash) => vec![
            works_with(request, Way::LeaveOut(clash.second)),
            works_with(request, Way::LeaveOut(clash.first)),
        ],
        Reason::TooWeak { .. } => vec![weaker(request), stronger(request)],
        Reason::PulpTooWet { .. } | Reason::NoRoomForBleach { .. } => vec![
            squeeze(request),
            larger(request),
            less(request),
            weaker(request),
            stronger(request),
        ],
        Reason::WillNotDissolve { .. } => {
            vec![warm(request), larger(request), less(request), weaker(request)]
        }
        Reason::NotEnough { .. } => vec![less(request), weaker(request)],
    };
    found.into_iter().flatten().collect()
}

/// Fibre stays, water goes.
fn squeezed(pulp: &WetPulp, dryness: f64) -> WetPulp {
    let oven_dry = in_grams(pulp.wet.value) * in_share(pulp.dryness.value);
    // The fibre is known no better than before; the squeezing itself is a wish.
    let part = |known: Known<Ratio>, end: Ratio| in_share(end) / in_share(known.value);
    let wet = oven_dry / dryness;
    let (low, high) = (part(pulp.dryness, pulp.dryness.low), part(pulp.dryness, pulp.dryness.high));
    let off = (in_grams(pulp.wet.high) / in_grams(pulp.wet.value)).max(high);
    let down = (in_grams(pulp.wet.low) / in_grams(pulp.wet.value)).min(low);
    let wet = Known { value: wet, low: wet * down, high: wet * off, basis: Basis::Computed };
    WetPulp { wet: wet.map(grams), dryness: Known::exact(share(dryness), Basis::Assumed) }
}

fn squeeze(request: &Request) -> Option<Way> {
    let now = in_share(request.pulp.dryness.value);
    let first = (now * 200.0).floor() as u32 + 1;
    let last = (PRESSED_AT_MOST * 200.0) as u32;
    nearest(first, last, |n| Some(Way::Squeeze(share(f64::from(n) / 200.0))), request)
}

/// A lower consistency or a larger volume, whichever the bath is sized by.
fn larger(request: &Request) -> Option<Way> {
    match request.size {
        Size::Consistency(now) => {
            let now = (in_share(now) * 1000.0).ceil() as u32;
            let way =
                |n: u32| Some(Way::Consistency(share(f64::from(now.checked_sub(n)?) / 1000.0)));
            nearest(1, now.saturating_sub(1), way, request)
        }
        Size::TotalVolume(now) => {
            let now = in_millilitres(now);
            let step = if now < 1000.0 { 10.0 } else { 100.0 };
            let way = |n: u32| {
                let volume = ((now / step).floor() + f64::from(n)) * step;
                Some(Way::Volume(millilitres(volume)))
            };
            nearest(1, 10_000, way, request)
        }
    }
}

/// Less of the bleach, where the bath is made by charge.
fn less(request: &Request) -> Option<Way> {
    let Aim::Charge(now) = request.aim else { return None };
    let now = (in_share(now) * 1000.0).ceil() as u32;
    let way = |n: u32| {
        let charge = share(f64::from(now.checked_sub(n)?) / 1000.0);
        // The dose is filled in below, once the charge is known to work.
        Some(Way::Use { dose: OnHand::Powder(grams(0.0)), charge })
    };
    let Way::Use { charge, .. } = nearest(1, now.saturating_sub(1), way, request)? else {
        return None;
    };
    let with = Request { aim: Aim::Charge(charge), ..request.clone() };
    let dose = plan(&with).ok()?.loads.total.dose;
    Some(Way::Use { dose, charge })
}

/// A weaker liquor, where the bath is made by strength.
fn weaker(request: &Request) -> Option<Way> {
    let Aim::Strength(now) = request.aim else { return None };
    let now = (in_grams_per_litre(now) * 10.0).ceil() as u32;
    let way = |n: u32| Some(Way::Strength(grams_per_litre(f64::from(now.checked_sub(n)?) / 10.0)));
    nearest(1, now.saturating_sub(1), way, request)
}

/// A stronger bottle, up to the strongest that is taken.
fn stronger(request: &Request) -> Option<Way> {
    let Bleach::Hypochlorite(bottle) = &request.bleach else { return None };
    let now = in_grams_per_litre(bottle.liquid().ok()?.available_chlorine.value);
    let way = |n: u32| Some(Way::StrongerBottle(grams_per_litre(f64::from(n))));
    nearest(now.floor() as u32 + 1, 175, way, request)
}

/// Warmer water, in steps of 5 °C.
fn warm(request: &Request) -> Option<Way> {
    let now = (request.temperature.get() / 5.0).floor() as u32;
    let way = |n: u32| Celsius::new(f64::from(n) * 5.0).ok().map(Way::Warm);
    nearest(now + 1, 8, way, request)
}

/// The least step in `first..=last` whose way works; working must not stop
/// again at a larger step.
fn nearest(
    first: u32,
    last: u32,
    way: impl Fn(u32) -> Option<Way>,
    request: &Request,
) -> Option<Way> {
    let tried = |n: u32| works_with(request, way(n)?);
    let (mut low, mut high) = (first, last);
    if low > high {
        return None;
    }
    let mut found = tried(high)?;
    while low < high {
        let middle = low + (high - low) / 2;
        match tried(middle) {
            Some(way) => (found, high) = (way, middle),
            None => low = middle + 1,
        }
    }
    Some(found)
}

fn works_with(request: &Request, way: Way) -> Option<Way> {
    works(&way.apply(request)).then_some(way)
}
