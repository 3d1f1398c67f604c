//! Anything, in a signal, and the few functions that reach it there: each is compiled once.

use std::{any::Any, rc::Rc};

use leptos::prelude::{LocalStorage, Read, ReadUntracked, RwSignal, Write};

/// What a signal holds; who looks at it may keep it.
pub type Held = Rc<dyn Any>;

/// Leptos's signal around it.
pub type Cell = RwSignal<Held, LocalStorage>;

/// What `cell` holds; `None` if it is gone.
#[inline(never)]
pub fn look(cell: Cell, track: bool) -> Option<Held> {
    let held = if track { cell.try_read() } else { cell.try_read_untracked() };
    held.map(|held| held.clone())
}

/// Puts another value in and tells all who read it; gives it back if the cell is gone.
#[inline(never)]
pub fn put(cell: Cell, value: Held) -> Option<Held> {
    match cell.try_write() {
        Some(mut held) => {
            *held = value;
            None
        }
        None => Some(value),
    }
}

/// Has what `cell` holds changed where it is and, if asked to, tells all who read it;
/// nothing happens if it is gone.
#[inline(never)]
pub fn change(cell: Cell, tell: bool, change: &mut dyn FnMut(&mut Held)) {
    if tell {
        if let Some(mut held) = cell.try_write() {
            change(&mut held);
        }
    } else if let Some(mut held) = cell.try_write_untracked() {
        change(&mut held);
    }
}

/// What is there as what it is.
///
/// # Panics
/// If nothing is there: the signal is gone.
#[inline(never)]
#[track_caller]
pub fn known<T: 'static>(held: Option<&Held>) -> &T {
    held.and_then(|held| held.downcast_ref()).expect("a signal that is still there")
}

/// What is there, to be changed.
///
/// # Panics
/// If somebody who looked at it still does.
#[inline(never)]
#[track_caller]
pub fn changing<T: 'static>(held: &mut Held) -> &mut T {
    Rc::get_mut(held).and_then(|held| held.downcast_mut()).expect("a value that nobody is reading")
}
