//! Which colour a batch is bleached towards: a named step, a swatch, or a real paper.

use bleachfield_core::{
    colour::{space::Lab, target::PaperWhite},
    derive::swatches,
    journal::{Body, ColourTarget, Figure, Subject, TargetFrom},
    quantity::{Basis, Estimate},
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::figures::{chip, plain};
use crate::{
    components::{Page, Picture, icon, notify},
    i18n::{t, t_with},
    platform::clock,
    route::{self, BatchForm, ColourPurpose, Route},
    screens::batches::{called, name_of},
    state::AppState,
};

/// What a target is called.
pub fn named(target: &ColourTarget) -> String {
    match &target.from {
        TargetFrom::Step(step) => t(step.key()),
        _ if target.name.trim().is_empty() => t!("swatch-target-nameless"),
        _ => target.name.clone(),
    }
}

/// `/batch/ID/colour/target`
pub fn page(studio: AppState, id: Ulid) -> AnyView {
    let aim = Callback::new(move |target: ColourTarget| {
        spawn_local(async move {
            let body = Body::ColourTarget(Box::new(target));
            if studio.write(Subject::Batch(id), body).await.is_some() {
                notify(t_with!("batch-saved", &[("what", &t!("entry-colour_target"))]), None);
                route::go(&Route::Colour(id));
            }
        });
    });
    let steps: Vec<AnyView> = PaperWhite::ALL
        .iter()
        .map(|step| {
            let lab = step.lab();
            let [lightness, a, b] =
                [lab.l, lab.a, lab.b].map(|v| Estimate::exact(v, Basis::Computed));
            let from = TargetFrom::Step(*step);
            let target = ColourTarget { lightness, a, b, from, name: String::new() };
            press(lab, t(step.key()), String::new(), target, aim)
        })
        .collect();
    let swatches = of_book(studio, id, aim);
    let photos: Vec<AnyView> = studio
        .book_now(|book| book.batches.get(&id).map(|b| b.photos.clone()).unwrap_or_default())
        .into_iter()
        .rev()
        .map(|photo| {
            let href = Route::ColourMeasure {
                batch: id,
                photo: photo.clone(),
                purpose: ColourPurpose::Target,
            };
            view! {
                <a class="photo-link" href=href.href()>
                    <Picture photo small=true alt=t!("swatch-target-measure") />
                </a>
            }
            .into_any()
        })
        .collect();
    view! {
        <Page title=t!("swatch-target-title") back=Route::Colour(id)>
            <div class="stack wide">
                <p class="small">{t!("swatch-target-steps")}</p>
                <div class="chips">{steps}</div>
                {(!swatches.is_empty()).then(|| view! {
                    <h2>{t!("swatch-target-swatches")}</h2>
                    <div class="chips">{swatches}</div>
                })}
                <h2>{t!("swatch-target-paper")}</h2>
                <p class="small">{t!("swatch-target-paper_how")}</p>
                <a class="button soft" href=Route::form(id, BatchForm::Photo).href()>
                    <icon::Camera />{t!("form-photo-camera")}
                </a>
                <div class="chips">{photos}</div>
            </div>
        </Page>
    }
    .into_any()
}

/// Every swatch in the book: this batch's first, the newest of each first.
fn of_book(studio: AppState, id: Ulid, aim: Callback<ColourTarget>) -> Vec<AnyView> {
    studio.book_now(|book| {
        let mut batches = book.batches_by_change();
        batches.sort_by_key(|batch| batch.id != id);
        let presses = batches.into_iter().flat_map(|batch| {
            let name = called(batch);
            swatches(batch).into_iter().rev().map(move |swatch| {
                let [lightness, a, b]: [Figure; 3] = swatch.figures();
                let state = name_of("pulp_state", swatch.reading.pulp);
                let day = clock::local_date(swatch.at);
                let about = format!("{state} · L*\u{a0}{}", plain(lightness.value, 0));
                let full = format!("{name}, {day}, {state}");
                let from = TargetFrom::Swatch(swatch.entry);
                let target = ColourTarget { lightness, a, b, from, name: full };
                press(swatch.reading.lab(), name.clone(), about, target, aim)
            })
        });
        presses.collect()
    })
}

fn press(
    lab: Lab,
    name: String,
    about: String,
    target: ColourTarget,
    aim: Callback<ColourTarget>,
) -> AnyView {
    view! {
        <button class="chip" on:click=move |_| aim.run(target.clone())>
            {chip(lab, "swatch")}
            <span>{name}</span>
            <span class="soft">{about}</span>
        </button>
    }
    .into_any()
}
