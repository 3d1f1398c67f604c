//! Touches: a press of some length, and several at once.

use std::time::Duration;

use fantoccini::actions::{
    Actions, InputSource, MOUSE_BUTTON_LEFT, MouseActions, PointerAction, TouchActions,
};
use fantoccini::elements::Element;
use tokio::time::sleep;

use super::Phone;
use crate::engine::Engine;
use crate::error::TestResult;

/// As long as a finger touches; a shorter touch is taken for a drop of water at the Sink.
const FINGER: Duration = Duration::from_millis(90);

/// What a person takes to see a button and react: at the Sink, a touch sooner than that after the
/// button changed does not count.
const REACTION: Duration = Duration::from_millis(300);

impl Phone {
    /// Touches the control called `name` as a finger does. Chromium's driver clicks in no time.
    pub async fn press(&self, name: &str) -> TestResult {
        self.find("press", name).await?;
        sleep(REACTION).await;
        self.press_for(name, FINGER).await
    }

    /// Touches the first element that a CSS selector matches: one whose words change.
    pub async fn press_on(&self, selector: &str) -> TestResult {
        self.find("any", selector).await?;
        sleep(REACTION).await;
        self.touch(self.find("any", selector).await?, FINGER).await
    }

    /// Touches the control called `name` for `length`.
    pub async fn press_for(&self, name: &str, length: Duration) -> TestResult {
        self.touch(self.find("press", name).await?, length).await
    }

    /// WebKitGTK's driver has no touch: its mouse.
    async fn touch(&self, element: Element, length: Duration) -> TestResult {
        let press = if self.engine == Engine::WebKit {
            Actions::from(contact(MouseActions::new("mouse".into()), element, length))
        } else {
            Actions::from(contact(TouchActions::new("finger".into()), element, length))
        };
        self.client()?.perform_actions(press).await?;
        Ok(())
    }

    /// Touches two controls at once for `length`.
    pub async fn press_both_for(&self, one: &str, other: &str, length: Duration) -> TestResult {
        let (one, other) = (self.find("press", one).await?, self.find("press", other).await?);
        let finger = contact(TouchActions::new("finger".into()), one, length);
        let drop = contact(TouchActions::new("drop".into()), other, length);
        self.client()?.perform_actions(Actions::from(finger).and(drop)).await?;
        Ok(())
    }
}

/// Down on the middle of an element, and up again.
fn contact<S: InputSource<Action = PointerAction>>(
    source: S,
    element: Element,
    length: Duration,
) -> S {
    source
        .then(PointerAction::MoveToElement { element, duration: None, x: 0.0, y: 0.0 })
        .then(PointerAction::Down { button: MOUSE_BUTTON_LEFT })
        .then(PointerAction::Pause { duration: length })
        .then(PointerAction::Up { button: MOUSE_BUTTON_LEFT })
}
