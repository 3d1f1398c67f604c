//! What to do with a running bath, from its forecast: one act, its reason, and the numbers
//! behind it. A pure function; no words for a person are made here.

use super::band::quantiles;
use super::forecast::{FEWEST_EFFECTIVE, Forecast};
use super::quantity::ForecastQuantity;
use super::request::LONGEST_FORECAST;
use super::worth::{ReadingKind, most_telling};
use crate::chemistry::Oxidant;
use crate::chemistry::bath_limit::HYPOCHLORITE_DANGER_PH;
use crate::quantity::Interval;
use serde::{Deserialize, Deserializer, Serialize};
use strum::IntoStaticStr;

/// What the person wants and allows.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct AdviceGoal {
    /// CIE L* of the dry pulp to reach; `None` without a target.
    pub lightness: Option<f64>,
    /// Share of the chain length that may be lost, 0 to 1.
    pub most_chain_loss: f64,
    /// °C: below `low` the bath is to be warmed, to `high` at most.
    pub celsius: Interval<f64>,
    /// Oxidant of the charge at the start, mol/L.
    pub charge: f64,
    /// Highest strength that a bath may have, mol/L.
    pub most_strength: f64,
    /// Minutes after which the bath is to be over.
    pub until: f64,
}

/// A time with its range, minutes from the start of the bath; an end may be infinite.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TimeRange {
    #[serde(deserialize_with = "or_infinite")]
    pub low: f64,
    #[serde(deserialize_with = "or_infinite")]
    pub middle: f64,
    #[serde(deserialize_with = "or_infinite")]
    pub high: f64,
}

/// JSON has no infinity: it is written as null.
fn or_infinite<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    Ok(Option::deserialize(from)?.unwrap_or(f64::INFINITY))
}

/// Why a bath is to be stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum StopReason {
    /// The colour is reached, more likely than not.
    ColourReached,
    /// The oxidant is spent: more time adds nothing.
    OxidantGone,
    /// Damage may soon be past what was allowed: one chance in twenty or more.
    DamageAllowed,
    /// The pH may be below 8.5, where hypochlorite attacks fibre most.
    PhTooLow,
    /// The time is over.
    TimeOver,
}

/// One act.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Advice {
    /// Leave the bath on until about this time, when it ends for the reason that is likeliest.
    GoOn {
        until: TimeRange,
        then: StopReason,
    },
    Stop {
        reason: StopReason,
    },
    /// Warm the bath to a temperature within its range, °C.
    Reheat {
        to: f64,
    },
    /// Add this oxidant, mol/L: at most half the first charge.
    Redose {
        oxidant: f64,
    },
    /// Read the pH, which nobody did yet: it may be below 8.5 at this time.
    ReadPh {
        before: TimeRange,
    },
    /// Add soda: the pH, as a strip shows it, may be below 8.5 at this time.
    AddSoda {
        before: TimeRange,
    },
    /// The oxidant is spent and this stage does not reach the colour: wash, then another way.
    ChangeWay,
    /// The band is too wide, or the readings contradict each other.
    CannotTell,
}

/// Advice with what it rests on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct AdviceWithReason {
    pub advice: Advice,
    /// Of the bath now, °C: as read lately, else as simulated; `None` if neither can tell.
    pub celsius: Option<f64>,
    /// The reading that would narrow the colour to come most, if one would.
    pub measure: Option<ReadingKind>,
    /// Chance, 0 to 1, that the colour is reached by the end of the time; `None` without a target.
    pub chance_of_colour: Option<f64>,
    /// Chance that the damage is past what was allowed, now and at the end of the time.
    pub chance_of_damage: f64,
    pub chance_of_damage_by_end: f64,
}

