//! Speech synthesis: cues for someone across the room.

use leptos::prelude::{document, window};
use wasm_bindgen::JsValue;
use web_sys::SpeechSynthesisUtterance;

pub fn is_supported() -> bool {
    JsValue::from_str("speechSynthesis").js_in(&window())
}

/// Speaks a text in the language of the page, after what is being spoken. Silent where it is
/// not supported, or before the page was first touched.
pub fn speak(text: &str) {
    if !is_supported() {
        return;
    }
    let Ok(synthesis) = window().speech_synthesis() else { return };
    let Ok(utterance) = SpeechSynthesisUtterance::new_with_text(text) else { return };
    if let Some(language) = document().document_element().and_then(|e| e.get_attribute("lang")) {
        utterance.set_lang(&language);
    }
    synthesis.speak(&utterance);
}
