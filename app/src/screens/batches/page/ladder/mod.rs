//! The ladder after the bath: each step with what was read in it, and the present one open.
//! Which steps there are is worked out in the core.

mod rinse;
mod test;

use bleachfield_core::{
    caution::Act,
    derive::{
        WashRecord,
        ladder::{Ladder, Rung, RungKind, RungState},
    },
    quantity::QuantityKind,
};
use leptos::prelude::*;

use self::{rinse::RinseRung, test::TestRung};
use crate::{
    components::icon::drawing,
    i18n::{format_number, format_value, key, t, t_count, t_with},
    route::BatchForm,
    screens::{
        batches::form::{BatchWriter, Cautions, before_draining},
        calculator::sums::remarks,
    },
};

/// The steps after the last bath; nothing before it.
#[component]
pub fn LadderView(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let ladder = Memo::new(move |_| studio.book(|book| Ladder::of(book, book.batches.get(&id)?)));
    // Not recorded: that the water ran off is seen, and the first rinse proves it.
    let drained = RwSignal::new(false);
    focus_follows(ladder);
    (move || {
        let mut ladder = ladder.get()?;
        if drained.get() {
            pass_drain(&mut ladder.rungs);
        }
        Some(ladder_view(writer, &ladder, drained))
    })
    .into_any()
}

/// Moves from draining to the step after it.
fn pass_drain(rungs: &mut [Rung]) {
    if let Some(drain) = rungs.iter_mut().find(|rung| rung.state == RungState::Now)
        && drain.kind == RungKind::Drain
    {
        drain.state = RungState::Done;
        if let Some(next) = rungs.iter_mut().find(|rung| rung.state == RungState::Ahead) {
            next.state = RungState::Now;
        }
    }
}

/// After a step was saved, the focus goes to the next one instead of being lost.
fn focus_follows(ladder: Memo<Option<Ladder>>) {
    Effect::new(move |before: Option<bool>| {
        ladder.with(|_| ());
        if before.is_some() {
            request_animation_frame(|| {
                let is_lost = document().active_element().is_none_or(|at| at.tag_name() == "BODY");
                if is_lost && let Ok(Some(next)) = document().query_selector(".ladder .now h2") {
                    use wasm_bindgen::JsCast;
                    if let Some(next) = next.dyn_ref::<web_sys::HtmlElement>() {
                        let _ = next.focus();
                    }
                }
            });
        }
        true
    });
}

fn ladder_view(writer: BatchWriter, ladder: &Ladder, drained: RwSignal<bool>) -> AnyView {
    let is_more_rinse =
        |rung: &Rung| matches!(rung.kind, RungKind::Rinse(_)) && rung.state == RungState::Ahead;
    let more = ladder.rungs.iter().filter(|rung| is_more_rinse(rung)).count();
    let mut told = false;
    let rungs = ladder.rungs.iter().filter_map(|rung| {
        if !is_more_rinse(rung) {
            return Some(rung_view(writer, ladder, rung, drained));
        }
        // The rinses ahead are one line.
        (!std::mem::replace(&mut told, true))
            .then(|| line_view("ahead", t_count!("ladder-more_rinses", more), String::new(), None))
    });
    let rungs: Vec<AnyView> = rungs.collect();
    view! { <ol class="ladder" aria-label=t!("ladder-all")>{rungs}</ol> }.into_any()
}

fn rung_view(
    writer: BatchWriter,
    ladder: &Ladder,
    rung: &Rung,
    drained: RwSignal<bool>,
) -> AnyView {
    let class = match rung.state {
        RungState::Done => "done",
        RungState::LeftOut => "left-out",
        RungState::Now => "now",
        RungState::Optional => "optional",
        RungState::Ahead => "ahead",
    };
    let body = match rung.state {
        RungState::Now => Some(act_view(writer, ladder, rung, drained)),
        RungState::Optional => optional_view(writer, rung.kind),
        _ => None,
    };
    line_view(class, rung_name(rung.kind), readings(rung), body)
}

