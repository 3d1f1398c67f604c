//! Own parameters from own batches: what the readings of finished and running baths say of the
//! parameters of `bath::kinetics`, pooled over batches, fibres and the studio. Which batches
//! there are is `derive::learning_history`; bands and advice are `forecast`.
//!
//! * `history`: a batch as learning takes it; the nearest past one, extrapolation;
//! * `least_squares`: the fit; `batch_fit`: the fit of one batch; `gaussian`, `pooling`: batches
//!   together; `shares`: what is common to a studio, to a fibre, and to a batch alone;
//! * `conformal`: bands corrected by how earlier ones held;
//! * `state`: learning in steps, kept and resumed; `outcome`: what a forecast takes of it.

mod batch_fit;
mod conformal;
mod gaussian;
mod history;
mod least_squares;
mod outcome;
mod pooling;
mod shares;
mod state;

pub use conformal::{BandCorrection, FEWEST_SCORES, QuantityScore, conformal_rank};
pub use gaussian::Information;
pub use history::{
    BathFacts, Extrapolation, LearningBatch, MOST_CELSIUS_OFF, MOST_TIME_FACTOR, PastBatch,
};
pub use least_squares::{LeastSquaresError, LeastSquaresFit, LeastSquaresSettings, least_squares};
pub use outcome::{LearntParameters, ParameterOrigin, ParameterSupport};
pub use pooling::{BatchData, Hierarchy, Pooling};
pub use state::{Learning, LearningProgress, LearningQuery};
