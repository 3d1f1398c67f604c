//! Learning in steps of one bath: kept, resumed, and asked at any time.

use super::batch_fit::{BatchFit, fit_batch};
use super::conformal::{BandCorrection, QuantityScore};
use super::gaussian::{Information, Moments};
use super::history::{BathFacts, Extrapolation, LearningBatch, PastBatch, nearest};
use super::outcome::{LearntParameters, support};
use super::pooling::{BatchData, Pooling};
use super::shares::{SCALES, hierarchy};
use crate::bath::kinetics::{NormalCoordinates, ParameterDistribution, priors};
use crate::chemistry::Oxidant;
use crate::forecast::{Forecast, ForecastReading, ForecastRequest};
use serde::{Deserialize, Serialize};
use std::hash::{DefaultHasher, Hash, Hasher};

/// Rises when the method changes, so that what was kept is learnt anew.
const METHOD: u32 = 1;
/// Draws of the forecast that a bath's readings are scored by before they are learnt from.
const SCORING_DRAWS: u32 = 48;

/// What was learnt so far, bath by bath in order of time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Learning {
    method: u32,
    seed: u32,
    steps: Vec<LearntBatch>,
}

/// A bath that was learnt from, or could not be.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct LearntBatch {
    bath: PastBatch,
    /// Of the bath and its readings as they were.
    fingerprint: u64,
    /// `None` without a reading, or if no simulation agrees.
    fit: Option<BatchFit>,
    scores: Vec<QuantityScore>,
}

/// How far learning is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LearningProgress {
    pub learnt: usize,
    pub of: usize,
}

impl LearningProgress {
    pub fn is_done(self) -> bool {
        self.learnt >= self.of
    }
}

/// The bath that parameters are asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct LearningQuery<'a> {
    pub facts: &'a BathFacts,
    /// A bath to leave out: the one forecast, whose own readings weigh the forecast already.
    pub without: Option<&'a str>,
}

impl Learning {
    pub fn new(seed: u32) -> Self {
        Self { method: METHOD, seed, steps: Vec::new() }
    }

    /// Forgets what is not the beginning of these baths, which are in order of time: after a
    /// change of an earlier one all later ones are learnt anew.
    pub fn retain(&mut self, batches: &[LearningBatch]) -> LearningProgress {
        if self.method != METHOD {
            *self = Self::new(self.seed);
        }
        let alike = |(step, batch): &(&LearntBatch, &LearningBatch)| {
            step.bath.id == batch.id && step.fingerprint == fingerprint(batch)
        };
        let same = self.steps.iter().zip(batches).take_while(alike).count();
        self.steps.truncate(same);
        LearningProgress { learnt: same, of: batches.len() }
    }

    /// Learns from the next bath. Call [`Self::retain`] with the same baths before the first.
    pub fn step(&mut self, batches: &[LearningBatch]) -> LearningProgress {
        if let Some(batch) = batches.get(self.steps.len()) {
            let learnt = self.learn(batch);
            self.steps.push(learnt);
        }
        LearningProgress { learnt: self.steps.len(), of: batches.len() }
    }

    /// Learns until all baths are done or `goes_on` says no, which is asked between baths.
    pub fn run(
        &mut self,
        batches: &[LearningBatch],
        mut goes_on: impl FnMut() -> bool,
    ) -> LearningProgress {
        let mut progress = self.retain(batches);
        while !progress.is_done() && goes_on() {
            progress = self.step(batches);
        }
        progress
    }

    /// The parameters for a bath, and what they rest on.
    pub fn outcome(&self, query: &LearningQuery) -> LearntParameters {
        let facts = query.facts;
        let steps: Vec<&LearntBatch> = self
            .steps_of(facts.oxidant)
            .filter(|step| query.without != Some(step.bath.id.as_str()))
            .collect();
        let distribution = distribution(&steps, facts);
        let scores: Vec<QuantityScore> =
            steps.iter().flat_map(|step| step.scores.iter().copied()).collect();
        let fits = |own: bool| {
            steps
                .iter()
                .filter(move |step| (step.bath.facts.fibre == facts.fibre) == own)
                .filter_map(|step| step.fit.as_ref())
        };
        let own = steps.iter().filter(|step| step.bath.facts.fibre == facts.fibre);
        LearntParameters {
            support: support(facts.oxidant, &distribution, fits(true).chain(fits(false))),
            distribution,
            correction: BandCorrection::from_scores(&scores),
            batches: fits(true).count(),
            batches_of_other_fibres: fits(false).count(),
            readings: fits(true).chain(fits(false)).map(|fit| fit.readings).sum(),
            nearest: nearest(facts, steps.iter().map(|step| &step.bath)),
            beyond: Extrapolation::of(facts, own.map(|step| &step.bath.facts)),
        }
    }

