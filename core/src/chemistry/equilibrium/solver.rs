//! The pH solver: finds the one hydrogen ion activity at which the proton balance closes.
//!
//! The outer loop iterates the medium and with it the activity coefficients (ionic strength by
//! secant, the rest directly), the inner loop ln h. At fixed coefficients the balance is
//! monotonic in ln h, so its root lies in a fixed bracket. Newton's step on
//! `ln(above / below)` is taken while it stays inside the current bracket; otherwise the
//! bracket is halved. (The logarithmic form is nearly straight even far from the
//! root, after Munhoven 2013, Geosci. Model Dev. 6:1367.)

use super::activity::{ActivityCoefficients, Medium, SodiumTerms};
use super::balance::{ProtonBalance, ProtonReference};
use super::conditional::ConditionalConstants;
use super::constants::Constants;
use super::totals::Totals;

/// ln h at pH 17 and at pH -2: wider than any bath reaches.
const LOWEST_LN_H: f64 = -39.2;
const HIGHEST_LN_H: f64 = 4.7;
/// Largest last Newton step in ln h; the remaining error is about its square.
const TOLERANCE: f64 = 1e-5;
/// Relative tolerance of the ionic strength.
const STRENGTH_TOLERANCE: f64 = 1e-7;
const MAX_ROUNDS: usize = 60;

/// Result of [`solve`].
#[derive(Clone, Copy)]
pub(super) struct Root {
    /// Hydrogen ion activity.
    pub h: f64,
    pub conditional: ConditionalConstants,
    /// mol/kg.
    pub ionic_strength: f64,
}

/// Solves for hydrogen ion activity and activity coefficients together.
pub(super) fn solve(totals: &Totals, constants: &Constants) -> Root {
    let reference = ProtonReference::of(totals);
    let sodium = SodiumTerms::of(totals.sodium);
    let mut medium = Medium::guess(totals);
    let mut ln_h = -9.0 * std::f64::consts::LN_10;
    let mut tolerance = 0.3;
    let mut before: Option<(f64, f64)> = None;
    let mut rounds = 0;
    loop {
        let activity = ActivityCoefficients::sit(constants, &sodium, &medium);
        let conditional = ConditionalConstants::new(constants, activity);
        let (moved, at) = root_at_fixed_activity(totals, &reference, &conditional, ln_h, tolerance);
        let shift = (moved - ln_h).abs();
        ln_h = moved;
        let strength = medium.ionic_strength;
        let change = at.medium.ionic_strength - strength;
        rounds += 1;
        let settled = change.abs() <= STRENGTH_TOLERANCE * strength + 1e-13 && shift <= TOLERANCE;
        if settled || rounds == MAX_ROUNDS {
            return Root { h: ln_h.exp(), conditional, ionic_strength: at.medium.ionic_strength };
        }
        let step = change * secant_factor(before, strength, change);
        before = Some((strength, change));
        medium = Medium { ionic_strength: (strength + step).max(0.1 * strength), ..at.medium };
        tolerance = TOLERANCE.max(0.01 * tolerance);
    }
}

/// Factor on a change in ionic strength: 1 in the first round, then by the secant through the
/// last two rounds; 0.5 where the secant is implausible.
fn secant_factor(before: Option<(f64, f64)>, strength: f64, change: f64) -> f64 {
    let Some((last_strength, last_change)) = before else { return 1.0 };
    let slope = (last_change - change) / (strength - last_strength);
    if (0.3..4.0).contains(&slope) { 1.0 / slope } else { 0.5 }
}

/// ln h of the root at fixed activity coefficients, starting from `start`; and the balance last
/// evaluated. The last Newton step is at most `tolerance`; the error is about its square.
pub(super) fn root_at_fixed_activity(
    totals: &Totals,
    reference: &ProtonReference,
    conditional: &ConditionalConstants,
    start: f64,
    tolerance: f64,
) -> (f64, ProtonBalance) {
    /// Newton converges in about five steps; after this many every other step is a bisection.
    const MAX_NEWTON_STEPS: usize = 30;
    let (mut low, mut high) = (LOWEST_LN_H, HIGHEST_LN_H);
    let mut ln_h = start;
    let mut steps = 0;
    loop {
        let at = ProtonBalance::at(totals, reference, conditional, ln_h.exp());
        if at.above < at.below {
            low = ln_h;
        } else {
            high = ln_h;
        }
        let slope = at.above_slope / at.above - at.below_slope / at.below;
        let newton = ln_h - (at.above / at.below).ln() / slope;
        steps += 1;
        let usable = newton > low && newton < high && (steps < MAX_NEWTON_STEPS || steps % 2 == 0);
        let next = if usable { newton } else { 0.5 * (low + high) };
        let step = (next - ln_h).abs();
        ln_h = next;
        // Only the size of a Newton step bounds the distance to the root.
        if (usable && step <= tolerance) || high - low <= 1e-12 {
            return (ln_h, at);
        }
    }
}
