//! Cautions, shown where the act happens. Severity is told by a word and a
//! shape first, and by colour last. Nothing here can be dismissed for good.

use bleachfield_core::caution::{Caution, CautionId, Severity};
use leptos::prelude::*;

use super::icon;
use crate::i18n::{key, render, t, t_count, t_with};

/// How many lesser cautions may stand in the open before they are folded.
const IN_THE_OPEN: usize = 2;

/// One caution.
#[component]
pub fn CautionCard(caution: Caution) -> impl IntoView {
    let (class, severity) = match caution.severity {
        Severity::Note => ("caution note", key!("caution-severity-note")),
        Severity::Care => ("caution care", key!("caution-severity-care")),
        Severity::Danger => ("caution danger", key!("caution-severity-danger")),
    };
    view! {
        <div class=class role="note">
            <span class="severity">
                {(caution.severity == Severity::Danger).then(|| view! { <icon::Hand /> })}
                {t(severity)}
            </span>
            <p>{render(&caution.message)}</p>
            <p class="source">{t_with!("caution-source", &[("source", caution.source)])}</p>
        </div>
    }
}

/// Every caution that holds: each danger in the open, the rest behind one
/// press if there are many, and in the open at the end that the label comes
/// first.
#[component]
pub fn CautionList(#[prop(into)] cautions: Signal<Vec<Caution>>) -> impl IntoView {
    let card = |caution: Caution| view! { <CautionCard caution /> };
    (move || {
        let (label, rest): (Vec<_>, Vec<_>) =
            cautions.get().into_iter().partition(|c| c.id == CautionId::LabelFirst);
        let (danger, rest): (Vec<_>, Vec<_>) =
            rest.into_iter().partition(|c| c.severity == Severity::Danger);
        let count = rest.len();
        let rest = rest.into_iter().map(card).collect_view();
        let rest = if count > IN_THE_OPEN {
            view! {
                <details class="more">
                    <summary>{t_count!("caution-more", count)}</summary>
                    <div class="inside stack">{rest}</div>
                </details>
            }
            .into_any()
        } else {
            rest.into_any()
        };
        view! {
            <div class="stack">
                {danger.into_iter().map(card).collect_view()}
                {rest}
                {label.into_iter().map(card).collect_view()}
            </div>
        }
    })
    .into_any()
}
