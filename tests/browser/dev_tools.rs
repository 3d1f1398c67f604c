//! What only Chromium's own protocol can ask of it.

use fantoccini::wd::WebDriverCompatibleCommand;
use serde_json::{Value, json};

/// A command of the browser's own protocol for developers' tools.
#[derive(Debug)]
pub struct DevTools(pub &'static str, pub Value);

impl WebDriverCompatibleCommand for DevTools {
    fn endpoint(
        &self,
        base: &url::Url,
        session: Option<&str>,
    ) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/goog/cdp/execute", session.unwrap_or_default()))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(json!({ "cmd": self.0, "params": self.1 }).to_string()))
    }
}
