//! Other ingredients of a bath, and materials it touches, that clash with the bleach.

use bleachfield_core::{bath::Oxidant, chemistry::compatibility::Ingredient};
use leptos::prelude::*;

use crate::i18n::{sentence_case, t};

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct CoSolutesForm(RwSignal<Vec<Ingredient>>);

impl CoSolutesForm {
    pub fn new() -> Self {
        Self(RwSignal::new(Vec::new()))
    }

    /// The ticked ingredients among those offered for this bleach.
    pub fn with(self, oxidant: Oxidant) -> Vec<Ingredient> {
        self.0.with(|ticked| offered(oxidant).filter(|one| ticked.contains(one)).collect())
    }

    /// Unticks one.
    pub fn leave_out(self, ingredient: Ingredient) {
        self.0.update(|ticked| ticked.retain(|one| *one != ingredient));
    }

    /// The checkboxes for this bleach, folded.
    pub fn view(self, oxidant: Oxidant) -> AnyView {
        let checkbox = move |ingredient: Ingredient| {
            let set = move |event| {
                self.leave_out(ingredient);
                if event_target_checked(&event) {
                    self.0.update(|ticked| ticked.push(ingredient));
                }
            };
            view! {
                <label class="tick">
                    <input type="checkbox" on:change=set
                        prop:checked=move || self.0.with(|ticked| ticked.contains(&ingredient)) />
                    <span>{sentence_case(t(ingredient.key()))}</span>
                </label>
            }
        };
        let open = self.0.with_untracked(|ticked| !ticked.is_empty());
        view! {
            <details class="more" open=open>
                <summary>{t!("company-head")}</summary>
                <div class="inside">{offered(oxidant).map(checkbox).collect_view()}</div>
            </details>
        }
        .into_any()
    }
}

fn offered(oxidant: Oxidant) -> impl Iterator<Item = Ingredient> {
    let bleach = match oxidant {
        Oxidant::Hypochlorite => Ingredient::Hypochlorite,
        Oxidant::Percarbonate => Ingredient::Percarbonate,
        Oxidant::Peroxide => Ingredient::Peroxide,
    };
    bleach.clashing()
}
