//! Migration of entries from the formats of earlier versions.

use serde_json::Value;

/// The format that this version writes.
pub const FORMAT: u32 = 1;

/// Converts the JSON of an entry from one format to the next.
type Step = fn(Value) -> Value;

/// `STEPS[0]` converts format 1 to 2, and so on: one fewer than [`FORMAT`].
const STEPS: [Step; FORMAT as usize - 1] = [];

/// The JSON of an entry written in `format`, as [`FORMAT`] has it. Used for
/// files and for the store.
///
/// `None` if this version cannot open `format`: 0, or a newer one.
pub fn migrated(entry: Value, format: u32) -> Option<Value> {
    let done = usize::try_from(format.checked_sub(1)?).ok()?;
    Some(STEPS.get(done..)?.iter().fold(entry, |entry, step| step(entry)))
}
