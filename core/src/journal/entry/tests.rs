#![allow(clippy::unwrap_used)]

use super::*;
use crate::journal::sample::{at, bodies, device, entries};
use crate::journal::{EntryWriter, Note};
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
fn every_kind_decodes_to_what_was_encoded_and_is_named_as_in_json() {
    for (about, body) in bodies(0.1 + 0.2, 5) {
        let entry = EntryWriter::new(device("a"), None).write(at(0), 1, "", about, body).unwrap();
        assert_eq!(Entry::from_text(&entry.to_text()).unwrap(), entry);
        assert_eq!(entry.to_json()["body"]["kind"], entry.body.kind());
    }
}

#[test]
fn serde_keeps_unknown_members_too() {
    let mut json = entry(Body::Note(Note { text: "x".into() })).to_json();
    json["future"] = serde_json::json!({"n": 1, "x": 1.0, "none": null});
    let entries = vec![Entry::from_json(json.clone()).unwrap(); 2];
    let text = serde_json::to_string(&entries).unwrap();
    assert_eq!(text, format!("[{json},{json}]"));
    assert_eq!(serde_json::from_str::<Vec<Entry>>(&text).unwrap(), entries);
}

#[test]
fn unknown_members_are_written_out_again_to_the_byte() {
    let unknown = [
        // An unknown kind.
        r#"{"aura":{"b":1.0,"c":1},"kind":"hummed_to","list":[1.50,null,{"z":null}],"tune":null}"#,
        // Known kinds with unknown members at several depths, in a list too.
        r#"{"kind":"rinsed","mood":"calm","water_l":{"basis":"measured","high":2.2,"low":1.8,"meter":"x9","value":2.0}}"#,
        r#"{"kind":"lot_blended","form":"frozen","parts":[{"dry_g":{"basis":"measured","high":1.0,"low":1.0,"value":1.0},"lot":"00000000000000000000000001","shade":3}]}"#,
        // A known kind with an unknown word.
        r#"{"bath":"00000000000000000000000001","kind":"bath_stopped","why":"eclipse"}"#,
        r#"{"body":{"kind":"hummed_to","n":1},"entry":"00000000000000000000000001","kind":"corrected"}"#,
    ];
    for body in unknown {
        let mut json = entry(Body::Note(Note { text: "x".into() })).to_json();
        json["body"] = serde_json::from_str(body).unwrap();
        json["future"] = serde_json::json!({"n": 1, "x": 1.0});
        json.sort_all_objects();
        let read = Entry::from_json(json.clone()).unwrap();
        assert_eq!(read.to_text(), json.to_string());
        assert_eq!(Entry::from_text(&read.to_text()).unwrap(), read);
    }
    let stopped = r#"{"bath":"00000000000000000000000001","kind":"bath_stopped","why":"eclipse"}"#;
    assert!(matches!(serde_json::from_str(stopped), Ok(Body::Unknown(_))));
}

#[test]
fn a_whole_number_for_a_float_is_the_same_entry() {
    let json = |one: &str| {
        let body = format!(
            r#"{{"kind":"lot_drawn","dry_g":{{"basis":"measured","high":{one},"low":{one},"value":{one}}}}}"#
        );
        let mut json = entry(Body::Note(Note::default())).to_json();
        json["body"] = serde_json::from_str(&body).unwrap();
        json
    };
    assert_eq!(Entry::from_json(json("1")), Entry::from_json(json("1.0")));
}

#[test]
fn what_is_no_entry_is_refused() {
    for text in ["", "{}", "[]", "null", r#"{"id":"x"}"#] {
        assert!(matches!(Entry::from_text(text), Err(EntryError::Decode { .. })), "{text}");
    }
}

#[test]
fn the_examples_of_rfc_3339_are_decoded() {
    // RFC 3339 (2002), section 5.8.
    for (text, utc) in [
        ("1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50.52Z"),
        ("1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57Z"),
        ("1990-12-31T23:59:60Z", "1990-12-31T23:59:59Z"),
        ("1937-01-01T12:00:27.87+00:20", "1937-01-01T11:40:27.87Z"),
    ] {
        let mut json = entry(Body::Note(Note::default())).to_json();
        json["at"] = text.into();
        assert_eq!(Entry::from_json(json).unwrap().to_json()["at"], utc);
    }
    for text in
        ["", "2026-05-03", "2026-05-03T10:22:01", "2026-02-30T10:22:01Z", "2026-05-03T10:22:01.Z"]
    {
        let mut json = entry(Body::Note(Note::default())).to_json();
        json["at"] = text.into();
        assert!(Entry::from_json(json).is_err(), "{text}");
    }
}

proptest! {
    #[test]
    fn entries_survive_text(entries in entries(20)) {
        for entry in entries {
            prop_assert_eq!(Entry::from_text(&entry.to_text()).unwrap(), entry);
        }
    }

    #[test]
    fn instants_survive_text(
        second in -62_000_000_000i64..253_000_000_000,
        nanosecond in prop_oneof![Just(0), 0..1_000_000_000i32, (0..1000i32).prop_map(|m| m * 1_000_000)],
    ) {
        let mut entry = entry(Body::Note(Note::default()));
        entry.at = Timestamp::new(second, nanosecond).unwrap();
        prop_assert_eq!(Entry::from_text(&entry.to_text()).unwrap(), entry);
    }
}
