//! Two photos under one correction: each is shown as its own white says, so that one
//! colour looks the same in both; side by side, or one laid over the other.

use bleachfield_core::{
    colour::{compare::DisplayLut, difference::between_figures},
    journal::PhotoId,
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;
use web_sys::Url;

use super::{
    figures::{chip, ranged},
    seen::{self, TimedSwatch},
};
use crate::{
    components::{Page, RadioGroup},
    i18n::{key, t, t_with},
    route::Route,
    state::AppState,
};

/// Points of a channel's curve: more cannot be told apart.
const POINTS: usize = 33;

/// `/batch/ID/colour/compare?left=ENTRY&right=ENTRY`
pub fn page(studio: AppState, id: Ulid, asked: [Option<Ulid>; 2]) -> AnyView {
    let all = studio.book_now(|book| book.batches.get(&id).map(seen::all)).unwrap_or_default();
    let shown =
        |one: &TimedSwatch| one.swatch.photo().is_some() && one.swatch.reading.mapping().is_some();
    let all: Vec<TimedSwatch> = all.into_iter().filter(shown).collect();
    let back = Route::Colour(id);
    if all.len() < 2 {
        return view! {
            <Page title=t!("swatch-compare-title") back>
                <p>{t!("swatch-compare-too_few")}</p>
            </Page>
        }
        .into_any();
    }
    let place = |id: Option<Ulid>| all.iter().position(|one| Some(one.swatch.entry) == id);
    let first = place(asked[0]).unwrap_or(0);
    let last = place(asked[1]).unwrap_or(all.len() - 1);
    let last = if last == first { usize::from(first == 0) } else { last };
    let chosen = [RwSignal::new(first), RwSignal::new(last)];
    let split = RwSignal::new(false);
    let at = RwSignal::new(50.0);
    let options: Vec<String> = all.iter().map(TimedSwatch::line).collect();
    let all = StoredValue::new(all);
    let pickers = [0, 1].map(|side| picker(side, chosen[side], &options));
    let picture = move |side: usize| {
        let one = all.with_value(|all| all[chosen[side].get()].clone());
        corrected(studio, &one, ["map-left", "map-right"][side])
    };
    let difference = move || {
        all.with_value(|all| {
            let [one, other] = chosen.map(|value| all[value.get()].clone());
            let away = between_figures(one.swatch.figures(), other.swatch.figures());
            let told = t_with!("swatch-compare-difference", &[("difference", &ranged(away, 1))]);
            view! {
                <p class="row">
                    {chip(one.swatch.reading.lab(), "swatch large")}
                    {chip(other.swatch.reading.lab(), "swatch large")}
                    <span class="grow">{told}</span>
                </p>
            }
        })
    };
    let clip = move || format!("clip-path:inset(0 0 0 {:.0}%)", at.get());
    let both = move || {
        if split.get() {
            view! {
                <div class="split">
                    <div>{picture(0)}</div>
                    <div class="over" style=clip>{picture(1)}</div>
                    <i style=move || format!("left:{:.0}%", at.get())></i>
                </div>
                <label class="field">
                    <span class="label">{t!("swatch-compare-divide")}</span>
                    <input type="range" min="0" max="100" prop:value=move || at.get().to_string()
                        on:input=move |event| at.set(event_target_value(&event).parse().unwrap_or(50.0)) />
                </label>
            }
            .into_any()
        } else {
            view! { <div class="beside"><div>{picture(0)}</div><div>{picture(1)}</div></div> }
                .into_any()
        }
    };
    view! {
        <Page title=t!("swatch-compare-title") back>
            <div class="stack wide">
                <p class="small">{t!("swatch-compare-how")}</p>
                {pickers.into_iter().collect_view()}
                <RadioGroup label=t!("swatch-compare-view") quiet=true value=split
                    options=vec![(false, t!("swatch-compare-beside")), (true, t!("swatch-compare-split"))] />
                {both}
                {difference}
            </div>
        </Page>
    }
    .into_any()
}

/// The list to choose one side from.
fn picker(side: usize, value: RwSignal<usize>, options: &[String]) -> AnyView {
    let key = [key!("swatch-compare-left"), key!("swatch-compare-right")][side];
    let field = ["compare-left", "compare-right"][side];
    let options = options.iter().cloned().enumerate().map(|(nth, line)| {
        view! { <option value=nth.to_string() selected=move || value.get() == nth>{line}</option> }
    });
    let options: Vec<_> = options.collect();
    view! {
        <div class="field">
            <label for=field>{t(key)}</label>
            <select id=field on:change=move |event| {
                value.set(event_target_value(&event).parse().unwrap_or_default());
            }>{options}</select>
        </div>
    }
    .into_any()
}

/// A photo under its own correction, by a filter called `name`.
fn corrected(studio: AppState, one: &TimedSwatch, name: &'static str) -> AnyView {
    let address = RwSignal::new(String::new());
    if let Some(photo) = one.swatch.photo().cloned() {
        show(studio, photo, address);
    }
    let filter = one.swatch.reading.mapping().map(|mapping| filter(&mapping, name));
    let alt = one.line();
    view! {
        {filter}
        {move || Some(address.get()).filter(|at| !at.is_empty()).map(|at| view! {
            <img src=at alt=alt.clone() style=format!("filter:url(#{name})") />
        })}
    }
    .into_any()
}

/// Gives the photo's address once it is there, and takes it back when no longer needed.
fn show(studio: AppState, photo: PhotoId, address: RwSignal<String>) {
    on_cleanup(move || {
        let _ = Url::revoke_object_url(&address.get_untracked());
    });
    spawn_local(async move {
        let file = studio.photo(&photo).await.and_then(|photo| photo.to_blob());
        if let Some(at) = file.and_then(|file| Url::create_object_url_with_blob(&file).ok())
            && let Some(late) = address.try_set(at)
        {
            let _ = Url::revoke_object_url(&late);
        }
    });
}

fn filter(mapping: &DisplayLut, name: &'static str) -> AnyView {
    let [red, green, blue] = [0, 1, 2].map(|channel| {
        let values = mapping.sampled(channel, POINTS);
        values.iter().map(|v| format!("{v:.4}")).collect::<Vec<_>>().join(" ")
    });
    // As markup: these elements are needed nowhere else.
    let inside = format!(
        "<filter id=\"{name}\" color-interpolation-filters=\"sRGB\"><feComponentTransfer>\
         <feFuncR type=\"table\" tableValues=\"{red}\"/>\
         <feFuncG type=\"table\" tableValues=\"{green}\"/>\
         <feFuncB type=\"table\" tableValues=\"{blue}\"/>\
         </feComponentTransfer></filter>"
    );
    view! { <svg class="visually-hidden" aria-hidden="true" inner_html=inside></svg> }.into_any()
}
