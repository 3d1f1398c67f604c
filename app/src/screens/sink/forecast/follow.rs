//! Keeps the worker's forecast that of the book: begun anew when the bath itself changes, weighed
//! again by each reading and each minute.

use bleachfield_core::{
    derive::{BathForecast, BathForecastError, learning_fibre},
    journal::Batch,
    learning::{BathFacts, LearningQuery, LearntParameters},
    message::Message,
};
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;

use super::{SinkForecast, chosen_damage};
use crate::{
    screens::sink::running_bath::RunningBath,
    state::learning_state,
    worker::{ForecastStart, ForecastUpdate, ForecastView, HeldForecast},
};

/// Follows a bath until the current owner is disposed of.
pub fn follow(running: RunningBath, shown: SinkForecast) {
    let minute = Memo::new(move |_| running.elapsed().as_mins());
    let made = Memo::new(move |_| {
        minute.get();
        let allowed = chosen_damage::get();
        let now = untrack(|| running.state.now());
        running.state.book(|book| {
            let mut made = BathForecast::of(book, running.bath, now)?;
            made.goal.most_chain_loss = allowed;
            let view = book.bath(running.bath);
            let batch = view.and_then(|view| book.batches.get(&view.batch));
            let learnt = learnt_for(batch, &made, Some(running.bath));
            made.request.parameters = learnt.distribution.clone();
            Ok((made, learnt))
        })
    });
    Effect::new(move |_| match made.get() {
        Ok((made, learnt)) => {
            let _ = shown.learnt.try_set(Some(learnt));
            let minutes = minute.get_untracked() as f64;
            let _ = shown.problem.try_set(None);
            let _ = shown.made.try_set(Some(made.clone()));
            spawn_local(bring_up(running, made, minutes, shown));
        }
        Err(problem) => {
            let problem: BathForecastError = problem;
            fail(shown, problem.message());
        }
    });
    on_cleanup(move || {
        if let Some(Some((id, _))) = shown.held.try_update_value(Option::take) {
            spawn_local(id.stop());
        }
    });
}

/// The parameters learnt from all baths but `bath`, whose own readings weigh its forecast already.
/// Tracked.
pub fn learnt_for(
    batch: Option<&Batch>,
    made: &BathForecast,
    bath: Option<Ulid>,
) -> LearntParameters {
    let fibre = batch.map(learning_fibre).unwrap_or_default();
    let facts = BathFacts::of(&fibre, &made.request, made.goal.until);
    let id = bath.map(|bath| bath.to_string());
    learning_state().outcome(&LearningQuery { facts: &facts, without: id.as_deref() })
}

fn fail(shown: SinkForecast, problem: Message) {
    let _ = shown.update.try_set(None);
    let _ = shown.made.try_set(None);
    let _ = shown.problem.try_set(Some(problem));
}

/// Samples while the whole is looked at.
const LOOKED_AT: u32 = 1000;

/// More samples, for smoother bands.
pub async fn refine(shown: SinkForecast) {
    let held = shown.held.try_with_value(|held| held.as_ref().map(|(id, _)| *id));
    if let Some(Some(id)) = held
        && let Ok(Some(update)) = id.extend(LOOKED_AT, move |update| show(shown, id, update)).await
    {
        show(shown, id, update);
    }
}

/// Shows an update of the forecast that is held.
fn show(shown: SinkForecast, id: HeldForecast, update: ForecastUpdate) {
    let held = shown.held.try_with_value(|held| held.as_ref().map(|(known, _)| *known));
    if held.flatten() == Some(id) {
        let correction = shown.learnt.try_get_untracked().flatten().map(|learnt| learnt.correction);
        let update = correction.map_or(update.clone(), |correction| update.corrected(&correction));
        let _ = shown.update.try_set(Some(update));
    }
}

/// Weighs the forecast that is held, or begins another if the bath is not the same.
async fn bring_up(running: RunningBath, made: BathForecast, minutes: f64, shown: SinkForecast) {
    let BathForecast { request, readings, goal, .. } = made;
    let view = ForecastView { now: minutes, goal };
    let readings: Vec<_> = readings.iter().map(|reading| reading.reading).collect();
    let of_held = |id: HeldForecast| move |update: ForecastUpdate| show(shown, id, update);
    let held = shown.held;
    let same = held.try_with_value(|held| {
        held.as_ref().filter(|(_, known)| *known == request).map(|(id, _)| *id)
    });
    if let Some(Some(id)) = same {
        match id.weigh(readings.clone(), view, of_held(id)).await {
            Ok(Some(update)) => return of_held(id)(update),
            // The worker was ended meanwhile: it holds none.
            Ok(None) => {}
            Err(problem) => return fail(shown, problem),
        }
        let is_replaced = held.try_with_value(|held| held.as_ref().map(|(known, _)| *known));
        if is_replaced.flatten() != Some(id) {
            return;
        }
    }
    let id = HeldForecast::next();
    if held.try_set_value(Some((id, request.clone()))).is_some() {
        return;
    }
    // Equal baths draw alike, on every phone.
    let seed = (running.bath.0 & u128::from(u32::MAX)) as u32;
    match id.start(ForecastStart { request, seed, readings, view }, of_held(id)).await {
        Ok(Some(update)) => of_held(id)(update),
        Ok(None) => {}
        Err(problem) => fail(shown, problem),
    }
}
