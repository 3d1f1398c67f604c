//! What a fibre's cooks yielded before: this studio's own, and the table.

use super::Cooked;
use crate::journal::{Body, Book, OwnFigureOf};
use crate::pulp::fibre::fibre;
use crate::quantity::{Basis, Known, Ratio, grams, share};

/// Every cook of this fibre in the book of which both ends were weighed: dry
/// raw fibre, and dry pulp at the first weighing before any bath. `lower` writes
/// a name in small letters, in any script: browsers bring the tables for that.
pub fn own_cooks(book: &Book, fibre: &str, lower: fn(&str) -> String) -> Vec<Cooked> {
    let name = |text: &str| lower(text.trim());
    let sought = name(fibre);
    let batches = book.batches.values().filter(|batch| name(&batch.fibre) == sought);
    batches
        .filter_map(|batch| {
            let raw = batch.raw_dry_g?.value;
            let weighed = batch
                .visible_entries()
                .take_while(|told| !matches!(told.body, Body::BathStarted(_)))
                .find_map(|told| match &told.body {
                    Body::Weighed(weighed) => Some(weighed),
                    _ => None,
                })?;
            let pulp = weighed.wet_mass_g.value * weighed.dryness.value;
            Some(Cooked { raw: grams(raw), pulp: grams(pulp) })
        })
        .collect()
}

/// The yield to begin from where no cook of it is in the book: the studio's
/// noted figure, else the table's for this key; `None` if neither says.
pub fn table_yield(book: &Book, name: &str, key: Option<&str>) -> Option<Known<Ratio>> {
    let noted = OwnFigureOf::Yield { fibre: name.trim().to_owned() };
    if let Some((figure, _)) = book.studio.figures.get(&noted) {
        return Some(figure.map(share));
    }
    let range = fibre(key?)?.cook_yield;
    Some(Known {
        value: share(range.middle()),
        low: share(range.low),
        high: share(range.high),
        basis: Basis::Assumed,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::journal::{
        BatchStarted, DeviceId, DrynessFrom, EntryWriter, Figure, Subject, Weighed,
    };
    use crate::pulp::cook::expected_yield;
    use crate::quantity::in_share;
    use jiff::{SignedDuration, Timestamp};
    use ulid::Ulid;

    fn figure(value: f64) -> Figure {
        Known::exact(value, Basis::Measured)
    }

    #[test]
    fn own_cooks_come_first_and_the_table_second() {
        let mut pen = EntryWriter::new(DeviceId::new("a").unwrap(), None);
        let mut entries = Vec::new();
        for (n, dry) in [45.0, 55.0].into_iter().enumerate() {
            let about = Subject::Batch(Ulid(n as u128));
            let begun = BatchStarted {
                fibre: "Kozo".into(),
                raw_dry_g: Some(figure(100.0)),
                ..BatchStarted::default()
            };
            let weighed = |wet| Weighed {
                wet_mass_g: figure(wet),
                dryness: figure(0.2),
                how: DrynessFrom::OwnFigure,
                sample: None,
            };
            let bodies = [
                Body::BatchStarted(begun),
                Body::Weighed(weighed(dry * 5.0)),
                Body::Weighed(weighed(1.0)),
            ];
            for (i, body) in bodies.into_iter().enumerate() {
                let at = Timestamp::UNIX_EPOCH + SignedDuration::from_mins((10 * n + i) as i64);
                entries.push(pen.write(at, (10 * n + i) as u128, "", about, body).unwrap());
            }
        }
        let book = Book::of(entries);
        let own = own_cooks(&book, "kozo ", str::to_lowercase);
        let table = table_yield(&book, "kozo", Some("kozo"));
        let expected = expected_yield(&own, table).unwrap();
        assert_eq!(expected.basis, Basis::OwnRecord);
        assert!((in_share(expected.value) - 0.5).abs() < 1e-9);
        let nothing = own_cooks(&book, "flax", str::to_lowercase);
        assert_eq!(expected_yield(&nothing, table).unwrap().basis, Basis::Assumed);
        assert!(table_yield(&book, "reed", None).is_none());
    }
}
