//! The worker: the same program once more, off the page's thread, for photos, exchange files and
//! forecasts.
//! `client` is the page's side, `host` the worker's, `protocol` the messages between them.

mod client;
mod host;
mod protocol;

pub use client::{
    ForecastStart, HeldForecast, PreparedPhoto, analyse, held_analysis, learn, measure_colour,
    prepare_photo, read_exchange_file, start, stop_learning, teach, thumbnail, write_exchange_file,
};
pub use host::serve_if_worker;
pub use protocol::{
    ColourRequest, ColourResult, ForecastUpdate, ForecastView, KnownSurfaces, PatchMark,
    PhotoAnalysis, TeachRequest,
};

/// Picture formats that a file input accepts: what every browser can show. Named one by one,
/// they make iPhones hand over a JPEG in place of their own format.
pub const ACCEPTED_PHOTOS: &str = "image/jpeg,image/png,image/webp";
