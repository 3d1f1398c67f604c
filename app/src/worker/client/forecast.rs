//! A forecast that the worker makes and holds.

use std::cell::Cell;
use std::rc::Rc;

use bleachfield_core::forecast::{ForecastReading, ForecastRequest};
use bleachfield_core::message::Message;

use super::connection::send;
use super::expect;
use crate::worker::protocol::{
    ForecastCommand, ForecastUpdate, ForecastView, OnPart, Outcome, Payload, WorkerRequest,
    WorkerResponse,
};

/// What a forecast begins with.
#[derive(Clone, Debug, PartialEq)]
pub struct ForecastStart {
    pub request: ForecastRequest,
    /// Equal seeds draw alike.
    pub seed: u32,
    pub readings: Vec<ForecastReading>,
    pub view: ForecastView,
}

/// A forecast in the worker. Only the last one begun is held there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HeldForecast(u32);

thread_local! {
    static LAST: Cell<u32> = const { Cell::new(0) };
}

impl HeldForecast {
    /// A number for a forecast that is begun next; whichever was held is replaced.
    pub fn next() -> Self {
        LAST.set(LAST.get().wrapping_add(1));
        Self(LAST.get())
    }

    /// Begins the forecast. `on_update` is called with the first bands; those of all samples are
    /// the result, and `None` if it was replaced or stopped meanwhile.
    ///
    /// # Errors
    /// A bath of which no forecast can be made, or no worker.
    pub async fn start(
        self,
        start: ForecastStart,
        on_update: impl Fn(ForecastUpdate) + 'static,
    ) -> Result<Option<ForecastUpdate>, Message> {
        let ForecastStart { request, seed, readings, view } = start;
        let request = Box::new(request);
        self.command(
            ForecastCommand::Start { id: self.0, request, seed, readings, view },
            on_update,
        )
        .await
    }

    /// Weighs it by these readings. `on_update` is called at once if more samples are needed,
    /// else the result comes at once; `None` if it is not held any longer.
    ///
    /// # Errors
    /// No worker.
    pub async fn weigh(
        self,
        readings: Vec<ForecastReading>,
        view: ForecastView,
        on_update: impl Fn(ForecastUpdate) + 'static,
    ) -> Result<Option<ForecastUpdate>, Message> {
        self.command(ForecastCommand::Weigh { id: self.0, readings, view }, on_update).await
    }

    /// Goes on to this many samples; as [`Self::weigh`].
    ///
    /// # Errors
    /// No worker.
    pub async fn extend(
        self,
        samples: u32,
        on_update: impl Fn(ForecastUpdate) + 'static,
    ) -> Result<Option<ForecastUpdate>, Message> {
        self.command(ForecastCommand::Extend { id: self.0, samples }, on_update).await
    }

    /// Drops it, also while it is being made.
    pub async fn stop(self) {
        let command = ForecastCommand::Stop { id: self.0 };
        // Without a worker nothing is held.
        let _ = send(&WorkerRequest::Forecast(command), Payload::new(), None).await;
    }

    async fn command(
        self,
        command: ForecastCommand,
        on_update: impl Fn(ForecastUpdate) + 'static,
    ) -> Result<Option<ForecastUpdate>, Message> {
        let on_part: OnPart = Rc::new(move |part, _| {
            if let WorkerResponse::ForecastPart(update) = part {
                on_update(*update);
            }
        });
        let request = WorkerRequest::Forecast(command);
        let outcome: Outcome = send(&request, Payload::new(), Some(on_part)).await;
        expect(outcome, |response, _| match response {
            WorkerResponse::Forecast(update) => Some(Some(*update)),
            WorkerResponse::NotHeld => Some(None),
            _ => None,
        })
    }
}
