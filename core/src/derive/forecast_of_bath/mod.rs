//! The forecast of a running bath, from the book: what it started with, what was done to it, and
//! every reading of it. Not here: the forecast itself, which is `forecast`, and what is advised to
//! be measured out, which is `forecast_dose`.
//!
//! What nobody said is an assumed wide range, and named in [`BathForecast::assumed`].
//!
//! * `start`: strength, pH, warmth, consistency, colour; `vessel`: heat losses;
//! * `events`: additions and reheats; `readings`: what weighs the samples.

mod events;
mod readings;
mod start;
#[cfg(test)]
mod tests;
mod vessel;

pub use readings::{BathReading, ReadBy};
pub(crate) use vessel::{joined, learnt_in};
pub use vessel::{learnt_losses, vessel_of_bath};

use std::collections::BTreeMap;

use jiff::Timestamp;
use strum::IntoStaticStr;
use ulid::Ulid;

use crate::{
    bath::{self, guide, kinetics::ParameterDistribution, reheat_below},
    chemistry::{
        EquilibriumError,
        bath_limit::bath_limits,
        equilibrium::Mix,
        substance::{CHLORINE, HYDROGEN_PEROXIDE, Substance, moles_per_litre},
    },
    derive::{
        colour_target,
        cue::{CueKind, CueStatus, cues},
    },
    forecast::{
        AdviceGoal, DISSOLVING_MINUTES, ForecastError, ForecastRequest, LONGEST_FORECAST,
        usual_minutes,
    },
    journal::{Batch, BathView, Body, Book, PlanRecord},
    message::Message,
    quantity::{Celsius, Estimate, Interval},
};
use events::BathVolume;
use start::Start;

/// What a forecast of a bath is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct BathForecast {
    /// Draws from the literature's ranges of every parameter.
    pub request: ForecastRequest,
    /// In the order of their times.
    pub readings: Vec<BathReading>,
    pub goal: AdviceGoal,
    /// What nobody said.
    pub assumed: Vec<AssumedInput>,
    /// Liquor of the bath now, mL; `None` where the size of the bath is not known.
    pub liquor_ml: Option<Estimate<f64>>,
    /// Oven-dry fibre, g.
    pub dry_fibre_g: Option<Estimate<f64>>,
    /// Equal vessels that it is divided into.
    pub vessels: f64,
}

/// What is assumed of a bath where nobody said it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum AssumedInput {
    Strength,
    Ph,
    Celsius,
    Consistency,
    /// Colour of the dry pulp before the bath.
    Colour,
    /// How much lighter this pulp dries.
    Drying,
    Vessel,
    Room,
    /// To what temperature it was reheated.
    Reheated,
    /// An addition that the calculation leaves out.
    Addition,
}

/// Why there is no forecast of a bath.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum BathForecastError {
    #[error("the book has no such bath")]
    NoBath,
    /// Hypochlorite and peroxide came together: no forecast holds.
    #[error("two oxidants that must not meet are in the bath")]
    TwoOxidants,
    /// It runs longer than a forecast reaches.
    #[error("the bath has run for more than 24 hours")]
    TooLong,
    #[error(transparent)]
    Forecast(#[from] ForecastError),
}

impl BathForecastError {
    pub fn message(&self) -> Message {
        match self {
            Self::NoBath | Self::Forecast(ForecastError::Equilibrium(_)) => {
                Message::new("refusal-no_forecast")
            }
            Self::TwoOxidants => EquilibriumError::TwoOxidants.message(),
            Self::TooLong => Message::new("refusal-forecast_too_long"),
            Self::Forecast(ForecastError::OutOfRange(error)) => error.message(),
        }
    }
}

/// Share of the chain length that a bath may take where nobody chose another: about what halves
/// the folds of a sheet and leaves its tensile strength (own choice; no table of strength by chain
/// length was found for hand-made sheets).
pub const USUAL_CHAIN_LOSS: f64 = 0.5;

/// Hours that a forecast looks ahead, at least, minutes.
const AHEAD: f64 = 120.0;
const SHORTEST: f64 = 240.0;

impl BathForecast {
    /// The forecast of a bath, looked at from `now`.
    ///
    /// # Errors
    /// A bath that is not in the book, has two oxidants, has run too long, or whose figures are
    /// beyond what a forecast takes.
    pub fn of(book: &Book, bath: Ulid, now: Timestamp) -> Result<Self, BathForecastError> {
        let view = book.bath(bath).ok_or(BathForecastError::NoBath)?;
        let batch = book.batches.get(&view.batch).ok_or(BathForecastError::NoBath)?;
        Self::made(book, batch, view, plan_of_bath(book, view), now)
    }

    /// The forecast of a bath that is only planned, as if it began now.
    ///
    /// # Errors
    /// As [`Self::of`].
    pub fn of_plan(
        book: &Book,
        batch: Option<Ulid>,
        plan: &PlanRecord,
        now: Timestamp,
    ) -> Result<Self, BathForecastError> {
        let none = Batch::default();
        let batch = batch.and_then(|id| book.batches.get(&id)).unwrap_or(&none);
        let view = BathView {
            id: Ulid::nil(),
            batch: batch.id,
            entry: Ulid::nil(),
            oxidant: plan.oxidant,
            started: now,
            stopped: None,
            plan: None,
            product: plan.product.shelf,
            schedules: vec![(now, plan.schedule.clone())],
            answered: BTreeMap::new(),
            last_stirred: None,
            last_reheated: None,
            vessel: None,
        };
        Self::made(book, batch, &view, Some(plan), now)
    }

