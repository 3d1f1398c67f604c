//! What to do with a running bath, from its forecast: one act, its reason, and the numbers
//! behind it. A pure function; no words for a person are made here.

use super::band::quantiles;
use super::forecast::Forecast;
use super::quantity::ForecastQuantity;
use super::request::LONGEST_FORECAST;
use super::worth::{ReadingKind, most_telling};
use crate::chemistry::Oxidant;
use crate::chemistry::bath_limit::HYPOCHLORITE_DANGER_PH;
use crate::quantity::Interval;

/// What the person wants and allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AdviceGoal {
    /// CIE L* of the dry pulp to reach.
    pub lightness: f64,
    /// Share of the chain length that may be lost, 0 to 1.
    pub most_chain_loss: f64,
    /// °C that the bath should stay in.
    pub celsius: Interval<f64>,
    /// Oxidant of the charge at the start, mol/L.
    pub charge: f64,
    /// Highest strength that a bath may have, mol/L.
    pub most_strength: f64,
    /// Minutes after which the bath is to be over.
    pub until: f64,
}

/// A time with its range, minutes from the start of the bath; an end may be infinite.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimeRange {
    pub low: f64,
    pub middle: f64,
    pub high: f64,
}

/// Why a bath is to be stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StopReason {
    /// The colour is reached, more likely than not.
    ColourReached,
    /// The oxidant is spent: more time adds nothing.
    OxidantGone,
    /// Damage may be past what was allowed: one chance in ten or more.
    DamageAllowed,
    /// The pH may be below 8.5, where hypochlorite attacks fibre most.
    PhTooLow,
    /// The time is over.
    TimeOver,
}

/// One act.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advice {
    /// Leave the bath on until about this time.
    GoOn {
        until: TimeRange,
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
    /// Add soda: the pH may be below 8.5 at this time.
    AddSoda {
        before: TimeRange,
    },
    /// The band is too wide, or the readings contradict each other.
    CannotTell,
}

/// Advice with what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AdviceWithReason {
    pub advice: Advice,
    /// The reading that would narrow the colour to come most, if one would.
    pub measure: Option<ReadingKind>,
    /// Chance, 0 to 1, that the colour is reached by the end of the time.
    pub chance_of_colour: f64,
    /// Chance that the damage is past what was allowed now.
    pub chance_of_damage: f64,
}

/// Share of the charge below which it counts as spent (own choice: the last 5 % take as long as
/// all before).
const SPENT: f64 = 0.05;
/// Chance of too much damage, or of too low a pH, from which a bath is stopped.
const HARM: f64 = 0.1;
/// Time ahead for which a pH too low is warned of, minutes.
const PH_AHEAD: f64 = 45.0;
/// Widest 80 % band of L* at the end of the time on which advice may rest, when it decides
/// between going on and stopping (own choice).
const TOO_WIDE: f64 = 12.0;
/// Least share of the charge that a re-dose is worth.
const LEAST_REDOSE: f64 = 0.15;

/// Advice for a bath at `now`, minutes from its start.
pub fn advise(forecast: &Forecast, now: f64, goal: &AdviceGoal) -> AdviceWithReason {
    let outlook = Outlook { forecast, now, goal };
    let chance_of_damage =
        outlook.chance(ForecastQuantity::ChainLoss, now, |loss| loss >= goal.most_chain_loss);
    let chance_of_colour =
        outlook.chance(ForecastQuantity::DryLightness, goal.until, |l| l >= goal.lightness);
    let measure = most_telling(forecast, now, goal.until);
    let advice = if forecast.support().can_tell() {
        outlook.decide(chance_of_damage, chance_of_colour)
    } else {
        Advice::CannotTell
    };
    AdviceWithReason { advice, measure, chance_of_colour, chance_of_damage }
}

struct Outlook<'a> {
    forecast: &'a Forecast,
    now: f64,
    goal: &'a AdviceGoal,
}