/// Share of the charge below which it counts as spent (own choice: the last 5 % take as long as
/// all before).
const SPENT: f64 = 0.05;
/// Chance of too much damage from which a bath is stopped (own choice; damage is never read, so
/// this is how often a stop comes too late).
pub const DAMAGE_RISK: f64 = 0.05;
/// Time in which a person hears of it and acts, minutes (own estimate): damage is looked at so
/// far ahead.
const TIME_TO_ACT: f64 = 5.0;
/// Chance of too low a pH from which soda is advised.
const PH_RISK: f64 = 0.1;
/// Time ahead for which a pH too low is warned of, minutes.
const PH_AHEAD: f64 = 45.0;
/// Minutes in which it comes before a bath that is too cold (own choice).
const PH_SOON: f64 = 10.0;
/// Minutes for which a reading stands for the bath now (own choice).
const LATELY: f64 = 10.0;
/// Widest 80 % band of L* at the end of the time on which advice may rest, when it decides
/// between going on and stopping (own choice).
const TOO_WIDE: f64 = 12.0;
/// Least share of the charge that a re-dose is worth.
const LEAST_REDOSE: f64 = 0.15;
/// Chance of the colour below which more of the same oxidant is not worth its damage (own choice).
const HOPELESS: f64 = 0.1;

/// Advice for a bath at `now`, minutes from its start.
pub fn advise(forecast: &Forecast, now: f64, goal: &AdviceGoal) -> AdviceWithReason {
    let outlook = Outlook { forecast, now, goal };
    let damage_at =
        |minutes| outlook.damage(&forecast.values(ForecastQuantity::ChainLoss, minutes));
    let chance_of_damage = damage_at(now);
    let chance_of_colour = goal.lightness.map(|target| outlook.light_enough(goal.until, target));
    let measure = most_telling(forecast, now, goal.until.max(now));
    let advice = if forecast.support().can_tell() {
        outlook.decide(damage_at(now + TIME_TO_ACT), chance_of_colour)
    } else {
        outlook.decide_without_readings()
    };
    let chance_of_damage_by_end = damage_at(goal.until.max(now));
    let simulated = || {
        let can_tell = forecast.support().can_tell();
        can_tell.then(|| outlook.median(ForecastQuantity::Celsius, now))
    };
    AdviceWithReason {
        advice,
        celsius: outlook.celsius_read().or_else(simulated),
        measure,
        chance_of_colour,
        chance_of_damage,
        chance_of_damage_by_end,
    }
}

struct Outlook<'a> {
    forecast: &'a Forecast,
    now: f64,
    goal: &'a AdviceGoal,
}

