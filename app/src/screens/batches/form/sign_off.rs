//! Calling the batch clean, or letting it go with a reason though it is not.

use bleachfield_core::{
    journal::{Body, SignedOff},
    pulp::sign_off::{Evidence, Standing, Test, required, sign_off, standing},
};
use leptos::prelude::*;

use super::{Save, Writing};
use crate::{
    components::TextField,
    i18n::{key, render, t},
};

#[component]
pub fn SignOff(writing: Writing) -> impl IntoView {
    let evidence = StoredValue::new(
        writing.studio.book_now(|book| book.batches.get(&writing.batch).map(Evidence::of)),
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
        let tests: Vec<(Test, Standing)> = Test::ALL
            .into_iter()
            .map(|test| (test, standing(test, &e.log, e.changed)))
            .filter(|(test, standing)| needed.contains(test) || *standing != Standing::Missing)
            .collect();
        (tests, e.gaps().is_empty())
    });
    let tests = tests
        .into_iter()
        .map(|(test, standing)| {
            let gap = bleachfield_core::pulp::sign_off::Gap { test, standing };
            view! { <li class="test" class:passed=standing == Standing::Passed>{render(&gap.message())}</li> }
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
