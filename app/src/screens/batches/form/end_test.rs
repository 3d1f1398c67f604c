//! A test that the pulp is clean: what was read, judged by the core.

use bleachfield_core::{
    derive::SignOffEvidence,
    journal::{Body, EndTest, EndTestOf, Outcome, ReadingOf},
    message::Field,
    pulp::sign_off::{self, EndTestKind, EndTestReading},
    quantity::{Basis, PH, QuantityKind, grams_per_litre},
};
use leptos::prelude::*;

use super::{BatchWriter, FieldError, Save, asks};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, TextField},
    i18n::{key, render, sentence_case, t, t_with},
    screens::batches::telling::name_of,
};
use bleachfield_core::message::Message;

const TAP_PH: Field = Field("tap_ph");

#[component]
pub fn EndTestForm(writing: BatchWriter) -> impl IntoView {
    let (gaps, tap) = writing.studio.book_now(|book| {
        let batch = book.batches.get(&writing.batch);
        let gaps = batch.map(|b| SignOffEvidence::of(b).unmet_tests()).unwrap_or_default();
        (gaps, batch.and_then(tap_ph))
    });
    let first = gaps.first().map_or(EndTestKind::ChlorineStrip, |gap| gap.test);
    let test = RwSignal::new(first);
    let strip = asks::strip();
    let ph = NumberInput::new(PH, QuantityKind::Ph);
    let tap = tap.map_or(NumberInput::new(TAP_PH, QuantityKind::Ph), |tap| {
        NumberInput::new(TAP_PH, QuantityKind::Ph).filled(crate::i18n::format_number(tap, 3))
    });
    let liquor_ph = NumberInput::new(asks::PH_SQUEEZED, QuantityKind::Ph).optional();
    let seen = RwSignal::new(None::<bool>);
    let note = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    // What was read, once it is all there.
    let reading = move || {
        let strip = || strip.base().map(grams_per_litre);
        Some(match test.get() {
            EndTestKind::ChlorineStrip => EndTestReading::ChlorineStrip { chlorine: strip()? },
            EndTestKind::PeroxideStrip => EndTestReading::PeroxideStrip { peroxide: strip()? },
            EndTestKind::StarchIodide => {
                EndTestReading::StarchIodide { turned: seen.get()?, liquor_ph: liquor_ph.base() }
            }
            EndTestKind::RinsePh => EndTestReading::RinsePh { rinse: ph.base()?, tap: tap.base()? },
            EndTestKind::Feel => EndTestReading::Feel { slippery: seen.get()? },
        })
    };
    let outcome = move || reading().map(|reading| reading.verdict());
    let unseen = Signal::derive(move || {
        (tried.get() && seen.get().is_none()).then(|| Message::new(key!("refusal-reading-empty")))
    });
    let run = Callback::new(move |()| {
        tried.set(true);
        let asked = match test.get_untracked() {
            EndTestKind::ChlorineStrip | EndTestKind::PeroxideStrip => vec![strip],
            EndTestKind::RinsePh => vec![ph, tap],
            EndTestKind::StarchIodide => vec![liquor_ph],
            EndTestKind::Feel => vec![],
        };
        if !asks::all_well(&asked) {
            return;
        }
        let Some(outcome) = outcome() else { return };
        let (test, figure) = match test.get_untracked() {
            EndTestKind::ChlorineStrip => {
                (EndTestOf::ChlorineStrip, asks::figure(strip, 1e-3, Basis::Strip))
            }
            EndTestKind::PeroxideStrip => {
                (EndTestOf::PeroxideStrip, asks::figure(strip, 1e-3, Basis::Strip))
            }
            EndTestKind::RinsePh => (EndTestOf::LastRinsePh, asks::figure(ph, 1.0, Basis::Strip)),
            EndTestKind::StarchIodide => (EndTestOf::StarchIodide, None),
            EndTestKind::Feel => (EndTestOf::Feel, None),
        };
        writing.save(Body::EndTest(EndTest {
            test,
            outcome: logged(outcome),
            figure,
            note: note.get_untracked().trim().to_owned(),
        }));
    });
    let gaps =
        gaps.into_iter().map(|gap| view! { <li>{render(&gap.message())}</li> }).collect_view();
    view! {
        <div class="stack">
            <ul>{gaps}</ul>
            <RadioGroup label=t!("form-end_test-which") value=test
                options=EndTestKind::ALL.map(|test| (test, sentence_case(t(test.word())))).to_vec() />
            {move || {
                let (can, cannot) = test.get().tells();
                view! { <p class="soft small">{t(can)}" "{t(cannot)}</p> }
            }}
            {move || match test.get() {
                EndTestKind::ChlorineStrip | EndTestKind::PeroxideStrip => view! {
                    <NumberField ask=strip hint=t!("form-end_test-strip_hint") />
                }.into_any(),
                EndTestKind::RinsePh => view! {
                    <NumberField ask=ph label=t!("form-end_test-rinse_ph") />
                    <NumberField ask=tap />
                }.into_any(),
                EndTestKind::StarchIodide => view! {
                    <RadioGroup label=t!("form-reading-turned-label") value=seen options=vec![
                        (Some(false), t!("entry_line-not_turned")),
                        (Some(true), t!("entry_line-turned")),
                    ] />
                    <FieldError problem=unseen />
                    <NumberField ask=liquor_ph />
                }.into_any(),
                EndTestKind::Feel => view! {
                    <RadioGroup label=t!("form-end_test-feel-label") value=seen options=vec![
                        (Some(false), t!("form-end_test-feel-clean")),
                        (Some(true), t!("form-end_test-feel-slippery")),
                    ] />
                    <FieldError problem=unseen />
                }.into_any(),
            }}
            <p role="status">
                {move || outcome().map(|outcome| {
                    let outcome = name_of("outcome", logged(outcome));
                    view! { <b>{t_with!("form-end_test-comes_to", &[("outcome", &outcome)])}</b> }
                })}
            </p>
            <TextField label=t!("form-note-optional") text=note />
            <Save writing run />
        </div>
    }
}

fn logged(outcome: sign_off::EndTestVerdict) -> Outcome {
    match outcome {
        sign_off::EndTestVerdict::Pass => Outcome::Passed,
        sign_off::EndTestVerdict::Fail => Outcome::Failed,
        sign_off::EndTestVerdict::Inconclusive => Outcome::Unclear,
    }
}

/// The last pH of the tap that this batch knows.
fn tap_ph(batch: &bleachfield_core::journal::Batch) -> Option<f64> {
    batch.visible_entries().rev().find_map(|told| match &told.body {
        Body::Reading(r) if r.what == ReadingOf::TapPh => r.figure.map(|f| f.value),
        _ => None,
    })
}
