//! The table of messages that the build makes of `app/locale`, and questions to it that are
//! answered while compiling.

use std::cmp::Ordering;

include!(concat!(env!("OUT_DIR"), "/messages.rs"));

/// Whether there is a message `key`.
pub const fn is_key(key: &str) -> bool {
    variables(key).is_some()
}

/// Whether there is a message `key` that takes exactly these variables.
pub const fn takes(key: &str, names: &[&str]) -> bool {
    let Some(variables) = variables(key) else { return false };
    if variables.len() != names.len() {
        return false;
    }
    let mut i = 0;
    while i < names.len() {
        if !contains(variables, names[i]) {
            return false;
        }
        i += 1;
    }
    true
}

/// The variables of a message, by binary search in the sorted table.
const fn variables(key: &str) -> Option<&'static [&'static str]> {
    let (mut low, mut high) = (0, MESSAGES.len());
    while low < high {
        let middle = (low + high) / 2;
        match compare(MESSAGES[middle].0, key) {
            Ordering::Equal => return Some(MESSAGES[middle].1),
            Ordering::Less => low = middle + 1,
            Ordering::Greater => high = middle,
        }
    }
    None
}

const fn contains(list: &[&str], text: &str) -> bool {
    let mut i = 0;
    while i < list.len() {
        if matches!(compare(list[i], text), Ordering::Equal) {
            return true;
        }
        i += 1;
    }
    false
}

/// By bytes; `str`'s own comparison is not const.
const fn compare(a: &str, b: &str) -> Ordering {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    let mut i = 0;
    while i < a.len() && i < b.len() {
        if a[i] != b[i] {
            return if a[i] < b[i] { Ordering::Less } else { Ordering::Greater };
        }
        i += 1;
    }
    if a.len() == b.len() {
        Ordering::Equal
    } else if a.len() < b.len() {
        Ordering::Less
    } else {
        Ordering::Greater
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_message_is_found_and_nothing_else() {
        for (key, variables) in MESSAGES {
            assert!(is_key(key) && takes(key, variables), "{key}");
            assert!(!is_key(&format!("{key}-")) && !takes(key, &["no_such_variable"]), "{key}");
        }
        assert!(!is_key("") && !is_key("zzz"));
    }
}
