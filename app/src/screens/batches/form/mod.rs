//! What a person writes down about a batch: one small form for each.
//!
//! A form gathers a [`Body`], hands it to [`BatchWriter::save`], and closes once
//! it is on disk. What cannot be saved stays in the form.

mod acid;
mod antichlor;
mod asks;
mod cook;
mod correct;
mod end_test;
mod entry;
mod give_up;
mod note;
mod photo;
mod reading;
mod rename;
mod reserve;
mod rinse;
mod sheets;
mod sign_off;
mod store;
mod weigh;

use bleachfield_core::{
    caution::{Act, Situation, cautions},
    journal::{Body, Subject, Withdrawn},
    message::Message,
};
use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    components::{BottomSheet, CautionList, notify, to_first_wrong},
    i18n::{render, t, t_with},
    route::{self, BatchForm, Route},
    screens::batches::evidence,
    state::AppState,
    storage::NewPhoto,
};

/// What a form is called and how it looks.
impl BatchForm {
    /// What its button says.
    pub fn short(self) -> String {
        t(&format!("form-{}-short", self.key()))
    }

    fn title(self) -> String {
        t(&format!("form-{}-title", self.key()))
    }

    fn view(self, writing: BatchWriter) -> AnyView {
        match self {
            Self::Cook => view! { <cook::CookForm writing /> }.into_any(),
            Self::Weigh => view! { <weigh::Weigh writing /> }.into_any(),
            Self::Reading => view! { <reading::ReadingForm writing /> }.into_any(),
            Self::Photo => view! { <photo::PhotoForm writing /> }.into_any(),
            Self::Note => view! { <note::NoteForm writing /> }.into_any(),
            Self::Rinse => view! { <rinse::Rinse writing /> }.into_any(),
            Self::Antichlor => view! { <antichlor::AntichlorForm writing /> }.into_any(),
            Self::EndTest => view! { <end_test::EndTestForm writing /> }.into_any(),
            Self::Acid => view! { <acid::AcidForm writing /> }.into_any(),
            Self::Reserve => view! { <reserve::ReserveForm writing /> }.into_any(),
            Self::SignOff => view! { <sign_off::SignOff writing /> }.into_any(),
            Self::Store => view! { <store::Store writing /> }.into_any(),
            Self::Sheets => view! { <sheets::SheetsForm writing /> }.into_any(),
            Self::Rename => view! { <rename::Rename writing /> }.into_any(),
            Self::Abandon => view! { <give_up::AbandonForm writing /> }.into_any(),
            Self::Entry(entry) => view! { <entry::EntryMenu entry writing /> }.into_any(),
            Self::Correct(entry) => view! { <correct::Correct entry writing /> }.into_any(),
        }
    }
}

/// What every form of a batch's page writes with. Copied freely.
#[derive(Clone, Copy)]
pub struct BatchWriter {
    pub batch: Ulid,
    /// The form that is open, or was last.
    form: RwSignal<Option<BatchForm>>,
    open: RwSignal<bool>,
    /// Something is on its way to disk.
    busy: RwSignal<bool>,
    pub studio: AppState,
}

impl BatchWriter {
    /// For a batch's page; `asked` is the form to begin with.
    pub fn new(batch: Ulid, studio: AppState, asked: Option<BatchForm>) -> Self {
        Self {
            batch,
            form: RwSignal::new(asked),
            open: RwSignal::new(asked.is_some()),
            busy: RwSignal::new(false),
            studio,
        }
    }

    /// Opens a form.
    pub fn show(self, form: BatchForm) {
        self.form.set(Some(form));
        self.open.set(true);
    }

    /// Closes the form; focus goes back to where it was opened.
    fn close(self) {
        self.open.try_set(false);
    }

    /// Writes one thing about the batch, closes the form once it is on disk,
    /// says so, and offers to take it back.
    pub fn save(self, body: Body) {
        let what = t(&format!("entry-{}", body.kind()));
        self.save_all(vec![body], what);
    }

