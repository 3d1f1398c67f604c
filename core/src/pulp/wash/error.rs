//! Why there is no wash plan, and beside which field that is shown.
//! Not here: the limits themselves, which are `request` and `balance`.

use super::{DRIEST_SQUEEZE, Solute};
use crate::message::{Field, Message, Value};
use crate::quantity::{
    Mass, MassConcentration, Ratio, Volume, in_grams, in_grams_per_litre, in_millilitres, in_share,
};

pub const WET_MASS: Field = Field("wash-wet_mass");
pub const DRYNESS: Field = Field("wash-dryness");
pub const WATER: Field = Field("wash-water");
pub const BUCKET: Field = Field("wash-bucket");
pub const TIMING: Field = Field("wash-pace");
pub const TARGET: Field = Field("wash-target");
pub const OXIDANT: Field = Field("wash-oxidant");
pub const ALKALI: Field = Field("wash-alkali");
pub const SALT: Field = Field("wash-salt");
pub const ORGANICS: Field = Field("wash-organics");

/// Why there is no wash plan.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum WashError {
    #[error("the squeezed pulp weighs {} g; a mass above 0 is needed", in_grams(*.given))]
    NoPulp { given: Mass },
    /// Drier than hands or a small press reach.
    #[error("a dryness of {} by squeezing; at most {DRIEST_SQUEEZE} is possible", in_share(*.given))]
    SqueezeTooDry { given: Ratio },
    #[error("a dryness of {}; a share above 0 is needed", in_share(*.given))]
    SqueezeTooWet { given: Ratio },
    #[error("{} mL of wash water; a volume above 0 is needed", in_millilitres(*.given))]
    NoWater { given: Volume },
    #[error("{} g/L of {}; 0 or more is needed", in_grams_per_litre(*.given), .solute.word())]
    NegativeStrength { solute: Solute, given: MassConcentration },
    /// Dilution never reaches zero.
    #[error("a target of {} g/L of {}; one above 0 is needed", in_grams_per_litre(*.given), .solute.word())]
    ImpossibleTarget { solute: Solute, given: MassConcentration },
    #[error(
        "a target of {} g/L of {}; the tap water has {} g/L",
        in_grams_per_litre(*.target), .solute.word(), in_grams_per_litre(*.tap)
    )]
    BelowTap { solute: Solute, tap: MassConcentration, target: MassConcentration },
    #[error("a target for {}, whose concentration is not known", .solute.word())]
    StrengthUnknown { solute: Solute },
    /// More water in each rinse or a drier squeeze is needed.
    #[error("{} needs more than {limit} rinses", .solute.word())]
    TooManyRinses { solute: Solute, limit: u64 },
    /// The largest rinse is too small to stir the pulp in.
    #[error(
        "a bucket of {} mL; at least {} mL is needed",
        in_millilitres(*.given), in_millilitres(*.needed)
    )]
    BucketTooSmall { given: Volume, needed: Volume },
    #[error("a soak, handling time or tap flow of {minutes}; 0 or more is needed, a flow above 0")]
    BadTiming { minutes: f64 },
    #[error("a washing exponent of {given}; above 0 and at most 2 is accepted")]
    BadEfficiency { given: f64 },
}

impl WashError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        let new = |key, field| Message::new(key).beside(field);
        let of_solute = |key, field, solute: Solute| {
            Message::new(key).beside(field).with("solute", Value::Word(solute.word()))
        };
        match *self {
            Self::NoPulp { given } => {
                new("wash-refusal-no_lump", WET_MASS).with("given", Value::Mass(given))
            }
            Self::SqueezeTooDry { given } => new("wash-refusal-squeeze_too_dry", DRYNESS)
                .with("given", Value::Share(in_share(given)))
                .with("limit", Value::Share(DRIEST_SQUEEZE)),
            Self::SqueezeTooWet { given } => new("wash-refusal-squeeze_too_wet", DRYNESS)
                .with("given", Value::Share(in_share(given))),
            Self::NoWater { given } => {
                new("wash-refusal-no_water", WATER).with("given", Value::Volume(given))
            }
            Self::NegativeStrength { solute, given } => {
                of_solute("wash-refusal-negative_strength", field(solute), solute)
                    .with("given", Value::Concentration(given))
            }
            Self::ImpossibleTarget { solute, given } => {
                of_solute("wash-refusal-impossible_target", TARGET, solute)
                    .with("given", Value::Concentration(given))
            }
            Self::BelowTap { solute, tap, target } => {
                of_solute("wash-refusal-below_tap", TARGET, solute)
                    .with("tap", Value::Concentration(tap))
                    .with("target", Value::Concentration(target))
            }
            Self::StrengthUnknown { solute } => {
                of_solute("wash-refusal-strength_unknown", field(solute), solute)
            }
            Self::TooManyRinses { solute, limit } => {
                of_solute("wash-refusal-too_many_rinses", WATER, solute)
                    .with("limit", Value::Count(limit))
            }
            Self::BucketTooSmall { given, needed } => new("wash-refusal-bucket_too_small", BUCKET)
                .with("given", Value::Volume(given))
                .with("needed", Value::Volume(needed)),
            Self::BadTiming { minutes } => {
                new("wash-refusal-bad_pace", TIMING).with("given", Value::Minutes(minutes))
            }
            Self::BadEfficiency { given } => {
                Message::new("wash-refusal-bad_efficiency").with("given", Value::Number(given))
            }
        }
    }
}

/// The field of a solute's concentration.
fn field(solute: Solute) -> Field {
    match solute {
        Solute::Oxidant => OXIDANT,
        Solute::Alkali => ALKALI,
        Solute::Salt => SALT,
        Solute::Organics => ORGANICS,
    }
}
