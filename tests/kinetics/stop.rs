//! A bath that is watched until the advice is to stop, and how good that stop was.

use super::evaluation::{DRAWS, MOST_DRAWS, reading, truth};
use super::random::Random;
use super::studio::{Bath, LONGEST, Studio};
use ForecastQuantity::{Celsius, DryLightness, OxidantLeft, Ph, WetLightness};
use bleachfield_core::chemistry::Oxidant;
use bleachfield_core::chemistry::bath_limit::HYPOCHLORITE_DANGER_PH;
use bleachfield_core::forecast::{
    Advice, AdviceGoal, DAMAGE_RISK, Forecast, ForecastQuantity, ForecastSupport, advise,
};
use bleachfield_core::quantity::Interval;
use std::fmt;

/// Stop within this of the best time, minutes.
const NEAR: f64 = 10.0;
/// Chain length that may be lost.
const ALLOWED_LOSS: f64 = 0.5;
/// L* by which two pulps look the same: about one ΔE*, as much as an eye sees side by side (common
/// rule; Mahy et al. 1994 found 2.3), and no more than a reading's own error of 0.8.
const SAME: f64 = 1.0;
/// Share of the charge below which it counts as spent.
const SPENT: f64 = 0.05;
/// Minutes between two looks at the advice.
const EVERY: usize = 5;

/// A stop that was advised.
#[derive(Clone, Debug)]
pub struct Stop {
    pub at: f64,
    best: BestStop,
    advice: Advice,
    /// L* wanted, and L* at the stop above it.
    wanted: f64,
    above: f64,
    /// L* gained in the ten minutes before the best stop.
    slope: f64,
    /// Chain length really lost at the stop and at the best one, and the chance that the forecast
    /// gave, at the stop, to more than allowed.
    loss: f64,
    loss_at_best: f64,
    chance_of_damage: f64,
    cannot_tell: u32,
    support: ForecastSupport,
}

impl Stop {
    /// Minutes to the nearest best time.
    pub fn off(&self) -> f64 {
        (self.best.first - self.at).max(self.at - self.best.last).max(0.0)
    }

    /// By the very minute.
    pub fn is_near_first(&self) -> bool {
        self.advice != Advice::CannotTell && (self.at - self.best.minute).abs() <= NEAR
    }

    /// A bath that ran to its end without any advice was never told to stop.
    pub fn is_near(&self) -> bool {
        self.advice != Advice::CannotTell && self.off() <= NEAR
    }

    pub fn is_damaged(&self) -> bool {
        self.loss > ALLOWED_LOSS
    }
}

impl fmt::Display for Stop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "best {:3.0}-{:3.0} ({:3.0}) for {:8} advised {:3.0} {:40} L* {:4.1} {:+5.1} ({:4.2}/10 min) \
             loss {:4.2} (best {:4.2}) chance {:4.2} cannot tell {} ({:.0} effective, {} of {} contradicted)",
            self.best.first,
            self.best.last,
            self.best.minute,
            self.best.why,
            self.at,
            format!("{:?}", self.advice),
            self.wanted,
            self.above,
            self.slope,
            self.loss,
            self.loss_at_best,
            self.chance_of_damage,
            self.cannot_tell,
            self.support.effective,
            self.support.contradicted,
            self.support.readings,
        )
    }
}

