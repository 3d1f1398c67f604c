//! How records stand in files: JSON, member by member, by one small trait.
//!
//! Files are read into a [`Value`] first, and records are made of that. A
//! record is a plain struct and one line after it, [`record!`], that lists its
//! members; a set of words is a plain enum and [`words!`], and an enum that
//! holds things is one and [`choice!`]. In the page, which carries some seventy
//! of them, they are a fraction of what derived readers would be.
//!
//! An absent member and a `null` one mean the same.

mod member;
mod plain;
mod time;

pub use member::{member, member_or_default, members, object, one_of, parsed, tag, tagged, text};
pub use serde_json::Value;
pub use time::{day, instant};

/// Text as JSON. All of it is read by this one reader: the library makes another for
/// each kind of source.
///
/// # Errors
/// If it is not JSON.
pub fn read(text: &[u8]) -> Result<Value, serde_json::Error> {
    serde_json::from_slice(text)
}

/// JSON as text, in one line. All of it is written by this and [`written_out`]: the
/// library's formatting brings what would tell of failures that memory does not have.
pub fn written(value: &Value) -> String {
    serde_json::to_string(value).unwrap_or_default()
}

/// JSON as text, indented for reading.
pub fn written_out(value: &Value) -> String {
    serde_json::to_string_pretty(value).unwrap_or_default()
}

/// What stands in a file as JSON.
pub trait Json {
    /// As JSON; null for what is absent, and for a float that is no number.
    fn to_json(&self) -> Value;

    /// Reads what [`Json::to_json`] wrote.
    ///
    /// # Errors
    /// [`Misread`] if it is anything else.
    fn from_json(value: &Value) -> Result<Self, Misread>
    where
        Self: Sized;

    /// Whether a record leaves this out, as a member that may be blank.
    fn is_blank(&self) -> bool {
        false
    }
}

/// JSON that is not what it should be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Misread {
    /// The innermost member concerned; empty for the whole.
    pub member: &'static str,
    /// What should stand there, for a report and not for a person.
    pub expected: &'static str,
}

impl Misread {
    /// `expected` should stand there.
    pub fn expected(expected: &'static str) -> Self {
        Self { member: "", expected }
    }
}

/// Makes a struct a record: an object with a member for each of its fields.
///
/// All fields are to be listed, or it does not compile. One marked `: blank`
/// may be absent from a file: its default is then read, and nothing is
/// written for an empty text or list.
///
/// ```
/// #[derive(Debug, PartialEq)]
/// struct Rinse {
///     litres: f64,
///     note: String,
/// }
/// bleachfield_core::record!(Rinse { litres, note: blank });
///
/// use bleachfield_core::json::Json;
/// let rinse = Rinse { litres: 2.0, note: String::new() };
/// assert_eq!(rinse.to_json().to_string(), r#"{"litres":2.0}"#);
/// assert_eq!(Rinse::from_json(&rinse.to_json()), Ok(rinse));
/// ```
#[macro_export]
macro_rules! record {
    ($record:ident { $($member:ident $(: $blank:ident)?),* $(,)? }) => {
        impl $crate::json::Json for $record {
            fn to_json(&self) -> $crate::json::Value {
                let $record { $($member),* } = self;
                $crate::json::object(&[$((
                    stringify!($member),
                    $member as &dyn $crate::json::Json,
                    $crate::record!(@may_be $($blank)?),
                )),*])
            }

            fn from_json(value: &$crate::json::Value) -> Result<Self, $crate::json::Misread> {
                let members = $crate::json::members(value)?;
                Ok($record { $(
                    $member: $crate::record!(@read members, $member $(, $blank)?)?,
                )* })
            }
        }
    };
    (@may_be) => { false };
    (@may_be blank) => { true };
    (@read $members:ident, $member:ident) => {
        $crate::json::member($members, stringify!($member))
    };
    (@read $members:ident, $member:ident, blank) => {
        $crate::json::member_or_default($members, stringify!($member))
    };
}

/// Makes an enum without fields a set of words: each variant is a text.
///
/// All variants are to be listed, or it does not compile.
#[macro_export]
macro_rules! words {
    ($set:ident { $($variant:ident = $word:literal),* $(,)? }) => {
        impl $crate::json::Json for $set {
            fn to_json(&self) -> $crate::json::Value {
                let word = match self { $($set::$variant => $word,)* };
                $crate::json::Value::from(word)
            }

            fn from_json(value: &$crate::json::Value) -> Result<Self, $crate::json::Misread> {
                $crate::json::one_of(value, &[$(($word, $set::$variant)),*])
            }
        }
    };
}

/// Makes an enum whose variants hold something a choice: an object of one
/// member, whose name is the variant's, or a text for one that holds nothing.
///
/// All variants and all their fields are to be listed, or it does not compile.
///
/// ```
/// #[derive(Debug, PartialEq)]
/// enum Amount {
///     Grams(f64),
///     Spoons { count: u32, millilitres: u32 },
///     Pinch,
/// }
/// bleachfield_core::choice!(Amount {
///     Grams(grams) = "grams",
///     Spoons { count, millilitres } = "spoons",
///     Pinch = "pinch",
/// });
///
/// use bleachfield_core::json::Json;
/// assert_eq!(Amount::Grams(2.0).to_json().to_string(), r#"{"grams":2.0}"#);
/// let spoons = Amount::Spoons { count: 3, millilitres: 15 };
/// assert_eq!(Amount::from_json(&spoons.to_json()), Ok(spoons));
/// assert_eq!(Amount::from_json(&"pinch".into()), Ok(Amount::Pinch));
/// ```
#[macro_export]
macro_rules! choice {
    ($choice:ident { $(
        $variant:ident $(($held:ident))? $({ $($member:ident),* })? = $word:literal
    ),* $(,)? }) => {
        impl $crate::json::Json for $choice {
            fn to_json(&self) -> $crate::json::Value {
                match self {
                    $(
                        $choice::$variant $(($held))? $({ $($member),* })? => {
                            $crate::choice!(@write $word $(($held))? $({ $($member),* })?)
                        }
                    )*
                }
            }

            fn from_json(value: &$crate::json::Value) -> Result<Self, $crate::json::Misread> {
                let (word, held) = $crate::json::tag(value)?;
                match word {
                    $(
                        $word => Ok($crate::choice!(
                            @read held, $choice $variant $(($held))? $({ $($member),* })?
                        )),
                    )*
                    _ => Err($crate::json::Misread::expected("choice that we have")),
                }
            }
        }
    };
    (@write $word:literal) => { $crate::json::Value::from($word) };
    (@write $word:literal ($held:ident)) => { $crate::json::tagged($word, $held) };
    (@write $word:literal { $($member:ident),* }) => {
        $crate::json::tagged($word, &$crate::json::object(&[
            $((stringify!($member), $member as &dyn $crate::json::Json, false)),*
        ]))
    };
    (@read $from:ident, $choice:ident $variant:ident) => { $choice::$variant };
    (@read $from:ident, $choice:ident $variant:ident ($held:ident)) => {
        $choice::$variant($crate::json::Json::from_json($from)?)
    };
    (@read $from:ident, $choice:ident $variant:ident { $($member:ident),* }) => {{
        let members = $crate::json::members($from)?;
        $choice::$variant { $($member: $crate::json::member(members, stringify!($member))?),* }
    }};
}
