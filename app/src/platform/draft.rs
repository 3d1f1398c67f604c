//! What was typed into a form and not saved yet, kept on this device until it is saved or
//! discarded: it survives another screen, a reload, and the end of the app.
//!
//! Texts and choices only; a chosen photo is not kept.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use super::{clock, local_storage};

/// Before the name of the form, the key in local storage.
const KEY: &str = "bleachfield.draft:";

/// The draft of one form, from the context of its fields. Copies share it.
#[derive(Clone, Copy)]
pub struct DraftScope {
    draft: StoredValue<Draft>,
    /// Names that were restored once: a control that is shown again keeps what it has.
    restored: StoredValue<BTreeSet<String>>,
    /// How many fields of a name were made in this turn of the event loop.
    made: StoredValue<BTreeMap<&'static str, usize>>,
    /// When what was found here was last changed; `None` if there was nothing.
    found: RwSignal<Option<Timestamp>>,
}

#[derive(Clone, Default, Serialize, Deserialize)]
struct Draft {
    #[serde(skip)]
    key: String,
    changed: Timestamp,
    texts: BTreeMap<String, String>,
}

impl DraftScope {
    /// Provides the draft of the form called `name`, such as its address, to the fields below.
    pub fn provide(name: &str) -> Self {
        let key = format!("{KEY}{name}");
        let stored = local_storage::get::<Draft>(&key).filter(|draft| !draft.texts.is_empty());
        let found = stored.as_ref().map(|draft| draft.changed);
        let scope = Self {
            draft: StoredValue::new(Draft { key, ..stored.unwrap_or_default() }),
            restored: StoredValue::default(),
            made: StoredValue::default(),
            found: RwSignal::new(found),
        };
        provide_context(Some(scope));
        scope
    }

    /// Keeps nothing of the fields below. An owner that runs again still has the context of its
    /// last run, so a screen without a draft has to say so.
    pub fn provide_none() {
        provide_context(None::<Self>);
    }

    /// The draft of the form that is being made; `None` outside one.
    pub fn current() -> Option<Self> {
        use_context().flatten()
    }

    /// When what is shown was last changed, if it was found here. Tracked.
    pub fn found(self) -> Option<Timestamp> {
        self.found.get()
    }

    /// A name of its own for one of the fields called `field`: a form makes all of them at once.
    pub fn name(self, field: &'static str) -> String {
        let mut nth = 0;
        self.made.update_value(|made| {
            if made.is_empty() {
                let made = self.made;
                queue_microtask(move || {
                    let _ = made.try_update_value(BTreeMap::clear);
                });
            }
            let count = made.entry(field).or_default();
            *count += 1;
            nth = *count;
        });
        if nth == 1 { field.to_owned() } else { format!("{field}#{nth}") }
    }

    /// Whether the form is being made: what is filled in now is what it begins with.
    pub fn is_making(self) -> bool {
        self.made.try_with_value(|made| !made.is_empty()).unwrap_or_default()
    }

    /// The kept text.
    pub fn restore(self, name: &str) -> Option<String> {
        self.draft.with_value(|draft| draft.texts.get(name).cloned())
    }

    /// The kept text, the first time that it is asked for.
    pub fn restore_once(self, name: &str) -> Option<String> {
        let text = self.restore(name)?;
        let mut first = false;
        self.restored.update_value(|restored| first = restored.insert(name.to_owned()));
        first.then_some(text)
    }

    /// Keeps a text; `None` forgets it.
    pub fn keep(self, name: &str, text: Option<String>) {
        let _ = self.draft.try_update_value(|draft| {
            if draft.texts.get(name) == text.as_ref() {
                return;
            }
            match text {
                Some(text) => draft.texts.insert(name.to_owned(), text),
                None => draft.texts.remove(name),
            };
            draft.changed = clock::now();
            draft.store();
        });
    }

    /// Forgets all of it.
    pub fn clear(self) {
        let _ = self.draft.try_update_value(|draft| {
            draft.texts.clear();
            draft.store();
        });
        let _ = self.found.try_set(None);
    }
}

/// Forgets the draft of the form called `name`: it was saved.
pub fn discard(name: &str) {
    local_storage::remove(&format!("{KEY}{name}"));
}

impl Draft {
    fn store(&self) {
        if self.texts.is_empty() {
            local_storage::remove(&self.key);
        } else {
            local_storage::set(&self.key, self);
        }
    }
}
