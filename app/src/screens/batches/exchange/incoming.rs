//! The file that waits to be imported. Nothing in it has been checked yet.

use leptos::prelude::*;
use web_sys::Blob;

use crate::{
    platform::incoming_file::on_file,
    route::{Route, go},
};

#[derive(Clone, Debug)]
pub struct IncomingFile {
    pub name: String,
    pub file: Blob,
}

pub type Incoming = RwSignal<Option<IncomingFile>>;

/// Provides the context; once, for the whole app.
pub fn provide_incoming() {
    provide_context(Incoming::new(None));
}

/// The waiting file, from context.
pub fn incoming() -> Incoming {
    expect_context()
}

/// Opens the import screen for files that other apps share to Bleachfield or that the
/// system opens with it.
pub fn open_incoming() {
    let incoming = incoming();
    on_file(move |name, file| {
        incoming.set(Some(IncomingFile { name, file }));
        go(&Route::Import);
    });
}
