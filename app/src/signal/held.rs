//! Anything, in a signal, and the few functions that reach it there: each is compiled once.

use std::any::Any;

use leptos::prelude::{LocalStorage, Read, ReadUntracked, RwSignal, Write};

/// What a signal holds.
pub type Held = Box<dyn Any>;

/// Leptos's signal around it.
pub type Cell = RwSignal<Held, LocalStorage>;

/// Is shown what a signal holds.
pub type Seen<'a> = &'a mut dyn FnMut(&dyn Any);

/// Shows what `cell` holds; `false` if it is gone.
#[inline(never)]
pub fn look(cell: Cell, track: bool, seen: Seen) -> bool {
    let held = if track { cell.try_read() } else { cell.try_read_untracked() };
    held.is_some_and(|held| {
        seen(&**held);
        true
    })
}

/// Has what `cell` holds changed and tells all who read it; `false` if it is gone.
#[inline(never)]
pub fn change(cell: Cell, change: &mut dyn FnMut(&mut Held)) -> bool {
    cell.try_write().is_some_and(|mut held| {
        change(&mut held);
        true
    })
}

/// What `read` makes of a value that `look` shows.
///
/// # Panics
/// If `look` shows none: the signal is gone.
#[track_caller]
pub fn read<T: 'static, U>(read: impl FnOnce(&T) -> U, look: impl FnOnce(Seen) -> bool) -> U {
    let mut read = Some(read);
    let mut found = None;
    look(&mut |held| {
        found = held.downcast_ref().zip(read.take()).map(|(value, read)| read(value));
    });
    found.expect("a signal that is still there")
}
