//! Marks of pulp that is not proven clean, and of pulp that is past its date: shape and words.

use bleachfield_core::{
    derive::{Proof, is_past_keep_by},
    journal::{Book, Lot},
};
use leptos::prelude::*;

use crate::{
    components::icon::{self, drawing},
    i18n::t,
    platform::clock,
};

/// That pulp is not proven clean; nothing for clean pulp.
pub fn proof_mark(proof: Proof) -> Option<AnyView> {
    if proof == Proof::Clean {
        return None;
    }
    let key: &str = proof.into();
    let failed = proof == Proof::Failed;
    let shape = if failed {
        view! { <icon::Hand /> }.into_any()
    } else {
        // A sheet with a gap.
        drawing("M4 4h16v16H4zM9 12h.01M12 12h.01M15 12h.01")
    };
    Some(
        view! {
            <div class="pulp-mark" class:danger=failed>{shape}{t(&format!("proof-{key}"))}</div>
        }
        .into_any(),
    )
}

/// That the day by which to use a lot has passed.
pub fn past_mark(lot: &Lot) -> Option<AnyView> {
    is_past_keep_by(lot, clock::today())
        .then(|| view! { <div class="pulp-mark"><icon::Clock />{t!("lot-past")}</div> }.into_any())
}

/// Both marks of a lot.
pub fn lot_marks(book: &Book, lot: &Lot) -> AnyView {
    view! { {proof_mark(Proof::of_lot(book, lot.id))}{past_mark(lot)} }.into_any()
}
