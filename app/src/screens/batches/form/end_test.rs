//! A test that the pulp is clean: what was read, judged by the core.

use bleachfield_core::{
    journal::{Body, EndTest, EndTestOf, Outcome, ReadingOf},
    message::Field,
    pulp::sign_off::{self, Evidence, Reading, Test},
    quantity::{Basis, Kind, PH, grams_per_litre},
};
use leptos::prelude::*;

use super::{Save, Writing, Wrong, asks};
use crate::{
    components::{Ask, AskField, Choice, TextField},
    i18n::{key, render, sentence_case, t, t_with},
    screens::batches::telling::name_of,
};
use bleachfield_core::message::Message;

const TAP_PH: Field = Field("tap_ph");

#[component]
pub fn EndTestForm(writing: Writing) -> impl IntoView {
    let (gaps, tap) = writing.studio.book_now(|book| {
        let batch = book.batches.get(&writing.batch);
        let gaps = batch.map(|b| Evidence::of(b).gaps()).unwrap_or_default();
        (gaps, batch.and_then(tap_ph))
    });
    let first = gaps.first().map_or(Test::ChlorineStrip, |gap| gap.test);
    let test = RwSignal::new(first);
    let strip = asks::strip();
    let ph = Ask::new(PH, Kind::Ph);
    let tap = tap.map_or(Ask::new(TAP_PH, Kind::Ph), |tap| {
        Ask::new(TAP_PH, Kind::Ph).filled(crate::i18n::format_number(tap, 3))
    });
    let liquor_ph = Ask::new(asks::PH_SQUEEZED, Kind::Ph).optional();
    let seen = RwSignal::new(None::<bool>);
    let note = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    // What was read, once it is all there.
    let reading = move || {
        let strip = || strip.base().map(grams_per_litre);
        Some(match test.get() {
            Test::ChlorineStrip => Reading::ChlorineStrip { chlorine: strip()? },
            Test::PeroxideStrip => Reading::PeroxideStrip { peroxide: strip()? },
            Test::StarchIodide => {
                Reading::StarchIodide { turned: seen.get()?, liquor_ph: liquor_ph.base() }
            }
            Test::RinsePh => Reading::RinsePh { rinse: ph.base()?, tap: tap.base()? },
            Test::Feel => Reading::Feel { slippery: seen.get()? },
        })
    };
    let outcome = move || reading().map(|reading| reading.outcome());
    let unseen = Signal::derive(move || {
        (tried.get() && seen.get().is_none()).then(|| Message::new(key!("refusal-reading-empty")))
    });
    let run = Callback::new(move |()| {
        tried.set(true);
        let asked = match test.get_untracked() {
            Test::ChlorineStrip | Test::PeroxideStrip => vec![strip],
            Test::RinsePh => vec![ph, tap],
            Test::StarchIodide => vec![liquor_ph],
            Test::Feel => vec![],
        };
        if !asks::all_well(&asked) {
            return;
        }
        let Some(outcome) = outcome() else { return };
        let (test, figure) = match test.get_untracked() {
            Test::ChlorineStrip => {
                (EndTestOf::ChlorineStrip, asks::figure(strip, 1e-3, Basis::Strip))
            }
            Test::PeroxideStrip => {
                (EndTestOf::PeroxideStrip, asks::figure(strip, 1e-3, Basis::Strip))
            }
            Test::RinsePh => (EndTestOf::LastRinsePh, asks::figure(ph, 1.0, Basis::Strip)),
            Test::StarchIodide => (EndTestOf::StarchIodide, None),
            Test::Feel => (EndTestOf::Feel, None),
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
            <Choice label=t!("form-end_test-which") value=test
                options=Test::ALL.map(|test| (test, sentence_case(t(test.word())))).to_vec() />
            {move || {
                let (can, cannot) = test.get().tells();
                view! { <p class="soft small">{t(can)}" "{t(cannot)}</p> }
            }}
            {move || match test.get() {
                Test::ChlorineStrip | Test::PeroxideStrip => view! {
                    <AskField ask=strip hint=t!("form-end_test-strip_hint") />
                }.into_any(),
                Test::RinsePh => view! {
                    <AskField ask=ph label=t!("form-end_test-rinse_ph") />
                    <AskField ask=tap />
                }.into_any(),
                Test::StarchIodide => view! {
                    <Choice label=t!("form-reading-turned-label") value=seen options=vec![
                        (Some(false), t!("entry_line-not_turned")),
                        (Some(true), t!("entry_line-turned")),
                    ] />
                    <Wrong problem=unseen />
                    <AskField ask=liquor_ph />
                }.into_any(),
                Test::Feel => view! {
                    <Choice label=t!("form-end_test-feel-label") value=seen options=vec![
                        (Some(false), t!("form-end_test-feel-clean")),
                        (Some(true), t!("form-end_test-feel-slippery")),
                    ] />
                    <Wrong problem=unseen />
                }.into_any(),
            }}
            <p role="status">
                {move || outcome().map(|outcome| {
                    let outcome = name_of("outcome", &logged(outcome));
                    view! { <b>{t_with!("form-end_test-comes_to", &[("outcome", &outcome)])}</b> }
                })}
            </p>
            <TextField label=t!("form-note-optional") text=note />
            <Save writing run />
        </div>
    }
}

fn logged(outcome: sign_off::Outcome) -> Outcome {
    match outcome {
        sign_off::Outcome::Pass => Outcome::Passed,
        sign_off::Outcome::Fail => Outcome::Failed,
        sign_off::Outcome::TellsNothing => Outcome::Unclear,
    }
}

/// The last pH of the tap that this batch knows.
fn tap_ph(batch: &bleachfield_core::journal::Batch) -> Option<f64> {
    batch.told().rev().find_map(|told| match &told.body {
        Body::Reading(r) if r.what == ReadingOf::TapPh => r.figure.map(|f| f.value),
        _ => None,
    })
}
