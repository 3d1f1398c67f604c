//! A photo corrected by its own white, so that its colours can be compared with another's.

use bleachfield_core::{colour::compare::DisplayLut, journal::Batch};
use leptos::{prelude::*, task::spawn_local};

use super::timed_swatch::TimedSwatch;
use crate::{platform::object_url::ObjectUrl, state::app_state};

/// Points of a channel's curve: more make no visible difference.
const POINTS: usize = 33;

/// The last reading of a batch whose photo can be corrected.
pub fn last_corrected(batch: &Batch) -> Option<TimedSwatch> {
    TimedSwatch::all_of(batch).into_iter().rev().find(is_comparable)
}

/// Whether the photo of a reading is there and can be corrected.
pub fn is_comparable(one: &TimedSwatch) -> bool {
    one.swatch.photo().is_some() && one.swatch.reading.mapping().is_some()
}

/// A photo under its own correction, by an SVG filter with the id `filter_id`.
#[component]
pub fn CorrectedPhoto(swatch: TimedSwatch, filter_id: &'static str) -> impl IntoView {
    let (studio, one) = (app_state(), swatch);
    let url = RwSignal::new(None::<ObjectUrl>);
    if let Some(photo) = one.swatch.photo().cloned() {
        spawn_local(async move {
            let file = studio.photo(&photo).await.and_then(|photo| photo.to_blob());
            url.try_set(file.and_then(|file| ObjectUrl::new(&file)));
        });
    }
    let filter = one.swatch.reading.mapping().map(|mapping| filter(&mapping, filter_id));
    let alt = one.line();
    let image = move || {
        url.with(|url| {
            let src = url.as_ref()?.to_string();
            let style = format!("filter:url(#{filter_id})");
            Some(view! { <img src=src alt=alt.clone() style=style /> })
        })
    };
    view! {
        {filter}
        {image}
    }
}

fn filter(mapping: &DisplayLut, id: &str) -> AnyView {
    let [red, green, blue] = [0, 1, 2].map(|channel| {
        let values = mapping.sampled(channel, POINTS);
        values.iter().map(|v| format!("{v:.4}")).collect::<Vec<_>>().join(" ")
    });
    // As markup: no other view needs these elements.
    let inside = format!(
        "<filter id=\"{id}\" color-interpolation-filters=\"sRGB\"><feComponentTransfer>\
         <feFuncR type=\"table\" tableValues=\"{red}\"/>\
         <feFuncG type=\"table\" tableValues=\"{green}\"/>\
         <feFuncB type=\"table\" tableValues=\"{blue}\"/>\
         </feComponentTransfer></filter>"
    );
    view! { <svg class="visually-hidden" aria-hidden="true" inner_html=inside></svg> }.into_any()
}
