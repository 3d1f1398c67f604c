//! A value that is kept and tells nobody.

use std::{marker::PhantomData, rc::Rc};

use leptos::prelude::{LocalStorage, ReadValue, StoredValue as LeptosValue, WriteValue};

use super::{
    handle,
    held::{Held, changing, known},
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
        Self { store: Store::new_local(Rc::new(value)), of: PhantomData }
    }

    /// # Panics
    /// If the value is gone.
    #[track_caller]
    pub fn with_value<U>(self, read: impl FnOnce(&T) -> U) -> U {
        read(known(look(self.store).as_ref()))
    }

    /// `None` if the value is gone.
    ///
    /// # Panics
    /// If called while the value is being read.
    pub fn try_update_value<U>(self, how: impl FnOnce(&mut T) -> U) -> Option<U> {
        let mut how = Some(how);
        let mut done = None;
        change(self.store, &mut |held| {
            done = how.take().map(|how| how(changing(held)));
        });
        done
    }

    /// Nothing happens if the value is gone.
    pub fn set_value(self, value: T) {
        let mut value: Option<Held> = Some(Rc::new(value));
        change(self.store, &mut |held| {
            if let Some(value) = value.take() {
                *held = value;
            }
        });
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
        let held = look(self.store)?;
        held.downcast_ref().cloned()
    }
}

#[inline(never)]
fn look(store: Store) -> Option<Held> {
    store.try_read_value().map(|held| held.clone())
}

#[inline(never)]
fn change(store: Store, change: &mut dyn FnMut(&mut Held)) {
    if let Some(mut held) = store.try_write_value() {
        change(&mut held);
    }
}
