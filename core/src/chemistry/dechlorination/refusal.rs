//! Refusal of a dose on the way to which chlorine gas forms, and its remedies.

use super::course::{CoursePoint, Liquor, UNMEASURED_PH};
use super::reagent::AntichlorReagent;
use super::residual::STRIP_OFF;
use crate::chemistry::headspace::NIOSH_CEILING_PPM;
use crate::chemistry::substance::{CHLORINE, SODIUM_CARBONATE};
use crate::message::{Message, Value};
use crate::quantity::{
    Basis, Estimate, Mass, MassConcentration, Volume, grams, grams_per_litre, in_grams_per_litre,
    in_millilitres,
};

/// Part added to the computed soda, for the scale and for soda ash that has taken up water
/// (own estimate).
const SODA_MARGIN: f64 = 0.15;

/// Least soda ash that is advised, g/L: a level teaspoon in 40 L (own estimate).
const LEAST_SODA: f64 = 0.1;

/// Most soda ash that is advised, g/L: beyond it, draining is the only way (own estimate).
const MOST_SODA: f64 = 30.0;

/// Chlorine over the liquor would exceed the NIOSH ceiling during the dose.
#[derive(Clone, Debug, PartialEq)]
pub struct GasRefusal {
    pub reagent: AntichlorReagent,
    pub worst: CoursePoint,
    /// Safest first.
    pub remedies: Vec<AntichlorRemedy>,
}

/// What makes a refused dose possible.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AntichlorRemedy {
    /// Drain the liquor and rinse, until a strip reads `below` or less; then it may be done without
    /// soda.
    DrainAndRinse { below: MassConcentration },
    /// Stir in this much soda ash first, for all of the liquor, besides what is in it.
    AddSodaFirst { soda: Mass },
    /// Use this reagent, for which the same liquor stays below the limit.
    Use(AntichlorReagent),
}

impl GasRefusal {
    /// Message beside the reagent.
    pub(super) fn message(&self) -> Message {
        Message::new("antichlor-refusal-chlorine_gas")
            .beside(super::error::REAGENT)
            .with("ph", Value::Ph(self.worst.ph))
            .with("share", Value::Share(self.worst.share))
            .with("ppm", Value::Number(self.worst.chlorine_ppm))
            .with("limit", Value::Number(NIOSH_CEILING_PPM))
    }

    /// The refusal with its remedies for this liquor, of `volume` at most.
    pub(super) fn of(
        reagent: AntichlorReagent,
        worst: CoursePoint,
        liquor: &Liquor,
        volume: Volume,
    ) -> Self {
        let below = grams_per_litre(weakest_refused(reagent) / (1.0 + STRIP_OFF));
        let mut remedies = vec![AntichlorRemedy::DrainAndRinse { below }];
        if let Some(soda) = soda_needed(reagent, liquor) {
            let mass = in_grams_per_litre(soda) * in_millilitres(volume) / 1000.0;
            remedies.push(AntichlorRemedy::AddSodaFirst { soda: grams(mass) });
        }
        remedies.extend(
            ALTERNATIVES
                .into_iter()
                .filter(|other| *other != reagent && stays_below(*other, liquor))
                .map(AntichlorRemedy::Use),
        );
        Self { reagent, worst, remedies }
    }
}

impl AntichlorRemedy {
    /// The remedy as a message.
    pub fn message(&self) -> Message {
        match *self {
            // mg/L, as strips count.
            Self::DrainAndRinse { below } => Message::new("antichlor-remedy-drain_and_rinse")
                .with("below", Value::Number((1000.0 * in_grams_per_litre(below)).floor())),
            Self::AddSodaFirst { soda } => {
                Message::new("antichlor-remedy-add_soda_first").with("soda", Value::Mass(soda))
            }
            Self::Use(reagent) => {
                Message::new("antichlor-remedy-use").with("reagent", Value::Word(reagent.word()))
            }
        }
    }
}

/// Reagents to offer instead, mildest first.
const ALTERNATIVES: [AntichlorReagent; 4] = [
    AntichlorReagent::Sulfite,
    AntichlorReagent::SodiumAscorbate,
    AntichlorReagent::ThiosulfatePentahydrate,
    AntichlorReagent::AscorbicAcid,
];

/// Whether the chlorine in the air stays at or below the limit. A liquor beyond the pH model
/// does not.
pub(super) fn stays_below(reagent: AntichlorReagent, liquor: &Liquor) -> bool {
    liquor.worst_point(reagent).is_ok_and(|worst| worst.chlorine_ppm <= NIOSH_CEILING_PPM)
}

/// Ratio of the steps in which an amount of soda is looked for.
const SODA_STEP: f64 = 1.5;

/// Soda ash to add with which the dose stays below the limit; `None` if no amount up to
/// [`MOST_SODA`] does within the pH model.
fn soda_needed(reagent: AntichlorReagent, liquor: &Liquor) -> Option<MassConcentration> {
    let with = |grams: f64| Liquor { soda_ash: liquor.soda_ash + moles_of_soda(grams), ..*liquor };
    let enough = |grams: f64| stays_below(reagent, &with(grams));
    // Too much soda is beyond the pH model: from below, the first step that does.
    let high = std::iter::successors(Some(LEAST_SODA), |grams| Some(SODA_STEP * grams))
        .take_while(|grams| *grams <= MOST_SODA)
        .find(|grams| enough(*grams))?;
    let low = last_before(high / SODA_STEP, high, |grams| !enough(grams));
    let least = low + high * RESOLUTION;
    Some(grams_per_litre((1.0 + SODA_MARGIN) * least).max(grams_per_litre(LEAST_SODA)))
        .filter(|soda| enough(in_grams_per_litre(*soda)))
}

/// Available chlorine, g/L, up to which the dose needs no soda, in a liquor of unmeasured pH.
fn weakest_refused(reagent: AntichlorReagent) -> f64 {
    let rinsed = |grams: f64| {
        let chlorine = moles_of_chlorine(grams);
        Liquor {
            chlorine: Estimate::exact(chlorine, Basis::Computed),
            ph: UNMEASURED_PH,
            soda_ash: 0.0,
        }
    };
    // A cubic scale resolves the weak end.
    let scaled = |u: f64| 10.0 * u * u * u;
    scaled(last_before(0.0, 1.0, |u| stays_below(reagent, &rinsed(scaled(u)))))
}

/// Step at which a search ends, as a part of its range.
const RESOLUTION: f64 = 1.0 / 1024.0;

/// The highest `x` for which `holds`, which must change once over the range.
fn last_before(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let step = (high - low) * RESOLUTION;
    while high - low > step {
        let middle = f64::midpoint(low, high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

fn moles_of_soda(grams: f64) -> f64 {
    grams / SODIUM_CARBONATE.grams_per_mole
}

fn moles_of_chlorine(grams: f64) -> f64 {
    grams / CHLORINE.grams_per_mole
}
