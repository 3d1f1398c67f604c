//! The yields of a fibre's cooks: the studio's own from its book, and the usual range.
//! Not here: the yield to expect from them, which is `pulp::cook`.

use crate::journal::{Body, Book, OwnFigureOf};
use crate::pulp::{cook::PastCook, fibre};
use crate::quantity::{Basis, Estimate, Ratio, grams, share};

/// Every cook of this fibre in the book with both ends weighed: dry raw fibre,
/// and dry pulp at the first weighing before any bath. Names are compared without
/// case and without spaces at their ends.
pub fn own_cooks(book: &Book, fibre: &str) -> Vec<PastCook> {
    let name = |text: &str| text.trim().to_lowercase();
    let sought = name(fibre);
    let batches = book.batches.values().filter(|batch| name(&batch.fibre) == sought);
    batches
        .filter_map(|batch| {
            let raw = batch.raw_dry_g?.value;
            let weighed = batch
                .visible_entries()
                .take_while(|entry| !matches!(entry.body, Body::BathStarted(_)))
                .find_map(|entry| match &entry.body {
                    Body::Weighed(weighed) => Some(weighed),
                    _ => None,
                })?;
            let pulp = weighed.wet_mass_g.value * weighed.dryness.value;
            Some(PastCook { raw: grams(raw), pulp: grams(pulp) })
        })
        .collect()
}

/// The yield to expect without own cooks: the studio's noted figure, else that
/// of the fibre table for this key; `None` without either.
pub fn table_yield(book: &Book, name: &str, key: Option<&str>) -> Option<Estimate<Ratio>> {
    let noted = OwnFigureOf::Yield { fibre: name.trim().to_owned() };
    if let Some((figure, _)) = book.studio.figures.get(&noted) {
        return Some(figure.map(share));
    }
    let range = fibre(key?)?.cook_yield;
    Some(Estimate {
        value: share(range.middle()),
        low: share(range.low),
        high: share(range.high),
        basis: Basis::Assumed,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use ulid::Ulid;

    use super::*;
    use crate::derive::sample::{book_of, exact};
    use crate::journal::{BatchStarted, DrynessFrom, Subject, Weighed};
    use crate::pulp::cook::expected_yield;
    use crate::quantity::in_share;

    /// A cook of 100 g of raw fibre; the second weighing is not of the cook.
    fn cook(batch: u128, dry_pulp_g: f64) -> [(Subject, Body); 3] {
        let about = Subject::Batch(Ulid(batch));
        let started = BatchStarted {
            fibre: "Kozo".into(),
            raw_dry_g: Some(exact(100.0)),
            ..BatchStarted::default()
        };
        let weighed = |wet| {
            Body::Weighed(Weighed {
                wet_mass_g: exact(wet),
                dryness: exact(0.2),
                how: DrynessFrom::OwnFigure,
                sample: None,
            })
        };
        let bodies = [Body::BatchStarted(started), weighed(dry_pulp_g * 5.0), weighed(1.0)];
        bodies.map(|body| (about, body))
    }

    #[test]
    fn own_cooks_come_first_and_the_table_second() {
        let book = book_of(cook(0, 45.0).into_iter().chain(cook(1, 55.0)));
        let own = own_cooks(&book, "kozo ");
        let table = table_yield(&book, "kozo", Some("kozo"));
        let expected = expected_yield(&own, table).unwrap();
        assert_eq!(expected.basis, Basis::OwnRecord);
        assert!((in_share(expected.value) - 0.5).abs() < 1e-9);
        let nothing = own_cooks(&book, "flax");
        assert_eq!(expected_yield(&nothing, table).unwrap().basis, Basis::Assumed);
        assert!(table_yield(&book, "reed", None).is_none());
    }
}
