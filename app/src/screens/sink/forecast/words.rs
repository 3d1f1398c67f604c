//! The sentences of a forecast: what comes, and what to do with the reason.

use bleachfield_core::{
    derive::{AdvisedDose, BathForecast, SodaPoint, advised_redose, advised_soda},
    forecast::{Advice, Band, ForecastQuantity, StopReason, TimeRange},
    journal::Oxidant,
    message::Value,
};
use jiff::{SignedDuration, Timestamp};

use crate::{
    i18n::{amount, fixed, format_duration, format_value, t, t_with},
    platform::clock,
    screens::sink::running_bath::RunningBath,
    worker::ForecastUpdate,
};

/// How far the line under the ring looks ahead, minutes.
const AHEAD: f64 = 30.0;

/// Chain length lost from which damage counts as some, and as high (own choice: half the length
/// is what may go by default).
const SOME: f64 = 0.2;
const HIGH: f64 = 0.45;

/// "In 30 min: lightness 71–75 once dry, damage low". `None` if it cannot tell.
pub fn outlook(update: &ForecastUpdate) -> Option<String> {
    let at = update.view.now + AHEAD;
    let lightness = update.at(ForecastQuantity::DryLightness, at)?;
    let damage = update.at(ForecastQuantity::ChainLoss, at)?;
    let minutes = format!("{AHEAD:.0}");
    Some(t_with!(
        "forecast-line",
        &[
            ("minutes", &minutes),
            ("lightness", &range(lightness.low_80, lightness.high_80, 0)),
            ("damage", &damage_words(&damage)),
        ],
    ))
}

/// "71–75", or one number where both read the same.
pub fn range(low: f64, high: f64, places: usize) -> String {
    let [low, high] = [low, high].map(|value| fixed(value, places));
    if low == high { low } else { format!("{low}–{high}") }
}

/// "low", or "low to high", by the 80 % band of the chain length lost.
pub fn damage_words(band: &Band) -> String {
    let word = |loss: f64| match loss {
        loss if loss < SOME => t!("forecast-damage-low"),
        loss if loss < HIGH => t!("forecast-damage-some"),
        _ => t!("forecast-damage-high"),
    };
    let (low, high) = (word(band.low_80), word(band.high_80));
    if low == high {
        low
    } else {
        t_with!("forecast-damage-range", &[("low", &low), ("high", &high)])
    }
}

/// An advice in words.
pub struct AdviceWords {
    pub sentence: String,
    /// How to measure out what it says to add.
    pub dose: Option<AdvisedDose>,
}

/// The advice in one sentence with its reason, once there are samples enough. A danger on the
/// screen stands above it.
pub fn advice(
    running: RunningBath,
    update: &ForecastUpdate,
    made: &BathForecast,
    danger: bool,
) -> AdviceWords {
    let plain = |sentence| AdviceWords { sentence, dose: None };
    if !update.settled {
        return plain(t!("forecast-waiting"));
    }
    let told = &update.advice;
    if danger && !matches!(told.advice, Advice::Stop { .. }) {
        return plain(t!("forecast-danger_first"));
    }
    let celsius = |celsius: f64| format_value(&Value::Celsius(celsius));
    let loss = fixed(100.0 * made.goal.most_chain_loss, 0);
    match told.advice {
        Advice::GoOn { until, then } => plain(go_on(running, update, until, (then, &loss))),
        Advice::Stop { reason } => plain(match reason {
            StopReason::ColourReached => t!("forecast-stop-colour"),
            StopReason::OxidantGone => t!("forecast-stop-oxidant"),
            StopReason::DamageAllowed => t_with!("forecast-stop-damage", &[("percent", &loss)]),
            StopReason::PhTooLow => t!("forecast-stop-ph"),
            StopReason::TimeOver => t!("forecast-stop-time"),
        }),
        Advice::Reheat { to } => plain(t_with!(
            "forecast-reheat",
            &[("to", &celsius(to.round())), ("below", &celsius(made.goal.celsius.low.round()))],
        )),
        Advice::Redose { oxidant } => redose(running, made, oxidant),
        Advice::ReadPh { before } => plain(read_ph(running, update, before)),
        Advice::AddSoda { before } => soda(running, update, made, before),
        Advice::ChangeWay if running.oxidant == Oxidant::Hypochlorite => {
            plain(t!("forecast-change_way-chlorine"))
        }
        Advice::ChangeWay => plain(t!("forecast-change_way-peroxide")),
        Advice::CannotTell => plain(cannot_tell(update)),
    }
}

