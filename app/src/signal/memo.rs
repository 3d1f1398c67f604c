//! A value worked out of signals, once for all who read it.

use std::{marker::PhantomData, rc::Rc};

use leptos::prelude::{Memo as LeptosMemo, Read, ReadUntracked};
use send_wrapper::SendWrapper;

use super::{handle, held::Held, readable};

/// What was worked out, and whether another is the same.
pub struct WorkedOut {
    // A memo may be read on any thread as far as Leptos knows; a page has only one.
    value: SendWrapper<Held>,
    same: fn(&Held, &Held) -> bool,
}

impl PartialEq for WorkedOut {
    fn eq(&self, other: &Self) -> bool {
        (self.same)(&self.value, &other.value)
    }
}

fn same<T: PartialEq + 'static>(one: &Held, other: &Held) -> bool {
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

impl<T: PartialEq + 'static> Memo<T> {
    pub fn new(work: impl Fn() -> T + 'static) -> Self {
        Self { memo: memo(Box::new(move || Rc::new(work())), same::<T>), of: PhantomData }
    }
}

impl<T: 'static> Memo<T> {
    pub(super) fn memo(self) -> LeptosMemo<WorkedOut> {
        self.memo
    }

    pub(super) fn look(self, track: bool) -> Option<Held> {
        look(self.memo, track)
    }
}

#[inline(never)]
fn memo(work: Box<dyn Fn() -> Held>, same: fn(&Held, &Held) -> bool) -> LeptosMemo<WorkedOut> {
    let work = SendWrapper::new(work);
    LeptosMemo::new(move |_| WorkedOut { value: SendWrapper::new(work()), same })
}

/// What was worked out; `None` if the memo is gone.
#[inline(never)]
pub fn look(memo: LeptosMemo<WorkedOut>, track: bool) -> Option<Held> {
    let worked_out = if track { memo.try_read() } else { memo.try_read_untracked() };
    worked_out.map(|it| (*it.value).clone())
}
