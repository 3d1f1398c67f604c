//! Why there is no cook plan, and beside which field that is shown.
//! Not here: the limits themselves, which are `request` and `rinse_ph`.

use crate::chemistry::EquilibriumError;
use crate::message::{Field, Message, Value};
use crate::pulp::wash::WashError;
use crate::quantity::{Mass, Ratio, Volume, in_grams, in_millilitres, in_share};

pub const FIBRE: Field = Field("cook-fibre");
pub const CHARGE: Field = Field("cook-charge");
pub const PURITY: Field = Field("cook-purity");
pub const LIQUOR: Field = Field("cook-liquor");
pub const POT: Field = Field("cook-pot");
pub const TEMPERATURE: Field = Field("cook-temperature");
pub const TIME: Field = Field("cook-time");
pub const LIQUOR_PH: Field = Field("cook-liquor_ph");

/// Why there is no cook plan, or no rinse after it.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum CookError {
    #[error("{} g of dry fibre; a mass above 0 is needed", in_grams(*.given))]
    NoFibre { given: Mass },
    #[error("a charge of {} on dry fibre; 0.01 to 0.6 is accepted", in_share(*.given))]
    BadCharge { given: Ratio },
    #[error("a purity of {}; above 0 and at most 1 is accepted", in_share(*.given))]
    BadPurity { given: Ratio },
    #[error("{given} L/kg of liquor; 5 to 50 L/kg is accepted")]
    BadLiquorRatio { given: f64 },
    /// Not even 100 g of fibre fit.
    #[error("a pot of {} mL; 100 g of fibre with its liquor must fit", in_millilitres(*.given))]
    PotTooSmall { given: Volume },
    #[error("{given} °C; 20 to 130 °C is accepted")]
    BadTemperature { given: f64 },
    #[error("{minutes} min; above 0 and at most two days is accepted")]
    BadTime { minutes: f64 },
    #[error("the alkali in the liquor is not known; a pH is needed")]
    AlkaliUnknown,
    #[error(transparent)]
    Wash(#[from] WashError),
    #[error(transparent)]
    Chemistry(#[from] EquilibriumError),
}

impl CookError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        let new = |key, field, given| Message::new(key).beside(field).with("given", given);
        let share = |ratio| Value::Share(in_share(ratio));
        match *self {
            Self::NoFibre { given } => new("cook-refusal-no_fibre", FIBRE, Value::Mass(given)),
            Self::BadCharge { given } => new("cook-refusal-bad_charge", CHARGE, share(given))
                .with("min", Value::Share(0.01))
                .with("max", Value::Share(0.6)),
            Self::BadPurity { given } => new("cook-refusal-bad_purity", PURITY, share(given)),
            Self::BadLiquorRatio { given } => {
                new("cook-refusal-bad_liquor_ratio", LIQUOR, Value::Number(given))
                    .with("min", Value::Number(5.0))
                    .with("max", Value::Number(50.0))
            }
            Self::PotTooSmall { given } => {
                new("cook-refusal-pot_too_small", POT, Value::Volume(given))
            }
            Self::BadTemperature { given } => {
                new("cook-refusal-bad_temperature", TEMPERATURE, Value::Celsius(given))
                    .with("min", Value::Celsius(20.0))
                    .with("max", Value::Celsius(130.0))
            }
            Self::BadTime { minutes } => {
                new("cook-refusal-bad_time", TIME, Value::Minutes(minutes))
            }
            Self::AlkaliUnknown => Message::new("cook-refusal-alkali_unknown").beside(LIQUOR_PH),
            Self::Wash(error) => error.message(),
            Self::Chemistry(error) => error.message(),
        }
    }
}
