//! What the white and grey references and the light are; remembered on this phone.

use bleachfield_core::{colour::reference::Light, journal::CardRole};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use super::{MeasureState, reference_card, slot::GREY};
use crate::{
    components::{Assumed, RadioGroup},
    i18n::t,
    platform::local_storage,
};

const KEY: &str = "bleachfield.colour";

/// References and light of a measurement.
#[derive(Serialize, Deserialize)]
pub struct References {
    pub own_white: bool,
    pub own_grey: bool,
    pub light: Light,
}

impl References {
    pub fn last_used() -> Self {
        local_storage::get(KEY).unwrap_or(Self {
            own_white: false,
            own_grey: false,
            light: Light::Daylight,
        })
    }

    pub fn remember(&self) {
        local_storage::set(KEY, self);
    }
}

pub(super) fn view(measuring: MeasureState) -> AnyView {
    let grey = Memo::new(move |_| measuring.marks.get().0[GREY].is_some());
    let text = |key: &str| t(&format!("swatch-reference-{key}"));
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
            <RadioGroup label=text("white") value=measuring.own_white
                options=vec![(false, text("copy_paper")), (true, text("own_card"))] />
            {move || if measuring.own_white.get() {
                reference_card::view(measuring.studio, CardRole::White)
            } else {
                view! { <p class="small"><Assumed />" "{text("copy_paper_is")}</p> }.into_any()
            }}
            {move || grey.get().then(|| view! {
                <RadioGroup label=text("grey") value=measuring.own_grey
                    options=vec![(false, text("grey_18")), (true, text("own_card"))] />
                {move || measuring.own_grey.get().then(|| reference_card::view(measuring.studio, CardRole::Grey))}
            })}
            <div class="field">
                <label for="colour-light">{text("light")}</label>
                <select id="colour-light" on:change=choose>{lights.into_iter().collect_view()}</select>
            </div>
        </section>
    }
    .into_any()
}
