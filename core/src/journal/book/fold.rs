//! The fold itself: which entries stand, what each does to the book.

use super::batch::Stopped;
use super::{Batch, BatchState, BathView, Book, Lot, LotOrigin, Product, Studio, TimelineEntry};
use crate::journal::{Body, Entry, LotBlended, ProductAdded, Stored, Subject};
use jiff::Timestamp;
use std::collections::BTreeMap;
use ulid::Ulid;

impl Book {
    /// Folds all entries anew.
    pub(super) fn refold(&mut self) {
        self.batches.clear();
        self.products.clear();
        self.lots.clear();
        self.studio = Studio::default();
        for told in self.all_told() {
            self.apply(&told);
        }
    }

    /// Every entry in order, with what later entries said about it.
    ///
    /// Only a *later* entry can withdraw or correct, so walking backwards
    /// settles each before the ones that it speaks of: no circle can arise,
    /// whatever a file holds.
    fn all_told(&self) -> Vec<TimelineEntry> {
        let mut withdrawn: BTreeMap<Ulid, Ulid> = BTreeMap::new();
        let mut corrected: BTreeMap<Ulid, Ulid> = BTreeMap::new();
        for entry in self.log.values().rev() {
            if withdrawn.contains_key(&entry.id) {
                continue;
            }
            match &entry.body {
                Body::Withdrawn(w) if self.is_before(w.entry, entry) => {
                    withdrawn.entry(w.entry).or_insert(entry.id);
                }
                Body::Corrected(c) => {
                    if let Some(root) = self.root(c.entry, entry) {
                        corrected.entry(root).or_insert(entry.id);
                    }
                }
                _ => {}
            }
        }
        self.log
            .values()
            .map(|entry| {
                let mut told = TimelineEntry::plain(entry.clone());
                told.withdrawn_by = withdrawn.get(&entry.id).copied();
                if let Some(by) = corrected.get(&entry.id)
                    && let Some(Entry { body: Body::Corrected(c), .. }) = self.entry(*by)
                {
                    told.body = (*c.body).clone();
                    told.at = c.at.unwrap_or(entry.at);
                    told.corrected_by = Some(*by);
                }
                told
            })
            .collect()
    }

    fn is_before(&self, id: Ulid, than: &Entry) -> bool {
        self.entry(id).is_some_and(|e| e.order() < than.order())
    }

    /// The entry that a correction is in the end about: a correction of a
    /// correction is about the first entry.
    fn root<'a>(&'a self, mut id: Ulid, mut from: &'a Entry) -> Option<Ulid> {
        loop {
            let entry = self.entry(id).filter(|e| e.order() < from.order())?;
            match &entry.body {
                Body::Corrected(c) => (id, from) = (c.entry, entry),
                _ => return Some(id),
            }
        }
    }

    /// Lets one entry do its work. Entries must come in order.
    pub(super) fn apply(&mut self, told: &TimelineEntry) {
        // A batch comes into being with the first entry about it, even when the
        // one that names it has not arrived yet.
        if let Subject::Batch(id) = told.entry.about {
            self.batches.entry(id).or_insert_with(|| Batch::nameless(id, told.at));
        }
        if told.is_visible() {
            self.work(told);
        }
        self.put_on_timeline(told);
    }

    fn work(&mut self, told: &TimelineEntry) {
        let TimelineEntry { body, at, entry, .. } = told;
        match (entry.about, body) {
            (Subject::Batch(id), Body::Stored(stored)) => {
                self.lots.insert(stored.lot, Lot::put_by(id, stored, *at, self.batch_name(id)));
            }
            (Subject::Lot(id), Body::LotBlended(blend)) => self.blend(id, blend, *at),
            (Subject::Lot(id), Body::LotDrawn(drawn)) => {
                if let Some(lot) = self.lots.get_mut(&id) {
                    lot.dry_g_drawn += drawn.dry_g.value;
                }
            }
            (Subject::Lot(id), Body::Sheets(sheets)) => {
                if let (Some(lot), Some(dry)) = (self.lots.get_mut(&id), sheets.dry_g) {
                    lot.dry_g_drawn += dry.value;
                }
            }
            (Subject::Bottle(id), Body::ProductAdded(added)) => {
                let timeline = self.products.remove(&id).map(|p| p.timeline).unwrap_or_default();
                self.products.insert(id, Product { timeline, ..Product::added(id, added, *at) });
            }
            (Subject::Bottle(id), body) => {
                if let Some(product) = self.products.get_mut(&id) {
                    product.apply(body, *at);
                }
            }
            (Subject::Studio, Body::OwnFigure(own)) => {
                self.studio.figures.insert(own.what.clone(), (own.figure, *at));
            }
            (Subject::Studio, Body::ReferenceCard(card)) => {
                self.studio.cards.insert(card.role, card.clone());
            }
            (Subject::Studio, Body::DeviceNamed(named)) => {
                self.studio.devices.insert(entry.device.clone(), named.name.clone());
            }
            _ => {}
        }
        if let Subject::Batch(id) = entry.about
            && let Some(batch) = self.batches.get_mut(&id)
        {
            batch.apply(told);
        }
    }

    /// Files the entry under what it is about, if that is there.
    fn put_on_timeline(&mut self, told: &TimelineEntry) {
        let timeline = match told.entry.about {
            Subject::Batch(id) => match self.batches.get_mut(&id) {
                Some(batch) => &mut batch.timeline,
                None => return,
            },
            Subject::Bottle(id) => match self.products.get_mut(&id) {
                Some(product) => &mut product.timeline,
                None => return,
            },
            Subject::Lot(id) => match self.lots.get_mut(&id) {
                Some(lot) => &mut lot.timeline,
                None => return,
            },
            Subject::Studio => &mut self.studio.timeline,
        };
        // As it happened; what happened at one instant, as it was written.
        let place = timeline.partition_point(|t| t.at <= told.at);
        timeline.insert(place, told.clone());
    }

    fn batch_name(&self, id: Ulid) -> String {
        self.batches.get(&id).map(|b| b.name.clone()).unwrap_or_default()
    }

    fn blend(&mut self, id: Ulid, blend: &LotBlended, at: Timestamp) {
        for part in &blend.parts {
            if let Some(lot) = self.lots.get_mut(&part.lot) {
                lot.dry_g_drawn += part.dry_g.value;
                lot.went_into.push(id);
            }
        }
        let lot = Lot {
            id,
            name: blend.name.clone(),
            origin: LotOrigin::Lots(blend.parts.clone()),
            form: blend.form,
            place: blend.place.clone(),
            keep_by: blend.keep_by,
            stored: at,
            dry_g_stored: blend.parts.iter().map(|p| p.dry_g.value).sum(),
            dry_g_drawn: 0.0,
            went_into: Vec::new(),
            timeline: Vec::new(),
        };
        self.lots.insert(id, lot);
    }
}

