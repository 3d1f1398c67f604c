//! The photo with its marks: each is dragged by a handle as large as a wet thumb, under
//! a loupe that shows what the thumb hides; or moved by arrow keys, or by a tap on the
//! photo.

use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

use super::{
    MeasureState,
    slot::{self, COUNT, KEYS, LEAST, MOST, WHITE},
};
use crate::{
    i18n::{key, t, t_with},
    worker::{PatchMark, PhotoAnalysis},
};

/// How wide the loupe is, in CSS pixels, and how far over the finger.
const LOUPE: f64 = 132.0;
const OVER: f64 = 40.0;
/// What an arrow key moves a mark by, and a press on "larger" adds: shares of the width.
const STEP: f64 = 0.01;

/// A mark on its way: which, where finger and mark began, and the photo's shown size.
#[derive(Clone, Copy)]
struct Drag {
    finger: (f64, f64),
    mark: (f64, f64),
    size: (f64, f64),
}

pub fn view(measuring: MeasureState, looked: PhotoAnalysis) -> AnyView {
    let chosen = measuring.chosen;
    let drag = RwSignal::new(None::<Drag>);
    let board = NodeRef::<html::Div>::new();
    let high = f64::from(looked.height) / f64::from(looked.width);
    let size = move || {
        let board = board.get_untracked().map(|b| -> HtmlElement { b.unchecked_into() });
        board.map_or((1.0, 1.0), |b| (f64::from(b.offset_width()), f64::from(b.offset_height())))
    };
    let change = move |slot: usize, how: &dyn Fn(&mut PatchMark)| measuring.change(slot, how);
    let tap = move |event: leptos::ev::MouseEvent| {
        let (wide, high) = size();
        let (x, y) = (f64::from(event.offset_x()) / wide, f64::from(event.offset_y()) / high);
        change(chosen.get_untracked(), &|mark| (mark.x, mark.y) = (x, y));
    };
    let begin = move |slot: usize, event: &leptos::ev::PointerEvent| {
        event.prevent_default();
        chosen.set(slot);
        let Some(mark) = measuring.marks.get_untracked().0[slot] else { return };
        let handle = event.current_target().and_then(|t| t.dyn_into::<Element>().ok());
        if let Some(handle) = handle {
            let _ = handle.set_pointer_capture(event.pointer_id());
        }
        let finger = (f64::from(event.client_x()), f64::from(event.client_y()));
        drag.set(Some(Drag { finger, mark: (mark.x, mark.y), size: size() }));
        measuring.moving.set(true);
    };
    let go_on = move |slot: usize, event: &leptos::ev::PointerEvent| {
        let Some(Drag { finger, mark: from, size }) = drag.get_untracked() else { return };
        let by_x = (f64::from(event.client_x()) - finger.0) / size.0;
        let by_y = (f64::from(event.client_y()) - finger.1) / size.1;
        change(slot, &|mark| (mark.x, mark.y) = (from.0 + by_x, from.1 + by_y));
    };
    let end = move || {
        drag.set(None);
        measuring.moving.set(false);
    };
    let key = move |slot: usize, event: &leptos::ev::KeyboardEvent| {
        let (x, y, radius) = match event.key().as_str() {
            "ArrowLeft" => (-STEP, 0.0, 0.0),
            "ArrowRight" => (STEP, 0.0, 0.0),
            "ArrowUp" => (0.0, -STEP / high, 0.0),
            "ArrowDown" => (0.0, STEP / high, 0.0),
            "+" => (0.0, 0.0, STEP),
            "-" => (0.0, 0.0, -STEP),
            _ => return,
        };
        event.prevent_default();
        chosen.set(slot);
        change(slot, &|mark| {
            mark.x += x;
            mark.y += y;
            mark.radius += radius;
        });
    };
    let handle = move |slot: usize| {
        let there = Memo::new(move |_| measuring.marks.get().0[slot]);
        let shown = Memo::new(move |_| there.get().is_some());
        let part = move |of: fn(&PatchMark) -> f64| there.get().as_ref().map_or(0.0, of);
        move || {
            shown.get().then(|| {
                let name = t(&format!("swatch-mark-{}", KEYS[slot]));
                let told = Signal::derive({
                    let name = name.clone();
                    move || {
                        let percent = |share: f64| format!("{:.0}", share * 100.0);
                        let (x, y) = (percent(part(|m| m.x)), percent(part(|m| m.y)));
                        t_with!("swatch-mark-told", &[("name", &name), ("x", &x), ("y", &y)])
                    }
                });
                let style = move |side: f64| {
                    format!(
                        "left:{:.2}%;top:{:.2}%;width:{:.2}%",
                        part(|m| m.x) * 100.0,
                        part(|m| m.y) * 100.0,
                        part(|m| m.radius) * side
                    )
                };
                view! {
                    <span class="mark" class:chosen=move || chosen.get() == slot
                        style=move || style(200.0)></span>
                    <button class="handle" type="button" class:chosen=move || chosen.get() == slot
                        data-mark=KEYS[slot]
                        style=move || format!("left:{:.2}%;top:{:.2}%", part(|m| m.x) * 100.0, part(|m| m.y) * 100.0)
                        aria-label=told
                        on:pointerdown=move |event| begin(slot, &event)
                        on:pointermove=move |event| go_on(slot, &event)
                        on:pointerup=move |_| end()
                        on:pointercancel=move |_| end()
                        on:focus=move |_| chosen.set(slot)
                        on:keydown=move |event| key(slot, &event)>
                        <span>{name}</span>
                    </button>
                }
            })
        }
    };
    let loupe = move || loupe(measuring, drag.get()?.size);
    let grow = move |by: f64| change(chosen.get_untracked(), &|mark| mark.radius += by);
    let name = move || t(&format!("swatch-mark-{}", KEYS[chosen.get()]));
    let white_found = slot::found(&looked).0[WHITE].is_some();
    view! {
        <section class="stack">
            <p class="small">{t(if white_found { key!("swatch-mark-found") } else { key!("swatch-mark-none_found") })}</p>
            <div class="marking" node_ref=board style=format!("aspect-ratio:1/{high}")>
                <img src=measuring.address alt=t!("swatch-mark-photo") on:click=tap draggable="false" />
                {(0..COUNT).map(|slot| handle(slot)).collect_view()}
                {loupe}
            </div>
            <div class="row even">
                <button class="button soft" type="button" on:click=move |_| grow(-STEP * 2.0)>
                    {move || t_with!("swatch-mark-smaller", &[("name", &name())])}
                </button>
                <button class="button soft" type="button" on:click=move |_| grow(STEP * 2.0)>
                    {move || t_with!("swatch-mark-larger", &[("name", &name())])}
                </button>
            </div>
        </section>
    }
    .into_any()
}

