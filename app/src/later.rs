//! Code that comes when it is first needed.
//!
//! A release build (`cfg(split)`, see `demo/ship/src/bin/split.rs`) makes of each
//! group here a file of its own, so that the first start fetches little; any other
//! build holds all of them in one. What is reached from several groups, or without
//! asking here, is not in them.

use crate::{
    screen::{self, Show},
    worker::{self, Work},
};

macro_rules! later {
    ($($(#[$doc:meta])* $group:ident: $kind:ty = $code:path;)*) => {$(
        $(#[$doc])*
        #[cfg(split)]
        #[wasm_split_helpers::wasm_split($group, fallible)]
        pub fn $group() -> Result<$kind, NotFetched> {
            Ok($code)
        }

        $(#[$doc])*
        #[cfg(not(split))]
        pub async fn $group() -> Result<$kind, NotFetched> {
            Ok($code)
        }
    )*};
}

later! {
    /// Sums without a batch.
    mix: Show = screen::mix_at;
    /// The book and its batches, plans, exchange.
    batches: Show = screen::batches_at;
    shelf: Show = screen::shelf_at;
    help: Show = screen::help_at;
    /// What the worker does.
    work: Work = worker::work;
}

/// The code is not on this phone, and could not be fetched.
pub struct NotFetched;

#[cfg(split)]
impl From<wasm_split_helpers::SplitLoaderError> for NotFetched {
    fn from(_: wasm_split_helpers::SplitLoaderError) -> Self {
        Self
    }
}
