//! Bottles, tubs and jars on the shelf.

use super::{Amount, Figure, Strength};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// A product came onto the shelf. Its id is the entry's subject.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProductAdded {
    pub name: String,
    pub product: ProductKind,
    /// As the label has it; none where it has none.
    pub strength: Option<Strength>,
    pub size: Option<Amount>,
    pub bought: Option<Date>,
    /// The maker's date of making, where printed.
    pub made: Option<Date>,
    /// When it was opened, if it is open already.
    pub opened: Option<Date>,
    #[serde(default)]
    pub storage: Storage,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// What a shelf product is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ProductKind {
    Hypochlorite,
    Percarbonate,
    Peroxide,
    SodaAsh,
    WashingSoda,
    Lye,
    BakingSoda,
    Thiosulfate,
    Sulfite,
    Bisulfite,
    Metabisulfite,
    AscorbicAcid,
    CitricAcid,
    AceticAcid,
    CalciumCarbonate,
    Other,
}

/// How a product is kept, as far as anyone noted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Storage {
    pub celsius: Option<f64>,
    /// Out of the light.
    pub dark: Option<bool>,
    /// Tightly closed.
    pub closed: Option<bool>,
}

/// The product was opened.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProductOpened {
    pub on: Date,
}

/// The product's strength was found by test.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StrengthFound {
    pub method: StrengthMethod,
    pub strength: Strength,
    /// The titrations, one for each run.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub runs: Vec<TitrationRun>,
    /// For a strip: parts of water to one of product before dipping.
    pub dilution: Option<f64>,
    /// What the strip showed, mg/L.
    pub strip_mg_per_l: Option<Figure>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// How a strength was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StrengthMethod {
    IodometricTitration,
    PermanganateTitration,
    Strip,
    Other,
}

/// One run of a titration.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TitrationRun {
    pub sample_ml: Option<f64>,
    pub sample_g: Option<f64>,
    pub titrant_mol_per_l: f64,
    pub titrant_ml: f64,
    pub blank_ml: Option<f64>,
}

/// The product is used up or thrown out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ProductFinished {
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
}
