//! Which way to take, or none.

use super::option::WayOption;
use super::request::WayRequest;
use crate::quantity::Basis;

/// What serves best.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WayAdvice {
    /// The pulp is, more likely than not, as light as wanted already.
    LeaveNatural,
    /// This one of the options.
    Take(usize),
    /// None has even odds: the lightest that they can give is this, L* (median).
    Unlikely { best: usize, lightness: f64 },
    /// None has fair odds, and the pulp is so dark that what colours it is lignin, which a cook
    /// removes and a bath only spends bleach on.
    CookAgain,
    /// None has fair odds, and the pulp is light: its own colour serves better.
    KeepItsColour,
    /// No way can be offered.
    NoWay,
}

/// Odds from which a way is worth its fibre.
const EVEN: f64 = 0.5;
/// Odds below which none is.
const FAIR: f64 = 0.15;
/// L* of dry pulp below which it is under-cooked rather than unbleached (own estimate: cooked,
/// washed leaf pulp has about 60).
const UNDERCOOKED: f64 = 58.0;

/// The advice over the options of a search, best odds first. Whether the colour now was assumed
/// rather than measured is for the caller to say: see [`WayRequest::lightness`].
pub fn way_advice(request: &WayRequest, options: &[WayOption]) -> WayAdvice {
    if request.lightness.value >= request.target {
        return WayAdvice::LeaveNatural;
    }
    let Some(best) = options.first() else { return WayAdvice::NoWay };
    if best.odds >= EVEN {
        // Of the ways with nearly the best odds, the least damage.
        let equal = options.iter().enumerate().filter(|(_, one)| one.odds >= best.odds - 0.1);
        let mildest = equal.min_by(|(_, a), (_, b)| a.chain_loss[1].total_cmp(&b.chain_loss[1]));
        return WayAdvice::Take(mildest.map_or(0, |(nth, _)| nth));
    }
    if best.odds >= FAIR {
        return WayAdvice::Unlikely { best: 0, lightness: best.lightness[1] };
    }
    if request.lightness.value < UNDERCOOKED && request.lightness.basis != Basis::Assumed {
        WayAdvice::CookAgain
    } else if request.lightness.basis == Basis::Assumed {
        WayAdvice::Unlikely { best: 0, lightness: best.lightness[1] }
    } else {
        WayAdvice::KeepItsColour
    }
}
