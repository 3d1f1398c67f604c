//! The mark of a batch's state: a shape and a word, and only then a colour.

use bleachfield_core::journal::BatchState;
use leptos::prelude::*;

use crate::{components::icon::drawing, i18n::t};

/// Shape and name of a state.
#[component]
pub fn StateMark(#[prop(into)] state: Signal<BatchState>) -> impl IntoView {
    (move || {
        let state = state.get();
        view! {
            <span class=format!("state {}", state.key())>
                {drawing(shape(state))}
                {t(&format!("state-{}", state.key()))}
            </span>
        }
    })
    .into_any()
}

/// No two states share a shape.
fn shape(state: BatchState) -> &'static str {
    match state {
        // A tuft of raw fibre.
        BatchState::Planning => "M12 21V9M12 14C8 13 6 9 6 4M12 14c4-1 6-5 6-10",
        // A drop.
        BatchState::Running => "M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z",
        // A drop shut off.
        BatchState::Stopped => "M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11zM4 4l16 16",
        // Water running over.
        BatchState::Washing => {
            "M3 7c3-2 6 2 9 0s6 2 9 0M3 12c3-2 6 2 9 0s6 2 9 0M3 17c3-2 6 2 9 0s6 2 9 0"
        }
        // A sheet with a tick.
        BatchState::Clean => "M4 4h16v16H4zM8 12l3 3 5-6",
        // A sheet with a gap.
        BatchState::Unproven => "M4 4h16v16H4zM9 12h.01M12 12h.01M15 12h.01",
        // A lidded tub.
        BatchState::Stored => "M4 8h16M6 8v12h12V8M9 4h6v4",
        // A post of sheets.
        BatchState::Used => "M4 7h16M4 12h16M4 17h16",
        BatchState::Abandoned => "M5 5l14 14M19 5L5 19",
    }
}
