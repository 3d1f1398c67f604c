//! Bottles, tubs and jars on the shelf.

use super::{Amount, Figure, Strength};
use crate::{record, words};
use jiff::civil::Date;

/// A product came onto the shelf. Its id is the entry's subject.
#[derive(Clone, Debug, PartialEq)]
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
    pub storage: Storage,
    pub note: String,
}

record!(ProductAdded {
    name,
    product,
    strength,
    size,
    bought,
    made,
    opened,
    storage: blank,
    note: blank,
});

/// What a shelf product is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
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

words!(ProductKind {
    Hypochlorite = "hypochlorite",
    Percarbonate = "percarbonate",
    Peroxide = "peroxide",
    SodaAsh = "soda_ash",
    WashingSoda = "washing_soda",
    Lye = "lye",
    BakingSoda = "baking_soda",
    Thiosulfate = "thiosulfate",
    Sulfite = "sulfite",
    Bisulfite = "bisulfite",
    Metabisulfite = "metabisulfite",
    AscorbicAcid = "ascorbic_acid",
    CitricAcid = "citric_acid",
    AceticAcid = "acetic_acid",
    CalciumCarbonate = "calcium_carbonate",
    Other = "other",
});

/// How a product is kept, as far as anyone noted.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Storage {
    pub celsius: Option<f64>,
    /// Out of the light.
    pub dark: Option<bool>,
    /// Tightly closed.
    pub closed: Option<bool>,
}

record!(Storage { celsius, dark, closed });

/// The product was opened.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ProductOpened {
    pub on: Date,
}

record!(ProductOpened { on });

/// The product's strength was found by test.
#[derive(Clone, Debug, PartialEq)]
pub struct StrengthFound {
    pub method: StrengthMethod,
    pub strength: Strength,
    /// The titrations, one for each run.
    pub runs: Vec<TitrationRun>,
    /// For a strip: parts of water to one of product before dipping.
    pub dilution: Option<f64>,
    /// What the strip showed, mg/L.
    pub strip_mg_per_l: Option<Figure>,
    pub note: String,
}

record!(StrengthFound { method, strength, runs: blank, dilution, strip_mg_per_l, note: blank });

/// How a strength was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StrengthMethod {
    IodometricTitration,
    PermanganateTitration,
    Strip,
    Other,
}

words!(StrengthMethod {
    IodometricTitration = "iodometric_titration",
    PermanganateTitration = "permanganate_titration",
    Strip = "strip",
    Other = "other",
});

/// One run of a titration.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TitrationRun {
    pub sample_ml: Option<f64>,
    pub sample_g: Option<f64>,
    pub titrant_mol_per_l: f64,
    pub titrant_ml: f64,
    pub blank_ml: Option<f64>,
}

record!(TitrationRun { sample_ml, sample_g, titrant_mol_per_l, titrant_ml, blank_ml });

/// The product is used up or thrown out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ProductFinished {
    pub why: String,
}

record!(ProductFinished { why: blank });
