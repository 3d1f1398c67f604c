//! The tub of a batch or lot, from the book.

use super::{Residues, Tub};
use crate::derive::{SignOffEvidence, lot::source_batches};
use crate::journal::{self, Batch, Body, Book, EndTestOf, ReadingOf, StoredForm};
use crate::pulp::sign_off::SignOff;
use jiff::civil::Date;
use ulid::Ulid;

/// Liquor at or above this pH counts as alkaline on a label. GHS classifies
/// 11.5 and above as corrosive without a test; a strip may be off by half a pH
/// and liquor inside the fibre is stronger than what is pressed out, so 10.5
/// (own estimate, on the stricter side).
const ALKALINE_PH: f64 = 10.5;

impl Tub {
    /// The tub of a batch that is not stored yet, or of a lot. `made` is the
    /// day of storing, or today; `link` is the target of the QR code. `None`
    /// for a batch or lot that is not in the book.
    ///
    /// A lot of several batches is signed off only if each of them is, and has
    /// the hazards and the fibres of all of them.
    pub fn of_book(book: &Book, contents: TubContents, made: Date, link: String) -> Option<Self> {
        let (batches, lot) = match contents {
            TubContents::Batch(batch) => (vec![book.batches.get(&batch)?], None),
            TubContents::Lot(id) => {
                let lot = book.lots.get(&id)?;
                let batches = source_batches(book, id);
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
            sign_off: Some(SignOff { clean: true, unmet: Vec::new(), reason: String::new() }),
            residues: Residues::default(),
            link,
        };
        let mut fibres: Vec<&str> = Vec::new();
        for batch in batches.iter().copied() {
            if !batch.fibre.is_empty() && !fibres.contains(&batch.fibre.as_str()) {
                fibres.push(&batch.fibre);
            }
            for key in treatments(batch) {
                if !tub.treatment.contains(&key) {
                    tub.treatment.push(key);
                }
            }
            let residues = residues(batch);
            tub.residues.hypochlorite |= residues.hypochlorite;
            tub.residues.peroxide |= residues.peroxide;
            tub.residues.alkaline |= residues.alkaline;
            tub.sign_off = combined(tub.sign_off, SignOff::of(batch));
            if tub.name.is_empty() {
                tub.name.clone_from(if batch.name.is_empty() { &batch.fibre } else { &batch.name });
            }
        }
        if batches.is_empty() {
            // The contents are unknown.
            tub.sign_off = None;
        }
        tub.fibre = fibres.join(", ");
        Some(tub)
    }
}

/// What a tub contains.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TubContents {
    Batch(Ulid),
    Lot(Ulid),
}

/// The sign-off of several batches: missing if one is missing.
fn combined(all: Option<SignOff>, one: Option<SignOff>) -> Option<SignOff> {
    let (mut all, one) = (all?, one?);
    all.clean &= one.clean;
    all.unmet.extend(one.unmet);
    if !one.reason.is_empty() {
        if !all.reason.is_empty() {
            all.reason.push_str("; ");
        }
        all.reason.push_str(&one.reason);
    }
    Some(all)
}

/// The treatments of a batch, as locale keys in their usual order.
fn treatments(batch: &Batch) -> Vec<&'static str> {
    let used = SignOffEvidence::of(batch).used;
    let has = |is: fn(&Body) -> bool| batch.visible_entries().any(|entry| is(&entry.body));
    let cooked = batch.cook.as_ref().is_some_and(|c| c.alkali != Some(journal::Alkali::None));
    [
        (cooked, "label-treatment-cooked"),
        (used.hypochlorite, "label-treatment-hypochlorite"),
        (used.peroxide, "label-treatment-peroxide"),
        (!batch.rinses.is_empty(), "label-treatment-rinsed"),
        (has(|b| matches!(b, Body::Antichlored(_))), "label-treatment-antichlor"),
        (has(|b| matches!(b, Body::AcidFinished(_))), "label-treatment-neutral"),
        (has(|b| matches!(b, Body::ReserveAdded(_))), "label-treatment-reserve"),
    ]
    .into_iter()
    .filter_map(|(applies, key)| applies.then_some(key))
    .collect()
}

