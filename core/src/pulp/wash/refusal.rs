//! What a wash plan refuses, and beside which field.

use super::Solute;
use crate::message::{Field, Message, Value};
use crate::quantity::{Mass, MassConcentration, Ratio, Volume, in_grams_per_litre, in_share};

pub const WET_MASS: Field = Field("wash-wet_mass");
pub const DRYNESS: Field = Field("wash-dryness");
pub const WATER: Field = Field("wash-water");
pub const BUCKET: Field = Field("wash-bucket");
pub const PACE: Field = Field("wash-pace");
pub const TARGET: Field = Field("wash-target");
pub const OXIDANT: Field = Field("wash-oxidant");
pub const ALKALI: Field = Field("wash-alkali");
pub const SALT: Field = Field("wash-salt");
pub const ORGANICS: Field = Field("wash-organics");

/// Why there is no wash plan.
#[derive(Clone, Debug, PartialEq)]
pub enum WashRefusal {
    /// The lump weighs nothing, less, or no number at all.
    NoLump { given: Mass },
    /// Drier than hands or a small press reach.
    SqueezeTooDry { given: Ratio },
    /// No fibre in it, or less than none.
    SqueezeTooWet { given: Ratio },
    /// Wash water of nothing or less.
    NoWater { given: Volume },
    /// A liquor strength below nothing.
    NegativeStrength { solute: Solute, given: MassConcentration },
    /// A target of nothing or less: dilution never gets there.
    ImpossibleTarget { solute: Solute, given: MassConcentration },
    /// The tap alone carries more than the target.
    BelowTap { solute: Solute, tap: MassConcentration, target: MassConcentration },
    /// A target for something whose strength nobody gave.
    StrengthUnknown { solute: Solute },
    /// More rinses than anyone does; more water each time or a drier squeeze is needed.
    TooManyRinses { solute: Solute, limit: u64 },
    /// The largest rinse does not cover the lump enough to stir.
    BucketTooSmall { given: Volume, needed: Volume },
    /// Soak, handling or filling that takes less than no time.
    BadPace { minutes: f64 },
    /// A washing exponent outside what can be.
    BadEfficiency { given: f64 },
}

impl WashRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        let new = Message::new;
        match self {
            Self::NoLump { given } => {
                new("wash-refusal-no_lump").beside(WET_MASS).with("given", Value::Mass(*given))
            }
            Self::SqueezeTooDry { given } => new("wash-refusal-squeeze_too_dry")
                .beside(DRYNESS)
                .with("given", Value::Share(in_share(*given)))
                .with("limit", Value::Share(super::DRIEST_SQUEEZE)),
            Self::SqueezeTooWet { given } => new("wash-refusal-squeeze_too_wet")
                .beside(DRYNESS)
                .with("given", Value::Share(in_share(*given))),
            Self::NoWater { given } => {
                new("wash-refusal-no_water").beside(WATER).with("given", Value::Volume(*given))
            }
            Self::NegativeStrength { solute, given } => new("wash-refusal-negative_strength")
                .beside(field(*solute))
                .with("solute", Value::Word(solute.word()))
                .with("given", Value::Concentration(*given)),
            Self::ImpossibleTarget { solute, given } => new("wash-refusal-impossible_target")
                .beside(TARGET)
                .with("solute", Value::Word(solute.word()))
                .with("given", Value::Concentration(*given)),
            Self::BelowTap { solute, tap, target } => new("wash-refusal-below_tap")
                .beside(TARGET)
                .with("solute", Value::Word(solute.word()))
                .with("tap", Value::Concentration(*tap))
                .with("target", Value::Concentration(*target)),
            Self::StrengthUnknown { solute } => new("wash-refusal-strength_unknown")
                .beside(field(*solute))
                .with("solute", Value::Word(solute.word())),
            Self::TooManyRinses { solute, limit } => new("wash-refusal-too_many_rinses")
                .beside(WATER)
                .with("solute", Value::Word(solute.word()))
                .with("limit", Value::Count(*limit)),
            Self::BucketTooSmall { given, needed } => new("wash-refusal-bucket_too_small")
                .beside(BUCKET)
                .with("given", Value::Volume(*given))
                .with("needed", Value::Volume(*needed)),
            Self::BadPace { minutes } => {
                new("wash-refusal-bad_pace").beside(PACE).with("given", Value::Minutes(*minutes))
            }
            Self::BadEfficiency { given } => {
                new("wash-refusal-bad_efficiency").with("given", Value::Number(*given))
            }
        }
    }
}

/// The field in which a solute's strength is given.
fn field(solute: Solute) -> Field {
    match solute {
        Solute::Oxidant => OXIDANT,
        Solute::Alkali => ALKALI,
        Solute::Salt => SALT,
        Solute::Organics => ORGANICS,
    }
}

/// `Err` unless the strength is a number of nothing or more.
pub(super) fn strength(solute: Solute, given: MassConcentration) -> Result<(), WashRefusal> {
    let grams = in_grams_per_litre(given);
    if grams.is_finite() && grams >= 0.0 {
        Ok(())
    } else {
        Err(WashRefusal::NegativeStrength { solute, given })
    }
}
