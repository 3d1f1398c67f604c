//! The last photos of compared batches, each corrected by its own white where that was marked.

use bleachfield_core::journal::{Body, PhotoId};
use leptos::prelude::*;

use super::Compared;
use crate::{
    components::Picture,
    i18n::{format_number, t, t_with},
    screens::colour::{CorrectedPhoto, last_corrected},
};

/// Ids of the filters that correct.
const FILTERS: [&str; 4] = ["map-a", "map-b", "map-c", "map-d"];

pub fn view(compared: &[Compared]) -> Option<AnyView> {
    let photos: Vec<_> =
        compared.iter().zip(FILTERS).map(|(one, filter)| photo(one, filter)).collect();
    if photos.iter().all(Option::is_none) {
        return None;
    }
    let cells = compared.iter().zip(photos).map(|(one, photo)| {
        view! {
            <figure>
                {photo.unwrap_or_else(|| view! { <p class="soft">{t!("compare-no_photo")}</p> }.into_any())}
                <figcaption class="small">{one.label()}</figcaption>
            </figure>
        }
    });
    Some(
        view! {
            <section class="stack">
                <h2>{t!("batch-photos")}</h2>
                <p class="small">{t!("compare-photos_how")}</p>
                <div class="beside compare-photos">{cells.collect_view()}</div>
            </section>
        }
        .into_any(),
    )
}

/// The last photo under its correction; else the last photo as it is, which says so.
fn photo(one: &Compared, filter: &'static str) -> Option<AnyView> {
    if let Some(swatch) = last_corrected(&one.batch) {
        let lightness = format_number(swatch.swatch.reading.lightness.value, 2);
        let text = t_with!("compare-photo_l", &[("l", &lightness)]);
        return Some(
            view! {
                <CorrectedPhoto swatch filter_id=filter />
                <p class="small">{text}</p>
            }
            .into_any(),
        );
    }
    let last: PhotoId = one.batch.visible_entries().rev().find_map(|entry| match &entry.body {
        Body::Photo(photo) => Some(photo.photo.clone()),
        _ => None,
    })?;
    let alt = t_with!("photo-of", &[("name", &one.name)]);
    Some(
        view! {
            <Picture photo=last alt=alt />
            <p class="small">{t!("compare-photo_raw")}</p>
        }
        .into_any(),
    )
}
