//! What a search for ways to a colour is made of, from the book: the pulp of a batch, the bleaches
//! on the shelf, the colour now and the colour wanted; and what a way costs.
//! Not here: the search itself, which is `forecast::ways`.

use jiff::Timestamp;
use ulid::Ulid;

use crate::{
    bath::{Bleach, Dose, ExpressedWater},
    chemistry::Residual,
    derive::{Swatch, USUAL_CHAIN_LOSS, colour_target, drying_shift, swatches},
    forecast::{
        k_over_s_of_lightness, lightness,
        ways::{WayOption, WayRequest},
    },
    journal::{Amount, Batch, Book, Product, PulpState},
    pulp::WetPulp,
    quantity::{Basis, Estimate, grams, in_grams, in_millilitres, share},
};

/// A search, and which product each bleach of it is.
#[derive(Clone, Debug, PartialEq)]
pub struct WaysOfBatch {
    pub request: WayRequest,
    /// In the order of the request's bleaches.
    pub products: Vec<Product>,
}

/// What is missing for a search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaysMissing {
    /// The pulp was not weighed.
    Weight,
    /// No colour was chosen to bleach towards.
    Target,
    /// No bleach on the shelf.
    Bleach,
}

/// L* of cooked, unbleached plant pulp, dry, that nobody measured: from dark straw to pale bast
/// (own estimate).
const UNMEASURED: Estimate<f64> =
    Estimate { value: 64.0, low: 48.0, high: 79.0, basis: Basis::Assumed };
/// Dried over wet K/S of pulp without a pair of its own (own estimate).
const DRYING: Estimate<f64> = Estimate { value: 0.5, low: 0.3, high: 0.75, basis: Basis::Assumed };

impl WaysOfBatch {
    /// `residual` is what may be left in the pulp; `expressed_water` what is known of its water.
    ///
    /// # Errors
    /// [`WaysMissing`], the first that a person can say.
    pub fn of(
        book: &Book,
        batch: &Batch,
        now: Timestamp,
        residual: Residual,
        expressed_water: Option<ExpressedWater>,
    ) -> Result<Self, WaysMissing> {
        let target = colour_target(batch).ok_or(WaysMissing::Target)?;
        let weighed = batch.weighed.as_ref().ok_or(WaysMissing::Weight)?;
        let (wet, dryness) = (weighed.wet_mass_g.map(grams), weighed.dryness.map(share));
        let pulp = WetPulp::new(wet, dryness).map_err(|_| WaysMissing::Weight)?;
        let (products, bleaches) = bleaches(book, now);
        if bleaches.is_empty() {
            return Err(WaysMissing::Bleach);
        }
        let request = WayRequest {
            pulp,
            bleaches,
            lightness: lightness_now(batch),
            target: target.lightness.value,
            most_chain_loss: USUAL_CHAIN_LOSS,
            residual,
            expressed_water,
        };
        Ok(Self { request, products })
    }

    /// What the bleach of a way costs, in the person's own money. `None` unless the price and
    /// the size of every package are known.
    pub fn cost(&self, option: &WayOption) -> Option<f64> {
        option
            .baths
            .iter()
            .map(|bath| price(self.products.get(bath.bath.bleach)?, &bath.plan.dose))
            .sum()
    }

    pub fn product(&self, bleach: usize) -> Option<Ulid> {
        self.products.get(bleach).map(|product| product.id)
    }
}

/// The bleaches on the shelf, of each oxidant the one whose strength is known best; then the one
/// that was added last.
fn bleaches(book: &Book, now: Timestamp) -> (Vec<Product>, Vec<Bleach>) {
    let mut found: Vec<(&Product, Bleach)> = book
        .shelf()
        .into_iter()
        .filter_map(|product| Some((product, Bleach::of(product, now)?)))
        .collect();
    found.sort_by_key(|(product, bleach)| {
        let known = if !product.found.is_empty() {
            0
        } else if product.label.is_some() {
            1
        } else {
            2
        };
        (bleach.oxidant(), known, std::cmp::Reverse(product.added))
    });
    found.dedup_by_key(|(_, bleach)| bleach.oxidant());
    found.into_iter().map(|(product, bleach)| (product.clone(), bleach)).unzip()
}

fn price(product: &Product, dose: &Dose) -> Option<f64> {
    let (price, size) = (product.price?, product.size?);
    let part = match (dose, size) {
        (Dose::Bottle(volume), Amount::VolumeMl(size)) if size.value > 0.0 => {
            in_millilitres(volume.value) / size.value
        }
        (Dose::Powder(mass), Amount::MassG(size)) if size.value > 0.0 => {
            in_grams(mass.value) / size.value
        }
        _ => return None,
    };
    Some(part * price)
}

/// L* of the dry pulp as it is now: the last reading since the last bath; assumed without one.
fn lightness_now(batch: &Batch) -> Estimate<f64> {
    let all = swatches(batch);
    let since = batch.baths.iter().filter_map(|bath| bath.stopped.map(|stopped| stopped.at)).max();
    let usable = |swatch: &&Swatch| {
        swatch.reading.ageing.is_none() && since.is_none_or(|since| swatch.at >= since)
    };
    let dried = |swatch: &&Swatch| swatch.reading.pulp == PulpState::Dried;
    let of_now = || all.iter().rev().filter(usable);
    let Some(swatch) = of_now().find(dried).or_else(|| of_now().next()) else {
        return UNMEASURED;
    };
    let read = swatch.reading.lightness;
    let clamp = |l: f64| l.clamp(5.5, 99.0);
    if swatch.reading.pulp == PulpState::Dried {
        return read.map(clamp);
    }
    let factor = drying_shift(&all).map_or(DRYING, |shift| shift.factor[1]);
    let dry = |l: f64, factor: f64| lightness(k_over_s_of_lightness(clamp(l)) * factor);
    let value = dry(read.value, factor.value);
    Estimate {
        value,
        low: dry(read.low, factor.high).min(value),
        high: dry(read.high, factor.low).max(value),
        basis: Basis::Computed,
    }
}
