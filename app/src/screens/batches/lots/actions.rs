//! Draws from a lot: for use, for sheets, to split it, or to blend it with another.
//! What the lot cannot give is refused before it is written.

use bleachfield_core::{
    derive::lot::{DRAWN, LotError, LotMovement},
    journal::{Body, Book, LotBlended, LotDrawn, LotPart, StoredForm, Subject},
    message::{Field, Message},
    pulp::storage::{FibreClass, shelf_life},
    quantity::{Basis, Estimate, QuantityKind, grams},
};
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;

use super::summary::{ledger, lot_name, remaining_g, remaining_text};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, TextField},
    i18n::{key, render, t},
    platform::clock,
    screens::{
        batches::form::{
            inputs::{stored_form_options, trimmed},
            notify_saved,
        },
        calculator::sums::SheetsSum,
    },
    state::{AppState, app_state},
};

const OTHER: Field = Field("lot-other");

#[derive(Clone, Copy, PartialEq)]
enum Action {
    Draw,
    Split,
    Blend,
    Sheets,
}

/// A choice of action, and its form.
#[component]
pub fn LotActions(lot: Ulid) -> impl IntoView {
    let action = RwSignal::new(Action::Draw);
    let options = vec![
        (Action::Draw, t!("lot-draw")),
        (Action::Split, t!("lot-split")),
        (Action::Blend, t!("lot-blend")),
        (Action::Sheets, t!("form-sheets-short")),
    ];
    view! {
        <section class="card stack">
            <RadioGroup label=t!("lot-take") value=action options />
            {move || match action.get() {
                Action::Draw => draw_form(lot),
                Action::Split => new_lot_form(lot, false),
                Action::Blend => new_lot_form(lot, true),
                Action::Sheets => sheets_form(lot),
            }}
        </section>
    }
}

fn draw_form(lot: Ulid) -> AnyView {
    let studio = app_state();
    let dry = NumberInput::new(DRAWN, QuantityKind::Mass);
    let purpose = RwSignal::new(String::new());
    let refused = drawn_error(studio, lot, dry);
    let run = move |_| {
        if !dry.try_now() || refused.get_untracked().is_some() {
            return;
        }
        let Some(dry_g) = dry.base().map(measured) else { return };
        let body = Body::LotDrawn(LotDrawn { dry_g, purpose: trimmed(purpose) });
        save(studio, lot, body, &[dry]);
    };
    view! {
        <NumberField ask=dry refused />
        <TextField label=t!("lot-purpose") text=purpose />
        <button class="button touch" on:click=run>{t!("lot-do_draw")}</button>
    }
    .into_any()
}

/// A new lot of a part of this one, alone or with a part of another.
fn new_lot_form(lot: Ulid, blend: bool) -> AnyView {
    let studio = app_state();
    let (others, form) = studio.book_now(|book| {
        let form = book.lots.get(&lot).map_or(StoredForm::WetCold, |lot| lot.form);
        (other_lots(book, lot), form)
    });
    if blend && others.is_empty() {
        return view! { <p>{t!("lot-no_other")}</p> }.into_any();
    }
    let dry = NumberInput::new(DRAWN, QuantityKind::Mass);
    let other_dry = NumberInput::new(OTHER, QuantityKind::Mass);
    let other = RwSignal::new(others.first().map(|(id, _)| *id));
    let form = RwSignal::new(form);
    let (name, place) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let parts = move || -> Option<Vec<(Ulid, f64)>> {
        let mut parts = vec![(lot, dry.base()?)];
        if blend {
            parts.push((other.get()?, other_dry.base()?));
        }
        Some(parts)
    };
    let error = move || {
        // While the other part is missing, this one is checked alone.
        let parts = parts().or_else(|| Some(vec![(lot, dry.base()?)]));
        blend_error(studio, lot, parts)
    };
    let refused = Signal::derive(move || error().filter(|(of, _)| *of == lot).map(|(_, m)| m));
    let other_refused = Signal::derive(move || {
        error().filter(|(of, _)| *of != lot).map(|(_, message)| message.beside(OTHER))
    });
    let run = move |_| {
        let valid = dry.try_now() & (!blend || other_dry.try_now());
        if !valid || error().is_some() {
            return;
        }
        let Some(parts) = parts() else { return };
        let parts = parts.into_iter().map(|(lot, g)| LotPart { lot, dry_g: measured(g) });
        let form = form.get_untracked();
        let body = Body::LotBlended(LotBlended {
            name: trimmed(name),
            parts: parts.collect(),
            form,
            place: trimmed(place),
            keep_by: shelf_life(form, FibreClass::Plant, false).keep_by(clock::today()),
        });
        save(studio, studio.fresh_id(), body, &[dry, other_dry]);
    };
    let choose = move |event| other.set(event_target_value(&event).parse().ok());
    let others = others
        .into_iter()
        .map(|(id, name)| view! { <option value=id.to_string()>{name}</option> })
        .collect_view();
    view! {
        <NumberField ask=dry refused />
        {blend.then(|| view! {
            <div class="field">
                <label for="other-lot">{t!("lot-with")}</label>
                <select id="other-lot" on:change=choose>{others}</select>
            </div>
            <NumberField ask=other_dry refused=other_refused />
        })}
        <TextField label=t!("lot-name") text=name />
        <RadioGroup label=t!("form-store-form") value=form options=stored_form_options() />
        <TextField label=t!("form-store-place") text=place />
        <button class="button touch" on:click=run>
            {t(if blend { key!("lot-do_blend") } else { key!("lot-do_split") })}
        </button>
    }
    .into_any()
}

