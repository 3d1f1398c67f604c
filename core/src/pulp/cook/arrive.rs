//! Rinsing a cook so that the pulp arrives at the bath inside its pH window.

use crate::chemistry::{Refusal, alkali::Window};
use crate::message::{Field, Message, Value};
use crate::pulp::wash::{Alkali, Solute, Wash, WashRefusal};
use crate::quantity::{Volume, in_grams_per_litre};

pub const LIQUOR_PH: Field = Field("cook-liquor_ph");

/// No more rinses than this are looked at.
const MOST: u32 = 12;

/// pH of the pulp's own water, rinse by rinse.
#[derive(Clone, Debug, PartialEq)]
pub struct Arrival {
    /// pH after 0, 1, 2… rinses, to the first at or below the window's floor
    /// or the twelfth.
    pub ph: Vec<f64>,
    /// Rinses after which it lies inside the window for the first time.
    pub rinses: Option<u32>,
    pub remark: Message,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum ArriveRefusal {
    Wash(WashRefusal),
    Chemistry(Refusal),
    /// No alkali strength was given for the liquor.
    AlkaliUnknown,
}

impl ArriveRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        match self {
            Self::Wash(refusal) => refusal.message(),
            Self::Chemistry(refusal) => refusal.message(),
            Self::AlkaliUnknown => Message::new("cook-refusal-alkali_unknown").beside(LIQUOR_PH),
        }
    }
}

impl From<WashRefusal> for ArriveRefusal {
    fn from(refusal: WashRefusal) -> Self {
        Self::Wash(refusal)
    }
}

impl From<Refusal> for ArriveRefusal {
    fn from(refusal: Refusal) -> Self {
        Self::Chemistry(refusal)
    }
}

/// pH of the pulp's water after each rinse of `each`, and how many bring it
/// inside `window`.
///
/// `wash.liquor.alkali` is the alkali in the squeezed-out cook liquor, best
/// taken from its pH ([`Alkali::strength`]): what the cook used up is not known.
///
/// # Errors
/// [`ArriveRefusal`]: as the wash and the solver have it.
pub fn arrive(
    wash: &Wash,
    each: Volume,
    alkali: Alkali,
    celsius: f64,
    window: Window,
) -> Result<Arrival, ArriveRefusal> {
    let Some(start) = wash.liquor.get(Solute::Alkali) else {
        return Err(ArriveRefusal::AlkaliUnknown);
    };
    let mut ph = vec![alkali.ph(start.value, celsius)?];
    let mut least = start.value;
    for rinses in 1..=MOST {
        if ph.last().is_some_and(|ph| *ph <= window.low) {
            break;
        }
        let left = wash.after(rinses, each)?.alkali.map_or(start.value, |known| known.value);
        // Nothing more to gain once the tap's own alkali is reached.
        if in_grams_per_litre(left) >= in_grams_per_litre(least) {
            break;
        }
        least = left;
        ph.push(alkali.ph(left, celsius)?);
    }
    let inside = ph.iter().position(|ph| *ph >= window.low && *ph <= window.high);
    let (low, high) = (Value::Ph(window.low), Value::Ph(window.high));
    let key = match (inside, ph.first(), ph.last()) {
        (Some(0), ..) => "cook-arrive-ready",
        (Some(_), ..) => "cook-arrive-rinse",
        (None, Some(first), _) if *first < window.low => "cook-arrive-too_clean",
        (None, _, Some(last)) if *last > window.high => "cook-arrive-still_strong",
        _ => "cook-arrive-jumps_past",
    };
    let rinses = inside.and_then(|rinses| u32::try_from(rinses).ok());
    let mut remark = Message::new(key).with("low", low).with("high", high);
    if let Some(rinses) = rinses {
        remark = remark.with("rinses", Value::Count(rinses.into()));
    }
    Ok(Arrival { ph, rinses, remark })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::pulp::wash::{Efficiency, Liquor, Lump, Pace, Tap, Targets};
    use crate::quantity::{Basis, Known, grams, millilitres, share};

    fn arrival(liquor_ph: f64, litres: f64) -> Arrival {
        let alkali = Alkali::SodaAsh.strength(liquor_ph, 20.0).unwrap();
        let wash = Wash {
            lump: Lump {
                wet_mass: Known::exact(grams(1000.0), Basis::Measured),
                dryness: Known::exact(share(0.2), Basis::Measured),
            },
            liquor: Liquor {
                alkali: Some(Known::exact(alkali, Basis::Strip)),
                ..Liquor::default()
            },
            targets: Targets::default(),
            tap: Tap::default(),
            efficiency: Efficiency::ideal(),
            pace: Pace::default(),
        };
        let each = millilitres(1000.0 * litres);
        arrive(&wash, each, Alkali::SodaAsh, 20.0, Window::HYPOCHLORITE).unwrap()
    }

    #[test]
    fn a_strong_liquor_is_rinsed_into_the_window() {
        let arrival = arrival(11.4, 5.0);
        assert_eq!(arrival.remark.key, "cook-arrive-rinse");
        let rinses = arrival.rinses.unwrap() as usize;
        assert!((9.5..=11.0).contains(&arrival.ph[rinses]) && arrival.ph[rinses - 1] > 11.0);
    }

    #[test]
    fn what_is_inside_stays_and_what_is_below_wants_soda() {
        assert_eq!(arrival(10.5, 5.0).remark.key, "cook-arrive-ready");
        assert_eq!(arrival(9.0, 5.0).remark.key, "cook-arrive-too_clean");
        assert_eq!(arrival(11.1, 500.0).remark.key, "cook-arrive-jumps_past");
    }
}
