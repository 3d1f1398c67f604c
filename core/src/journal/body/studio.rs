//! What a studio knows about itself.

use super::{Additive, Figure};
use crate::{choice, record, words};

/// A figure of this studio's own, to use in place of an assumed one. The
/// newest for each `what` is the one in force.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnFigure {
    pub what: OwnFigureOf,
    pub figure: Figure,
    pub note: String,
}

record!(OwnFigure { what, figure, note: blank });

/// Which figure, and so its unit.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum OwnFigureOf {
    /// Oven-dry over wet after this studio's usual squeeze, as a share.
    SqueezeDryness,
    /// Grams of a powder in one level spoon.
    GramsPerSpoon { of: Additive, spoon_ml: u32 },
    /// Minutes for a named vessel to lose 63 % of its warmth over the room's.
    CoolingTauMinutes { vessel: String },
    /// Share of the ideal washing that rinses here reach.
    WashingEfficiency,
    /// pH of the tap water.
    TapPh,
    /// Total hardness of the tap water, mg/L as CaCO3.
    TapHardnessMgPerL,
    /// Room temperature, °C.
    RoomCelsius,
    /// What a pot or blender holds in one load, mL.
    LoadMl { vessel: String },
    /// Pulp yield on raw fibre, as a share, for a fibre by name.
    Yield { fibre: String },
}

choice!(OwnFigureOf {
    SqueezeDryness = "squeeze_dryness",
    GramsPerSpoon { of, spoon_ml } = "grams_per_spoon",
    CoolingTauMinutes { vessel } = "cooling_tau_minutes",
    WashingEfficiency = "washing_efficiency",
    TapPh = "tap_ph",
    TapHardnessMgPerL = "tap_hardness_mg_per_l",
    RoomCelsius = "room_celsius",
    LoadMl { vessel } = "load_ml",
    Yield { fibre } = "yield",
});

/// A device gets a name that people know it by. Written by that device.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DeviceNamed {
    pub name: String,
}

record!(DeviceNamed { name });

/// A reference card's own values, as its maker prints them: CIELAB. The newest
/// for each role is the one offered.
#[derive(Clone, Debug, PartialEq)]
pub struct ReferenceCard {
    pub role: CardRole,
    pub name: String,
    pub lightness: Figure,
    pub a: Figure,
    pub b: Figure,
}

record!(ReferenceCard { role, name, lightness, a, b });

/// What a card serves as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CardRole {
    White,
    Grey,
}

words!(CardRole { White = "white", Grey = "grey" });
