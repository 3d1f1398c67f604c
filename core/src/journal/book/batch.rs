//! A batch and its baths, as their entries tell them.

use crate::journal::{
    Body, Cook, CueOutcome, EndTest, Entry, Oxidant, PhotoId, Rinsed, Schedule, SignedOff,
    StopReason, Weighed,
};
use jiff::{SignedDuration, Timestamp};
use std::collections::BTreeMap;
use ulid::Ulid;

/// One batch of fibre, from raw to stored.
#[derive(Clone, Debug, PartialEq)]
pub struct Batch {
    pub id: Ulid,
    pub name: String,
    pub fibre: String,
    pub fibre_key: Option<String>,
    pub cook: Option<Cook>,
    /// Oven-dry mass of the raw plant, in grams.
    pub raw_dry_g: Option<crate::journal::Figure>,
    pub state: BatchState,
    /// When it was begun.
    pub started: Timestamp,
    /// When anything was last done with it.
    pub changed: Timestamp,
    /// The last weighing.
    pub weighed: Option<Weighed>,
    /// The entry with the last plan.
    pub plan: Option<Ulid>,
    /// In the order of their starting.
    pub baths: Vec<BathView>,
    pub rinses: Vec<Rinsed>,
    pub end_tests: Vec<EndTest>,
    /// The last signing-off that no bath or rinse has come after.
    pub signed_off: Option<SignedOff>,
    /// Lots put by from this batch.
    pub lots: Vec<Ulid>,
    /// Photos, oldest first.
    pub photos: Vec<PhotoId>,
    /// All that was written about it, in the order in which it happened;
    /// withdrawn entries included and marked.
    pub timeline: Vec<TimelineEntry>,
}

impl Batch {
    /// What is told of it: the timeline without withdrawn entries, and
    /// without the withdrawals and corrections themselves.
    pub fn told(&self) -> impl DoubleEndedIterator<Item = &TimelineEntry> {
        self.timeline.iter().filter(|t| t.is_visible())
    }

    /// The bath now running, if there is one; the latest if there are several.
    pub fn running(&self) -> Option<&BathView> {
        self.baths.iter().rev().find(|b| b.stopped.is_none())
    }
}

/// Where a batch stands: what was last done with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum BatchState {
    /// Nothing but planning, weighing and cooking yet.
    Planning,
    /// A bath is running.
    Running,
    /// The last bath was stopped; nothing rinsed since.
    Stopped,
    /// Rinsing and after-treatment.
    Washing,
    /// Signed off with all end tests passed.
    Clean,
    /// Signed off with a reason in place of a test.
    Unproven,
    /// Put by as a lot.
    Stored,
    /// Made into sheets.
    Used,
    Abandoned,
}

impl BatchState {
    /// Key into the locale, under `state`.
    pub fn key(self) -> &'static str {
        match self {
            BatchState::Planning => "planning",
            BatchState::Running => "running",
            BatchState::Stopped => "stopped",
            BatchState::Washing => "washing",
            BatchState::Clean => "clean",
            BatchState::Unproven => "unproven",
            BatchState::Stored => "stored",
            BatchState::Used => "used",
            BatchState::Abandoned => "given_up",
        }
    }
}

/// One bath: from the instant oxidant met pulp until it was stopped.
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
    /// The schedules in force, each from its instant on; never empty.
    pub schedules: Vec<(Timestamp, Schedule)>,
    /// Cues that were seen to, by cue id.
    pub answered: BTreeMap<String, (CueOutcome, Timestamp)>,
    pub last_stirred: Option<Timestamp>,
    pub last_reheated: Option<Timestamp>,
}

/// The end of a bath.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stopped {
    pub at: Timestamp,
    pub why: StopReason,
}

impl BathView {
    /// How long it has been running at `now`, or ran until it was stopped;
    /// never less than nothing, even when the clock went back.
    pub fn elapsed(&self, now: Timestamp) -> SignedDuration {
        let end = self.stopped.map_or(now, |s| s.at);
        end.duration_since(self.started).max(SignedDuration::ZERO)
    }

    /// The schedule last set.
    pub fn schedule(&self) -> Option<&Schedule> {
        self.schedules.last().map(|(_, s)| s)
    }
}

/// An entry as it is to be told: with what corrections made of it.
#[derive(Clone, Debug, PartialEq)]
pub struct TimelineEntry {
    /// The entry as it was written.
    pub entry: Entry,
    /// What it says now.
    pub body: Body,
    /// When it happened, as far as is known now.
    pub at: Timestamp,
    /// The correction in force.
    pub corrected_by: Option<Ulid>,
    /// The withdrawal in force. Withdrawing that one brings this entry back.
    pub withdrawn_by: Option<Ulid>,
}

impl TimelineEntry {
    /// An entry that nothing was said about since.
    pub(super) fn plain(entry: Entry) -> Self {
        TimelineEntry {
            body: entry.body.clone(),
            at: entry.at,
            entry,
            corrected_by: None,
            withdrawn_by: None,
        }
    }

    /// Whether it belongs on a timeline: not withdrawn, and not itself a
    /// withdrawal or a correction.
    pub fn shown(&self) -> bool {
        self.withdrawn_by.is_none()
            && !matches!(self.entry.body, Body::Withdrawn(_) | Body::Corrected(_))
    }
}
