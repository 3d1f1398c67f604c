//! What happened: fifteen batches, told as the studio would tell them.

mod autumn;
mod spring;
mod summer;

use super::Failure;
use super::course::Wanted;
use super::log::Log;
use super::model::Appetite;
use super::shelf::{Shelf, test_cellar, test_sill};

/// Tells the whole season.
///
/// # Errors
/// If the core refuses a step of it.
pub fn tell(log: &mut Log, shelf: &Shelf) -> Result<(), Failure> {
    let reed_bed = spring::reed_bed(log, shelf)?;
    spring::rope_ends(log, shelf)?;
    spring::windowsill(log, shelf)?;
    let sill = test_sill(log, shelf)?;
    spring::flag_garden(log, shelf)?;
    spring::too_far(log, &sill)?;
    summer::second_cut(log, shelf)?;
    let cellar = test_cellar(log, shelf)?;
    summer::in_two_steps(log, shelf, &cellar)?;
    summer::for_the_class(log, shelf)?;
    summer::slips(log, shelf)?;
    summer::for_keeping(log, shelf, &cellar)?;
    let tow = autumn::tow(log, shelf)?;
    autumn::blend(log, reed_bed, tow);
    autumn::late_cut(log, &cellar)?;
    autumn::still_washing(log, shelf)?;
    autumn::only_planned(log, shelf)?;
    autumn::running(log, &cellar)
}

/// A usual bath of hypochlorite.
const HYPOCHLORITE: Wanted =
    Wanted { charge: 0.035, consistency: 0.05, celsius: 38.0, minutes: 60.0 };

/// A usual bath of percarbonate.
const PERCARBONATE: Wanted =
    Wanted { charge: 0.025, consistency: 0.06, celsius: 52.0, minutes: 120.0 };

/// A pulp that uses most of a bath in its time.
const WILLING: Appetite = Appetite { tau_min: 24.0, rest: 0.04, fades_to: 0.16 };

/// Slower, and browner in the end: percarbonate on leaf.
const SLOW: Appetite = Appetite { tau_min: 55.0, rest: 0.10, fades_to: 0.30 };
