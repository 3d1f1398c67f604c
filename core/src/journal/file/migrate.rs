//! From the format of an earlier version to that of this one.

use serde_json::Value;

/// The format that this version writes.
pub const FORMAT: u32 = 1;

/// One step: the JSON of an entry, from one format to the next.
type Step = fn(Value) -> Value;

/// `STEPS[0]` leads from format 1 to 2, and so on: one fewer than [`FORMAT`].
const STEPS: [Step; FORMAT as usize - 1] = [];

/// The JSON of an entry written in `format`, as [`FORMAT`] has it. Files and
/// the store both read through this.
///
/// None if `format` is no format that this version can open: 0, or a newer
/// one.
pub fn migrated(entry: Value, format: u32) -> Option<Value> {
    let done = usize::try_from(format.checked_sub(1)?).ok()?;
    Some(STEPS.get(done..)?.iter().fold(entry, |entry, step| step(entry)))
}
