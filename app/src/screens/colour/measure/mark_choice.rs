//! Choosing which things are marked in the photo.

use leptos::prelude::*;

use super::{
    MeasureState,
    slot::{GREY, KEYS, PULP, SECOND_PULP, SECOND_WHITE, Slots, WHITE, default_mark},
};
use crate::{i18n::t, worker::PhotoAnalysis};

pub fn view(measuring: MeasureState, analysis: PhotoAnalysis) -> AnyView {
    let last_used = Slots::last_used(measuring);
    let analysis = StoredValue::new(analysis);
    let mark = move |slot: usize| analysis.with_value(|a| default_mark(slot, a));
    let checkbox = move |slot: usize| {
        let on = Memo::new(move |_| measuring.marks.get().0[slot].is_some());
        let set = move |event| {
            let mark = event_target_checked(&event).then(|| mark(slot));
            measuring.marks.update(|marks| marks.0[slot] = mark);
            measuring.chosen.set(if mark.is_some() { slot } else { PULP });
        };
        view! {
            <label class="tick">
                <input type="checkbox" prop:checked=on on:change=set />
                {t(&format!("swatch-mark-tick-{}", KEYS[slot]))}
            </label>
        }
        .into_any()
    };
    let detect_again = move |_| {
        let mut slots = analysis.with_value(Slots::detected);
        slots.0[PULP] = slots.0[PULP].or_else(|| Some(mark(PULP)));
        measuring.marks.set(slots);
    };
    view! {
        <section class="stack">
            <div>{checkbox(WHITE)}{checkbox(GREY)}</div>
            <details class="more">
                <summary>{t!("swatch-mark-more")}</summary>
                <div class="inside stack">
                    <div>{checkbox(SECOND_WHITE)}{checkbox(SECOND_PULP)}</div>
                    <div class="row even">
                        <button class="button plain" type="button" on:click=detect_again>
                            {t!("swatch-mark-again")}
                        </button>
                        {last_used.map(|last| view! {
                            <button class="button plain" type="button"
                                on:click=move |_| measuring.marks.set(last)>
                                {t!("swatch-mark-as_last")}
                            </button>
                        })}
                    </div>
                </div>
            </details>
        </section>
    }
    .into_any()
}
