//! The projection of entries about a batch and its baths.

use super::TimelineEntry;
use crate::journal::{
    BathStarted, Body, Cook, CueOutcome, EndTest, Figure, Oxidant, PhotoId, Rinsed, Schedule,
    SignedOff, StopReason, VesselDescribed, Weighed,
};
use jiff::{SignedDuration, Timestamp};
use std::collections::{BTreeMap, BTreeSet};
use strum::{IntoStaticStr, VariantArray};
use ulid::Ulid;

/// A batch of fibre, from raw to stored.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Batch {
    pub id: Ulid,
    pub name: String,
    pub fibre: String,
    pub fibre_key: Option<String>,
    /// As typed.
    pub tags: BTreeSet<String>,
    pub cook: Option<Cook>,
    /// Oven-dry mass of the raw plant, g.
    pub raw_dry_g: Option<Figure>,
    pub state: BatchState,
    pub started: Timestamp,
    /// The instant of its latest event.
    pub changed: Timestamp,
    /// The last weighing.
    pub weighed: Option<Weighed>,
    /// The entry with the last plan.
    pub plan: Option<Ulid>,
    /// In the order of their starts.
    pub baths: Vec<BathView>,
    pub rinses: Vec<Rinsed>,
    pub end_tests: Vec<EndTest>,
    /// The last sign-off that is not followed by a bath or rinse.
    pub signed_off: Option<SignedOff>,
    /// Lots stored from this batch.
    pub lots: Vec<Ulid>,
    /// Photos, oldest first.
    pub photos: Vec<PhotoId>,
    /// All entries about it, in the order of their events; withdrawn entries
    /// are included and marked.
    pub timeline: Vec<TimelineEntry>,
}

/// The state of a batch, by what was last done with it.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, IntoStaticStr, VariantArray,
)]
#[strum(serialize_all = "snake_case")]
pub enum BatchState {
    /// Only planned, weighed or cooked.
    #[default]
    Planning,
    /// A bath is running.
    Running,
    /// The last bath was stopped; nothing rinsed since.
    Stopped,
    /// Rinsing and treatment after the bath.
    Washing,
    /// Signed off with all end tests passed.
    Clean,
    /// Signed off with a reason for a missing test.
    Unproven,
    /// Stored as a lot.
    Stored,
    /// Made into sheets.
    Used,
    #[strum(serialize = "given_up")]
    Abandoned,
}

impl BatchState {
    /// All of them, in the order of the job.
    pub const ALL: &'static [Self] = Self::VARIANTS;

    /// Key into the locale, under `state`.
    pub fn key(self) -> &'static str {
        self.into()
    }
}

impl Batch {
    /// The visible timeline: without withdrawn entries, and without the
    /// withdrawals and corrections themselves.
    pub fn visible_entries(&self) -> impl DoubleEndedIterator<Item = &TimelineEntry> {
        self.timeline.iter().filter(|entry| entry.is_visible())
    }

    /// The running bath, the latest if there are several.
    pub fn running(&self) -> Option<&BathView> {
        self.baths.iter().rev().find(|b| b.stopped.is_none())
    }

    /// A batch before the entry that starts it is known.
    pub(super) fn unnamed(id: Ulid, at: Timestamp) -> Self {
        Batch { id, started: at, changed: at, ..Batch::default() }
    }

