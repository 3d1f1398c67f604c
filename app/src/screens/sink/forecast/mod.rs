//! What happens to the running bath if it is left on: one line under the ring, with advice; bands
//! over the coming hours on a sheet; help with warming. All of it in a lazy piece but for this
//! file; the forecast itself is made by the worker.
//!
//! * `follow`: keeps the worker's forecast that of the book; `line`: under the ring;
//! * `sheet`, `chart`, `facts`, `chosen_damage`: the whole of it; `words`: sentences;
//! * `warming`, `vessel_form`: on the sheet for a reheated bath.

mod chart;
mod chosen_damage;
mod facts;
mod follow;
mod line;
mod planned;
mod sheet;
mod vessel_form;
mod warming;
mod words;

use bleachfield_core::{
    derive::BathForecast, forecast::ForecastRequest, journal::PlanRecord,
    learning::LearntParameters, message::Message,
};
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;

use super::running_bath::RunningBath;
use crate::{
    i18n::t,
    screens::lazy,
    worker::{ForecastUpdate, HeldForecast},
};

/// The forecast of the bath that fills the screen. Copied freely.
#[derive(Clone, Copy)]
pub struct SinkForecast {
    /// What it is made of.
    made: RwSignal<Option<BathForecast>>,
    /// As the worker made it last; of a bath that changed since, until the next one comes.
    update: RwSignal<Option<ForecastUpdate>>,
    /// The parameters that it draws from, and what they rest on.
    learnt: RwSignal<Option<LearntParameters>>,
    /// Why there is none.
    problem: RwSignal<Option<Message>>,
    held: Held,
}

/// The forecast that the worker holds, with what it is of.
type Held = StoredValue<Option<(HeldForecast, ForecastRequest)>>;

impl SinkForecast {
    /// Provides the context.
    pub fn provide() {
        provide_context(Self {
            made: RwSignal::new(None),
            update: RwSignal::new(None),
            learnt: RwSignal::new(None),
            problem: RwSignal::new(None),
            held: StoredValue::new(None),
        });
    }
}

impl SinkForecast {
    /// Tracked: whether the bands may be shown.
    fn can_tell(self) -> bool {
        self.update.with(|update| update.as_ref().is_some_and(|told| told.support.can_tell()))
    }
}

/// The parts of the lazy piece, each for a place on the Sink or in a plan.
#[derive(Clone, Copy)]
pub struct ForecastParts {
    pub line: fn(RunningBath) -> AnyView,
    pub sheet: fn(RunningBath) -> AnyView,
    pub warming: fn(RunningBath) -> AnyView,
    /// In the plan of a bath.
    pub planned: fn(Signal<Option<PlanRecord>>, Option<Ulid>) -> AnyView,
}

/// The entry point of the lazy piece.
pub const PARTS: ForecastParts = ForecastParts {
    line: line::line,
    sheet: sheet::sheet,
    warming: warming::warming,
    planned: planned::planned,
};

/// A part, once its piece is loaded; a sentence where it cannot be.
pub fn forecast_part(
    running: RunningBath,
    part: fn(ForecastParts) -> fn(RunningBath) -> AnyView,
) -> impl IntoView {
    let parts = loaded();
    move || match parts.get() {
        Some(Some(parts)) => part(parts)(running),
        Some(None) => view! { <p class="small soft">{t!("forecast-not_here")}</p> }.into_any(),
        None => ().into_any(),
    }
}

/// The line of a plan, once its piece is loaded.
pub fn planned_forecast(record: Signal<Option<PlanRecord>>, batch: Option<Ulid>) -> impl IntoView {
    let parts = loaded();
    move || parts.get().flatten().map(|parts| (parts.planned)(record, batch))
}

/// `Some(None)` if the piece cannot be fetched.
fn loaded() -> RwSignal<Option<Option<ForecastParts>>> {
    let parts = RwSignal::new(None);
    spawn_local(async move {
        let _ = parts.try_set(Some(lazy::sink_forecast().await.ok()));
    });
    parts
}
