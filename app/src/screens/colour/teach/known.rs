//! Swatches whose colour the person knows: a mark and three numbers for each.

use bleachfield_core::{
    colour::{PatchRole, space::Lab},
    message::Field,
    quantity::QuantityKind,
};
use leptos::prelude::*;

use super::TeachState;
use crate::{
    components::{NumberField, NumberInput},
    i18n::{t, t_with},
    screens::colour::mark_board::{MIN_RADIUS, MarkSet},
    worker::{KnownSurfaces, PatchMark},
};

const LIGHTNESS: Field = Field("card_lightness");
const A: Field = Field("card_a");
const B: Field = Field("card_b");

/// Fewest, one of them white, and most.
const FEWEST: usize = 6;
const MOST: usize = 12;

/// Their marks and values; copies share their signals.
#[derive(Clone, Copy)]
pub struct KnownSwatches {
    count: RwSignal<usize>,
    marks: RwSignal<[PatchMark; MOST]>,
    values: StoredValue<Vec<[NumberInput; 3]>>,
}

impl KnownSwatches {
    pub fn new() -> Self {
        let mark = |nth: usize| {
            let (x, y) = (0.2 + 0.2 * (nth % 4) as f64, 0.25 + 0.25 * (nth / 4) as f64);
            PatchMark { place: PatchRole::Surface, x, y, radius: 0.04 }
        };
        let number =
            |field, low, high| NumberInput::new(field, QuantityKind::Number).between(low, high);
        let values = (0..MOST).map(|_| {
            [number(LIGHTNESS, 1.0, 100.0), number(A, -128.0, 128.0), number(B, -128.0, 128.0)]
        });
        Self {
            count: RwSignal::new(FEWEST),
            marks: RwSignal::new(std::array::from_fn(mark)),
            values: StoredValue::new(values.collect()),
        }
    }

    pub(super) fn marks(self, state: TeachState, aspect: f64) -> MarkSet {
        let (marks, count) = (self.marks, self.count);
        MarkSet {
            count: MOST,
            mark: Callback::new(move |nth: usize| (nth < count.get()).then(|| marks.get()[nth])),
            set: Callback::new(move |(nth, mark): (usize, PatchMark)| {
                marks.update(|marks| marks[nth] = mark);
            }),
            name: Callback::new(|nth: usize| (nth + 1).to_string()),
            id: Callback::new(|nth: usize| format!("swatch-{}", nth + 1)),
            chosen: state.chosen,
            dragging: state.dragging,
            src: state.photo.src(),
            alt: StoredValue::new(t!("swatch-mark-photo")),
            aspect,
            least: MIN_RADIUS,
        }
    }

    /// The swatches with all their values; `None` until each has them. Reactive.
    pub fn known(self) -> Option<KnownSurfaces> {
        let marks = self.marks.get();
        let values = self.values.get_value();
        let known = (0..self.count.get()).map(|nth| {
            let [l, a, b] = values[nth].map(|input| input.typed().map(|typed| typed.base));
            Some((marks[nth], Lab { l: l?, a: a?, b: b? }))
        });
        known.collect::<Option<Vec<_>>>().map(KnownSurfaces::Marked)
    }

    /// The values, a row of three for each swatch.
    pub fn rows(self) -> AnyView {
        let row = move |nth: usize| {
            let [l, a, b] = self.values.with_value(|values| values[nth]);
            let shown = move || nth < self.count.get();
            view! {
                <fieldset class="stack" hidden=move || !shown()>
                    <legend>{t_with!("teach-swatch", &[("n", &(nth + 1).to_string())])}</legend>
                    <div class="row even top">
                        <NumberField ask=l /><NumberField ask=a /><NumberField ask=b />
                    </div>
                </fieldset>
            }
            .into_any()
        };
        view! {
            <p class="small">{t!("teach-values")}</p>
            {(0..MOST).map(row).collect_view()}
            {move || (self.count.get() < MOST).then(|| view! {
                <button class="button plain" type="button"
                    on:click=move |_| self.count.update(|count| *count += 1)>
                    {t!("teach-another")}
                </button>
            })}
        }
        .into_any()
    }
}
