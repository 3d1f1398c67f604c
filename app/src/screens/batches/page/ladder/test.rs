//! The end test to be done now. What the last rinse read is filled in.

use bleachfield_core::{
    derive::{SignOffEvidence, WashRecord},
    journal::Figure,
    pulp::sign_off::{EndTestKind, SignOffStatus},
};
use leptos::prelude::*;

use crate::{
    i18n::{render, t},
    screens::batches::form::{BatchWriter, EndTestInputs, SaveButton, outcome_line},
};

#[component]
pub fn TestRung(
    writer: BatchWriter,
    test: EndTestKind,
    /// The pH of the last rinse, which needs no second reading.
    rinse_ph: Option<Figure>,
) -> impl IntoView {
    let known = writer.read(|book, batch| {
        let unmet = SignOffEvidence::of(batch).unmet_tests();
        let of_test = unmet.into_iter().find(|unmet| unmet.test == test);
        (of_test, WashRecord::of(book, batch).readings.tap_ph)
    });
    let (unmet, tap_ph) = known.unwrap_or_default();
    let form = EndTestInputs::new(Some(test), tap_ph, rinse_ph);
    let note = RwSignal::new(String::new());
    let run = Callback::new(move |()| form.save(writer, note));
    // That it was not done yet is seen; that it failed or is outdated is not.
    let unmet = unmet.filter(|unmet| unmet.status != SignOffStatus::Missing);
    let (can, cannot) = test.tells();
    view! {
        {unmet.map(|unmet| view! { <p class="caution care">{render(&unmet.message())}</p> })}
        {rinse_ph.map(|_| view! { <p class="small soft">{t!("ladder-ph_of_rinse")}</p> })}
        {form.view()}
        {move || outcome_line(form)}
        <SaveButton writer run />
        <details class="more">
            <summary>{t!("ladder-what_it_tells")}</summary>
            <p class="inside small">{t(can)}" "{t(cannot)}</p>
        </details>
    }
}
