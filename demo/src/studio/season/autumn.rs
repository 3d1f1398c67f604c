//! September to today: a blend, a batch still being washed, and a bath that runs.

use bleachfield_core::journal::{
    Body, LotBlended, LotPart, PulpState, StopReason, StoredForm, Subject,
};
use ulid::Ulid;

use super::{HYPOCHLORITE, PERCARBONATE, SLOW, WILLING};
use crate::photo::preset::{Fibre, Hour};
use crate::studio::Failure;
use crate::studio::course::{Course, Wanted};
use crate::studio::log::{Hand, Log};
use crate::studio::model::{Appetite, read};
use crate::studio::shelf::{Jar, Shelf};

/// How long ago the bath of today was started.
const RUNNING_FOR: i64 = 25;

/// Hemp to lend strength to cattail. The answer is its lot.
pub fn tow(log: &mut Log, shelf: &Shelf) -> Result<Ulid, Failure> {
    let at = log.on(40, 7, 15);
    let mut batch = Course::begin(log, Hand::Marl, at, Fibre::HempTow, ("Tow to blend", 260.0), "");
    batch.cook(0.15, 4.0, 9.1, "");
    batch.weigh_with_sample(740.0, 4.2)?;
    batch.plan(&shelf.percarbonate, Wanted { charge: 0.03, ..PERCARBONATE })?;
    batch.start(Appetite { fades_to: 0.2, ..SLOW }, 1.0)?;
    batch.tend(119.0, &[(30.0, Hour::Overcast), (90.0, Hour::Overcast)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.rinse(5, 4.5, "")?;
    batch.end_tests();
    batch.sign_off("")?;
    Ok(batch.store(StoredForm::WetCold, "cold room, second shelf", ""))
}

/// Two lots become one, and sheets of it.
pub fn blend(log: &mut Log, cattail: Ulid, tow: Ulid) {
    let at = log.on(36, 10, 30);
    let lot = log.fresh_id(at);
    let part = |lot, grams: f64| LotPart { lot, dry_g: read(grams, 0.05 * grams) };
    let body = Body::LotBlended(LotBlended {
        name: "Cattail with a third of hemp".into(),
        parts: vec![part(cattail, 60.0), part(tow, 30.0)],
        form: StoredForm::WetCold,
        place: "cold room, second shelf".into(),
        keep_by: log.day(36 - 10).into(),
    });
    log.write(Hand::Teasel, at, Subject::Lot(lot), body);
    let drawn = bleachfield_core::journal::LotDrawn {
        dry_g: read(12.0, 1.0),
        purpose: "Test pats for shrinkage".into(),
    };
    let when = log.on(36, 11, 40);
    log.write(Hand::Teasel, when, Subject::Lot(lot), Body::LotDrawn(drawn));
}

/// Cattail, clean and not yet put by.
pub fn late_cut(log: &mut Log, cellar: &Jar) -> Result<(), Failure> {
    let at = log.on(22, 6, 40);
    let mut batch = Course::begin(log, Hand::Marl, at, Fibre::CattailLeaf, ("Late cut", 590.0), "");
    batch.cook(0.18, 3.0, 8.9, "");
    batch.weigh_by_own_figure(740.0)?;
    batch.photograph(PulpState::Wet, Hour::Lamp, "By the lamp, it gets dark early.")?;
    batch.plan(cellar, HYPOCHLORITE)?;
    batch.start(WILLING, 1.0)?;
    batch.tend(58.0, &[(40.0, Hour::Lamp)])?;
    batch.stop(StopReason::ReachedColour, "")?;
    batch.rinse(5, 4.0, "")?;
    batch.end_tests();
    batch.sign_off("")?;
    Ok(())
}

/// Iris, two rinses in.
pub fn still_washing(log: &mut Log, shelf: &Shelf) -> Result<(), Failure> {
    let at = log.on(2, 7, 0);
    let mut batch =
        Course::begin(log, Hand::Teasel, at, Fibre::IrisLeaf, ("Flag garden, last cut", 660.0), "");
    batch.cook(0.15, 2.0, 8.8, "");
    batch.weigh_by_own_figure(610.0)?;
    batch.plan(&shelf.percarbonate, PERCARBONATE)?;
    batch.start(SLOW, 1.0)?;
    batch.tend(119.0, &[(90.0, Hour::Overcast)])?;
    batch.stop(StopReason::TimeUp, "")?;
    batch.rinse(2, 4.0, "Left standing in the second water.")?;
    Ok(())
}

/// Hemp, cooked and planned for.
pub fn only_planned(log: &mut Log, shelf: &Shelf) -> Result<(), Failure> {
    let at = log.on(2, 8, 0);
    let mut batch =
        Course::begin(log, Hand::Teasel, at, Fibre::HempTow, ("Tow for the boards", 340.0), "");
    batch.cook(0.15, 4.0, 9.2, "");
    batch.weigh_by_own_figure(960.0)?;
    batch.plan(&shelf.percarbonate, Wanted { charge: 0.02, ..PERCARBONATE })?;
    batch.note("When the blue bucket is free.");
    Ok(())
}

/// Cattail in hypochlorite, at this moment.
pub fn running(log: &mut Log, cellar: &Jar) -> Result<(), Failure> {
    let hours = 5 * 60;
    // The cook, the scale, the plan and the filling take what the course says.
    let at = log.minutes_ago(RUNNING_FOR + hours + 12 + 6 + 14);
    let mut batch =
        Course::begin(log, Hand::Marl, at, Fibre::CattailLeaf, ("Reed bed, today", 605.0), "");
    batch.cook(0.18, (hours as f64 - 95.0) / 60.0, 9.0, "");
    batch.weigh_by_own_figure(765.0)?;
    batch.photograph(PulpState::Wet, Hour::Overcast, "Before.")?;
    batch.plan(cellar, HYPOCHLORITE)?;
    batch.start(WILLING, 1.0)?;
    batch.tend(24.0, &[(20.0, Hour::Overcast)])?;
    batch.note("Going well. Next stir at thirty.");
    Ok(())
}
