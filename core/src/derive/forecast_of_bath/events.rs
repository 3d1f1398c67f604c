//! What was done to a bath on the way: additions, hot water, reheats.

use super::{AssumedInput, BathForecastError, water, with_tap_water};
use crate::{
    bath::{self, Bottle, PeroxideBottle, Powder, ROOM_CELSIUS, kinetics::BathEvent},
    chemistry::{
        equilibrium::Mix,
        substance::{
            CHLORINE, HYDROGEN_PEROXIDE, SODIUM_BICARBONATE, SODIUM_CARBONATE,
            SODIUM_CARBONATE_DECAHYDRATE, SODIUM_HYDROXIDE, Substance,
        },
    },
    journal::{Added, Additive, Amount, Batch, BathView, Body, Book, PlanRecord, Strength},
    quantity::{Estimate, grams_per_litre, in_grams_per_litre, in_share},
};

/// How much is in the vessel.
pub(super) struct BathVolume {
    /// mL; `None` where nobody planned the bath.
    pub liquor_ml: Option<Estimate<f64>>,
    pub dry_fibre_g: Option<Estimate<f64>>,
    /// Equal vessels that it is divided into.
    pub vessels: f64,
}

/// Liquor of a bath of unknown size, mL: only its ratio to an addition counts (own estimate).
const UNKNOWN_LIQUOR: f64 = 5000.0;

impl BathVolume {
    pub(super) fn of(plan: Option<&PlanRecord>) -> Self {
        Self {
            liquor_ml: plan.map(|plan| plan.liquor_ml),
            dry_fibre_g: plan.map(|plan| plan.dry_fibre_g),
            vessels: plan.map_or(1.0, |plan| plan.loads.len().max(1) as f64),
        }
    }

    fn ml(&self) -> f64 {
        self.liquor_ml.map_or(UNKNOWN_LIQUOR, |liquor| liquor.value).max(1.0)
    }

    fn add(&mut self, ml: f64) {
        self.liquor_ml = self.liquor_ml.map(|liquor| liquor.map(|before| before + ml));
    }
}

/// The events of a bath in their order; what cannot be calculated is left out and marked.
pub(super) fn of(
    book: &Book,
    batch: &Batch,
    view: &BathView,
    plan: Option<&PlanRecord>,
    (volume, planned): (&mut BathVolume, f64),
    assumed: &mut Vec<AssumedInput>,
) -> Result<Vec<BathEvent>, BathForecastError> {
    let mut events = Vec::new();
    for entry in batch.visible_entries().filter(|entry| entry.body.bath() == Some(view.id)) {
        let minutes = entry.at.duration_since(view.started).as_secs_f64() / 60.0;
        let event = match &entry.body {
            Body::Reheated(reheated) => {
                if reheated.to_celsius.is_none() {
                    assumed.push(AssumedInput::Reheated);
                }
                let to = reheated.to_celsius.map_or(planned, |to| to.value).clamp(5.0, 80.0);
                Some(BathEvent { minutes, share: 1.0, added: water(to)?, reaches: Some(to) })
            }
            Body::Added(added) => {
                let strength = product_strength(book, added, plan);
                let event = addition(added, strength, view, volume)?;
                if event.is_none() {
                    assumed.push(AssumedInput::Addition);
                }
                event.map(|event| BathEvent { minutes, ..event })
            }
            _ => None,
        };
        events.extend(event.filter(|event| event.minutes > 0.0));
    }
    events.sort_by(|one, other| one.minutes.total_cmp(&other.minutes));
    Ok(events)
}

/// The strength of what was added: that of the shelf product, else the plan's own.
fn product_strength(book: &Book, added: &Added, plan: Option<&PlanRecord>) -> Option<Strength> {
    let shelf = added.product.and_then(|id| book.products.get(&id));
    let found = shelf.and_then(|product| product.strength()).map(|(strength, _)| *strength);
    let same_oxidant = plan.filter(|plan| oxidant_of(added.what) == Some(plan.oxidant.into()));
    found.or(same_oxidant.map(|plan| plan.product.strength))
}

fn oxidant_of(what: Additive) -> Option<bath::Oxidant> {
    match what {
        Additive::Hypochlorite => Some(bath::Oxidant::Hypochlorite),
        Additive::Percarbonate => Some(bath::Oxidant::Percarbonate),
        Additive::Peroxide => Some(bath::Oxidant::Peroxide),
        _ => None,
    }
}

