//! What a bucket does otherwise than a pot. What is said is common practice, no source; the
//! factor is computed.

use crate::message::{Message, Value};

/// A limit of taking a pot for a bucket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ScaleLimit {
    /// How many times larger.
    Larger { times: f64 },
    /// A pot stands in a water bath; a bucket cools by itself, or holds its heat longer.
    Heat,
    /// A lump that is not stirred through bleaches on its outside.
    Mixing,
    /// Thicker or thinner than the pots: not tried.
    Consistency { pots: f64, planned: f64 },
}

/// Above this a result is not taken over without a bath in between (own choice).
pub const MOST_TIMES: f64 = 50.0;

/// The limits of scaling from a pot of `pot_g` oven-dry fibre to `bath_g`, at a consistency.
pub fn scale_limits(pot_g: f64, bath_g: f64, pots: f64, planned: f64) -> Vec<ScaleLimit> {
    let times = if pot_g > 0.0 { bath_g / pot_g } else { f64::INFINITY };
    let mut limits = Vec::new();
    if times > 1.5 {
        limits.extend([ScaleLimit::Larger { times }, ScaleLimit::Heat, ScaleLimit::Mixing]);
    }
    // A tenth of itself is within the error of the dryness.
    if (planned - pots).abs() > 0.1 * pots {
        limits.push(ScaleLimit::Consistency { pots, planned });
    }
    limits
}

impl ScaleLimit {
    pub fn message(&self) -> Message {
        match *self {
            Self::Larger { times } if times > MOST_TIMES => {
                Message::new("trial-limit-far_larger").with("times", Value::Number(times))
            }
            Self::Larger { times } => {
                Message::new("trial-limit-larger").with("times", Value::Number(times))
            }
            Self::Heat => Message::new("trial-limit-heat"),
            Self::Mixing => Message::new("trial-limit-mixing"),
            Self::Consistency { pots, planned } => Message::new("trial-limit-consistency")
                .with("pots", Value::Share(pots))
                .with("planned", Value::Share(planned)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bucket_has_the_limits_of_heat_and_mixing_and_an_equal_pot_has_none() {
        let limits = scale_limits(5.0, 200.0, 0.05, 0.05);
        assert_eq!(limits.len(), 3);
        assert_eq!(limits[0], ScaleLimit::Larger { times: 40.0 });
        assert!(scale_limits(5.0, 5.0, 0.05, 0.05).is_empty());
        assert_eq!(scale_limits(5.0, 5.0, 0.05, 0.10).len(), 1);
        assert_eq!(scale_limits(5.0, 500.0, 0.05, 0.05)[0].message().key, "trial-limit-far_larger");
    }
}
