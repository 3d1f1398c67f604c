//! An end test: what was read, and the verdict of the core.

use bleachfield_core::{
    chemistry::alkali::strip_ph,
    derive::{SignOffEvidence, WashRecord},
    journal::{Body, EndTest, EndTestOf, Figure, Outcome, Reading, ReadingOf},
    message::{Field, Message},
    pulp::sign_off::{EndTestKind, EndTestReading, EndTestVerdict},
    quantity::{PH, QuantityKind, grams_per_litre},
};
use leptos::prelude::*;

use super::{BatchWriter, SaveButton, all_valid, inputs, ph_figure, strip_figure, trimmed};
use crate::{
    components::{
        ChoiceError, NumberField, NumberInput, RadioGroup, RecordedInput, StripReading, Term,
        TextField,
    },
    i18n::{key, render, sentence_case, t, t_with},
    screens::batches::entry::name_of,
};

const TAP_PH: Field = Field("tap_ph");

#[component]
pub fn EndTestForm(writer: BatchWriter) -> impl IntoView {
    let known = writer.read(|book, batch| {
        let unmet = SignOffEvidence::of(batch).unmet_tests();
        (unmet, WashRecord::of(book, batch).readings.tap_ph)
    });
    let (unmet, tap_ph) = known.unwrap_or_default();
    let form = EndTestInputs::new(None, tap_ph, None);
    let note = RwSignal::new(String::new());
    let run = Callback::new(move |()| form.save(writer, note));
    let unmet = unmet.iter().map(|unmet| view! { <li>{render(&unmet.message())}</li> });
    let tests = EndTestKind::ALL.map(|test| (Some(test), sentence_case(t(test.word()))));
    view! {
        <div class="stack">
            <ul>{unmet.collect_view()}</ul>
            <RadioGroup label=t!("form-end_test-which") value=form.test options=tests.to_vec() />
            <ChoiceError problem=Signal::derive(move || form.no_test()) />
            {move || form.test.get().map(|test| {
                let (can, cannot) = test.tells();
                view! { <p class="soft small">{t(can)}" "{t(cannot)}</p> }
            })}
            {move || form.view()}
            {move || outcome_line(form)}
            <TextField label=t!("form-note-optional") text=note />
            <SaveButton writer run />
        </div>
    }
}

/// What the test comes to, once it is read. Tracks the inputs.
pub fn outcome_line(form: EndTestInputs) -> AnyView {
    let outcome = form.outcome().map(|outcome| {
        let outcome = name_of("outcome", outcome);
        view! { <b>{t_with!("form-end_test-comes_to", &[("outcome", &outcome)])}</b> }
    });
    view! { <p role="status">{outcome}</p> }.into_any()
}

/// The inputs of all kinds of test. Copied freely.
#[derive(Clone, Copy)]
pub struct EndTestInputs {
    /// Chosen by the person: a strip of one kind must not be recorded as the other.
    test: RwSignal<Option<EndTestKind>>,
    strip: NumberInput,
    /// Filled in from the last rinse.
    rinse_ph: RecordedInput<Figure>,
    tap_ph: RecordedInput<Figure>,
    liquor_ph: NumberInput,
    /// Whether the paper turned, or the pulp feels slippery.
    yes: RwSignal<Option<bool>>,
    tried: RwSignal<bool>,
}

impl EndTestInputs {
    /// `test` is the one to do, if it is settled; pH of the tap and of the last rinse are filled
    /// in where they were read.
    pub fn new(
        test: Option<EndTestKind>,
        tap_ph: Option<Figure>,
        rinse_ph: Option<Figure>,
    ) -> Self {
        let rinse = NumberInput::new(PH, QuantityKind::Ph);
        let tap = NumberInput::new(TAP_PH, QuantityKind::Ph);
        Self {
            test: RwSignal::new(test),
            strip: inputs::strip_input(),
            rinse_ph: RecordedInput::new(rinse, rinse_ph, |ph| ph.value),
            tap_ph: RecordedInput::new(tap, tap_ph, |ph| ph.value),
            liquor_ph: NumberInput::new(inputs::PH_SQUEEZED, QuantityKind::Ph).optional(),
            yes: RwSignal::new(None),
            tried: RwSignal::new(false),
        }
    }

