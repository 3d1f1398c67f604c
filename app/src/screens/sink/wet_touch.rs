//! What counts as a press while hands and screen are wet: the one place for that rule.
//!
//! A drop of water is felt as a touch: very short, or one of several at once, or again and again
//! at one place. None of these is a press, nor is a touch for what a button was before. Keys, and
//! the presses of a screen reader, come without a touch and always count, but for a second one of
//! the same act right after the first.

use leptos::{ev, prelude::*};
use leptos_use::{UseEventListenerOptions, use_event_listener_with_options};

use crate::{components::notify, i18n::t, platform::clock};

/// A touch shorter than this is a drop: a finger stays for 50 ms and more. Common practice, no
/// source.
const SHORTEST_MS: f64 = 30.0;

/// A second press of one act within this is a bounce. Common practice, no source.
const REPEAT_MS: f64 = 400.0;

/// A touch that begins sooner than this after a button changed its meaning is meant for what the
/// button was: about the time that a person takes to see it and react. Common practice, no source.
const REACTION_MS: f64 = 250.0;

/// The touches of the page. Copied freely.
#[derive(Clone, Copy)]
pub struct WetTouch {
    touches: StoredValue<Touches>,
    /// Several touches at once. Tracked by what is being held.
    pub crowded: RwSignal<bool>,
}

impl WetTouch {
    /// Listens for touches and provides the context.
    pub fn provide() -> Self {
        let touch =
            Self { touches: StoredValue::new(Touches::default()), crowded: RwSignal::new(false) };
        // Before any handler of a button.
        let options = || UseEventListenerOptions::default().capture(true).passive(true);
        let change = move |change: &dyn Fn(&mut Touches)| {
            let crowded = touch.touches.try_update_value(|touches| {
                change(touches);
                touches.crowded
            });
            if let Some(crowded) = crowded
                && touch.crowded.try_get_untracked() != Some(crowded)
            {
                let _ = touch.crowded.try_set(crowded);
            }
        };
        let begin = move |event: ev::PointerEvent| {
            let (id, first) = (event.pointer_id(), event.is_primary());
            let finger = event.pointer_type() == "touch";
            change(&|touches| touches.begin(id, first, finger, event.time_stamp()));
        };
        let end = move |event: ev::PointerEvent| {
            change(&|touches| touches.end(event.pointer_id(), event.time_stamp()));
        };
        let _ = use_event_listener_with_options(window(), ev::pointerdown, begin, options());
        let _ = use_event_listener_with_options(window(), ev::pointerup, end, options());
        let _ = use_event_listener_with_options(window(), ev::pointercancel, end, options());
        provide_context(touch);
        touch
    }

    /// Whether a click on an act counts. Says so if it does not because of several touches.
    pub fn is_press(self, act: &str) -> bool {
        self.is_press_after(act, f64::NEG_INFINITY)
    }

    /// The same for a button that became this act at `changed`, monotonic, in ms. Says so if the
    /// touch was meant for what it was before.
    pub fn is_press_after(self, act: &str, changed: f64) -> bool {
        let now = clock::monotonic_ms();
        let press = self.touches.try_update_value(|touches| touches.press(act, now, changed));
        match press {
            Some(Press::Counts) => return true,
            Some(Press::Crowded) => notify(t!("sink-wet"), None),
            Some(Press::Early) => notify(t!("sink-changed"), None),
            Some(Press::Drop | Press::Bounce) | None => {}
        }
        false
    }
}

/// What a click is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Press {
    Counts,
    Crowded,
    /// Begun before the person can have seen what the button now is.
    Early,
    Drop,
    Bounce,
}

/// The touches that are on the screen, and what was pressed last. Times in ms.
#[derive(Clone, Debug, Default)]
struct Touches {
    /// Pointer, and since when it touches.
    down: Vec<(i32, f64)>,
    /// Several touched at once, until none does.
    crowded: bool,
    /// The touch before a click, which comes after it ended.
    last: Option<Touch>,
    pressed: Option<(String, f64)>,
}

#[derive(Clone, Copy, Debug)]
struct Touch {
    crowded: bool,
    finger: bool,
    since: f64,
    until: f64,
}