/// Possible residues in a batch: alkaline by the last pH, or if no pH was read
/// and it was not rinsed since it was cooked or bleached.
fn residues(batch: &Batch) -> Residues {
    let used = SignOffEvidence::of(batch).used;
    let mut alkaline = false;
    for entry in batch.visible_entries() {
        let ph = match &entry.body {
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
            Some(ph) => alkaline = ph.value >= ALKALINE_PH,
            // Three rinses bring any soda ash below this pH; one does not.
            None if batch.rinses.len() >= 3 => alkaline = false,
            None => {}
        }
    }
    Residues { hypochlorite: used.hypochlorite, peroxide: used.peroxide, alkaline }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::derive::sample::{book_of, exact};
    use crate::journal::{
        BatchStarted, LotBlended, LotPart, Oxidant, SignedOff, Stored, Subject,
        sample::bath_started,
    };

    const BATCH: Ulid = Ulid(1);
    const OTHER: Ulid = Ulid(2);
    const LOT: Ulid = Ulid(11);
    const TODAY: Date = Date::constant(2026, 5, 4);

    /// A batch that was bleached, perhaps signed off, and stored.
    fn bleached(id: Ulid, lot: Ulid, fibre: &str, complete: Option<bool>) -> Vec<(Subject, Body)> {
        let about = Subject::Batch(id);
        let begun = BatchStarted { fibre: fibre.into(), ..BatchStarted::default() };
        let bath = bath_started(Ulid(id.0 + 100), Oxidant::Hypochlorite);
        let stored = Stored {
            lot,
            wet_mass_g: exact(500.0),
            dryness: exact(0.2),
            form: StoredForm::Frozen,
            place: String::new(),
            keep_by: Some(TODAY),
            untested_why: String::new(),
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

    fn tub(bodies: Vec<(Subject, Body)>, contents: TubContents) -> Tub {
        Tub::of_book(&book_of(bodies), contents, TODAY, "https://example.test/".into()).unwrap()
    }

    #[test]
    fn a_label_without_sign_off_states_possible_residues() {
        let label =
            tub(bleached(BATCH, LOT, "nettle", None), TubContents::Lot(LOT)).label().unwrap();
        assert!(label.untested && label.name == "nettle");
        assert_eq!(label.treatment, ["label-treatment-hypochlorite"]);
        // Not rinsed after the bath.
        assert_eq!(label.signal, Some("label-signal-danger"));
        assert_eq!((label.form, label.keep_by), (StoredForm::Frozen, Some(TODAY)));
    }

    #[test]
    fn a_blend_is_clean_only_if_all_its_batches_are() {
        let blend = Ulid(30);
        let mut bodies = bleached(BATCH, LOT, "nettle", Some(true));
        let parts = |lots: &[Ulid]| {
            let parts = lots.iter().map(|lot| LotPart { lot: *lot, dry_g: exact(20.0) }).collect();
            Body::LotBlended(LotBlended {
                name: "post of May".into(),
                parts,
                form: StoredForm::WetCold,
                place: String::new(),
                keep_by: None,
            })
        };
        bodies.push((Subject::Lot(Ulid(29)), parts(&[LOT])));
        let clean = tub(bodies.clone(), TubContents::Lot(Ulid(29)));
        assert!(clean.sign_off.unwrap().clean);
        bodies.extend(bleached(OTHER, Ulid(12), "flax", Some(false)));
        bodies.push((Subject::Lot(blend), parts(&[Ulid(29), Ulid(12)])));
        let mixed = tub(bodies, TubContents::Lot(blend));
        assert!(mixed.fibre.contains("nettle") && mixed.fibre.contains("flax"));
        let signed = mixed.sign_off.unwrap();
        assert!(!signed.clean && signed.reason == "reason for flax" && !signed.unmet.is_empty());
    }

    #[test]
    fn a_batch_or_lot_that_is_not_in_the_book_has_no_label() {
        let tub = |contents| Tub::of_book(&Book::default(), contents, TODAY, String::new());
        assert!(tub(TubContents::Batch(BATCH)).is_none() && tub(TubContents::Lot(LOT)).is_none());
    }
}
