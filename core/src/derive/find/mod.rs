//! Finds batches: by the words that were written about them, by filters, in an order.
//! The index folds a batch's texts once; a keystroke only looks through what is folded.

mod fold;
mod text;

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};

use jiff::Timestamp;
use strum::{EnumString, IntoStaticStr, VariantArray};
use ulid::Ulid;

pub use self::fold::{fold, words};
use self::text::each_text;
use super::batch_result::BatchResult;
use crate::journal::{Batch, BatchState, Book, Oxidant};

/// What is looked for. The default finds every batch.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BatchSearch {
    /// Each must occur in what was written about the batch; case and accents do not count.
    pub words: String,
    /// A fibre by its name; case and accents do not count.
    pub fibre: Option<String>,
    /// Of any of its baths, or of its plan before the first.
    pub oxidant: Option<Oxidant>,
    pub state: Option<BatchState>,
    pub tag: Option<String>,
    pub order: BatchOrder,
}

/// The order of the found batches. Those without the figure come last, the latest entry first.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, Hash, EnumString, IntoStaticStr, VariantArray,
)]
#[strum(serialize_all = "snake_case")]
pub enum BatchOrder {
    /// Latest entry first.
    #[default]
    Changed,
    /// First started first.
    Started,
    /// Lightest first.
    Lightness,
    /// Largest share of fibre kept first.
    Yield,
    /// Cheapest first.
    Cost,
}

impl BatchOrder {
    pub const ALL: &'static [Self] = Self::VARIANTS;

    pub fn key(self) -> &'static str {
        self.into()
    }
}

/// What a search looks through. Follows the book by [`Self::update`].
#[derive(Clone, Debug, Default)]
pub struct BatchIndex {
    batches: BTreeMap<Ulid, IndexedBatch>,
}

#[derive(Clone, Debug)]
struct IndexedBatch {
    /// Of the texts as written: they are folded again only if one changed.
    hash: u64,
    /// The texts folded, a line each: no word reaches over two texts.
    folded: String,
    fibre: String,
    oxidants: Vec<Oxidant>,
    state: BatchState,
    tags: Vec<String>,
    changed: Timestamp,
    started: Timestamp,
    lightness: Option<f64>,
    kept: Option<f64>,
    cost: Option<f64>,
}

impl BatchIndex {
    /// Takes over the book as it is now: without the pots of trials, which are on the page of
    /// their trial.
    pub fn update(&mut self, book: &Book) {
        let pots: Vec<Ulid> =
            book.trials.values().flat_map(|trial| trial.pots.iter().map(|pot| pot.batch)).collect();
        let mut earlier = std::mem::take(&mut self.batches);
        for batch in book.batches.values().filter(|batch| !pots.contains(&batch.id)) {
            let known = earlier.remove(&batch.id);
            self.batches.insert(batch.id, IndexedBatch::of(book, batch, known));
        }
    }

    /// The number of batches.
    pub fn len(&self) -> usize {
        self.batches.len()
    }

    pub fn is_empty(&self) -> bool {
        self.batches.is_empty()
    }

    /// The batches that are found, in the order of the search.
    pub fn find(&self, search: &BatchSearch) -> Vec<Ulid> {
        let words = words(&search.words);
        let fibre = search.fibre.as_deref().map(folded_name);
        let mut found: Vec<(&Ulid, &IndexedBatch)> = self
            .batches
            .iter()
            .filter(|(_, batch)| {
                search.state.is_none_or(|state| batch.state == state)
                    && search.oxidant.is_none_or(|oxidant| batch.oxidants.contains(&oxidant))
                    && search.tag.as_ref().is_none_or(|tag| batch.tags.contains(tag))
                    && fibre.as_ref().is_none_or(|fibre| batch.fibre == *fibre)
                    && words.iter().all(|word| batch.folded.contains(word.as_str()))
            })
            .collect();
        found.sort_by(|(one_id, one), (other_id, other)| {
            let latest_first = || (other.changed, other_id).cmp(&(one.changed, one_id));
            match search.order {
                BatchOrder::Changed => Ordering::Equal,
                BatchOrder::Started => (one.started, one_id).cmp(&(other.started, other_id)),
                BatchOrder::Lightness => largest_first(one.lightness, other.lightness),
                BatchOrder::Yield => largest_first(one.kept, other.kept),
                BatchOrder::Cost => {
                    largest_first(one.cost.map(|cost| -cost), other.cost.map(|cost| -cost))
                }
            }
            .then_with(latest_first)
        });
        found.into_iter().map(|(id, _)| *id).collect()
    }
}

impl IndexedBatch {
    fn of(book: &Book, batch: &Batch, known: Option<Self>) -> Self {
        let mut hasher = DefaultHasher::new();
        each_text(book, batch, &mut |text| text.hash(&mut hasher));
        let hash = hasher.finish();
        let folded = known.filter(|known| known.hash == hash).map(|known| known.folded);
        let folded = folded.unwrap_or_else(|| {
            let mut all = String::new();
            each_text(book, batch, &mut |text| {
                if !text.is_empty() {
                    all.push_str(text);
                    all.push('\n');
                }
            });
            fold(&all)
        });
        let result = BatchResult::of(book, batch);
        Self {
            hash,
            folded,
            fibre: folded_name(&batch.fibre),
            oxidants: oxidants(batch),
            state: batch.state,
            tags: batch.tags.iter().cloned().collect(),
            changed: batch.changed,
            started: batch.started,
            lightness: result.lightness_reached,
            kept: result.bleach_yield,
            cost: result.cost.map(|cost| cost.known),
        }
    }
}

/// A name as filters compare it.
pub fn folded_name(name: &str) -> String {
    fold(name.trim())
}

fn oxidants(batch: &Batch) -> Vec<Oxidant> {
    let mut oxidants: Vec<Oxidant> = batch.baths.iter().map(|bath| bath.oxidant).collect();
    if oxidants.is_empty() {
        oxidants.extend(super::batch_result::last_plan(batch).map(|plan| plan.oxidant));
    }
    oxidants
}

/// What is not known comes last.
fn largest_first(one: Option<f64>, other: Option<f64>) -> Ordering {
    match (one, other) {
        (Some(one), Some(other)) => other.total_cmp(&one),
        (one, other) => other.is_some().cmp(&one.is_some()),
    }
}

#[cfg(test)]
mod tests;
