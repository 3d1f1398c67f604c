//! A batch's colours over its time in bleach: chart, chips, target, what drying will do.

use bleachfield_core::{
    colour::{difference, progress, shift::Dryness},
    derive::{colour_target, drying_shift, next_recheck},
    journal::{Batch, PulpState},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    batch, chart,
    figures::{chip, facts, plain, ranged},
    measure::foreseen,
    seen::{self, TimedSwatch},
    target::named,
};
use crate::{
    components::{BottomSheet, Page, Picture, icon},
    i18n::{key, t, t_with},
    platform::clock,
    route::{BatchForm, ColourPurpose, Route},
    screens::batches::{called, name_of},
    state::AppState,
};

/// `/batch/ID/colour`
pub fn page(studio: AppState, id: Ulid) -> AnyView {
    let batch = batch(studio, id);
    let open = RwSignal::new(false);
    let opened = RwSignal::new(None::<Ulid>);
    let show = Callback::new(move |entry: Ulid| {
        opened.set(Some(entry));
        open.set(true);
    });
    let title = Signal::derive(move || batch.get().map(|b| called(&b)).unwrap_or_default());
    let title = Signal::derive(move || t_with!("swatch-progress-title", &[("name", &title.get())]));
    let swatch = move || {
        let batch = batch.get()?;
        let all = seen::all(&batch);
        let one = all.into_iter().find(|one| Some(one.swatch.entry) == opened.get())?;
        Some(opened_swatch(&batch, &one))
    };
    view! {
        <Page title back=Route::batch(id)>
            <div class="stack wide">
                {move || batch.get().map(|batch| content(&batch, show))}
                <nav class="row">
                    <a class="button soft" href=Route::ColourTarget(id).href()>{t!("swatch-target-choose")}</a>
                    <a class="button soft" href=Route::ColourCompare { batch: id, left: None, right: None }.href()>{t!("swatch-compare-title")}</a>
                    <a class="button soft" href=Route::Yellowing.href()>{t!("swatch-ageing-title")}</a>
                </nav>
            </div>
            <BottomSheet open title=t!("entry-colour_reading")>{move || swatch()}</BottomSheet>
        </Page>
    }
    .into_any()
}

fn content(batch: &Batch, show: Callback<Ulid>) -> AnyView {
    let all = seen::all(batch);
    let photos = unmeasured(batch, &all);
    let Some(last) = all.last() else {
        return view! {
            <section class="card empty">
                <icon::Camera />
                <p>{t!("swatch-progress-none")}</p>
                <p class="small soft">{t!("swatch-progress-how")}</p>
                <a class="button touch" href=Route::form(batch.id, BatchForm::Photo).href()>{t!("form-photo-camera")}</a>
            </section>
            {photos}
        }
        .into_any();
    };
    let aim = colour_target(batch);
    let figures = last.swatch.figures();
    let to_target = aim.as_ref().map(|aim| {
        let away = difference::from_figures(figures, aim.lab());
        let gaps = [("name", named(aim)), ("difference", ranged(away, 1))];
        let gaps = gaps.each_ref().map(|(name, value)| (*name, value.as_str()));
        view! {
            <p class="row">{chip(aim.lab(), "swatch large")}<span class="grow">{t_with!("swatch-progress-to_target", &gaps)}</span></p>
        }
    });
    let swatches: Vec<_> = all.iter().map(|one| one.swatch.clone()).collect();
    let wet = all.iter().rev().find(|one| one.swatch.reading.pulp == PulpState::Wet);
    let dried = wet.map(|wet| {
        let linear = wet.swatch.reading.lab().to_xyz().to_linear();
        view! { <p class="small">{foreseen(drying_shift(&swatches), linear)}</p> }
    });
    let chips: Vec<AnyView> = all.iter().map(|one| chip_press(one, show)).collect();
    let due =
        next_recheck(&swatches).map(|due| view! { <p>{seen::look_told(due, clock::now())}</p> });
    view! {
        <section class="card stack">
            <div class="row">
                {chip(last.swatch.reading.lab(), "swatch huge")}
                <div class="figure grow">
                    <span class="name">{t_with!("swatch-progress-last", &[("when", &clock::local(last.swatch.at))])}</span>
                    <span class="big">"L* "{ranged(last.swatch.reading.lightness, 1)}</span>
                    <span class="range">{name_of("pulp_state", last.swatch.reading.pulp)}</span>
                </div>
            </div>
            {to_target}
            {dried}
            {batch.running().and_then(|_| moving(&all)).map(|key| view! { <p class="small">{t(key)}</p> })}
            {due}
        </section>
        {chart::view(&all, aim.as_ref().map(|aim| aim.lab()), show)}
        <h2>{t!("swatch-progress-chips")}</h2>
        <div class="chips">{chips}</div>
        {photos}
    }
    .into_any()
}

/// Whether the bath can still be seen to work, by the last two wet readings.
fn moving(all: &[TimedSwatch]) -> Option<&'static str> {
    let steps = progress::series(&chart::taken(all), None);
    Some(match progress::still_moving(&steps, Dryness::Wet)? {
        true => key!("swatch-progress-moving"),
        false => key!("swatch-progress-standing"),
    })
}

fn chip_press(one: &TimedSwatch, show: Callback<Ulid>) -> AnyView {
    let entry = one.swatch.entry;
    let reading = &one.swatch.reading;
    view! {
        <button class="chip" on:click=move |_| show.run(entry)>
            {chip(reading.lab(), "swatch")}
            <span>{one.when()}</span>
            <span class="soft">{name_of("pulp_state", reading.pulp)}" · L*\u{a0}"{plain(reading.lightness.value, 0)}</span>
        </button>
    }
    .into_any()
}

/// A swatch with its photo and all its figures.
fn opened_swatch(batch: &Batch, one: &TimedSwatch) -> AnyView {
    let reading = &one.swatch.reading;
    let photo = reading.photo.clone();
    let alt = t_with!("photo-of", &[("name", &called(batch))]);
    let links = photo.clone().map(|photo| {
        let id = batch.id;
        let entry = one.swatch.entry;
        view! {
            <div class="row even">
                <a class="button soft" href=Route::ColourMeasure { batch: id, photo: photo.clone(), purpose: ColourPurpose::Swatch }.href()>{t!("swatch-measure-again")}</a>
                <a class="button soft" href=Route::ColourCompare { batch: id, left: Some(entry), right: None }.href()>{t!("swatch-compare-with")}</a>
            </div>
        }
    });
    view! {
        <div class="stack">
            <p>{one.line()}</p>
            <p class="small soft">{clock::local(one.swatch.at)}</p>
            {photo.map(|photo| view! { <Picture photo alt=alt /> })}
            {facts(reading, true)}
            {links}
        </div>
    }
    .into_any()
}

/// Photos whose colour nobody has measured yet.
fn unmeasured(batch: &Batch, all: &[TimedSwatch]) -> AnyView {
    let left: Vec<AnyView> = batch
        .photos
        .iter()
        .rev()
        .filter(|photo| !all.iter().any(|one| one.swatch.photo() == Some(*photo)))
        .map(|photo| {
            let href = Route::ColourMeasure {
                batch: batch.id,
                photo: photo.clone(),
                purpose: ColourPurpose::Swatch,
            };
            view! {
                <a class="photo-link" href=href.href()>
                    <Picture photo=photo.clone() small=true alt=t!("swatch-measure-title") />
                </a>
            }
            .into_any()
        })
        .collect();
    if left.is_empty() {
        return ().into_any();
    }
    view! { <h2>{t!("swatch-progress-unmeasured")}</h2><div class="chips">{left}</div> }.into_any()
}
