//! Choosing the colour that a batch is bleached towards: a named white, a swatch, or a paper.

use bleachfield_core::{
    colour::target::PaperWhite,
    derive::swatches,
    journal::{Body, ColourTarget, Figure, Subject, TargetFrom},
    quantity::{Basis, Estimate},
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::chip::{chip_button, photo_links};
use crate::{
    components::{Page, icon, notify},
    i18n::{fixed, t, t_with},
    platform::clock,
    route::{self, BatchForm, ColourPurpose, Route},
    screens::batches::{batch_name, name_of},
    state::AppState,
};

pub fn target_name(target: &ColourTarget) -> String {
    match &target.from {
        TargetFrom::Step(step) => t(step.key()),
        _ if target.name.trim().is_empty() => t!("swatch-target-nameless"),
        _ => target.name.clone(),
    }
}

/// `/batch/ID/colour/target`
pub fn page(studio: AppState, id: Ulid) -> AnyView {
    let save = Callback::new(move |target: ColourTarget| {
        let from = route::current();
        spawn_local(async move {
            let body = Body::ColourTarget(Box::new(target));
            if studio.write(Subject::Batch(id), body).await.is_some() {
                notify(t_with!("batch-saved", &[("what", &t!("entry-colour_target"))]), None);
                route::go_from(&from, &Route::Colour(id));
            }
        });
    });
    let steps = PaperWhite::ALL.map(|step| {
        let lab = step.lab();
        let [lightness, a, b] = [lab.l, lab.a, lab.b].map(|v| Estimate::exact(v, Basis::Computed));
        let from = TargetFrom::Step(step);
        let target = ColourTarget { lightness, a, b, from, name: String::new() };
        target_button(t(step.key()), String::new(), target, save)
    });
    let swatches = all_swatches(studio, id, save);
    let photos =
        studio.book_now(|book| book.batches.get(&id).map(|b| b.photos.clone()).unwrap_or_default());
    let alt = t!("swatch-target-measure");
    let photos = photo_links(id, photos.iter().rev(), ColourPurpose::Target, &alt);
    view! {
        <Page title=t!("swatch-target-title") back=Route::Colour(id)>
            <div class="stack wide">
                <p class="small">{t!("swatch-target-steps")}</p>
                <div class="chips">{steps.into_iter().collect_view()}</div>
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

/// The swatches of all batches: this batch's first, the newest of each first.
fn all_swatches(studio: AppState, id: Ulid, save: Callback<ColourTarget>) -> Vec<AnyView> {
    studio.book_now(|book| {
        let mut batches = book.batches_by_change();
        batches.sort_by_key(|batch| batch.id != id);
        let buttons = batches.into_iter().flat_map(|batch| {
            let batch_name = batch_name(batch);
            swatches(batch).into_iter().rev().map(move |swatch| {
                let [lightness, a, b]: [Figure; 3] = swatch.figures();
                let state = name_of("pulp_state", swatch.reading.pulp);
                let detail = format!("{state} · L*\u{a0}{}", fixed(lightness.value, 0));
                let name = format!("{batch_name}, {}, {state}", clock::local_date(swatch.at));
                let from = TargetFrom::Swatch(swatch.entry);
                let target = ColourTarget { lightness, a, b, from, name };
                target_button(batch_name.clone(), detail, target, save)
            })
        });
        buttons.collect()
    })
}

fn target_button(
    name: String,
    detail: String,
    target: ColourTarget,
    save: Callback<ColourTarget>,
) -> AnyView {
    let lab = target.lab();
    chip_button(lab, name, detail, Callback::new(move |()| save.run(target.clone())))
}
