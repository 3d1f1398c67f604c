//! What changed since a plan was made.

use jiff::Timestamp;

use super::{PulpWaterPh, Since};
use crate::{
    bath::{ACID_PULP_PH, Bleach},
    caution::Residual,
    chemistry::{Oxidant, is_too_uncertain, percarbonate::PURE_PEROXIDE},
    journal::{Batch, Body, Book, Figure, PlanRecord, ProductUsed, Strength},
    message::{Message, Value},
    quantity::{Estimate, Mass, grams, grams_per_litre, in_grams_per_litre, in_share},
};

/// Change of a product's strength below which a plan stands: the scale and jug of a kitchen are no
/// better (own estimate).
const STRENGTH_STANDS: f64 = 0.05;

/// Change of the wet mass or the dryness below which a plan stands (own estimate; scales are off by
/// 0.5 %).
const PULP_STANDS: f64 = 0.01;

/// A fact that differs from the one that a plan was made with.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanChange {
    /// An oxidant may be in the pulp that must not meet the plan's own.
    OtherOxidant { left: Residual, planned: Oxidant },
    /// The pulp's water may be acid; `None` where acid was added and no pH read after it.
    AcidPulp { ph: Option<f64>, planned: Oxidant },
    /// Another bath of the batch is running.
    BathRunning,
    /// No dose rests on what is known of the product's strength now.
    StrengthUnknown { product: String },
    /// The product's strength, in words of its oxidant.
    Strength { product: String, planned: Value, now: Value },
    /// The product was used up or thrown out.
    ProductFinished { product: String },
    /// The product is on the shelf no longer, or is something else.
    ProductGone { product: String },
    /// The lump was weighed again, or its weighing corrected.
    Weighed { planned: (Mass, f64), now: (Mass, f64) },
    /// The weighing was withdrawn.
    NotWeighed,
    /// Rinsed, and not weighed after it.
    Rinsed,
}

impl PlanChange {
    /// Whether it is a danger to start the plan all the same.
    pub fn stops(&self) -> bool {
        match self {
            Self::OtherOxidant { .. } | Self::BathRunning | Self::StrengthUnknown { .. } => true,
            Self::AcidPulp { planned, .. } => *planned == Oxidant::Hypochlorite,
            _ => false,
        }
    }

    /// What changed, as a sentence.
    pub fn message(&self) -> Message {
        let named =
            |key, product: &str| Message::new(key).with("product", Value::Text(product.to_owned()));
        match self {
            Self::OtherOxidant { left: Residual::Hypochlorite, planned } => {
                other_oxidant(Oxidant::Hypochlorite, *planned)
            }
            Self::OtherOxidant { left: Residual::Peroxide, planned } => {
                other_oxidant(Oxidant::Peroxide, *planned)
            }
            Self::OtherOxidant { planned, .. } => {
                Message::new("plan_change-any_oxidant").with("planned", Value::Word(planned.word()))
            }
            Self::AcidPulp { ph: Some(ph), planned: Oxidant::Hypochlorite } => {
                Message::new("plan_change-acid_pulp").with("ph", Value::Ph(*ph))
            }
            Self::AcidPulp { ph: None, planned: Oxidant::Hypochlorite } => {
                Message::new("plan_change-acid_added")
            }
            Self::AcidPulp { .. } => Message::new("plan_change-acid_takes_alkali"),
            Self::BathRunning => Message::new("plan_change-bath_running"),
            Self::StrengthUnknown { product } => named("plan_change-strength_unknown", product),
            Self::Strength { product, planned, now } => named("plan_change-strength", product)
                .with("planned", planned.clone())
                .with("now", now.clone()),
            Self::ProductFinished { product } => named("plan_change-product_finished", product),
            Self::ProductGone { product } => named("plan_change-product_gone", product),
            Self::Weighed { planned, now } => Message::new("plan_change-weighed")
                .with("planned", Value::Mass(planned.0))
                .with("planned_dryness", Value::Share(planned.1))
                .with("now", Value::Mass(now.0))
                .with("now_dryness", Value::Share(now.1)),
            Self::NotWeighed => Message::new("plan_change-not_weighed"),
            Self::Rinsed => Message::new("plan_change-rinsed"),
        }
    }
}

fn other_oxidant(left: Oxidant, planned: Oxidant) -> Message {
    Message::new("plan_change-other_oxidant")
        .with("left", Value::Word(left.word()))
        .with("planned", Value::Word(planned.word()))
}

