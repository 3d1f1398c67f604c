//! Literal keys, checked while compiling. Keys made at run time go to the functions of the same
//! names; `tests/src/keys.rs` checks what they can be.

/// A literal key, for a function that translates later. Fails to compile without such a message.
macro_rules! key {
    ($key:literal) => {{
        const _: () = assert!($crate::i18n::is_key($key), concat!("no message ", $key));
        $key
    }};
}

/// The text of a message without variables.
macro_rules! t {
    ($key:literal) => {{
        const _: () =
            assert!($crate::i18n::takes($key, &[]), concat!("no message without values: ", $key));
        $crate::i18n::t($key)
    }};
}

/// The text of a message with values. A list written in place must name exactly the message's
/// variables.
macro_rules! t_with {
    ($key:literal, &[$(($name:literal, $value:expr)),* $(,)?] $(,)?) => {{
        const _: () = assert!(
            $crate::i18n::takes($key, &[$($name),*]),
            concat!("no message with these values: ", $key)
        );
        $crate::i18n::t_with($key, &[$(($name, $value)),*])
    }};
    ($key:literal, $values:expr $(,)?) => {
        $crate::i18n::t_with($crate::i18n::key!($key), $values)
    };
}

/// The text of a message that depends on `$count` alone.
macro_rules! t_count {
    ($key:literal, $count:expr $(,)?) => {{
        const _: () = assert!(
            $crate::i18n::takes($key, &["count"]),
            concat!("no message with a count: ", $key)
        );
        $crate::i18n::t_count($key, $count)
    }};
}

pub(crate) use {key, t, t_count, t_with};
