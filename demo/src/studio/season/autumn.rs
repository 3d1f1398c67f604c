//! September to today: a blend, a batch still being washed, and a running bath.

use bleachfield_core::journal::{
    Body, LotBlended, LotDrawn, LotPart, PulpState, StopReason, StoredForm, Subject,
};
use ulid::Ulid;

use super::{FAST, HYPOCHLORITE, PERCARBONATE, SLOW};
use crate::photo::preset::DemoFibre::{CattailLeaf, HempTow, IrisLeaf};
use crate::photo::preset::Lighting::{Lamp, Overcast};
use crate::studio::DemoError;
use crate::studio::journal_builder::Author::{Marl, Teasel};
use crate::studio::journal_builder::JournalBuilder;
use crate::studio::model::read;
use crate::studio::shelf::{Shelf, StockBleach};

/// Minutes since the running bath was started.
const RUNNING_FOR: i64 = 25;

/// Hemp to strengthen cattail. Returns its lot.
pub fn tow(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<Ulid, DemoError> {
    let at = journal.on(40, 7, 15);
    let mut batch = journal.begin_batch(Marl, at, HempTow, ("Tow to blend", 260.0), "");
    batch.cook(0.15, 4.0, 9.1, "");
    batch.weigh_with_sample(740.0, 4.2)?;
    batch.bleach(
        &shelf.percarbonate,
        PERCARBONATE.with_charge(0.03),
        SLOW.with_final_colour(0.2),
    )?;
    batch.tend(119.0, &[(30.0, Overcast), (90.0, Overcast)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.wash_and_sign_off(5, 4.5, "", "")?;
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
    journal.write(Teasel, at, Subject::Lot(lot), body);
    let drawn = LotDrawn { dry_g: read(12.0, 1.0), purpose: "Test pats for shrinkage".into() };
    let when = journal.on(36, 11, 40);
    journal.write(Teasel, when, Subject::Lot(lot), Body::LotDrawn(drawn));
}

/// Cattail, clean and not yet stored.
pub fn late_cut(journal: &mut JournalBuilder, cellar: &StockBleach) -> Result<(), DemoError> {
    let at = journal.on(22, 6, 40);
    let mut batch = journal.begin_batch(Marl, at, CattailLeaf, ("Late cut", 590.0), "");
    batch.cook(0.18, 3.0, 8.9, "");
    batch.weigh_by_own_figure(740.0)?;
    batch.photograph(PulpState::Wet, Lamp, "By the lamp, it gets dark early.")?;
    batch.bleach(cellar, HYPOCHLORITE, FAST)?;
    batch.tend(58.0, &[(40.0, Lamp)])?;
    batch.stop(StopReason::ReachedColour, "")?;
    batch.wash_and_sign_off(5, 4.0, "", "")?;
    Ok(())
}

/// Iris, after two rinses.
pub fn still_washing(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(2, 7, 0);
    let mut batch = journal.begin_batch(Teasel, at, IrisLeaf, ("Flag garden, last cut", 660.0), "");
    batch.cook(0.15, 2.0, 8.8, "");
    batch.weigh_by_own_figure(610.0)?;
    batch.bleach(&shelf.percarbonate, PERCARBONATE, SLOW)?;
    batch.tend(119.0, &[(90.0, Overcast)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.rinse(2, 4.0, "Left standing in the second water.")?;
    Ok(())
}

/// Hemp, cooked and planned for.
pub fn only_planned(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<(), DemoError> {
    let at = journal.on(2, 8, 0);
    let mut batch = journal.begin_batch(Teasel, at, HempTow, ("Tow for the boards", 340.0), "");
    batch.cook(0.15, 4.0, 9.2, "");
    batch.weigh_by_own_figure(960.0)?;
    batch.plan(&shelf.percarbonate, PERCARBONATE.with_charge(0.02))?;
    batch.note("When the blue bucket is free.");
    Ok(())
}

/// Cattail in hypochlorite, running now.
pub fn running(journal: &mut JournalBuilder, cellar: &StockBleach) -> Result<(), DemoError> {
    let hours = 5 * 60;
    // Durations of cook, weighing, planning and filling in the simulation.
    let at = journal.minutes_ago(RUNNING_FOR + hours + 12 + 6 + 14);
    let mut batch = journal.begin_batch(Marl, at, CattailLeaf, ("Reed bed, today", 605.0), "");
    batch.cook(0.18, (hours as f64 - 95.0) / 60.0, 9.0, "");
    batch.weigh_by_own_figure(765.0)?;
    batch.photograph(PulpState::Wet, Overcast, "Before.")?;
    batch.bleach(cellar, HYPOCHLORITE, FAST)?;
    batch.tend(24.0, &[(20.0, Overcast)])?;
    batch.note("Going well. Next stir at thirty.");
    Ok(())
}
