//! The demo studio's file: how it is recognised, and how it is brought up to date.

use jiff::{SignedDuration, Timestamp};

use super::ExchangeFile;

/// The devices that wrote the demo studio's files before [`super::Header::demo`] was in them.
pub const DEMO_DEVICES: [&str; 2] = ["r61ey8j7tj", "e9a1pzcf4e"];

impl ExchangeFile {
    /// Whether it holds the invented demo studio, which is no part of a person's book.
    pub fn is_demo(&self) -> bool {
        self.header.demo || DEMO_DEVICES.contains(&self.header.device.as_str())
    }

    /// The same as if it had been written at `now`: all entries are moved by whole minutes.
    #[must_use]
    pub fn dated(mut self, now: Timestamp) -> Self {
        let minutes = now.duration_since(self.header.exported_at).as_mins();
        let by = SignedDuration::from_mins(minutes);
        self.entries = self.entries.into_iter().map(|entry| entry.moved_by(by)).collect();
        self.header.exported_at = now;
        self
    }
}
