//! A signal that is read and set.

use std::{marker::PhantomData, rc::Rc};

use super::{
    handle,
    held::{Cell, Held, change, changing, look, put},
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
        Self { cell: Cell::new_local(Rc::new(value)), of: PhantomData }
    }

    pub(super) fn cell(self) -> Cell {
        self.cell
    }

    pub(super) fn look(self, track: bool) -> Option<Held> {
        look(self.cell, track)
    }

    /// Puts another value in; nothing happens if the signal is gone.
    #[inline(never)]
    pub fn set(self, value: T) {
        let _ = put(self.cell, Rc::new(value));
    }

    /// Puts another value in; gives it back if the signal is gone.
    pub fn try_set(self, value: T) -> Option<T> {
        let back = put(self.cell, Rc::new(value))?;
        back.downcast().ok().and_then(Rc::into_inner)
    }

    /// Has the value changed where it is; nothing happens if the signal is gone.
    ///
    /// # Panics
    /// If called while the value is being read.
    pub fn update(self, how: impl FnOnce(&mut T)) {
        self.changed(true, how);
    }

    /// [`Self::update`], and nobody is told.
    pub fn update_untracked(self, how: impl FnOnce(&mut T)) {
        self.changed(false, how);
    }

    fn changed(self, tell: bool, how: impl FnOnce(&mut T)) {
        let mut how = Some(how);
        change(self.cell, tell, &mut |held| {
            if let Some(how) = how.take() {
                how(changing(held));
            }
        });
    }

    /// Tells those who read it that something changed.
    pub fn notify(self) {
        change(self.cell, true, &mut |_| {});
    }
}

impl<T: Clone + 'static> RwSignal<T> {
    /// A copy of the value, and nobody is told; `None` if the signal is gone.
    pub fn try_get_untracked(self) -> Option<T> {
        self.look(false)?.downcast_ref().cloned()
    }
}

impl<T: Default + 'static> Default for RwSignal<T> {
    fn default() -> Self {
        Self::new(T::default())
    }
}
