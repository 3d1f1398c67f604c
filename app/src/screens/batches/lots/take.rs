//! Taking from a lot: for use, for sheets, into a part of its own, or into a
//! blend with others. What it cannot give is refused before it is written.

use bleachfield_core::{
    derive::lot::{DRAWN, LotError, LotMovement},
    journal::{Body, Book, LotBlended, LotDrawn, LotPart, StoredForm, Subject, Withdrawn},
    message::{Field, Message, Value},
    pulp::storage::{FibreClass, shelf_life},
    quantity::{Basis, Estimate, QuantityKind, grams},
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::{called, held, ledger};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, TextField, notify},
    i18n::{format_value, key, t, t_with},
    platform::clock,
    screens::{batches::telling::name_of, calculator::sums::SheetsSum},
    state::{AppState, app_state},
};

const OTHER: Field = Field("lot-other");

/// What can be taken from a lot.
#[component]
pub fn Take(lot: Ulid) -> impl IntoView {
    let what = RwSignal::new(0_usize);
    let options =
        [key!("lot-draw"), key!("lot-split"), key!("lot-blend"), key!("form-sheets-short")].map(t);
    view! {
        <section class="card stack">
            <RadioGroup label=t!("lot-take") value=what
                options=options.into_iter().enumerate().collect() />
            {move || match what.get() {
                0 => draw(lot),
                1 => make(lot, false),
                2 => make(lot, true),
                _ => sheets(lot),
            }}
        </section>
    }
}

/// Writes about a lot; once it is on disk, empties the fields, says so, and offers to
/// take it back.
fn save(studio: AppState, lot: Ulid, body: Body, fields: &[NumberInput]) {
    let fields: Vec<RwSignal<String>> = fields.iter().map(|ask| ask.text).collect();
    let what = t(&format!("entry-{}", body.kind()));
    spawn_local(async move {
        let about = Subject::Lot(lot);
        if let Some(entry) = studio.write(about, body).await {
            for field in fields {
                let _ = field.try_set(String::new());
            }
            let undo = Callback::new(move |()| {
                let back = Body::Withdrawn(Withdrawn { entry, why: String::new() });
                spawn_local(async move {
                    if studio.write(about, back).await.is_some() {
                        notify(t!("batch-undone"), None);
                    }
                });
            });
            notify(t_with!("batch-saved", &[("what", &what)]), Some(undo));
        }
    });
}

/// Why the book's lots cannot move so, if they cannot.
fn refused(studio: AppState, movement: &LotMovement) -> Option<LotError> {
    studio.book_now(|book| ledger(book).0.try_move(movement).err())
}

fn mass(field: Field) -> NumberInput {
    NumberInput::new(field, QuantityKind::Mass)
}

fn measured(value: f64) -> Estimate<f64> {
    Estimate::exact(value, Basis::Measured)
}

fn press(key: &str, run: Callback<()>) -> AnyView {
    view! { <button class="button touch" on:click=move |_| run.run(())>{t(key)}</button> }
        .into_any()
}

fn draw(lot: Ulid) -> AnyView {
    let studio = app_state();
    let dry = mass(DRAWN);
    let purpose = RwSignal::new(String::new());
    let why = Signal::derive(move || {
        // Followed, so that the field says so again when the book changes.
        studio.book(|_| ());
        let dry = grams(dry.base()?);
        refused(studio, &LotMovement::Drawn { lot, dry }).map(|why| why.message())
    });
    let run = Callback::new(move |()| {
        if !dry.try_now() || why.get_untracked().is_some() {
            return;
        }
        let Some(taken) = dry.base() else { return };
        let purpose = purpose.get_untracked().trim().to_owned();
        save(studio, lot, Body::LotDrawn(LotDrawn { dry_g: measured(taken), purpose }), &[dry]);
    });
    view! {
        <NumberField ask=dry refused=why />
        <TextField label=t!("lot-purpose") text=purpose />
        {press(key!("lot-do_draw"), run)}
    }
    .into_any()
}

