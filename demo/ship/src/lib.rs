//! Gets the built app to a phone: lists its files for the service worker, serves
//! them, weighs them, draws their icons.

pub mod shipped;
pub mod sorted;
pub mod squeeze;
