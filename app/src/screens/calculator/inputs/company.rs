//! What else is in a bath, or touches it: ticked where it clashes with the bleach.

use bleachfield_core::{bath::Oxidant, chemistry::compatibility::Ingredient};
use leptos::prelude::*;

use crate::i18n::{sentence_case, t};

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct CoSolutesForm(RwSignal<Vec<Ingredient>>);

impl CoSolutesForm {
    pub fn new() -> Self {
        Self(RwSignal::new(Vec::new()))
    }

    /// What is ticked and shown for this bleach.
    pub fn with(self, oxidant: Oxidant) -> Vec<Ingredient> {
        self.0.with(|ticked| offers(oxidant).filter(|one| ticked.contains(one)).collect())
    }

    /// Unticks one.
    pub fn leave_out(self, what: Ingredient) {
        self.0.update(|ticked| ticked.retain(|one| *one != what));
    }

    /// The ticks for this bleach, behind one press.
    pub fn view(self, oxidant: Oxidant) -> AnyView {
        let ticked = self.0;
        let tick = move |what: Ingredient| {
            let set = move |event| {
                let on = event_target_checked(&event);
                ticked.update(|ticked| {
                    ticked.retain(|one| *one != what);
                    if on {
                        ticked.push(what);
                    }
                });
            };
            view! {
                <label class="tick">
                    <input type="checkbox" prop:checked=move || ticked.with(|t| t.contains(&what))
                        on:change=set />
                    <span>{sentence_case(t(what.key()))}</span>
                </label>
            }
        };
        let open = self.0.with_untracked(|ticked| !ticked.is_empty());
        view! {
            <details class="more" open=open>
                <summary>{t!("company-head")}</summary>
                <div class="inside">{offers(oxidant).map(tick).collect_view()}</div>
            </details>
        }
        .into_any()
    }
}

fn offers(oxidant: Oxidant) -> impl Iterator<Item = Ingredient> {
    let bleach = match oxidant {
        Oxidant::Hypochlorite => Ingredient::Hypochlorite,
        Oxidant::Percarbonate => Ingredient::Percarbonate,
        Oxidant::Peroxide => Ingredient::Peroxide,
    };
    bleach.clashing()
}
