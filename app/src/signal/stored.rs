//! A value that is kept and tells nobody.

use std::marker::PhantomData;

use leptos::prelude::{LocalStorage, ReadValue, StoredValue as LeptosValue, WriteValue};

use super::{
    handle,
    held::{Held, Seen, read},
};

type Store = LeptosValue<Held, LocalStorage>;

/// A value that is there as long as what made it, under a name that can be copied.
pub struct StoredValue<T> {
    store: Store,
    of: PhantomData<fn() -> T>,
}

handle!(StoredValue);

impl<T: 'static> StoredValue<T> {
    pub fn new(value: T) -> Self {
        Self { store: Store::new_local(Box::new(value)), of: PhantomData }
    }

    /// # Panics
    /// If the value is gone.
    #[track_caller]
    pub fn with_value<U>(self, how: impl FnOnce(&T) -> U) -> U {
        read(how, |seen| look(self.store, seen))
    }

    /// `None` if the value is gone.
    pub fn try_update_value<U>(self, how: impl FnOnce(&mut T) -> U) -> Option<U> {
        let mut how = Some(how);
        let mut done = None;
        change(self.store, &mut |held| {
            done = held.downcast_mut().zip(how.take()).map(|(value, how)| how(value));
        });
        done
    }

    /// Nothing happens if the value is gone.
    pub fn set_value(self, value: T) {
        let _ = self.try_update_value(|old| *old = value);
    }
}

impl<T: Clone + 'static> StoredValue<T> {
    /// # Panics
    /// If the value is gone.
    #[track_caller]
    pub fn get_value(self) -> T {
        self.with_value(T::clone)
    }

    /// `None` if the value is gone.
    pub fn try_get_value(self) -> Option<T> {
        self.try_update_value(|value| value.clone())
    }
}

#[inline(never)]
fn look(store: Store, seen: Seen) -> bool {
    store.try_read_value().is_some_and(|held| {
        seen(&**held);
        true
    })
}

#[inline(never)]
fn change(store: Store, change: &mut dyn FnMut(&mut Held)) {
    if let Some(mut held) = store.try_write_value() {
        change(&mut held);
    }
}
