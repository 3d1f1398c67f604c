//! Causes of early decomposition of peroxide, and stabilisers.

/// Hottest bath for the powder, °C: above about 50 °C it decomposes by itself, faster and
/// faster (producer's safety and handling sheet; read).
pub const HOTTEST: f64 = 50.0;

/// Cause of early decomposition of peroxide in a bath.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DecompositionCause {
    /// Iron, manganese or copper, from water, plant or vessel.
    Metals,
    /// Calcium and magnesium precipitate carbonate: loss of alkali, and scale.
    HardWater,
    /// Above [`HOTTEST`].
    Heat,
    /// Enzymes of raw plant matter (catalase).
    Catalase,
}

impl DecompositionCause {
    /// All, the most common first.
    pub const ALL: [Self; 4] = [Self::Metals, Self::HardWater, Self::Heat, Self::Catalase];

    /// Locale key.
    pub fn key(self) -> &'static str {
        match self {
            Self::Metals => "peroxide-early_death-metals",
            Self::HardWater => "peroxide-early_death-hard_water",
            Self::Heat => "peroxide-early_death-heat",
            Self::Catalase => "peroxide-early_death-catalase",
        }
    }
}

/// A stabiliser of peroxide, with its usual dose on dry fibre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stabiliser {
    /// Locale key of its name.
    pub key: &'static str,
    /// Share of dry fibre.
    pub least: f64,
    pub most: f64,
    pub source: &'static str,
    /// The cause of decomposition that it prevents.
    pub prevents: DecompositionCause,
}

/// The usual stabilisers.
pub const STABILISERS: [Stabiliser; 3] = [
    Stabiliser {
        key: "stabiliser-sodium_silicate",
        least: 0.005,
        most: 0.03,
        source: "paperacademy.net 1267, 41 °Bé solution (read)",
        prevents: DecompositionCause::Metals,
    },
    Stabiliser {
        key: "stabiliser-magnesium_sulfate",
        least: 0.0005,
        most: 0.001,
        source: "paperacademy.net 1267 (read)",
        prevents: DecompositionCause::Metals,
    },
    Stabiliser {
        key: "stabiliser-chelant",
        least: 0.001,
        most: 0.005,
        source: "DTPA or EDTA, from memory",
        prevents: DecompositionCause::Metals,
    },
];
