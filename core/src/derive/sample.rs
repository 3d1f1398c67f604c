//! Entries and books for the tests of this folder.

#![allow(clippy::unwrap_used)]

use jiff::{SignedDuration, Timestamp};
use ulid::Ulid;

use crate::journal::{
    Body, Book, DeviceId, DrynessFrom, EntryWriter, Figure, Reading, ReadingOf, Rinsed, Subject,
    Weighed,
};
use crate::quantity::{Basis, Estimate};

/// The book of one batch, one entry a minute.
pub(super) fn book(bodies: Vec<Body>) -> Book {
    let about = Subject::Batch(Ulid::from_parts(1, 1));
    book_of(bodies.into_iter().map(|body| (about, body)))
}

/// A book of these entries, one a minute.
pub(super) fn book_of(entries: impl IntoIterator<Item = (Subject, Body)>) -> Book {
    let mut pen = EntryWriter::new(DeviceId::new("a").unwrap(), None);
    Book::of(entries.into_iter().enumerate().map(|(i, (about, body))| {
        let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(i as i64);
        pen.write(now, i as u128, "", about, body).unwrap()
    }))
}

pub(super) fn exact(value: f64) -> Figure {
    Estimate::exact(value, Basis::Measured)
}

/// 1250 g of pulp at 20 % dryness: it holds 1 L.
pub(super) fn weighed() -> Body {
    Body::Weighed(Weighed {
        wet_mass_g: exact(1250.0),
        dryness: exact(0.2),
        how: DrynessFrom::OwnFigure,
        sample: None,
    })
}

pub(super) fn reading(what: ReadingOf, figure: Figure) -> Body {
    Body::Reading(Reading { bath: None, what, figure: Some(figure), text: String::new() })
}

pub(super) fn rinse(litres: f64, strip_mg_per_l: Option<f64>, ph: Option<f64>) -> Body {
    Body::Rinsed(Rinsed {
        water_l: exact(litres),
        minutes: None,
        dryness_after: None,
        ph: ph.map(exact),
        strip_mg_per_l: strip_mg_per_l.map(exact),
        note: String::new(),
    })
}
