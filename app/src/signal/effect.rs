//! What is done whenever signals change.

use leptos::prelude::Effect as LeptosEffect;

/// Does `what` once the page stands, and again whenever a signal changed that it read.
pub fn effect(what: impl FnMut() + 'static) {
    start(Box::new(what));
}

#[inline(never)]
fn start(mut what: Box<dyn FnMut()>) {
    LeptosEffect::new(move |_: Option<()>| what());
}
