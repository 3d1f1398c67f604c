//! Letters, told by Unicode's blocks: the tables of single letters would be two
//! kilobytes for the phone to fetch.

/// Whether `c` is a letter of any script. Every letter is; so are accents, and
/// the marks that stand in the same block as the letters of a script. Source:
/// Unicode 16, Blocks.txt.
pub fn is_letter(c: char) -> bool {
    match c {
        '×' | '÷' => false,
        'A'..='Z' | 'a'..='z' | 'ª' | 'µ' | 'º' => true,
        // From Latin-1's letters to before General Punctuation; symbols that are
        // letters; after the signs, arrows, shapes and braille; without the
        // punctuation of CJK, private use, and the pictures and games.
        '\u{c0}'..='\u{1fff}'
        | '\u{2071}'..='\u{209c}'
        | '\u{2100}'..='\u{218b}'
        | '\u{24b6}'..='\u{24e9}'
        | '\u{2c00}'..='\u{2dff}'
        | '\u{2e2f}'
        | '\u{3005}'..='\u{3007}'
        | '\u{3021}'..='\u{d7ff}'
        | '\u{f900}'..='\u{fe0f}'
        | '\u{fe70}'..='\u{fefc}'
        | '\u{ff21}'..='\u{ffdc}'
        | '\u{10000}'..='\u{1efff}'
        | '\u{1f130}'..='\u{1f189}'
        | '\u{20000}'..='\u{3ffff}' => true,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_letter_is_one() {
        let missed = ('\0'..=char::MAX).find(|c| c.is_alphabetic() && !is_letter(*c));
        assert_eq!(missed, None);
        let more = ('\0'..'\u{2c00}').filter(|c| c.is_alphabetic() != is_letter(*c)).count();
        assert!(more < 2700, "{more}");
    }

    #[test]
    fn marks_and_pictures_are_none() {
        for c in "0 9 . , - – — … ′ ° ³ ½ ! ? * + × → ☐ ✓ 。 、 😀 👍".chars()
        {
            assert!(!is_letter(c), "{c}");
        }
    }
}