/// Watches the bath with a reading now and then until the advice is to stop.
pub fn watch(studio: &Studio, bath: &Bath, forecast: &mut Forecast, random: &mut Random) -> Stop {
    // A colour that this bath really reaches, as somebody asks for who knows the pulp.
    let wanted = truth(bath, random.between(35.0, 110.0) as usize, DryLightness);
    let goal = AdviceGoal {
        lightness: Some(wanted),
        most_chain_loss: ALLOWED_LOSS,
        celsius: Interval { low: 0.0, high: 100.0 },
        charge: bath.request.strength.value,
        most_strength: 0.0,
        until: 150.0,
    };
    let chances = studio.damage_chances(bath, ALLOWED_LOSS, random);
    let best = BestStop::of(bath, wanted, &goal, &chances);
    let mut readings = Vec::new();
    let (mut now, mut cannot_tell) = (0, 0);
    let told = loop {
        now += EVERY;
        let of = match now {
            20 | 40 | 60 | 80 | 100 | 120 | 140 => Some(WetLightness),
            15 | 45 | 75 | 105 => Some(OxidantLeft),
            30 | 90 => Some(Ph),
            10 | 50 => Some(Celsius),
            _ => None,
        };
        if let Some(of) = of {
            readings.push(reading(bath, now, of, random));
            forecast.weigh(&readings);
            forecast.extend_until_told(DRAWS, MOST_DRAWS);
        }
        let told = advise(forecast, now as f64, &goal);
        cannot_tell += u32::from(told.advice == Advice::CannotTell);
        let is_stop = matches!(told.advice, Advice::Stop { .. } | Advice::ChangeWay);
        if is_stop || now as f64 >= goal.until {
            break told;
        }
    };
    let best_minute = best.minute as usize;
    let lightness = |minute| truth(bath, minute, DryLightness);
    Stop {
        at: now as f64,
        best,
        advice: told.advice,
        wanted,
        above: lightness(now) - wanted,
        slope: lightness(best_minute) - lightness(best_minute.saturating_sub(10)),
        loss: bath.course[now.min(LONGEST)].chain_loss,
        loss_at_best: bath.course[best_minute].chain_loss,
        chance_of_damage: told.chance_of_damage,
        cannot_tell,
        support: forecast.support(),
    }
}

/// The best times to stop a bath, minutes.
#[derive(Clone, Debug)]
struct BestStop {
    first: f64,
    last: f64,
    why: &'static str,
    /// The very minute of the wanted colour, or of an end before it: of no use to an eye.
    minute: f64,
}

impl BestStop {
    /// From the first minute at which the pulp looks like the colour wanted, to the last: until it
    /// is visibly lighter, or the oxidant is spent and more time adds nothing. Never past the
    /// harm: the pH in which hypochlorite attacks fibre most (nobody adds soda in these baths), or
    /// the risk of damage for somebody who knows all that a reading can tell.
    fn of(bath: &Bath, wanted: f64, goal: &AdviceGoal, chances: &[f64]) -> Self {
        let chlorine = bath.request.oxidant == Oxidant::Hypochlorite;
        let first = |holds: &dyn Fn(usize) -> bool| (0..=LONGEST).find(|minute| holds(*minute));
        let lightness = |minute| truth(bath, minute, DryLightness);
        let over = |minute: Option<usize>| minute.unwrap_or(LONGEST).min(goal.until as usize);
        let damage = over(first(&|minute| chances[minute] >= DAMAGE_RISK));
        let ph = |minute: usize| chlorine && bath.course[minute].cooled_ph < HYPOCHLORITE_DANGER_PH;
        let ph = over(first(&ph));
        let harm = damage.min(ph);
        let spent = over(first(&|minute| bath.course[minute].oxidant < SPENT * goal.charge));
        let colour = over(first(&|minute| lightness(minute) >= wanted - SAME));
        let lighter = over(first(&|minute| lightness(minute) > wanted + SAME));
        let reached = over(first(&|minute| lightness(minute) >= wanted));
        let begin = colour.min(spent).min(harm);
        let why = match begin {
            _ if colour <= spent.min(harm) => "colour",
            _ if spent <= harm => "oxidant",
            _ if ph <= damage => "pH",
            _ => "damage",
        };
        let last = lighter.min(spent).min(harm).max(begin);
        let minute = reached.min(spent).min(harm);
        Self { first: begin as f64, last: last as f64, why, minute: minute as f64 }
    }
}