impl Outlook<'_> {
    /// Harm first, then what makes more time useless, then what keeps the bath working.
    fn decide(&self, damage: f64, colour_by_end: Option<f64>) -> Advice {
        use ForecastQuantity::{DryLightness, OxidantLeft};
        let (now, goal) = (self.now, self.goal);
        let stop = |reason| Advice::Stop { reason };
        if damage >= DAMAGE_RISK {
            return stop(StopReason::DamageAllowed);
        }
        if self.is_chlorine() && self.ph_too_low(now) >= 0.5 {
            return stop(StopReason::PhTooLow);
        }
        if goal.lightness.is_some_and(|target| self.light_enough(now, target) >= 0.5) {
            return stop(StopReason::ColourReached);
        }
        if now >= goal.until {
            return stop(StopReason::TimeOver);
        }
        let ph = self.falling_ph();
        if let Some((advice, _)) = ph.filter(|(_, due)| due - now <= PH_SOON) {
            return advice;
        }
        let spent = self.chance(OxidantLeft, now, |left| left < SPENT * goal.charge);
        if spent >= 0.5 {
            if self.is_hopeless() {
                return Advice::ChangeWay;
            }
            return self.redose().unwrap_or(stop(StopReason::OxidantGone));
        }
        if self.is_read_as_spent() {
            return stop(StopReason::OxidantGone);
        }
        if self.celsius() < goal.celsius.low {
            return Advice::Reheat { to: goal.celsius.high };
        }
        if let Some((advice, _)) = ph {
            return advice;
        }
        let open = colour_by_end.is_some_and(|chance| (0.2..0.8).contains(&chance));
        if open && self.width(DryLightness, goal.until) > TOO_WIDE {
            return Advice::CannotTell;
        }
        self.go_on()
    }

    /// A thermometer read lately is believed before any simulation: of how a vessel cools little is
    /// known.
    fn celsius(&self) -> f64 {
        self.celsius_read().unwrap_or_else(|| self.median(ForecastQuantity::Celsius, self.now))
    }

    fn celsius_read(&self) -> Option<f64> {
        let last = self.forecast.last_reading(ForecastQuantity::Celsius, self.now - LATELY);
        last.map(|read| read.value)
    }

    /// A strip read lately finds no oxidant, whatever the simulation holds likely. Enough to stop,
    /// but nothing is added on it: a strip that a strong liquor bleached shows as little.
    fn is_read_as_spent(&self) -> bool {
        let last = self.forecast.last_reading(ForecastQuantity::OxidantLeft, self.now - LATELY);
        last.is_some_and(|read| read.high < SPENT * self.goal.charge)
    }

    /// Where the readings contradict the model, or hardly any sample agrees with them, the ranges
    /// alone still tell of harm, a strip of spent oxidant, and a thermometer of cold: not being
    /// able to tell is no reason to go on.
    fn decide_without_readings(&self) -> Advice {
        let of = ForecastQuantity::ChainLoss;
        let losses = self.forecast.values_without_readings(of, self.now + TIME_TO_ACT);
        let enough = losses.len() as f64 >= FEWEST_EFFECTIVE;
        if enough && self.damage(&losses) >= DAMAGE_RISK {
            Advice::Stop { reason: StopReason::DamageAllowed }
        } else if self.is_read_as_spent() {
            Advice::Stop { reason: StopReason::OxidantGone }
        } else if self.celsius_read().is_some_and(|celsius| celsius < self.goal.celsius.low) {
            Advice::Reheat { to: self.goal.celsius.high }
        } else {
            Advice::CannotTell
        }
    }

    /// The weight of the chain losses that are past what is allowed.
    fn damage(&self, losses: &[(f64, f64)]) -> f64 {
        let past = losses.iter().filter(|(loss, _)| *loss >= self.goal.most_chain_loss);
        past.map(|(_, weight)| weight).sum()
    }

    fn is_chlorine(&self) -> bool {
        self.forecast.request().oxidant == Oxidant::Hypochlorite
    }

    fn light_enough(&self, at: f64, target: f64) -> f64 {
        self.chance(ForecastQuantity::DryLightness, at, |l| l >= target)
    }

    fn ph_too_low(&self, at: f64) -> f64 {
        self.chance(ForecastQuantity::CooledPh, at, |ph| ph < HYPOCHLORITE_DANGER_PH)
    }

    /// The colour is beyond what this stage can reach.
    fn is_hopeless(&self) -> bool {
        let Some(target) = self.goal.lightness else { return false };
        let within =
            self.forecast.lightest().into_iter().filter(|(lightest, _)| *lightest >= target);
        within.map(|(_, weight)| weight).sum::<f64>() < HOPELESS
    }

    /// Half the charge at most, never above the highest strength, and only if the damage leaves
    /// room: half the charge again makes about half the scissions again.
    fn redose(&self) -> Option<Advice> {
        let goal = self.goal;
        let scissions = goal.most_chain_loss / (1.0 - goal.most_chain_loss) / 1.5;
        let damage = self
            .chance(ForecastQuantity::ChainLoss, self.now, |loss| loss / (1.0 - loss) >= scissions);
        let low_ph = self.is_chlorine() && self.ph_too_low(self.now) >= PH_RISK;
        if damage >= DAMAGE_RISK || low_ph {
            return None;
        }
        let left = self.median(ForecastQuantity::OxidantLeft, self.now).max(0.0);
        let oxidant = (0.5 * goal.charge).min(goal.most_strength - left);
        (oxidant >= LEAST_REDOSE * goal.charge).then_some(Advice::Redose { oxidant })
    }

    /// Until the bath will be done: colour reached, oxidant spent or damage allowed, whatever is
    /// first in a sample, and at most the end of the time. Never past the time at which one
    /// sample in twenty is damaged too much, whatever the others still gain.
    fn go_on(&self) -> Advice {
        let goal = self.goal;
        let first = |of, reached: &dyn Fn(f64) -> bool, limit| {
            self.forecast.first_times(of, self.now, reached, limit)
        };
        let (least, most) = (SPENT * goal.charge, goal.most_chain_loss);
        let spent = first(ForecastQuantity::OxidantLeft, &|left| left < least, least);
        let damage = first(ForecastQuantity::ChainLoss, &|loss| loss >= most, most);
        let colour = goal
            .lightness
            .map(|target| first(ForecastQuantity::DryLightness, &|l| l >= target, target));
        let harm = (time_at(&damage, DAMAGE_RISK) - TIME_TO_ACT).max(self.now).min(goal.until);
        let mut times = Vec::with_capacity(spent.len());
        let mut weight_of = [0.0; 3];
        for (nth, ((spent, weight), (damage, _))) in spent.iter().zip(&damage).enumerate() {
            let colour = colour.as_ref().map_or(f64::INFINITY, |colour| colour[nth].0);
            let ends = [colour, spent.min(*damage), harm];
            let first = ends.iter().copied().fold(f64::INFINITY, f64::min);
            let why = ends.iter().position(|end| *end <= first).unwrap_or(2);
            weight_of[why] += weight;
            times.push((first, *weight));
        }
        let [by_colour, by_oxidant, by_limit] = weight_of;
        let then = if by_colour >= by_oxidant && by_colour >= by_limit {
            StopReason::ColourReached
        } else if by_oxidant >= by_limit {
            StopReason::OxidantGone
        } else if harm < goal.until {
            StopReason::DamageAllowed
        } else {
            StopReason::TimeOver
        };
        Advice::GoOn { until: range(&times), then }
    }

    /// What a pH that may fall too low asks for, and the earliest minute of it.
    fn falling_ph(&self) -> Option<(Advice, f64)> {
        use ForecastQuantity::{CooledPh, Ph};
        let ahead = (self.now + PH_AHEAD).min(self.goal.until);
        if !self.is_chlorine() || self.ph_too_low(ahead) < PH_RISK {
            return None;
        }
        let before = self.ph_time();
        // Nothing is added on a guess.
        let is_read = self.forecast.has_reading(|of| matches!(of, Ph | CooledPh));
        let advice = if is_read { Advice::AddSoda { before } } else { Advice::ReadPh { before } };
        Some((advice, before.low))
    }

    fn ph_time(&self) -> TimeRange {
        let limit = HYPOCHLORITE_DANGER_PH;
        let of = ForecastQuantity::CooledPh;
        range(&self.forecast.first_times(of, self.now, |ph| ph < limit, limit))
    }

    fn chance(&self, of: ForecastQuantity, at: f64, holds: impl Fn(f64) -> bool) -> f64 {
        let values = self.forecast.values(of, at);
        values.iter().filter(|(value, _)| holds(*value)).map(|(_, weight)| weight).sum()
    }

    fn median(&self, of: ForecastQuantity, at: f64) -> f64 {
        self.quantiles(of, at)[1]
    }

    fn width(&self, of: ForecastQuantity, at: f64) -> f64 {
        let [low, _, high] = self.quantiles(of, at);
        high - low
    }

    fn quantiles(&self, of: ForecastQuantity, at: f64) -> [f64; 3] {
        let (values, weights): (Vec<f64>, Vec<f64>) =
            self.forecast.values(of, at).into_iter().unzip();
        quantiles(&values, &weights, [0.1, 0.5, 0.9]).unwrap_or([f64::NAN; 3])
    }
}

/// 10, 50 and 90 % of weighted times.
fn range(times: &[(f64, f64)]) -> TimeRange {
    let [low, middle, high] = times_at(times, [0.1, 0.5, 0.9]);
    TimeRange { low, middle, high }
}

/// The time by which this part of the weight has come.
fn time_at(times: &[(f64, f64)], part: f64) -> f64 {
    let [time] = times_at(times, [part]);
    time
}

/// Quantiles of weighted times; a time that never comes counts as infinite.
fn times_at<const N: usize>(times: &[(f64, f64)], parts: [f64; N]) -> [f64; N] {
    let (times, weights): (Vec<f64>, Vec<f64>) =
        times.iter().map(|&(time, weight)| (time.min(NEVER), weight)).unzip();
    let times = quantiles(&times, &weights, parts).unwrap_or([f64::INFINITY; N]);
    times.map(|time| if time > LONGEST_FORECAST { f64::INFINITY } else { time })
}

/// Minutes that stand for "never" while quantiles are taken.
const NEVER: f64 = 1e9;

#[cfg(test)]
mod tests;