    /// Writes a photo with its bytes; `then` is where to go once it is on disk.
    fn save_photo(self, body: Body, photo: NewPhoto, then: Option<Route>) {
        let what = t(&format!("entry-{}", body.kind()));
        self.save_with(vec![body], vec![photo], what, then);
    }

    /// Writes several things that belong together; `what` names them.
    pub fn save_all(self, bodies: Vec<Body>, what: String) {
        self.save_with(bodies, Vec::new(), what, None);
    }

    fn save_with(
        self,
        bodies: Vec<Body>,
        photos: Vec<NewPhoto>,
        what: String,
        then: Option<Route>,
    ) {
        if self.busy.get_untracked() || bodies.is_empty() {
            return;
        }
        self.busy.set(true);
        let about = Subject::Batch(self.batch);
        leptos::task::spawn_local(async move {
            let bodies = bodies.into_iter().map(|body| (about, body)).collect();
            let ids = self.studio.write_with(bodies, &photos).await;
            self.busy.try_set(false);
            let Some(ids) = ids else { return };
            let studio = self.studio;
            self.close();
            if let Some(then) = then {
                // The next screen shows the result; a notice would cover its buttons.
                return route::go(&then);
            }
            let undo = Callback::new(move |()| withdraw(studio, about, ids.clone()));
            notify(t_with!("batch-saved", &[("what", &what)]), Some(undo));
        });
    }

    /// The batch's running bath.
    fn running(self) -> Option<Ulid> {
        self.studio.book_now(|book| book.batches.get(&self.batch)?.running().map(|bath| bath.id))
    }

    /// What the hazard rules should know of the batch as it is.
    fn situation(self) -> Situation {
        self.studio
            .book_now(|book| book.batches.get(&self.batch).map(evidence::situation))
            .unwrap_or_default()
    }

    /// Takes an entry out of the telling, or brings one back by taking out
    /// its withdrawal.
    pub fn withdraw(self, entry: Ulid, what: &str) {
        let body = Body::Withdrawn(Withdrawn { entry, why: String::new() });
        self.save_all(vec![body], t(what));
    }
}

fn withdraw(studio: AppState, about: Subject, entries: Vec<Ulid>) {
    leptos::task::spawn_local(async move {
        let bodies = entries
            .into_iter()
            .map(|entry| (about, Body::Withdrawn(Withdrawn { entry, why: String::new() })))
            .collect();
        if studio.write_all(bodies).await.is_some() {
            notify(t!("batch-undone"), None);
        }
    });
}

/// Shows the open form in a sheet that rises from below.
#[component]
pub fn FormHost(writing: BatchWriter) -> impl IntoView {
    (move || {
        writing.form.get().map(|form| {
            view! {
                <BottomSheet open=writing.open title=form.title()>{move || form.view(writing)}</BottomSheet>
            }
        })
    })
    .into_any()
}

/// The cautions for what the form writes down.
#[component]
fn Cautions(act: Act, #[prop(into)] situation: Signal<Situation>) -> impl IntoView {
    view! { <CautionList cautions=Signal::derive(move || situation.with(|s| cautions(act, s))) /> }
}

/// What is wrong with the choice above, or nothing.
#[component]
fn FieldError(problem: Signal<Option<Message>>) -> impl IntoView {
    view! {
        <span class="field" role="status">
            {move || problem.get().map(|problem| {
                view! { <span class="wrong">{render(&problem)}</span> }
            })}
        </span>
    }
}

/// The button that ends a form.
#[component]
fn Save(
    writing: BatchWriter,
    /// In place of "Save".
    #[prop(into, optional)]
    label: Option<String>,
    /// Cannot be undone by a dry hand alone: shown in the colour of danger.
    #[prop(optional)]
    grave: bool,
    run: Callback<()>,
) -> impl IntoView {
    let label = label.unwrap_or_else(|| t!("do-save"));
    view! {
        <div class="save">
            <button class="button touch" class:stop=grave disabled=move || writing.busy.get()
                on:click=move |_| { run.run(()); to_first_wrong() }>
                {label}
            </button>
        </div>
    }
}
