//! The label of what the book holds: a batch in its tub, or a lot.

use jiff::civil::Date;
use ulid::Ulid;

use super::{Held, Tub};
use crate::journal::{self, Batch, Body, Book, EndTestOf, LotOrigin, ReadingOf, StoredForm};
use crate::pulp::sign_off::{Evidence, SignOff};

/// Liquor at or above this pH counts as alkaline on a label. GHS calls 11.5 and
/// up corrosive without a test; a strip may be off by half a pH and liquor
/// inside the fibre is stronger than what is squeezed out, so 10.5 (own
/// estimate, on the careful side).
const ALKALINE: f64 = 10.5;

impl Tub {
    /// The tub of a batch that has not been put by, or of its lot `lot`.
    /// `made` is the day when it was put by, or today; `link` is what the code
    /// opens. `None` for a batch or lot that is not in
    /// the book.
    ///
    /// A lot of several batches is signed off only if each of them is, carries
    /// the hazards of all, and the fibres of all.
    pub fn of_book(book: &Book, of: Holds, made: Date, link: String) -> Option<Self> {
        let (batches, lot) = match of {
            Holds::Batch(batch) => (vec![book.batches.get(&batch)?], None),
            Holds::Lot(id) => {
                let lot = book.lots.get(&id)?;
                let mut batches = Vec::new();
                sources(book, id, &mut batches);
                (batches.iter().filter_map(|id| book.batches.get(id)).collect(), Some(lot))
            }
        };
        let mut tub = Self {
            name: lot.map(|lot| lot.name.clone()).unwrap_or_default(),
            made,
            fibre: String::new(),
            treatment: Vec::new(),
            form: lot.map_or(StoredForm::WetCold, |lot| lot.form),
            keep_by: lot.and_then(|lot| lot.keep_by),
            sign_off: Some(SignOff { clean: true, gaps: Vec::new(), reason: String::new() }),
            held: Held::default(),
            link,
        };
        let mut fibres: Vec<&str> = Vec::new();
        for batch in batches.iter().copied() {
            if !batch.fibre.is_empty() && !fibres.contains(&batch.fibre.as_str()) {
                fibres.push(&batch.fibre);
            }
            for done in treatment(batch) {
                if !tub.treatment.contains(&done) {
                    tub.treatment.push(done);
                }
            }
            let held = held(batch);
            tub.held = Held {
                hypochlorite: tub.held.hypochlorite | held.hypochlorite,
                peroxide: tub.held.peroxide | held.peroxide,
                alkaline: tub.held.alkaline | held.alkaline,
            };
            tub.sign_off = together(tub.sign_off, SignOff::of(batch));
            if tub.name.is_empty() {
                tub.name.clone_from(if batch.name.is_empty() { &batch.fibre } else { &batch.name });
            }
        }
        if batches.is_empty() {
            // Nothing says what is in it.
            tub.sign_off = None;
        }
        tub.fibre = fibres.join(", ");
        Some(tub)
    }
}

/// What a label is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    Batch(Ulid),
    Lot(Ulid),
}

/// The batches in a lot, through every blend. A lot cannot be part of itself:
/// one that a broken file says is, is looked at once.
fn sources(book: &Book, lot: Ulid, found: &mut Vec<Ulid>) {
    let mut todo = vec![lot];
    let mut seen = Vec::new();
    while let Some(id) = todo.pop() {
        if seen.contains(&id) {
            continue;
        }
        seen.push(id);
        match book.lots.get(&id).map(|lot| &lot.origin) {
            Some(LotOrigin::Batch(batch)) if !found.contains(batch) => found.push(*batch),
            Some(LotOrigin::Lots(parts)) => todo.extend(parts.iter().map(|part| part.lot)),
            _ => {}
        }
    }
}

fn together(all: Option<SignOff>, one: Option<SignOff>) -> Option<SignOff> {
    let (mut all, one) = (all?, one?);
    all.clean &= one.clean;
    all.gaps.extend(one.gaps);
    if !one.reason.is_empty() {
        if !all.reason.is_empty() {
            all.reason.push_str("; ");
        }
        all.reason.push_str(&one.reason);
    }
    Some(all)
}

/// What was done to a batch, in the order in which it is usually done.
fn treatment(batch: &Batch) -> Vec<&'static str> {
    let used = Evidence::of(batch).used;
    let done = |what: fn(&Body) -> bool| batch.told().any(|told| what(&told.body));
    let cooked = batch.cook.as_ref().is_some_and(|c| c.alkali != Some(journal::Alkali::None));
    [
        (cooked, "label-treatment-cooked"),
        (used.hypochlorite, "label-treatment-hypochlorite"),
        (used.peroxide, "label-treatment-peroxide"),
        (!batch.rinses.is_empty(), "label-treatment-rinsed"),
        (done(|b| matches!(b, Body::Antichlored(_))), "label-treatment-antichlor"),
        (done(|b| matches!(b, Body::AcidFinished(_))), "label-treatment-neutral"),
        (done(|b| matches!(b, Body::ReserveAdded(_))), "label-treatment-reserve"),
    ]
    .into_iter()
    .filter_map(|(was, word)| was.then_some(word))
    .collect()
}