/// A step: its mark, its name, what was read in it, and what can be done.
fn line_view(
    class: &'static str,
    name: String,
    readings: String,
    body: Option<AnyView>,
) -> AnyView {
    let mark = match class {
        "done" => drawing("M5 12l5 6L20 5"),
        "left-out" => drawing("M4 12h.01M12 12h.01M20 12h.01"),
        "now" => drawing("M8 4l9 8-9 8z"),
        "optional" => drawing("M12 5v14M5 12h14"),
        _ => drawing("M12 7a5 5 0 1 0 0 10 5 5 0 0 0 0-10z"),
    };
    let state = match class {
        "done" => key!("ladder-is_done"),
        "left-out" => key!("ladder-is_left_out"),
        "now" => key!("ladder-is_now"),
        "optional" => key!("ladder-is_optional"),
        _ => key!("ladder-is_ahead"),
    };
    let current = (class == "now").then_some("step");
    view! {
        <li class=class aria-current=current>
            <span class="mark">{mark}</span>
            <div class="grow stack">
                <div class="row apart">
                    <h2 tabindex="-1">{name}<span class="visually-hidden">{format!(" ({})", t(state))}</span></h2>
                    <span class="read">{readings}</span>
                </div>
                {body}
            </div>
        </li>
    }
    .into_any()
}

fn rung_name(kind: RungKind) -> String {
    match kind {
        RungKind::Drain => t!("ladder-drain"),
        RungKind::Rinse(n) => t_with!("ladder-rinse", &[("n", &n.to_string())]),
        RungKind::Antichlor => t!("ladder-antichlor"),
        RungKind::Acid => t!("ladder-acid"),
        RungKind::Test(test) => crate::i18n::sentence_case(t(test.word())),
        RungKind::SignOff => t!("form-sign_off-short"),
        RungKind::Store => t!("ladder-store"),
    }
}

/// "pH 9.4 · 20 mg/L", as far as it was read.
fn readings(rung: &Rung) -> String {
    if rung.state != RungState::Done {
        return String::new();
    }
    let water = rung.water_l.map(|water| {
        let text = format_value(&QuantityKind::Volume.value(water.value * 1000.0));
        let assumed = water.basis == bleachfield_core::quantity::Basis::Assumed;
        if assumed { t_with!("ladder-as_planned", &[("amount", &text)]) } else { text }
    });
    let ph = rung.ph.map(|ph| t_with!("batches-ph", &[("ph", &format_number(ph.value, 3))]));
    let strip = rung.strip_mg_per_l.map(|mg| format!("{} mg/L", format_number(mg.value, 3)));
    [water, ph, strip].into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

fn act_view(writer: BatchWriter, ladder: &Ladder, rung: &Rung, drained: RwSignal<bool>) -> AnyView {
    let form_button = |form: BatchForm, name: String| {
        view! {
            <button class="button touch" on:click=move |_| writer.open(form)>{name}</button>
        }
        .into_any()
    };
    match rung.kind {
        RungKind::Drain => drain_view(writer, drained),
        RungKind::Rinse(_) => view! { <RinseRung writer ahead=ladder.ahead /> }.into_any(),
        RungKind::Test(test) => view! { <TestRung writer test rinse_ph=rung.ph /> }.into_any(),
        RungKind::SignOff => form_button(BatchForm::SignOff, t!("next-sign_off")),
        RungKind::Store => form_button(BatchForm::Store, t!("next-store")),
        // Never the one next step; offered where they may be used.
        RungKind::Antichlor | RungKind::Acid => ().into_any(),
    }
}

fn drain_view(writer: BatchWriter, drained: RwSignal<bool>) -> AnyView {
    let advice = writer
        .read(|book, batch| before_draining(batch, &WashRecord::of(book, batch)))
        .unwrap_or_default();
    view! {
        <Cautions act=Act::Draining situation=writer.situation() />
        <details class="more">
            <summary>{t!("drain-before")}</summary>
            <div class="inside stack">{remarks(&advice)}</div>
        </details>
        <button class="button touch" on:click=move |_| drained.set(true)>
            {t!("ladder-drained")}
        </button>
    }
    .into_any()
}

fn optional_view(writer: BatchWriter, kind: RungKind) -> Option<AnyView> {
    let (form, why) = match kind {
        RungKind::Antichlor => (BatchForm::Antichlor, t!("ladder-antichlor_why")),
        RungKind::Acid => (BatchForm::Acid, t!("ladder-acid_why")),
        _ => return None,
    };
    Some(
        view! {
            <p class="small soft">{why}</p>
            <button class="button soft" on:click=move |_| writer.open(form)>
                {form.button_label()}
            </button>
        }
        .into_any(),
    )
}
