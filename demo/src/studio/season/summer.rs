//! June to August: two-stage bleaching, corrected entries, and permanent papers.

use bleachfield_core::journal::{
    Body, Corrected, DrynessFrom, PulpState, ReadingOf, StopReason, StoredForm, Weighed, Withdrawn,
};

use super::{FAST, HYPOCHLORITE, PERCARBONATE, SLOW};
use crate::photo::preset::DemoFibre::{CattailLeaf, HempTow, IrisLeaf};
use crate::photo::preset::Lighting::{Clear, Lamp, Overcast};
use crate::studio::DemoError;
use crate::studio::journal_builder::Author::{Marl, Teasel};
use crate::studio::journal_builder::JournalBuilder;
use crate::studio::model::{BleachResponse, SQUEEZE, read, strip};
use crate::studio::shelf::{Shelf, StockBleach};
use crate::studio::simulation::BathSettings;

/// Iris by hypochlorite.
pub fn second_cut(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(139, 7, 30);
    let mut batch = journal.begin_batch(
        Teasel,
        at,
        IrisLeaf,
        ("Flag garden, second cut", 640.0),
        "Green leaf, dried on the fence.",
    );
    batch.cook(0.15, 2.0, 8.8, "");
    batch.weigh_with_sample(560.0, 4.1)?;
    batch.photograph(PulpState::Wet, Clear, "Greener than it looks here.")?;
    batch.bleach(
        &shelf.cellar,
        BathSettings { charge: 0.025, minutes: 45.0, ..HYPOCHLORITE },
        BleachResponse { tau_min: 18.0, final_colour: 0.12, ..FAST },
    )?;
    batch.tend(42.0, &[(40.0, Clear)])?;
    batch.stop(StopReason::ReachedColour, "As pale as we want it.")?;
    batch.wash_and_sign_off(5, 3.5, "", "")?;
    batch.store(StoredForm::Dried, "loft, in the pillowcase", "Pressed into pats.");
    batch.wait(60 * 24 * 4);
    batch.photograph(PulpState::Dried, Overcast, "")?;
    Ok(())
}

