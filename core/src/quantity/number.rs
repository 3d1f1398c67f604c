//! Numbers as people type them: decimal comma or point, grouped thousands,
//! fractions. Units are read in `parse`.

/// A number at the start of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ScannedNumber<'a> {
    pub(super) value: f64,
    /// The other reading, where the separator could group thousands instead:
    /// `1,234` may be 1.234 or 1234.
    pub(super) alternative: Option<f64>,
    /// The text after the number.
    pub(super) rest: &'a str,
}

/// Why a text does not start with a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ScanError {
    /// The text does not start with a digit.
    NoDigit,
    /// Separators in positions without a meaning: `1.2.3`.
    Separators,
    /// A fraction with the denominator 0.
    ZeroDenominator,
}

/// Reads a non-negative number from the start of `text`, which [`normalize`]
/// has returned. A separator equal to `decimal` that occurs once is the decimal
/// mark; so is the other separator, unless it could as well group thousands.
pub(super) fn scan_number(text: &str, decimal: char) -> Result<ScannedNumber<'_>, ScanError> {
    if let Some((value, rest)) = fraction(text)? {
        return Ok(ScannedNumber { value, alternative: None, rest });
    }
    let (token, rest) = digits_and_separators(text);
    if !token.contains(|c: char| c.is_ascii_digit()) {
        return Err(ScanError::NoDigit);
    }
    let (value, alternative) = readings(&token, decimal).ok_or(ScanError::Separators)?;
    let after = rest.trim_start_matches(' ');
    let after = after.strip_prefix('-').unwrap_or(after);
    match fraction(after)? {
        Some((part, rest)) if value.fract() == 0.0 && part < 1.0 => {
            Ok(ScannedNumber { value: value + part, alternative: None, rest })
        }
        Some(_) => Err(ScanError::Separators),
        None => Ok(ScannedNumber { value, alternative, rest }),
    }
}

/// Replaces the Unicode variants of space, minus, fraction slash, apostrophe
/// and vulgar fraction by their ASCII form, and trims the text.
pub(super) fn normalize(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            c if c.is_whitespace() => out.push(' '),
            '−' | '–' | '‐' | '‑' => out.push('-'),
            '⁄' | '∕' => out.push('/'),
            '’' => out.push('\''),
            '٫' => out.push(','),
            c => match VULGAR_FRACTIONS.iter().find(|(vulgar, _)| *vulgar == c) {
                Some((_, ascii)) => {
                    out.push(' ');
                    out.push_str(ascii);
                }
                None => out.push(c),
            },
        }
    }
    out.trim().to_owned()
}

/// The value of ASCII digits with at most one decimal point; infinity beyond
/// the range of `f64`. `None` for anything else (`f64::from_str` alone would
/// also take signs, exponents, `inf` and `nan`).
pub(super) fn decimal_number(text: &str) -> Option<f64> {
    text.bytes().all(|b| b.is_ascii_digit() || b == b'.').then(|| text.parse().ok())?
}

