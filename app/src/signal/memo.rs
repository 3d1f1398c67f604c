//! A value worked out of signals, once for all who read it.

use std::{any::Any, marker::PhantomData};

use leptos::prelude::{Memo as LeptosMemo, Read, ReadUntracked};

use super::{handle, held::Seen, readable};

/// What was worked out, and whether another is the same.
pub struct WorkedOut {
    value: Box<dyn Any + Send + Sync>,
    same: fn(&dyn Any, &dyn Any) -> bool,
}

impl PartialEq for WorkedOut {
    fn eq(&self, other: &Self) -> bool {
        (self.same)(&*self.value, &*other.value)
    }
}

fn same<T: PartialEq + 'static>(one: &dyn Any, other: &dyn Any) -> bool {
    one.downcast_ref::<T>() == other.downcast_ref()
}

/// A value that is worked out anew when a signal changed that it was made of, and tells
/// those who read it if it came out another.
pub struct Memo<T> {
    memo: LeptosMemo<WorkedOut>,
    of: PhantomData<fn() -> T>,
}

handle!(Memo);
readable!(Memo);

impl<T: PartialEq + Send + Sync + 'static> Memo<T> {
    pub fn new(work: impl Fn() -> T + Send + Sync + 'static) -> Self {
        let work = move || WorkedOut { value: Box::new(work()), same: same::<T> };
        Self { memo: memo(Box::new(work)), of: PhantomData }
    }
}

impl<T: 'static> Memo<T> {
    pub(super) fn memo(self) -> LeptosMemo<WorkedOut> {
        self.memo
    }

    pub(super) fn seen(self, track: bool, seen: Seen) -> bool {
        look(self.memo, track, seen)
    }
}

#[inline(never)]
fn memo(work: Box<dyn Fn() -> WorkedOut + Send + Sync>) -> LeptosMemo<WorkedOut> {
    LeptosMemo::new(move |_| work())
}

/// Shows what was worked out; `false` if the memo is gone.
#[inline(never)]
pub fn look(memo: LeptosMemo<WorkedOut>, track: bool, seen: Seen) -> bool {
    let worked_out = if track { memo.try_read() } else { memo.try_read_untracked() };
    worked_out.is_some_and(|it| {
        seen(&*it.value);
        true
    })
}
