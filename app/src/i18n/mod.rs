//! Every word that a person reads, by key.
//!
//! The words sit in the `.en.yml` files beside this one, a file per part of the
//! app; the `rust-i18n` macro in `main.rs` packs them into the program. Screens
//! ask for them here and write no sentence of their own.

mod said;
mod span;
mod unit;

pub use said::{decimal, field_name, heading, number, said, written};
pub use span::{counted_up, span};
pub use unit::unit_name;

/// The words for `key`.
///
/// A missing key comes back as itself, so that it is seen; a test walks all
/// keys and fails on any that has no words.
pub fn word(key: &str) -> String {
    words(key, &[])
}

/// The words for `key` with its gaps (`%{name}` in the file) filled.
pub fn words(key: &str, gaps: &[(&str, &str)]) -> String {
    let Some(text) = crate::_rust_i18n_try_translate(&rust_i18n::locale(), key) else {
        return key.to_owned();
    };
    gaps.iter()
        .fold(text.into_owned(), |text, (name, value)| text.replace(&format!("%{{{name}}}"), value))
}

/// `text` in small letters, of whatever script: the browser has the tables.
pub fn lower(text: &str) -> String {
    js_sys::JsString::from(text).to_lower_case().into()
}

/// The words for a count: `key.one` or `key.other`, with `%{count}` filled.
///
/// Which form a language uses for a number is asked of the browser's
/// `Intl.PluralRules`; a form that has no words falls back to `other`.
pub fn counted(key: &str, count: usize) -> String {
    let rules = js_sys::Intl::PluralRules::new(
        &js_sys::Array::of1(&(*rust_i18n::locale()).into()),
        &js_sys::Object::new(),
    );
    let form = String::from(rules.select(count as f64));
    let exact = format!("{key}.{form}");
    let key = if crate::_rust_i18n_try_translate(&rust_i18n::locale(), &exact).is_some() {
        exact
    } else {
        format!("{key}.other")
    };
    words(&key, &[("count", &count.to_string())])
}
