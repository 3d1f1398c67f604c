//! The photo with its marks: each is dragged by a handle as large as a wet thumb, under
//! a loupe that shows what the thumb hides; or moved by arrow keys, or by a tap on the
//! photo.

use leptos::{html, prelude::*};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

use super::{
    Measuring,
    slot::{self, COUNT, GREY, KEYS, LEAST, MOST, PULP, WHITE},
};
use crate::{
    locale::{word, words},
    worker::{Looked, Mark},
};

/// How many times the loupe enlarges, and how wide it is in CSS pixels.
const LOUPE: f64 = 3.0;
const LOUPE_WIDE: f64 = 132.0;
/// What an arrow key moves a mark by, and a press on "larger" adds: shares of the width.
const STEP: f64 = 0.01;

/// A mark on its way: which, where finger and mark began, and the photo's shown size.
#[derive(Clone, Copy)]
struct Drag {
    finger: (f64, f64),
    mark: (f64, f64),
    size: (f64, f64),
}

pub fn view(measuring: Measuring, looked: Looked) -> AnyView {
    let chosen = RwSignal::new(PULP);
    let drag = RwSignal::new(None::<Drag>);
    let board = NodeRef::<html::Div>::new();
    let high = f64::from(looked.height) / f64::from(looked.width);
    let looked = StoredValue::new(looked);
    let size = move || {
        let board = board.get_untracked().map(|b| -> HtmlElement { b.unchecked_into() });
        board.map_or((1.0, 1.0), |b| (f64::from(b.offset_width()), f64::from(b.offset_height())))
    };
    let change = move |slot: usize, change: &dyn Fn(&mut Mark)| {
        measuring.marks.update(|marks| {
            if let Some(mark) = &mut marks.0[slot] {
                change(mark);
                mark.x = mark.x.clamp(0.0, 1.0);
                mark.y = mark.y.clamp(0.0, 1.0);
                mark.radius = mark.radius.clamp(LEAST, MOST);
            }
        });
    };
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
        let part = move |of: fn(&Mark) -> f64| there.get().as_ref().map_or(0.0, of);
        move || {
            shown.get().then(|| {
                let name = word(&format!("swatch.mark.{}", KEYS[slot]));
                let told = Signal::derive({
                    let name = name.clone();
                    move || {
                        let percent = |share: f64| format!("{:.0}", share * 100.0);
                        let (x, y) = (percent(part(|m| m.x)), percent(part(|m| m.y)));
                        words("swatch.mark.told", &[("name", &name), ("x", &x), ("y", &y)])
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
    let loupe = move || {
        let Drag { size: (wide, tall), .. } = drag.get()?;
        let mark = measuring.marks.get().0[chosen.get()]?;
        let middle = LOUPE_WIDE / 2.0;
        // Above the finger; beside it where there is no room above.
        let (x, y) = (mark.x * wide, mark.y * tall);
        let (left, top) = if y > LOUPE_WIDE + 40.0 {
            ((x - middle).clamp(0.0, (wide - LOUPE_WIDE).max(0.0)), y - LOUPE_WIDE - 40.0)
        } else if x < wide / 2.0 {
            (x + 56.0, y - middle)
        } else {
            (x - 56.0 - LOUPE_WIDE, y - middle)
        };
        let style = format!(
            "left:{left:.0}px;top:{top:.0}px;background-image:url({});\
             background-size:{:.0}px {:.0}px;background-position:{:.0}px {:.0}px",
            measuring.address.get_untracked(),
            wide * LOUPE,
            tall * LOUPE,
            middle - x * LOUPE,
            middle - y * LOUPE,
        );
        let side = format!("width:{0:.0}px;height:{0:.0}px", mark.radius * 2.0 * wide * LOUPE);
        Some(view! { <div class="loupe" style=style aria-hidden="true"><i style=side></i></div> })
    };
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
                {word(&format!("swatch.mark.tick.{}", KEYS[slot]))}
            </label>
        }
        .into_any()
    };
    let grow = move |by: f64| change(chosen.get_untracked(), &|mark| mark.radius += by);
    let name = move || word(&format!("swatch.mark.{}", KEYS[chosen.get()]));
    let again = move |_| {
        let mut slots = looked.with_value(slot::found);
        let pulp = || looked.with_value(|l| slot::begin(PULP, l));
        slots.0[PULP] = slots.0[PULP].or_else(|| Some(pulp()));
        measuring.marks.set(slots);
    };
    let as_last = slot::last(measuring);
    let white_found = looked.with_value(|l| slot::found(l).0[WHITE].is_some());
    view! {
        <section class="stack">
            <p class="small">{word(if white_found { "swatch.mark.found" } else { "swatch.mark.none_found" })}</p>
            <div class="marking" node_ref=board style=format!("aspect-ratio:1/{high}")>
                <img src=measuring.address alt=word("swatch.mark.photo") on:click=tap draggable="false" />
                {(0..COUNT).map(|slot| handle(slot)).collect_view()}
                {loupe}
            </div>
            <div class="row even">
                <button class="press soft" type="button" on:click=move |_| grow(-STEP * 2.0)>
                    {move || words("swatch.mark.smaller", &[("name", &name())])}
                </button>
                <button class="press soft" type="button" on:click=move |_| grow(STEP * 2.0)>
                    {move || words("swatch.mark.larger", &[("name", &name())])}
                </button>
            </div>
            <div>{tick(WHITE)}{tick(GREY)}</div>
            <details class="more">
                <summary>{word("swatch.mark.more")}</summary>
                <div class="inside stack">
                    <div>{tick(1)}{tick(4)}</div>
                    <div class="row even">
                        <button class="press plain" type="button" on:click=again>
                            {word("swatch.mark.again")}
                        </button>
                        {as_last.map(|last| view! {
                            <button class="press plain" type="button"
                                on:click=move |_| measuring.marks.set(last)>
                                {word("swatch.mark.as_last")}
                            </button>
                        })}
                    </div>
                </div>
            </details>
        </section>
    }
    .into_any()
}
