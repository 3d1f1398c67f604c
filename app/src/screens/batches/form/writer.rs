//! The context of a batch's forms: which is open, and writing an entry about the batch.

use bleachfield_core::{
    caution::Situation,
    derive::WashRecord,
    journal::{Batch, Body, Book, Subject, Withdrawn},
    quantity::{Estimate, Mass},
};
use leptos::{prelude::*, task::spawn_local};
use ulid::Ulid;

use crate::{
    components::notify,
    i18n::{t, t_with},
    platform::draft,
    route::{self, BatchForm, Route},
    screens::batches::situation::situation,
    state::AppState,
    storage::NewPhoto,
};

/// Copied freely.
#[derive(Clone, Copy)]
pub struct BatchWriter {
    pub batch: Ulid,
    pub studio: AppState,
    /// The form that is open, or was last.
    pub(super) form: RwSignal<Option<BatchForm>>,
    pub(super) is_open: RwSignal<bool>,
    /// An entry is being written.
    pub(super) busy: RwSignal<bool>,
}

impl BatchWriter {
    /// `form` is open at first.
    pub fn new(batch: Ulid, studio: AppState, form: Option<BatchForm>) -> Self {
        Self {
            batch,
            studio,
            form: RwSignal::new(form),
            is_open: RwSignal::new(form.is_some()),
            busy: RwSignal::new(false),
        }
    }

    pub fn open(self, form: BatchForm) {
        self.form.set(Some(form));
        self.is_open.set(true);
    }

    /// The name of a form's draft.
    pub(super) fn draft_name(self, form: BatchForm) -> String {
        let of = match form {
            BatchForm::Entry(entry) | BatchForm::Correct(entry) => entry.to_string(),
            _ => String::new(),
        };
        format!("/batch/{}/{}/{of}", self.batch, form.key())
    }

    pub(super) fn close(self) {
        self.is_open.try_set(false);
    }

    /// Reads the batch, untracked; `None` if it is not in the book.
    pub fn read<T>(self, read: impl FnOnce(&Book, &Batch) -> T) -> Option<T> {
        self.studio.book_now(|book| book.batches.get(&self.batch).map(|batch| read(book, batch)))
    }

    /// The running bath.
    pub(super) fn running_bath(self) -> Option<Ulid> {
        self.read(|_, batch| batch.running().map(|bath| bath.id)).flatten()
    }

    /// Oven-dry fibre by the last weighing.
    pub(super) fn dry_fibre(self) -> Option<Estimate<Mass>> {
        let pulp = self.read(|book, batch| WashRecord::of(book, batch).pulp)??;
        Some(pulp.dry_fibre())
    }

    /// The facts for the hazard rules.
    pub fn situation(self) -> Signal<Situation> {
        Signal::stored(self.read(|_, batch| situation(batch)).unwrap_or_default())
    }

    /// Writes an entry; once it is on disk, closes the form and offers to undo.
    pub fn save(self, body: Body) {
        let what = saved_name(&body);
        self.save_with(vec![body], Vec::new(), what, None);
    }

    /// Writes entries of one act, the last of which gives it its name and may be undone.
    pub fn save_all(self, bodies: Vec<Body>) {
        let what = bodies.last().map(saved_name).unwrap_or_default();
        self.save_with(bodies, Vec::new(), what, None);
    }

    /// As [`Self::save`], with the bytes of a photo; then goes to `next`, if given.
    pub(super) fn save_photo(self, body: Body, photo: NewPhoto, next: Option<Route>) {
        let what = saved_name(&body);
        self.save_with(vec![body], vec![photo], what, next);
    }

    /// Withdraws an entry, or restores one by withdrawing its withdrawal. `what` is the
    /// locale key of the notice.
    pub(super) fn withdraw(self, entry: Ulid, what: &str) {
        self.save_with(vec![withdrawal(entry)], Vec::new(), t(what), None);
    }

    fn save_with(
        self,
        bodies: Vec<Body>,
        photos: Vec<NewPhoto>,
        what: String,
        next: Option<Route>,
    ) {
        if self.busy.get_untracked() {
            return;
        }
        self.busy.set(true);
        let subject = Subject::Batch(self.batch);
        let from = route::current();
        spawn_local(async move {
            let bodies = bodies.into_iter().map(|body| (subject, body)).collect();
            let ids = self.studio.write_with(bodies, &photos).await;
            self.busy.try_set(false);
            let Some(&id) = ids.as_ref().and_then(|ids| ids.last()) else { return };
            if let Some(form) = self.form.try_get_untracked().flatten() {
                draft::discard(&self.draft_name(form));
            }
            self.close();
            match next {
                // The next screen shows the result; a notice would cover its buttons.
                Some(route) => route::go_from(&from, &route),
                None => notify_saved(self.studio, subject, id, &what),
            }
        });
    }
}

/// Says that an entry was saved, and offers to undo that.
pub fn notify_saved(studio: AppState, subject: Subject, entry: Ulid, what: &str) {
    let undo = Callback::new(move |()| {
        spawn_local(async move {
            if studio.write(subject, withdrawal(entry)).await.is_some() {
                notify(t!("batch-undone"), None);
            }
        });
    });
    notify(t_with!("batch-saved", &[("what", what)]), Some(undo));
}

fn saved_name(body: &Body) -> String {
    t(&format!("entry-{}", body.kind()))
}

fn withdrawal(entry: Ulid) -> Body {
    Body::Withdrawn(Withdrawn { entry, why: String::new() })
}
