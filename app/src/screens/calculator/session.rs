//! What was typed and chosen in a sum, kept in this tab until it is closed: going back and forth
//! between sums loses nothing.

use leptos::prelude::*;
use serde::{Serialize, de::DeserializeOwned};

use crate::{components::NumberInput, platform::session_storage, route::Sum};

/// Fills a signal with what it held when its sum was left, and keeps what it holds from now on.
pub fn keep<T>(sum: Sum, name: &str, signal: RwSignal<T>)
where
    T: Clone + Serialize + DeserializeOwned + Send + Sync + 'static,
{
    let key = format!("bleachfield.mix.{}.{name}", <&str>::from(sum));
    if let Some(kept) = session_storage::get(&key) {
        signal.set(kept);
    }
    Effect::new(move |_| signal.with(|value| session_storage::set(&key, value)));
}

/// Keeps the texts of inputs, each by its field.
pub fn keep_inputs(sum: Sum, inputs: &[NumberInput]) {
    for input in inputs {
        keep(sum, input.field().0, input.text);
    }
}

/// Keeps which of these options is chosen.
pub fn keep_choice<T>(sum: Sum, name: &str, choice: RwSignal<T>, options: &'static [T])
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let position = move || options.iter().position(|one| *one == choice.get_untracked());
    let index = RwSignal::new(position().unwrap_or_default());
    keep(sum, name, index);
    if let Some(chosen) = options.get(index.get_untracked()) {
        choice.set(*chosen);
    }
    Effect::new(move |_| {
        choice.track();
        if let Some(position) = position() {
            index.set(position);
        }
    });
}

/// These options after none.
pub const fn optional<T: Copy, const N: usize, const M: usize>(options: [T; N]) -> [Option<T>; M] {
    let mut all = [None; M];
    let mut nth = 0;
    while nth < N {
        all[nth + 1] = Some(options[nth]);
        nth += 1;
    }
    all
}
