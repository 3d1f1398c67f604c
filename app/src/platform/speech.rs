//! Speech synthesis: cues for someone across the room. Only by a voice that is on the device: an
//! online voice would send the text to its maker, and is silent without a network.

use leptos::prelude::{document, window};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{SpeechSynthesis, SpeechSynthesisUtterance, SpeechSynthesisVoice};

/// Whether this device can speak.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Voice {
    None,
    /// Its voices for the language of the page all need a network.
    OnlineOnly,
    Offline,
}

pub fn voice() -> Voice {
    let Some(synthesis) = synthesis() else { return Voice::None };
    match offline_voice(&synthesis) {
        Some(_) => Voice::Offline,
        // Phones may list none and speak by the system's own.
        None if synthesis.get_voices().length() == 0 => Voice::Offline,
        None => Voice::OnlineOnly,
    }
}

/// Speaks a text in the language of the page, after what is being spoken. Silent where there is
/// no offline voice, or before the page was first touched.
pub fn speak(text: &str) {
    let Some(synthesis) = synthesis() else { return };
    if voice() != Voice::Offline {
        return;
    }
    let Ok(utterance) = SpeechSynthesisUtterance::new_with_text(text) else { return };
    utterance.set_lang(&language());
    utterance.set_voice(offline_voice(&synthesis).as_ref());
    synthesis.speak(&utterance);
}

fn synthesis() -> Option<SpeechSynthesis> {
    let is_supported = JsValue::from_str("speechSynthesis").js_in(&window());
    is_supported.then(|| window().speech_synthesis().ok()).flatten()
}

/// The first voice of the device for the page's language.
fn offline_voice(synthesis: &SpeechSynthesis) -> Option<SpeechSynthesisVoice> {
    let language = language();
    let main = |tag: &str| tag.split(['-', '_']).next().unwrap_or_default().to_ascii_lowercase();
    synthesis
        .get_voices()
        .iter()
        .filter_map(|voice| voice.dyn_into::<SpeechSynthesisVoice>().ok())
        .find(|voice| voice.local_service() && main(&voice.lang()) == main(&language))
}

fn language() -> String {
    document().document_element().and_then(|e| e.get_attribute("lang")).unwrap_or_default()
}
