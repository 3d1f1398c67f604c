//! The plain things that records are made of.

use super::{Json, Misread, members, parsed, text};
use serde_json::{Map, Value};
use std::collections::BTreeMap;
use ulid::Ulid;

impl Json for bool {
    fn to_json(&self) -> Value {
        Value::from(*self)
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        value.as_bool().ok_or(Misread::expected("truth value"))
    }
}

impl Json for f64 {
    fn to_json(&self) -> Value {
        Value::from(*self)
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        value.as_f64().ok_or(Misread::expected("number"))
    }
}

macro_rules! whole_numbers {
    ($($number:ident)*) => {$(
        impl Json for $number {
            fn to_json(&self) -> Value {
                Value::from(*self)
            }
            fn from_json(value: &Value) -> Result<Self, Misread> {
                let number = value.as_u64().and_then(|n| n.try_into().ok());
                number.ok_or(Misread::expected("whole number"))
            }
        }
    )*};
}

whole_numbers!(u8 u32 u64 usize);

impl Json for String {
    fn to_json(&self) -> Value {
        Value::from(self.as_str())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        text(value).map(str::to_owned)
    }
    fn is_blank(&self) -> bool {
        self.is_empty()
    }
}

impl Json for Ulid {
    fn to_json(&self) -> Value {
        Value::String(self.to_string())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        parsed(value, "ULID")
    }
}

impl<T: Json> Json for Option<T> {
    fn to_json(&self) -> Value {
        self.as_ref().map(T::to_json).unwrap_or_default()
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        if value.is_null() { Ok(None) } else { T::from_json(value).map(Some) }
    }
}

impl<T: Json> Json for Box<T> {
    fn to_json(&self) -> Value {
        T::to_json(self)
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        T::from_json(value).map(Box::new)
    }
}

impl<T: Json> Json for Vec<T> {
    fn to_json(&self) -> Value {
        Value::Array(self.iter().map(T::to_json).collect())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        let items = value.as_array().ok_or(Misread::expected("list"))?;
        items.iter().map(T::from_json).collect()
    }
    fn is_blank(&self) -> bool {
        self.is_empty()
    }
}

impl<T: Json, const N: usize> Json for [T; N] {
    fn to_json(&self) -> Value {
        Value::Array(self.iter().map(T::to_json).collect())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        let items: Vec<T> = Vec::from_json(value)?;
        items.try_into().map_err(|_| Misread::expected("list of another length"))
    }
}

impl<T: Json> Json for BTreeMap<String, T> {
    fn to_json(&self) -> Value {
        Value::Object(self.iter().map(|(name, item)| (name.clone(), item.to_json())).collect())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        let all = members(value)?.iter();
        all.map(|(name, item)| Ok((name.clone(), T::from_json(item)?))).collect()
    }
    fn is_blank(&self) -> bool {
        self.is_empty()
    }
}

/// Kept as it came.
impl Json for Map<String, Value> {
    fn to_json(&self) -> Value {
        Value::Object(self.clone())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        members(value).cloned()
    }
}

/// Kept as it came.
impl Json for Value {
    fn to_json(&self) -> Value {
        self.clone()
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        Ok(value.clone())
    }
}