/// Hypochlorite first, well washed, then percarbonate.
pub fn in_two_steps(
    journal: &mut JournalBuilder,
    shelf: &Shelf,
    cellar: &StockBleach,
) -> Result<(), DemoError> {
    let at = journal.on(118, 6, 50);
    let note = "Two gentle baths in place of one strong one.";
    let mut batch =
        journal.begin_batch(Marl, at, CattailLeaf, ("Reed bed, two steps", 600.0), note);
    batch.cook(0.18, 3.0, 8.9, "");
    batch.weigh_by_own_figure(760.0)?;
    batch.bleach(
        cellar,
        BathSettings { charge: 0.02, minutes: 40.0, ..HYPOCHLORITE },
        BleachResponse { tau_min: 13.0, residual_share: 0.03, final_colour: 0.40 },
    )?;
    batch.tend(39.0, &[(20.0, Overcast)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.rinse(5, 4.0, "The two must not meet. Washed until the strip stayed white.")?;
    batch.antichlor(shelf.thiosulfate, "A pinch, to be sure.")?;
    batch.rinse(2, 4.0, "")?;
    batch.read(ReadingOf::AvailableChlorineMgPerL, strip(0.0));
    batch.wait(60 * 20);
    batch.bleach(
        &shelf.percarbonate,
        BathSettings { charge: 0.015, minutes: 90.0, ..PERCARBONATE },
        SLOW.with_final_colour(0.35),
    )?;
    batch.tend(89.0, &[(60.0, Overcast)])?;
    batch.stop(StopReason::TimeUp, "Warmer white than hypochlorite alone gives.")?;
    batch.wash_and_sign_off(5, 4.0, "", "")?;
    let lot = batch.store(StoredForm::Frozen, "chest freezer, right", "");
    batch.wait(60 * 24 * 2);
    batch.photograph(PulpState::Dried, Overcast, "Strongest white cattail so far.")?;
    batch.sheets(lot, 8, ("A4", 210.0, 297.0), 100.0, "");
    Ok(())
}

/// Hemp for a class, signed off before its pH was neutral, with a reason.
pub fn for_the_class(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(97, 7, 20);
    let mut batch = journal.begin_batch(Teasel, at, HempTow, ("Tow for the class", 420.0), "");
    batch.cook(0.15, 4.0, 9.2, "");
    batch.weigh_by_own_figure(1180.0)?;
    batch.bleach(&shelf.percarbonate, PERCARBONATE, SLOW.with_final_colour(0.26))?;
    batch.tend(119.0, &[(90.0, Clear)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.wash_and_sign_off(
        3,
        5.0,
        "Ran out of evening.",
        "Goes into the class vat tomorrow, which gets fresh water anyway.",
    )?;
    let lot = batch.store(StoredForm::WetCold, "bucket by the door", "Class, tomorrow at ten.");
    batch.wait(60 * 17);
    batch.sheets(lot, 31, ("A5", 148.0, 210.0), 130.0, "Eleven people, mostly postcards.");
    Ok(())
}

/// A batch with withdrawn and corrected entries.
pub fn slips(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(80, 6, 55);
    let mut batch = journal.begin_batch(Marl, at, CattailLeaf, ("Sluice meadow", 610.0), "");
    batch.cook(0.18, 3.0, 9.0, "");
    let wrong = batch.weigh_by_own_figure(570.0)?;
    batch.wait(1);
    batch.write(Body::Corrected(Corrected {
        entry: wrong,
        body: Box::new(Body::Weighed(Weighed {
            wet_mass_g: read(750.0, 4.0),
            dryness: read(SQUEEZE, 0.015),
            how: DrynessFrom::OwnFigure,
            sample: None,
        })),
        at: None,
        why: "Read the scale upside down.".into(),
    }));
    // What follows goes by the right weight.
    let again = batch.weigh_by_own_figure(750.0)?;
    batch.write(Body::Withdrawn(Withdrawn { entry: again, why: "Same lump twice.".into() }));
    batch.bleach(&shelf.percarbonate, PERCARBONATE, SLOW)?;
    batch.tend(62.0, &[(60.0, Overcast)])?;
    batch.wait(1);
    batch.read(ReadingOf::Celsius, read(25.0, 0.5));
    let blunder = batch.note("Bath is cold?!");
    batch.wait(1);
    let why = "Thermometer was in the rinse bucket.".to_owned();
    batch.write(Body::Withdrawn(Withdrawn { entry: blunder, why }));
    batch.tend(119.0, &[(90.0, Overcast)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.wash_and_sign_off(5, 4.0, "", "")?;
    let lot = batch.store(StoredForm::Frozen, "chest freezer, left", "");
    batch.wait(60 * 24 * 9);
    batch.sheets(lot, 10, ("A5", 148.0, 210.0), 95.0, "");
    Ok(())
}

/// Permanent paper: antichlor, neutral finish, alkaline reserve; signed off with a reason,
/// as the reserve keeps the last rinse's pH above the tap's.
pub fn for_keeping(
    journal: &mut JournalBuilder,
    shelf: &Shelf,
    cellar: &StockBleach,
) -> Result<(), DemoError> {
    let at = journal.on(61, 7, 5);
    let note = "For the herbarium labels. They want them to last.";
    let mut batch = journal.begin_batch(Teasel, at, IrisLeaf, ("Herbarium labels", 720.0), note);
    batch.cook(0.15, 2.0, 8.7, "");
    batch.weigh_with_sample(650.0, 4.2)?;
    batch.bleach(
        cellar,
        HYPOCHLORITE.with_charge(0.03),
        BleachResponse { residual_share: 0.12, final_colour: 0.14, ..FAST },
    )?;
    batch.tend(58.0, &[(20.0, Overcast), (40.0, Lamp)])?;
    batch.stop(StopReason::TimeUp, "A third of the strip still there at the end.")?;
    batch.rinse(3, 4.0, "")?;
    batch.antichlor(shelf.thiosulfate, "")?;
    batch.rinse(3, 4.0, "")?;
    batch.neutralize(shelf.citric, 0.4, "Only now, with the strip at nothing.");
    batch.rinse(1, 4.0, "")?;
    batch.reserve(shelf.chalk)?;
    batch.end_tests();
    batch.sign_off("The pH is the chalk's, and the chalk is meant to be there.")?;
    let lot = batch.store(StoredForm::WetCold, "cold room, marked H", "");
    batch.wait(60 * 24 * 2);
    batch.sheets(lot, 24, ("A6", 105.0, 148.0), 110.0, "Sized with gelatine later.");
    batch.wait(60 * 24);
    batch.photograph(PulpState::Dried, Overcast, "Label stock.")?;
    Ok(())
}
