//! The worker: the same program once more, off the page's thread, for photos and exchange files.
//! `client` is the page's side, `host` the worker's, `protocol` the messages between them.

mod client;
mod host;
mod protocol;

pub use client::{
    PreparedPhoto, analyse, held_analysis, measure_colour, prepare_photo, read_exchange_file,
    start, thumbnail, write_exchange_file,
};
pub use host::serve_if_worker;
pub use protocol::{ColourRequest, ColourResult, PatchMark, PhotoAnalysis};