impl Outlook<'_> {
    /// Harm first, then what makes more time useless, then what keeps the bath working.
    fn decide(&self, damage: f64, colour_by_end: f64) -> Advice {
        use ForecastQuantity::{DryLightness, OxidantLeft};
        let (now, goal) = (self.now, self.goal);
        let stop = |reason| Advice::Stop { reason };
        if damage >= HARM {
            return stop(StopReason::DamageAllowed);
        }
        if self.is_chlorine() && self.ph_too_low(now) >= 0.5 {
            return stop(StopReason::PhTooLow);
        }
        if self.chance(DryLightness, now, |l| l >= goal.lightness) >= 0.5 {
            return stop(StopReason::ColourReached);
        }
        if now >= goal.until {
            return stop(StopReason::TimeOver);
        }
        if self.is_chlorine() && self.ph_too_low((now + PH_AHEAD).min(goal.until)) >= HARM {
            return Advice::AddSoda { before: self.ph_time() };
        }
        let spent = self.chance(OxidantLeft, now, |left| left < SPENT * goal.charge);
        if spent >= 0.5 {
            return self.redose(damage).unwrap_or(stop(StopReason::OxidantGone));
        }
        if self.median(ForecastQuantity::Celsius, now) < goal.celsius.low {
            return Advice::Reheat { to: goal.celsius.high };
        }
        if self.width(DryLightness, goal.until) > TOO_WIDE && (0.2..0.8).contains(&colour_by_end) {
            return Advice::CannotTell;
        }
        Advice::GoOn { until: self.until() }
    }

    fn is_chlorine(&self) -> bool {
        self.forecast.request().oxidant == Oxidant::Hypochlorite
    }

    fn ph_too_low(&self, at: f64) -> f64 {
        self.chance(ForecastQuantity::Ph, at, |ph| ph < HYPOCHLORITE_DANGER_PH)
    }

    /// Half the charge at most, never above the highest strength, and only if the damage leaves
    /// room: half of what was allowed.
    fn redose(&self, damage_now: f64) -> Option<Advice> {
        let goal = self.goal;
        let half_spent = self.chance(ForecastQuantity::ChainLoss, self.now, |loss| {
            loss >= 0.5 * goal.most_chain_loss
        });
        let low_ph = self.is_chlorine() && self.ph_too_low(self.now) >= HARM;
        if damage_now >= HARM || half_spent >= HARM || low_ph {
            return None;
        }
        let left = self.median(ForecastQuantity::OxidantLeft, self.now).max(0.0);
        let oxidant = (0.5 * goal.charge).min(goal.most_strength - left);
        (oxidant >= LEAST_REDOSE * goal.charge).then_some(Advice::Redose { oxidant })
    }

    /// When the bath will be done: colour reached, oxidant spent or damage allowed, whatever is
    /// first in a sample, and at most the end of the time.
    fn until(&self) -> TimeRange {
        let goal = self.goal;
        let first = |of, reached: &dyn Fn(f64) -> bool, limit| {
            self.forecast.first_times(of, self.now, reached, limit)
        };
        let colour =
            first(ForecastQuantity::DryLightness, &|l| l >= goal.lightness, goal.lightness);
        let (least, most) = (SPENT * goal.charge, goal.most_chain_loss);
        let spent = first(ForecastQuantity::OxidantLeft, &|left| left < least, least);
        let damage = first(ForecastQuantity::ChainLoss, &|loss| loss >= most, most);
        let times: Vec<(f64, f64)> = colour
            .iter()
            .zip(spent.iter().zip(&damage))
            .map(|(a, (b, c))| (a.0.min(b.0).min(c.0).min(goal.until), a.1))
            .collect();
        range(&times)
    }

    fn ph_time(&self) -> TimeRange {
        let limit = HYPOCHLORITE_DANGER_PH;
        range(&self.forecast.first_times(ForecastQuantity::Ph, self.now, |ph| ph < limit, limit))
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

/// 10, 50 and 90 % of weighted times; a time that never comes counts as infinite.
fn range(times: &[(f64, f64)]) -> TimeRange {
    let (times, weights): (Vec<f64>, Vec<f64>) =
        times.iter().map(|&(time, weight)| (time.min(NEVER), weight)).unzip();
    let [low, middle, high] =
        quantiles(&times, &weights, [0.1, 0.5, 0.9]).unwrap_or([f64::INFINITY; 3]);
    let end = |time: f64| if time > LONGEST_FORECAST { f64::INFINITY } else { time };
    TimeRange { low: end(low), middle: end(middle), high: end(high) }
}

/// Minutes that stand for "never" while quantiles are taken.
const NEVER: f64 = 1e9;

#[cfg(test)]
mod tests;
