#![allow(clippy::unwrap_used)]

use super::*;
use crate::journal::sample::{at, bodies, device, entries, figure};
use crate::journal::{Note, Rinsed};
use proptest::prelude::*;

fn entry(body: Body) -> Entry {
    EntryWriter::new(device("k7m2"), None)
        .write(at(0), 5, "Europe/Lisbon", Subject::Batch(Ulid(1)), body)
        .unwrap()
}

#[test]
fn an_entry_is_readable_and_its_members_sorted() {
    let text = entry(Body::Note(Note { text: "Paler already".into() })).to_text();
    assert_eq!(
        text,
        concat!(
            r#"{"about":{"batch":"00000000000000000000000001"},"at":"2026-05-03T09:20:00Z","#,
            r#""body":{"kind":"note","text":"Paler already"},"device":"k7m2","#,
            r#""id":"01KQPJ6CG00000000000000005","stamp":"2026-05-03T09:20:00.000Z-0000-k7m2","zone":"Europe/Lisbon"}"#
        )
    );
}

#[test]
fn every_kind_is_read_back_as_written_and_has_a_name() {
    for (about, body) in bodies(0.1 + 0.2, 5) {
        let entry = EntryWriter::new(device("a"), None).write(at(0), 1, "", about, body).unwrap();
        assert_eq!(Entry::from_text(&entry.to_text()).unwrap(), entry);
        assert!(!entry.body.kind().is_empty(), "{:?}", entry.body);
    }
}

#[test]
fn a_figure_that_is_no_number_is_refused_not_lost() {
    let mut pen = EntryWriter::new(device("a"), None);
    for bad in [f64::NAN, f64::INFINITY] {
        let rinsed = Rinsed {
            water_l: figure(bad),
            minutes: None,
            dryness_after: None,
            ph: None,
            strip_mg_per_l: None,
            note: String::new(),
        };
        let written = pen.write(at(0), 1, "", Subject::Batch(Ulid(1)), Body::Rinsed(rinsed));
        assert_eq!(written, Err(EntryError::NonFinite));
    }
}

#[test]
fn what_a_newer_version_wrote_is_written_out_again_to_the_byte() {
    let strange = [
        // A kind that we do not have.
        r#"{"aura":{"b":1.0,"c":1},"kind":"hummed_to","list":[1.50,null,{"z":null}],"tune":null}"#,
        // A kind that we have, with more in it at several depths, in a list too.
        r#"{"kind":"rinsed","mood":"calm","water_l":{"basis":"measured","high":2.2,"low":1.8,"meter":"x9","value":2.0}}"#,
        r#"{"kind":"lot_blended","form":"frozen","parts":[{"dry_g":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"lot":"00000000000000000000000001","shade":3}]}"#,
        // A kind that we have, with a word in it that we have not.
        r#"{"bath":"00000000000000000000000001","kind":"bath_stopped","why":"eclipse"}"#,
        r#"{"body":{"kind":"hummed_to","n":1},"entry":"00000000000000000000000001","kind":"corrected"}"#,
    ];
    for body in strange {
        let plain = entry(Body::Note(Note { text: "x".into() })).to_text();
        let mut value: Value = serde_json::from_str(&plain).unwrap();
        value["body"] = serde_json::from_str(body).unwrap();
        value["future"] = serde_json::json!({"n": 1, "x": 1.0});
        value.sort_all_objects();
        let read = Entry::from_json(value.clone()).unwrap();
        assert_eq!(read.to_text(), value.to_string());
        assert_eq!(Entry::from_text(&read.to_text()).unwrap(), read);
    }
    let stopped = r#"{"bath":"00000000000000000000000001","kind":"bath_stopped","why":"eclipse"}"#;
    assert!(matches!(Body::from_json(&parsed(stopped).unwrap()), Ok(Body::Unknown(_))));
}

#[test]
fn what_is_no_entry_is_refused() {
    for text in ["", "{}", "[]", "null", r#"{"id":"x"}"#] {
        assert!(matches!(Entry::from_text(text), Err(EntryError::Decode { .. })), "{text}");
    }
}

proptest! {
    #[test]
    fn entries_survive_text(entries in entries(20)) {
        for entry in entries {
            prop_assert_eq!(Entry::from_text(&entry.to_text()).unwrap(), entry);
        }
    }
}
