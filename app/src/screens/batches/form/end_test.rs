//! An end test: what was read, and the verdict of the core.

use bleachfield_core::{
    derive::SignOffEvidence,
    journal::{Batch, Body, EndTest, EndTestOf, Figure, Outcome, ReadingOf},
    message::{Field, Message},
    pulp::sign_off::{EndTestKind, EndTestReading, EndTestVerdict},
    quantity::{Basis, PH, QuantityKind, grams_per_litre},
};
use leptos::prelude::*;

use super::{
    BatchWriter, ChoiceError, SaveButton, all_valid, figure, inputs, strip_figure, trimmed,
};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, TextField},
    i18n::{format_number, key, render, sentence_case, t, t_with},
    screens::batches::entry::name_of,
};

const TAP_PH: Field = Field("tap_ph");

#[component]
pub fn EndTestForm(writer: BatchWriter) -> impl IntoView {
    let (unmet, tap_ph) = writer
        .read(|_, batch| (SignOffEvidence::of(batch).unmet_tests(), tap_ph(batch)))
        .unwrap_or_default();
    let first = unmet.first().map_or(EndTestKind::ChlorineStrip, |unmet| unmet.test);
    let form = EndTestInputs::new(first, tap_ph);
    let note = RwSignal::new(String::new());
    let outcome = move || form.reading().map(|reading| outcome_of(reading.verdict()));
    let run = Callback::new(move |()| {
        form.tried.set(true);
        let (test, asked, figure) = form.entry_parts();
        if !all_valid(&asked) {
            return;
        }
        let Some(outcome) = outcome() else { return };
        writer.save(Body::EndTest(EndTest { test, outcome, figure, note: trimmed(note) }));
    });
    let unmet = unmet.iter().map(|unmet| view! { <li>{render(&unmet.message())}</li> });
    let tests = EndTestKind::ALL.map(|test| (test, sentence_case(t(test.word()))));
    view! {
        <div class="stack">
            <ul>{unmet.collect_view()}</ul>
            <RadioGroup label=t!("form-end_test-which") value=form.test options=tests.to_vec() />
            {move || {
                let (can, cannot) = form.test.get().tells();
                view! { <p class="soft small">{t(can)}" "{t(cannot)}</p> }
            }}
            {move || form.view()}
            <p role="status">
                {move || outcome().map(|outcome| {
                    let outcome = name_of("outcome", outcome);
                    view! { <b>{t_with!("form-end_test-comes_to", &[("outcome", &outcome)])}</b> }
                })}
            </p>
            <TextField label=t!("form-note-optional") text=note />
            <SaveButton writer run />
        </div>
    }
}

/// The inputs of all kinds of test. Copied freely.
#[derive(Clone, Copy)]
struct EndTestInputs {
    test: RwSignal<EndTestKind>,
    strip: NumberInput,
    rinse_ph: NumberInput,
    tap_ph: NumberInput,
    liquor_ph: NumberInput,
    /// Whether the paper turned, or the pulp feels slippery.
    yes: RwSignal<Option<bool>>,
    tried: RwSignal<bool>,
}

impl EndTestInputs {
    fn new(test: EndTestKind, tap_ph: Option<f64>) -> Self {
        let tap_ph = tap_ph.map(|ph| format_number(ph, 3)).unwrap_or_default();
        Self {
            test: RwSignal::new(test),
            strip: inputs::strip_input(),
            rinse_ph: NumberInput::new(PH, QuantityKind::Ph),
            tap_ph: NumberInput::new(TAP_PH, QuantityKind::Ph).filled(tap_ph),
            liquor_ph: NumberInput::new(inputs::PH_SQUEEZED, QuantityKind::Ph).optional(),
            yes: RwSignal::new(None),
            tried: RwSignal::new(false),
        }
    }

    /// The reading; `None` while it is incomplete.
    fn reading(self) -> Option<EndTestReading> {
        let strip = || self.strip.base().map(grams_per_litre);
        Some(match self.test.get() {
            EndTestKind::ChlorineStrip => EndTestReading::ChlorineStrip { chlorine: strip()? },
            EndTestKind::PeroxideStrip => EndTestReading::PeroxideStrip { peroxide: strip()? },
            EndTestKind::StarchIodide => EndTestReading::StarchIodide {
                turned: self.yes.get()?,
                liquor_ph: self.liquor_ph.base(),
            },
            EndTestKind::RinsePh => {
                EndTestReading::RinsePh { rinse: self.rinse_ph.base()?, tap: self.tap_ph.base()? }
            }
            EndTestKind::Feel => EndTestReading::Feel { slippery: self.yes.get()? },
        })
    }

    /// The test as an entry names it, the inputs that it needs, and the figure to record.
    fn entry_parts(self) -> (EndTestOf, Vec<NumberInput>, Option<Figure>) {
        let strip = || (vec![self.strip], strip_figure(self.strip));
        let (test, (asked, figure)) = match self.test.get_untracked() {
            EndTestKind::ChlorineStrip => (EndTestOf::ChlorineStrip, strip()),
            EndTestKind::PeroxideStrip => (EndTestOf::PeroxideStrip, strip()),
            EndTestKind::RinsePh => {
                let figure = figure(self.rinse_ph, Basis::Strip);
                (EndTestOf::LastRinsePh, (vec![self.rinse_ph, self.tap_ph], figure))
            }
            EndTestKind::StarchIodide => (EndTestOf::StarchIodide, (vec![self.liquor_ph], None)),
            EndTestKind::Feel => (EndTestOf::Feel, (Vec::new(), None)),
        };
        (test, asked, figure)
    }

    fn view(self) -> AnyView {
        match self.test.get() {
            EndTestKind::ChlorineStrip | EndTestKind::PeroxideStrip => view! {
                <NumberField ask=self.strip hint=t!("form-end_test-strip_hint") />
            }
            .into_any(),
            EndTestKind::RinsePh => view! {
                <NumberField ask=self.rinse_ph label=t!("form-end_test-rinse_ph") />
                <NumberField ask=self.tap_ph />
            }
            .into_any(),
            EndTestKind::StarchIodide => view! {
                {self.yes_or_no(
                    t!("form-reading-turned-label"),
                    t!("entry_line-not_turned"),
                    t!("entry_line-turned"),
                )}
                <NumberField ask=self.liquor_ph />
            }
            .into_any(),
            EndTestKind::Feel => self
                .yes_or_no(
                    t!("form-end_test-feel-label"),
                    t!("form-end_test-feel-clean"),
                    t!("form-end_test-feel-slippery"),
                )
                .into_any(),
        }
    }

    fn yes_or_no(self, label: String, no: String, yes: String) -> impl IntoView {
        let problem = Signal::derive(move || {
            (self.tried.get() && self.yes.get().is_none())
                .then(|| Message::new(key!("refusal-reading-empty")))
        });
        view! {
            <RadioGroup label value=self.yes options=vec![(Some(false), no), (Some(true), yes)] />
            <ChoiceError problem />
        }
    }
}

fn outcome_of(verdict: EndTestVerdict) -> Outcome {
    match verdict {
        EndTestVerdict::Pass => Outcome::Passed,
        EndTestVerdict::Fail => Outcome::Failed,
        EndTestVerdict::Inconclusive => Outcome::Unclear,
    }
}

/// The last pH of the tap water in the batch's entries.
fn tap_ph(batch: &Batch) -> Option<f64> {
    batch.visible_entries().rev().find_map(|entry| match &entry.body {
        Body::Reading(r) if r.what == ReadingOf::TapPh => r.figure.map(|f| f.value),
        _ => None,
    })
}
