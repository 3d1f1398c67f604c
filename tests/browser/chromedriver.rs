//! What only Chromium's driver can be asked.

use fantoccini::Client;
use fantoccini::wd::WebDriverCompatibleCommand;
use serde_json::{Value, json};

use crate::error::TestResult;

/// What the browser logged since this was last asked, an entry each.
pub async fn log(client: &Client) -> TestResult<Value> {
    Ok(client.issue_cmd(DriverCommand("se/log", json!({ "type": "browser" }))).await?)
}

/// Has the page run `times` slower than this machine would, from now on.
pub async fn slow_down(client: &Client, times: f64) -> TestResult {
    let how = json!({ "cmd": "Emulation.setCPUThrottlingRate", "params": { "rate": times } });
    client.issue_cmd(DriverCommand("goog/cdp/execute", how)).await?;
    Ok(())
}

/// A command of the driver's own: its path below the session, and what goes with it.
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
