//! Small views that the colour screens share: chips of a colour, links to photos.

use bleachfield_core::{
    colour::{display::DisplayColour, space::Lab},
    journal::PhotoId,
};
use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    components::Picture,
    route::{ColourPurpose, Route},
};

/// A patch of the colour, or of the nearest that the screen can show.
pub fn chip(lab: Lab, class: &'static str) -> AnyView {
    let css = DisplayColour::new(lab).css();
    view! { <span class=class style:background=css aria-hidden="true"></span> }.into_any()
}

/// A button with a chip, a name and a second line.
pub fn chip_button(lab: Lab, name: String, detail: String, press: Callback<()>) -> AnyView {
    view! {
        <button class="chip" on:click=move |_| press.run(())>
            {chip(lab, "swatch")}
            <span>{name}</span>
            <span class="soft">{detail}</span>
        </button>
    }
    .into_any()
}

/// Thumbnails of a batch's photos; a press measures one.
pub fn photo_links<'a>(
    batch: Ulid,
    photos: impl Iterator<Item = &'a PhotoId>,
    purpose: ColourPurpose,
    alt: &str,
) -> Vec<AnyView> {
    let link = |photo: &PhotoId| {
        let href = Route::ColourMeasure { batch, photo: photo.clone(), purpose }.href();
        view! {
            <a class="photo-link" href=href>
                <Picture photo=photo.clone() small=true alt=alt />
            </a>
        }
        .into_any()
    };
    photos.map(link).collect()
}
