//! A number as people type it: decimal comma or point, grouped thousands,
//! fractions.

/// What came of reading a number off the front of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Number<'a> {
    pub(super) value: f64,
    /// The other reading, where one mark could group thousands instead:
    /// `1,234` may be 1.234 or 1234.
    pub(super) other: Option<f64>,
    /// What follows the number.
    pub(super) rest: &'a str,
}

/// Why no number could be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoNumber {
    /// The text does not start with a digit.
    Words,
    /// Digits, but with marks in places that mean nothing: `1.2.3`.
    Marks,
    /// A fraction with nothing under the line.
    ZeroUnderLine,
}

/// Reads a number that is not negative off the front of `text`, which has been
/// through [`plain`]. A mark equal to `decimal` that occurs once is the decimal
/// mark; the other mark is too, unless it could as well group thousands.
pub(super) fn number(text: &str, decimal: char) -> Result<Number<'_>, NoNumber> {
    if let Some((value, rest)) = fraction(text)? {
        return Ok(Number { value, other: None, rest });
    }
    let (token, rest) = digits(text);
    if !token.contains(|c: char| c.is_ascii_digit()) {
        return Err(NoNumber::Words);
    }
    let (value, other) = marks(&token, decimal).ok_or(NoNumber::Marks)?;
    let after = rest.trim_start_matches(' ');
    let after = after.strip_prefix('-').unwrap_or(after);
    match fraction(after)? {
        Some((part, rest)) if value.fract() == 0.0 && part < 1.0 => {
            Ok(Number { value: value + part, other: None, rest })
        }
        Some(_) => Err(NoNumber::Marks),
        None => Ok(Number { value, other, rest }),
    }
}

/// The text with one kind of space, minus, fraction line and fraction.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '\u{a0}' | '\u{2009}' | '\u{202f}' | '\t' | '\n' | '\r' => out.push(' '),
            '−' | '–' | '‐' | '‑' => out.push('-'),
            '⁄' | '∕' => out.push('/'),
            '’' => out.push('\''),
            '٫' => out.push(','),
            _ => match VULGAR.iter().find(|(v, _)| *v == c) {
                Some((_, text)) => {
                    out.push(' ');
                    out.push_str(text);
                }
                None => out.push(c),
            },
        }
    }
    out.trim().to_owned()
}

const VULGAR: &[(char, &str)] = &[
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

/// `3/4` off the front, if the text starts with a fraction.
fn fraction(text: &str) -> Result<Option<(f64, &str)>, NoNumber> {
    let Some((top, rest)) = whole(text) else { return Ok(None) };
    let Some(rest) = rest.trim_start_matches(' ').strip_prefix('/') else { return Ok(None) };
    let Some((bottom, rest)) = whole(rest.trim_start_matches(' ')) else { return Ok(None) };
    if rest.starts_with(['.', ',', '/']) {
        return Err(NoNumber::Marks);
    }
    if bottom == 0.0 {
        return Err(NoNumber::ZeroUnderLine);
    }
    Ok(Some((top / bottom, rest)))
}

fn whole(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let value = from_digits(&text[..end])?;
    Some((value, &text[end..]))
}

/// The run of digits and marks at the front, with a space inside it kept only
/// where it groups thousands (`1 234,5`), and what follows.
fn digits(text: &str) -> (String, &str) {
    let bytes = text.as_bytes();
    let mut token = String::new();
    let mut at = 0;
    while at < bytes.len() {
        match bytes[at] {
            b @ (b'0'..=b'9' | b'.' | b',' | b'\'') => token.push(char::from(b)),
            b' ' if groups_thousands(&token, &text[at + 1..]) => token.push('\''),
            _ => break,
        }
        at += 1;
    }
    if token.ends_with('\'') {
        token.pop(); // a mark for minutes, say
        at -= 1;
    }
    (token, &text[at..])
}

fn groups_thousands(before: &str, after: &str) -> bool {
    let group = before.rsplit('\'').next().unwrap_or(before);
    let first = !before.contains('\'');
    let fits = group.bytes().all(|b| b.is_ascii_digit())
        && if first { (1..=3).contains(&group.len()) } else { group.len() == 3 };
    let run = after.bytes().take_while(u8::is_ascii_digit).count();
    let next = after[run..].trim_start_matches(' ').chars().next();
    fits && run == 3 && next != Some('/')
}

/// The value of a run of digits and marks, and its other reading if it has one.
fn marks(token: &str, decimal: char) -> Option<(f64, Option<f64>)> {
    let last = token.rfind([',', '.']);
    let Some(last) = last else {
        return Some((from_digits(&grouped(token, '\'')?)?, None));
    };
    let mark = char::from(token.as_bytes()[last]);
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
        let whole = if before.is_empty() { "0".to_owned() } else { grouped(before, group)? };
        from_digits(&format!("{whole}.{after}"))
    };
    let as_group = || {
        let plain = !before.contains('\'') && !before.starts_with('0');
        if plain { from_digits(&grouped(token, mark)?) } else { None }
    };
    match (as_decimal(), as_group()) {
        (Some(value), Some(_)) if mark == decimal => Some((value, None)),
        (Some(value), other) => Some((value, other)),
        (None, other) => other.map(|value| (value, None)),
    }
}

