//! Age of a product on the shelf, and the dates that a new product may have.
//! Not here: what age does to a strength, which is `bottle_strength`.

use jiff::{Timestamp, civil::Date, tz::Offset};

use crate::{
    journal::{Product, ProductAdded},
    message::{Field, Message, Value},
};

/// Fields of a product's dates.
pub const BOUGHT: Field = Field("bought");
pub const MADE: Field = Field("made");
pub const OPENED: Field = Field("opened");

/// Which date a product's age is counted from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AgeReference {
    Made,
    Bought,
    Opened,
    /// No date was noted: from its entry on the shelf.
    Added,
}

impl Product {
    /// Days since its label held, and from which date that is counted: the date of making
    /// where it is known, else the earliest date on which somebody had it. Negative for a date
    /// in the future.
    pub fn age_days(&self, now: Timestamp) -> (AgeReference, f64) {
        if let Some(made) = self.made {
            return (AgeReference::Made, days_since(made, now));
        }
        let noted = [(AgeReference::Bought, self.bought), (AgeReference::Opened, self.opened)];
        let noted = noted.into_iter().filter_map(|(from, day)| Some((from, days_since(day?, now))));
        let added = (AgeReference::Added, days_between(self.added, now).max(0.0));
        noted.chain([added]).fold(added, |oldest, one| if one.1 > oldest.1 { one } else { oldest })
    }
}

/// A date of a product that is impossible. The field is [`MADE`], [`BOUGHT`] or [`OPENED`].
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ProductDateError {
    #[error("`{}` is {ahead_days} days in the future", .field.0)]
    InFuture { field: Field, ahead_days: f64 },
    #[error("`{}` is before the product was made", .field.0)]
    BeforeMade { field: Field },
    #[error("`{}` is more than fifty years ago", .field.0)]
    TooOld { field: Field },
}

impl ProductDateError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        match *self {
            Self::InFuture { field, ahead_days } => Message::new("refusal-date_in_future")
                .beside(field)
                .with("ahead", Value::Days(ahead_days)),
            Self::BeforeMade { field } => Message::new("refusal-date_before_made").beside(field),
            Self::TooOld { field } => Message::new("refusal-date_too_old").beside(field),
        }
    }
}

impl ProductAdded {
    /// Checks the dates of a product.
    ///
    /// # Errors
    /// [`ProductDateError`] for the first date that is later than `today`, before the product
    /// was made, or more than fifty years ago.
    pub fn check_dates(&self, today: Date) -> Result<(), ProductDateError> {
        let dates = [(MADE, self.made), (BOUGHT, self.bought), (OPENED, self.opened)];
        for (field, date) in dates {
            let Some(date) = date else { continue };
            if date > today {
                let ahead_days = calendar_days(today, date);
                return Err(ProductDateError::InFuture { field, ahead_days });
            }
            if self.made.is_some_and(|made| date < made) {
                return Err(ProductDateError::BeforeMade { field });
            }
            if calendar_days(date, today) > OLDEST_DAYS {
                return Err(ProductDateError::TooOld { field });
            }
        }
        Ok(())
    }
}

/// An older date is a typing error: fifty years. Own estimate, no source.
const OLDEST_DAYS: f64 = 50.0 * 365.25;

/// Days from `at` to `now`; negative if `at` is later.
pub(super) fn days_between(at: Timestamp, now: Timestamp) -> f64 {
    now.duration_since(at).as_secs_f64() / 86_400.0
}

/// Days from noon UTC of a calendar day. The easternmost zones begin a day 14 hours before UTC
/// does, 26 hours before its noon: up to there a day may be somebody's today, and counts as now.
pub(super) fn days_since(day: Date, now: Timestamp) -> f64 {
    let noon = Offset::UTC.to_timestamp(day.at(12, 0, 0, 0)).unwrap_or(Timestamp::UNIX_EPOCH);
    let days = days_between(noon, now);
    if days >= -26.0 / 24.0 { days.max(0.0) } else { days }
}

fn calendar_days(from: Date, to: Date) -> f64 {
    to.duration_since(from).as_secs_f64() / 86_400.0
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::journal::{ProductKind, Storage};

    #[test]
    fn impossible_dates_are_refused_beside_them() {
        let today = Date::constant(2026, 5, 4);
        let added = |made, bought, opened| ProductAdded {
            name: String::new(),
            product: ProductKind::Hypochlorite,
            strength: None,
            size: None,
            bought,
            made,
            opened,
            storage: Storage::default(),
            price: None,
            note: String::new(),
        };
        let tomorrow = Some(Date::constant(2026, 5, 5));
        let refused = |a: ProductAdded| a.check_dates(today).unwrap_err().message();
        let future = refused(added(None, tomorrow, None));
        assert_eq!((future.key, future.field), ("refusal-date_in_future", Some(BOUGHT)));
        let early = refused(added(Some(today), None, Some(Date::constant(2026, 5, 1))));
        assert_eq!((early.key, early.field), ("refusal-date_before_made", Some(OPENED)));
        let slip = refused(added(Some(Date::constant(1026, 5, 4)), None, None));
        assert_eq!((slip.key, slip.field), ("refusal-date_too_old", Some(MADE)));
        assert!(added(Some(today), Some(today), Some(today)).check_dates(today).is_ok());
        assert!(added(None, None, None).check_dates(today).is_ok());
    }
}
