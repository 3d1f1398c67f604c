//! Which strip a reading is of: named by what the batch has met, asked where it met both.

use bleachfield_core::{journal::StripOf, message::Message, pulp::sign_off::OxidantsUsed};
use leptos::prelude::*;

use crate::{
    components::{ChoiceError, NumberInput, RadioGroup},
    i18n::{key, t},
};

/// Copied freely.
#[derive(Clone, Copy)]
pub struct StripChoice {
    used: OxidantsUsed,
    /// Chosen by the person, where the batch met both.
    chosen: RwSignal<Option<StripOf>>,
    tried: RwSignal<bool>,
}

impl StripChoice {
    pub fn new(used: OxidantsUsed) -> Self {
        Self { used, chosen: RwSignal::new(None), tried: RwSignal::new(false) }
    }

    /// The only strip that is asked for; `None` if it may be either.
    fn only(self) -> Option<StripOf> {
        match (self.used.hypochlorite, self.used.peroxide) {
            (true, false) => Some(StripOf::AvailableChlorine),
            (false, true) => Some(StripOf::Peroxide),
            _ => None,
        }
    }

    /// The label of the strip's field.
    pub fn label(self) -> String {
        match self.only() {
            Some(StripOf::AvailableChlorine) => t!("ladder-chlorine_strip"),
            Some(StripOf::Peroxide) => t!("ladder-peroxide_strip"),
            None => t!("field-strip"),
        }
    }

    /// Which strip was read; untracked. `None` where none was read, or nobody said which.
    pub fn named(self, strip: NumberInput) -> Option<StripOf> {
        untrack(|| strip.base()).and_then(|_| self.only().or(self.chosen.get_untracked()))
    }

    /// Whether a strip that was read is named, where that is asked; marks it if not.
    pub fn is_chosen_for(self, strip: NumberInput) -> bool {
        self.tried.set(untrack(|| strip.base()).is_some());
        !untrack(|| self.is_missing())
    }

    fn is_missing(self) -> bool {
        let both = self.used.hypochlorite && self.used.peroxide;
        both && self.tried.get() && self.chosen.get().is_none()
    }

    /// The choice, where the batch met both.
    pub fn view(self) -> Option<AnyView> {
        let both = self.used.hypochlorite && self.used.peroxide;
        both.then(|| {
            view! {
                <RadioGroup label=t!("ladder-which_strip") value=self.chosen options=vec![
                    (Some(StripOf::AvailableChlorine), t!("reading-available_chlorine_mg_per_l")),
                    (Some(StripOf::Peroxide), t!("reading-peroxide_mg_per_l")),
                ] />
                <ChoiceError problem=Signal::derive(move || {
                    self.is_missing().then(|| Message::new(key!("refusal-not_chosen")))
                }) />
            }
            .into_any()
        })
    }
}
