//! Why something could not be kept or read.

use crate::i18n::key;
use bleachfield_core::message::Message;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::DomException;

/// A refusal of the store. Whatever was to be written was not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StoreError {
    /// The phone, or the browser's share of it, is full.
    QuotaExceeded,
    /// The book on this phone was written by a newer version of the app.
    VersionTooNew,
    /// The app is open in another tab that holds on to the book.
    ClosedByOtherTab,
    /// The browser took the write back, without saying why.
    Aborted,
    /// What is on disk cannot be read.
    Corrupt,
    /// The browser gives us no disk: private browsing, or forbidden.
    Unavailable,
}

impl StoreError {
    /// What to say.
    pub fn message(self) -> Message {
        Message::new(match self {
            StoreError::QuotaExceeded => key!("refusal-store-quota_exceeded"),
            StoreError::VersionTooNew => key!("refusal-store-version_too_new"),
            StoreError::ClosedByOtherTab => key!("refusal-store-closed_by_other_tab"),
            StoreError::Aborted => key!("refusal-store-aborted"),
            StoreError::Corrupt => key!("refusal-store-corrupt"),
            StoreError::Unavailable => key!("refusal-store-unavailable"),
        })
    }

    /// By the name of a DOM exception (IndexedDB 3.0 §3.12 lists them);
    /// `otherwise` where the name tells nothing.
    pub(super) fn named(name: &str, otherwise: StoreError) -> StoreError {
        match name {
            "QuotaExceededError" => StoreError::QuotaExceeded,
            "VersionError" => StoreError::VersionTooNew,
            "InvalidStateError" => StoreError::ClosedByOtherTab,
            "AbortError" | "TransactionInactiveError" | "TimeoutError" => StoreError::Aborted,
            "DataError" | "DataCloneError" | "NotReadableError" | "NotFoundError" => {
                StoreError::Corrupt
            }
            "SecurityError" | "NotAllowedError" | "UnknownError" => StoreError::Unavailable,
            _ => otherwise,
        }
    }

    /// By what JavaScript threw.
    pub(super) fn thrown(value: &JsValue, otherwise: StoreError) -> StoreError {
        match value.dyn_ref::<DomException>() {
            Some(exception) => Self::named(&exception.name(), otherwise),
            None => otherwise,
        }
    }
}

impl From<idb::Error> for StoreError {
    /// `idb` puts the exception's own text, which begins with its name, into
    /// its own.
    fn from(error: idb::Error) -> Self {
        let text = error.to_string();
        text.split([':', ' '])
            .filter(|word| word.ends_with("Error"))
            .map(|name| StoreError::named(name, StoreError::Corrupt))
            .find(|found| *found != StoreError::Corrupt)
            .unwrap_or(StoreError::Corrupt)
    }
}
