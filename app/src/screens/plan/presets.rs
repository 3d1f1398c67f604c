//! Values that a plan begins with, marked until a person changes them.

use bleachfield_core::{
    bath::{Oxidant, Preset, PresetKind, preset},
    derive::last_started_plan,
    journal::PlanRecord,
    quantity::in_share,
};
use leptos::prelude::*;

use super::aim_form::AimForm;
use crate::{
    components::{NumberField, NumberInput, RadioGroup, Term},
    i18n::t,
    state::app_state,
};

/// Where the values come from.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum PresetChoice {
    Of(PresetKind),
    LastTime,
}

pub const USUAL: PresetChoice = PresetChoice::Of(PresetKind::Usual);

/// A number that a preset fills in. Copies share their signals.
#[derive(Clone, Copy)]
pub struct PresetInput {
    pub input: NumberInput,
    /// A preset filled it in.
    by_preset: RwSignal<bool>,
}

impl PresetInput {
    pub fn new(input: NumberInput) -> Self {
        Self { input, by_preset: RwSignal::new(false) }
    }

    /// Fills in a value that nobody said, in the usual unit of the input.
    pub fn fill(self, value: f64) {
        self.by_preset.set(true);
        self.input.fill(value);
    }

    /// As [`Self::fill`], unless a person changed the text.
    pub fn refill(self, value: f64) {
        if untrack(|| self.is_filled()) {
            self.fill(value);
        }
    }

    /// Sets a value that a person decided on.
    pub fn set(self, value: f64) {
        self.by_preset.set(false);
        self.input.fill(value);
    }

    /// Whether the text is that of a preset. Tracked.
    pub fn is_filled(self) -> bool {
        self.by_preset.get() && self.input.is_as_filled()
    }

    /// The field, with a mark while its value was filled in.
    pub fn field(
        self,
        label: String,
        hint: Signal<String>,
        refused: Signal<Option<bleachfield_core::message::Message>>,
        term: Option<Term>,
    ) -> AnyView {
        let filled = Memo::new(move |_| self.is_filled());
        view! {
            <div class="plan-field">
                {match term {
                    Some(term) => view! { <NumberField ask=self.input label refused term /> }.into_any(),
                    None => view! { <NumberField ask=self.input label refused /> }.into_any(),
                }}
                <span class="hint">
                    {move || filled.get().then(|| view! {
                        <span class="assumed">{t!("plan-filled")}</span>
                    })}
                    " "{move || hint.get()}
                </span>
            </div>
        }
        .into_any()
    }
}

/// The plan of the last bath with this oxidant. Tracked.
pub fn last_time(oxidant: Oxidant) -> Option<PlanRecord> {
    app_state().book(|book| last_started_plan(book, oxidant.into()).cloned())
}

impl AimForm {
    /// Fills in all values of a choice, as a person asked.
    pub fn choose(self, choice: PresetChoice, oxidant: Oxidant) {
        match choice {
            PresetChoice::Of(kind) => self.each(&preset(kind, oxidant), PresetInput::fill),
            PresetChoice::LastTime => {
                if let Some(record) = untrack(|| last_time(oxidant)) {
                    self.fill_as_before(&record);
                }
            }
        }
    }

    /// Takes the values of another oxidant, except those that a person changed.
    pub fn change_oxidant(self, oxidant: Oxidant) {
        match self.preset.get_untracked() {
            PresetChoice::Of(kind) => self.each(&preset(kind, oxidant), PresetInput::refill),
            PresetChoice::LastTime => {
                // Values of another oxidant's last bath are not this one's.
                self.preset_by_form.set_value(true);
                self.preset.set(USUAL);
                self.each(&preset(PresetKind::Usual, oxidant), PresetInput::refill);
            }
        }
    }

    fn each(self, preset: &Preset, set: impl Fn(PresetInput, f64)) {
        set(self.charge, in_share(preset.charge) * 100.0);
        set(self.consistency, in_share(preset.consistency) * 100.0);
        set(self.temperature, preset.celsius);
        set(self.minutes, preset.minutes);
    }

    /// The choice of a preset, and its effects.
    pub fn preset_choice(self, oxidant: Memo<Oxidant>) -> AnyView {
        Effect::new(move |before: Option<Oxidant>| {
            let now = oxidant.get();
            if before.is_some_and(|before| before != now) {
                self.change_oxidant(now);
            }
            now
        });
        Effect::new(move |before: Option<PresetChoice>| {
            let now = self.preset.get();
            let by_form = self.preset_by_form.get_value();
            self.preset_by_form.set_value(false);
            if before.is_some_and(|before| before != now) && !by_form {
                self.choose(now, oxidant.get_untracked());
            }
            now
        });
        let has_last = Memo::new(move |_| last_time(oxidant.get()).is_some());
        view! {
            {move || {
                let mut options = vec![
                    (USUAL, t!("plan-preset_usual")),
                    (PresetChoice::Of(PresetKind::Gentle), t!("plan-preset_gentle")),
                ];
                if has_last.get() {
                    options.push((PresetChoice::LastTime, t!("plan-preset_last")));
                }
                view! { <RadioGroup label=t!("plan-preset") value=self.preset options /> }
            }}
        }
        .into_any()
    }
}
