//! A screen that is made before one goes to it, while what is to be on disk first is on its
//! way there. Until then it stands nowhere: nobody sees it, and it claims nothing.

use std::{cell::RefCell, time::Duration};

use crate::markup::prelude::*;
use leptos::{reactive::owner::Owner, task::spawn_local};

use super::code_for;
use crate::address::Address;

/// What is made ahead, and for which address.
struct Ahead {
    at: Address,
    /// The screen and what owns its signals, once it is made.
    made: Option<(AnyView, Owner)>,
    /// The page's title as it was: the screen has set its own.
    title: String,
}

thread_local! {
    /// What owns every screen.
    static OWNER: RefCell<Option<Owner>> = const { RefCell::new(None) };
    static AHEAD: RefCell<Option<Ahead>> = const { RefCell::new(None) };
}

/// Screens that are made ahead belong to what is shown here.
pub fn belong_here() {
    OWNER.set(Owner::current());
}

/// Makes the screen of an address once the one who calls has done what it does now: a task of
/// its own, so that a slow phone still answers in between.
pub fn make(to: &str) {
    let at = Address::of(to);
    AHEAD.set(Some(Ahead { at: at.clone(), made: None, title: document().title() }));
    set_timeout(move || spawn_local(make_for(at)), Duration::ZERO);
}

async fn make_for(at: Address) {
    let show = code_for(&at).await;
    let wanted = || AHEAD.with_borrow(|ahead| ahead.as_ref().is_some_and(|a| a.at == at));
    let Some(owner) = OWNER.with_borrow(|owner| owner.as_ref().map(Owner::child)) else {
        return;
    };
    if wanted() {
        let screen = owner.with(|| show(&at).standing());
        AHEAD.with_borrow_mut(|ahead| {
            if let Some(ahead) = ahead {
                ahead.made = Some((screen, owner));
            }
        });
    }
}

/// The screen, if it is the one that was made. Whatever was made is gone after this.
pub fn made(at: &Address) -> Option<AnyView> {
    let ahead = AHEAD.take()?;
    let (screen, owner) = ahead.made?;
    if ahead.at == *at {
        on_cleanup(move || owner.cleanup());
        return Some(screen);
    }
    None
}

/// One does not go there after all.
pub fn forget() {
    if let Some(ahead) = AHEAD.take() {
        document().set_title(&ahead.title);
    }
}
