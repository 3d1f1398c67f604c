//! Draws from a lot: for use, for sheets, to split it, or to blend it with another.
//! What the lot cannot give is refused before it is written.

use bleachfield_core::{
    derive::lot::{DRAWN, LotError, LotMovement},
    journal::{Body, Book, LotBlended, LotDrawn, LotPart, StoredForm, Subject},
    message::{Field, Message},
    pulp::storage::{FibreClass, shelf_life},
    quantity::{Basis, Estimate, QuantityKind, grams},
};
use jiff::civil::Date;
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;

use super::summary::{ledger, lot_name, remaining_g, remaining_text};
use crate::{
    components::{ChoiceError, NumberField, NumberInput, RadioGroup, Term, TextField},
    i18n::{key, render, t},
    platform::clock,
    screens::{
        batches::{
            form::{
                inputs::{stored_form_options, trimmed},
                notify_saved,
            },
            marks::lot_marks,
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
        let Some(dry_g) = dry.base().map(|g| taken(studio, lot, g)) else { return };
        let body = Body::LotDrawn(LotDrawn { dry_g, purpose: trimmed(purpose) });
        save(studio, lot, body, &[dry]);
    };
    view! {
        <NumberField ask=dry refused term=Term::OvenDry />
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
    let other = RwSignal::new(None::<Ulid>);
    // As the lot that it is taken from.
    let form = RwSignal::new(Some(form));
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
    let tried = RwSignal::new(false);
    let no_other = Signal::derive(move || {
        let missing = tried.get() && other.get().is_none();
        missing.then(|| Message::new(key!("refusal-not_chosen")))
    });
    let run = move |_| {
        tried.set(true);
        let valid = dry.try_now() & (!blend || other_dry.try_now());
        if !valid || error().is_some() {
            return;
        }
        let Some(parts) = parts() else { return };
        let before = studio.book_now(|book| {
            let lots = parts.iter().filter_map(|(lot, _)| book.lots.get(lot));
            lots.map(|lot| (lot.form, lot.keep_by)).collect::<Vec<_>>()
        });
        let parts = parts.into_iter().map(|(lot, g)| LotPart { lot, dry_g: taken(studio, lot, g) });
        let Some(form) = form.get_untracked() else { return };
        let body = Body::LotBlended(LotBlended {
            name: trimmed(name),
            parts: parts.collect(),
            form,
            place: trimmed(place),
            keep_by: keep_by(form, &before, clock::today()),
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
                <select id="other-lot" on:change=choose>
                    <option value="">{t!("do-choose")}</option>
                    {others}
                </select>
                <ChoiceError problem=no_other />
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
    // What is left follows from what was stored and drawn.
    let left = studio.book_now(remaining).map(|g| Estimate::exact(grams(g), Basis::Computed));
    let sum = SheetsSum::new(left);
    let error = drawn_error(studio, lot, sum.dry.input);
    let run = move |_| {
        if error.get_untracked().is_none()
            && let Some(entry) = sum.entry(String::new())
        {
            save(studio, lot, entry, &[sum.dry.input, sum.count]);
        }
    };
    view! {
        <p>{move || studio.book(remaining).map(remaining_text)}</p>
        {move || studio.book(|book| book.lots.get(&lot).map(|lot| lot_marks(book, lot)))}
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

/// Dry fibre taken, g: measured where the lot is dry; else the person worked it out from wet pulp.
fn taken(studio: AppState, lot: Ulid, dry_g: f64) -> Estimate<f64> {
    let dried = |book: &Book| book.lots.get(&lot).is_some_and(|lot| lot.form == StoredForm::Dried);
    let basis = if studio.book_now(dried) { Basis::Measured } else { Basis::Computed };
    Estimate::exact(dry_g, basis)
}

/// When pulp that is stored in this form from today is to be used, made of lots with these forms
/// and dates: never later than a lot that was stored so before. Nobody said whether it is beaten,
/// so the short shelf life counts.
fn keep_by(form: StoredForm, before: &[(StoredForm, Option<Date>)], today: Date) -> Option<Date> {
    let from_today = shelf_life(form, FibreClass::Plant, true).keep_by(today)?;
    let same = before.iter().filter(|(of, _)| *of == form);
    same.filter_map(|(_, keep_by)| *keep_by).chain([from_today]).min()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn a_part_of_a_lot_keeps_no_longer_than_the_lot() {
        let today = date(2026, 5, 4);
        let cold = StoredForm::WetCold;
        let fresh = keep_by(cold, &[], today);
        assert_eq!(fresh, Some(date(2026, 5, 11)));
        let old = Some(date(2026, 5, 6));
        assert_eq!(keep_by(cold, &[(cold, old), (cold, None)], today), old);
        // Thawed or dried since: counted anew, and not at all.
        assert_eq!(keep_by(cold, &[(StoredForm::Frozen, old)], today), fresh);
        assert_eq!(keep_by(StoredForm::Dried, &[(cold, old)], today), None);
    }
}