impl Lot {
    fn put_by(batch: Ulid, stored: &Stored, at: Timestamp, name: String) -> Self {
        Lot {
            id: stored.lot,
            name,
            origin: LotOrigin::Batch(batch),
            form: stored.form,
            place: stored.place.clone(),
            keep_by: stored.keep_by,
            stored: at,
            dry_g_stored: stored.wet_mass_g.value * stored.dryness.value,
            dry_g_drawn: 0.0,
            went_into: Vec::new(),
            timeline: Vec::new(),
        }
    }
}

impl Product {
    fn added(id: Ulid, added: &ProductAdded, at: Timestamp) -> Self {
        Product {
            id,
            name: added.name.clone(),
            kind: added.product,
            label: added.strength,
            size: added.size,
            bought: added.bought,
            made: added.made,
            opened: added.opened,
            storage: added.storage,
            found: Vec::new(),
            added: at,
            finished: None,
            timeline: Vec::new(),
        }
    }

    fn apply(&mut self, body: &Body, at: Timestamp) {
        match body {
            Body::ProductOpened(opened) => self.opened = Some(opened.on),
            Body::StrengthFound(found) => {
                let place = self.found.partition_point(|(t, _)| *t <= at);
                self.found.insert(place, (at, found.clone()));
            }
            Body::ProductFinished(_) => self.finished = Some(at),
            Body::Renamed(renamed) => self.name.clone_from(&renamed.name),
            _ => {}
        }
    }
}

impl Batch {
    fn nameless(id: Ulid, at: Timestamp) -> Self {
        Batch {
            id,
            name: String::new(),
            fibre: String::new(),
            fibre_key: None,
            cook: None,
            raw_dry_g: None,
            state: BatchState::Planning,
            started: at,
            changed: at,
            weighed: None,
            plan: None,
            baths: Vec::new(),
            rinses: Vec::new(),
            end_tests: Vec::new(),
            signed_off: None,
            lots: Vec::new(),
            photos: Vec::new(),
            timeline: Vec::new(),
        }
    }

    fn apply(&mut self, told: &TimelineEntry) {
        let TimelineEntry { body, at, entry, .. } = told;
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
            Body::Cooked(cook) => self.cook = Some(cook.clone()),
            Body::Weighed(weighed) => self.weighed = Some(weighed.clone()),
            Body::Planned(_) => self.plan = Some(entry.id),
            Body::Photo(photo) => self.photos.push(photo.photo.clone()),
            Body::BathStarted(b) => {
                self.baths.push(BathView {
                    id: b.bath,
                    batch: self.id,
                    entry: entry.id,
                    oxidant: b.oxidant,
                    started: *at,
                    stopped: None,
                    plan: b.plan,
                    product: b.product,
                    schedules: vec![(*at, b.schedule.clone())],
                    answered: BTreeMap::new(),
                    last_stirred: None,
                    last_reheated: None,
                });
                self.signed_off = None;
                self.state = BatchState::Running;
            }
            Body::EndTest(test) => self.end_tests.push(test.clone()),
            Body::Rinsed(rinse) => {
                self.rinses.push(rinse.clone());
                self.washing();
            }
            Body::Antichlored(_) | Body::AcidFinished(_) | Body::ReserveAdded(_) => self.washing(),
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

    fn washing(&mut self) {
        self.signed_off = None;
        if self.running().is_none() {
            self.state = BatchState::Washing;
        }
    }
}

impl BathView {
    fn apply(&mut self, body: &Body, at: Timestamp) {
        match body {
            Body::BathStopped(stop) => self.stopped = Some(Stopped { at, why: stop.why }),
            Body::ScheduleChanged(change) => self.schedules.push((at, change.schedule.clone())),
            Body::CueAnswered(cue) => {
                self.answered.insert(cue.cue.clone(), (cue.outcome, at));
            }
            Body::Stirred(_) => self.last_stirred = Some(at),
            Body::Reheated(_) => self.last_reheated = Some(at),
            _ => {}
        }
    }
}
