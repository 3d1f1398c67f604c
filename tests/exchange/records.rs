//! The JSON of every kind of entry, byte for byte as earlier versions wrote it.
//!
//! `records.jsonl` holds one entry a line: each kind with all its members, each kind with as few
//! as it may have, and each name of each enum. `odd.jsonl` holds texts that no version writes but
//! every version reads the same way: unknown kinds and members; null, absent and blank members;
//! numbers, ids, days and instants in other notations; unknown names and tags; an envelope with
//! members of the wrong shape. Each of its lines is `[text, text when encoded again, kind]`; both
//! latter are empty for what is refused. Lines may only be added.

use bleachfield_core::colour::{reference::Light, reversion::Ageing, target::PaperWhite};
use bleachfield_core::journal::*;
use bleachfield_core::quantity::Basis;
use serde::de::DeserializeOwned;
use std::collections::BTreeSet;
use strum::VariantNames;

const RECORDS: &str = include_str!("records.jsonl");
const ODD: &str = include_str!("odd.jsonl");

#[test]
fn every_record_is_understood_and_encoded_to_the_same_bytes() {
    for line in RECORDS.lines() {
        let entry = Entry::from_text(line).unwrap();
        assert_eq!(entry.to_text(), line);
        let debug = format!("{entry:?}");
        assert!(is_known(&entry.body) && debug.ends_with("unknown: {} }"), "{debug}");
    }
}

#[test]
fn unknown_members_survive_in_every_object_of_every_record() {
    const UNKNOWN: &str = r#","~":{"list":[1,1.0,null],"n":null}"#;
    for line in RECORDS.lines() {
        // `about` comes before `body`: a tagged id, which is refused with a second member.
        let body = line.find("\"body\":").unwrap();
        let ends = line.match_indices('}').map(|(end, _)| end);
        for end in ends.filter(|end| *end > body && !line[..*end].ends_with('{')) {
            let newer = [&line[..end], UNKNOWN, &line[end..]].concat();
            assert_eq!(Entry::from_text(&newer).unwrap().to_text(), newer);
        }
    }
}

#[test]
fn some_record_of_every_kind_has_all_members() {
    let mut kinds = BTreeSet::from(["unknown".to_owned()]);
    for entry in RECORDS.lines().map(|line| Entry::from_text(line).unwrap()) {
        let debug = format!("{:?}", entry.body);
        if !["None", "\"\"", "[]", "{}"].iter().any(|absent| debug.contains(absent)) {
            kinds.insert(entry.body.kind().to_owned());
        }
    }
    assert_eq!(kinds, Body::VARIANTS.iter().map(|kind| (*kind).to_owned()).collect());
}

#[test]
fn every_name_of_every_enum_has_a_record() {
    for (member, names) in [
        ("about", names::<Subject>()),
        ("acid", names::<Acid>()),
        ("ageing", names::<Ageing>()),
        ("aim", names::<Aim>()),
        ("alkali", names::<Alkali>()),
        ("amount", names::<Amount>()),
        ("basis", names::<Basis>()),
        ("counted_as", names::<Active>()),
        ("cover", names::<BathCover>()),
        ("drying", names::<DryingMethod>()),
        ("form", names::<StoredForm>()),
        ("from", names::<TargetFrom>()),
        ("how", names::<DrynessFrom>()),
        ("material", names::<VesselMaterial>()),
        ("method", names::<StrengthMethod>()),
        ("outcome", names::<CueOutcome>()),
        ("outcome", names::<Outcome>()),
        ("light", names::<Light>()),
        ("oxidant", names::<Oxidant>()),
        ("product", names::<ProductKind>()),
        ("pulp", names::<PulpState>()),
        ("reagent", names::<Antichlor>()),
        ("role", names::<CardRole>()),
        ("shape", names::<VesselShape>()),
        ("stated_as", names::<StrengthBasis>()),
        ("step", names::<PaperWhite>()),
        ("strip_of", names::<StripOf>()),
        ("test", names::<EndTestOf>()),
        ("what", names::<Additive>()),
        ("what", names::<OwnFigureOf>()),
        ("what", names::<ReadingOf>()),
        ("why", names::<StopReason>()),
    ] {
        assert!(names.len() > 1, "{member}: {names:?}");
        for name in names {
            let (unit, tagged) =
                (format!(r#""{member}":"{name}""#), format!(r#""{member}":{{"{name}":"#));
            assert!(RECORDS.contains(&unit) || RECORDS.contains(&tagged), "{unit} has no record");
        }
    }
}

#[test]
fn odd_entries_are_decoded_and_encoded_as_before() {
    for line in ODD.lines() {
        let [text, encoded, kind]: [String; 3] = serde_json::from_str(line).unwrap();
        let found = Entry::from_text(&text).map_or_else(
            |_| Default::default(),
            |entry| {
                // A known kind with a member that cannot be decoded is marked.
                let mark = if matches!(entry.body, Body::Unknown(_)) { "unknown " } else { "" };
                (entry.to_text(), format!("{mark}{}", entry.body.kind()))
            },
        );
        assert_eq!(found, (encoded, kind), "{text}");
    }
}

fn is_known(body: &Body) -> bool {
    match body {
        Body::Unknown(_) => false,
        Body::Corrected(correction) => is_known(&correction.body),
        _ => true,
    }
}

/// The names of an enum's variants in JSON, as serde lists them when it is given another.
fn names<T: DeserializeOwned>() -> Vec<String> {
    let error = serde_json::from_str::<T>(r#""~""#).err().unwrap().to_string();
    let names = error.strip_prefix("unknown variant `~`, expected ").unwrap();
    names.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}
