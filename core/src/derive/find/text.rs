//! All that a person wrote about a batch: names, fibre, tags, notes, products, places.

use crate::journal::{Batch, Body, Book, Cook, TimelineEntry};

/// Hands each text about the batch to `each`; withdrawn entries have none.
pub fn each_text<'a>(book: &'a Book, batch: &'a Batch, each: &mut impl FnMut(&'a str)) {
    each(&batch.name);
    each(&batch.fibre);
    batch.tags.iter().for_each(|tag| each(tag));
    of_entries(&batch.timeline, each);
    let products = batch.visible_entries().filter_map(|entry| entry.body.product());
    for product in products.filter_map(|id| book.products.get(&id)) {
        each(&product.name);
    }
    for lot in batch.lots.iter().filter_map(|id| book.lots.get(id)) {
        each(&lot.name);
        of_entries(&lot.timeline, each);
    }
}

fn of_entries<'a>(timeline: &'a [TimelineEntry], each: &mut impl FnMut(&'a str)) {
    for entry in timeline.iter().filter(|entry| entry.is_visible()) {
        of_body(&entry.body, each);
    }
}

/// The texts of an entry. Tags are those that the batch has now.
fn of_body<'a>(body: &'a Body, each: &mut impl FnMut(&'a str)) {
    match body {
        Body::BatchStarted(b) => {
            each(&b.name);
            each(&b.fibre);
            each(&b.note);
            b.cook.iter().for_each(|cook| of_cook(cook, each));
        }
        Body::Renamed(b) => each(&b.name),
        Body::Cooked(cook) => of_cook(cook, each),
        Body::Planned(b) => {
            each(&b.product.name);
            each(&b.note);
        }
        Body::ScheduleChanged(b) => each(&b.why),
        Body::Added(b) => each(&b.note),
        Body::BathStopped(b) => each(&b.note),
        Body::Reading(b) => each(&b.text),
        Body::Photo(b) => each(&b.caption),
        Body::ColourReading(b) => each(&b.reference),
        Body::ColourTarget(b) => each(&b.name),
        Body::Note(b) => each(&b.text),
        Body::Rinsed(b) => each(&b.note),
        Body::Antichlored(b) => each(&b.note),
        Body::EndTest(b) => each(&b.note),
        Body::AcidFinished(b) => each(&b.note),
        Body::SignedOff(b) => each(&b.reason),
        Body::Stored(b) => {
            each(&b.place);
            each(&b.untested_why);
            each(&b.note);
        }
        Body::Sheets(b) => {
            each(&b.format);
            each(&b.note);
        }
        Body::Abandoned(b) => each(&b.why),
        Body::TrialDesigned(b) => each(&b.note),
        Body::LotDrawn(b) => each(&b.purpose),
        Body::LotBlended(b) => {
            each(&b.name);
            each(&b.place);
        }
        _ => {}
    }
}

fn of_cook<'a>(cook: &'a Cook, each: &mut impl FnMut(&'a str)) {
    each(&cook.note);
}
