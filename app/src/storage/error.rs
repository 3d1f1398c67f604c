//! Errors of the store.

use std::error::Error as _;

use crate::i18n::key;
use bleachfield_core::message::Message;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::DomException;

/// A failed read or write. A write that failed changed nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StoreError {
    #[error("storage is full: free some space on this device")]
    QuotaExceeded,
    #[error("the database was written by a newer version of the app")]
    VersionTooNew,
    /// Closed by the browser, or held by another tab.
    #[error("no connection to the database: close other tabs of the app")]
    ConnectionClosed,
    #[error("the browser aborted the transaction")]
    Aborted,
    #[error("a stored record cannot be decoded")]
    Corrupt,
    /// Private browsing, or storage is forbidden.
    #[error("the browser offers no database")]
    Unavailable,
    #[error("the decoder of stored entries could not be fetched: open the app with a network")]
    NotLoaded,
}

impl StoreError {
    /// The message for the locale.
    pub fn message(self) -> Message {
        Message::new(match self {
            StoreError::QuotaExceeded => key!("refusal-store-quota_exceeded"),
            StoreError::VersionTooNew => key!("refusal-store-version_too_new"),
            StoreError::ConnectionClosed => key!("refusal-store-closed_by_other_tab"),
            StoreError::Aborted => key!("refusal-store-aborted"),
            StoreError::Corrupt => key!("refusal-store-corrupt"),
            StoreError::Unavailable => key!("refusal-store-unavailable"),
            StoreError::NotLoaded => key!("not_here-why"),
        })
    }

    /// From the name of a `DOMException`; `None` for any other name.
    ///
    /// Source: IndexedDB 3.0 §3.12.
    pub(super) fn from_name(name: &str) -> Option<StoreError> {
        Some(match name {
            "QuotaExceededError" => StoreError::QuotaExceeded,
            "VersionError" => StoreError::VersionTooNew,
            "InvalidStateError" => StoreError::ConnectionClosed,
            "AbortError" | "TransactionInactiveError" | "TimeoutError" => StoreError::Aborted,
            "DataError" | "DataCloneError" | "NotReadableError" | "NotFoundError" => {
                StoreError::Corrupt
            }
            "SecurityError" | "NotAllowedError" | "UnknownError" => StoreError::Unavailable,
            _ => return None,
        })
    }

    /// From an exception thrown by JavaScript.
    pub(super) fn from_exception(value: &JsValue) -> Option<StoreError> {
        Self::from_name(&value.dyn_ref::<DomException>()?.name())
    }
}

/// `rexie` hides the exception; the text of the source contains its name.
impl From<rexie::Error> for StoreError {
    fn from(error: rexie::Error) -> Self {
        let text = error.source().map(ToString::to_string).unwrap_or_default();
        named_in(&text).unwrap_or(StoreError::Corrupt)
    }
}

fn named_in(text: &str) -> Option<StoreError> {
    text.split([':', ' ']).find_map(StoreError::from_name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_name_of_the_exception_is_found_in_the_text_of_rexie() {
        let text = "DOM exception: VersionError: The requested version (2) is less than 3.";
        assert_eq!(named_in(text), Some(StoreError::VersionTooNew));
        let text = "failed to open new transaction: InvalidStateError: The connection is closing.";
        assert_eq!(named_in(text), Some(StoreError::ConnectionClosed));
        assert_eq!(named_in("cursor is finished"), None);
    }
}
