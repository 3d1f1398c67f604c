//! The season: fifteen batches.

mod autumn;
mod spring;
mod summer;

use super::DemoError;
use super::journal_builder::JournalBuilder;
use super::model::BleachResponse;
use super::shelf::{Shelf, test_cellar, test_sill};
use super::simulation::BathSettings;

/// Simulates the whole season.
///
/// # Errors
/// If the core refuses a step of it.
pub fn simulate(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let reed_bed = spring::reed_bed(journal, shelf)?;
    spring::rope_ends(journal, shelf)?;
    spring::windowsill(journal, shelf)?;
    let sill = test_sill(journal, shelf)?;
    spring::flag_garden(journal, shelf)?;
    spring::too_far(journal, &sill)?;
    summer::second_cut(journal, shelf)?;
    let cellar = test_cellar(journal, shelf)?;
    summer::in_two_steps(journal, shelf, &cellar)?;
    summer::for_the_class(journal, shelf)?;
    summer::slips(journal, shelf)?;
    summer::for_keeping(journal, shelf, &cellar)?;
    let tow = autumn::tow(journal, shelf)?;
    autumn::blend(journal, reed_bed, tow);
    autumn::late_cut(journal, &cellar)?;
    autumn::still_washing(journal, shelf)?;
    autumn::only_planned(journal, shelf)?;
    autumn::running(journal, &cellar)
}

/// A typical hypochlorite bath.
const HYPOCHLORITE: BathSettings =
    BathSettings { charge: 0.035, consistency: 0.05, celsius: 38.0, minutes: 60.0 };

/// A typical percarbonate bath.
const PERCARBONATE: BathSettings =
    BathSettings { charge: 0.025, consistency: 0.06, celsius: 52.0, minutes: 120.0 };

/// A pulp that consumes most of the oxidant during the bath.
const FAST: BleachResponse =
    BleachResponse { tau_min: 24.0, residual_share: 0.04, final_colour: 0.16 };

/// A slower response with more residual colour: percarbonate on leaf.
const SLOW: BleachResponse =
    BleachResponse { tau_min: 55.0, residual_share: 0.10, final_colour: 0.30 };
