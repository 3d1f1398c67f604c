//! The forms of a batch's page: one for each kind of entry.
//!
//! A form makes a `Body`, gives it to [`BatchWriter::save`], and closes once that is on disk.
//! After a failure it stays open with what was typed.

mod acid;
mod antichlor;
mod controls;
mod cook;
mod correct;
mod end_test;
mod entry_menu;
pub mod inputs;
mod photo;
mod reading;
mod reserve;
mod rinse;
mod sheets;
mod sign_off;
mod store;
mod strip_choice;
mod tags;
mod texts;
mod weigh;
mod writer;

pub use self::{
    controls::{Cautions, SaveButton},
    end_test::{EndTestInputs, outcome_line},
    inputs::{all_valid, ph_figure, strip_figure},
    rinse::{before_draining, no_water},
    strip_choice::StripChoice,
    writer::{BatchWriter, notify_saved},
};

use leptos::prelude::*;

use self::inputs::{figure, trimmed, weighed_figure};
use crate::{components::BottomSheet, i18n::t, route::BatchForm};

/// The open form, in a bottom sheet.
#[component]
pub fn FormHost(writer: BatchWriter) -> impl IntoView {
    (move || {
        writer.form.get().map(|form| {
            let draft = writer.draft_name(form);
            view! {
                <BottomSheet open=writer.is_open title=form.title() draft>{move || form.view(writer)}</BottomSheet>
            }
        })
    })
    .into_any()
}

impl BatchForm {
    pub fn button_label(self) -> String {
        t(&format!("form-{}-short", self.key()))
    }

    fn title(self) -> String {
        t(&format!("form-{}-title", self.key()))
    }

    fn view(self, writer: BatchWriter) -> AnyView {
        match self {
            Self::Cook => view! { <cook::CookForm writer /> }.into_any(),
            Self::Weigh => view! { <weigh::WeighForm writer /> }.into_any(),
            Self::Reading => view! { <reading::ReadingForm writer /> }.into_any(),
            Self::Photo => view! { <photo::PhotoForm writer /> }.into_any(),
            Self::Note => view! { <texts::NoteForm writer /> }.into_any(),
            Self::Rinse => view! { <rinse::RinseForm writer /> }.into_any(),
            Self::Antichlor => view! { <antichlor::AntichlorForm writer /> }.into_any(),
            Self::EndTest => view! { <end_test::EndTestForm writer /> }.into_any(),
            Self::Acid => view! { <acid::AcidForm writer /> }.into_any(),
            Self::Reserve => view! { <reserve::ReserveForm writer /> }.into_any(),
            Self::SignOff => view! { <sign_off::SignOffForm writer /> }.into_any(),
            Self::Store => view! { <store::StoreForm writer /> }.into_any(),
            Self::Sheets => view! { <sheets::SheetsForm writer /> }.into_any(),
            Self::Rename => view! { <texts::RenameForm writer /> }.into_any(),
            Self::Tags => view! { <tags::TagsForm writer /> }.into_any(),
            Self::Abandon => view! { <texts::AbandonForm writer /> }.into_any(),
            Self::Entry(entry) => view! { <entry_menu::EntryMenu entry writer /> }.into_any(),
            Self::Correct(entry) => view! { <correct::CorrectForm entry writer /> }.into_any(),
        }
    }
}
