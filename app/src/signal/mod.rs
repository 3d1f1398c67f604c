//! Signals, told apart by type outside and all alike inside.
//!
//! They are used as Leptos's are, and Leptos's do the work: what is read is followed, what
//! changes is told. But a signal of Leptos's is compiled anew for each type of thing in it,
//! some hundred of them here, and a phone would fetch them all. These hold anything, in one
//! type, and only hand it over as what it is.
//!
//! All live on the page's thread; a value need not be fit to be sent to another.

mod effect;
mod held;
mod memo;
mod read;
mod rw;
mod stored;

pub use effect::effect;
pub use memo::Memo;
pub use read::Signal;
pub use rw::RwSignal;
pub use stored::StoredValue;

/// What each kind of signal has: a copy is another name for the same signal.
macro_rules! handle {
    ($handle:ident) => {
        impl<T> Clone for $handle<T> {
            fn clone(&self) -> Self {
                *self
            }
        }

        impl<T> Copy for $handle<T> {}
    };
}

/// The ways to read a signal, on top of its `look`.
macro_rules! readable {
    ($signal:ident) => {
        impl<T: 'static> $signal<T> {
            /// What `read` makes of the value; what called is told when it changes.
            ///
            /// # Panics
            /// If the signal is gone.
            #[track_caller]
            pub fn with<U>(self, read: impl FnOnce(&T) -> U) -> U {
                read($crate::signal::held::known(self.look(true).as_ref()))
            }

            /// [`Self::with`], and nobody is told.
            #[track_caller]
            pub fn with_untracked<U>(self, read: impl FnOnce(&T) -> U) -> U {
                read($crate::signal::held::known(self.look(false).as_ref()))
            }
        }

        impl<T: Clone + 'static> $signal<T> {
            /// A copy of the value; what called is told when it changes.
            ///
            /// # Panics
            /// If the signal is gone.
            #[inline(never)]
            #[track_caller]
            pub fn get(self) -> T {
                self.with(T::clone)
            }

            /// [`Self::get`], and nobody is told.
            #[inline(never)]
            #[track_caller]
            pub fn get_untracked(self) -> T {
                self.with_untracked(T::clone)
            }
        }
    };
}

use {handle, readable};
