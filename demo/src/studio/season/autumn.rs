//! September to today: a blend, a batch still being washed, and a running bath.

use bleachfield_core::journal::{
    Body, LotBlended, LotPart, PulpState, StopReason, StoredForm, Subject,
};
use ulid::Ulid;

use super::{FAST, HYPOCHLORITE, PERCARBONATE, SLOW};
use crate::photo::preset::{DemoFibre, Lighting};
use crate::studio::DemoError;
use crate::studio::journal_builder::{Author, JournalBuilder};
use crate::studio::model::{BleachResponse, read};
use crate::studio::shelf::{Shelf, StockBleach};
use crate::studio::simulation::{BatchSimulation, BathSettings};

/// Minutes since the running bath was started.
const RUNNING_FOR: i64 = 25;

/// Hemp to strengthen cattail. Returns its lot.
pub fn tow(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<Ulid, DemoError> {
    let at = journal.on(40, 7, 15);
    let mut batch = BatchSimulation::begin(
        journal,
        Author::Marl,
        at,
        DemoFibre::HempTow,
        ("Tow to blend", 260.0),
        "",
    );
    batch.cook(0.15, 4.0, 9.1, "");
    batch.weigh_with_sample(740.0, 4.2)?;
    batch.plan(&shelf.percarbonate, BathSettings { charge: 0.03, ..PERCARBONATE })?;
    batch.start(BleachResponse { final_colour: 0.2, ..SLOW }, 1.0)?;
    batch.tend(119.0, &[(30.0, Lighting::Overcast), (90.0, Lighting::Overcast)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.rinse(5, 4.5, "")?;
    batch.end_tests();
    batch.sign_off("")?;
    Ok(batch.store(StoredForm::WetCold, "cold room, second shelf", ""))
}

/// Blends two lots, and takes from the blend.
pub fn blend(journal: &mut JournalBuilder, cattail: Ulid, tow: Ulid) {
    let at = journal.on(36, 10, 30);
    let lot = journal.fresh_id(at);
    let part = |lot, grams: f64| LotPart { lot, dry_g: read(grams, 0.05 * grams) };
    let body = Body::LotBlended(LotBlended {
        name: "Cattail with a third of hemp".into(),
        parts: vec![part(cattail, 60.0), part(tow, 30.0)],
        form: StoredForm::WetCold,
        place: "cold room, second shelf".into(),
        keep_by: journal.day(36 - 10).into(),
    });
    journal.write(Author::Teasel, at, Subject::Lot(lot), body);
    let drawn = bleachfield_core::journal::LotDrawn {
        dry_g: read(12.0, 1.0),
        purpose: "Test pats for shrinkage".into(),
    };
    let when = journal.on(36, 11, 40);
    journal.write(Author::Teasel, when, Subject::Lot(lot), Body::LotDrawn(drawn));
}

/// Cattail, clean and not yet stored.
pub fn late_cut(journal: &mut JournalBuilder, cellar: &StockBleach) -> Result<(), DemoError> {
    let at = journal.on(22, 6, 40);
    let mut batch = BatchSimulation::begin(
        journal,
        Author::Marl,
        at,
        DemoFibre::CattailLeaf,
        ("Late cut", 590.0),
        "",
    );
    batch.cook(0.18, 3.0, 8.9, "");
    batch.weigh_by_own_figure(740.0)?;
    batch.photograph(PulpState::Wet, Lighting::Lamp, "By the lamp, it gets dark early.")?;
    batch.plan(cellar, HYPOCHLORITE)?;
    batch.start(FAST, 1.0)?;
    batch.tend(58.0, &[(40.0, Lighting::Lamp)])?;
    batch.stop(StopReason::ReachedColour, "")?;
    batch.rinse(5, 4.0, "")?;
    batch.end_tests();
    batch.sign_off("")?;
    Ok(())
}

/// Iris, after two rinses.
pub fn still_washing(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(2, 7, 0);
    let mut batch = BatchSimulation::begin(
        journal,
        Author::Teasel,
        at,
        DemoFibre::IrisLeaf,
        ("Flag garden, last cut", 660.0),
        "",
    );
    batch.cook(0.15, 2.0, 8.8, "");
    batch.weigh_by_own_figure(610.0)?;
    batch.plan(&shelf.percarbonate, PERCARBONATE)?;
    batch.start(SLOW, 1.0)?;
    batch.tend(119.0, &[(90.0, Lighting::Overcast)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.rinse(2, 4.0, "Left standing in the second water.")?;
    Ok(())
}

/// Hemp, cooked and planned for.
pub fn only_planned(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(2, 8, 0);
    let mut batch = BatchSimulation::begin(
        journal,
        Author::Teasel,
        at,
        DemoFibre::HempTow,
        ("Tow for the boards", 340.0),
        "",
    );
    batch.cook(0.15, 4.0, 9.2, "");
    batch.weigh_by_own_figure(960.0)?;
    batch.plan(&shelf.percarbonate, BathSettings { charge: 0.02, ..PERCARBONATE })?;
    batch.note("When the blue bucket is free.");
    Ok(())
}

/// Cattail in hypochlorite, running now.
pub fn running(journal: &mut JournalBuilder, cellar: &StockBleach) -> Result<(), DemoError> {
    let hours = 5 * 60;
    // Durations of cook, weighing, planning and filling in the simulation.
    let at = journal.minutes_ago(RUNNING_FOR + hours + 12 + 6 + 14);
    let mut batch = BatchSimulation::begin(
        journal,
        Author::Marl,
        at,
        DemoFibre::CattailLeaf,
        ("Reed bed, today", 605.0),
        "",
    );
    batch.cook(0.18, (hours as f64 - 95.0) / 60.0, 9.0, "");
    batch.weigh_by_own_figure(765.0)?;
    batch.photograph(PulpState::Wet, Lighting::Overcast, "Before.")?;
    batch.plan(cellar, HYPOCHLORITE)?;
    batch.start(FAST, 1.0)?;
    batch.tend(24.0, &[(20.0, Lighting::Overcast)])?;
    batch.note("Going well. Next stir at thirty.");
    Ok(())
}
