//! Entries about shelf products: bottles, tubs and jars, their strength and age.

use super::{Amount, Figure, Strength};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};

/// A product was added to the shelf. Its id is the entry's subject.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProductAdded {
    pub name: String,
    pub product: ProductKind,
    /// As printed on the label, if it is.
    pub strength: Option<Strength>,
    pub size: Option<Amount>,
    pub bought: Option<Date>,
    /// Date of manufacture, if printed.
    pub made: Option<Date>,
    /// Date of opening, if it is open.
    pub opened: Option<Date>,
    #[serde(default, with = "As::<DefaultOnNull>")]
    pub storage: Storage,
    /// What the whole package cost, in the person's own money.
    pub price: Option<f64>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The substance of a shelf product.
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

/// Storage conditions of a product, as far as known.
#[skip_serializing_none]
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Storage {
    pub celsius: Option<f64>,
    /// Protected from light.
    pub dark: Option<bool>,
    /// Tightly closed.
    pub closed: Option<bool>,
}

/// The product was opened.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProductOpened {
    pub on: Date,
}

/// The strength of a product was tested.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StrengthFound {
    pub method: StrengthMethod,
    pub strength: Strength,
    /// Titrations, one for each run.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub runs: Vec<TitrationRun>,
    /// For a strip: parts of water to one part of product before dipping.
    pub dilution: Option<f64>,
    /// Reading of the strip, mg/L.
    pub strip_mg_per_l: Option<Figure>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Method of a strength test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StrengthMethod {
    IodometricTitration,
    PermanganateTitration,
    Strip,
    Other,
}

/// One run of a titration.
#[skip_serializing_none]
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
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub why: String,
}
