//! What the screens of the shelf share: writing with a way back, and ages in words.

use bleachfield_core::{
    derive::AgeReference,
    journal::{Body, Product, Subject, Withdrawn},
};
use jiff::Timestamp;
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use crate::{
    components::notify,
    i18n::{key, t, t_count, t_with},
    state::AppState,
};

/// Says that something was saved, and offers to take it back.
pub fn said_saved(studio: AppState, about: Subject, entry: Ulid, what: String) {
    let undo = Callback::new(move |()| withdraw(studio, about, entry));
    notify(t_with!("batch-saved", &[("what", &what)]), Some(undo));
}

/// Takes an entry out of the telling; it stays in the record.
pub fn withdraw(studio: AppState, about: Subject, entry: Ulid) {
    spawn_local(async move {
        let body = Body::Withdrawn(Withdrawn { entry, why: String::new() });
        if let Some(withdrawal) = studio.write(about, body).await {
            // Taking back the taking back brings the entry back.
            let undo = Callback::new(move |()| withdraw(studio, about, withdrawal));
            notify(t!("batch-undone"), Some(undo));
        }
    });
}

/// What the product's page writes with. Copied freely.
#[derive(Clone, Copy)]
pub struct ProductWriter {
    pub studio: AppState,
    pub product: Ulid,
    /// Something is on its way to disk.
    pub busy: RwSignal<bool>,
}

impl ProductWriter {
    /// Writes one thing about the product, says so with a way back, and runs `done` once it
    /// is on disk.
    pub fn save(self, body: Body, done: Callback<()>) {
        if self.busy.get_untracked() {
            return;
        }
        self.busy.set(true);
        let what = t(&format!("entry-{}", body.kind()));
        let about = Subject::Bottle(self.product);
        spawn_local(async move {
            let entry = self.studio.write(about, body).await;
            self.busy.try_set(false);
            if let Some(entry) = entry {
                said_saved(self.studio, about, entry, what);
                done.try_run(());
            }
        });
    }
}

/// How old it is and from when that is counted: "made 4 months ago".
pub fn age(product: &Product, now: Timestamp) -> String {
    let (from, days) = product.age_days(now);
    let ago = ago(days);
    t_with(
        match from {
            AgeReference::Made => key!("shelf-age-made"),
            AgeReference::Bought => key!("shelf-age-bought"),
            AgeReference::Opened => key!("shelf-age-opened"),
            AgeReference::Added => key!("shelf-age-added"),
        },
        &[("ago", &ago)],
    )
}

/// "today", "3 weeks ago": as exact as a person needs it.
pub fn ago(days: f64) -> String {
    let whole = |per: f64| (days / per).floor() as usize;
    match days {
        d if d < 0.0 => t!("shelf-ago-ahead"),
        d if d < 1.0 => t!("shelf-ago-today"),
        d if d < 21.0 => t_count!("shelf-ago-days", whole(1.0)),
        d if d < 90.0 => t_count!("shelf-ago-weeks", whole(7.0)),
        d if d < 730.0 => t_count!("shelf-ago-months", whole(30.44)),
        _ => t_count!("shelf-ago-years", whole(365.25)),
    }
}