fn go_on(
    running: RunningBath,
    update: &ForecastUpdate,
    until: TimeRange,
    (then, loss): (StopReason, &str),
) -> String {
    let middle = if until.middle.is_finite() { until.middle } else { update.view.goal.until };
    let time = clock::local_time(at(running, middle));
    match then {
        StopReason::ColourReached => t_with!("forecast-go_on-colour", &[("time", &time)]),
        StopReason::OxidantGone => t_with!("forecast-go_on-oxidant", &[("time", &time)]),
        StopReason::DamageAllowed => {
            t_with!("forecast-go_on-damage", &[("time", &time), ("percent", loss)])
        }
        StopReason::PhTooLow | StopReason::TimeOver => {
            t_with!("forecast-go_on-time", &[("time", &time)])
        }
    }
}

fn redose(running: RunningBath, made: &BathForecast, oxidant: f64) -> AdviceWords {
    let now = running.state.now();
    let dose =
        running.state.book_now(|book| advised_redose(book, running.bath, made, oxidant, now));
    let sentence = match &dose {
        Some(dose) => t_with!(
            "forecast-redose",
            &[("amount", &amount(dose.measured.dose.amount())), ("product", &product_name(dose))],
        ),
        None => t!("forecast-redose-unknown"),
    };
    AdviceWords { sentence, dose }
}

/// Not later than the earliest time at which one in ten is too low.
fn ph_due(update: &ForecastUpdate, before: TimeRange) -> f64 {
    before.low.max(update.view.now)
}

fn read_ph(running: RunningBath, update: &ForecastUpdate, before: TimeRange) -> String {
    let due = ph_due(update, before);
    if due - update.view.now < 1.0 {
        return t!("forecast-read_ph-now");
    }
    t_with!("forecast-read_ph", &[("time", &clock::local_time(at(running, due)))])
}

fn soda(
    running: RunningBath,
    update: &ForecastUpdate,
    made: &BathForecast,
    before: TimeRange,
) -> AdviceWords {
    let now = update.view.now;
    let due = ph_due(update, before);
    let left = format_duration(SignedDuration::from_secs((60.0 * (due - now)) as i64));
    let point = |minutes: f64| {
        Some(SodaPoint {
            ph: update.at(ForecastQuantity::CooledPh, minutes)?,
            oxidant: update.at(ForecastQuantity::OxidantLeft, minutes)?,
        })
    };
    let later = before.middle.min(update.view.goal.until).max(now);
    let dose = point(now).zip(point(later)).and_then(|(now, then)| {
        running.state.book_now(|book| advised_soda(book, running.bath, made, [now, then]))
    });
    let time = clock::local_time(at(running, due));
    let sentence = match &dose {
        Some(dose) => t_with!(
            "forecast-soda",
            &[
                ("amount", &amount(dose.measured.dose.amount())),
                ("product", &product_name(dose)),
                ("time", &time),
                ("left", &left),
            ],
        ),
        None => t_with!("forecast-soda-unknown", &[("time", &time), ("left", &left)]),
    };
    AdviceWords { sentence, dose }
}

fn cannot_tell(update: &ForecastUpdate) -> String {
    if !update.support.can_tell() {
        return t!("forecast-cannot_tell-contradict");
    }
    match update.advice.measure {
        Some(reading) => {
            let reading = t(&format!("forecast-reading-{}", <&str>::from(reading)));
            t_with!("forecast-cannot_tell", &[("reading", &reading)])
        }
        None => t!("forecast-cannot_tell-wide"),
    }
}

/// The person's name of a product, else what it is.
pub fn product_name(dose: &AdvisedDose) -> String {
    if dose.name.trim().is_empty() {
        t(&format!("forecast-additive-{}", <&str>::from(dose.what)))
    } else {
        dose.name.clone()
    }
}

/// The instant at a minute of the bath.
pub fn at(running: RunningBath, minutes: f64) -> Timestamp {
    running.started + SignedDuration::from_secs((60.0 * minutes) as i64)
}
