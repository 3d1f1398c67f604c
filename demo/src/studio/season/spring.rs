//! March to May: the first cooks, and two baths that went wrong.

use bleachfield_core::journal::{Abandoned, Body, PulpState, Renamed, StopReason, StoredForm};
use ulid::Ulid;

use super::{FAST, HYPOCHLORITE, PERCARBONATE, SLOW};
use crate::photo::preset::DemoFibre::{CattailLeaf, HempTow, IrisLeaf};
use crate::photo::preset::Lighting::{Clear, Lamp, Overcast};
use crate::studio::DemoError;
use crate::studio::journal_builder::Author::{Marl, Teasel};
use crate::studio::journal_builder::JournalBuilder;
use crate::studio::model::BleachResponse;
use crate::studio::shelf::{Shelf, StockBleach};
use crate::studio::simulation::BathSettings;

/// The first batch, without trouble. Returns its lot.
pub fn reed_bed(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<Ulid, DemoError> {
    let at = journal.on(222, 6, 30);
    let note = "Cut in January, retted in the ditch for five weeks. Smells like it.";
    let mut batch = journal.begin_batch(Marl, at, CattailLeaf, ("Reed bed", 620.0), note);
    batch.cook(0.18, 3.0, 8.9, "Blue pot, lid on.");
    batch.weigh_with_sample(780.0, 4.3)?;
    batch.photograph(PulpState::Wet, Overcast, "Straight from the cook.")?;
    batch.bleach(&shelf.cellar, HYPOCHLORITE, FAST)?;
    batch.tend(59.5, &[(20.0, Overcast), (40.0, Overcast)])?;
    batch.stop(StopReason::TimeUp, "Cream, and it stopped changing ten minutes ago.")?;
    batch.wash_and_sign_off(5, 4.0, "", "")?;
    let lot = batch.store(StoredForm::Frozen, "chest freezer, left", "Two bags.");
    batch.wait(60 * 24 * 3);
    batch.photograph(PulpState::Dried, Overcast, "A pat, three days dry.")?;
    batch.wait(60 * 24 * 2);
    batch.sheets(lot, 14, ("A5", 148.0, 210.0), 95.0, "Crisp. Rattles well.");
    Ok(lot)
}

/// Hemp by percarbonate, without trouble.
pub fn rope_ends(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(205, 7, 10);
    let note = "Ends from the rope walk, untarred.";
    let mut batch = journal.begin_batch(Teasel, at, HempTow, ("Rope ends", 300.0), note);
    batch.cook(0.15, 4.0, 9.1, "Cut to two centimetres first.");
    batch.weigh_by_own_figure(840.0)?;
    batch.bleach(&shelf.percarbonate, PERCARBONATE, SLOW.with_final_colour(0.22))?;
    batch.tend(119.0, &[(60.0, Lamp)])?;
    batch.stop(StopReason::TimeUp, "Still some fizz. Pale straw.")?;
    batch.wash_and_sign_off(5, 4.5, "Long fibres hold on to the water. Needed the fifth.", "")?;
    let lot = batch.store(StoredForm::WetCold, "cold room, second shelf", "");
    batch.wait(60 * 24 * 6);
    batch.sheets(lot, 9, ("own mould", 300.0, 420.0), 120.0, "For the bookbinder's boards.");
    Ok(())
}

/// A bath with the windowsill bottle, whose strength had decayed unnoticed.
pub fn windowsill(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(188, 7, 0);
    let mut batch = journal.begin_batch(Marl, at, CattailLeaf, ("Lower ditch", 580.0), "");
    batch.cook(0.18, 3.0, 9.0, "");
    batch.weigh_by_own_figure(730.0)?;
    let hungry = BleachResponse { tau_min: 4.5, residual_share: 0.0, final_colour: 0.72 };
    batch.bleach(&shelf.sill, HYPOCHLORITE, hungry)?;
    batch.tend(31.0, &[(20.0, Clear)])?;
    batch.note("Strip is white already. No smell of the pool either.");
    batch.stop(StopReason::Spent, "Spent in half an hour. Hardly paler than it went in.")?;
    batch.rinse(2, 4.0, "")?;
    batch.wait(60 * 19);
    batch.author = Teasel;
    batch.note("Titrated the bottle. The label is no good. Second bath from the cellar.");
    batch.bleach(&shelf.cellar, HYPOCHLORITE.with_charge(0.03), FAST.with_final_colour(0.22))?;
    batch.tend(59.0, &[(40.0, Overcast)])?;
    batch.stop(StopReason::TimeUp, "That is how it should have gone yesterday.")?;
    batch.wash_and_sign_off(5, 4.0, "", "")?;
    let lot = batch.store(StoredForm::WetCold, "cold room, top shelf", "");
    batch.wait(60 * 24 * 4);
    batch.sheets(lot, 12, ("A5", 148.0, 210.0), 90.0, "");
    Ok(())
}

/// Iris, which has a low yield and bleaches fast.
pub fn flag_garden(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(171, 8, 0);
    let note = "Last year's dead leaves. The green ones come in summer.";
    let mut batch = journal.begin_batch(Teasel, at, IrisLeaf, ("Iris one", 700.0), note);
    batch.cook(0.15, 2.0, 8.7, "");
    batch.weigh_assuming(690.0)?;
    batch.bleach(&shelf.percarbonate, PERCARBONATE.with_charge(0.02), SLOW)?;
    batch.tend(119.0, &[(30.0, Overcast), (90.0, Overcast)])?;
    batch.stop(StopReason::ReachedColour, "Pale green gone to oat. Enough.")?;
    batch.write(Body::Renamed(Renamed { name: "Flag garden, dead leaf".into() }));
    batch.wash_and_sign_off(5, 4.0, "", "")?;
    let lot = batch.store(StoredForm::WetCold, "cold room, top shelf", "Slimy hands, long drain.");
    batch.wait(60 * 24 * 5);
    batch.sheets(lot, 20, ("A6", 105.0, 148.0), 60.0, "Translucent at the edges.");
    Ok(())
}

/// Overbleached hemp: too high a charge, too warm, too long.
pub fn too_far(journal: &mut JournalBuilder, sill: &StockBleach) -> Result<(), DemoError> {
    let at = journal.on(153, 6, 45);
    let note = "Trying how white hemp will go.";
    let mut batch = journal.begin_batch(Marl, at, HempTow, ("White hemp, a trial", 180.0), note);
    batch.cook(0.20, 5.0, 9.3, "");
    batch.weigh_by_own_figure(500.0)?;
    let strong = BathSettings { charge: 0.11, consistency: 0.04, celsius: 55.0, minutes: 90.0 };
    batch.bleach(
        sill,
        strong,
        BleachResponse { tau_min: 30.0, residual_share: 0.05, final_colour: 0.03 },
    )?;
    batch.tend(61.0, &[(20.0, Clear), (60.0, Clear)])?;
    batch.note("White as the bath tub. It feels soft. Going on anyway.");
    batch.tend(86.0, &[(80.0, Clear)])?;
    batch.stop(StopReason::FibreSuffering, "Comes apart between two fingers. Too late.")?;
    batch.rinse(3, 4.0, "Half of it went through the sieve.")?;
    batch.wait(60 * 24);
    batch.photograph(PulpState::Dried, Lamp, "Dry. Breaks instead of bending.")?;
    batch.author = Teasel;
    batch.note("The plan did say so. Three times the charge and seventeen degrees too warm.");
    let why = "No strength left. Kept one pat for the class, the rest is compost.".to_owned();
    batch.write(Body::Abandoned(Abandoned { why }));
    Ok(())
}
