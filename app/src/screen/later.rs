//! Screens whose code comes when one of them is first opened.
//!
//! A release build (`cfg(split)`, see `demo/ship/split`) makes of each group here a
//! file of its own, so that the first start fetches little; any other build holds
//! all of them. What several groups use stays with the first.

use leptos::prelude::AnyView;

use crate::address::Address;

/// Shows the screen at an address.
pub type Show = fn(&Address) -> AnyView;

macro_rules! later {
    ($($group:ident: $show:path;)*) => {$(
        #[cfg(split)]
        #[wasm_split_helpers::wasm_split($group, fallible)]
        pub fn $group() -> Result<Show, NotFetched> {
            Ok($show)
        }

        #[cfg(not(split))]
        pub async fn $group() -> Result<Show, NotFetched> {
            Ok($show)
        }
    )*};
}

later! {
    mix: super::mix_at;
    batches: super::batches_at;
    shelf: super::shelf_at;
    help: super::help_at;
}

/// The code is not on this phone, and could not be fetched.
pub struct NotFetched;

#[cfg(split)]
impl From<wasm_split_helpers::SplitLoaderError> for NotFetched {
    fn from(_: wasm_split_helpers::SplitLoaderError) -> Self {
        Self
    }
}
