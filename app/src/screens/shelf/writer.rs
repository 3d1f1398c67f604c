//! Writing entries about a product, with undo.

use bleachfield_core::journal::{Body, Subject, Withdrawn};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use crate::{
    components::notify,
    i18n::{t, t_with},
    state::AppState,
};

/// Says that an entry was saved, and offers to undo that.
pub fn notify_saved(studio: AppState, subject: Subject, entry: Ulid, what: &str) {
    let undo = Callback::new(move |()| withdraw(studio, subject, entry));
    notify(t_with!("batch-saved", &[("what", what)]), Some(undo));
}

/// Withdraws an entry, which stays in the record, and offers to undo that.
pub fn withdraw(studio: AppState, subject: Subject, entry: Ulid) {
    spawn_local(async move {
        let body = Body::Withdrawn(Withdrawn { entry, why: String::new() });
        if let Some(withdrawal) = studio.write(subject, body).await {
            // Withdrawing a withdrawal restores the entry.
            let undo = Callback::new(move |()| withdraw(studio, subject, withdrawal));
            notify(t!("batch-undone"), Some(undo));
        }
    });
}

/// Writes entries about one product; copies share their signals.
#[derive(Clone, Copy)]
pub struct ProductWriter {
    pub studio: AppState,
    pub product: Ulid,
    /// A write is in progress.
    pub busy: RwSignal<bool>,
}

impl ProductWriter {
    pub fn new(studio: AppState, product: Ulid) -> Self {
        Self { studio, product, busy: RwSignal::new(false) }
    }

    /// Writes an entry; once it is on disk, offers to undo and runs `done`.
    pub fn save(self, body: Body, done: Callback<()>) {
        if self.busy.get_untracked() {
            return;
        }
        self.busy.set(true);
        let what = t(&format!("entry-{}", body.kind()));
        let subject = Subject::Bottle(self.product);
        spawn_local(async move {
            let entry = self.studio.write(subject, body).await;
            self.busy.try_set(false);
            if let Some(entry) = entry {
                notify_saved(self.studio, subject, entry, &what);
                done.try_run(());
            }
        });
    }
}
