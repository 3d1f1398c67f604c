//! Bleachfield's icons: strokes on a 24 by 24 grid.

use leptos::prelude::*;

/// An icon from its SVG path. Hidden from screen readers: icons only repeat words.
pub fn drawing(lines: &'static str) -> AnyView {
    view! {
        <svg viewBox="0 0 24 24" fill="none" stroke="currentColor" stroke-width="2"
            stroke-linecap="round" stroke-linejoin="round" aria-hidden="true" focusable="false">
            <path d=lines />
        </svg>
    }
    .into_any()
}

macro_rules! icons {
    ($($(#[$doc:meta])* $name:ident: $lines:literal,)*) => {$(
        $(#[$doc])*
        #[component]
        pub fn $name() -> impl IntoView {
            drawing($lines)
        }
    )*};
}

icons! {
    /// A tub under a tap.
    Sink: "M3 12h18l-2 8H5zM8 4h5a3 3 0 0 1 3 3M8 2v4M16 9v.5",
    /// A measuring jug.
    Mix: "M5 3h11l-1.5 18h-8zM16 6h2.5a2 2 0 0 1 2 2.2l-.5 3.6a2 2 0 0 1-2 1.7h-2.5M7 9h3M7.5 13h3M8 17h3",
    /// A post of sheets between felts.
    Batches: "M3 6c6-1 12 1 18 0M3 11c6-1 12 1 18 0M3 16c6-1 12 1 18 0M5 21h14",
    /// Bottles on a shelf.
    Shelf: "M2 20h20M6 20v-8l1-2V6h3v4l1 2v8M8 3h1M14 20v-6h6v6M15 11h4v3h-4z",
    /// A sheet with a question mark.
    Help: "M4 3h13l3 3v15H4zM9.500 10a2.500 2.500 0 1 1 3.600 2.200c-.8.4-1.100.9-1.100 1.800M12 17v.2",
    Cross: "M5 5l14 14M19 5L5 19",
    Back: "M15 4l-8 8 8 8",
    Plus: "M12 4v16M4 12h16",
    /// A raised hand, for danger.
    Hand: "M8 13V5.500a1.500 1.500 0 0 1 3 0V11M11 11V4a1.500 1.500 0 0 1 3 0v7M14 11V5.500a1.500 1.500 0 0 1 3 0V14c0 5-2 7-5.500 7-3 0-4.500-1.500-6-4.500L3.800 13a1.500 1.500 0 0 1 2.600-1.500L8 13.500",
    Camera: "M3 8h4l2-3h6l2 3h4v12H3zM12 10a4 4 0 1 0 0 8 4 4 0 0 0 0-8z",
    Clock: "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM12 7v5l3.500 2",
    /// An arrow out of a tray.
    Export: "M12 15V3M8 7l4-4 4 4M5 12v9h14v-9",
    /// An arrow into a tray.
    Import: "M12 3v12M8 11l4 4 4-4M5 14v7h14v-7",
    /// Three dots: more actions.
    More: "M4 12a1 1 0 1 0 2 0a1 1 0 1 0-2 0M11 12a1 1 0 1 0 2 0a1 1 0 1 0-2 0M18 12a1 1 0 1 0 2 0a1 1 0 1 0-2 0",
}