    fn made(
        book: &Book,
        batch: &Batch,
        view: &BathView,
        plan: Option<&PlanRecord>,
        now: Timestamp,
    ) -> Result<Self, BathForecastError> {
        let elapsed = view.elapsed(now).as_secs_f64() / 60.0;
        let until = horizon(view, now, elapsed)?;
        let start = Start::of(batch, view, plan)?;
        let mut assumed = start.assumed.clone();
        let mut volume = BathVolume::of(plan);
        let planned = planned_celsius(view.oxidant.into(), plan);
        let events =
            events::of(book, batch, view, plan, (&mut volume, planned.high), &mut assumed)?;
        let cooling = vessel::cooling(book, view, &volume, &mut assumed);
        let mut minutes = usual_minutes(until);
        for event in &events {
            minutes.extend([(event.minutes - 0.05).max(0.0), event.minutes]);
        }
        let oxidant = bath::Oxidant::from(view.oxidant);
        let is_powder = oxidant == bath::Oxidant::Percarbonate;
        if is_powder {
            minutes.extend(DISSOLVING_MINUTES);
        }
        minutes.sort_by(f64::total_cmp);
        minutes.dedup();
        let readings = readings::of(batch, view, &start);
        let request = ForecastRequest {
            oxidant,
            mix: start.mix,
            strength: start.strength,
            undissolved: if is_powder { 1.0 } else { 0.0 },
            ph: start.ph,
            celsius: start.celsius,
            consistency: start.consistency,
            lightness: start.colour[0],
            hue: [start.colour[1], start.colour[2]],
            drying: Some(start.drying),
            cooling: Some(cooling),
            events,
            parameters: ParameterDistribution::literature(oxidant),
            minutes,
        };
        request.check()?;
        assumed.sort_unstable();
        assumed.dedup();
        let goal = goal(batch, &request, planned, stop_minutes(view, now).unwrap_or(until));
        let BathVolume { liquor_ml, dry_fibre_g, vessels } = volume;
        Ok(Self { request, readings, goal, assumed, liquor_ml, dry_fibre_g, vessels })
    }
}

/// The plan that a bath follows.
pub fn plan_of_bath<'a>(book: &'a Book, view: &BathView) -> Option<&'a PlanRecord> {
    match &book.entry(view.plan?)?.body {
        Body::Planned(plan) => Some(plan),
        _ => None,
    }
}

/// The end of the forecast, in whole hours, so that it stays the same for an hour.
fn horizon(view: &BathView, now: Timestamp, elapsed: f64) -> Result<f64, BathForecastError> {
    if elapsed > LONGEST_FORECAST - 30.0 {
        return Err(BathForecastError::TooLong);
    }
    let stop = stop_minutes(view, now).unwrap_or(0.0);
    let hours = ((elapsed.max(stop) + AHEAD) / 60.0).ceil();
    Ok((60.0 * hours).clamp(SHORTEST, LONGEST_FORECAST))
}

/// The planned stop, minutes from the start; `None` if there is none, or the bath may run on.
fn stop_minutes(view: &BathView, now: Timestamp) -> Option<f64> {
    let stop = cues(view, now).into_iter().find(|cue| cue.what == CueKind::Stop)?;
    let runs_on = matches!(stop.status, CueStatus::Answered { .. });
    (!runs_on).then(|| stop.due.duration_since(view.started).as_secs_f64() / 60.0)
}

/// The range to keep the bath in: where it is reheated, and the planned temperature, never above
/// what is usual for the oxidant.
fn planned_celsius(oxidant: bath::Oxidant, plan: Option<&PlanRecord>) -> Interval<f64> {
    let temperature = guide(oxidant).temperature;
    let usual = f64::midpoint(temperature.literature.0, temperature.literature.1);
    let high = plan.map_or(usual, |plan| plan.celsius).min(temperature.practice.1);
    let low = Celsius::new(high).map_or(high, |at| reheat_below(oxidant, at).get());
    Interval { low, high }
}

fn goal(
    batch: &Batch,
    request: &ForecastRequest,
    celsius: Interval<f64>,
    until: f64,
) -> AdviceGoal {
    let strongest = bath_limits(request.oxidant).strength.care;
    AdviceGoal {
        lightness: colour_target(batch).map(|target| target.lightness.value),
        most_chain_loss: USUAL_CHAIN_LOSS,
        celsius,
        charge: request.strength.value,
        most_strength: strongest / substance(request.oxidant).grams_per_mole,
        until,
    }
}

/// What the strength of an oxidant is counted as.
pub(crate) fn substance(oxidant: bath::Oxidant) -> Substance {
    if oxidant.is_peroxide() { HYDROGEN_PEROXIDE } else { CHLORINE }
}

/// Water of a temperature, °C, within what the solver takes.
fn water(celsius: f64) -> Result<Mix, BathForecastError> {
    let clamped = celsius.clamp(5.0, 80.0);
    Mix::new(clamped).map_err(|error| ForecastError::from(error).into())
}

/// The tap's bicarbonate in a share of the bath.
fn with_tap_water(mix: Mix, share: f64) -> Mix {
    mix.with_baking_soda(moles_per_litre(crate::chemistry::alkali::BICARBONATE.value * share))
}
