//! What the references and the light are, as the person says; remembered on this phone.

use bleachfield_core::{colour::reference::Light, journal::CardRole};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use super::{MeasureState, card, slot::GREY};
use crate::{
    components::{Assumed, RadioGroup},
    i18n::t,
    platform::local_storage,
};

const KEY: &str = "bleachfield.colour";

/// What was used last.
#[derive(Serialize, Deserialize)]
struct LastUsed {
    own_white: bool,
    own_grey: bool,
    light: Light,
}

/// Own white, own grey, light: as last time.
pub fn remembered() -> (bool, bool, Light) {
    let used = local_storage::get::<LastUsed>(KEY);
    used.map_or((false, false, Light::Daylight), |u| (u.own_white, u.own_grey, u.light))
}

pub fn remember(own_white: bool, own_grey: bool, light: Light) {
    local_storage::set(KEY, &LastUsed { own_white, own_grey, light });
}

pub fn view(measuring: MeasureState) -> AnyView {
    let grey = Memo::new(move |_| measuring.marks.get().0[GREY].is_some());
    let said = |key: &str| t(&format!("swatch-reference-{key}"));
    let light = measuring.light;
    let choose = move |event| {
        let key = event_target_value(&event);
        light.set(Light::ALL.into_iter().find(|l| l.key() == key).unwrap_or(Light::Daylight));
    };
    let lights = Light::ALL.map(|one| {
        view! {
            <option value=one.key() selected=move || light.get() == one>{t(one.key())}</option>
        }
    });
    view! {
        <section class="card stack">
            <RadioGroup label=said("white") value=measuring.own_white
                options=vec![(false, said("copy_paper")), (true, said("own_card"))] />
            {move || if measuring.own_white.get() {
                card::view(measuring.studio, CardRole::White)
            } else {
                view! { <p class="small"><Assumed />" "{said("copy_paper_is")}</p> }.into_any()
            }}
            {move || grey.get().then(|| view! {
                <RadioGroup label=said("grey") value=measuring.own_grey
                    options=vec![(false, said("grey_18")), (true, said("own_card"))] />
                {move || measuring.own_grey.get().then(|| card::view(measuring.studio, CardRole::Grey))}
            })}
            <div class="field">
                <label for="colour-light">{said("light")}</label>
                <select id="colour-light" on:change=choose>{lights.into_iter().collect_view()}</select>
            </div>
        </section>
    }
    .into_any()
}
