//! Why a photo is refused, and what to do.

use bleachfield_core::colour::ColourError;
use leptos::prelude::*;

use crate::i18n::render;

/// What is wrong, and what to do about it.
pub fn words(error: &ColourError) -> (String, String) {
    (render(&error.message()), render(&error.instruction()))
}

/// All reasons against a photo, each with its instruction; a repeated instruction once.
pub fn view(title: String, reasons: &[(String, String)]) -> AnyView {
    let mut shown: Vec<&str> = Vec::new();
    let lines: Vec<AnyView> = reasons
        .iter()
        .map(|(why, todo)| {
            let new = !todo.is_empty() && !shown.contains(&todo.as_str());
            shown.push(todo);
            let todo = new.then(|| todo.clone());
            view! { <p><b>{todo}</b></p><p class="small">{why.clone()}</p> }.into_any()
        })
        .collect();
    view! {
        <h2>{title}</h2>
        <div class="caution care" role="status">{lines}</div>
    }
    .into_any()
}
