//! The ring of a running bath: a vat seen from above, open at the bottom. The time that has
//! passed fills it from the left end to the right one, which is the planned stop; cues are ticks.

use bleachfield_core::derive::cue::{CueKind, DialMark, MarkState};
use leptos::prelude::*;

use super::running_bath::{RunningBath, act_name, up_to_minute};
use crate::{
    i18n::{format_duration, format_elapsed, t, t_with},
    platform::clock,
};

/// Half-axes of the ring's middle line, and the middle, in the units of the drawing.
const HALF_WIDTH: f64 = 164.0;
const HALF_HEIGHT: f64 = 104.0;
const MIDDLE: (f64, f64) = (180.0, 118.0);

/// The gap at the bottom, in radians.
const GAP: f64 = 0.9;

#[component]
pub fn Ring(running: RunningBath) -> impl IntoView {
    let dial = running.dial;
    let text = move || format_elapsed(running.elapsed());
    // "4:05", "1:04:05", and days.
    let length = Memo::new(move |_| match text().chars().count() {
        0..=5 => "elapsed",
        6..=8 => "elapsed long",
        _ => "elapsed longest",
    });
    let passed = Memo::new(move |_| {
        // To a five-hundredth: finer is not seen.
        dial.with(|dial| (dial.passed * 500.0).round() / 500.0)
    });
    let marks = Memo::new(move |_| dial.with(|dial| dial.marks.clone()));
    let over =
        Memo::new(move |_| running.stop_due.get().is_some_and(|due| running.state.now() >= due));
    view! {
        <div class="ring" class:over=move || over.get()>
            <svg viewBox="0 0 360 226" aria-hidden="true" focusable="false">
                <path class="way" d=arc(0.0, 1.0) />
                <path class="passed" d=move || arc(0.0, passed.get()) />
                {move || marks.get().into_iter().map(tick).collect_view()}
                {move || dial.with(|dial| dial.ends_at_stop).then(|| {
                    view! { <path class="stop" d=across(1.0, 17.0, 17.0) /> }
                })}
            </svg>
            <div class="face">
                <span class=move || length.get() role="timer" aria-live="off"
                    aria-label=t!("sink-elapsed")>{text}</span>
                <p class="of">{move || of_stop(running)}</p>
                <p class="next">{move || next(running)}</p>
            </div>
        </div>
    }
}

/// "of 1 h, stop at 15:05".
fn of_stop(running: RunningBath) -> String {
    let Some(due) = running.stop_due.get() else { return t!("sink-no_stop") };
    let past = running.state.now().duration_since(due);
    let time = clock::local_time(due);
    if past.is_negative() {
        let length = format_duration(due.duration_since(running.started));
        t_with!("sink-of", &[("length", &length), ("time", &time)])
    } else {
        t_with!("sink-over", &[("by", &format_duration(past)), ("time", &time)])
    }
}

/// "Stir in 9 min".
fn next(running: RunningBath) -> Option<String> {
    let (acts, due) = running.next.get()?;
    let what: Vec<String> = acts.into_iter().map(act_name).collect();
    let left = up_to_minute(due.duration_since(running.state.now()));
    Some(t_with!("sink-next", &[("what", &what.join(", ")), ("by", &format_duration(left))]))
}

/// A tick across the ring; longer while it asks for something.
fn tick(mark: DialMark) -> AnyView {
    let DialMark { at, kinds, state } = mark;
    let stir = kinds == [CueKind::Stir];
    let class = match state {
        MarkState::Pending => "tick-mark pending",
        MarkState::Upcoming => "tick-mark upcoming",
        MarkState::Done => "tick-mark done",
        MarkState::Skipped => "tick-mark skipped",
    };
    // A stir is a short tick on the outside, a check goes across.
    let (inner, outer) = match state {
        MarkState::Pending => (17.0, 17.0),
        _ if stir => (-1.0, 9.0),
        _ => (9.0, 9.0),
    };
    view! { <path class=class d=across(at, inner, outer) /> }.into_any()
}

/// The place on the ring's middle line at a share of the dial, and the direction outwards.
fn place(share: f64) -> ((f64, f64), (f64, f64)) {
    let angle = GAP / 2.0 + share.clamp(0.0, 1.0) * (std::f64::consts::TAU - GAP);
    let (sin, cos) = angle.sin_cos();
    let at = (MIDDLE.0 - HALF_WIDTH * sin, MIDDLE.1 + HALF_HEIGHT * cos);
    // The normal of an ellipse.
    let (x, y) = (-sin / HALF_WIDTH, cos / HALF_HEIGHT);
    let length = x.hypot(y);
    (at, (x / length, y / length))
}

/// The ring's middle line between two shares, as an SVG path.
fn arc(from: f64, to: f64) -> String {
    let (((x1, y1), _), ((x2, y2), _)) = (place(from), place(to));
    let large = u8::from((to - from) * (std::f64::consts::TAU - GAP) > std::f64::consts::PI);
    format!("M{x1:.1} {y1:.1}A{HALF_WIDTH} {HALF_HEIGHT} 0 {large} 1 {x2:.1} {y2:.1}")
}

/// A line across the ring, so far to the inside and to the outside of its middle line.
fn across(share: f64, inner: f64, outer: f64) -> String {
    let ((x, y), (out_x, out_y)) = place(share);
    let (x1, y1) = (x - out_x * inner, y - out_y * inner);
    let (x2, y2) = (x + out_x * outer, y + out_y * outer);
    format!("M{x1:.1} {y1:.1}L{x2:.1} {y2:.1}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ring_begins_left_of_its_gap_and_ends_right_of_it() {
        let ((start_x, start_y), _) = place(0.0);
        let ((end_x, end_y), _) = place(1.0);
        assert!(start_x < MIDDLE.0 && end_x > MIDDLE.0);
        assert!((start_y - end_y).abs() < 1e-9 && start_y > MIDDLE.1);
        assert!((start_x + end_x - 2.0 * MIDDLE.0).abs() < 1e-9);
    }

    #[test]
    fn half_the_time_is_at_the_top_and_a_quarter_on_the_left() {
        let ((x, y), (out_x, out_y)) = place(0.5);
        assert!((x - MIDDLE.0).abs() < 1e-9 && (y - (MIDDLE.1 - HALF_HEIGHT)).abs() < 1e-9);
        assert!(out_x.abs() < 1e-9 && (out_y + 1.0).abs() < 1e-9);
        assert!(place(0.25).0.0 < MIDDLE.0 - HALF_WIDTH * 0.9);
    }

    #[test]
    fn every_place_is_on_the_ellipse_and_within_the_drawing() {
        for step in 0..=100 {
            let ((x, y), (out_x, out_y)) = place(f64::from(step) / 100.0);
            let (u, v) = ((x - MIDDLE.0) / HALF_WIDTH, (y - MIDDLE.1) / HALF_HEIGHT);
            assert!((u * u + v * v - 1.0).abs() < 1e-9);
            assert!((out_x.hypot(out_y) - 1.0).abs() < 1e-9);
            assert!(x > 9.0 && x < 351.0 && y > 9.0 && y < 226.0);
        }
        // Out of range is the nearest end.
        assert_eq!(place(7.0), place(1.0));
    }

    #[test]
    fn more_than_half_a_turn_takes_the_long_way() {
        assert!(arc(0.0, 0.4).contains(" 0 0 1 "));
        assert!(arc(0.0, 0.9).contains(" 0 1 1 "));
    }
}
