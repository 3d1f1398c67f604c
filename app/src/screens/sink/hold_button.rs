//! A button that acts only when it is held, so that neither a drop of water nor a slip does it.
//! By key: hold Enter or Space, or press it twice. A press of a screen reader, which comes
//! without touch or key, asks first.

use std::time::Duration;

use leptos::{ev, leptos_dom::helpers::TimeoutHandle, prelude::*};

use super::wet_touch::WetTouch;
use crate::{components::icon, i18n::t};

/// How long it is held. sink.css fills the button in the same time.
const HOLD: Duration = Duration::from_millis(1200);

/// How long after a short key press a second one acts.
const ARMED: Duration = Duration::from_secs(5);

/// A touch that moves by more than this, in CSS pixels, is no hold.
const STILL_PX: i32 = 40;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum HoldState {
    Idle,
    Holding,
    /// The next key press acts.
    Armed,
}

/// Copied freely.
#[derive(Clone, Copy)]
struct Hold {
    state: RwSignal<HoldState>,
    timer: StoredValue<Option<TimeoutHandle>>,
    done: Callback<()>,
    /// Where the touch began; it is not a screen reader's press then.
    began: StoredValue<Option<(i32, i32)>>,
}

impl Hold {
    fn new(done: Callback<()>) -> Self {
        let hold = Self {
            state: RwSignal::new(HoldState::Idle),
            timer: StoredValue::new(None),
            done,
            began: StoredValue::new(None),
        };
        on_cleanup(move || hold.clear_timer());
        hold
    }

    fn begin(self) {
        self.state.set(HoldState::Holding);
        self.after(HOLD, move || {
            if self.state.try_get_untracked() == Some(HoldState::Holding) {
                self.finish();
            }
        });
    }

    fn finish(self) {
        self.cancel();
        self.done.run(());
    }

    fn cancel(self) {
        self.clear_timer();
        let _ = self.state.try_set(HoldState::Idle);
    }

    /// After a short press of a key.
    fn arm(self) {
        self.state.set(HoldState::Armed);
        self.after(ARMED, move || {
            let _ = self.state.try_set(HoldState::Idle);
        });
    }

    fn is(self, state: HoldState) -> bool {
        self.state.get_untracked() == state
    }

    fn after(self, wait: Duration, act: impl FnOnce() + 'static) {
        self.clear_timer();
        self.timer.set_value(set_timeout_with_handle(act, wait).ok());
    }

    fn clear_timer(self) {
        if let Some(timer) = self.timer.try_update_value(Option::take).flatten() {
            timer.clear();
        }
    }

    fn key_down(self, event: &ev::KeyboardEvent) {
        if !is_press_key(event) {
            return;
        }
        // The browser would click.
        event.prevent_default();
        if event.repeat() {
            return;
        }
        if self.is(HoldState::Armed) { self.finish() } else { self.begin() }
    }

    fn key_up(self, event: &ev::KeyboardEvent) {
        if is_press_key(event) {
            event.prevent_default();
            if self.is(HoldState::Holding) {
                self.arm();
            }
        }
    }

    fn pointer_down(self, event: &ev::PointerEvent, crowded: bool) {
        self.began.set_value(Some((event.client_x(), event.client_y())));
        if event.is_primary() && event.button() == 0 && !crowded {
            self.begin();
        }
    }

    fn pointer_move(self, event: &ev::PointerEvent) {
        let moved = self.began.get_value().is_some_and(|(x, y)| {
            (event.client_x() - x).abs() > STILL_PX || (event.client_y() - y).abs() > STILL_PX
        });
        if moved && self.is(HoldState::Holding) {
            self.cancel();
        }
    }

    fn pointer_up(self) {
        if self.is(HoldState::Holding) {
            self.cancel();
        }
    }
}

fn is_press_key(event: &ev::KeyboardEvent) -> bool {
    matches!(event.key().as_str(), "Enter" | " ")
}

/// Runs `done` once it was held, and `ask` for a screen reader.
#[component]
pub fn HoldButton(
    #[prop(into)] label: String,
    /// The second line while it is not held.
    #[prop(into)]
    hint: Signal<String>,
    /// Whether it is the next act.
    #[prop(into)]
    due: Signal<bool>,
    done: Callback<()>,
    ask: Callback<()>,
) -> impl IntoView {
    let hold = Hold::new(done);
    let touch: WetTouch = expect_context();
    // A second touch anywhere ends it.
    Effect::new(move |_| {
        if touch.crowded.get() && hold.is(HoldState::Holding) {
            hold.cancel();
        }
    });
    let line = move || match hold.state.get() {
        HoldState::Idle => hint.get(),
        HoldState::Holding => t!("sink-hold-on"),
        HoldState::Armed => t!("sink-hold-again"),
    };
    // A click after a touch is that touch's; any other was not made by hand.
    let click = move |_| {
        if hold.began.try_update_value(Option::take).flatten().is_none() {
            ask.run(());
        }
    };
    view! {
        <button class="button stop touch hold" type="button" class:due=move || due.get()
            class:holding=move || hold.state.get() == HoldState::Holding
            on:pointerdown=move |event| {
                hold.pointer_down(&event, touch.crowded.get_untracked());
            }
            on:pointermove=move |event| hold.pointer_move(&event)
            on:pointerup=move |_| hold.pointer_up()
            on:pointercancel=move |_| hold.pointer_up()
            on:contextmenu=move |event| event.prevent_default()
            on:keydown=move |event| hold.key_down(&event)
            on:keyup=move |event| hold.key_up(&event)
            on:blur=move |_| hold.cancel()
            on:click=click>
            <span class="fill" aria-hidden="true"></span>
            <icon::Hand />
            <span class="lines">
                <span>{label}</span>" "<span class="line small">{line}</span>
            </span>
        </button>
    }
}
