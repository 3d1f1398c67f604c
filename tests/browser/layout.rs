//! Checks the layout of a screen: nothing wider than the screen, no control under 48 px, no
//! text cut off, nothing on top of another, no focused control under a bar.

use serde_json::Value;

use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

const FAULTS: &str = include_str!("layout.js");
const COVERED: &str = include_str!("covered.js");

/// # Errors
/// The layout has a fault; `screen` names it.
pub async fn check_layout(phone: &Phone, screen: &str) -> TestResult {
    let faults = faults(phone).await?;
    ensure(faults.is_empty(), || format!("{screen}: {}", faults.join("; ")))
}

/// The faults of the layout of what is shown, each a line.
pub async fn faults(phone: &Phone) -> TestResult<Vec<String>> {
    lines(&phone.execute(FAULTS).await?)
}

/// The controls that are covered or out of sight when they have the focus. Each gets it once.
pub async fn covered(phone: &Phone) -> TestResult<Vec<String>> {
    lines(&phone.execute(COVERED).await?)
}

fn lines(found: &Value) -> TestResult<Vec<String>> {
    let found = found.as_array();
    let found = found.ok_or_else(|| TestFailure::new("the check of the layout did not run"))?;
    Ok(found.iter().filter_map(Value::as_str).map(str::to_owned).collect())
}