/// What its water holds or may hold: alkaline where the last pH says so, and
/// where nobody has read one or rinsed since it was cooked or bleached.
fn held(batch: &Batch) -> Held {
    let used = Evidence::of(batch).used;
    let mut alkaline = false;
    for told in batch.told() {
        let ph = match &told.body {
            Body::BathStarted(_) | Body::Cooked(_) => {
                alkaline = true;
                continue;
            }
            Body::BatchStarted(begun) => begun.cook.as_ref().and_then(|cook| cook.ph_after_rinse),
            Body::Reading(reading) if reading.what == ReadingOf::Ph => reading.figure,
            Body::Rinsed(rinse) => rinse.ph,
            Body::EndTest(test) if test.test == EndTestOf::LastRinsePh => test.figure,
            Body::AcidFinished(acid) => acid.ph_after,
            _ => continue,
        };
        match ph {
            Some(ph) => alkaline = ph.value >= ALKALINE,
            // Three rinses bring soda ash below this whatever it was; one does not.
            None if batch.rinses.len() >= 3 => alkaline = false,
            None => {}
        }
    }
    Held { hypochlorite: used.hypochlorite, peroxide: used.peroxide, alkaline }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::journal::{
        BatchStarted, BathStarted, Device, LotBlended, LotPart, Oxidant, Pen, SignedOff, Stored,
        Subject,
    };
    use crate::quantity::{Basis, Known};
    use jiff::{SignedDuration, Timestamp};

    const BATCH: Ulid = Ulid(1);
    const OTHER: Ulid = Ulid(2);
    const LOT: Ulid = Ulid(11);
    const TODAY: Date = Date::constant(2026, 5, 4);

    fn figure(value: f64) -> journal::Figure {
        Known::exact(value, Basis::Measured)
    }

    fn book(bodies: Vec<(Subject, Body)>) -> Book {
        let mut pen = Pen::new(Device::new("a").unwrap(), None);
        Book::of(bodies.into_iter().enumerate().map(|(i, (about, body))| {
            let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(i as i64);
            pen.write(now, i as u128, "", about, body).unwrap()
        }))
    }

    /// A batch bleached, signed off or not, and put by.
    fn bleached(id: Ulid, lot: Ulid, fibre: &str, complete: Option<bool>) -> Vec<(Subject, Body)> {
        let about = Subject::Batch(id);
        let begun = BatchStarted { fibre: fibre.into(), ..BatchStarted::default() };
        let bath = BathStarted {
            bath: Ulid(id.0 + 100),
            plan: None,
            oxidant: Oxidant::Hypochlorite,
            product: None,
            product_amount: None,
            water_added_ml: None,
            celsius: None,
            schedule: crate::cue::Schedule::default(),
        };
        let stored = Stored {
            lot,
            wet_mass_g: figure(500.0),
            dryness: figure(0.2),
            form: StoredForm::Frozen,
            place: String::new(),
            keep_by: Some(TODAY),
            note: String::new(),
        };
        let mut bodies = vec![(about, Body::BatchStarted(begun)), (about, Body::BathStarted(bath))];
        bodies.extend(complete.map(|complete| {
            let reason = if complete { String::new() } else { format!("reason for {fibre}") };
            (about, Body::SignedOff(SignedOff { complete, reason }))
        }));
        bodies.push((about, Body::Stored(stored)));
        bodies
    }

    fn tub(bodies: Vec<(Subject, Body)>, of: Holds) -> Tub {
        Tub::of_book(&book(bodies), of, TODAY, "https://example.test/".into()).unwrap()
    }

    #[test]
    fn an_unsigned_batch_says_so_with_what_may_be_in_it() {
        let label = tub(bleached(BATCH, LOT, "nettle", None), Holds::Lot(LOT)).label().unwrap();
        assert!(label.untested && label.name == "nettle");
        assert_eq!(label.treatment, ["label-treatment-hypochlorite"]);
        // Straight out of the bath, alkaline liquor and all.
        assert_eq!(label.signal, Some("label-signal-danger"));
        assert_eq!((label.form, label.keep_by), (StoredForm::Frozen, Some(TODAY)));
    }

    #[test]
    fn a_blend_is_as_clean_as_the_worst_of_it() {
        let blend = Ulid(30);
        let mut bodies = bleached(BATCH, LOT, "nettle", Some(true));
        let parts = |lots: &[Ulid]| {
            let parts = lots.iter().map(|lot| LotPart { lot: *lot, dry_g: figure(20.0) }).collect();
            Body::LotBlended(LotBlended {
                name: "post of May".into(),
                parts,
                form: StoredForm::WetCold,
                place: String::new(),
                keep_by: None,
            })
        };
        bodies.push((Subject::Lot(Ulid(29)), parts(&[LOT])));
        let clean = tub(bodies.clone(), Holds::Lot(Ulid(29)));
        assert!(clean.sign_off.unwrap().clean);
        bodies.extend(bleached(OTHER, Ulid(12), "flax", Some(false)));
        bodies.push((Subject::Lot(blend), parts(&[Ulid(29), Ulid(12)])));
        let mixed = tub(bodies, Holds::Lot(blend));
        assert!(mixed.fibre.contains("nettle") && mixed.fibre.contains("flax"));
        let signed = mixed.sign_off.unwrap();
        assert!(!signed.clean && signed.reason == "reason for flax" && !signed.gaps.is_empty());
    }

    #[test]
    fn what_is_not_in_the_book_has_no_label() {
        let of = |of| Tub::of_book(&Book::default(), of, TODAY, String::new());
        assert!(of(Holds::Batch(BATCH)).is_none() && of(Holds::Lot(LOT)).is_none());
    }
}
