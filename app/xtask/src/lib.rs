//! What a built app consists of (`dist`) and how it is finished, served and measured.
//! The command line is in main.rs; what Trunk does itself is in Trunk.toml.

pub mod dist;
#[cfg(feature = "icons")]
pub mod icons;
mod index_html;
pub mod lighthouse;
pub mod post_build;
pub mod serve;
mod split;
pub mod weigh;
