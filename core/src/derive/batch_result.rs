//! What came of a batch: lightness, share of the fibre that is left, cost.
//! Not here: the comparison of batches, and the readings over time.

use ulid::Ulid;

use crate::journal::{Amount, Batch, Body, Book, PlanRecord, Product, Strength, Weighed};

/// The figures of a batch by which batches are sorted and compared.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BatchResult {
    /// L* of the first colour reading.
    pub lightness_first: Option<f64>,
    /// L* of the last colour reading; `None` while there is only one.
    pub lightness_last: Option<f64>,
    /// L* of the last colour reading, even if it is the only one.
    pub lightness_reached: Option<f64>,
    /// Oven-dry fibre before the first bath, g.
    pub dry_before_g: Option<f64>,
    /// Oven-dry pulp that was stored, g, of all its lots.
    pub dry_after_g: Option<f64>,
    /// Stored pulp over fibre before the first bath, oven-dry, as a share.
    pub bleach_yield: Option<f64>,
    /// Pulp at the first weighing over raw fibre, oven-dry, as a share.
    pub cook_yield: Option<f64>,
    pub cost: Option<Cost>,
}

/// Cost of the products that went in, in the person's own money.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    /// Of those whose price and package are known.
    pub known: f64,
    /// All of them are.
    pub is_complete: bool,
}

impl BatchResult {
    pub fn of(book: &Book, batch: &Batch) -> Self {
        let readings = || {
            batch.visible_entries().filter_map(|entry| match &entry.body {
                Body::ColourReading(reading) if reading.ageing.is_none() => Some(reading),
                _ => None,
            })
        };
        let first = readings().next().map(|reading| reading.lightness.value);
        let reached = readings().next_back().map(|reading| reading.lightness.value);
        let before = || {
            let before_bath = |body: &Body| !matches!(body, Body::BathStarted(_));
            batch.visible_entries().take_while(move |entry| before_bath(&entry.body)).filter_map(
                |entry| match &entry.body {
                    Body::Weighed(weighed) => Some(dry_g(weighed)),
                    _ => None,
                },
            )
        };
        let dry_before_g = before().last();
        let stored = batch.visible_entries().filter_map(|entry| match &entry.body {
            Body::Stored(stored) => Some(stored.wet_mass_g.value * stored.dryness.value),
            _ => None,
        });
        let dry_after_g = (!batch.lots.is_empty()).then(|| stored.sum::<f64>());
        let ratio = |part: Option<f64>, whole: Option<f64>| {
            Some(part? / whole.filter(|whole| *whole > 0.0)?)
        };
        let raw = batch.raw_dry_g.map(|raw| raw.value);
        Self {
            lightness_first: first,
            lightness_last: reached.filter(|_| readings().nth(1).is_some()),
            lightness_reached: reached,
            dry_before_g,
            dry_after_g,
            bleach_yield: ratio(dry_after_g, dry_before_g).filter(|_| !batch.baths.is_empty()),
            cook_yield: ratio(before().next(), raw),
            cost: cost(book, batch),
        }
    }
}

fn dry_g(weighed: &Weighed) -> f64 {
    weighed.wet_mass_g.value * weighed.dryness.value
}

/// The plan of the last bath; before one, the last plan.
pub fn last_plan(batch: &Batch) -> Option<&PlanRecord> {
    let of_bath = batch.baths.last().map(|bath| bath.plan);
    let id = of_bath.unwrap_or(batch.plan)?;
    batch.visible_entries().find_map(|entry| match &entry.body {
        Body::Planned(plan) if entry.entry.id == id => Some(&**plan),
        _ => None,
    })
}

/// Of the products that were used; `None` if the price of none is known.
fn cost(book: &Book, batch: &Batch) -> Option<Cost> {
    let (mut known, mut any, mut is_complete) = (0.0, false, true);
    for (product, amount) in batch.visible_entries().filter_map(|entry| used(&entry.body)) {
        let price =
            product.zip(amount).and_then(|(id, amount)| price_of(book.products.get(&id)?, amount));
        match price {
            Some(price) => (known, any) = (known + price, true),
            None => is_complete = false,
        }
    }
    any.then_some(Cost { known, is_complete })
}