    /// Applies a visible entry.
    pub(super) fn apply(&mut self, TimelineEntry { body, at, entry, .. }: &TimelineEntry) {
        self.changed = self.changed.max(*at);
        match body {
            Body::BatchStarted(b) => {
                self.name.clone_from(&b.name);
                self.fibre.clone_from(&b.fibre);
                self.fibre_key.clone_from(&b.fibre_key);
                self.cook.clone_from(&b.cook);
                self.raw_dry_g = b.raw_dry_g;
                self.started = *at;
            }
            Body::Renamed(r) => self.name.clone_from(&r.name),
            Body::Tagged(tagged) => {
                self.tags.retain(|tag| !tagged.remove.contains(tag));
                self.tags.extend(tagged.add.iter().cloned());
            }
            Body::Cooked(cook) => self.cook = Some(cook.clone()),
            Body::Weighed(weighed) => self.weighed = Some(weighed.clone()),
            Body::Planned(_) => self.plan = Some(entry.id),
            Body::Photo(photo) => self.photos.push(photo.photo.clone()),
            Body::BathStarted(b) => {
                self.baths.push(BathView::new(self.id, entry.id, b, *at));
                self.signed_off = None;
                self.state = BatchState::Running;
            }
            Body::EndTest(test) => self.end_tests.push(test.clone()),
            Body::Rinsed(rinse) => {
                self.rinses.push(rinse.clone());
                self.resume_washing();
            }
            Body::Antichlored(_) | Body::AcidFinished(_) | Body::ReserveAdded(_) => {
                self.resume_washing();
            }
            Body::SignedOff(signed) => {
                self.signed_off = Some(signed.clone());
                self.state = if signed.complete { BatchState::Clean } else { BatchState::Unproven };
            }
            Body::Stored(stored) => {
                self.lots.push(stored.lot);
                self.state = BatchState::Stored;
            }
            Body::Sheets(_) => self.state = BatchState::Used,
            Body::Abandoned(_) => self.state = BatchState::Abandoned,
            _ => {}
        }
        if let Some(bath) = body.bath().and_then(|id| self.baths.iter_mut().find(|b| b.id == id)) {
            bath.apply(body, *at);
            if matches!(body, Body::BathStopped(_)) && self.running().is_none() {
                self.state = BatchState::Stopped;
            }
        }
    }

    fn resume_washing(&mut self) {
        self.signed_off = None;
        if self.running().is_none() {
            self.state = BatchState::Washing;
        }
    }
}

/// A bath: from the addition of oxidant to pulp until it was stopped.
#[derive(Clone, Debug, PartialEq)]
pub struct BathView {
    pub id: Ulid,
    pub batch: Ulid,
    /// The entry that started it.
    pub entry: Ulid,
    pub oxidant: Oxidant,
    pub started: Timestamp,
    pub stopped: Option<Stopped>,
    /// The entry with the plan that it follows.
    pub plan: Option<Ulid>,
    pub product: Option<Ulid>,
    /// Its schedules, each with the instant from which it applies; never empty.
    pub schedules: Vec<(Timestamp, Schedule)>,
    /// Answered cues, by cue id.
    pub answered: BTreeMap<String, (CueOutcome, Timestamp)>,
    pub last_stirred: Option<Timestamp>,
    pub last_reheated: Option<Timestamp>,
    /// What it stands in, as described last.
    pub vessel: Option<VesselDescribed>,
}

/// The end of a bath.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stopped {
    pub at: Timestamp,
    pub why: StopReason,
}

impl BathView {
    /// How long it has been running at `now`, or ran until it was stopped; at
    /// least zero, even if the clock was set back.
    pub fn elapsed(&self, now: Timestamp) -> SignedDuration {
        let end = self.stopped.map_or(now, |s| s.at);
        end.duration_since(self.started).max(SignedDuration::ZERO)
    }

    /// The latest schedule.
    pub fn schedule(&self) -> Option<&Schedule> {
        self.schedules.last().map(|(_, s)| s)
    }

    fn new(batch: Ulid, entry: Ulid, started: &BathStarted, at: Timestamp) -> Self {
        BathView {
            id: started.bath,
            batch,
            entry,
            oxidant: started.oxidant,
            started: at,
            stopped: None,
            plan: started.plan,
            product: started.product,
            schedules: vec![(at, started.schedule.clone())],
            answered: BTreeMap::new(),
            last_stirred: None,
            last_reheated: None,
            vessel: None,
        }
    }

    fn apply(&mut self, body: &Body, at: Timestamp) {
        match body {
            Body::BathStopped(stop) => self.stopped = Some(Stopped { at, why: stop.why }),
            Body::ScheduleChanged(change) => self.schedules.push((at, change.schedule.clone())),
            Body::CueAnswered(cue) => {
                self.answered.insert(cue.cue.clone(), (cue.outcome, at));
            }
            Body::Stirred(_) => self.last_stirred = Some(at),
            Body::Reheated(_) => self.last_reheated = Some(at),
            Body::VesselDescribed(vessel) => self.vessel = Some(vessel.clone()),
            _ => {}
        }
    }
}
