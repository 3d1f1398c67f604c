//! A signal that is read and set.

use std::marker::PhantomData;

use super::{
    handle,
    held::{Cell, Seen, change, look},
    readable,
};

/// A value that tells those who read it when it is set.
pub struct RwSignal<T> {
    cell: Cell,
    of: PhantomData<fn() -> T>,
}

handle!(RwSignal);
readable!(RwSignal);

impl<T: 'static> RwSignal<T> {
    pub fn new(value: T) -> Self {
        Self { cell: Cell::new_local(Box::new(value)), of: PhantomData }
    }

    pub(super) fn cell(self) -> Cell {
        self.cell
    }

    pub(super) fn seen(self, track: bool, seen: Seen) -> bool {
        look(self.cell, track, seen)
    }

    /// Puts another value in; nothing happens if the signal is gone.
    #[inline(never)]
    pub fn set(self, value: T) {
        let _ = self.try_set(value);
    }

    /// Puts another value in; gives it back if the signal is gone.
    #[inline(never)]
    pub fn try_set(self, value: T) -> Option<T> {
        let mut value = Some(value);
        change(self.cell, &mut |held| {
            if let Some(value) = value.take() {
                *held = Box::new(value);
            }
        });
        value
    }

    /// Has the value changed where it is; nothing happens if the signal is gone.
    pub fn update(self, how: impl FnOnce(&mut T)) {
        let mut how = Some(how);
        change(self.cell, &mut |held| {
            if let Some((value, how)) = held.downcast_mut().zip(how.take()) {
                how(value);
            }
        });
    }

    /// Tells those who read it that something changed.
    pub fn notify(self) {
        change(self.cell, &mut |_| {});
    }
}

impl<T: Default + 'static> Default for RwSignal<T> {
    fn default() -> Self {
        Self::new(T::default())
    }
}
