//! What was just done, with an undo: at the upper edge, where no press is, and gone after a while.

use std::{cell::Cell, mem, time::Duration};

use leptos::{leptos_dom::helpers::TimeoutHandle, prelude::*};

use crate::{i18n::t, platform::clock, route::use_route};

#[derive(Clone)]
struct NoticeState {
    text: String,
    undo: Option<Callback<()>>,
    /// Stays until it is closed.
    lasting: bool,
    /// When it was given, monotonic, in ms.
    at: f64,
}

/// A notice given less than this before a change of screen is kept on the next screen.
const KEPT_ON_LEAVING_MS: f64 = 300.0;

/// How long a notice stays while it is neither touched nor focused (WCAG 2.2.1: nothing is lost
/// with it, since Undo is in the menu of the entry too).
const SHOWN_FOR: Duration = Duration::from_secs(20);

type NoticeSignal = RwSignal<Option<NoticeState>>;

thread_local! {
    /// The current notice of the app. Not a context: after an `await` there is none.
    static NOTICE: Cell<Option<NoticeSignal>> = const { Cell::new(None) };
}

/// Shows what was just done, with an undo button if `undo` is given. May be called anywhere,
/// also after an `await`.
pub fn notify(text: impl Into<String>, undo: Option<Callback<()>>) {
    show(text.into(), undo, false);
}

/// Shows what went wrong, until it is closed.
pub fn notify_failure(text: impl Into<String>) {
    show(text.into(), None, true);
}

fn show(text: String, undo: Option<Callback<()>>, lasting: bool) {
    if let Some(notice) = NOTICE.get() {
        notice.set(Some(NoticeState { text, undo, lasting, at: clock::monotonic_ms() }));
    }
}

/// The time after which a notice goes; it starts anew when the person has left it.
#[derive(Clone, Copy)]
struct Countdown {
    notice: NoticeSignal,
    running: StoredValue<Option<TimeoutHandle>>,
}

impl Countdown {
    fn stop(self) {
        let running = self.running.try_update_value(Option::take).flatten();
        if let Some(handle) = running {
            handle.clear();
        }
    }

    fn start(self) {
        self.stop();
        let Some((at, false)) =
            self.notice.with_untracked(|notice| notice.as_ref().map(|one| (one.at, one.lasting)))
        else {
            return;
        };
        let go = move || {
            let is_same = |notice: &NoticeState| notice.at == at;
            if self.notice.try_with_untracked(|now| now.as_ref().is_some_and(is_same)) == Some(true)
            {
                self.notice.set(None);
            }
        };
        self.running.set_value(set_timeout_with_handle(go, SHOWN_FOR).ok());
    }
}

/// Shows the notices of the whole app.
#[component]
pub fn Notice(children: Children) -> impl IntoView {
    let notice: NoticeSignal = RwSignal::new(None);
    NOTICE.set(Some(notice));
    let countdown = Countdown { notice, running: StoredValue::new(None) };
    Effect::new(move |_| {
        notice.track();
        countdown.start();
    });
    let route = use_route();
    let mut first = true;
    Effect::new(move |_| {
        route.with(|_| ()); // `track` would not make the memo follow the route
        let stale = |notice: &NoticeState| clock::monotonic_ms() - notice.at > KEPT_ON_LEAVING_MS;
        if !mem::take(&mut first) && notice.with_untracked(|n| n.as_ref().is_some_and(stale)) {
            notice.set(None);
        }
    });
    view! {
        {children()}
        <div role="status" aria-live="polite">
            {move || notice.get().map(|NoticeState { text, undo, .. }| view! {
                <div class="notice"
                    on:pointerenter=move |_| countdown.stop()
                    on:pointerleave=move |_| countdown.start()
                    on:focusin=move |_| countdown.stop()
                    on:focusout=move |_| countdown.start()>
                    <p>{text}</p>
                    {undo.map(|undo| view! {
                        <button on:click=move |_| { notice.set(None); undo.run(()) }>{t!("do-undo")}</button>
                    })}
                    <button on:click=move |_| notice.set(None)>{t!("do-close")}</button>
                </div>
            })}
        </div>
    }
}
