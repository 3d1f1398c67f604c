//! Records that several kinds of entry share: figures, amounts, oxidants, strengths.

use crate::message::Value;
use crate::quantity::{Estimate, grams, millilitres};
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};
use strum::IntoStaticStr;
use ulid::Ulid;

/// A recorded number: value, range and basis. Its unit is in the name of the
/// member that holds it.
pub type Figure = Estimate<f64>;

/// An amount by mass or by volume.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Amount {
    /// Grams.
    MassG(Figure),
    /// Millilitres.
    VolumeMl(Figure),
}

impl Amount {
    /// In its own unit, grams or millilitres.
    pub fn figure(self) -> Figure {
        match self {
            Self::MassG(figure) | Self::VolumeMl(figure) => figure,
        }
    }
}

/// Its value, for a message.
impl From<Amount> for Value {
    fn from(amount: Amount) -> Self {
        match amount {
            Amount::MassG(figure) => Self::Mass(grams(figure.value)),
            Amount::VolumeMl(figure) => Self::Volume(millilitres(figure.value)),
        }
    }
}

/// The bleaching agent.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Oxidant {
    /// Sodium hypochlorite: household chlorine bleach.
    Hypochlorite,
    /// Sodium percarbonate powder: peroxide and soda ash.
    Percarbonate,
    /// Hydrogen peroxide from a bottle.
    Peroxide,
}

/// The substance that a strength, charge or dose is expressed as.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Active {
    AvailableChlorine,
    SodiumHypochlorite,
    HydrogenPeroxide,
    /// The product as sold.
    Product,
}

/// The unit and substance of a stated strength. Percentages are as printed
/// (6.0 means 6.0 %).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StrengthBasis {
    /// g NaOCl in 100 g of product.
    NaoclPercentByMass,
    /// g NaOCl in 100 mL of product.
    NaoclPercentByVolume,
    /// g available chlorine in a litre of product.
    AvailableChlorineGPerL,
    /// g available chlorine in 100 g of product.
    AvailableChlorinePercentByMass,
    /// g available chlorine in 100 mL of product (trade percent).
    AvailableChlorinePercentByVolume,
    /// g H2O2 in 100 g of product.
    HydrogenPeroxidePercentByMass,
    /// g H2O2 in 100 mL of product.
    HydrogenPeroxidePercentByVolume,
    /// g sodium percarbonate in 100 g of powder.
    PercarbonatePercentByMass,
    /// g active oxygen in 100 g of powder.
    ActiveOxygenPercentByMass,
    /// g of the named substance in 100 g of product: soda ash, acid, antichlor.
    SubstancePercentByMass,
}

/// A product's strength, as stated on its label or found by test.
#[skip_serializing_none]
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Strength {
    pub figure: Figure,
    pub stated_as: StrengthBasis,
    /// g/mL; needed to convert between mass and volume.
    pub density_g_per_ml: Option<Figure>,
}

/// A product as used in a plan: from the shelf, or with a strength typed from its label.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProductUsed {
    /// The shelf product, if it was taken from the shelf.
    pub shelf: Option<Ulid>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The strength used in the calculation.
    pub strength: Strength,
}