/// All changes, those that stop the plan first.
pub(super) fn changes(
    book: &Book,
    batch: &Batch,
    record: &PlanRecord,
    since: &Since<'_>,
    residual: Residual,
    now: Timestamp,
) -> Vec<PlanChange> {
    let planned = record.oxidant.into();
    let running = batch.running().map(|_| PlanChange::BathRunning);
    let mut changes: Vec<PlanChange> = [
        oxidant_left(residual, planned),
        acid(since, planned),
        running,
        product(book, record, now),
        weighing(batch, record),
        rinse(since),
    ]
    .into_iter()
    .flatten()
    .collect();
    changes.sort_by_key(|change| !change.stops());
    changes
}

fn oxidant_left(left: Residual, planned: Oxidant) -> Option<PlanChange> {
    let clashes = match left {
        Residual::None => false,
        Residual::Unknown => true,
        Residual::Hypochlorite => !planned.may_meet(Oxidant::Hypochlorite),
        Residual::Peroxide => !planned.may_meet(Oxidant::Peroxide),
    };
    clashes.then_some(PlanChange::OtherOxidant { left, planned })
}

/// The last that is known of the pulp's water since the plan.
fn acid(since: &Since<'_>, planned: Oxidant) -> Option<PlanChange> {
    let ph = match since.0.iter().rev().find_map(|entry| PulpWaterPh::by(&entry.body))? {
        PulpWaterPh::NotRead => return None,
        PulpWaterPh::Read(ph) if ph.low >= ACID_PULP_PH => return None,
        PulpWaterPh::Read(ph) => Some(ph.low),
        PulpWaterPh::AcidSince => None,
    };
    Some(PlanChange::AcidPulp { ph, planned })
}

/// Of the product on the shelf; a label that was typed does not change.
fn product(book: &Book, record: &PlanRecord, now: Timestamp) -> Option<PlanChange> {
    let id = record.product.shelf?;
    let name = record.product.name.clone();
    let today = book.products.get(&id).and_then(|product| {
        let bleach = Bleach::of(product, now)?;
        (bleach.oxidant() == record.oxidant.into()).then_some(())?;
        Some((product, ProductUsed::from_shelf(product, now)?.strength))
    });
    let Some((product, today)) = today else {
        return Some(PlanChange::ProductGone { product: name });
    };
    if product.finished.is_some() {
        return Some(PlanChange::ProductFinished { product: name });
    }
    let (Some(planned), Some(now)) = (active(&record.product.strength), active(&today)) else {
        return Some(PlanChange::StrengthUnknown { product: name });
    };
    if is_too_uncertain(&now) {
        return Some(PlanChange::StrengthUnknown { product: name });
    }
    let within = (planned.low..=planned.high).contains(&now.value);
    let stands = within && !differs(planned.value, now.value, STRENGTH_STANDS);
    (!stands).then(|| {
        let shown = |figure: Figure| match record.oxidant.into() {
            Oxidant::Percarbonate => Value::Share(figure.value),
            _ => Value::Concentration(grams_per_litre(figure.value)),
        };
        PlanChange::Strength { product: name, planned: shown(planned), now: shown(now) }
    })
}

/// What counts of a strength, whatever its basis: available chlorine or H2O2 of a bottle in g/L,
/// percarbonate in a powder as a share.
fn active(strength: &Strength) -> Option<Estimate<f64>> {
    let found = if let Some(bottle) = strength.bottle() {
        bottle.liquid().ok()?.available_chlorine.map(in_grams_per_litre)
    } else if let Some(powder) = strength.powder() {
        powder.peroxide().ok()?.map(|share| in_share(share) / PURE_PEROXIDE)
    } else {
        strength.peroxide_bottle()?.peroxide().ok()?.map(in_grams_per_litre)
    };
    Some(found.estimate())
}

fn weighing(batch: &Batch, record: &PlanRecord) -> Option<PlanChange> {
    let Some(weighed) = &batch.weighed else { return Some(PlanChange::NotWeighed) };
    let pulp = |wet: Figure, dryness: Figure| (grams(wet.value), dryness.value);
    let changed = differs(record.wet_mass_g.value, weighed.wet_mass_g.value, PULP_STANDS)
        || differs(record.dryness.value, weighed.dryness.value, PULP_STANDS);
    changed.then(|| PlanChange::Weighed {
        planned: pulp(record.wet_mass_g, record.dryness),
        now: pulp(weighed.wet_mass_g, weighed.dryness),
    })
}

fn rinse(since: &Since<'_>) -> Option<PlanChange> {
    let rinsed_last = since.0.iter().rev().find_map(|entry| match entry.body {
        Body::Rinsed(_) => Some(true),
        Body::Weighed(_) => Some(false),
        _ => None,
    });
    (rinsed_last == Some(true)).then_some(PlanChange::Rinsed)
}

/// By more than `part` of the planned value.
fn differs(planned: f64, now: f64, part: f64) -> bool {
    let stands = (planned - now).abs() <= part * planned.abs();
    !stands
}