const VULGAR_FRACTIONS: &[(char, &str)] = &[
    ('½', "1/2"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
    ('¼', "1/4"),
    ('¾', "3/4"),
    ('⅕', "1/5"),
    ('⅖', "2/5"),
    ('⅗', "3/5"),
    ('⅘', "4/5"),
    ('⅙', "1/6"),
    ('⅚', "5/6"),
    ('⅛', "1/8"),
    ('⅜', "3/8"),
    ('⅝', "5/8"),
    ('⅞', "7/8"),
];

/// A fraction such as `3/4` at the start of the text, if there is one.
fn fraction(text: &str) -> Result<Option<(f64, &str)>, ScanError> {
    let Some((numerator, rest)) = whole_number(text) else { return Ok(None) };
    let Some(rest) = rest.trim_start_matches(' ').strip_prefix('/') else { return Ok(None) };
    let Some((denominator, rest)) = whole_number(rest.trim_start_matches(' ')) else {
        return Ok(None);
    };
    if rest.starts_with(['.', ',', '/']) {
        return Err(ScanError::Separators);
    }
    if denominator == 0.0 {
        return Err(ScanError::ZeroDenominator);
    }
    Ok(Some((numerator / denominator, rest)))
}

fn whole_number(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    Some((decimal_number(&text[..end])?, &text[end..]))
}

/// The digits and separators at the start, and the text after them. A space is
/// a separator (returned as an apostrophe) where it groups thousands: `1 234,5`.
fn digits_and_separators(text: &str) -> (String, &str) {
    let mut token = String::new();
    let mut end = 0;
    for (at, c) in text.char_indices() {
        match c {
            '0'..='9' | '.' | ',' | '\'' => token.push(c),
            ' ' if groups_thousands(&token, &text[at + 1..]) => token.push('\''),
            _ => break,
        }
        end = at + 1;
    }
    if token.ends_with('\'') {
        // An apostrophe after the number is a unit: minutes.
        token.pop();
        end -= 1;
    }
    (token, &text[end..])
}

fn groups_thousands(before: &str, after: &str) -> bool {
    let group = before.rsplit('\'').next().unwrap_or(before);
    let first = !before.contains('\'');
    let fits =
        is_digits(group) && if first { (1..=3).contains(&group.len()) } else { group.len() == 3 };
    let run = after.bytes().take_while(u8::is_ascii_digit).count();
    let next = after[run..].trim_start_matches(' ').chars().next();
    fits && run == 3 && next != Some('/')
}

/// The value of digits and separators, and its other reading if it has one.
fn readings(token: &str, decimal: char) -> Option<(f64, Option<f64>)> {
    let Some(last) = token.rfind([',', '.']) else {
        return Some((decimal_number(&ungrouped(token, '\'')?)?, None));
    };
    let mark = if token[last..].starts_with(',') { ',' } else { '.' };
    let (before, after) = (&token[..last], &token[last + 1..]);
    if after.contains('\'') {
        return None;
    }
    let as_decimal = || -> Option<f64> {
        let other = if mark == ',' { '.' } else { ',' };
        if before.contains(mark) || (before.contains(other) && before.contains('\'')) {
            return None;
        }
        let group = if before.contains(other) { other } else { '\'' };
        let whole = if before.is_empty() { String::new() } else { ungrouped(before, group)? };
        decimal_number(&format!("{whole}.{after}"))
    };
    let as_group = || {
        let plain = !before.contains('\'') && !before.starts_with('0');
        if plain { decimal_number(&ungrouped(token, mark)?) } else { None }
    };
    match (as_decimal(), as_group()) {
        // A decimal number seldom ends in zero: 1.500 may be 1500 with grouped thousands.
        (Some(value), Some(_)) if mark == decimal && !after.ends_with('0') => Some((value, None)),
        (Some(value), other) => Some((value, other)),
        (None, other) => other.map(|value| (value, None)),
    }
}

/// The digits of a whole number whose thousands are grouped by `mark`, or not
/// grouped at all.
fn ungrouped(token: &str, mark: char) -> Option<String> {
    let groups: Vec<&str> = token.split(mark).collect();
    let (first, rest) = groups.split_first()?;
    let fits = is_digits(first)
        && !first.is_empty()
        && (rest.is_empty() || first.len() <= 3)
        && rest.iter().all(|group| group.len() == 3 && is_digits(group));
    fits.then(|| groups.concat())
}

fn is_digits(text: &str) -> bool {
    text.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn value(text: &str) -> Option<(f64, Option<f64>)> {
        let text = normalize(text);
        scan_number(&text, '.').ok().map(|n| (n.value, n.alternative))
    }

    #[test]
    fn decimal_comma_and_point_are_both_read() {
        for text in ["0,5", "0.5", ".5", "0,500"] {
            assert_eq!(value(text), Some((0.5, None)), "{text}");
        }
        assert_eq!(value("12,75"), Some((12.75, None)));
        assert_eq!(value("1.085"), Some((1.085, None)));
    }

    #[test]
    fn every_grouping_of_thousands_is_read() {
        for text in ["1.234,5", "1,234.5", "1 234,5", "1'234.5", "1\u{202f}234,5"] {
            assert_eq!(value(text), Some((1234.5, None)), "{text}");
        }
        assert_eq!(value("1,234,567"), Some((1_234_567.0, None)));
        assert_eq!(value("1 500"), Some((1500.0, None)));
    }

    #[test]
    fn a_foreign_separator_before_three_digits_has_two_readings() {
        assert_eq!(value("1,234"), Some((1.234, Some(1234.0))));
        assert_eq!(value("1.234"), Some((1.234, None)));
        assert_eq!(value("1.000"), Some((1.0, Some(1000.0))));
        assert_eq!(value("1,000"), Some((1.0, Some(1000.0))));
        assert_eq!(value("1.500"), Some((1.5, Some(1500.0))));
        assert_eq!(value("1.50"), Some((1.5, None)));
        assert_eq!(value("0.500"), Some((0.5, None)));
    }

    #[test]
    fn proper_and_mixed_fractions_are_read() {
        for text in ["1 1/2", "1½", "1 ½", "1-1/2", "1 1⁄2", "1.5", "3/2"] {
            assert_eq!(value(text), Some((1.5, None)), "{text}");
        }
        assert_eq!(value("½"), Some((0.5, None)));
        assert_eq!(scan_number("1/0", '.'), Err(ScanError::ZeroDenominator));
    }

    #[test]
    fn misplaced_separators_are_refused() {
        for text in
            ["1.2.3", "1,23,4", "1.234,5.6", "1.2,3,4", "12'34", "1/2/3", "1.5 1/2", "1 3/2"]
        {
            let found = scan_number(&normalize(text), '.').map(|n| n.value);
            assert_eq!(found, Err(ScanError::Separators), "{text}");
        }
        for text in ["two", "", ","] {
            assert_eq!(scan_number(text, '.'), Err(ScanError::NoDigit), "{text}");
        }
    }

    #[test]
    fn a_decimal_number_is_digits_and_one_point_at_most() {
        for (text, value) in [("12", 12.0), ("007", 7.0), (".5", 0.5), ("5.", 5.0), ("0", 0.0)] {
            assert_eq!(decimal_number(text), Some(value), "{text}");
        }
        assert_eq!(decimal_number(&"9".repeat(400)), Some(f64::INFINITY));
        for text in ["", ".", "-1", "+1", "1e3", "1.2.3", "1,2", " 1", "inf", "NaN", "٣"] {
            assert_eq!(decimal_number(text), None, "{text}");
        }
    }
}
