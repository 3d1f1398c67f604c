//! Finding the one hydrogen ion activity at which the charges balance.
//!
//! The outer loop settles the activity coefficients, the inner one the acidity. At fixed
//! coefficients the balance rises steadily with ln h, so its root lies between two bounds
//! that hold for every bath; Newton's step on `ln(above / below)` is taken when it stays
//! between the bounds found so far and the interval is halved when it does not. (The
//! logarithmic form is nearly straight even far from the root, after Munhoven 2013, Geosci.
//! Model Dev. 6:1367.)

use super::balance::{Activity, Balance, Folded, Reference, Totals, balance};
use super::constants::Constants;

/// Highest ionic strength that coefficients are worked out for, mol/kg.
pub(super) const HIGHEST_STRENGTH: f64 = 1.0;

/// ln h at pH 17 and at pH -2: outside anything these baths can reach.
const LOWEST_LN_H: f64 = -39.2;
const HIGHEST_LN_H: f64 = 4.7;
/// A last Newton step this small, in ln h, leaves an error of about its square.
const TOLERANCE: f64 = 1e-5;
/// Close enough, as a part of the ionic strength.
const STRENGTH_TOLERANCE: f64 = 1e-7;
const MOST_ROUNDS: usize = 60;

/// A balanced bath.
#[derive(Clone, Copy)]
pub(crate) struct Root {
    pub h: f64,
    pub folded: Folded,
    /// mol/kg.
    pub ionic_strength: f64,
}

/// Solves for acidity and activity together.
pub(crate) fn solve(totals: &Totals, constants: &Constants) -> Root {
    let reference = Reference::of(totals);
    let mut strength = totals.spectator_strength;
    let mut solutes = 2.0 * totals.spectator_count;
    let mut ln_h = -9.0 * std::f64::consts::LN_10;
    let mut tolerance = 0.3;
    let mut before: Option<(f64, f64)> = None;
    let mut rounds = 0;
    loop {
        let activity = davies(constants, strength, solutes);
        let folded = Folded::new(constants, activity);
        let (moved, at) = settle(totals, &reference, &folded, ln_h, tolerance);
        let shift = (moved - ln_h).abs();
        ln_h = moved;
        let change = at.ionic_strength - strength;
        rounds += 1;
        let settled = change.abs() <= STRENGTH_TOLERANCE * strength + 1e-13 && shift <= TOLERANCE;
        if settled || rounds == MOST_ROUNDS {
            return Root { h: ln_h.exp(), folded, ionic_strength: at.ionic_strength };
        }
        let step = change * secant(before, strength, change);
        before = Some((strength, change));
        strength = (strength + step).max(0.1 * strength);
        solutes = at.solutes;
        tolerance = TOLERANCE.max(0.01 * tolerance);
    }
}

/// How much of a change in ionic strength to take: all of it, or, once two are known, what the
/// secant through them says. Far-fetched secants are not followed.
fn secant(before: Option<(f64, f64)>, strength: f64, change: f64) -> f64 {
    let Some((last_strength, last_change)) = before else { return 1.0 };
    let slope = (last_change - change) / (strength - last_strength);
    if (0.3..4.0).contains(&slope) { 1.0 / slope } else { 0.5 }
}

/// Davies coefficients, held at their value for [`HIGHEST_STRENGTH`] beyond it.
pub(super) fn davies(constants: &Constants, strength: f64, solutes: f64) -> Activity {
    Activity::davies(constants.debye_slope, strength.min(HIGHEST_STRENGTH), solutes)
}

/// The root at fixed coefficients, from a start; and the balance last looked at, which lies
/// within `tolerance` of it.
fn settle(
    totals: &Totals,
    reference: &Reference,
    folded: &Folded,
    start: f64,
    tolerance: f64,
) -> (f64, Balance) {
    /// Newton needs a handful; after these many steps every other one halves the interval.
    const PATIENCE: usize = 30;
    let (mut low, mut high) = (LOWEST_LN_H, HIGHEST_LN_H);
    let mut ln_h = start;
    let mut steps = 0;
    loop {
        let at = balance(totals, reference, folded, ln_h.exp());
        if at.above < at.below {
            low = ln_h;
        } else {
            high = ln_h;
        }
        let slope = at.above_slope / at.above - at.below_slope / at.below;
        let newton = ln_h - (at.above / at.below).ln() / slope;
        steps += 1;
        let usable = newton > low && newton < high && (steps < PATIENCE || steps % 2 == 0);
        let next = if usable { newton } else { 0.5 * (low + high) };
        let step = (next - ln_h).abs();
        ln_h = next;
        // Only a Newton step says how near the root is; a halving does not.
        if (usable && step <= tolerance) || high - low <= 1e-12 {
            return (ln_h, at);
        }
    }
}
