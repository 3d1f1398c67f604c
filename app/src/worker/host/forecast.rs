//! Forecasts: one is held, and made in short parts, so that a newer request or a reading never
//! waits long.

use std::cell::RefCell;

use bleachfield_core::forecast::{Forecast, ForecastQuantity, advise};
use js_sys::{Date, Promise};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::MessageChannel;

use crate::worker::protocol::{
    ForecastCommand, ForecastUpdate, ForecastView, OnPart, Outcome, QuantityBands, WorkerError,
    WorkerResponse,
};

/// Samples of the first bands, and of all.
const FIRST: u32 = 100;
const ALL: u32 = 500;
/// Most samples for readings that few of them agree with.
const MOST: u32 = 4000;
/// Samples between two fits of where they are drawn.
const BETWEEN_FITS: u32 = 250;
/// Length of a part, in milliseconds: a reading waits no longer.
const PART_MS: f64 = 12.0;

/// What is shown; the in-bath pH and the scissions stand behind others.
const SHOWN: [ForecastQuantity; 7] = [
    ForecastQuantity::DryLightness,
    ForecastQuantity::WetLightness,
    ForecastQuantity::DryYellowness,
    ForecastQuantity::OxidantLeft,
    ForecastQuantity::CooledPh,
    ForecastQuantity::Celsius,
    ForecastQuantity::ChainLoss,
];

struct Held {
    id: u32,
    forecast: Forecast,
    view: ForecastView,
    /// Samples to come to.
    wanted: u32,
    /// Samples from which those after are drawn where the readings agree.
    refit_at: u32,
    /// A request is making it at present.
    busy: bool,
}

thread_local! {
    static HELD: RefCell<Option<Held>> = const { RefCell::new(None) };
}

pub async fn handle(command: ForecastCommand, on_part: Option<OnPart>) -> Outcome {
    match command {
        ForecastCommand::Start { id, request, seed, readings, view } => {
            let forecast = Forecast::new(*request, seed).map_err(|_| WorkerError::NoForecast)?;
            let mut held = Held { id, forecast, view, wanted: ALL, refit_at: ALL, busy: false };
            held.forecast.weigh(&readings);
            HELD.set(Some(held));
            make(id, on_part).await
        }
        ForecastCommand::Weigh { id, readings, view } => {
            let weighed = with_held(id, |held| {
                held.view = view;
                held.forecast.weigh(&readings);
                held.update()
            });
            let Some(update) = weighed else { return not_held() };
            go_on(id, update, on_part).await
        }
        ForecastCommand::Extend { id, samples } => {
            let update = with_held(id, |held| {
                held.wanted = samples.clamp(held.wanted, MOST);
                held.update()
            });
            let Some(update) = update else { return not_held() };
            go_on(id, update, on_part).await
        }
        ForecastCommand::Stop { id } => {
            HELD.with_borrow_mut(|held| held.take_if(|held| held.id == id));
            not_held()
        }
    }
}

/// Responds at once; if more samples are needed, and no other request is making them, with those
/// too.
async fn go_on(id: u32, update: ForecastUpdate, on_part: Option<OnPart>) -> Outcome {
    if with_held(id, |held| held.busy || held.is_complete()) == Some(false) {
        if let Some(on_part) = &on_part {
            on_part(WorkerResponse::ForecastPart(Box::new(update)), Vec::new());
        }
        return make(id, None).await;
    }
    Ok((WorkerResponse::Forecast(Box::new(update)), Vec::new()))
}

/// Makes samples until there are enough, or the forecast was replaced.
async fn make(id: u32, on_part: Option<OnPart>) -> Outcome {
    let mut first = on_part;
    with_held(id, |held| held.busy = true);
    loop {
        let made = with_held(id, |held| {
            held.extend_for(PART_MS);
            if held.is_complete() {
                held.busy = false;
                return (true, Some(held.update()));
            }
            let is_first = first.is_some() && held.forecast.drawn() >= FIRST;
            (false, is_first.then(|| held.update()))
        });
        match made {
            None => return not_held(),
            Some((true, Some(update))) => {
                return Ok((WorkerResponse::Forecast(Box::new(update)), Vec::new()));
            }
            Some((_, Some(update))) => {
                if let Some(on_part) = first.take() {
                    on_part(WorkerResponse::ForecastPart(Box::new(update)), Vec::new());
                }
            }
            Some((_, None)) => {}
        }
        next_task().await;
    }
}

/// Whether a request makes samples at present.
pub(super) fn is_being_made() -> bool {
    HELD.with_borrow(|held| held.as_ref().is_some_and(|held| held.busy))
}

fn not_held() -> Outcome {
    Ok((WorkerResponse::NotHeld, Vec::new()))
}

fn with_held<T>(id: u32, of: impl FnOnce(&mut Held) -> T) -> Option<T> {
    HELD.with_borrow_mut(|held| held.as_mut().filter(|held| held.id == id).map(of))
}

impl Held {
    fn is_complete(&self) -> bool {
        self.forecast.drawn() >= self.wanted && self.is_settled()
    }

    /// A few samples would advise by chance.
    fn is_settled(&self) -> bool {
        let drawn = self.forecast.drawn();
        drawn >= MOST || drawn >= ALL && !self.forecast.support().wants_more()
    }

    /// A first band comes as soon as it can, not in the middle of a part.
    fn extend_for(&mut self, ms: f64) {
        const STEP: u32 = 10;
        let end = Date::now() + ms;
        let before = self.forecast.drawn();
        if before >= self.refit_at {
            self.forecast.refit();
            self.refit_at = before + BETWEEN_FITS;
        }
        loop {
            self.forecast.extend(STEP);
            let drawn = self.forecast.drawn();
            let is_first = before < FIRST && drawn >= FIRST;
            if is_first || drawn >= self.wanted || Date::now() >= end {
                break;
            }
        }
    }

    fn update(&self) -> ForecastUpdate {
        let bands = SHOWN.into_iter().zip(self.forecast.all_bands(SHOWN));
        let bands = bands.map(|(of, bands)| QuantityBands { of, bands });
        ForecastUpdate {
            view: self.view,
            support: self.forecast.support(),
            settled: self.is_settled(),
            bands: bands.filter(|known| !known.bands.is_empty()).collect(),
            advice: advise(&self.forecast, self.view.now, &self.view.goal),
        }
    }
}

/// Lets waiting messages be handled. A timer would be held back to 4 ms.
pub(super) async fn next_task() {
    let waits = Promise::new(&mut |resolve, _| match MessageChannel::new() {
        Ok(channel) => {
            channel.port1().set_onmessage(Some(&resolve));
            // Fails only for what cannot be copied.
            let _ = channel.port2().post_message(&JsValue::UNDEFINED);
        }
        Err(_) => _ = resolve.call0(&JsValue::UNDEFINED),
    });
    let _ = JsFuture::from(waits).await;
}