impl Touches {
    /// `first`: no other pointer of its kind touches, so that none is left by a lost event.
    fn begin(&mut self, pointer: i32, first: bool, finger: bool, at: f64) {
        if first {
            self.down.clear();
            self.crowded = false;
        }
        self.down.push((pointer, at));
        self.crowded |= self.down.len() > 1;
        self.last = Some(Touch { crowded: self.crowded, finger, since: at, until: at });
    }

    fn end(&mut self, pointer: i32, at: f64) {
        self.down.retain(|(down, _)| *down != pointer);
        if let Some(last) = &mut self.last {
            last.until = at;
            last.crowded |= self.crowded;
        }
        self.crowded &= !self.down.is_empty();
    }

    fn press(&mut self, act: &str, now: f64, changed: f64) -> Press {
        let touch = self.last.take();
        if self.crowded || touch.is_some_and(|touch| touch.crowded) {
            return Press::Crowded;
        }
        if touch.is_some_and(|touch| touch.finger && touch.until - touch.since < SHORTEST_MS) {
            return Press::Drop;
        }
        if touch.is_some_and(|touch| touch.since < changed + REACTION_MS) {
            return Press::Early;
        }
        let bounces = |(before, at): &(String, f64)| before == act && now - at < REPEAT_MS;
        if self.pressed.as_ref().is_some_and(bounces) {
            return Press::Bounce;
        }
        self.pressed = Some((act.to_owned(), now));
        Press::Counts
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NEVER: f64 = f64::NEG_INFINITY;

    fn touched(touches: &mut Touches, from: f64, to: f64) {
        touches.begin(1, true, true, from);
        touches.end(1, to);
    }

    #[test]
    fn a_finger_counts_once_and_a_drop_does_not() {
        let mut touches = Touches::default();
        touched(&mut touches, 0.0, 80.0);
        assert_eq!(touches.press("stir", 81.0, NEVER), Press::Counts);
        touched(&mut touches, 200.0, 280.0);
        assert_eq!(touches.press("stir", 281.0, NEVER), Press::Bounce);
        touched(&mut touches, 300.0, 380.0);
        assert_eq!(touches.press("check", 381.0, NEVER), Press::Counts);
        touched(&mut touches, 1000.0, 1010.0);
        assert_eq!(touches.press("stir", 1011.0, NEVER), Press::Drop);
    }

    #[test]
    fn several_touches_are_no_press_until_all_have_ended() {
        let mut touches = Touches::default();
        touches.begin(1, true, true, 0.0);
        touches.begin(2, false, true, 10.0);
        touches.end(1, 90.0);
        assert_eq!(touches.press("stir", 91.0, NEVER), Press::Crowded);
        touches.end(2, 95.0);
        touched(&mut touches, 100.0, 180.0);
        assert_eq!(touches.press("stir", 181.0, NEVER), Press::Counts);
    }

    #[test]
    fn a_touch_whose_end_was_lost_does_not_block_the_next() {
        let mut touches = Touches::default();
        touches.begin(1, true, true, 0.0);
        touched(&mut touches, 5000.0, 5080.0);
        assert_eq!(touches.press("stir", 5081.0, NEVER), Press::Counts);
    }

    #[test]
    fn keys_and_screen_readers_count_without_a_touch() {
        let mut touches = Touches::default();
        assert_eq!(touches.press("stir", 0.0, NEVER), Press::Counts);
        assert_eq!(touches.press("stir", 500.0, NEVER), Press::Counts);
    }

    #[test]
    fn a_touch_for_what_the_button_was_does_not_count() {
        let mut touches = Touches::default();
        touched(&mut touches, 1000.0, 1080.0);
        assert_eq!(touches.press("check", 1081.0, 1040.0), Press::Early);
        touched(&mut touches, 1200.0, 1280.0);
        assert_eq!(touches.press("check", 1281.0, 1040.0), Press::Early);
        touched(&mut touches, 1400.0, 1480.0);
        assert_eq!(touches.press("check", 1481.0, 1040.0), Press::Counts);
        assert_eq!(touches.press("stir", 1500.0, 1499.0), Press::Counts);
    }
}
