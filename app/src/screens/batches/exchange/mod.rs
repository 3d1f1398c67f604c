//! The book as a file: out to another phone or to safety, and in again.

mod send;
mod sent;
mod take;

pub use send::SendFile;
pub use sent::Reminder;
pub use take::ImportFile;

use leptos::prelude::*;
use web_sys::Blob;

use crate::{
    platform::incoming_file::on_file,
    route::{Route, go},
};

/// A file that came from outside: nothing about it is known to be true yet.
#[derive(Clone, Debug)]
pub struct IncomingFile {
    pub name: String,
    pub file: Blob,
}

/// The file that waits to be looked at, wherever it came from.
pub type Incoming = RwSignal<Option<IncomingFile>>;

/// Makes room for a file that comes from outside; once, for the whole app.
pub fn provide_incoming() -> Incoming {
    let incoming = Incoming::new(None);
    provide_context(incoming);
    incoming
}

/// The file that waits, from context.
pub fn incoming() -> Incoming {
    expect_context()
}

/// Where files come in that other apps share to Bleachfield or that the system
/// opens with it: they are shown like any other, and nothing is taken in yet.
pub fn open_door() {
    let incoming = incoming();
    on_file(move |name, file| {
        incoming.set(Some(IncomingFile { name, file }));
        go(&Route::Import);
    });
}
