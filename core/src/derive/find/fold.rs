//! Text as a search compares it: without case and without the marks of letters.

use unicode_normalization::{UnicodeNormalization, char::is_combining_mark};

/// Lower case, compatibility forms as plain letters, no accents; letters that Unicode does not
/// take apart (ø, ß, ł…) as the plain letters that people type for them.
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for letter in text.nfkd().filter(|c| !is_combining_mark(*c)).flat_map(char::to_lowercase) {
        match letter {
            'ß' => folded.push_str("ss"),
            'æ' => folded.push_str("ae"),
            'œ' => folded.push_str("oe"),
            'þ' => folded.push_str("th"),
            'ø' => folded.push('o'),
            'đ' | 'ð' => folded.push('d'),
            'ł' => folded.push('l'),
            'ħ' => folded.push('h'),
            'ı' => folded.push('i'),
            // The dot that lower case leaves of İ.
            '\u{307}' => {}
            other => folded.push(other),
        }
    }
    folded
}

/// The words of a search, folded.
pub fn words(query: &str) -> Vec<String> {
    fold(query).split_whitespace().map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn case_and_marks_do_not_count() {
        assert_eq!(fold("Kōzo, ABACÁ"), "kozo, abaca");
        assert_eq!(fold("Straße Ørsted Łódź İris"), "strasse orsted lodz iris");
        // A letter with its mark apart is the same letter.
        assert_eq!(fold("e\u{301}"), fold("é"));
        assert_eq!(fold("½ ﬁbre"), "1\u{2044}2 fibre");
        assert_eq!(words("  Iris\u{a0}  Ditch "), ["iris", "ditch"]);
    }
}
