//! Measuring earlier photos again by what the phone was taught.

use bleachfield_core::{
    colour::{PatchRole, reference::Light},
    journal::{Body, CardRole, ColourReading, Corrected, Subject},
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use crate::{
    i18n::{t, t_count, t_with},
    screens::colour::measure::references::References,
    state::AppState,
    worker::{self, ColourRequest, PatchMark},
};

/// How far it is.
#[derive(Clone, Copy, PartialEq)]
enum Again {
    Offered,
    Running { done: usize, of: usize },
    Done { measured: usize, refused: usize },
}

/// The offer, while there are photos that were measured without the lesson.
pub fn view(studio: AppState, light: Light) -> Option<AnyView> {
    let device = studio.device();
    let stale = studio.book_now(|book| book.readings_to_measure_again(&device, light));
    if stale.is_empty() {
        return None;
    }
    let state = RwSignal::new(Again::Offered);
    let count = stale.len();
    let run = move |_| {
        let stale = stale.clone();
        spawn_local(async move {
            let (mut measured, mut refused) = (0, 0);
            for (done, (batch, entry)) in stale.iter().enumerate() {
                if state.try_set(Again::Running { done, of: stale.len() }).is_some() {
                    return;
                }
                match measure_again(studio, *batch, *entry, light).await {
                    Some(()) => measured += 1,
                    None => refused += 1,
                }
            }
            state.try_set(Again::Done { measured, refused });
        });
    };
    Some(
        view! {
            <section class="card stack" role="status">
                {move || match state.get() {
                    Again::Offered => view! {
                        <p>{t_count!("teach-again", count)}</p>
                        <p class="small">{t!("teach-again_both")}</p>
                        <button class="button soft" type="button" on:click=run.clone()>
                            {t!("teach-again_do")}
                        </button>
                    }
                    .into_any(),
                    Again::Running { done, of } => {
                        let (done, of) = (done.to_string(), of.to_string());
                        view! { <p>{t_with!("teach-again_running", &[("done", &done), ("of", &of)])}</p> }
                            .into_any()
                    }
                    Again::Done { measured, refused } => {
                        let (measured, refused) = (measured.to_string(), refused.to_string());
                        let numbers = [("measured", &*measured), ("refused", &*refused)];
                        view! { <p>{t_with!("teach-again_done", &numbers)}</p> }.into_any()
                    }
                }}
            </section>
        }
        .into_any(),
    )
}

/// Measures the photo of a reading again and corrects the reading. `None` if the photo is gone
/// or refused, or nothing could be stored.
async fn measure_again(studio: AppState, batch: Ulid, entry: Ulid, light: Light) -> Option<()> {
    let before = studio.book_now(|book| {
        let mut entries = book.batches.get(&batch)?.visible_entries();
        entries.find_map(|one| match &one.body {
            Body::ColourReading(reading) if one.entry.id == entry => Some((**reading).clone()),
            _ => None,
        })
    })?;
    let photo = before.photo.clone()?;
    let file = studio.photo(&photo).await?.to_blob()?;
    let request = ColourRequest {
        photo: photo.to_string(),
        marks: before.patches.iter().filter_map(mark).collect(),
        white: card(studio, CardRole::White, |card| card == before.reference),
        grey: card(studio, CardRole::Grey, |_| References::last_used().own_grey),
        light,
        camera: studio.book_now(|book| book.lesson(&studio.device(), light)),
    };
    let result = worker::measure_colour(request, Some(file)).await.ok()?;
    let found = result.readings.into_iter().next()?;
    let reading = ColourReading {
        photo: before.photo,
        bath: before.bath,
        pulp: before.pulp,
        reference: before.reference,
        ageing: before.ageing,
        earlier: before.earlier,
        ..found
    };
    let body = Body::Corrected(Corrected {
        entry,
        body: Box::new(Body::ColourReading(Box::new(reading))),
        at: None,
        why: t!("teach-again_why"),
    });
    studio.write(Subject::Batch(batch), body).await.map(|_| ())
}

fn mark(patch: &bleachfield_core::journal::Patch) -> Option<PatchMark> {
    let roles = [PatchRole::White, PatchRole::SecondWhite, PatchRole::Grey, PatchRole::Pulp];
    let place = roles.into_iter().find(|role| <&str>::from(*role) == patch.role)?;
    Some(PatchMark { place, x: patch.centre_x, y: patch.centre_y, radius: patch.radius })
}

/// CIELAB of the person's own card, if the reading was by it.
fn card(studio: AppState, role: CardRole, used: impl Fn(&str) -> bool) -> Option<[f64; 3]> {
    let card = studio.book_now(|book| book.studio.cards.get(&role).cloned())?;
    used(&card.name).then(|| [card.lightness, card.a, card.b].map(|figure| figure.value))
}
