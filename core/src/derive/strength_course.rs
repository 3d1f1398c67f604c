//! The strength of a hypochlorite bottle over time: past and to come, with its tests.
//! Not here: the strength at one instant, which is `bottle_strength`.

use jiff::{SignedDuration, Timestamp};

use super::product_age::days_since;
use crate::{
    chemistry::{StrengthError, bottle::EvidenceKind},
    journal::Product,
    quantity::{Estimate, in_grams_per_litre},
};

/// Strength over time, as known at each time.
#[derive(Clone, Debug, PartialEq)]
pub struct StrengthCourse {
    /// In their order; the last lies in the future.
    pub points: Vec<StrengthPoint>,
    /// The label and each test, the earliest first.
    pub marks: Vec<StrengthMark>,
}

/// Available chlorine at one time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrengthPoint {
    /// Days from now; the past is negative.
    pub days: f64,
    /// g/L
    pub chlorine: Estimate<f64>,
}

/// What the strength was found by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrengthMark {
    pub point: StrengthPoint,
    pub kind: EvidenceKind,
}

/// Parts of the time shown, and its bounds in days: a bottle older than five years tells nothing
/// more, and a forecast beyond a year is of no use (own estimates).
const STEPS: u32 = 48;
const OLDEST: f64 = 5.0 * 365.0;
const AHEAD: (f64, f64) = (60.0, 365.0);

/// Just before a test, days.
const BEFORE: f64 = 0.01;

impl Product {
    /// The course from the oldest evidence to as long after now, at least 60 and at most 365 days.
    ///
    /// # Errors
    /// As [`Product::strength_now`], now.
    pub fn strength_course(&self, now: Timestamp) -> Result<StrengthCourse, StrengthError> {
        self.strength_now(now)?;
        let mut evidence = self.evidence(now)?;
        evidence.sort_by(|one, other| other.days_ago.total_cmp(&one.days_ago));
        let oldest = evidence.first().map_or(0.0, |first| first.days_ago).min(OLDEST);
        let ahead = oldest.clamp(AHEAD.0, AHEAD.1);
        let step = (oldest + ahead) / f64::from(STEPS);
        let mut days: Vec<f64> =
            (0..=STEPS).map(|nth| -oldest + step * f64::from(nth)).chain([0.0]).collect();
        let tests = evidence.iter().map(|one| -one.days_ago);
        days.extend(tests.flat_map(|at| [at - BEFORE, at]).filter(|at| *at >= -oldest));
        days.sort_by(f64::total_cmp);
        let point = |days: f64| {
            let at = now + SignedDuration::from_secs((days * 86_400.0).round() as i64);
            let strength = self.as_known_at(at).strength_now(at).ok()?;
            Some(StrengthPoint {
                days,
                chlorine: strength.available_chlorine.map(in_grams_per_litre),
            })
        };
        let mark = |one: &crate::chemistry::bottle::StrengthEvidence| StrengthMark {
            point: StrengthPoint {
                days: -one.days_ago,
                chlorine: one.strength.map(in_grams_per_litre),
            },
            kind: one.kind,
        };
        Ok(StrengthCourse {
            points: days.into_iter().filter_map(point).collect(),
            marks: evidence.iter().map(mark).collect(),
        })
    }

    /// Without what was found or opened later.
    fn as_known_at(&self, at: Timestamp) -> Self {
        let mut known = self.clone();
        known.found.retain(|(found, _)| *found <= at);
        known.opened = known.opened.filter(|day| days_since(*day, at) >= 0.0);
        known
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::{
        derive::sample::{bottle, now},
        journal::StrengthFound,
    };

    #[test]
    fn a_bottle_weakens_over_its_course_and_its_range_grows() {
        let course = bottle().strength_course(now()).unwrap();
        // Made on 4 January, 120 days ago.
        let first = course.points.first().unwrap();
        let last = course.points.last().unwrap();
        assert!((first.days + 120.0).abs() < 1.5 && (last.days - 120.0).abs() < 1.5);
        assert!(course.points.windows(2).all(|two| two[0].days <= two[1].days));
        let falls = |two: &[StrengthPoint]| two[1].chlorine.value <= two[0].chlorine.value + 1e-9;
        assert!(course.points.windows(2).all(falls));
        let width = |point: &StrengthPoint| point.chlorine.high - point.chlorine.low;
        assert!(width(last) > width(first));
        let today = bottle().strength_now(now()).unwrap().available_chlorine;
        let here = course.points.iter().find(|point| point.days == 0.0).unwrap();
        assert_eq!(here.chlorine, today.map(in_grams_per_litre));
        assert_eq!(course.marks.len(), 1);
    }

    #[test]
    fn a_test_moves_the_course_from_its_day_on() {
        let mut tested = bottle();
        let at = now() - SignedDuration::from_hours(24 * 30);
        tested.found.push((at, StrengthFound::by_strip(20.0, 1000.0).unwrap()));
        let course = tested.strength_course(now()).unwrap();
        let near = |days: f64| {
            let off = |point: &&StrengthPoint| ((point.days - days).abs() * 1e6) as i64;
            course.points.iter().min_by_key(off).unwrap().chlorine.value
        };
        assert!(near(-30.0 - BEFORE) > 40.0 && (near(-30.0) - 20.0).abs() < 0.5);
        let untested = bottle().strength_course(now()).unwrap();
        let early = |course: &StrengthCourse| course.points.first().unwrap().chlorine;
        assert_eq!(early(&course), early(&untested));
        assert_eq!(course.marks.len(), 2);
    }

    #[test]
    fn other_products_have_no_course() {
        let mut powder = bottle();
        powder.kind = crate::journal::ProductKind::Percarbonate;
        assert!(powder.strength_course(now()).is_err());
    }
}
