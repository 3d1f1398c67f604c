//! Every key that the core's source names has words: found by reading the source, so that a
//! key which no other test happens to make still fails here.

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
};

use bleachfield_core::message::Value;

/// Text in the core that looks like a key and is none: names inside an exchange file.
const NO_KEYS: [&str; 1] = ["bleachfield.json"];

#[test]
fn every_key_in_the_core_has_words() {
    let mut missing = BTreeMap::new();
    let mut seen = 0;
    for path in sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/src")) {
        let text = fs::read_to_string(&path).expect("readable");
        for key in keys(shipped(&text)) {
            seen += 1;
            if crate::_rust_i18n_try_translate("en", &key).is_none() {
                missing.insert(key, path.display().to_string());
            }
        }
    }
    assert!(seen > 300, "only {seen} keys were found: has their form changed?");
    assert!(missing.is_empty(), "no words for {missing:#?}");
}

#[test]
fn keys_are_found_where_they_are_written() {
    let text = r#"Message::new("a.b_c").beside(Field("dryness")) "not a key." "v1" // "x.y""#;
    assert_eq!(keys(text), ["a.b_c", "field.dryness"]);
    assert_eq!(shipped("one #[cfg(test)] two"), "one ");
    assert!(matches!(Value::Word("a.b"), Value::Word(key) if is_key(key)));
}

/// The source without its tests, which stand at the end of a file.
fn shipped(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap_or_default()
}

/// The keys in a piece of source: text of the form `a.b`, and the names of fields.
fn keys(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for line in text.lines() {
        let line = line.split("//").next().unwrap_or_default();
        let parts: Vec<&str> = line.split('"').collect();
        for (before, quoted) in parts.iter().zip(parts.iter().skip(1)).step_by(2) {
            if before.ends_with("Field(") {
                found.push(format!("field.{quoted}"));
            } else if is_key(quoted) && !NO_KEYS.contains(quoted) {
                found.push((*quoted).to_owned());
            }
        }
    }
    found
}

fn is_key(text: &str) -> bool {
    let parts: Vec<&str> = text.split('.').collect();
    let letters = |part: &str| {
        part.starts_with(|c: char| c.is_ascii_lowercase())
            && part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
    };
    parts.len() > 1 && parts.iter().all(|part| letters(part))
}

/// Every source file under a folder but those, and the folders, that hold tests alone.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("readable").path();
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        if path.is_dir() {
            if name != "tests" {
                found.extend(sources(&path));
            }
        } else if name.ends_with(".rs")
            && !["tests.rs", "sample.rs", "parse_tests.rs"].contains(&name)
        {
            found.push(path);
        }
    }
    found
}
