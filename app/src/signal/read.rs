//! A signal that is only read, wherever its value comes from.

use std::{marker::PhantomData, rc::Rc};

use leptos::prelude::{
    GetValue, LocalStorage, Memo as LeptosMemo, StoredValue as LeptosValue, untrack,
};

use super::{
    Memo, RwSignal, handle,
    held::{Cell, Held, look},
    memo::{self, WorkedOut},
    readable,
};

type Derive = Rc<dyn Fn() -> Held>;

/// Where a value comes from.
#[derive(Clone, Copy)]
enum Source {
    Cell(Cell),
    Memo(LeptosMemo<WorkedOut>),
    Derived(LeptosValue<Derive, LocalStorage>),
}

/// A value that may change, whatever changes it.
pub struct Signal<T> {
    source: Source,
    of: PhantomData<fn() -> T>,
}

handle!(Signal);
readable!(Signal);

impl<T: 'static> Signal<T> {
    fn of(source: Source) -> Self {
        Self { source, of: PhantomData }
    }

    /// Worked out each time that it is read.
    pub fn derive(work: impl Fn() -> T + 'static) -> Self {
        let derive: Derive = Rc::new(move || Rc::new(work()));
        Self::of(Source::Derived(LeptosValue::new_local(derive)))
    }

    /// Always this.
    pub fn stored(value: T) -> Self {
        RwSignal::new(value).into()
    }

    fn look(self, track: bool) -> Option<Held> {
        look_at(self.source, track)
    }
}

#[inline(never)]
fn look_at(source: Source, track: bool) -> Option<Held> {
    match source {
        Source::Cell(cell) => look(cell, track),
        Source::Memo(memo) => memo::look(memo, track),
        Source::Derived(derived) => {
            let derive = derived.try_get_value()?;
            Some(if track { derive() } else { untrack(|| derive()) })
        }
    }
}

impl<T: 'static> From<RwSignal<T>> for Signal<T> {
    fn from(signal: RwSignal<T>) -> Self {
        Self::of(Source::Cell(signal.cell()))
    }
}

impl<T: 'static> From<Memo<T>> for Signal<T> {
    fn from(memo: Memo<T>) -> Self {
        Self::of(Source::Memo(memo.memo()))
    }
}

impl<T: 'static> From<T> for Signal<T> {
    fn from(value: T) -> Self {
        Self::stored(value)
    }
}

impl From<&str> for Signal<String> {
    fn from(text: &str) -> Self {
        Self::stored(text.to_owned())
    }
}

impl<T: Default + 'static> Default for Signal<T> {
    fn default() -> Self {
        Self::stored(T::default())
    }
}
