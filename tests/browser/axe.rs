//! Looks for barriers with axe-core.

use std::fs;

use serde_json::Value;

use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

/// Fails if the screen has a violation of a serious or critical kind.
pub async fn check_accessibility(phone: &Phone, screen: &str) -> TestResult {
    let source = fs::read_to_string(&phone.axe)
        .map_err(|error| TestFailure::new(format!("axe-core at {}: {error}", phone.axe.display())))?;
    let run = format!(
        "{source};\nreturn (await axe.run(document, {{ resultTypes: ['violations'] }})).violations"
    );
    let found = phone.execute_async(&run).await?;
    let Some(violations) = found.as_array() else {
        return Err(TestFailure::new(format!("axe-core did not run on {screen}: {found}")));
    };
    let grave: Vec<String> = violations
        .iter()
        .filter(|one| matches!(one["impact"].as_str(), Some("serious" | "critical")))
        .map(describe)
        .collect();
    ensure(grave.is_empty(), || format!("axe-core on {screen}: {}", grave.join("; ")))
}

fn describe(violation: &Value) -> String {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let nodes = violation["nodes"].as_array().into_iter().flatten();
    let first = nodes.map(|node| text(&node["html"])).next().unwrap_or_default();
    format!("{} ({}), such as {first}", text(&violation["help"]), text(&violation["impact"]))
}