/// The product of an entry that uses one, and how much of it. Water costs nothing here.
fn used(body: &Body) -> Option<(Option<Ulid>, Option<Amount>)> {
    use crate::journal::Additive;
    Some(match body {
        Body::BathStarted(b) => (b.product, b.product_amount),
        Body::Added(a) if a.what != Additive::Water => (a.product, Some(a.amount)),
        Body::Antichlored(a) => (a.product, Some(Amount::MassG(a.grams))),
        Body::AcidFinished(a) => (a.product, Some(a.amount)),
        _ => return None,
    })
}

/// The part of a package's price that an amount is.
pub(super) fn price_of(product: &Product, amount: Amount) -> Option<f64> {
    let (price, size) = (product.price?, product.size?);
    let density = product.label.and_then(density_g_per_ml);
    let part = match (amount, size) {
        (Amount::MassG(used), Amount::MassG(size))
        | (Amount::VolumeMl(used), Amount::VolumeMl(size)) => used.value / size.value,
        (Amount::MassG(used), Amount::VolumeMl(size)) => used.value / (size.value * density?),
        (Amount::VolumeMl(used), Amount::MassG(size)) => used.value * density? / size.value,
    };
    (part.is_finite() && part >= 0.0).then_some(part * price)
}

fn density_g_per_ml(strength: Strength) -> Option<f64> {
    strength.density_g_per_ml.map(|density| density.value).filter(|density| *density > 0.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::derive::sample::book_of;
    use crate::derive::sample::{bottle, exact, weighed};
    use crate::journal::sample::bath_started;
    use crate::journal::{Oxidant, ProductAdded, Stored, StoredForm, Subject};

    const BATCH: Subject = Subject::Batch(Ulid(1));

    fn priced(price: Option<f64>) -> (Subject, Body) {
        let of = bottle();
        let added = ProductAdded {
            name: of.name,
            product: of.kind,
            strength: of.label,
            size: Some(Amount::VolumeMl(exact(1000.0))),
            bought: None,
            made: None,
            opened: None,
            storage: of.storage,
            price,
            note: String::new(),
        };
        (Subject::Bottle(Ulid(9)), Body::ProductAdded(added))
    }

    fn bath(ml: f64) -> (Subject, Body) {
        let mut started = bath_started(Ulid(5), Oxidant::Hypochlorite);
        started.product = Some(Ulid(9));
        started.product_amount = Some(Amount::VolumeMl(exact(ml)));
        (BATCH, Body::BathStarted(started))
    }

    fn stored(lot: u128, wet: f64) -> (Subject, Body) {
        let stored = Stored {
            lot: Ulid(lot),
            wet_mass_g: exact(wet),
            dryness: exact(0.2),
            form: StoredForm::WetCold,
            place: String::new(),
            keep_by: None,
            untested_why: String::new(),
            note: String::new(),
        };
        (BATCH, Body::Stored(stored))
    }

    fn result(entries: Vec<(Subject, Body)>) -> BatchResult {
        let book = book_of(entries);
        BatchResult::of(&book, &book.batches[&Ulid(1)])
    }

    /// 250 g of dry fibre, of which 2 × 112.5 g were stored: 90 %.
    #[test]
    fn yield_is_what_was_stored_over_what_went_in() {
        let of = result(vec![(BATCH, weighed()), bath(65.0), stored(3, 562.5), stored(4, 562.5)]);
        assert!((of.bleach_yield.unwrap() - 0.9).abs() < 1e-12);
        let unbleached = result(vec![(BATCH, weighed()), stored(3, 562.5)]);
        assert_eq!(unbleached.bleach_yield, None);
        assert_eq!(result(vec![(BATCH, weighed()), bath(65.0)]).bleach_yield, None);
    }

    /// 65 mL of a litre at 2: 0.13; a second bottle without a price makes it a least cost.
    #[test]
    fn cost_is_a_part_of_the_package() {
        let cost = result(vec![priced(Some(2.0)), bath(65.0)]).cost.unwrap();
        assert!((cost.known - 0.13).abs() < 1e-12 && cost.is_complete);
        assert_eq!(result(vec![priced(None), bath(65.0)]).cost, None);
        let mut other = bath_started(Ulid(6), Oxidant::Hypochlorite);
        other.product_amount = Some(Amount::VolumeMl(exact(10.0)));
        let other = (BATCH, Body::BathStarted(other));
        let partly = result(vec![priced(Some(2.0)), bath(65.0), other]).cost.unwrap();
        assert!(!partly.is_complete);
    }
}
