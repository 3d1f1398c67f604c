//! Errors in the browser's console, as far as each engine reports them.

use std::fs;
use std::path::Path;

use fantoccini::Client;
use serde_json::Value;

use crate::chromedriver;
use crate::engine::Engine;
use crate::error::TestResult;

/// Errors since the last call. Chromium's driver returns them; the other two print them to
/// their log, which is truncated here.
pub async fn errors(engine: Engine, client: &Client, log: &Path) -> TestResult<Vec<String>> {
    if engine == Engine::Chromium {
        let entries = chromedriver::log(client).await?;
        let text = |entry: &Value| entry["message"].as_str().unwrap_or_default().to_owned();
        let severe = |entry: &&Value| entry["level"] == "SEVERE";
        return Ok(entries.as_array().into_iter().flatten().filter(severe).map(text).collect());
    }
    let lines = fs::read_to_string(log)?;
    fs::OpenOptions::new().write(true).truncate(true).open(log)?;
    let marks: &[&str] = match engine {
        Engine::Firefox => &["console.error:", "JavaScript error: http://127.0.0.1"],
        _ => &["CONSOLE JS ERROR", "CONSOLE SECURITY ERROR", "CONSOLE NETWORK ERROR"],
    };
    let is_page_error = |line: &&str| {
        marks.iter().any(|mark| line.starts_with(mark)) && !NOT_OF_THE_PAGE.contains(&line.trim())
    };
    Ok(lines.lines().filter(is_page_error).map(str::to_owned).collect())
}

/// What Firefox prints like errors of the page: those of its own services, and the fetch of a lazy
/// piece that ended because the driver left the page. A piece that is missing on a page that stays
/// is noticed all the same: the scenario waits for its words.
const NOT_OF_THE_PAGE: [&str; 3] = [
    "console.error: RSLoader:",
    "console.error: services.settings:",
    r#"console.error: (new TypeError("NetworkError when attempting to fetch resource.", ""))"#,
];
