//! Relative severity of a cook, in the form of Vroom's H-factor.
//! Not here: the effect of charge, liquor or plant, which it does not describe.
//!
//! Vroom (1957), Pulp Pap. Mag. Can. 58(3):228: `H = ∫ exp(43.2 − 16115/T) dt`,
//! `T` in kelvin, `t` in hours. An hour at 100 °C is 1.014, not 1, since 43.2 is
//! rounded from 43.186. It was fitted to kraft cooking of
//! softwood. For soda ash at the boil it only compares *temperatures*.

/// A point on the temperature record of a cook.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatPoint {
    /// Minutes since the start.
    pub minutes: f64,
    pub celsius: f64,
}

/// H-factor per hour at a temperature: 1.014 at 100 °C.
pub fn relative_rate(celsius: f64) -> f64 {
    (43.2 - 16115.0 / (celsius + 273.15)).exp()
}

/// H-factor of this record: hours at 100 °C of the same effect, within 1.4 %.
/// Linear between its points, which must be in order of time (others add nothing).
///
/// Error of the integration: below 1e-6 of the result for spans up to 100 °C.
pub fn severity(record: &[HeatPoint]) -> f64 {
    record.windows(2).map(|pair| span(pair[0], pair[1])).sum()
}

/// Boiling point of water, °C, at a height above the sea, m.
///
/// Pressure by the standard atmosphere (ISO 2533, troposphere); temperature
/// by Antoine's equation for water, 8.07131 / 1730.63 / 233.426 in mmHg and °C,
/// 1–100 °C (constants from memory). Soda ash at 20 g/L raises it by 0.2 °C,
/// which is neglected. Valid from −400 to 5000 m, within 0.2 °C.
pub fn boiling_point(metres: f64) -> f64 {
    let pressure = 760.0 * (1.0 - 2.25577e-5 * metres).powf(5.25588);
    1730.63 / (8.07131 - pressure.log10()) - 233.426
}

/// Simpson's rule over one straight line, in steps of at most a degree.
fn span(from: HeatPoint, to: HeatPoint) -> f64 {
    let hours = (to.minutes - from.minutes) / 60.0;
    if hours.is_nan() || hours <= 0.0 {
        return 0.0;
    }
    let rise = to.celsius - from.celsius;
    let steps = 2 * (rise.abs().ceil().min(1000.0) as u32).max(1);
    let rate = |i: u32| relative_rate(from.celsius + rise * f64::from(i) / f64::from(steps));
    let inner: f64 =
        (1..steps).map(|i| if i % 2 == 1 { 4.0 * rate(i) } else { 2.0 * rate(i) }).sum();
    hours / f64::from(steps) / 3.0 * (rate(0) + inner + rate(steps))
}
