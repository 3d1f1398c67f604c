//! What a planned bath would come to, in one line of its step: made by the worker as for a running
//! bath, and replaced at each change of the plan.

use bleachfield_core::{
    colour::target::PaperWhite,
    derive::{AssumedInput, BathForecast},
    forecast::ForecastQuantity,
    journal::PlanRecord,
};
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;

use super::{chosen_damage, follow::learnt_for, words::damage_words};
use crate::{
    components::Assumed,
    i18n::{t, t_with},
    platform::clock,
    state::app_state,
    worker::{ForecastStart, ForecastUpdate, ForecastView, HeldForecast},
};

/// Equal plans draw alike.
const SEED: u32 = 1;

/// The line; nothing while there is no plan, or nothing can be told of it.
pub fn planned(record: Signal<Option<PlanRecord>>, batch: Option<Ulid>) -> AnyView {
    let state = app_state();
    let held = StoredValue::new(None::<HeldForecast>);
    let shown = RwSignal::new(None::<(BathForecast, ForecastUpdate)>);
    Effect::new(move |_| {
        let made = record.get().and_then(|record| {
            state.book(|book| {
                let mut made = BathForecast::of_plan(book, batch, &record, clock::now()).ok()?;
                made.goal.most_chain_loss = chosen_damage::get();
                made.goal.until = record.minutes;
                let batch = batch.and_then(|batch| book.batches.get(&batch));
                let learnt = learnt_for(batch, &made, None);
                made.request.parameters = learnt.distribution;
                Some((made, learnt.correction))
            })
        });
        let Some((made, correction)) = made else { return shown.set(None) };
        let id = HeldForecast::next();
        held.set_value(Some(id));
        let start = ForecastStart {
            request: made.request.clone(),
            seed: SEED,
            readings: made.readings.iter().map(|reading| reading.reading).collect(),
            view: ForecastView { now: 0.0, goal: made.goal },
        };
        let show = move |update: ForecastUpdate| {
            if held.try_get_value().flatten() == Some(id) {
                let _ = shown.try_set(Some((made.clone(), update.corrected(&correction))));
            }
        };
        spawn_local(async move {
            // Without a worker the plan has no such line.
            if let Ok(Some(update)) = id.start(start, show.clone()).await {
                show(update);
            }
        });
    });
    on_cleanup(move || {
        if let Some(Some(id)) = held.try_update_value(Option::take) {
            spawn_local(id.stop());
        }
    });
    let line = move || {
        shown.with(|shown| shown.as_ref().and_then(|(made, update)| sentence(made, update)))
    };
    view! { <p class="small" role="status">{line}</p> }.into_any()
}

/// "Forecast: straw → oat to cream once dry, damage low (80 %)".
fn sentence(made: &BathForecast, update: &ForecastUpdate) -> Option<AnyView> {
    let end = made.goal.until;
    let lightness = update.at(ForecastQuantity::DryLightness, end)?;
    let damage = update.at(ForecastQuantity::ChainLoss, end)?;
    let name = |l: f64| t(PaperWhite::of_lightness(l).key()).to_lowercase();
    let (low, high) = (name(lightness.low_80), name(lightness.high_80));
    let to = if low == high {
        low
    } else {
        t_with!("forecast-damage-range", &[("low", &low), ("high", &high)])
    };
    let text = t_with!(
        "forecast-plan",
        &[
            ("from", &name(made.request.lightness.value)),
            ("to", &to),
            ("damage", &damage_words(&damage)),
        ],
    );
    let colour_assumed = made.assumed.contains(&AssumedInput::Colour);
    let mark = colour_assumed.then(|| view! { " "<Assumed /> });
    Some(view! { {text}{mark} }.into_any())
}
