//! The photo of a check, saved with the readings.

use bleachfield_core::journal::{Body, PulpState};
use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    components::ChoiceError,
    i18n::{format_number, t, t_with},
    screens::photo_choice::{PhotoButtons, PhotoChoice},
    storage::NewPhoto,
};

/// The entry and the bytes; pulp in a running bath is wet.
pub fn wet_photo(photo: PhotoChoice, bath: Ulid) -> Option<(Body, NewPhoto)> {
    let (entry, bytes) = photo.entry(PulpState::Wet, Some(bath), String::new())?;
    Some((Body::Photo(entry), bytes))
}

/// Takes a photo by camera or from the album, and says when it is ready.
#[component]
pub fn PhotoPart(photo: PhotoChoice) -> impl IntoView {
    let said = move || {
        if photo.preparing.get() {
            return Some(t!("sink-check-photo_working"));
        }
        photo.prepared.with(|prepared| {
            let size = prepared.as_ref()?.photo.bytes.len() as f64 / 1e6;
            let size = format!("{} MB", format_number(size, 2));
            Some(t_with!("sink-check-photo_ready", &[("size", &size)]))
        })
    };
    view! {
        <PhotoButtons photo camera=t!("sink-check-photo") pick=t!("sink-check-photo_pick")
            class="button soft touch file-button" />
        <p role="status" class="small">{said}</p>
        <ChoiceError problem=photo.problem.into() />
    }
}
