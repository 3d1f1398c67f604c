//! What `record!` and `words!` write and read with; each is there once,
//! however many records there are.

use super::{Json, Misread};
use serde_json::{Map, Value};
use std::str::FromStr;

/// An object of named members, each with whether it may be blank. Absent
/// ones and blank ones that may be so are left out.
pub fn object(members: &[(&str, &dyn Json, bool)]) -> Value {
    let mut all = Map::new();
    for (name, member, may_be_blank) in members {
        if *may_be_blank && member.is_blank() {
            continue;
        }
        let value = member.to_json();
        if !value.is_null() {
            all.insert((*name).to_owned(), value);
        }
    }
    Value::Object(all)
}

/// The members of an object.
///
/// # Errors
/// [`Misread`] if it is none.
pub fn members(value: &Value) -> Result<&Map<String, Value>, Misread> {
    value.as_object().ok_or(Misread::expected("object"))
}

/// A member by its name.
///
/// # Errors
/// [`Misread`] if it is not what it should be, or is absent and may not be.
#[inline(never)]
pub fn member<T: Json>(members: &Map<String, Value>, name: &'static str) -> Result<T, Misread> {
    read(members.get(name).unwrap_or(&Value::Null), name)
}

/// A member by its name, or its default where it is absent.
///
/// # Errors
/// [`Misread`] if it is there and is not what it should be.
#[inline(never)]
pub fn member_or_default<T: Json + Default>(
    members: &Map<String, Value>,
    name: &'static str,
) -> Result<T, Misread> {
    match members.get(name) {
        None | Some(Value::Null) => Ok(T::default()),
        Some(value) => read(value, name),
    }
}

fn read<T: Json>(value: &Value, name: &'static str) -> Result<T, Misread> {
    T::from_json(value).map_err(|wrong| match wrong.member {
        "" => Misread { member: name, ..wrong },
        _ => wrong,
    })
}

/// One of a set of words.
///
/// # Errors
/// [`Misread`] if it is no text or another.
pub fn one_of<T: Copy>(value: &Value, words: &[(&str, T)]) -> Result<T, Misread> {
    let found = text(value)?;
    let one = words.iter().find(|(word, _)| *word == found);
    one.map(|(_, meant)| *meant).ok_or(Misread::expected("word that we have"))
}

/// A text.
///
/// # Errors
/// [`Misread`] if it is none.
pub fn text(value: &Value) -> Result<&str, Misread> {
    value.as_str().ok_or(Misread::expected("text"))
}

/// Something that files hold as text.
///
/// # Errors
/// [`Misread`] if it is no text, or one that does not parse.
pub fn parsed<T: FromStr>(value: &Value, expected: &'static str) -> Result<T, Misread> {
    text(value)?.parse().map_err(|_| Misread::expected(expected))
}

/// One variant out of several: an object of one member, whose name says which.
pub fn tagged(tag: &str, held: &dyn Json) -> Value {
    object(&[(tag, held, false)])
}

/// Which variant, and what it holds: a text for one that holds nothing, or
/// else an object of one member.
///
/// # Errors
/// [`Misread`] if it is neither.
pub fn tag(value: &Value) -> Result<(&str, &Value), Misread> {
    if let Value::String(tag) = value {
        return Ok((tag, &Value::Null));
    }
    let mut all = members(value)?.iter();
    match (all.next(), all.next()) {
        (Some((tag, held)), None) => Ok((tag, held)),
        _ => Err(Misread::expected("one member")),
    }
}
