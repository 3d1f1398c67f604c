//! Cautions, shown where the act happens. Severity is shown by word and shape before colour;
//! no caution can be dismissed for good.

use bleachfield_core::caution::{Caution, CautionId, Severity};
use leptos::prelude::*;

use super::icon;
use crate::i18n::{key, render, t, t_count, t_with};

/// Most cautions below danger that are shown unfolded.
const MAX_UNFOLDED: usize = 2;

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

/// All cautions that apply: every danger, then the others, folded if they are many, and last
/// that the label has precedence.
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
        let rest = if count > MAX_UNFOLDED {
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
