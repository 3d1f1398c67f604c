//! The text of a message by its key. Literal keys go through the macros of the same names.

use fluent_bundle::FluentArgs;

use super::bundle::format;

/// The text of a message without variables.
///
/// A missing key comes back as itself.
pub fn t(key: &str) -> String {
    format(key, &FluentArgs::new())
}

/// The text of a message, with values that are written already.
pub fn t_with(key: &str, values: &[(&str, &str)]) -> String {
    format(key, &values.iter().copied().collect())
}

/// The text of a message for `$count` things, in the plural form of the language.
pub fn t_count(key: &str, count: usize) -> String {
    let mut args = FluentArgs::new();
    args.set("count", count);
    format(key, &args)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_and_counts_are_filled_in() {
        assert_eq!(t("place-sink"), "Sink");
        assert_eq!(t("no-such-key"), "no-such-key");
        assert_eq!(t_with("batches-found", &[("n", "2"), ("all", "7")]), "2 of 7 batches");
        assert_eq!(t_count("batches-count", 1), "1 batch");
        assert_eq!(t_count("batches-count", 0), "0 batches");
        assert_eq!(t_count("batches-count", 1200), "1200 batches");
        assert_eq!(t_count("sink-missed", 1), "One before it was missed");
    }
}
