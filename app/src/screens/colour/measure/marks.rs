//! The photo with its marks. A mark is moved by dragging its handle, under a loupe that shows
//! what the finger hides; by arrow keys; or by a tap on the photo.

use leptos::ev::{KeyboardEvent, MouseEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

use super::{
    MeasureState,
    slot::{COUNT, KEYS, MAX_RADIUS, MIN_RADIUS, Slots, WHITE},
};
use crate::{
    i18n::{key, t, t_with},
    worker::{PatchMark, PhotoAnalysis},
};

/// Width of the loupe, and its distance from the finger, in CSS pixels.
const LOUPE: f64 = 132.0;
const LOUPE_DISTANCE: f64 = 40.0;
/// What an arrow key moves a mark by, as a fraction of the width.
const STEP: f64 = 0.01;

pub fn view(measuring: MeasureState, analysis: &PhotoAnalysis) -> AnyView {
    let aspect = f64::from(analysis.height) / f64::from(analysis.width);
    let node_ref = NodeRef::<html::Div>::new();
    let board = MarkBoard { measuring, node_ref, drag: RwSignal::new(None), aspect };
    let resize = move |by: f64| {
        measuring.change(measuring.chosen.get_untracked(), |mark| mark.radius += by);
    };
    let name = move || mark_name(measuring.chosen.get());
    let white_found = Slots::detected(analysis).0[WHITE].is_some();
    view! {
        <section class="stack">
            <p class="small">{t(if white_found { key!("swatch-mark-found") } else { key!("swatch-mark-none_found") })}</p>
            <div class="marking" node_ref=node_ref style=format!("aspect-ratio:1/{aspect}")>
                <img src=move || measuring.photo_src() alt=t!("swatch-mark-photo")
                    on:click=move |event| board.tap(&event) draggable="false" />
                {(0..COUNT).map(|slot| board.mark(slot)).collect_view()}
                {move || board.loupe()}
            </div>
            <div class="row even">
                <button class="button soft" type="button" on:click=move |_| resize(-STEP * 2.0)>
                    {move || t_with!("swatch-mark-smaller", &[("name", &name())])}
                </button>
                <button class="button soft" type="button" on:click=move |_| resize(STEP * 2.0)>
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

/// Start of a drag: positions of pointer and mark, and the photo's displayed size.
#[derive(Clone, Copy)]
struct Drag {
    pointer: (f64, f64),
    mark: (f64, f64),
    size: (f64, f64),
}

/// The photo and the marks on it; copies share their signals.
#[derive(Clone, Copy)]
struct MarkBoard {
    measuring: MeasureState,
    node_ref: NodeRef<html::Div>,
    drag: RwSignal<Option<Drag>>,
    /// Height over width.
    aspect: f64,
}

impl MarkBoard {
    /// A slot's frame and handle, while it is in use.
    fn mark(self, slot: usize) -> impl Fn() -> Option<AnyView> {
        let MeasureState { marks, chosen, .. } = self.measuring;
        let mark = Memo::new(move |_| marks.get().0[slot]);
        let in_use = Memo::new(move |_| mark.get().is_some());
        // In percent of the photo.
        let x = move || mark.get().map_or(0.0, |m| m.x * 100.0);
        let y = move || mark.get().map_or(0.0, |m| m.y * 100.0);
        let side = move || mark.get().map_or(0.0, |m| m.radius * 200.0);
        let place = move || format!("left:{:.2}%;top:{:.2}%", x(), y());
        move || {
            in_use.get().then(|| {
                let name = mark_name(slot);
                let label = Signal::derive({
                    let name = name.clone();
                    move || {
                        let (x, y) = (format!("{:.0}", x()), format!("{:.0}", y()));
                        t_with!("swatch-mark-told", &[("name", &name), ("x", &x), ("y", &y)])
                    }
                });
                view! {
                    <span class="mark" class:chosen=move || chosen.get() == slot
                        style=move || format!("{};width:{:.2}%", place(), side())></span>
                    <button class="handle" type="button" class:chosen=move || chosen.get() == slot
                        data-mark=KEYS[slot] style=place aria-label=label
                        on:pointerdown=move |event| self.start_drag(slot, &event)
                        on:pointermove=move |event| self.drag(slot, &event)
                        on:pointerup=move |_| self.end_drag()
                        on:pointercancel=move |_| self.end_drag()
                        on:focus=move |_| chosen.set(slot)
                        on:keydown=move |event| self.press_key(slot, &event)>
                        <span>{name}</span>
                    </button>
                }
                .into_any()
            })
        }
    }

    fn tap(self, event: &MouseEvent) {
        let (width, height) = self.size();
        let (x, y) = (f64::from(event.offset_x()) / width, f64::from(event.offset_y()) / height);
        let slot = self.measuring.chosen.get_untracked();
        self.measuring.change(slot, |mark| (mark.x, mark.y) = (x, y));
    }

    fn start_drag(self, slot: usize, event: &PointerEvent) {
        event.prevent_default();
        self.measuring.chosen.set(slot);
        let Some(mark) = self.measuring.marks.get_untracked().0[slot] else { return };
        let handle = event.current_target().and_then(|t| t.dyn_into::<Element>().ok());
        if let Some(handle) = handle {
            let _ = handle.set_pointer_capture(event.pointer_id());
        }
        let pointer = (f64::from(event.client_x()), f64::from(event.client_y()));
        self.drag.set(Some(Drag { pointer, mark: (mark.x, mark.y), size: self.size() }));
        self.measuring.dragging.set(true);
    }

    fn drag(self, slot: usize, event: &PointerEvent) {
        let Some(Drag { pointer, mark: from, size }) = self.drag.get_untracked() else { return };
        let by_x = (f64::from(event.client_x()) - pointer.0) / size.0;
        let by_y = (f64::from(event.client_y()) - pointer.1) / size.1;
        self.measuring.change(slot, |mark| (mark.x, mark.y) = (from.0 + by_x, from.1 + by_y));
    }

    fn end_drag(self) {
        self.drag.set(None);
        self.measuring.dragging.set(false);
    }

    fn press_key(self, slot: usize, event: &KeyboardEvent) {
        let (x, y, radius) = match event.key().as_str() {
            "ArrowLeft" => (-STEP, 0.0, 0.0),
            "ArrowRight" => (STEP, 0.0, 0.0),
            "ArrowUp" => (0.0, -STEP / self.aspect, 0.0),
            "ArrowDown" => (0.0, STEP / self.aspect, 0.0),
            "+" => (0.0, 0.0, STEP),
            "-" => (0.0, 0.0, -STEP),
            _ => return,
        };
        event.prevent_default();
        self.measuring.chosen.set(slot);
        self.measuring.change(slot, |mark| {
            mark.x += x;
            mark.y += y;
            mark.radius += radius;
        });
    }

    /// The photo's displayed size in CSS pixels.
    fn size(self) -> (f64, f64) {
        let board = self.node_ref.get_untracked().map(|b| -> HtmlElement { b.unchecked_into() });
        board.map_or((1.0, 1.0), |b| (f64::from(b.offset_width()), f64::from(b.offset_height())))
    }

    /// During a drag: the photo round the mark, enlarged so that the whole mark is visible.
    fn loupe(self) -> Option<AnyView> {
        let (width, height) = self.drag.get()?.size;
        let mark = self.measuring.marks.get().0[self.measuring.chosen.get()]?;
        let (x, y, side) = (mark.x * width, mark.y * height, mark.radius * 2.0 * width);
        let zoom = (0.8 * LOUPE / side).clamp(1.0, 4.0);
        let middle = LOUPE / 2.0;
        // Above the finger; beside it where there is no room above.
        let (left, top) = if y > 0.75 * LOUPE {
            ((x - middle).clamp(0.0, (width - LOUPE).max(0.0)), y - LOUPE - LOUPE_DISTANCE)
        } else if x < width / 2.0 {
            (x + LOUPE_DISTANCE, y - middle)
        } else {
            (x - LOUPE_DISTANCE - LOUPE, y - middle)
        };
        let style = format!(
            "left:{left:.0}px;top:{top:.0}px;background-image:url({});\
             background-size:{:.0}px {:.0}px;background-position:{:.0}px {:.0}px",
            self.measuring.photo_src(),
            width * zoom,
            height * zoom,
            middle - x * zoom,
            middle - y * zoom,
        );
        let side = format!("width:{0:.0}px;height:{0:.0}px", side * zoom);
        Some(
            view! { <div class="loupe" style=style aria-hidden="true"><i style=side></i></div> }
                .into_any(),
        )
    }
}

impl MeasureState {
    /// Changes a slot's mark, if it is in use, within the photo.
    fn change(self, slot: usize, change: impl FnOnce(&mut PatchMark)) {
        self.marks.update(|marks| {
            if let Some(mark) = &mut marks.0[slot] {
                change(mark);
                mark.x = mark.x.clamp(0.0, 1.0);
                mark.y = mark.y.clamp(0.0, 1.0);
                mark.radius = mark.radius.clamp(MIN_RADIUS, MAX_RADIUS);
            }
        });
    }
}
