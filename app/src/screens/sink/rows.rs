//! Several running baths as rows: each with its name, time left, next act and its own stop. The
//! upper part of a row fills the screen with its bath.

use leptos::prelude::*;
use ulid::Ulid;

use super::{
    acts::{LargeAct, NextAct, StopAct},
    running_bath::{RunningBath, act_name, up_to_minute},
    screen_cautions::UrgentCautions,
};
use crate::{
    i18n::{format_duration, format_elapsed, t, t_with},
    platform::clock,
    route::Route,
};

#[component]
pub fn Rows(baths: Memo<Vec<Ulid>>) -> impl IntoView {
    view! {
        <For each=move || baths.get() key=|bath| *bath let:bath><Row bath /></For>
    }
}

#[component]
fn Row(bath: Ulid) -> Option<impl IntoView> {
    let running = RunningBath::find(bath)?;
    let left = move || {
        let Some(due) = running.stop_due.get() else { return t!("sink-no_stop") };
        let left = due.duration_since(running.state.now());
        let time = clock::local_time(due);
        if left.is_negative() {
            t_with!("sink-over", &[("by", &format_duration(-left)), ("time", &time)])
        } else {
            let by = format_duration(up_to_minute(left));
            t_with!("sink-left", &[("by", &by), ("time", &time)])
        }
    };
    let next = move || {
        let (acts, due) = running.next.get()?;
        let what: Vec<String> = acts.into_iter().map(act_name).collect();
        let by = format_duration(up_to_minute(due.duration_since(running.state.now())));
        Some(t_with!("sink-next", &[("what", &what.join(", ")), ("by", &by)]))
    };
    let share = move || running.dial.with(|dial| format!("width: {:.1}%", dial.passed * 100.0));
    Some(view! {
        <section class="card bath-row stack" aria-labelledby=format!("bath-{bath}")>
            <a href=Route::Bath(bath).href() class="who">
                <h2 id=format!("bath-{bath}")>{move || running.batch_name()}</h2>
                <span class="elapsed" role="timer" aria-live="off">
                    {move || format_elapsed(running.elapsed())}
                </span>
                <span class="left">{left}</span>
                <span class="soft next">{next}</span>
                <span class="bar" aria-hidden="true"><span style=share></span></span>
            </a>
            <UrgentCautions running />
            <NextAct running large=LargeAct::of(running) />
            <StopAct running />
        </section>
    })
}