    /// The fibres learnt from, in the order of their first baths.
    pub fn fibres(&self) -> Vec<String> {
        let mut names = Vec::new();
        for step in self.steps.iter().filter(|step| step.fit.is_some()) {
            number(&step.bath.facts.fibre, &mut names);
        }
        names
    }

    fn steps_of(&self, oxidant: Oxidant) -> impl Iterator<Item = &LearntBatch> {
        let is_peroxide = oxidant.is_peroxide();
        self.steps.iter().filter(move |step| step.bath.facts.oxidant.is_peroxide() == is_peroxide)
    }

    fn learn(&self, batch: &LearningBatch) -> LearntBatch {
        let facts = batch.facts();
        let steps: Vec<&LearntBatch> = self.steps_of(facts.oxidant).collect();
        let scores = score(batch, distribution(&steps, &facts), self.seed);
        let fit = next_batch(&steps, &facts).and_then(|prior| fit_batch(batch, &prior));
        LearntBatch {
            bath: PastBatch { id: batch.id.clone(), facts },
            fingerprint: fingerprint(batch),
            fit,
            scores,
        }
    }
}

/// The rows of the priors that learning works with: those of percarbonate hold all of peroxide.
fn table_oxidant(oxidant: Oxidant) -> Oxidant {
    if oxidant.is_peroxide() { Oxidant::Percarbonate } else { oxidant }
}

/// What the baths before say of one to come, among all rows.
fn next_batch(steps: &[&LearntBatch], facts: &BathFacts) -> Option<Moments> {
    let table = priors(table_oxidant(facts.oxidant));
    let mut names = Vec::new();
    let data: Vec<(usize, Information)> = steps
        .iter()
        .filter_map(|step| {
            let fit = step.fit.as_ref()?;
            Some((number(&step.bath.facts.fibre, &mut names), fit.among(table.len())))
        })
        .collect();
    let fibre = number(&facts.fibre, &mut names);
    let batches: Vec<BatchData> =
        data.iter().map(|(fibre, data)| BatchData { fibre: *fibre, data }).collect();
    Pooling::new(hierarchy(table), &batches, &SCALES)?.next_batch(fibre)
}

/// The place of a fibre among the names, which it joins.
fn number(fibre: &str, names: &mut Vec<String>) -> usize {
    names.iter().position(|name| name == fibre).unwrap_or_else(|| {
        names.push(fibre.to_owned());
        names.len() - 1
    })
}

fn distribution(steps: &[&LearntBatch], facts: &BathFacts) -> ParameterDistribution {
    let literature = ParameterDistribution::literature(facts.oxidant);
    if steps.iter().all(|step| step.fit.is_none()) {
        return literature;
    }
    let coordinates = || {
        let moments = next_batch(steps, facts)?;
        let (mut mean, mut factor) = (moments.mean.clone(), moments.factor()?);
        // The last row of percarbonate is not one of peroxide.
        let rows = priors(facts.oxidant).len();
        mean.truncate(rows);
        factor.truncate(rows);
        Some(NormalCoordinates { mean, factor })
    };
    coordinates().map_or(literature, |found| ParameterDistribution::learnt(facts.oxidant, found))
}

/// The readings of a bath by its forecast before any of them.
fn score(
    batch: &LearningBatch,
    parameters: ParameterDistribution,
    seed: u32,
) -> Vec<QuantityScore> {
    let mut minutes: Vec<f64> = batch.readings.iter().map(|reading| reading.minutes).collect();
    minutes.sort_by(f64::total_cmp);
    minutes.dedup();
    let request = ForecastRequest { minutes, parameters, ..batch.request.clone() };
    let Ok(mut forecast) = Forecast::new(request, seed) else {
        return Vec::new();
    };
    forecast.extend(SCORING_DRAWS);
    let scored = |reading: &ForecastReading| {
        let bands = forecast.bands(reading.of);
        let band = bands.iter().find(|band| band.minutes == reading.minutes)?;
        QuantityScore::of_reading(band, reading)
    };
    batch.readings.iter().filter_map(scored).collect()
}

fn fingerprint(batch: &LearningBatch) -> u64 {
    let mut hasher = DefaultHasher::new();
    // Neither the times that a forecast reports nor what it draws from change what is learnt.
    let request = ForecastRequest {
        minutes: Vec::new(),
        parameters: ParameterDistribution::literature(batch.request.oxidant),
        ..batch.request.clone()
    };
    format!("{:?} {request:?} {:?}", batch.fibre, batch.readings).hash(&mut hasher);
    hasher.finish()
}

#[cfg(test)]
mod tests;