    /// The reading; `None` while it is incomplete.
    fn reading(self) -> Option<EndTestReading> {
        let strip = || self.strip.base().map(grams_per_litre);
        Some(match self.test.get()? {
            EndTestKind::ChlorineStrip => EndTestReading::ChlorineStrip { chlorine: strip()? },
            EndTestKind::PeroxideStrip => EndTestReading::PeroxideStrip { peroxide: strip()? },
            EndTestKind::StarchIodide => EndTestReading::StarchIodide {
                turned: self.yes.get()?,
                liquor_ph: self.liquor_ph.base(),
            },
            EndTestKind::RinsePh => EndTestReading::RinsePh {
                rinse: self.rinse_ph.get(strip_ph)?.value,
                tap: self.tap_ph.get(strip_ph)?.value,
            },
            EndTestKind::Feel => EndTestReading::Feel { slippery: self.yes.get()? },
        })
    }

    fn outcome(self) -> Option<Outcome> {
        self.reading().map(|reading| outcome_of(reading.verdict()))
    }

    /// Writes the test; a pH of the tap that nobody noted yet is noted with it.
    pub fn save(self, writer: BatchWriter, note: RwSignal<String>) {
        self.tried.set(true);
        let Some((test, asked, figure)) = self.entry_parts() else { return };
        if !all_valid(&asked) {
            return;
        }
        let Some(outcome) = untrack(|| self.outcome()) else { return };
        let mut bodies = Vec::new();
        if test == EndTestOf::LastRinsePh && untrack(|| self.tap_ph.known()).is_none() {
            let figure = ph_figure(self.tap_ph.input, true);
            let what = ReadingOf::TapPh;
            bodies.push(Body::Reading(Reading { bath: None, what, figure, text: String::new() }));
        }
        let test = EndTest { test, outcome, figure, note: trimmed(note) };
        bodies.push(Body::EndTest(test));
        writer.save_all(bodies);
    }

    /// That no test was chosen, once one was to be saved.
    fn no_test(self) -> Option<Message> {
        (self.tried.get() && self.test.get().is_none())
            .then(|| Message::new(key!("refusal-not_chosen")))
    }

    /// The test as an entry names it, the inputs that it needs, and the figure to record; `None`
    /// while no test is chosen.
    fn entry_parts(self) -> Option<(EndTestOf, Vec<NumberInput>, Option<Figure>)> {
        let strip = || (vec![self.strip], strip_figure(self.strip));
        let (test, (asked, figure)) = match self.test.get_untracked()? {
            EndTestKind::ChlorineStrip => (EndTestOf::ChlorineStrip, strip()),
            EndTestKind::PeroxideStrip => (EndTestOf::PeroxideStrip, strip()),
            EndTestKind::RinsePh => {
                let figure = untrack(|| self.rinse_ph.get(strip_ph));
                let asked = vec![self.rinse_ph.input, self.tap_ph.input];
                (EndTestOf::LastRinsePh, (asked, figure))
            }
            EndTestKind::StarchIodide => (EndTestOf::StarchIodide, (vec![self.liquor_ph], None)),
            EndTestKind::Feel => (EndTestOf::Feel, (Vec::new(), None)),
        };
        Some((test, asked, figure))
    }

    pub fn view(self) -> AnyView {
        let Some(test) = self.test.get() else { return ().into_any() };
        match test {
            EndTestKind::ChlorineStrip | EndTestKind::PeroxideStrip => view! {
                <NumberField ask=self.strip hint=t!("form-end_test-strip_hint")
                    term=Term::Oxidant />
                <details class="more">
                    <summary>{t!("drawing-strip_head")}</summary>
                    <div class="inside"><StripReading /></div>
                </details>
            }
            .into_any(),
            EndTestKind::RinsePh => view! {
                <NumberField ask=self.rinse_ph.input label=t!("form-end_test-rinse_ph") />
                <NumberField ask=self.tap_ph.input />
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
