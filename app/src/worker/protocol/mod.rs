//! The messages between the page and the worker. Both are built together: no older messages
//! are ever read. How they are posted is in [`envelope`].

mod envelope;
mod error;
mod forecast;
mod learning;

use std::rc::Rc;

use bleachfield_core::colour::{
    camera::{chart::ChartEdition, taught::TaughtCamera},
    difference::ColourDifference,
    reference::Light,
    space::Lab,
    uncertainty::UncertaintySource,
    {ColourError, PatchRole},
};
use bleachfield_core::exchange::{
    file::{EntryRecord, Header},
    photo::Cleaned,
};
use bleachfield_core::journal::{CameraTaught, ColourReading, Entry, PhotoId};
use bleachfield_core::learning::{Learning, LearningProgress};
use serde::{Deserialize, Serialize};
use ulid::Ulid;

pub use envelope::{Envelope, Payload, bytes_of, to_buffer, transfer_list};
pub use error::WorkerError;
pub use forecast::{ForecastCommand, ForecastUpdate, ForecastView, QuantityBands};
pub use learning::LearningCommand;

/// A message of the page.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkerRequest {
    /// Prepare a photo for storage: without metadata, reduced if its long side is much longer
    /// than `long_side` pixels, with a small copy. Payload: the file.
    PreparePhoto {
        long_side: Option<u32>,
    },
    /// Make the small copy of a photo. Payload: the file.
    Thumbnail,
    /// Propose where white, grey and pulp are in a photo, and hold its pixels for
    /// [`WorkerRequest::MeasureColour`]. Payload: the file, or nothing if it is held already.
    AnalysePhoto {
        photo: String,
    },
    /// Measure colours in the photo that is held.
    MeasureColour(ColourRequest),
    /// Teach the camera by the photo that is held.
    Teach(TeachRequest),
    /// Payload: the file.
    ReadExchangeFile,
    /// Payload: the bytes of each photo.
    WriteExchangeFile {
        header: Header,
        entries: Vec<Entry>,
        unreadable: Vec<EntryRecord>,
        photos: Vec<PhotoId>,
    },
    Forecast(ForecastCommand),
    Learning(LearningCommand),
}

/// A message of the worker.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkerResponse {
    /// The worker runs. Its number is [`STARTED`].
    Started,
    /// A photo that is being prepared, once it is accepted. Payload: a small `ImageBitmap`.
    /// [`WorkerResponse::Photo`] or an error follows with the same number.
    Preview,
    /// Payload: the bytes, and those of the small copy if there is one.
    Photo {
        photo: CleanPhoto,
        reduced: bool,
    },
    /// Payload: the bytes.
    Thumbnail,
    Analysis(PhotoAnalysis),
    Colour(Box<ColourResult>),
    /// What was learnt, or all reasons against the photo.
    Lesson(Result<Box<CameraTaught>, Vec<ColourError>>),
    /// Another photo or forecast is held, or none.
    NotHeld,
    /// More follow with the same number.
    ForecastPart(Box<ForecastUpdate>),
    Forecast(Box<ForecastUpdate>),
    /// How far learning is; more follow with the same number.
    LearningPart(LearningProgress),
    /// Done, or stopped.
    Learnt {
        learning: Box<Learning>,
        progress: LearningProgress,
    },
    /// Payload: the bytes of each photo.
    ExchangeFile(ExchangeContents),
    /// `left_out`: photos whose bytes are not those of their id. A file with one of them would
    /// be refused by every phone. Payload: the file.
    Written {
        left_out: Vec<PhotoId>,
    },
    Failed(WorkerError),
}

/// A response with its payload, or the reason why there is none.
pub type Outcome = Result<(WorkerResponse, Payload), WorkerError>;

/// Called with what comes before the response.
pub type OnPart = Rc<dyn Fn(WorkerResponse, Payload)>;

/// The number of [`WorkerResponse::Started`]; requests count from 1.
pub const STARTED: u32 = 0;

/// A photo without metadata.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CleanPhoto {
    pub id: PhotoId,
    pub mime: String,
    /// Size as stored, before the orientation is applied.
    pub width_px: u32,
    pub height_px: u32,
    /// EXIF orientation, 1 to 8.
    pub orientation: u8,
}

impl CleanPhoto {
    pub fn of(photo: &Cleaned) -> Self {
        Self {
            id: photo.id(),
            mime: photo.mime.into(),
            width_px: photo.width_px,
            height_px: photo.height_px,
            orientation: photo.orientation,
        }
    }
}

/// The contents of an exchange file but for the bytes of its photos.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
pub struct ExchangeContents {
    pub header: Header,
    pub format: u32,
    pub entries: Vec<Entry>,
    pub unreadable: Vec<EntryRecord>,
    pub photos: Vec<PhotoId>,
    pub ignored: Vec<String>,
}

/// A square marked on a photo, as in a journal's `Patch`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PatchMark {
    pub place: PatchRole,
    /// Centre, as a fraction of the width.
    pub x: f64,
    /// Centre, as a fraction of the height.
    pub y: f64,
    /// Half of the side, as a fraction of the width.
    pub radius: f64,
}

/// What is found in a photo at the size at which it is measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PhotoAnalysis {
    pub width: u32,
    pub height: u32,
    pub proposed: Vec<PatchMark>,
}

/// A request to measure colours.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColourRequest {
    pub photo: String,
    /// Any number of pulp; of any other place one.
    pub marks: Vec<PatchMark>,
    /// CIELAB of the person's own white card; plain copy paper if absent.
    pub white: Option<[f64; 3]>,
    /// CIELAB of the person's own grey card; the usual 18 % if absent.
    pub grey: Option<[f64; 3]>,
    pub light: Light,
    /// What the camera was taught in this light, with the entry of the lesson.
    pub camera: Option<(Ulid, TaughtCamera)>,
}

/// A request to teach the camera.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TeachRequest {
    pub photo: String,
    pub surfaces: KnownSurfaces,
    pub light: Light,
}

/// The surfaces of known colour in a photo.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum KnownSurfaces {
    /// Centres of the four corner patches in order round the chart, as shares of width and
    /// height.
    Chart { edition: ChartEdition, corners: [[f64; 2]; 4] },
    /// Marks with the CIELAB of what they mark.
    Marked(Vec<(PatchMark, Lab)>),
}

/// Readings, or all reasons against them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColourResult {
    /// One for each mark of pulp.
    pub readings: Vec<ColourReading>,
    /// What widens the range of the first reading most.
    pub doubt: Option<UncertaintySource>,
    /// Differences of the further readings from the first.
    pub differences: Vec<ColourDifference>,
    /// The gravest first.
    pub refused: Vec<ColourError>,
}
