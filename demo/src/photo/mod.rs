//! Synthetic photographs of pulp with known colours, computed from spectra.
//!
//! A [`scene::Scene`] describes the pulp, the cards, the light and the camera;
//! [`render::render`] returns the JPEG and the true colours. Modelled are a pulp's
//! absorption rising to the blue, the published spectra of lamps and daylight, the
//! camera's three sensitivities, white balance, exposure, tone curve, vignette and
//! noise. Deterministic: one scene gives one file.

pub mod camera;
mod linear_image;
pub mod noise;
pub mod preset;
pub mod pulp;
pub mod render;
pub mod scene;
pub mod spectrum;

pub use render::{GroundTruth, Rendered, render};
pub use scene::Scene;
