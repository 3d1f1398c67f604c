//! Which things are marked in the photo.

use leptos::prelude::*;

use super::{
    MeasureState,
    slot::{self, GREY, KEYS, PULP, SECOND_PULP, SECOND_WHITE, WHITE},
};
use crate::{i18n::t, worker::PhotoAnalysis};

pub fn view(measuring: MeasureState, looked: PhotoAnalysis) -> AnyView {
    let chosen = measuring.chosen;
    let as_last = slot::last(measuring);
    let looked = StoredValue::new(looked);
    let tick = move |slot: usize| {
        let on = Memo::new(move |_| measuring.marks.get().0[slot].is_some());
        let set = move |event| {
            let mark =
                event_target_checked(&event).then(|| looked.with_value(|l| slot::begin(slot, l)));
            measuring.marks.update(|marks| marks.0[slot] = mark);
            chosen.set(if mark.is_some() { slot } else { PULP });
        };
        view! {
            <label class="tick">
                <input type="checkbox" prop:checked=on on:change=set />
                {t(&format!("swatch-mark-tick-{}", KEYS[slot]))}
            </label>
        }
        .into_any()
    };
    let again = move |_| {
        let mut slots = looked.with_value(slot::found);
        let pulp = || looked.with_value(|l| slot::begin(PULP, l));
        slots.0[PULP] = slots.0[PULP].or_else(|| Some(pulp()));
        measuring.marks.set(slots);
    };
    view! {
        <section class="stack">
            <div>{tick(WHITE)}{tick(GREY)}</div>
            <details class="more">
                <summary>{t!("swatch-mark-more")}</summary>
                <div class="inside stack">
                    <div>{tick(SECOND_WHITE)}{tick(SECOND_PULP)}</div>
                    <div class="row even">
                        <button class="button plain" type="button" on:click=again>
                            {t!("swatch-mark-again")}
                        </button>
                        {as_last.map(|last| view! {
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
