//! Ages in words.

use bleachfield_core::{derive::AgeReference, journal::Product};
use jiff::Timestamp;

use crate::i18n::{key, t, t_count, t_with};

/// A product's age and what it is counted from: "made 4 months ago".
pub fn age(product: &Product, now: Timestamp) -> String {
    let (from, days) = product.age_days(now);
    t_with(
        match from {
            AgeReference::Made => key!("shelf-age-made"),
            AgeReference::Bought => key!("shelf-age-bought"),
            AgeReference::Opened => key!("shelf-age-opened"),
            AgeReference::Added => key!("shelf-age-added"),
        },
        &[("ago", &ago(days))],
    )
}

/// "today", "3 weeks ago".
pub fn ago(days: f64) -> String {
    let whole = |per: f64| (days / per).floor() as usize;
    match days {
        d if d < 0.0 => t!("shelf-ago-ahead"),
        d if d < 1.0 => t!("shelf-ago-today"),
        d if d < 21.0 => t_count!("shelf-ago-days", whole(1.0)),
        d if d < 90.0 => t_count!("shelf-ago-weeks", whole(7.0)),
        d if d < 730.0 => t_count!("shelf-ago-months", whole(30.44)),
        _ => t_count!("shelf-ago-years", whole(365.25)),
    }
}
