//! The measured values of the person's own reference card.

use bleachfield_core::{
    journal::{Body, CardRole, ReferenceCard, Subject},
    message::Field,
    quantity::{Basis, Estimate, QuantityKind},
};
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::{
    components::{NumberField, NumberInput, TextField, to_first_wrong},
    i18n::{fixed, key, t, t_with},
    state::AppState,
};

const LIGHTNESS: Field = Field("card_lightness");
const A: Field = Field("card_a");
const B: Field = Field("card_b");

/// The card's values, or the fields for them.
pub fn view(studio: AppState, role: CardRole) -> AnyView {
    let card = Memo::new(move |_| studio.book(|book| book.studio.cards.get(&role).cloned()));
    let editing = RwSignal::new(false);
    (move || match card.get().filter(|_| !editing.get()) {
        Some(card) => {
            let [l, a, b] = [card.lightness, card.a, card.b].map(|f| fixed(f.value, 1));
            let text = t_with!(
                "swatch-card-is",
                &[("name", &card.name), ("l", &l), ("a", &a), ("b", &b)],
            );
            view! {
                <div class="row apart">
                    <p class="small grow">{text}</p>
                    <button class="button bare" type="button" on:click=move |_| editing.set(true)>
                        {t!("swatch-card-change")}
                    </button>
                </div>
            }
            .into_any()
        }
        None => form(studio, role, editing),
    })
    .into_any()
}

fn form(studio: AppState, role: CardRole, editing: RwSignal<bool>) -> AnyView {
    let name = RwSignal::new(t(match role {
        CardRole::White => key!("swatch-card-white"),
        CardRole::Grey => key!("swatch-card-grey"),
    }));
    let lightness = NumberInput::new(LIGHTNESS, QuantityKind::Number).between(1.0, 100.0);
    let [a, b] =
        [A, B].map(|field| NumberInput::new(field, QuantityKind::Number).between(-20.0, 20.0));
    let save = move |_| {
        if [lightness, a, b].map(NumberInput::try_now) != [true; 3] {
            return to_first_wrong();
        }
        let figure =
            |ask: NumberInput| Estimate::exact(ask.base().unwrap_or_default(), Basis::Label);
        let card = ReferenceCard {
            role,
            name: name.get_untracked().trim().to_owned(),
            lightness: figure(lightness),
            a: figure(a),
            b: figure(b),
        };
        spawn_local(async move {
            if studio.write(Subject::Studio, Body::ReferenceCard(card)).await.is_some() {
                editing.try_set(false);
            }
        });
    };
    view! {
        <div class="stack">
            <p class="small">{t!("swatch-card-once")}</p>
            <TextField label=t!("swatch-card-name") text=name />
            <NumberField ask=lightness hint=t!("swatch-card-lightness_hint") />
            <div class="row even top"><NumberField ask=a /><NumberField ask=b /></div>
            <button class="button soft" type="button" on:click=save>{t!("swatch-card-save")}</button>
        </div>
    }
    .into_any()
}
