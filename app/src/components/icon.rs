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
    /// A drop over a surface.
    Dilute: "M12 2.500c3 3.800 4.700 6 4.700 8.300a4.700 4.700 0 0 1-9.400 0c0-2.300 1.700-4.500 4.700-8.300zM3 20c2-1.600 4-1.600 6 0s4 1.600 6 0 4-1.600 6 0",
    /// A tied bundle of fibres.
    DryFibre: "M6 3c2 5 2.500 7 2.500 9S8 16 6 21M12 3v18M18 3c-2 5-2.500 7-2.500 9s.5 4 2.500 9M7 12h10",
    /// A dipped strip with its fields.
    Ph: "M9 2h6v15H9zM9 7h6M9 12h6M3 20c2-1.600 4-1.600 6 0s4 1.600 6 0 4-1.600 6 0",
    /// A thermometer.
    Warm: "M10 13.500V5a2 2 0 0 1 4 0v8.500a4.500 4.500 0 1 1-4 0zM12 9v8M17.500 5h3M17.500 9h3",
    /// A spoon and a cup.
    Spoons: "M7 3c2 0 3 2 3 4s-1 3.500-3 3.500S4 9 4 7s1-4 3-4zM7 10.500V21M13 9h7l-1 10h-5zM20 11h2v4h-2.500",
    /// Powder that gives off bubbles.
    Percarbonate: "M3 21h12l-2-7H5zM6 14c.5-2.500 5.500-2.500 6 0M17 13.500a1.500 1.500 0 1 0 .1 0M19 7a2 2 0 1 0 .1 0M14 4a1.200 1.200 0 1 0 .1 0",
    /// A steaming pot.
    Cook: "M4 11h16v6a4 4 0 0 1-4 4H8a4 4 0 0 1-4-4zM1.500 13.500H4M20 13.500h2.500M9 3c-1.200 1.600 1.200 2.800 0 4.600M15 3c-1.200 1.600 1.200 2.800 0 4.600",
    /// Water poured into a tub.
    Wash: "M3 13h18l-2 8H5zM8 3v2M8 8v2M12 3v6M16 3v2M16 8v2M7 17c1.700-1.300 3.300-1.300 5 0s3.300 1.300 5 0",
    /// A drop that is struck out.
    Antichlor: "M12 3c3.500 4.400 5.600 7.200 5.600 10.400a5.600 5.600 0 0 1-11.200 0C6.400 10.200 8.500 7.400 12 3zM4 21L20 5",
    /// A mould with its deckle.
    Sheets: "M3 9l5-5h13v11l-5 5H3zM3 9h13v11M16 9l5-5M6.500 12.500h6M6.500 16h6",
    Camera: "M3 8h4l2-3h6l2 3h4v12H3zM12 10a4 4 0 1 0 0 8 4 4 0 0 0 0-8z",
    Clock: "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM12 7v5l3.500 2",
    /// An arrow out of a tray.
    Export: "M12 15V3M8 7l4-4 4 4M5 12v9h14v-9",
    /// An arrow into a tray.
    Import: "M12 3v12M8 11l4 4 4-4M5 14v7h14v-7",
    /// Three dots: more actions.
    More: "M4 12a1 1 0 1 0 2 0a1 1 0 1 0-2 0M11 12a1 1 0 1 0 2 0a1 1 0 1 0-2 0M18 12a1 1 0 1 0 2 0a1 1 0 1 0-2 0",
}
