//! Entries, books and products for tests.

#![allow(clippy::unwrap_used)]

use jiff::{SignedDuration, Timestamp, civil::Date};
use ulid::Ulid;

use crate::bath::{Bleach, Bottle, LabelBasis};
use crate::journal::{
    Body, Book, DrynessFrom, EntryWriter, Figure, Product, ProductKind, Reading, ReadingOf, Rinsed,
    Storage, Subject, Weighed,
    sample::{device, rinsed},
};
use crate::quantity::{Basis, Estimate};

/// The book of one batch, one entry a minute.
pub(crate) fn book(bodies: Vec<Body>) -> Book {
    let about = Subject::Batch(Ulid::from_parts(1, 1));
    book_of(bodies.into_iter().map(|body| (about, body)))
}

/// A book of these entries, one a minute.
pub(crate) fn book_of(entries: impl IntoIterator<Item = (Subject, Body)>) -> Book {
    let mut writer = EntryWriter::new(device("a"), None);
    Book::of(entries.into_iter().enumerate().map(|(i, (about, body))| {
        let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(i as i64);
        writer.write(now, i as u128, "", about, body).unwrap()
    }))
}

pub(crate) fn exact(value: f64) -> Figure {
    Estimate::exact(value, Basis::Measured)
}

/// 1250 g of pulp at 20 % dryness: it holds 1 L.
pub(crate) fn weighed() -> Body {
    Body::Weighed(Weighed {
        wet_mass_g: exact(1250.0),
        dryness: exact(0.2),
        how: DrynessFrom::OwnFigure,
        sample: None,
    })
}

pub(crate) fn reading(what: ReadingOf, figure: Figure) -> Body {
    Body::Reading(Reading { bath: None, what, figure: Some(figure), text: String::new() })
}

pub(crate) fn rinse(litres: f64, strip_mg_per_l: Option<f64>, ph: Option<f64>) -> Body {
    let strip_mg_per_l = strip_mg_per_l.map(exact);
    Body::Rinsed(Rinsed { ph: ph.map(exact), strip_mg_per_l, ..rinsed(exact(litres)) })
}

/// 4 May 2026, noon.
pub(crate) fn now() -> Timestamp {
    Timestamp::from_second(1_777_896_000).unwrap()
}

/// A closed bottle of 5 % available chlorine by volume, made in January 2026.
pub(crate) fn bottle() -> Product {
    let label = Bottle::labelled(5.0, LabelBasis::ChlorineByVolume);
    Product {
        id: Ulid(1),
        name: "bleach".into(),
        kind: ProductKind::Hypochlorite,
        label: Some(Bleach::Hypochlorite(label).strength()),
        size: None,
        bought: None,
        made: Some(Date::constant(2026, 1, 4)),
        opened: None,
        storage: Storage { celsius: Some(20.0), dark: Some(true), closed: Some(true) },
        price: None,
        found: Vec::new(),
        added: now(),
        finished: None,
        timeline: Vec::new(),
    }
}
