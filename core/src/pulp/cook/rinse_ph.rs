//! Rinses after a cook that bring the pulp into the pH window of its bath.
//! Not here: the wash after the bath, which is `pulp::wash`.

use super::CookError;
use crate::chemistry::alkali::PhWindow;
use crate::message::{Message, Value};
use crate::pulp::wash::{Alkali, Solute, Wash};
use crate::quantity::{Volume, in_grams_per_litre};

/// Most rinses that are calculated.
const MOST_RINSES: u32 = 12;

/// pH of the pulp's own water, rinse by rinse.
#[derive(Clone, Debug, PartialEq)]
pub struct RinsedPh {
    /// pH after 0, 1, 2… rinses, up to the first at or below the window or to
    /// the twelfth.
    pub ph: Vec<f64>,
    /// Rinses after which it is inside the window for the first time.
    pub rinses: Option<u32>,
    pub remark: Message,
}

/// pH of the pulp's water after each rinse of `each`, and how many bring it
/// inside `window`.
///
/// `wash.liquor.alkali` is the alkali in the squeezed-out cook liquor, best
/// taken from its pH ([`Alkali::strength`]), since the consumption by the cook is
/// not known.
///
/// # Errors
/// [`CookError::AlkaliUnknown`] without it; [`CookError::Wash`] and
/// [`CookError::Chemistry`] as the wash and the solver have them.
pub fn rinse_to_window(
    wash: &Wash,
    each: Volume,
    alkali: Alkali,
    celsius: f64,
    window: PhWindow,
) -> Result<RinsedPh, CookError> {
    let Some(start) = wash.liquor.get(Solute::Alkali) else {
        return Err(CookError::AlkaliUnknown);
    };
    let mut ph = vec![alkali.ph(start.value, celsius)?];
    let mut least = start.value;
    for rinses in 1..=MOST_RINSES {
        if ph.last().is_some_and(|ph| *ph <= window.low) {
            break;
        }
        let left = wash.after(rinses, each)?.alkali.map_or(start.value, |known| known.value);
        // No rinse goes below the alkali of the tap.
        if in_grams_per_litre(left) >= in_grams_per_litre(least) {
            break;
        }
        least = left;
        ph.push(alkali.ph(left, celsius)?);
    }
    let (rinses, remark) = in_window(&ph, window);
    Ok(RinsedPh { ph, rinses, remark })
}

/// The first pH inside the window, and the remark on the row.
fn in_window(ph: &[f64], window: PhWindow) -> (Option<u32>, Message) {
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
    (rinses, remark)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::pulp::wash::{Efficiency, PulpLiquor, RinseTiming, SqueezedPulp, TapWater, Targets};
    use crate::quantity::{Basis, Estimate, grams, millilitres, share};

    fn rinsed(liquor_ph: f64, litres: f64) -> RinsedPh {
        let alkali = Alkali::SodaAsh.strength(liquor_ph, 20.0).unwrap();
        let wash = Wash {
            pulp: SqueezedPulp {
                wet_mass: Estimate::exact(grams(1000.0), Basis::Measured),
                dryness: Estimate::exact(share(0.2), Basis::Measured),
            },
            liquor: PulpLiquor {
                alkali: Some(Estimate::exact(alkali, Basis::Strip)),
                ..PulpLiquor::default()
            },
            targets: Targets::default(),
            tap: TapWater::default(),
            efficiency: Efficiency::ideal(),
            timing: RinseTiming::default(),
        };
        let each = millilitres(1000.0 * litres);
        rinse_to_window(&wash, each, Alkali::SodaAsh, 20.0, PhWindow::HYPOCHLORITE).unwrap()
    }

    #[test]
    fn a_strong_liquor_is_rinsed_into_the_window() {
        let rinsed = rinsed(11.4, 5.0);
        assert_eq!(rinsed.remark.key, "cook-arrive-rinse");
        let rinses = rinsed.rinses.unwrap() as usize;
        assert!((9.5..=11.0).contains(&rinsed.ph[rinses]) && rinsed.ph[rinses - 1] > 11.0);
    }

    #[test]
    fn the_remark_tells_inside_below_and_past_the_window() {
        assert_eq!(rinsed(10.5, 5.0).remark.key, "cook-arrive-ready");
        assert_eq!(rinsed(9.0, 5.0).remark.key, "cook-arrive-too_clean");
        assert_eq!(rinsed(11.1, 500.0).remark.key, "cook-arrive-jumps_past");
    }
}
