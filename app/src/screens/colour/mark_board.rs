//! A photo with marks. A mark is moved by dragging its handle, under a loupe that shows what the
//! finger hides; by arrow keys; or by a tap on the photo.

use leptos::ev::{KeyboardEvent, MouseEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

use crate::{i18n::t_with, worker::PatchMark};

/// Width of the loupe, and its distance from the finger, in CSS pixels.
const LOUPE: f64 = 132.0;
const LOUPE_DISTANCE: f64 = 40.0;
/// What an arrow key moves a mark by, as a fraction of the width.
const STEP: f64 = 0.01;
/// Limits of the half side. A thirtieth of the long side is the least that is measured.
pub const MIN_RADIUS: f64 = 0.025;
pub const MAX_RADIUS: f64 = 0.3;

/// The marks of a photo, by their index.
#[derive(Clone, Copy)]
pub struct MarkSet {
    pub count: usize,
    /// The mark, if it is in use. Reactive.
    pub mark: Callback<usize, Option<PatchMark>>,
    pub set: Callback<(usize, PatchMark)>,
    /// Its name on the photo.
    pub name: Callback<usize, String>,
    /// Its name in the page's markup.
    pub id: Callback<usize, String>,
    /// The mark that taps and the size buttons act on.
    pub chosen: RwSignal<usize>,
    /// A mark is being dragged.
    pub dragging: RwSignal<bool>,
    /// The photo's address.
    pub src: Signal<String>,
    pub alt: StoredValue<String>,
    /// Height of the photo over its width.
    pub aspect: f64,
    /// Least half side.
    pub least: f64,
}

impl MarkSet {
    /// The photo with all marks in use.
    pub fn view(self) -> AnyView {
        let node_ref = NodeRef::<html::Div>::new();
        let board = MarkBoard { set: self, node_ref, drag: RwSignal::new(None) };
        let src = self.src;
        view! {
            <div class="marking" node_ref=node_ref style=format!("aspect-ratio:1/{}", self.aspect)>
                <img src=move || src.get() alt=self.alt.get_value()
                    on:click=move |event| board.tap(&event) draggable="false" />
                {(0..self.count).map(|nth| board.mark(nth)).collect_view()}
                {move || board.loupe()}
            </div>
        }
        .into_any()
    }

    /// Makes the chosen mark larger, or smaller.
    pub fn resize(self, steps: f64) {
        self.change(self.chosen.get_untracked(), |mark| mark.radius += steps * 2.0 * STEP);
    }

    /// Changes a mark, if it is in use, within the photo.
    fn change(self, nth: usize, change: impl FnOnce(&mut PatchMark)) {
        let Some(mut mark) = untrack(|| self.mark.run(nth)) else { return };
        change(&mut mark);
        mark.x = mark.x.clamp(0.0, 1.0);
        mark.y = mark.y.clamp(0.0, 1.0);
        mark.radius = mark.radius.clamp(self.least, MAX_RADIUS);
        self.set.run((nth, mark));
    }
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
    set: MarkSet,
    node_ref: NodeRef<html::Div>,
    drag: RwSignal<Option<Drag>>,
}

impl MarkBoard {
    /// A mark's frame and handle, while it is in use.
    fn mark(self, nth: usize) -> impl Fn() -> Option<AnyView> {
        let chosen = self.set.chosen;
        let mark = Memo::new(move |_| self.set.mark.run(nth));
        let in_use = Memo::new(move |_| mark.get().is_some());
        // In percent of the photo.
        let x = move || mark.get().map_or(0.0, |m| m.x * 100.0);
        let y = move || mark.get().map_or(0.0, |m| m.y * 100.0);
        let side = move || mark.get().map_or(0.0, |m| m.radius * 200.0);
        let place = move || format!("left:{:.2}%;top:{:.2}%", x(), y());
        move || {
            in_use.get().then(|| {
                let name = self.set.name.run(nth);
                let label = Signal::derive({
                    let name = name.clone();
                    move || {
                        let (x, y) = (format!("{:.0}", x()), format!("{:.0}", y()));
                        t_with!("swatch-mark-told", &[("name", &name), ("x", &x), ("y", &y)])
                    }
                });
                view! {
                    <span class="mark" class:chosen=move || chosen.get() == nth
                        style=move || format!("{};width:{:.2}%", place(), side())></span>
                    <button class="handle" type="button" class:chosen=move || chosen.get() == nth
                        data-mark=self.set.id.run(nth) style=place aria-label=label
                        on:pointerdown=move |event| self.start_drag(nth, &event)
                        on:pointermove=move |event| self.drag(nth, &event)
                        on:pointerup=move |_| self.end_drag()
                        on:pointercancel=move |_| self.end_drag()
                        on:focus=move |_| chosen.set(nth)
                        on:keydown=move |event| self.press_key(nth, &event)>
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
        let nth = self.set.chosen.get_untracked();
        self.set.change(nth, |mark| (mark.x, mark.y) = (x, y));
    }

    fn start_drag(self, nth: usize, event: &PointerEvent) {
        event.prevent_default();
        self.set.chosen.set(nth);
        let Some(mark) = untrack(|| self.set.mark.run(nth)) else { return };
        let handle = event.current_target().and_then(|t| t.dyn_into::<Element>().ok());
        if let Some(handle) = handle {
            let _ = handle.set_pointer_capture(event.pointer_id());
        }
        let pointer = (f64::from(event.client_x()), f64::from(event.client_y()));
        self.drag.set(Some(Drag { pointer, mark: (mark.x, mark.y), size: self.size() }));
        self.set.dragging.set(true);
    }

    fn drag(self, nth: usize, event: &PointerEvent) {
        let Some(Drag { pointer, mark: from, size }) = self.drag.get_untracked() else { return };
        let by_x = (f64::from(event.client_x()) - pointer.0) / size.0;
        let by_y = (f64::from(event.client_y()) - pointer.1) / size.1;
        self.set.change(nth, |mark| (mark.x, mark.y) = (from.0 + by_x, from.1 + by_y));
    }

    fn end_drag(self) {
        self.drag.set(None);
        self.set.dragging.set(false);
    }

    fn press_key(self, nth: usize, event: &KeyboardEvent) {
        let (x, y, radius) = match event.key().as_str() {
            "ArrowLeft" => (-STEP, 0.0, 0.0),
            "ArrowRight" => (STEP, 0.0, 0.0),
            "ArrowUp" => (0.0, -STEP / self.set.aspect, 0.0),
            "ArrowDown" => (0.0, STEP / self.set.aspect, 0.0),
            "+" => (0.0, 0.0, STEP),
            "-" => (0.0, 0.0, -STEP),
            _ => return,
        };
        event.prevent_default();
        self.set.chosen.set(nth);
        self.set.change(nth, |mark| {
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
        let mark = self.set.mark.run(self.set.chosen.get())?;
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
            self.set.src.get(),
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