/// The photo round the chosen mark, enlarged as far as the whole mark can be seen.
fn loupe(measuring: MeasureState, (wide, tall): (f64, f64)) -> Option<AnyView> {
    let mark = measuring.marks.get().0[measuring.chosen.get()]?;
    let (x, y, side) = (mark.x * wide, mark.y * tall, mark.radius * 2.0 * wide);
    let times = (0.8 * LOUPE / side).clamp(1.0, 4.0);
    let middle = LOUPE / 2.0;
    // Above the finger; beside it where there is no room above.
    let (left, top) = if y > 0.75 * LOUPE {
        ((x - middle).clamp(0.0, (wide - LOUPE).max(0.0)), y - LOUPE - OVER)
    } else if x < wide / 2.0 {
        (x + OVER, y - middle)
    } else {
        (x - OVER - LOUPE, y - middle)
    };
    let style = format!(
        "left:{left:.0}px;top:{top:.0}px;background-image:url({});\
         background-size:{:.0}px {:.0}px;background-position:{:.0}px {:.0}px",
        measuring.address.get_untracked(),
        wide * times,
        tall * times,
        middle - x * times,
        middle - y * times,
    );
    let side = format!("width:{0:.0}px;height:{0:.0}px", side * times);
    Some(
        view! { <div class="loupe" style=style aria-hidden="true"><i style=side></i></div> }
            .into_any(),
    )
}

impl MeasureState {
    /// Changes a mark that there is, within the photo.
    fn change(self, slot: usize, how: &dyn Fn(&mut PatchMark)) {
        self.marks.update(|marks| {
            if let Some(mark) = &mut marks.0[slot] {
                how(mark);
                mark.x = mark.x.clamp(0.0, 1.0);
                mark.y = mark.y.clamp(0.0, 1.0);
                mark.radius = mark.radius.clamp(LEAST, MOST);
            }
        });
    }
}
