//! The layout of a sum: inputs and cautions above, the answer in a bar along the bottom edge.

use bleachfield_core::caution::{Caution, Severity};
use leptos::prelude::*;

use crate::{
    components::{CautionCard, Page, icon},
    i18n::{key, t, t_count},
    route::{Route, Sum},
};

use super::recent;

/// The page of a sum. `short` is the result alone, or what is missing; `full` has its range and
/// reasons, and can be opened once the sum is `ready`.
#[component]
pub fn Bench(
    of: Sum,
    short: ViewFn,
    full: ViewFn,
    #[prop(into)] ready: Signal<bool>,
    children: Children,
) -> impl IntoView {
    recent::opened(of);
    view! {
        <Page title=t(&format!("mix-{}", <&str>::from(of))) back=Route::Calculator>
            <div class="stack bench">{children()}</div>
            <AnswerBar short full ready />
        </Page>
    }
}

#[component]
fn AnswerBar(short: ViewFn, full: ViewFn, ready: Signal<bool>) -> impl IntoView {
    let opened = RwSignal::new(false);
    let ready = Memo::new(move |_| ready.get());
    let open = Memo::new(move |_| ready.get() && opened.get());
    let answer = move || if open.get() { full.run() } else { short.run() };
    view! {
        <section class="answer-bar" aria-label=t!("mix-answer") class:open=open
            tabindex=move || open.get().then_some("0")>
            <div class="inside">
                {move || ready.get().then(|| view! {
                    <button type="button" class="button bare reason"
                        aria-expanded=move || open.get().to_string()
                        on:click=move |_| opened.update(|opened| *opened = !*opened)>
                        {move || if open.get() { t!("mix-less") } else { t!("mix-reason") }}
                    </button>
                })}
                <div class="answer stack" aria-live="polite">
                    {answer}
                </div>
            </div>
        </section>
    }
}

/// The cautions of a sum's act. Those that the present numbers cause stand unfolded; those that
/// hold before any number is given (`standing`) are one line of headings that opens.
#[component]
pub fn ActCautions(
    #[prop(into)] cautions: Signal<Vec<Caution>>,
    #[prop(into)] standing: Signal<Vec<Caution>>,
) -> impl IntoView {
    let parts = Memo::new(move |_| {
        let standing = standing.get();
        let always = |caution: &Caution| standing.iter().any(|one| one.id == caution.id);
        cautions.get().into_iter().partition::<Vec<Caution>, _>(always)
    });
    move || {
        let (always, caused) = parts.get();
        view! {
            {caused.into_iter().map(|caution| view! { <CautionCard caution /> }).collect_view()}
            {(!always.is_empty()).then(|| standing_line(always))}
        }
    }
}

fn standing_line(cautions: Vec<Caution>) -> AnyView {
    let danger = cautions.iter().any(|caution| caution.severity == Severity::Danger);
    let (class, severity) = if danger {
        ("more standing danger", key!("caution-severity-danger"))
    } else {
        ("more standing", key!("caution-severity-care"))
    };
    // The dangers by name, or all where there is none; the rest by number. All open on tap.
    let named = |caution: &&Caution| {
        !danger || caution.severity == Severity::Danger && !caution.id.is_of_unknown()
    };
    let mut titles: Vec<String> =
        cautions.iter().filter(named).map(|caution| t(&caution.id.title())).collect();
    let more = cautions.len() - titles.len();
    if more > 0 {
        titles.push(t_count!("mix-more_cautions", more));
    }
    view! {
        <details class=class>
            <summary>
                <strong>{danger.then(|| view! { <icon::Hand /> })}{t(severity)}": "</strong>
                {titles.join(" · ")}
            </summary>
            <div class="inside stack">
                {cautions.into_iter().map(|caution| view! { <CautionCard caution /> }).collect_view()}
            </div>
        </details>
    }
    .into_any()
}
