//! A batch's colours over its time in bleach: last reading, target, drying, chart, swatches.

use bleachfield_core::{
    colour::{
        difference::{self, ColourDifference},
        progress,
        shift::Dryness,
    },
    derive::{colour_target, drying_shift, next_recheck},
    journal::{Batch, PulpState},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    chip::{chip, chip_button, photo_links},
    figures::{by_lightness, facts, in_words, plus_minus},
    measure::predicted_drying,
    progress_chart::progress_chart,
    target::target_name,
    timed_swatch::{TimedSwatch, recheck_text},
};
use crate::{
    components::{BottomSheet, Page, Picture, icon},
    i18n::{fixed, key, sentence_case, t, t_with},
    platform::clock,
    route::{BatchForm, ColourPurpose, Route},
    screens::{
        batches::{batch_name, name_of},
        station_bar::StationBar,
    },
    state::AppState,
};

/// `/batch/ID/colour`
pub fn page(studio: AppState, id: Ulid) -> AnyView {
    let batch = Memo::new(move |_| studio.book(|book| book.batches.get(&id).cloned()));
    let open = RwSignal::new(false);
    let opened = RwSignal::new(None::<Ulid>);
    let show = Callback::new(move |entry: Ulid| {
        opened.set(Some(entry));
        open.set(true);
    });
    let title = Signal::derive(move || {
        let name = batch.get().map(|b| batch_name(&b)).unwrap_or_default();
        t_with!("swatch-progress-title", &[("name", &name)])
    });
    let swatch = move || {
        let batch = batch.get()?;
        let all = TimedSwatch::all_of(&batch);
        let one = all.into_iter().find(|one| Some(one.swatch.entry) == opened.get())?;
        Some(opened_swatch(&batch, &one))
    };
    view! {
        <Page title back=Route::batch(id)>
            <div class="stack wide">
                <StationBar batch=id />
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
    let all = TimedSwatch::all_of(batch);
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
    let target = colour_target(batch).map(|target| target.lab());
    let chips: Vec<AnyView> = all
        .iter()
        .map(|one| {
            let (entry, reading) = (one.swatch.entry, &one.swatch.reading);
            let state = name_of("pulp_state", reading.pulp);
            let detail = format!("{state} · L*\u{a0}{}", fixed(reading.lightness.value, 0));
            let press = Callback::new(move |()| show.run(entry));
            chip_button(reading.lab(), one.when(), detail, press)
        })
        .collect();
    view! {
        {last_reading(batch, &all, last)}
        {progress_chart(&all, target, show)}
        <h2>{t!("swatch-progress-chips")}</h2>
        <div class="chips">{chips}</div>
        {photos}
    }
    .into_any()
}

/// The last reading, with target, predicted drying, movement and the next recheck.
fn last_reading(batch: &Batch, all: &[TimedSwatch], last: &TimedSwatch) -> AnyView {
    let reading = &last.swatch.reading;
    let since = since_before(all, last);
    let to_target = colour_target(batch).map(|target| {
        let difference = difference::from_figures(last.swatch.figures(), target.lab());
        let text = t_with!(
            "swatch-progress-to_target",
            &[("name", &target_name(&target)), ("difference", &plus_minus(difference, 1))],
        );
        view! { <p class="row">{chip(target.lab(), "swatch large")}<span class="grow">{text}</span></p> }
    });
    let swatches: Vec<_> = all.iter().map(|one| one.swatch.clone()).collect();
    let wet = all.iter().rev().find(|one| one.swatch.reading.pulp == PulpState::Wet);
    let dried = wet.map(|wet| {
        let linear = wet.swatch.reading.lab().to_xyz().to_linear();
        view! { <p class="small">{predicted_drying(drying_shift(&swatches), linear)}</p> }
    });
    let due = next_recheck(&swatches).map(|due| recheck_text(due, clock::now()));
    view! {
        <section class="card stack">
            <div class="row">
                {chip(reading.lab(), "swatch huge")}
                <div class="figure grow">
                    <span class="name">{t_with!("swatch-progress-last", &[("when", &clock::local(last.swatch.at))])}</span>
                    <span class="big words">{in_words(reading.lab(), since.as_ref())}</span>
                    <span class="range">{name_of("pulp_state", reading.pulp)}</span>
                </div>
            </div>
            {since.map(|since| view! { <p>{sentence_case(by_lightness(&since))}</p> })}
            <details class="more">
                <summary>{t!("swatch-figures")}</summary>
                <div class="inside stack">{facts(reading)}</div>
            </details>
            {to_target}
            {dried}
            {batch.running().and_then(|_| moving(all)).map(|key| view! { <p class="small">{t(key)}</p> })}
            {due.map(|due| view! { <p>{due}</p> })}
        </section>
    }
    .into_any()
}

/// The change since the swatch before it in the same state.
fn since_before(all: &[TimedSwatch], last: &TimedSwatch) -> Option<ColourDifference> {
    let before = all.iter().rev().skip_while(|one| one.swatch.entry != last.swatch.entry).skip(1);
    let mut alike = before.filter(|one| one.dryness() == last.dryness());
    Some(alike.next()?.swatch.difference_to(&last.swatch))
}

/// Whether the last two wet readings show that the bath still works.
fn moving(all: &[TimedSwatch]) -> Option<&'static str> {
    let mut wet = all.iter().rev().filter(|one| one.dryness() == Dryness::Wet);
    let (now, before) = (wet.next()?, wet.next()?);
    Some(match progress::is_bleached(&before.swatch.difference_to(&now.swatch)) {
        true => key!("swatch-progress-moving"),
        false => key!("swatch-progress-standing"),
    })
}

/// A swatch with its photo and all its figures.
fn opened_swatch(batch: &Batch, one: &TimedSwatch) -> AnyView {
    let (id, entry, reading) = (batch.id, one.swatch.entry, &one.swatch.reading);
    let photo = reading.photo.clone();
    let alt = t_with!("photo-of", &[("name", &batch_name(batch))]);
    let links = photo.clone().map(|photo| {
        let measure = Route::ColourMeasure { batch: id, photo, purpose: ColourPurpose::Swatch };
        let compare = Route::ColourCompare { batch: id, left: Some(entry), right: None };
        view! {
            <div class="row even">
                <a class="button soft" href=measure.href()>{t!("swatch-measure-again")}</a>
                <a class="button soft" href=compare.href()>{t!("swatch-compare-with")}</a>
            </div>
        }
    });
    view! {
        <div class="stack">
            <p><b>{in_words(reading.lab(), None)}</b></p>
            <p>{one.line()}</p>
            <p class="small soft">{clock::local(one.swatch.at)}</p>
            {photo.map(|photo| view! { <Picture photo alt=alt /> })}
            {facts(reading)}
            {links}
        </div>
    }
    .into_any()
}

/// The photos without a colour reading.
fn unmeasured(batch: &Batch, all: &[TimedSwatch]) -> AnyView {
    let measured = |photo| all.iter().any(|one| one.swatch.photo() == Some(photo));
    let photos = batch.photos.iter().rev().filter(|photo| !measured(*photo));
    let links = photo_links(batch.id, photos, ColourPurpose::Swatch, &t!("swatch-measure-title"));
    if links.is_empty() {
        return ().into_any();
    }
    view! { <h2>{t!("swatch-progress-unmeasured")}</h2><div class="chips">{links}</div> }.into_any()
}