fn sheets_form(lot: Ulid) -> AnyView {
    let studio = app_state();
    let remaining = move |book: &Book| Some(remaining_g(&ledger(book).0, book.lots.get(&lot)?));
    let sum = SheetsSum::new(studio.book_now(remaining));
    let error = drawn_error(studio, lot, sum.dry);
    let run = move |_| {
        if error.get_untracked().is_none()
            && let Some(entry) = sum.entry(String::new())
        {
            save(studio, lot, entry, &[sum.dry, sum.count]);
        }
    };
    view! {
        <p>{move || studio.book(remaining).map(remaining_text)}</p>
        {sum.view()}
        {move || error.get().map(|error| view! {
            <p class="caution care" role="alert">{render(&error)}</p>
        })}
        <h3>{t!("form-as_done")}</h3>
        <NumberField ask=sum.count />
        <button class="button touch" on:click=run>{t!("do-save")}</button>
    }
    .into_any()
}

/// Writes an entry about a lot; once it is on disk, clears the fields and offers to undo.
fn save(studio: AppState, lot: Ulid, body: Body, fields: &[NumberInput]) {
    let fields: Vec<RwSignal<String>> = fields.iter().map(|input| input.text).collect();
    let what = t(&format!("entry-{}", body.kind()));
    spawn_local(async move {
        let subject = Subject::Lot(lot);
        if let Some(entry) = studio.write(subject, body).await {
            for field in fields {
                let _ = field.try_set(String::new());
            }
            notify_saved(studio, subject, entry, &what);
        }
    });
}

/// The other lots that have something left.
fn other_lots(book: &Book, lot: Ulid) -> Vec<(Ulid, String)> {
    let (ledger, _) = ledger(book);
    let others = book.lots.values().filter(|one| one.id != lot && remaining_g(&ledger, one) > 0.0);
    others.map(|one| (one.id, lot_name(one))).collect()
}

/// Why so much cannot be drawn, if it cannot.
fn drawn_error(studio: AppState, lot: Ulid, dry: NumberInput) -> Signal<Option<Message>> {
    Signal::derive(move || {
        let dry = grams(dry.base()?);
        movement_error(studio, &LotMovement::Drawn { lot, dry }).map(|error| error.message())
    })
}

/// Why a lot cannot be made of these parts (lot, g), if it cannot, and for which lot; else
/// it is about `lot`.
fn blend_error(
    studio: AppState,
    lot: Ulid,
    parts: Option<Vec<(Ulid, f64)>>,
) -> Option<(Ulid, Message)> {
    let parts = parts?.into_iter().map(|(lot, g)| (lot, grams(g))).collect();
    let error = movement_error(studio, &LotMovement::Made { lot: Ulid::nil(), parts })?;
    let of = match &error {
        LotError::MoreThanHeld { lot, .. } => *lot,
        _ => lot,
    };
    Some((of, error.message()))
}

/// Tracks the book.
fn movement_error(studio: AppState, movement: &LotMovement) -> Option<LotError> {
    studio.book(|book| ledger(book).0.try_move(movement).err())
}

fn measured(value: f64) -> Estimate<f64> {
    Estimate::exact(value, Basis::Measured)
}
