//! Colour as a camera with a white card saw it.
//!
//! The way from pixels to a figure, and where each step lives:
//!
//! 1. [`patch`] reads robust statistics from a rectangle of a photo; [`sharpness`]
//!    looks at the photo's edges; [`find`] proposes where the rectangles might go.
//! 2. [`reference`] says what the white and the grey in the frame are.
//! 3. [`correction`] turns the readings of the references into a correction, or
//!    into the [`quality::Rejection`]s that say why there can be none; [`tone`] is
//!    the camera's contrast curve within it.
//! 4. [`measure`] applies the correction to a patch of pulp: lightness, Lab,
//!    yellowness, blue index and its K/S, each with its range.
//! 5. [`difference`], [`shift`], [`progress`], [`target`], [`reversion`] and
//!    [`compare`] put readings beside each other; [`chip`] shows one on a screen.
//!
//! [`space`], [`whiteness`] and [`kubelka_munk`] hold the published formulae.
//!
//! Nothing here is ISO brightness: that is a diffuse blue reflectance factor read
//! by an instrument of fixed geometry, and a camera is not one.

pub mod chip;
pub mod compare;
pub mod correction;
pub mod difference;
pub mod find;
pub mod kubelka_munk;
pub mod measure;
pub mod patch;
pub mod progress;
pub mod quality;
pub mod reference;
pub mod reversion;
pub mod sharpness;
pub mod shift;
pub mod space;
pub mod target;
pub mod tone;
pub mod whiteness;
