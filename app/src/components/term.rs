//! Terms of the trade, each explained on tap. The same texts are Help's glossary.

use leptos::prelude::*;
use strum::{EnumIter, IntoStaticStr};

use super::radio_group::unique_number;
use crate::{
    i18n::{t, t_with},
    route::Route,
};

/// A term with messages `term-…` and `term_meaning-…` under its own name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, EnumIter, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Term {
    AcidFinish,
    ActiveOxygen,
    AirDry,
    AlkalineReserve,
    Antichlor,
    AvailableChlorine,
    CarryOver,
    Charge,
    Consistency,
    Couch,
    Deckle,
    DeltaE,
    Dryness,
    EndTest,
    Grammage,
    Hardness,
    Lightness,
    Liquor,
    Lot,
    OvenDry,
    Oxidant,
    Percarbonate,
    Ph,
    Retention,
    Severity,
    Size,
    Titration,
    Vat,
    Yellowness,
}

impl Term {
    pub fn name(self) -> String {
        t(&format!("term-{}", <&str>::from(self)))
    }

    pub fn meaning(self) -> String {
        t(&format!("term_meaning-{}", <&str>::from(self)))
    }
}

/// A button that asks for the term, and its meaning, which opens in place. For a heading's line
/// or a paragraph's end.
#[component]
pub fn Explain(term: Term) -> impl IntoView {
    let (ask, meaning) = explanation(term);
    view! { <div class="explain">{ask}{meaning}</div> }
}

/// The button and the meaning, for controls that place them apart. The button is 48 px high
/// and wide, and the line around it stays as high as its text.
pub fn explanation(term: Term) -> (AnyView, AnyView) {
    let open = RwSignal::new(false);
    let id = format!("meaning-{}", unique_number());
    let ask = view! {
        <button type="button" class="term" aria-controls=id.clone()
            aria-label=t_with!("glossary-ask", &[("term", &term.name())])
            aria-expanded=move || open.get().to_string()
            on:click=move |_| open.update(|open| *open = !*open)>
            <span aria-hidden="true">"?"</span>
        </button>
    };
    let meaning = view! {
        <div class="meaning" id=id hidden=move || !open.get()>
            {term.meaning()}" "<a href=Route::Glossary.href()>{t!("glossary-all")}</a>
        </div>
    };
    (ask.into_any(), meaning.into_any())
}