/// At room temperature, stirred in and dissolved at once. `None` for what is not calculated.
fn addition(
    added: &Added,
    strength: Option<Strength>,
    view: &BathView,
    volume: &mut BathVolume,
) -> Result<Option<BathEvent>, BathForecastError> {
    if let Some(oxidant) = oxidant_of(added.what)
        && !oxidant.may_meet(view.oxidant.into())
    {
        return Err(BathForecastError::TwoOxidants);
    }
    let liquid = |amount: Amount| match amount {
        Amount::VolumeMl(ml) => ml.value,
        // Water and dilute bottles weigh about 1 g/mL.
        Amount::MassG(g) => g.value,
    };
    let grams = |amount: Amount| match amount {
        Amount::MassG(g) => Some(g.value),
        Amount::VolumeMl(_) => None,
    };
    let (ml, active) = match added.what {
        Additive::Water => (liquid(added.amount), Some((Reactant::Nothing, 0.0))),
        Additive::Hypochlorite => {
            let ml = liquid(added.amount);
            let bottle = strength.and_then(|s| s.bottle()).unwrap_or_else(Bottle::unknown);
            let g_per_l =
                bottle.liquid().ok().map(|l| in_grams_per_litre(l.available_chlorine.value));
            (ml, g_per_l.map(|g_per_l| (Reactant::Bleach, g_per_l * ml / 1000.0)))
        }
        Additive::Peroxide => {
            let ml = liquid(added.amount);
            let bottle =
                strength.and_then(|s| s.peroxide_bottle()).unwrap_or_else(PeroxideBottle::unknown);
            let g_per_l = bottle.peroxide().ok().map(|strength| in_grams_per_litre(strength.value));
            (ml, g_per_l.map(|g_per_l| (Reactant::Peroxide, g_per_l * ml / 1000.0)))
        }
        Additive::Percarbonate => {
            let powder = strength.and_then(|s| s.powder()).unwrap_or_else(Powder::unknown);
            let share = powder.peroxide().ok().map(|share| in_share(share.value));
            let active = grams(added.amount).zip(share).map(|(g, share)| g * share);
            (0.0, active.map(|g| (Reactant::Percarbonate, g)))
        }
        Additive::SodaAsh => soda(grams(added.amount), Reactant::SodaAsh),
        Additive::WashingSoda => soda(grams(added.amount), Reactant::WashingSoda),
        Additive::Lye => soda(grams(added.amount), Reactant::Lye),
        Additive::BakingSoda => soda(grams(added.amount), Reactant::BakingSoda),
        Additive::Stabiliser | Additive::Other => (0.0, None),
    };
    let Some((reactant, grams)) = active else { return Ok(None) };
    let before = volume.ml();
    let after = before + ml.max(0.0);
    volume.add(ml.max(0.0));
    let mix = with_tap_water(water(ROOM_CELSIUS)?, 1.0 - before / after);
    let added = reactant.dissolved_in(mix, grams / (after / 1000.0));
    Ok(Some(BathEvent { minutes: 0.0, share: before / after, added, reaches: None }))
}

fn soda(grams: Option<f64>, reactant: Reactant) -> (f64, Option<(Reactant, f64)>) {
    (0.0, grams.map(|grams| (reactant, grams)))
}

#[derive(Clone, Copy)]
enum Reactant {
    Nothing,
    Bleach,
    Peroxide,
    /// By its H2O2.
    Percarbonate,
    SodaAsh,
    WashingSoda,
    Lye,
    BakingSoda,
}

impl Reactant {
    fn dissolved_in(self, mix: Mix, g_per_l: f64) -> Mix {
        let molar = |substance: Substance| substance.molar(grams_per_litre(g_per_l));
        match self {
            Self::Nothing => mix,
            Self::Bleach => mix.with_bleach(molar(CHLORINE)),
            Self::Peroxide => mix.with_peroxide(molar(HYDROGEN_PEROXIDE)),
            Self::Percarbonate => mix.with_percarbonate(molar(HYDROGEN_PEROXIDE) / 1.5),
            Self::SodaAsh => mix.with_soda_ash(molar(SODIUM_CARBONATE)),
            Self::WashingSoda => mix.with_soda_ash(molar(SODIUM_CARBONATE_DECAHYDRATE)),
            Self::Lye => mix.with_lye(molar(SODIUM_HYDROXIDE)),
            Self::BakingSoda => mix.with_baking_soda(molar(SODIUM_BICARBONATE)),
        }
    }
}
