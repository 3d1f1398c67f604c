//! Saying a cue aloud with the phone's own voice, for someone across the room.

use js_sys::Reflect;
use leptos::prelude::{document, window};
use web_sys::{SpeechSynthesis, SpeechSynthesisUtterance};

/// Whether this browser can speak.
pub fn able() -> bool {
    voice().is_some()
}

/// Says the words, after what is being said already. Silent where the browser
/// cannot, or was never touched.
pub fn say(words: &str) {
    let Some(voice) = voice() else { return };
    let Ok(utterance) = SpeechSynthesisUtterance::new_with_text(words) else { return };
    if let Some(language) = document().document_element().and_then(|e| e.get_attribute("lang")) {
        utterance.set_lang(&language);
    }
    voice.speak(&utterance);
}

fn voice() -> Option<SpeechSynthesis> {
    let there = Reflect::get(&window(), &"speechSynthesis".into()).ok()?;
    if there.is_undefined() { None } else { window().speech_synthesis().ok() }
}
