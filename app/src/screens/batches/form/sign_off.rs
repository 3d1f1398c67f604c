//! Calling the batch clean, or letting it go with a reason though it is not.

use bleachfield_core::{
    derive::SignOffEvidence,
    journal::{Body, SignedOff},
    pulp::sign_off::{EndTestKind, SignOffStatus, UnmetTest, required, sign_off, status},
};
use leptos::prelude::*;

use super::{BatchWriter, Save};
use crate::{
    components::TextField,
    i18n::{key, render, t},
};

#[component]
pub fn SignOff(writing: BatchWriter) -> impl IntoView {
    let evidence = StoredValue::new(
        writing.studio.book_now(|book| book.batches.get(&writing.batch).map(SignOffEvidence::of)),
    );
    let reason = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    let signed = move || {
        let reason = reason.get();
        evidence.with_value(|e| e.as_ref().map(|e| sign_off(e.used, &e.log, e.changed, &reason)))
    };
    let problem = Signal::derive(move || match signed() {
        Some(Err(missing)) if tried.get() => Some(missing.message()),
        _ => None,
    });
    let run = Callback::new(move |()| {
        tried.set(true);
        if let Some(Ok(signed)) = signed() {
            let (complete, reason) = (signed.clean, signed.reason);
            writing.save(Body::SignedOff(SignedOff { complete, reason }));
        }
    });
    let (tests, clean) = evidence.with_value(|e| {
        let Some(e) = e else { return (Vec::new(), false) };
        let needed = required(e.used);
        let tests: Vec<(EndTestKind, SignOffStatus)> = EndTestKind::ALL
            .into_iter()
            .map(|test| (test, status(test, &e.log, e.changed)))
            .filter(|(test, status)| needed.contains(test) || *status != SignOffStatus::Missing)
            .collect();
        (tests, e.unmet_tests().is_empty())
    });
    let tests = tests
        .into_iter()
        .map(|(test, status)| {
            let unmet = UnmetTest { test, status };
            view! { <li class="test" class:passed=status == SignOffStatus::Passed>{render(&unmet.message())}</li> }
        })
        .collect_view();
    view! {
        <div class="stack">
            <ul class="tests">{tests}</ul>
            {if clean {
                view! { <p class="good">{t!("form-sign_off-clean")}</p> }.into_any()
            } else {
                view! {
                    <p>{t!("form-sign_off-not_clean")}</p>
                    <TextField label=t!("field-sign_off-reason") text=reason problem long=true />
                }.into_any()
            }}
            <Save writing run
                label=t(if clean { key!("form-sign_off-do_clean") } else { key!("form-sign_off-do_unproven") }) />
        </div>
    }
}
