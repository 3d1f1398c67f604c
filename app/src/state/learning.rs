//! What was learnt from own baths: kept on the device, and brought up to date by the worker while
//! nobody acts. A cache in local storage, one for each book: lost, damaged or of another version,
//! it is learnt anew from the book.

use std::{cell::Cell, pin::Pin, time::Duration};

use bleachfield_core::{
    derive::learning_history,
    learning::{Learning, LearningProgress, LearningQuery, LearntParameters},
};
use leptos::{
    ev,
    prelude::*,
    task::spawn_local,
    wasm_split::{SplitLoaderError, wasm_split},
};
use leptos_use::use_event_listener;

use super::{AppState, LoadState};
use crate::{
    platform::{clock, local_storage},
    worker,
};

const KEY: &str = "bleachfield.learning";
/// Equal books learn alike, on every phone.
const SEED: u32 = 1;
/// Learning begins, and goes on, when nobody has acted for so long.
const QUIET: Duration = Duration::from_millis(2500);

/// What was learnt, from context. Copied freely.
#[derive(Clone, Copy)]
pub struct LearningState {
    /// `None` until a lazy piece asks for it: a first visit has no use of its decoder.
    learning: RwSignal<Option<Learning>>,
    progress: RwSignal<Option<LearningProgress>>,
}

thread_local! {
    /// The worker learns.
    static RUNNING: Cell<bool> = const { Cell::new(false) };
    static WAITING: Cell<Option<TimeoutHandle>> = const { Cell::new(None) };
}

pub fn learning_state() -> LearningState {
    expect_context()
}

impl LearningState {
    /// Provides the context, and follows the book.
    pub fn provide(state: AppState) {
        let learning = Self { learning: RwSignal::new(None), progress: RwSignal::new(None) };
        provide_context(learning);
        Effect::new(move |_| {
            if matches!(state.load_state(), LoadState::Ready(_)) {
                state.book(|_| ());
                learning.later(state);
            }
        });
        let acts = move || {
            if RUNNING.get() {
                spawn_local(stop());
            }
            if WAITING.get().is_some() {
                learning.later(state);
            }
        };
        let _ = use_event_listener(document(), ev::pointerdown, move |_| acts());
        let _ = use_event_listener(document(), ev::keydown, move |_| acts());
    }

    /// The parameters for a bath. Tracked.
    pub fn outcome(self, query: &LearningQuery) -> LearntParameters {
        self.with(|learning| learning.outcome(query))
    }

    /// The fibres learnt from, in the order of their first baths. Tracked.
    pub fn fibres(self) -> Vec<String> {
        self.with(Learning::fibres)
    }

    /// Tracked.
    fn with<T>(self, of: impl FnOnce(&Learning) -> T) -> T {
        self.bring();
        self.learning.with(|learning| match learning {
            Some(learning) => of(learning),
            None => of(&Learning::new(SEED)),
        })
    }

    /// Brings what was kept, once.
    fn bring(self) {
        if self.learning.with_untracked(Option::is_none) {
            let kept = local_storage::get(KEY).unwrap_or_else(|| Learning::new(SEED));
            let _ = self.learning.try_set(Some(kept));
        }
    }

    /// How far it is; `None` before it began. Tracked.
    pub fn progress(self) -> Option<LearningProgress> {
        self.progress.get()
    }

    /// Learns once nobody has acted for a while.
    fn later(self, state: AppState) {
        let begin = move || {
            WAITING.set(None);
            spawn_local(async move {
                if let Ok(worker) = load_learning().await {
                    (worker.learn)(self, state).await;
                }
            });
        };
        let earlier = WAITING.replace(set_timeout_with_handle(begin, QUIET).ok());
        if let Some(earlier) = earlier {
            earlier.clear();
        }
    }

    async fn learn(self, state: AppState) {
        if RUNNING.get() {
            return self.later(state);
        }
        self.bring();
        let batches = state.book_now(|book| learning_history(book, clock::now()));
        let Some(mut learning) = self.learning.get_untracked() else { return };
        let before = learning.clone();
        let mut progress = learning.retain(&batches);
        if !progress.is_done() {
            RUNNING.set(true);
            let show = move |progress| _ = self.progress.try_set(Some(progress));
            // Without a worker, forecasts rest on what was learnt before.
            let run = worker::learn(learning.clone(), batches, show).await;
            RUNNING.set(false);
            if let Some(run) = run {
                (learning, progress) = run;
                if !progress.is_done() {
                    self.later(state);
                }
            }
        }
        let _ = self.progress.try_set(Some(progress));
        if learning != before {
            local_storage::set(KEY, &learning);
            let _ = self.learning.try_set(Some(learning));
        }
    }
}

/// Ends a run of the worker after the present bath.
async fn stop() {
    if let Ok(worker) = load_learning().await {
        (worker.stop)().await;
    }
}

type LocalFuture = Pin<Box<dyn Future<Output = ()>>>;

/// What speaks with the worker: in a lazy piece, with the (de)serialization of its messages.
struct LearningWorker {
    learn: fn(LearningState, AppState) -> LocalFuture,
    stop: fn() -> LocalFuture,
}

#[wasm_split(learning, fallible, wasm_split_path = leptos::wasm_split)]
fn load_learning() -> Result<LearningWorker, SplitLoaderError> {
    Ok(LearningWorker {
        learn: |learning, state| Box::pin(learning.learn(state)),
        stop: || Box::pin(worker::stop_learning()),
    })
}