/// The digits of a whole number whose thousands are grouped by `mark`, or not at all.
fn grouped(token: &str, mark: char) -> Option<String> {
    let mut groups = token.split(mark);
    let first = groups.next()?;
    let rest: Vec<&str> = groups.collect();
    let digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    let fits = digits(first)
        && !first.is_empty()
        && (rest.is_empty() || first.len() <= 3)
        && rest.iter().all(|g| g.len() == 3 && digits(g));
    if !fits {
        return None;
    }
    Some(format!("{first}{}", rest.concat()))
}

/// The number nearest to digits with at most one point among them: `12`, `0.5`,
/// `.5`, `5.`; infinity for what is larger than any number. `None` for anything else.
///
/// Files are read by a parser of JSON, which rounds as exactly as the standard
/// library's; a second one would bring ten kilobytes of tables to the phone.
pub fn from_digits(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    if !digits(whole) || !digits(part) || whole.len() + part.len() == 0 {
        return None;
    }
    // JSON's grammar: no zeros in front but one, and digits on both sides of a point.
    let whole = whole.trim_start_matches('0');
    let json = format!("{}.{part}0", if whole.is_empty() { "0" } else { whole });
    let value = serde_json::from_str::<serde_json::Value>(&json);
    value.map_or(Some(f64::INFINITY), |value| value.as_f64())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn value(text: &str) -> Option<(f64, Option<f64>)> {
        let text = plain(text);
        number(&text, '.').ok().map(|n| (n.value, n.other))
    }

    #[test]
    fn either_decimal_mark_is_read() {
        assert_eq!(value("0,5"), Some((0.5, None)));
        assert_eq!(value("0.5"), Some((0.5, None)));
        assert_eq!(value(".5"), Some((0.5, None)));
        assert_eq!(value("12,75"), Some((12.75, None)));
        assert_eq!(value("1.080"), Some((1.080, None)));
        assert_eq!(value("0,500"), Some((0.5, None)));
    }

    #[test]
    fn thousands_are_read_however_grouped() {
        for text in ["1.234,5", "1,234.5", "1 234,5", "1'234.5", "1\u{202f}234,5"] {
            assert_eq!(value(text), Some((1234.5, None)), "{text}");
        }
        assert_eq!(value("1,234,567"), Some((1_234_567.0, None)));
        assert_eq!(value("1 500"), Some((1500.0, None)));
    }

    #[test]
    fn one_mark_before_three_digits_has_two_readings_unless_it_is_the_readers_own() {
        assert_eq!(value("1,234"), Some((1.234, Some(1234.0))));
        assert_eq!(value("1.234"), Some((1.234, None)));
    }

    #[test]
    fn fractions_are_read_alone_and_mixed() {
        for text in ["1 1/2", "1½", "1 ½", "1-1/2", "1 1⁄2", "1.5", "3/2"] {
            assert_eq!(value(text), Some((1.5, None)), "{text}");
        }
        assert_eq!(value("½"), Some((0.5, None)));
        assert_eq!(number("1/0", '.'), Err(NoNumber::ZeroUnderLine));
    }

    #[test]
    fn misplaced_marks_are_not_a_number() {
        for text in
            ["1.2.3", "1,23,4", "1.234,5.6", "1.2,3,4", "12'34", "1/2/3", "1.5 1/2", "1 3/2"]
        {
            let text = plain(text);
            assert_eq!(number(&text, '.').map(|n| n.value), Err(NoNumber::Marks), "{text}");
        }
        assert_eq!(number("two", '.'), Err(NoNumber::Words));
        assert_eq!(number("", '.'), Err(NoNumber::Words));
        assert_eq!(number(",", '.'), Err(NoNumber::Words));
    }

    #[test]
    fn a_decimal_is_digits_and_one_point_at_most() {
        for (text, value) in [("12", 12.0), ("007", 7.0), (".5", 0.5), ("5.", 5.0), ("0", 0.0)] {
            assert_eq!(from_digits(text), Some(value), "{text}");
        }
        assert_eq!(from_digits(&"9".repeat(400)), Some(f64::INFINITY));
        for text in ["", ".", "-1", "+1", "1e3", "1.2.3", "1,2", " 1", "inf", "NaN"] {
            assert_eq!(from_digits(text), None, "{text}");
        }
    }

    proptest::proptest! {
        /// Rounded as exactly as the standard library does.
        #[test]
        fn a_decimal_is_the_nearest_number(text in "[0-9]{0,25}\\.[0-9]{1,25}", value in 0.0..f64::MAX, small: f32) {
            proptest::prop_assert_eq!(from_digits(&text), text.parse().ok());
            for value in [value, value.recip(), value.ln(), f64::from(small.abs())] {
                let text = if value.is_infinite() { "9".repeat(400) } else { format!("{value}") };
                proptest::prop_assert_eq!(from_digits(&text), Some(value).filter(|v| !v.is_nan() && *v >= 0.0), "{}", text);
            }
        }
    }
}
