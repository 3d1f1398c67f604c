//! Sheets made straight from the batch.

use bleachfield_core::{
    journal::{Body, Sheets},
    quantity::{Basis, Kind, Known},
};
use leptos::prelude::*;

use super::{Save, Writing, asks};
use crate::{
    locale::word,
    part::{Ask, AskField, TextField},
};

#[component]
pub fn SheetsForm(writing: Writing) -> impl IntoView {
    let count = Ask::new(asks::SHEET_COUNT, Kind::Count).between(1.0, 10_000.0);
    let format = RwSignal::new(String::new());
    let millimetres = |field| Ask::new(field, Kind::Number).between(10.0, 3000.0).optional();
    let width = millimetres(asks::SHEET_WIDTH);
    let height = millimetres(asks::SHEET_HEIGHT);
    let grammage = Ask::new(asks::GRAMMAGE, Kind::Number).between(2.0, 2000.0).optional();
    let dry = Ask::new(asks::DRY_PULP, Kind::Mass).optional();
    let note = RwSignal::new(String::new());
    let run = Callback::new(move |()| {
        if !asks::all_well(&[count, width, height, grammage, dry]) {
            return;
        }
        let Some(sheets) = count.base() else { return };
        writing.save(Body::Sheets(Sheets {
            count: sheets as u32,
            format: format.get_untracked().trim().to_owned(),
            width_mm: width.base(),
            height_mm: height.base(),
            grammage_g_per_m2: grammage.base().map(|g| Known::exact(g, Basis::Measured)),
            dry_g: asks::on_scale(dry),
            note: note.get_untracked().trim().to_owned(),
        }));
    });
    let formats = ["A3", "A4", "A5"].map(str::to_owned).to_vec();
    view! {
        <div class="stack">
            <AskField ask=count />
            <TextField label=word("form.sheets.format") text=format offers=formats />
            <div class="row even">
                <AskField ask=width />
                <AskField ask=height />
            </div>
            <AskField ask=grammage />
            <AskField ask=dry hint=word("form.sheets.dry_hint") />
            <TextField label=word("form.note.optional") text=note />
            <Save writing run />
        </div>
    }
}
