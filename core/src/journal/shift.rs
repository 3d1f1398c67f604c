//! Entries moved in time as a whole. Only for an invented book that is to look like today's:
//! entries of a person are immutable.

use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp, ToSpan};

use super::{Body, Entry};

impl Entry {
    /// The same event so much later, with the dates in it; they move by whole days. An instant
    /// that would leave the calendar stays as it is.
    #[must_use]
    pub fn moved_by(mut self, by: SignedDuration) -> Self {
        self.stamp.move_by(by);
        move_instant(&mut self.at, by);
        move_body(&mut self.body, by);
        self
    }
}

fn move_body(body: &mut Body, by: SignedDuration) {
    match body {
        Body::ProductAdded(product) => {
            for date in [&mut product.bought, &mut product.made, &mut product.opened] {
                move_date(date, by);
            }
        }
        Body::ProductOpened(opened) => {
            let mut on = Some(opened.on);
            move_date(&mut on, by);
            opened.on = on.unwrap_or(opened.on);
        }
        Body::Stored(stored) => move_date(&mut stored.keep_by, by),
        Body::LotBlended(blended) => move_date(&mut blended.keep_by, by),
        Body::Corrected(corrected) => {
            if let Some(at) = &mut corrected.at {
                move_instant(at, by);
            }
            move_body(&mut corrected.body, by);
        }
        _ => {}
    }
}

fn move_instant(at: &mut Timestamp, by: SignedDuration) {
    *at = at.checked_add(by).unwrap_or(*at);
}

fn move_date(date: &mut Option<Date>, by: SignedDuration) {
    const DAY_S: i64 = 24 * 60 * 60;
    let days = (by.as_secs() + DAY_S / 2).div_euclid(DAY_S);
    *date = date.map(|date| date.checked_add(days.days()).unwrap_or(date));
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::journal::sample::{at, bodies, device};
    use crate::journal::{Book, EntryWriter, HlcTimestamp};

    /// An entry of every kind.
    fn entries() -> Vec<Entry> {
        let mut writer = EntryWriter::new(device("k7m2"), None);
        let entry = |(i, (about, body)): (usize, (_, Body))| {
            writer.write(at(1000 * i as i64), i as u128, "", about, body).unwrap()
        };
        bodies(1.5, 7).into_iter().enumerate().map(entry).collect()
    }

    #[test]
    fn order_and_distances_stay_and_every_instant_moves() {
        let by = SignedDuration::from_hours(24 * 40 + 3);
        let before = entries();
        let after: Vec<Entry> = before.iter().cloned().map(|entry| entry.moved_by(by)).collect();
        for (old, new) in before.iter().zip(&after) {
            assert_eq!(new.at.duration_since(old.at), by);
            assert_eq!(new.stamp.at().duration_since(old.stamp.at()), by);
            assert_eq!((new.id, &new.device), (old.id, &old.device));
        }
        let order = |entries: &[Entry]| {
            let mut stamps: Vec<(HlcTimestamp, ulid::Ulid)> =
                entries.iter().map(|entry| (entry.stamp.clone(), entry.id)).collect();
            stamps.sort();
            stamps.into_iter().map(|(_, id)| id).collect::<Vec<_>>()
        };
        assert_eq!(order(&before), order(&after));
        assert_eq!(Book::of(before).batches.len(), Book::of(after).batches.len());
    }

    #[test]
    fn no_date_of_the_journal_is_left_behind() {
        // Every text in an entry that reads as an instant or a date has moved.
        let by = SignedDuration::from_hours(24 * 40);
        for old in entries() {
            let new = old.clone().moved_by(by);
            let (mut olds, mut news) = (Vec::new(), Vec::new());
            dates(&old.to_json(), &mut olds);
            dates(&new.to_json(), &mut news);
            assert_eq!(olds.len(), news.len());
            for (old, new) in olds.iter().zip(&news) {
                assert_ne!(old, new, "{}", new);
            }
        }
    }

    fn dates(json: &serde_json::Value, found: &mut Vec<String>) {
        match json {
            serde_json::Value::String(text)
                if text.parse::<Timestamp>().is_ok() || text.parse::<Date>().is_ok() =>
            {
                found.push(text.clone());
            }
            serde_json::Value::Array(all) => all.iter().for_each(|one| dates(one, found)),
            serde_json::Value::Object(all) => all.values().for_each(|one| dates(one, found)),
            _ => {}
        }
    }
}
