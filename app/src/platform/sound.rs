//! Tones for cues, made by Web Audio: no sound file is shipped.
//!
//! A browser lets a page sound only after it was touched, and an iPhone takes
//! that back each time the screen goes off. So every touch wakes the sound.

use leptos::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{AudioContext, AudioContextState, GainNode, OscillatorNode, OscillatorType};

/// One tone of a chime.
#[derive(Clone, Copy, Debug)]
pub struct Tone {
    pub hertz: f32,
    pub seconds: f64,
    /// Silence after it.
    pub rest: f64,
}

/// The loudspeaker of this page.
#[derive(Clone, Copy)]
pub struct Sound {
    context: StoredValue<Option<AudioContext>>,
    ready: RwSignal<bool>,
}

impl Sound {
    /// Listens for touches, so as to be allowed to sound. Make it once, at the
    /// root.
    pub fn listen() -> Self {
        let sound = Self { context: StoredValue::new(None), ready: RwSignal::new(false) };
        for touch in ["pointerup", "keydown"] {
            drop(window_event_listener_untyped(touch, move |_| sound.wake()));
        }
        drop(window_event_listener_untyped("visibilitychange", move |_| sound.look()));
        sound
    }

    /// Whether a tone would be heard now, as far as the browser says.
    pub fn ready(self) -> bool {
        self.ready.get()
    }

    /// Plays the tones one after the other; silent where the browser does not
    /// let it, and then `ready` says so.
    pub fn play(self, tones: &[Tone]) {
        self.look();
        self.context.with_value(|context| {
            let Some(context) = context else { return };
            let mut at = context.current_time() + 0.05;
            for tone in tones {
                let _ = sound_one(context, *tone, at);
                at += tone.seconds + tone.rest;
            }
        });
    }

    /// Called on a touch: makes the context on the first, resumes it on others.
    fn wake(self) {
        if self.context.with_value(Option::is_none) {
            self.context.set_value(AudioContext::new().ok());
        }
        let resumed = self.context.with_value(|context| {
            let context = context.as_ref().filter(|c| c.state() != AudioContextState::Running)?;
            context.resume().ok()
        });
        match resumed {
            Some(resumed) => spawn_local(async move {
                let _ = JsFuture::from(resumed).await;
                self.look();
            }),
            None => self.look(),
        }
    }

    fn look(self) {
        let running = self.context.with_value(|context| {
            context.as_ref().is_some_and(|c| c.state() == AudioContextState::Running)
        });
        if self.ready.get_untracked() != running {
            self.ready.set(running);
        }
    }
}

/// A tone with soft edges, so that it does not click.
fn sound_one(context: &AudioContext, tone: Tone, at: f64) -> Result<(), wasm_bindgen::JsValue> {
    const EDGE: f64 = 0.02;
    const LOUD: f32 = 0.6;
    let source: OscillatorNode = context.create_oscillator()?;
    let volume: GainNode = context.create_gain()?;
    source.set_type(OscillatorType::Triangle);
    source.frequency().set_value(tone.hertz);
    let end = at + tone.seconds;
    let gain = volume.gain();
    gain.set_value_at_time(0.0, at)?;
    gain.linear_ramp_to_value_at_time(LOUD, at + EDGE)?;
    gain.set_value_at_time(LOUD, end - EDGE)?;
    gain.linear_ramp_to_value_at_time(0.0, end)?;
    source.connect_with_audio_node(&volume)?.connect_with_audio_node(&context.destination())?;
    source.start_with_when(at)?;
    source.stop_with_when(end)
}
