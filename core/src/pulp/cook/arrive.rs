//! Rinsing a cook so that the pulp arrives at the bath inside its pH window.

use crate::chemistry::Refusal;
use crate::message::{Field, Message, Value};
use crate::pulp::wash::{Alkali, Solute, Wash, WashRefusal};
use crate::quantity::{Volume, in_grams_per_litre};

pub const LIQUOR_PH: Field = Field("cook.liquor_ph");

/// The working window of a hypochlorite bath, pH (from memory: start
/// 10.5–11.5, never under 9; narrowed to the careful side).
pub const BATH_WINDOW: (f64, f64) = (9.5, 11.0);

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
            Self::AlkaliUnknown => Message::new("cook.refusal.alkali_unknown").beside(LIQUOR_PH),
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
/// inside `window` (low, high).
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
    window: (f64, f64),
) -> Result<Arrival, ArriveRefusal> {
    let Some(start) = wash.liquor.get(Solute::Alkali) else {
        return Err(ArriveRefusal::AlkaliUnknown);
    };
    let mut ph = vec![alkali.ph(start.value, celsius)?];
    let mut least = start.value;
    for rinses in 1..=MOST {
        if ph.last().is_some_and(|ph| *ph <= window.0) {
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
    let inside = ph.iter().position(|ph| *ph >= window.0 && *ph <= window.1);
    let (low, high) = (Value::Ph(window.0), Value::Ph(window.1));
    let key = match (inside, ph.first(), ph.last()) {
        (Some(0), ..) => "cook.arrive.ready",
        (Some(_), ..) => "cook.arrive.rinse",
        (None, Some(first), _) if *first < window.0 => "cook.arrive.too_clean",
        (None, _, Some(last)) if *last > window.1 => "cook.arrive.still_strong",
        _ => "cook.arrive.jumps_past",
    };
    let rinses = inside.and_then(|rinses| u32::try_from(rinses).ok());
    let mut remark = Message::new(key).with("low", low).with("high", high);
    if let Some(rinses) = rinses {
        remark = remark.with("rinses", Value::Count(rinses.into()));
    }
    Ok(Arrival { ph, rinses, remark })
}
