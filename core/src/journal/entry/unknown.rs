//! Members of an entry's JSON that this version does not know, at any depth.
//! They are kept apart from the decoded entry and put back when it is encoded.

use serde_json::{Map, Value};

/// The members of `all` that `known` lacks, at any depth of nested objects.
/// Objects in arrays of equal length are compared place by place; a place
/// without unknown members is null in the result.
pub(super) fn members_beyond(
    all: Map<String, Value>,
    known: &Map<String, Value>,
) -> Map<String, Value> {
    all.into_iter()
        .filter_map(|(name, value)| {
            let unknown = match known.get(&name) {
                Some(known) => value_beyond(value, known)?,
                None => value,
            };
            Some((name, unknown))
        })
        .collect()
}

fn value_beyond(all: Value, known: &Value) -> Option<Value> {
    match (all, known) {
        (Value::Object(all), Value::Object(known)) => {
            let unknown = members_beyond(all, known);
            (!unknown.is_empty()).then_some(Value::Object(unknown))
        }
        (Value::Array(all), Value::Array(known)) if all.len() == known.len() => {
            let unknown: Vec<Value> = all
                .into_iter()
                .zip(known)
                .map(|(all, known)| value_beyond(all, known).unwrap_or_default())
                .collect();
            unknown.iter().any(|value| !value.is_null()).then_some(Value::Array(unknown))
        }
        _ => None,
    }
}

/// Puts back the members that [`members_beyond`] returned.
pub(super) fn restore(known: &mut Map<String, Value>, unknown: &Map<String, Value>) {
    for (name, value) in unknown {
        match known.get_mut(name) {
            Some(known) => restore_value(known, value),
            None => {
                known.insert(name.clone(), value.clone());
            }
        }
    }
}

fn restore_value(known: &mut Value, unknown: &Value) {
    match (known, unknown) {
        (Value::Object(known), Value::Object(unknown)) => restore(known, unknown),
        (Value::Array(known), Value::Array(unknown)) => {
            known
                .iter_mut()
                .zip(unknown)
                .for_each(|(known, unknown)| restore_value(known, unknown));
        }
        _ => {}
    }
}
