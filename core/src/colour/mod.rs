//! Colour of pulp in a photo with a white card: from pixels to figures with ranges. Reading
//! image files, storing results and screens are elsewhere.
//!
//! In the order of a measurement:
//!
//! 1. [`photo`]: pixels; [`patch`]: robust statistics of a rectangle; [`sharpness`]: edges;
//!    [`find`]: proposals for the rectangles;
//! 2. [`reference`]: white and grey surfaces; [`reference_patches`]: the same as read;
//! 3. [`correction`]: from codes to reflectances, with the camera's [`tone`] curve;
//!    [`quality`]: the limits of a good photo, and the [`ColourError`]s beyond them;
//! 4. [`measure`]: lightness, Lab, yellowness, blue index and its K/S, with ranges from
//!    [`uncertainty`]; [`camera`]: what an unknown camera adds to them, and how it is taught;
//! 5. [`difference`], [`shift`], [`progress`], [`target`], [`reversion`], [`compare`]:
//!    comparisons; [`display`]: a colour on a screen; [`words`]: a colour in words.
//!
//! [`space`] (over the crate `palette`), [`whiteness`] and [`kubelka_munk`]: published formulae.
//!
//! Nothing here is ISO brightness: that is a diffuse blue reflectance factor measured by an
//! instrument of fixed geometry.

pub mod camera;
pub mod compare;
pub mod correction;
pub mod difference;
pub mod display;
mod error;
pub mod find;
mod histogram;
pub mod kubelka_munk;
pub mod measure;
pub mod patch;
pub mod photo;
pub mod progress;
pub mod quality;
pub mod reference;
pub mod reference_patches;
pub mod reversion;
mod role;
pub mod sharpness;
pub mod shift;
pub mod space;
pub mod target;
pub mod tone;
pub mod uncertainty;
pub mod whiteness;
pub mod words;

pub use error::ColourError;
pub use role::PatchRole;
