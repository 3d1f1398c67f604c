//! The pieces that several kinds of entry are made of.

use crate::json::{Json, Misread, Value, text};
use crate::quantity::Estimate;
use crate::{choice, record, words};
use ulid::Ulid;

/// A number as an entry keeps it: value, range and basis. The unit is in the
/// name of the member that holds it.
pub type Figure = Estimate<f64>;

/// How much of something: by scale or by jug.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// Grams.
    MassG(Figure),
    /// Millilitres.
    VolumeMl(Figure),
}

choice!(Amount { MassG(grams) = "mass_g", VolumeMl(millilitres) = "volume_ml" });

/// What does the whitening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Oxidant {
    /// Sodium hypochlorite: household chlorine bleach.
    Hypochlorite,
    /// Sodium percarbonate powder: peroxide and soda ash.
    Percarbonate,
    /// Hydrogen peroxide from a bottle.
    Peroxide,
}

words!(Oxidant {
    Hypochlorite = "hypochlorite",
    Percarbonate = "percarbonate",
    Peroxide = "peroxide",
});

/// What a strength, charge or dose is counted as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Active {
    AvailableChlorine,
    SodiumHypochlorite,
    HydrogenPeroxide,
    /// The product as it comes out of its container.
    Product,
}

words!(Active {
    AvailableChlorine = "available_chlorine",
    SodiumHypochlorite = "sodium_hypochlorite",
    HydrogenPeroxide = "hydrogen_peroxide",
    Product = "product",
});

/// How a container states its strength; all but the third are percentages as
/// printed (6.0 means 6.0 %).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
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

words!(StrengthBasis {
    NaoclPercentByMass = "naocl_percent_by_mass",
    NaoclPercentByVolume = "naocl_percent_by_volume",
    AvailableChlorineGPerL = "available_chlorine_g_per_l",
    AvailableChlorinePercentByMass = "available_chlorine_percent_by_mass",
    AvailableChlorinePercentByVolume = "available_chlorine_percent_by_volume",
    HydrogenPeroxidePercentByMass = "hydrogen_peroxide_percent_by_mass",
    HydrogenPeroxidePercentByVolume = "hydrogen_peroxide_percent_by_volume",
    PercarbonatePercentByMass = "percarbonate_percent_by_mass",
    ActiveOxygenPercentByMass = "active_oxygen_percent_by_mass",
    SubstancePercentByMass = "substance_percent_by_mass",
});

/// A product's strength, on the basis on which it was stated or found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    pub figure: Figure,
    pub stated_as: StrengthBasis,
    /// g/mL; needed to go between mass and volume.
    pub density_g_per_ml: Option<Figure>,
}

record!(Strength { figure, stated_as, density_g_per_ml });

/// A product as a plan or a bath used it: from the shelf, or typed off a label.
#[derive(Clone, Debug, PartialEq)]
pub struct ProductUsed {
    /// The shelf product, if it was taken from the shelf.
    pub shelf: Option<Ulid>,
    pub name: String,
    /// The strength that was reckoned with.
    pub strength: Strength,
}

record!(ProductUsed { shelf, name: blank, strength });

/// The SHA-256 of a photo's stored bytes as 64 lower-case hexadecimal digits.
/// Equal photos have equal ids, on every device.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PhotoId(String);

impl PhotoId {
    /// The id in 64 lower-case hexadecimal digits.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The id from the 32 bytes of a SHA-256.
    pub fn of_digest(digest: [u8; 32]) -> Self {
        use std::fmt::Write;
        let mut text = String::with_capacity(64);
        for byte in digest {
            // Writing to a String cannot fail.
            let _ = write!(text, "{byte:02x}");
        }
        Self(text)
    }
}

impl TryFrom<String> for PhotoId {
    type Error = PhotoIdError;

    /// # Errors
    /// [`PhotoIdError`] unless `text` is 64 lower-case hexadecimal digits.
    fn try_from(text: String) -> Result<Self, PhotoIdError> {
        let digits = text.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b));
        if text.len() == 64 && digits { Ok(Self(text)) } else { Err(PhotoIdError) }
    }
}

impl Json for PhotoId {
    fn to_json(&self) -> Value {
        Value::from(self.as_str())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        Self::try_from(text(value)?.to_owned()).map_err(|_| Misread::expected("photo id"))
    }
}

impl From<PhotoId> for String {
    fn from(id: PhotoId) -> String {
        id.0
    }
}

impl std::fmt::Display for PhotoId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// A text that is no SHA-256 in lower-case hexadecimal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PhotoIdError;

impl std::fmt::Display for PhotoIdError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a photo id is 64 lower-case hexadecimal digits")
    }
}

impl std::error::Error for PhotoIdError {}
