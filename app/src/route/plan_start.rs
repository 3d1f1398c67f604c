//! Values that a plan's form begins with, proposed by another screen, in its address.

use std::fmt;

use ulid::Ulid;

/// Proposed values, in whole steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PlanStart {
    /// The bleach on the shelf.
    pub product: Ulid,
    /// Hundredths of a percent of oven-dry fibre.
    pub charge: u32,
    /// Tenths of a degree.
    pub celsius: u32,
    pub minutes: u32,
    /// Hundredths of a percent.
    pub consistency: u32,
}

impl PlanStart {
    /// From shares, °C and minutes.
    pub fn new(product: Ulid, charge: f64, celsius: f64, minutes: f64, consistency: f64) -> Self {
        let whole = |value: f64| value.round().clamp(0.0, 1e6) as u32;
        Self {
            product,
            charge: whole(charge * 1e4),
            celsius: whole(celsius * 10.0),
            minutes: whole(minutes),
            consistency: whole(consistency * 1e4),
        }
    }

    /// `None` unless all are there and can be read.
    pub fn parse<'q>(query: impl Fn(&str) -> Option<&'q str>) -> Option<Self> {
        let whole = |name| query(name)?.parse::<u32>().ok();
        Some(Self {
            product: query("bleach")?.parse().ok()?,
            charge: whole("charge")?,
            celsius: whole("celsius")?,
            minutes: whole("minutes")?,
            consistency: whole("consistency")?,
        })
    }
}

impl fmt::Display for PlanStart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { product, charge, celsius, minutes, consistency } = self;
        write!(
            f,
            "bleach={product}&charge={charge}&celsius={celsius}&minutes={minutes}\
             &consistency={consistency}"
        )
    }
}
