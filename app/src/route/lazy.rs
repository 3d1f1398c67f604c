//! Code that comes when it is first needed.
//!
//! A release build (`cfg(split)`, see `demo/ship/src/bin/split/`) makes of each
//! group here a file of its own, so that the first start fetches little; any other
//! build holds all of them in one. What is reached from several groups, or without
//! asking here, is not in them.

use std::future::Future;

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::{
    i18n::t,
    screens::{self, Show},
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

/// Shows a part of a screen.
type Part = fn() -> AnyView;

later! {
    /// The Sink once there is a batch.
    under_way: Part = screens::under_way;
    /// Sums without a batch.
    mix: Show = screens::mix_at;
    /// The book and its batches, plans, exchange.
    batches: Show = screens::batches_at;
    /// Colours from photos.
    colour: Show = screens::colour_at;
    shelf: Show = screens::shelf_at;
    help: Show = screens::help_at;
    /// What the worker does.
    work: Work = worker::work;
}

/// A part of a screen, as soon as its code is there.
pub fn part(code: impl Future<Output = Result<Part, NotFetched>> + 'static) -> AnyView {
    let part = RwSignal::new(None::<Part>);
    spawn_local(async move {
        let not_here: Part = || view! { <p class="card">{t!("not_here-why")}</p> }.into_any();
        let _ = part.try_set(Some(code.await.unwrap_or(not_here)));
    });
    (move || part.get().map(|show| show())).into_any()
}

/// The code is not on this phone, and could not be fetched.
pub struct NotFetched;

#[cfg(split)]
impl From<wasm_split_helpers::SplitLoaderError> for NotFetched {
    fn from(_: wasm_split_helpers::SplitLoaderError) -> Self {
        Self
    }
}
