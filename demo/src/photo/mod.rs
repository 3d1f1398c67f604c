//! Photographs of pulp that nobody took.
//!
//! A [`scene::Scene`] says what lies on the bench, what light falls on it and which
//! camera looks; [`render::render`] makes the JPEG, and says what the true colours
//! were. All of it is computed from spectra: a pulp's absorption rising to the blue,
//! the published spectra of lamps and daylight, a camera's three sensitivities, its
//! white balance, exposure, tone curve, vignette and noise. Nothing is random: one
//! scene gives one file.

pub mod camera;
pub mod preset;
pub mod pulp;
mod raster;
pub mod render;
pub mod scene;
pub mod spectrum;
pub mod texture;

pub use render::{Rendered, Truth, render};
pub use scene::Scene;
