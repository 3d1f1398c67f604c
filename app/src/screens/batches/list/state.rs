//! What the list of batches shows: words, filters, order, and the batches chosen to compare. It
//! stands in the address.

use std::str::FromStr;

use bleachfield_core::{
    derive::find::{BatchOrder, BatchSearch},
    journal::{BatchState, Oxidant},
};
use leptos::prelude::*;
use leptos_router::{hooks::use_location, location::Url};
use ulid::Ulid;

use crate::route;

/// Batches side by side, at most.
pub const MOST_COMPARED: usize = 4;

/// Until a change is written into the address: a browser refuses too many at once.
const WRITE_AFTER: std::time::Duration = std::time::Duration::from_millis(200);

pub const OXIDANTS: [Oxidant; 3] =
    [Oxidant::Hypochlorite, Oxidant::Percarbonate, Oxidant::Peroxide];

/// The parts as they stand in the address; empty where nothing was asked. Copies share signals.
#[derive(Clone, Copy)]
pub struct ListState {
    pub words: RwSignal<String>,
    pub fibre: RwSignal<String>,
    pub oxidant: RwSignal<String>,
    pub state: RwSignal<String>,
    pub tag: RwSignal<String>,
    pub order: RwSignal<String>,
    /// Ids, with a point after each; `-` where none is chosen yet.
    chosen: RwSignal<String>,
}

impl ListState {
    /// As the address says, which then follows.
    pub fn of_address() -> Self {
        let new = || RwSignal::new(String::new());
        let state = Self {
            words: new(),
            fibre: new(),
            oxidant: new(),
            state: new(),
            tag: new(),
            order: new(),
            chosen: new(),
        };
        let written = StoredValue::new(None::<String>);
        let location = use_location();
        let asked = Memo::new(move |_| {
            location.query.with(|query| {
                state.parts().map(|(name, _)| query.get_str(name).unwrap_or_default().to_owned())
            })
        });
        // Followed only while the list is shown, and not where the list wrote it itself.
        let take = move |asked: [String; 7]| {
            if written.with_value(|written| *written == Some(query_of(&state.named(&asked)))) {
                return;
            }
            for ((_, part), asked) in state.parts().into_iter().zip(asked) {
                if part.with_untracked(|part| *part != asked) {
                    part.set(asked);
                }
            }
        };
        take(asked.get_untracked());
        Effect::new(move |_| {
            let asked = asked.get();
            if route::current() == Some(route::Route::Batches) {
                take(asked);
            }
        });
        let pending = StoredValue::new(None::<TimeoutHandle>);
        Effect::new(move |_| {
            let query = state.query();
            route::keep_list_query(&query);
            if let Some(earlier) = pending.get_value() {
                earlier.clear();
            }
            let write = move || {
                written.try_set_value(Some(query.clone()));
                route::write_list_query();
            };
            pending.set_value(set_timeout_with_handle(write, WRITE_AFTER).ok());
        });
        state
    }

    /// The names in the address, and the signals.
    fn parts(self) -> [(&'static str, RwSignal<String>); 7] {
        [
            ("q", self.words),
            ("fibre", self.fibre),
            ("oxidant", self.oxidant),
            ("state", self.state),
            ("tag", self.tag),
            ("sort", self.order),
            ("compare", self.chosen),
        ]
    }

    fn named(self, values: &[String; 7]) -> Vec<(&'static str, String)> {
        self.parts().iter().zip(values).map(|((name, _), value)| (*name, value.clone())).collect()
    }

    /// The query of the address. Tracked.
    pub fn query(self) -> String {
        query_of(&self.parts().map(|(name, part)| (name, part.get())))
    }

    /// What is looked for. Tracked.
    pub fn search(self) -> BatchSearch {
        BatchSearch {
            words: self.words.get(),
            fibre: Some(self.fibre.get()).filter(|fibre| !fibre.is_empty()),
            oxidant: self.oxidant.with(|key| by_key(OXIDANTS, key)),
            state: self.state.with(|key| by_key(BatchState::ALL.iter().copied(), key)),
            tag: Some(self.tag.get()).filter(|tag| !tag.is_empty()),
            order: self.order(),
        }
    }

    /// Tracked.
    pub fn order(self) -> BatchOrder {
        self.order.with(|key| BatchOrder::from_str(key).unwrap_or_default())
    }

    /// How many filters are set. Tracked.
    pub fn filters(self) -> usize {
        let set = [self.fibre, self.oxidant, self.state, self.tag];
        set.iter().filter(|part| part.with(|part| !part.is_empty())).count()
    }

    /// Whether fewer than all batches may be shown. Tracked.
    pub fn narrows(self) -> bool {
        self.filters() > 0 || self.words.with(|words| !words.trim().is_empty())
    }

    /// Shows all batches again.
    pub fn clear(self) {
        for part in [self.words, self.fibre, self.oxidant, self.state, self.tag] {
            part.set(String::new());
        }
    }

    /// The batches chosen so far; `None` while none are to be chosen. Tracked.
    pub fn chosen(self) -> Option<Vec<Ulid>> {
        self.chosen.with(|chosen| {
            (!chosen.is_empty()).then(|| {
                chosen.split('.').filter_map(|id| id.parse().ok()).take(MOST_COMPARED).collect()
            })
        })
    }

    /// Begins to choose batches to compare, or ends it with `None`.
    pub fn choose(self, chosen: Option<&[Ulid]>) {
        self.chosen.set(match chosen {
            None => String::new(),
            Some([]) => "-".to_owned(),
            Some(ids) => ids.iter().map(Ulid::to_string).collect::<Vec<_>>().join("."),
        });
    }

    /// Puts a batch among the chosen, or takes it out.
    pub fn toggle(self, id: Ulid) {
        let mut chosen = untrack(|| self.chosen()).unwrap_or_default();
        match chosen.iter().position(|one| *one == id) {
            Some(at) => {
                chosen.remove(at);
            }
            None if chosen.len() < MOST_COMPARED => chosen.push(id),
            None => {}
        }
        self.choose(Some(&chosen));
    }
}

/// The query of these parts; those that are empty are left out.
fn query_of(parts: &[(&'static str, String)]) -> String {
    let set = parts.iter().filter(|(_, value)| !value.is_empty());
    set.map(|(name, value)| format!("{name}={}", Url::escape(value))).collect::<Vec<_>>().join("&")
}

fn by_key<T: Copy + Into<&'static str>>(all: impl IntoIterator<Item = T>, key: &str) -> Option<T> {
    all.into_iter().find(|one| Into::<&str>::into(*one) == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_asked_does_not_stand_in_the_address() {
        let parts = [("q", String::new()), ("fibre", String::new())];
        assert_eq!(query_of(&parts), "");
    }

    #[test]
    fn a_name_that_is_unknown_is_no_filter() {
        assert_eq!(by_key(OXIDANTS, "percarbonate"), Some(Oxidant::Percarbonate));
        assert_eq!(by_key(OXIDANTS, "what"), None);
        let abandoned = by_key(BatchState::ALL.iter().copied(), "given_up");
        assert_eq!(abandoned, Some(BatchState::Abandoned));
    }
}
