//! The marks of the measurement on its photo.

use leptos::prelude::*;

use super::{
    MeasureState,
    slot::{COUNT, KEYS, Slots, WHITE},
};
use crate::{
    i18n::{key, t, t_with},
    screens::colour::mark_board::{MIN_RADIUS, MarkSet},
    worker::PhotoAnalysis,
};

pub fn view(measuring: MeasureState, analysis: &PhotoAnalysis) -> AnyView {
    let marks = measuring.marks;
    let set = MarkSet {
        count: COUNT,
        mark: Callback::new(move |slot: usize| marks.get().0[slot]),
        set: Callback::new(move |(slot, mark)| marks.update(|marks| marks.0[slot] = Some(mark))),
        name: Callback::new(mark_name),
        id: Callback::new(|slot: usize| KEYS[slot].to_owned()),
        chosen: measuring.chosen,
        dragging: measuring.dragging,
        src: Signal::derive(move || measuring.photo_src()),
        alt: StoredValue::new(t!("swatch-mark-photo")),
        aspect: f64::from(analysis.height) / f64::from(analysis.width),
        least: MIN_RADIUS,
    };
    let name = move || mark_name(measuring.chosen.get());
    let white_found = Slots::detected(analysis).0[WHITE].is_some();
    view! {
        <section class="stack">
            <p class="small">{t(if white_found { key!("swatch-mark-found") } else { key!("swatch-mark-none_found") })}</p>
            {set.view()}
            <div class="row even">
                <button class="button soft" type="button" on:click=move |_| set.resize(-1.0)>
                    {move || t_with!("swatch-mark-smaller", &[("name", &name())])}
                </button>
                <button class="button soft" type="button" on:click=move |_| set.resize(1.0)>
                    {move || t_with!("swatch-mark-larger", &[("name", &name())])}
                </button>
            </div>
        </section>
    }
    .into_any()
}

fn mark_name(slot: usize) -> String {
    t(&format!("swatch-mark-{}", KEYS[slot]))
}
