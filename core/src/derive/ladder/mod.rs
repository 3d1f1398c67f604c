//! The steps after a bath, one under another: drain, rinse so many times, remove the last
//! oxidant, test, sign off, store. Which are done, which is next, and which are still ahead.
//! Not here: the number of rinses ahead, which is `ahead`; how clean is proven, which is
//! `pulp::sign_off`.

mod ahead;
#[cfg(test)]
mod tests;

use ulid::Ulid;

use super::sign_off::test_results;
use super::{SignOffEvidence, WashRecord};
use crate::journal::{Batch, BatchState, Body, Book, Figure, TimelineEntry};
use crate::pulp::sign_off::{
    EndTestKind, EndTestVerdict, SignOffStatus, UnmetTest, required, status,
};

pub use ahead::{RinsesAhead, plan_of_bath};

/// The steps after the last bath of a batch, in order.
#[derive(Clone, Debug, PartialEq)]
pub struct Ladder {
    pub rungs: Vec<Rung>,
    pub ahead: RinsesAhead,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    pub kind: RungKind,
    pub state: RungState,
    /// The entry that recorded it.
    pub entry: Option<Ulid>,
    /// Read in this step. Ahead of a pH test: the last pH read, where it still counts.
    pub ph: Option<Figure>,
    /// Chlorine or peroxide read in this step, mg/L.
    pub strip_mg_per_l: Option<Figure>,
    /// Water used, litres.
    pub water_l: Option<Figure>,
}

/// What a step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RungKind {
    Drain,
    /// 1 for the first rinse after the bath.
    Rinse(u32),
    Antichlor,
    Acid,
    Test(EndTestKind),
    SignOff,
    Store,
}

/// How far a step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RungState {
    Done,
    /// A reason stands in its place.
    LeftOut,
    /// To be done now; one at most.
    Now,
    /// May be done now, and need not be.
    Optional,
    Ahead,
}

impl Ladder {
    /// The ladder of a batch whose last bath was stopped; `None` before, and while a bath runs.
    pub fn of(book: &Book, batch: &Batch) -> Option<Self> {
        let bath = batch.baths.last()?;
        if batch.running().is_some() {
            return None;
        }
        let entries: Vec<&TimelineEntry> = batch.visible_entries().collect();
        let started = entries.iter().position(
            |entry| matches!(&entry.body, Body::BathStarted(started) if started.bath == bath.id),
        )?;
        let since = &entries[started..];
        let evidence = SignOffEvidence::of(batch);
        let record = WashRecord::of(book, batch);
        let ahead = RinsesAhead::of(book, batch, since, &record);
        let progress = Progress::new(batch, since, &evidence);
        let mut rungs = progress.done_rungs();
        rungs.extend(progress.rungs_ahead(&ahead, &record));
        if let Some(now) = rungs.iter_mut().find(|rung| rung.state == RungState::Ahead)
            && batch.state != BatchState::Abandoned
        {
            now.state = RungState::Now;
        }
        Some(Self { rungs, ahead })
    }

    /// The step to be done now.
    pub fn now(&self) -> Option<RungKind> {
        self.rungs.iter().find(|rung| rung.state == RungState::Now).map(|rung| rung.kind)
    }
}

/// What was done since the bath.
struct Progress<'a> {
    batch: &'a Batch,
    since: &'a [&'a TimelineEntry],
    evidence: &'a SignOffEvidence,
    unmet: Vec<UnmetTest>,
    rinses: u32,
    /// Something was added after the last rinse.
    unrinsed: bool,
    /// A test failed after the last rinse.
    failed: bool,
    /// The last strip after a rinse found oxidant, and nothing was added against it since.
    oxidant_found: bool,
}