/// A new lot of a part of this one, alone or with a part of another.
fn make(lot: Ulid, blend: bool) -> AnyView {
    let studio = app_state();
    let dry = mass(DRAWN);
    let other_dry = mass(OTHER);
    let others: Vec<(Ulid, String)> = studio.book_now(|book| {
        let (ledger, _) = ledger(book);
        let others = book.lots.values().filter(|one| one.id != lot && held(&ledger, one) > 0.0);
        others.map(|one| (one.id, called(one))).collect()
    });
    if blend && others.is_empty() {
        return view! { <p>{t!("lot-no_other")}</p> }.into_any();
    }
    let other = RwSignal::new(others.first().map(|(id, _)| *id));
    let form = RwSignal::new(
        studio.book_now(|book| book.lots.get(&lot).map_or(StoredForm::WetCold, |lot| lot.form)),
    );
    let (name, place) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let parts = move || -> Option<Vec<(Ulid, f64)>> {
        let mut parts = vec![(lot, dry.base()?)];
        if blend {
            parts.push((other.get()?, other_dry.base()?));
        }
        Some(parts)
    };
    // Whose refusal it is decides beside which field it stands.
    let why = move || -> Option<(Ulid, Message)> {
        studio.book(|_| ());
        let typed = parts().or_else(|| Some(vec![(lot, dry.base()?)]))?;
        let parts = typed.into_iter().map(|(lot, dry)| (lot, grams(dry))).collect();
        let movement = LotMovement::Made { lot: Ulid::nil(), parts };
        let why = refused(studio, &movement)?;
        let whose = match &why {
            LotError::MoreThanHeld { lot, .. } => *lot,
            _ => lot,
        };
        Some((whose, why.message()))
    };
    let mine = Signal::derive(move || why().filter(|(whose, _)| *whose == lot).map(|(_, m)| m));
    let theirs = Signal::derive(move || {
        why().filter(|(whose, _)| *whose != lot).map(|(_, m)| m.beside(OTHER))
    });
    let run = Callback::new(move |()| {
        let well = dry.try_now() & (!blend || other_dry.try_now());
        if !well || why().is_some() {
            return;
        }
        let Some(parts) = parts() else { return };
        let keep =
            shelf_life(form.get_untracked(), FibreClass::Plant, false).keep_by(clock::today());
        let body = Body::LotBlended(LotBlended {
            name: name.get_untracked().trim().to_owned(),
            parts: parts
                .into_iter()
                .map(|(lot, dry)| LotPart { lot, dry_g: measured(dry) })
                .collect(),
            form: form.get_untracked(),
            place: place.get_untracked().trim().to_owned(),
            keep_by: keep,
        });
        save(studio, studio.fresh_id(), body, &[dry, other_dry]);
    });
    let choose = move |event| other.set(event_target_value(&event).parse().ok());
    let listed = others
        .into_iter()
        .map(|(id, name)| view! { <option value=id.to_string()>{name}</option> })
        .collect_view();
    view! {
        <NumberField ask=dry refused=mine />
        {blend.then(|| view! {
            <div class="field">
                <label for="other-lot">{t!("lot-with")}</label>
                <select id="other-lot" on:change=choose>{listed}</select>
            </div>
            <NumberField ask=other_dry refused=theirs />
        })}
        <TextField label=t!("lot-name") text=name />
        <RadioGroup label=t!("form-store-form") value=form
            options=[StoredForm::WetCold, StoredForm::Frozen, StoredForm::Dried]
                .map(|f| (f, name_of("stored_form", f))).to_vec() />
        <TextField label=t!("form-store-place") text=place />
        {press(if blend { key!("lot-do_blend") } else { key!("lot-do_split") }, run)}
    }
    .into_any()
}

fn sheets(lot: Ulid) -> AnyView {
    let studio = app_state();
    let left = move |book: &Book| Some(held(&ledger(book).0, book.lots.get(&lot)?));
    let sum = SheetsSum::new(studio.book_now(left));
    let why = Signal::derive(move || {
        studio.book(|_| ());
        let dry = grams(sum.dry.base()?);
        refused(studio, &LotMovement::Drawn { lot, dry }).map(|why| why.message())
    });
    let run = Callback::new(move |()| {
        if why.get_untracked().is_none()
            && let Some(entry) = sum.entry(String::new())
        {
            save(studio, lot, entry, &[sum.dry, sum.count]);
        }
    });
    let left = move || {
        studio
            .book(left)
            .map(|left| t_with!("lot-left", &[("mass", &format_value(&Value::Mass(grams(left))))]))
    };
    view! {
        <p>{left}</p>
        {sum.view()}
        {move || why.get().map(|why| view! {
            <p class="caution care" role="alert">{crate::i18n::render(&why)}</p>
        })}
        <h3>{t!("form-as_done")}</h3>
        <NumberField ask=sum.count />
        {press(key!("do-save"), run)}
    }
    .into_any()
}
