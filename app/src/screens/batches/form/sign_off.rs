//! Signs the batch off as clean, or as unproven with a reason.

use bleachfield_core::{
    derive::SignOffEvidence,
    journal::{Body, SignedOff},
    pulp::sign_off::{EndTestKind, SignOffStatus, UnmetTest, required, sign_off, status},
};
use leptos::prelude::*;

use super::{BatchWriter, SaveButton};
use crate::{
    components::TextField,
    i18n::{key, render, t},
};

#[component]
pub fn SignOffForm(writer: BatchWriter) -> impl IntoView {
    let evidence = StoredValue::new(writer.read(|_, batch| SignOffEvidence::of(batch)));
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
            writer.save(Body::SignedOff(SignedOff { complete, reason }));
        }
    });
    let (tests, clean) = evidence.with_value(|evidence| {
        let tests = evidence.as_ref().map(test_statuses).unwrap_or_default();
        (tests, evidence.as_ref().is_some_and(|e| e.unmet_tests().is_empty()))
    });
    let tests = tests.into_iter().map(|test| {
        view! {
            <li class="test" class:passed=test.status == SignOffStatus::Passed>{render(&test.message())}</li>
        }
    });
    let tests = tests.collect_view();
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
            <SaveButton writer run
                label=t(if clean { key!("form-sign_off-do_clean") } else { key!("form-sign_off-do_unproven") }) />
        </div>
    }
}

/// The tests that are needed or were made.
fn test_statuses(evidence: &SignOffEvidence) -> Vec<UnmetTest> {
    let needed = required(evidence.used);
    EndTestKind::ALL
        .into_iter()
        .map(|test| UnmetTest { test, status: status(test, &evidence.log, evidence.changed) })
        .filter(|test| needed.contains(&test.test) || test.status != SignOffStatus::Missing)
        .collect()
}
