//! The keys in the sources of core and app: each has a message, and each message has a key.
//! Found by reading the sources, so that a key which no other test makes still fails here.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::{Path, PathBuf},
};

use proc_macro2::{Delimiter, TokenStream, TokenTree};

use crate::locale::ENGLISH;

/// Macros that check their key while compiling.
const CHECKED: [&str; 4] = ["key!", "t!", "t_with!", "t_count!"];
/// Functions that take a key made at run time.
const TRANSLATING: [&str; 3] = ["t", "t_with", "t_count"];

#[test]
fn every_key_in_the_core_has_a_message() {
    let literals = literals("core/src");
    let keys: BTreeSet<String> = literals.iter().filter_map(core_key).collect();
    assert!(keys.len() > 300, "only {} keys were found: has their form changed?", keys.len());
    let missing: Vec<&String> = keys.iter().filter(|key| !ENGLISH.contains_key(*key)).collect();
    assert!(missing.is_empty(), "no message for {missing:#?}");
}

#[test]
fn every_input_of_the_app_has_a_name() {
    let literals = literals("app/src");
    let inputs: Vec<&Literal> = literals.iter().filter(|literal| literal.is_in("Field")).collect();
    assert!(inputs.len() > 5, "only {} inputs were found", inputs.len());
    let nameless: Vec<&&Literal> = inputs
        .iter()
        .filter(|input| !ENGLISH.contains_key(&format!("field-{}", input.text)))
        .collect();
    assert!(nameless.is_empty(), "no name for {nameless:#?}");
}

#[test]
fn literal_keys_of_the_app_are_checked_while_compiling() {
    let unchecked: Vec<Literal> = literals("app/src")
        .into_iter()
        .filter(|literal| !literal.attribute && !CHECKED.iter().any(|name| literal.is_in(name)))
        .filter(|literal| {
            let translated = TRANSLATING.iter().any(|name| literal.is_in(name));
            translated || literal.is_in("Message::new") || ENGLISH.contains_key(&literal.text)
        })
        .collect();
    assert!(unchecked.is_empty(), "use key!, t!, t_with! or t_count! for {unchecked:#?}");
}

#[test]
fn keys_made_at_run_time_are_of_a_form_that_has_messages() {
    let mut seen = 0;
    for literal in literals("app/src").iter().filter(|literal| literal.is_key_format()) {
        assert!(ENGLISH.keys().any(|key| fits(&literal.text, key)), "{literal:?}");
        seen += 1;
    }
    assert!(seen > 30, "only {seen} were found");
}

#[test]
fn every_message_is_used() {
    let mut unused: BTreeSet<&str> = ENGLISH.keys().map(String::as_str).collect();
    for literal in literals("core/src").iter().chain(&literals("app/src")) {
        let text = literal.text.as_str();
        let field = format!("field-{text}");
        // A group of keys, of which one is chosen by a value.
        let group = text.strip_suffix('-').unwrap_or(text);
        let group = (!ENGLISH.contains_key(text) && text.contains('-') || literal.is_in("name_of"))
            .then_some(group);
        unused.retain(|key| {
            let used = *key == text
                || literal.is_in("Field") && *key == field
                || literal.is_key_format() && literal.names_a_group() && fits(text, key)
                || group.is_some_and(|group| {
                    key.strip_prefix(group).is_some_and(|rest| rest.starts_with('-'))
                });
            !used
        });
    }
    assert!(unused.is_empty(), "nothing shows {unused:#?}");
}

#[test]
fn keys_are_found_where_they_are_written() {
    let text = r#"
        Message::new("a-b_c").beside(Field("dryness")); f("not a key."); "v1"; // "x-y"
        view! { <p class="soft">{t(&format!("state-{}", s))}</p> }
        #[cfg(test)]
        mod tests { const KEY: &str = "in-a-test"; }
        key!("d-e")"#;
    let mut found = Vec::new();
    walk("a.rs", text.parse().expect("tokens"), &mut Vec::new(), &mut found);
    let keys: Vec<String> = found.iter().filter_map(core_key).collect();
    assert_eq!(keys, ["a-b_c", "field-dryness", "d-e"]);
    let of = |text: &str| found.iter().find(|literal| literal.text == text).expect("found");
    assert!(of("a-b_c").is_in("Message::new") && of("d-e").is_in("key!"));
    assert!(of("state-{}").is_key_format() && !of("soft").is_key_format());
    assert!(fits("state-{}", "state-clean") && fits("a-{x}-b-{}", "a-1-b-2"));
    assert!(!fits("state-{}", "state-a-b") && !fits("state-{}", "state-"));
}

/// A string literal, with the calls and macros around it, innermost last.
#[derive(Debug)]
#[allow(dead_code, reason = "the file is for the reader of a failed test")]
struct Literal {
    file: String,
    text: String,
    within: Vec<String>,
    /// The value of an attribute in `view!`, such as an id.
    attribute: bool,
}

