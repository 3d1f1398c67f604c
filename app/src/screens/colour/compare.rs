//! Two photos under one correction: each is corrected by its own white, so that a colour looks
//! the same in both; side by side, or one over the other.

use bleachfield_core::colour::compare::DisplayLut;
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::{
    chip::chip,
    figures::{by_lightness, plus_minus},
    timed_swatch::TimedSwatch,
};
use crate::{
    components::{Page, RadioGroup},
    i18n::{key, t, t_with},
    platform::object_url::ObjectUrl,
    route::Route,
    state::AppState,
};

/// Points of a channel's curve: more make no visible difference.
const POINTS: usize = 33;

/// `/batch/ID/colour/compare?left=ENTRY&right=ENTRY`
pub fn page(studio: AppState, id: Ulid, asked: [Option<Ulid>; 2]) -> AnyView {
    let all =
        studio.book_now(|book| book.batches.get(&id).map(TimedSwatch::all_of)).unwrap_or_default();
    let comparable =
        |one: &TimedSwatch| one.swatch.photo().is_some() && one.swatch.reading.mapping().is_some();
    let all: Vec<TimedSwatch> = all.into_iter().filter(comparable).collect();
    let back = Route::Colour(id);
    if all.len() < 2 {
        return view! {
            <Page title=t!("swatch-compare-title") back>
                <p>{t!("swatch-compare-too_few")}</p>
            </Page>
        }
        .into_any();
    }
    let index = |id: Option<Ulid>| all.iter().position(|one| Some(one.swatch.entry) == id);
    let first = index(asked[0]).unwrap_or(0);
    let last = index(asked[1]).unwrap_or(all.len() - 1);
    let last = if last == first { usize::from(first == 0) } else { last };
    let chosen = [RwSignal::new(first), RwSignal::new(last)];
    let pair = Pair { studio, all: StoredValue::new(all), chosen };
    let split = RwSignal::new(false);
    let divider = RwSignal::new(50.0);
    view! {
        <Page title=t!("swatch-compare-title") back>
            <div class="stack wide">
                <p class="small">{t!("swatch-compare-how")}</p>
                {pair.select(0)}
                {pair.select(1)}
                <RadioGroup label=t!("swatch-compare-view") quiet=true value=split
                    options=vec![(false, t!("swatch-compare-beside")), (true, t!("swatch-compare-split"))] />
                {move || if split.get() { pair.split(divider) } else { pair.beside() }}
                {move || pair.difference()}
            </div>
        </Page>
    }
    .into_any()
}

/// The two chosen swatches out of all that can be compared; copies share their signals.
#[derive(Clone, Copy)]
struct Pair {
    studio: AppState,
    all: StoredValue<Vec<TimedSwatch>>,
    chosen: [RwSignal<usize>; 2],
}

impl Pair {
    fn swatch(self, side: usize) -> TimedSwatch {
        self.all.with_value(|all| all[self.chosen[side].get()].clone())
    }

    /// The list to choose one side from.
    fn select(self, side: usize) -> AnyView {
        let value = self.chosen[side];
        let label = [key!("swatch-compare-left"), key!("swatch-compare-right")][side];
        let id = ["compare-left", "compare-right"][side];
        let lines =
            self.all.with_value(|all| all.iter().map(TimedSwatch::short_line).collect::<Vec<_>>());
        let options = lines.into_iter().enumerate().map(|(nth, line)| {
            view! { <option value=nth.to_string() selected=move || value.get() == nth>{line}</option> }
        });
        view! {
            <div class="field">
                <label for=id>{t(label)}</label>
                <select id=id on:change=move |event| {
                    value.set(event_target_value(&event).parse().unwrap_or_default());
                }>{options.collect_view()}</select>
            </div>
        }
        .into_any()
    }

    fn photo(self, side: usize) -> impl Fn() -> AnyView + Copy {
        move || corrected(self.studio, &self.swatch(side), ["map-left", "map-right"][side])
    }

    fn beside(self) -> AnyView {
        view! { <div class="beside"><div>{self.photo(0)}</div><div>{self.photo(1)}</div></div> }
            .into_any()
    }

    /// The right photo over the left one, from the divider on (percent of the width).
    fn split(self, divider: RwSignal<f64>) -> AnyView {
        let clip = move || format!("clip-path:inset(0 0 0 {:.0}%)", divider.get());
        view! {
            <div class="split">
                <div>{self.photo(0)}</div>
                <div class="over" style=clip>{self.photo(1)}</div>
                <i style=move || format!("left:{:.0}%", divider.get())></i>
            </div>
            <label class="field">
                <span class="label">{t!("swatch-compare-divide")}</span>
                <input type="range" min="0" max="100" prop:value=move || divider.get().to_string()
                    on:input=move |event| divider.set(event_target_value(&event).parse().unwrap_or(50.0)) />
            </label>
        }
        .into_any()
    }

    fn difference(self) -> AnyView {
        let [left, right] = [0, 1].map(|side| self.swatch(side).swatch);
        let found = left.difference_to(&right);
        let (change, difference) = (by_lightness(&found), plus_minus(found.delta_e00, 1));
        let text = t_with!(
            "swatch-compare-difference",
            &[("change", &change), ("difference", &difference)],
        );
        view! {
            <p class="row">
                {chip(left.reading.lab(), "swatch large")}
                {chip(right.reading.lab(), "swatch large")}
                <span class="grow">{text}</span>
            </p>
        }
        .into_any()
    }
}

/// A photo under its own correction, by an SVG filter with the id `filter_id`.
fn corrected(studio: AppState, one: &TimedSwatch, filter_id: &'static str) -> AnyView {
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
    .into_any()
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
