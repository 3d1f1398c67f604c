//! The baths of a book as learning takes them: each with what was known at its start, what was
//! done to it, and its readings. The learning is `learning`; the bath is `forecast_of_bath`.

use jiff::Timestamp;

use crate::{
    derive::BathForecast,
    journal::{Batch, BathView, Book},
    learning::LearningBatch,
};

/// Every bath with a reading, finished or running, in the order of their starts. A bath of which
/// no forecast can be made is left out.
pub fn learning_history(book: &Book, now: Timestamp) -> Vec<LearningBatch> {
    let baths = book.batches.values().flat_map(|batch| batch.baths.iter().map(move |b| (batch, b)));
    let mut baths: Vec<(&Batch, &BathView)> = baths.collect();
    baths.sort_by_key(|(_, bath)| (bath.started, bath.id));
    let learnt = |(batch, bath): (&Batch, &BathView)| {
        let until = bath.stopped.map_or(now, |stopped| stopped.at);
        let made = BathForecast::of(book, bath.id, until).ok()?;
        let readings: Vec<_> = made.readings.iter().map(|reading| reading.reading).collect();
        (!readings.is_empty()).then(|| LearningBatch {
            id: bath.id.to_string(),
            fibre: learning_fibre(batch),
            request: made.request,
            readings,
            minutes: bath.elapsed(now).as_secs_f64() / 60.0,
        })
    };
    baths.into_iter().filter_map(learnt).collect()
}

/// Batches of one fibre by its name, however it is written.
pub fn learning_fibre(batch: &Batch) -> String {
    batch.fibre.trim().to_lowercase()
}