impl Literal {
    /// Whether it is an argument of this function, or of this macro where the name ends in `!`.
    fn is_in(&self, name: &str) -> bool {
        self.within.last().is_some_and(|last| last == name)
    }

    /// Whether it is the format of a key that is translated at once.
    fn is_key_format(&self) -> bool {
        let outer = self.within.len().checked_sub(2).map(|at| self.within[at].as_str());
        self.is_in("format!") && outer.is_some_and(|name| TRANSLATING.contains(&name))
    }

    /// Whether a key format says more than where the dashes are, and is not that of all inputs.
    fn names_a_group(&self) -> bool {
        !self.text.starts_with('{') && !self.file.contains("/i18n/")
    }
}

/// The key that a literal of the core is, if it is one.
fn core_key(literal: &Literal) -> Option<String> {
    let text = &literal.text;
    match () {
        () if literal.is_in("Field") => Some(format!("field-{text}")),
        () if literal.is_in("concat!") || !is_key(text) => None,
        () => Some(text.clone()),
    }
}

fn is_key(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let letters = |part: &str| {
        part.starts_with(|c: char| c.is_ascii_lowercase())
            && part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
    };
    parts.len() > 1 && parts.iter().all(|part| letters(part))
}

/// Whether the format text can make this key; what is filled in holds no dash.
fn fits(format: &str, key: &str) -> bool {
    let Some((before, rest)) = format.split_once('{') else { return format == key };
    let Some(key) = key.strip_prefix(before) else { return false };
    let after = rest.split_once('}').map_or("", |(_, after)| after);
    let longest = key.find('-').unwrap_or(key.len());
    (1..=longest).any(|filled| fits(after, &key[filled..]))
}

/// The string literals of the shipped sources under a folder of the tree.
fn literals(folder: &str) -> Vec<Literal> {
    let house = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut found = Vec::new();
    for path in sources(&house.join(folder)) {
        let text = fs::read_to_string(&path).expect("readable");
        let tokens = text.parse().unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let name = path.strip_prefix(&house).unwrap_or(&path).display().to_string();
        walk(&name, tokens, &mut Vec::new(), &mut found);
    }
    found
}

/// Collects the literals outside `#[cfg(test)]`; `within` are the calls around the tokens.
fn walk(file: &str, tokens: TokenStream, within: &mut Vec<String>, found: &mut Vec<Literal>) {
    let mut before: Vec<String> = Vec::new();
    let mut skipped = false;
    for token in tokens {
        match &token {
            TokenTree::Group(group) => {
                let text = group.stream().to_string();
                let attribute = before.last().is_some_and(|last| last == "#");
                if attribute && text.replace(' ', "") == "cfg(test)" {
                    skipped = true;
                } else if skipped && group.delimiter() == Delimiter::Brace {
                    skipped = false;
                } else if !skipped {
                    within.push(call(&before, group.delimiter()));
                    walk(file, group.stream(), within, found);
                    within.pop();
                }
            }
            TokenTree::Literal(literal) if !skipped => {
                let text = literal.to_string();
                if let Some(text) = text.strip_prefix('"').and_then(|text| text.strip_suffix('"')) {
                    let attribute = before.last().is_some_and(|last| last == "=")
                        && within.iter().any(|name| name == "view!");
                    let (file, text) = (file.to_owned(), text.to_owned());
                    found.push(Literal { file, text, within: within.clone(), attribute });
                }
            }
            TokenTree::Punct(mark) if mark.as_char() == ';' => skipped = false,
            _ => {}
        }
        before.push(token.to_string());
    }
}

/// What is called with the group after these tokens: `name`, `Type::name` or `name!`; empty
/// where the group is no list of arguments.
fn call(before: &[String], delimiter: Delimiter) -> String {
    let is_name = |text: &String| text.starts_with(|c: char| c.is_alphabetic() || c == '_');
    let is_type = |text: &String| text.starts_with(char::is_uppercase);
    match before {
        [.., name, mark] if mark == "!" && is_name(name) => format!("{name}!"),
        _ if delimiter != Delimiter::Parenthesis => String::new(),
        [.., owner, a, b, name] if a == ":" && b == ":" && is_type(owner) && is_name(name) => {
            format!("{owner}::{name}")
        }
        [.., name] if is_name(name) => name.clone(),
        _ => String::new(),
    }
}

/// Every source file under a folder but those, and the folders, that hold tests alone.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = BTreeMap::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("readable").path();
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default().to_owned();
        let tests = ["tests", "tests.rs", "sample.rs", "parse_tests.rs"].contains(&name.as_str());
        if path.is_dir() && !tests {
            found.insert(name, sources(&path));
        } else if name.ends_with(".rs") && !tests {
            found.insert(name, vec![path]);
        }
    }
    found.into_values().flatten().collect()
}
