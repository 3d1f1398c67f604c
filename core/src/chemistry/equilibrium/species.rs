//! The dissolved species of the model.

use strum::{EnumCount, VariantArray};

/// A dissolved molecule or ion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, EnumCount, VariantArray)]
pub enum Species {
    Hydrogen,
    Hydroxide,
    CarbonDioxide,
    Bicarbonate,
    Carbonate,
    Chlorine,
    HypochlorousAcid,
    Hypochlorite,
    Chloride,
    HydrogenPeroxide,
    Perhydroxyl,
    AceticAcid,
    Acetate,
    CitricAcid,
    DihydrogenCitrate,
    HydrogenCitrate,
    Citrate,
}

impl Species {
    /// Charge number.
    pub fn charge(self) -> i32 {
        match self {
            Self::Hydrogen => 1,
            Self::CarbonDioxide
            | Self::Chlorine
            | Self::HypochlorousAcid
            | Self::HydrogenPeroxide
            | Self::AceticAcid
            | Self::CitricAcid => 0,
            Self::Hydroxide
            | Self::Bicarbonate
            | Self::Hypochlorite
            | Self::Chloride
            | Self::Perhydroxyl
            | Self::Acetate
            | Self::DihydrogenCitrate => -1,
            Self::Carbonate | Self::HydrogenCitrate => -2,
            Self::Citrate => -3,
        }
    }
}
