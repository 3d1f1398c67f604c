//! What a forecast rests on: each parameter in use, with range, source and the readings that it
//! is seen in. Its own lazy piece; the learning itself is `state::learning`.

mod parameters;
mod summary;

use bleachfield_core::bath::Oxidant;
use bleachfield_core::learning::{BathFacts, LearningQuery};
use leptos::prelude::*;

use self::parameters::Parameters;
pub use self::summary::summary;
use crate::{
    components::{Page, RadioGroup},
    i18n::{t, t_with},
    route::Route,
    state::{LearningState, learning_state},
};

/// The entry point of the lazy piece.
pub fn screen(_: Route) -> AnyView {
    view! { <RestsOn /> }.into_any()
}

#[component]
fn RestsOn() -> impl IntoView {
    let learning = learning_state();
    let oxidant = RwSignal::new(Oxidant::Hypochlorite);
    let names = Memo::new(move |_| learning.fibres());
    // Past all of them is a fibre without a bath.
    let fibre = RwSignal::new(0);
    // The last one bleached, also when learning ends while the screen is open.
    Effect::new(move |_| fibre.set(names.with(Vec::len).saturating_sub(1)));
    let found = Memo::new(move |_| {
        let name = names.with(|names| names.get(fibre.get()).cloned()).unwrap_or_default();
        let facts = facts(&name, oxidant.get());
        learning.outcome(&LearningQuery { facts: &facts, without: None })
    });
    let bleaches = [
        (Oxidant::Hypochlorite, t!("learning-hypochlorite")),
        (Oxidant::Percarbonate, t!("learning-percarbonate")),
        (Oxidant::Peroxide, t!("learning-peroxide")),
    ];
    let fibres = move || {
        let names = names.get();
        (!names.is_empty()).then(|| {
            let choices = names.into_iter().chain([t!("learning-other_fibre")]);
            let choices: Vec<(usize, String)> = choices.enumerate().collect();
            view! { <RadioGroup label=t!("learning-fibre") value=fibre options=choices /> }
        })
    };
    view! {
        <Page title=t!("learning-title") back=Route::Help>
            <div class="stack wide">
                <p>{t!("learning-say")}</p>
                <RadioGroup label=t!("learning-bleach") value=oxidant options=bleaches.to_vec() />
                {fibres}
                <Progress learning />
                {move || found.with(summary::learnt)}
                <h2>{t!("learning-parameters")}</h2>
                {move || {
                    let found = found.get();
                    view! { <Parameters oxidant=found.distribution.oxidant() support=found.support /> }
                }}
            </div>
        </Page>
    }
}

/// A bath of no charge, warmth or time of its own: only fibre and oxidant are asked of.
fn facts(fibre: &str, oxidant: Oxidant) -> BathFacts {
    BathFacts { fibre: fibre.to_owned(), oxidant, charge: 0.0, celsius: 0.0, minutes: 0.0 }
}

/// Seen while learning goes on.
#[component]
fn Progress(learning: LearningState) -> impl IntoView {
    move || {
        learning.progress().filter(|progress| !progress.is_done()).map(|progress| {
            let (learnt, of) = (progress.learnt.to_string(), progress.of.to_string());
            let text = t_with!("learning-under_way", &[("learnt", &learnt), ("of", &of)]);
            view! { <p class="small soft" role="status">{text}</p> }
        })
    }
}
