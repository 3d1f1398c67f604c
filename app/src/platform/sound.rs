//! Tones for cues, by Web Audio.
//!
//! A browser lets a page sound only after it was touched, and an iPhone withdraws that
//! whenever the screen goes off: so every touch resumes the audio context.

use leptos::{ev, prelude::*};
use leptos_use::{use_document_visibility, use_event_listener};
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{AudioContext, AudioContextState, GainNode, OscillatorNode, OscillatorType};

/// One tone of a chime; only a rest if it has no length.
#[derive(Clone, Copy, Debug)]
pub struct Tone {
    pub hertz: f32,
    pub seconds: f64,
    /// Silence after it, in seconds.
    pub rest: f64,
}

/// The audio output of the page. Copied freely.
#[derive(Clone, Copy)]
pub struct Sound {
    context: StoredValue<Option<AudioContext>>,
    ready: RwSignal<bool>,
}

impl Sound {
    /// Listens for touches. Once, at the root.
    pub fn listen() -> Self {
        let sound = Self { context: StoredValue::new(None), ready: RwSignal::new(false) };
        let _ = use_event_listener(window(), ev::pointerup, move |_| sound.resume());
        let _ = use_event_listener(window(), ev::keydown, move |_| sound.resume());
        let visibility = use_document_visibility();
        Effect::new(move |_| {
            visibility.track();
            sound.update();
        });
        sound
    }

    /// Whether a tone would be heard now, as far as the browser says.
    pub fn ready(self) -> bool {
        self.ready.get()
    }

    /// Plays the tones one after the other; silent where the browser does not allow it.
    pub fn play(self, tones: &[Tone]) {
        self.update();
        self.context.with_value(|context| {
            let Some(context) = context else { return };
            let mut at = context.current_time() + 0.05;
            for tone in tones {
                if tone.seconds > 0.0 {
                    let _ = play_tone(context, *tone, at);
                }
                at += tone.seconds + tone.rest;
            }
        });
    }

    /// Creates the context at the first touch, resumes it at others.
    fn resume(self) {
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
                self.update();
            }),
            None => self.update(),
        }
    }

    fn update(self) {
        let running = self.context.with_value(|context| {
            context.as_ref().is_some_and(|c| c.state() == AudioContextState::Running)
        });
        if self.ready.get_untracked() != running {
            self.ready.set(running);
        }
    }
}

/// Schedules a tone at `at` seconds of the context, with soft edges to avoid clicks.
fn play_tone(context: &AudioContext, tone: Tone, at: f64) -> Result<(), JsValue> {
    const EDGE_SECONDS: f64 = 0.02;
    const GAIN: f32 = 0.6;
    let source: OscillatorNode = context.create_oscillator()?;
    let volume: GainNode = context.create_gain()?;
    source.set_type(OscillatorType::Triangle);
    source.frequency().set_value(tone.hertz);
    let end = at + tone.seconds;
    let gain = volume.gain();
    gain.set_value_at_time(0.0, at)?;
    gain.linear_ramp_to_value_at_time(GAIN, at + EDGE_SECONDS)?;
    gain.set_value_at_time(GAIN, end - EDGE_SECONDS)?;
    gain.linear_ramp_to_value_at_time(0.0, end)?;
    source.connect_with_audio_node(&volume)?.connect_with_audio_node(&context.destination())?;
    source.start_with_when(at)?;
    source.stop_with_when(end)
}
