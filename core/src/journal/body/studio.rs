//! Entries about the studio itself: its own figures, device names, reference cards.

use super::{Additive, Figure};
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull};

/// A figure of this studio, used instead of an assumed one. The newest for
/// each `what` counts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OwnFigure {
    pub what: OwnFigureOf,
    pub figure: Figure,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The quantity of an [`OwnFigure`], which gives its unit.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OwnFigureOf {
    /// Oven-dry mass over wet mass after this studio's usual squeeze, as a share.
    SqueezeDryness,
    /// Mass of a powder in one level spoon, g.
    GramsPerSpoon { of: Additive, spoon_ml: u32 },
    /// Time constant of cooling of a named vessel, min: after it 63 % of the
    /// temperature difference to the room is lost.
    CoolingTauMinutes { vessel: String },
    /// Washing efficiency: a rinse leaves the share of perfect mixing to this power.
    WashingEfficiency,
    /// pH of the tap water.
    TapPh,
    /// Total hardness of the tap water, mg/L as CaCO3.
    TapHardnessMgPerL,
    /// Room temperature, °C.
    RoomCelsius,
    /// Volume of one load of a pot or blender, mL.
    LoadMl { vessel: String },
    /// Pulp yield on raw fibre, as a share, for a fibre by name.
    Yield { fibre: String },
}

/// A name for the device that writes this entry.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct DeviceNamed {
    pub name: String,
}

/// The CIELAB values of a reference card, as printed by its maker. The newest
/// for each role counts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReferenceCard {
    pub role: CardRole,
    pub name: String,
    pub lightness: Figure,
    pub a: Figure,
    pub b: Figure,
}

/// The role of a reference card.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CardRole {
    White,
    Grey,
}
