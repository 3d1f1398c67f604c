//! Numbers as this reader writes them.

use crate::platform::preferences::decimal_comma;

/// A number to so many significant figures, whole where it is large, with the reader's decimal
/// mark; a dash for what is not finite.
pub fn format_number(value: f64, figures: i32) -> String {
    if !value.is_finite() {
        return "–".into();
    }
    if value == 0.0 {
        return "0".into();
    }
    let places = (figures - 1 - value.abs().log10().floor() as i32).clamp(0, 6) as usize;
    let text = format!("{value:.places$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    };
    with_decimal_mark(text)
}

/// A number with so many decimals, the reader's decimal mark and a minus sign; zero has none.
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let is_zero = text.chars().all(|one| matches!(one, '-' | '0' | '.'));
    with_decimal_mark(text.replace('-', if is_zero { "" } else { "−" }))
}

/// The text of a number with the reader's decimal mark in place of the point.
pub fn with_decimal_mark(text: String) -> String {
    if decimal_comma() { text.replace('.', ",") } else { text }
}

#[cfg(test)]
mod tests {
    use super::fixed;

    #[test]
    fn a_rounded_zero_has_no_minus_sign() {
        assert_eq!(fixed(-0.3, 0), "0");
        assert_eq!(fixed(-0.04, 1), "0.0");
        assert_eq!(fixed(-0.06, 1), "−0.1");
        assert_eq!(fixed(12.34, 1), "12.3");
    }
}
