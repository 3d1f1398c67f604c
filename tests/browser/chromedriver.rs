//! Commands that only Chromium's driver has.

use fantoccini::Client;
use fantoccini::wd::WebDriverCompatibleCommand;
use serde_json::{Value, json};

use crate::error::TestResult;

/// Returns and clears the browser's log.
pub async fn log(client: &Client) -> TestResult<Value> {
    Ok(client.issue_cmd(DriverCommand("se/log", json!({ "type": "browser" }))).await?)
}

/// Sets the CPU throttling of the page; 1 is none.
pub async fn slow_down(client: &Client, times: f64) -> TestResult {
    devtools(client, "Emulation.setCPUThrottlingRate", json!({ "rate": times })).await?;
    Ok(())
}

/// Shows the page by its rules for print, on paper of this many CSS pixels.
pub async fn show_as_printed(client: &Client, width: u32, height: u32) -> TestResult {
    let size = json!({ "width": width, "height": height, "deviceScaleFactor": 2, "mobile": false });
    devtools(client, "Emulation.setDeviceMetricsOverride", size).await?;
    devtools(client, "Emulation.setEmulatedMedia", json!({ "media": "print" })).await?;
    Ok(())
}

/// Shows the page on the phone again.
pub async fn show_as_screen(client: &Client) -> TestResult {
    devtools(client, "Emulation.setEmulatedMedia", json!({ "media": "" })).await?;
    devtools(client, "Emulation.clearDeviceMetricsOverride", json!({})).await?;
    Ok(())
}

/// A command of the Chrome DevTools Protocol.
pub async fn devtools(client: &Client, command: &str, parameters: Value) -> TestResult<Value> {
    let body = json!({ "cmd": command, "params": parameters });
    Ok(client.issue_cmd(DriverCommand("goog/cdp/execute", body)).await?)
}

/// A vendor command: its path below the session, and its parameters.
#[derive(Debug)]
struct DriverCommand(&'static str, Value);

impl WebDriverCompatibleCommand for DriverCommand {
    fn endpoint(
        &self,
        base: &url::Url,
        session: Option<&str>,
    ) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.0))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(self.1.to_string()))
    }
}