impl<'a> Progress<'a> {
    fn new(
        batch: &'a Batch,
        since: &'a [&'a TimelineEntry],
        evidence: &'a SignOffEvidence,
    ) -> Self {
        let unmet = evidence.unmet_tests();
        let mut found = Self {
            batch,
            since,
            evidence,
            unmet,
            rinses: 0,
            unrinsed: false,
            failed: false,
            oxidant_found: false,
        };
        let results = test_results(batch);
        for entry in since {
            match &entry.body {
                Body::Rinsed(_) => {
                    found.rinses += 1;
                    (found.unrinsed, found.failed) = (false, false);
                }
                Body::Antichlored(_) | Body::AcidFinished(_) => {
                    (found.unrinsed, found.oxidant_found) = (true, false);
                }
                _ => {}
            }
            for (_, result) in results.iter().filter(|(id, _)| *id == entry.entry.id) {
                let failed = result.verdict == EndTestVerdict::Fail;
                found.failed |= failed;
                if matches!(result.test, EndTestKind::ChlorineStrip | EndTestKind::PeroxideStrip) {
                    found.oxidant_found = failed && found.rinses > 0;
                }
            }
        }
        // Only what still fails calls for another rinse.
        found.failed &= found.unmet.iter().any(|test| test.status == SignOffStatus::Failing);
        found
    }

    /// Draining, and each rinse and addition that was recorded, in their order.
    fn done_rungs(&self) -> Vec<Rung> {
        let washed = self.since.iter().any(|entry| {
            matches!(entry.body, Body::Rinsed(_) | Body::Antichlored(_) | Body::AcidFinished(_))
        });
        let state = if washed || self.is_over() { RungState::Done } else { RungState::Ahead };
        let mut rungs = vec![rung(RungKind::Drain, state)];
        let mut rinses = 0;
        for entry in self.since {
            let mut done = match &entry.body {
                Body::Rinsed(rinse) => {
                    rinses += 1;
                    Rung {
                        ph: rinse.ph,
                        strip_mg_per_l: rinse.strip_mg_per_l,
                        water_l: Some(rinse.water_l),
                        ..rung(RungKind::Rinse(rinses), RungState::Done)
                    }
                }
                Body::Antichlored(done) => Rung {
                    strip_mg_per_l: done.strip_mg_per_l,
                    ..rung(RungKind::Antichlor, RungState::Done)
                },
                Body::AcidFinished(done) => {
                    Rung { ph: done.ph_after, ..rung(RungKind::Acid, RungState::Done) }
                }
                _ => continue,
            };
            done.entry = Some(entry.entry.id);
            rungs.push(done);
        }
        rungs
    }

    /// What may or must still be done, and the tests.
    fn rungs_ahead(&self, ahead: &RinsesAhead, record: &WashRecord) -> Vec<Rung> {
        let mut rungs = Vec::new();
        if self.oxidant_found && !self.is_over() {
            rungs.push(rung(RungKind::Antichlor, RungState::Optional));
        }
        let ahead = (1..=self.rinses_ahead(ahead)).map(|n| RungKind::Rinse(self.rinses + n));
        rungs.extend(ahead.map(|kind| rung(kind, RungState::Ahead)));
        let (strips, others): (Vec<_>, Vec<_>) = self.tests().into_iter().partition(|test| {
            matches!(test, EndTestKind::ChlorineStrip | EndTestKind::PeroxideStrip)
        });
        rungs.extend(strips.into_iter().map(|test| self.test_rung(test, record)));
        if self.acid_may_help(record) {
            rungs.push(rung(RungKind::Acid, RungState::Optional));
        }
        rungs.extend(others.into_iter().map(|test| self.test_rung(test, record)));
        rungs.push(rung(
            RungKind::SignOff,
            match &self.batch.signed_off {
                Some(signed) if signed.complete => RungState::Done,
                Some(_) => RungState::LeftOut,
                None if self.is_over() => RungState::LeftOut,
                None => RungState::Ahead,
            },
        ));
        let stored = !self.batch.lots.is_empty() || self.is_over();
        let stored = if stored { RungState::Done } else { RungState::Ahead };
        rungs.push(rung(RungKind::Store, stored));
        rungs
    }

    /// Rinses still to do: as predicted, one at least before the first test, after an addition
    /// and after a test that failed; none once the strips and the pH have passed.
    fn rinses_ahead(&self, ahead: &RinsesAhead) -> u32 {
        if self.is_over() || self.batch.signed_off.is_some() {
            return 0;
        }
        let by_readings =
            [EndTestKind::ChlorineStrip, EndTestKind::PeroxideStrip, EndTestKind::RinsePh];
        let proven = !self.unmet.iter().any(|unmet| by_readings.contains(&unmet.test));
        let predicted = if proven { 0 } else { ahead.count.unwrap_or(0) };
        let needed = self.rinses == 0 || self.unrinsed || self.failed;
        predicted.max(u32::from(needed))
    }

    /// The tests that the batch needs, and any other that fails.
    fn tests(&self) -> Vec<EndTestKind> {
        let mut tests = required(self.evidence.used);
        for unmet in &self.unmet {
            if !tests.contains(&unmet.test) {
                tests.push(unmet.test);
            }
        }
        tests
    }

    fn test_rung(&self, test: EndTestKind, record: &WashRecord) -> Rung {
        let passed =
            status(test, &self.evidence.log, self.evidence.changed) == SignOffStatus::Passed;
        let over = self.batch.signed_off.is_some();
        let state = match (passed, over) {
            (true, _) => RungState::Done,
            (false, true) => RungState::LeftOut,
            (false, false) => RungState::Ahead,
        };
        let ph = (test == EndTestKind::RinsePh && !passed).then(|| self.last_rinse_ph()).flatten();
        let ph = ph.filter(|_| record.readings.ph.is_some());
        Rung { ph, ..rung(RungKind::Test(test), state) }
    }

    /// The pH that the last rinse was read at, if nothing was added since.
    fn last_rinse_ph(&self) -> Option<Figure> {
        if self.unrinsed || self.failed {
            return None;
        }
        self.since.iter().rev().find_map(|entry| match &entry.body {
            Body::Rinsed(rinse) => Some(rinse.ph),
            _ => None,
        })?
    }

    /// Acid may be added by what was tested, and there is alkali to neutralise.
    fn acid_may_help(&self, record: &WashRecord) -> bool {
        let alkaline = self.unmet.iter().any(|unmet| {
            unmet.test == EndTestKind::RinsePh && unmet.status == SignOffStatus::Failing
        }) && record
            .readings
            .ph
            .is_some_and(|ph| record.readings.tap_ph.is_none_or(|tap| ph.value > tap.value));
        alkaline && !self.is_over() && self.rinses > 0 && self.evidence.acid_proof().is_ok()
    }

    /// Nothing more is expected: it was made into sheets without a lot, or abandoned.
    fn is_over(&self) -> bool {
        matches!(self.batch.state, BatchState::Used | BatchState::Abandoned)
    }
}

fn rung(kind: RungKind, state: RungState) -> Rung {
    Rung { kind, state, entry: None, ph: None, strip_mg_per_l: None, water_l: None }
}
