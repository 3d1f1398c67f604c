//! What stands on a shelf, and how it is measured out.

use bleachfield_core::{bath::Oxidant, journal::ProductKind};

use crate::i18n::word;

/// Kinds of product, sorted as a person looks for them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProductGroup {
    Bleach,
    Alkali,
    Antichlor,
    Acid,
    Chalk,
    Other,
}

impl ProductGroup {
    pub const ALL: [Self; 6] =
        [Self::Bleach, Self::Alkali, Self::Antichlor, Self::Acid, Self::Chalk, Self::Other];

    pub fn name(self) -> String {
        word(match self {
            Self::Bleach => "shelf.sort.bleach",
            Self::Alkali => "shelf.sort.alkali",
            Self::Antichlor => "shelf.sort.antichlor",
            Self::Acid => "shelf.sort.acid",
            Self::Chalk => "shelf.sort.chalk",
            Self::Other => "shelf.sort.other",
        })
    }

    /// The kinds of this sort; never empty.
    pub fn kinds(self) -> &'static [ProductKind] {
        use ProductKind as K;
        match self {
            Self::Bleach => &[K::Hypochlorite, K::Percarbonate, K::Peroxide],
            Self::Alkali => &[K::SodaAsh, K::WashingSoda, K::Lye, K::BakingSoda],
            Self::Antichlor => {
                &[K::Thiosulfate, K::Sulfite, K::Bisulfite, K::Metabisulfite, K::AscorbicAcid]
            }
            Self::Acid => &[K::CitricAcid, K::AceticAcid],
            Self::Chalk => &[K::CalciumCarbonate],
            Self::Other => &[K::Other],
        }
    }
}

/// What a kind is called.
pub fn kind_name(kind: ProductKind) -> String {
    word(match kind {
        ProductKind::Hypochlorite => "shelf.kind.hypochlorite",
        ProductKind::Percarbonate => "shelf.kind.percarbonate",
        ProductKind::Peroxide => "shelf.kind.peroxide",
        ProductKind::SodaAsh => "shelf.kind.soda_ash",
        ProductKind::WashingSoda => "shelf.kind.washing_soda",
        ProductKind::Lye => "shelf.kind.lye",
        ProductKind::BakingSoda => "shelf.kind.baking_soda",
        ProductKind::Thiosulfate => "shelf.kind.thiosulfate",
        ProductKind::Sulfite => "shelf.kind.sulfite",
        ProductKind::Bisulfite => "shelf.kind.bisulfite",
        ProductKind::Metabisulfite => "shelf.kind.metabisulfite",
        ProductKind::AscorbicAcid => "shelf.kind.ascorbic_acid",
        ProductKind::CitricAcid => "shelf.kind.citric_acid",
        ProductKind::AceticAcid => "shelf.kind.acetic_acid",
        ProductKind::CalciumCarbonate => "shelf.kind.calcium_carbonate",
        ProductKind::Other => "shelf.kind.other",
    })
}

/// The bleach that a kind is, if it is one.
pub fn oxidant(kind: ProductKind) -> Option<Oxidant> {
    match kind {
        ProductKind::Hypochlorite => Some(Oxidant::Hypochlorite),
        ProductKind::Percarbonate => Some(Oxidant::Percarbonate),
        ProductKind::Peroxide => Some(Oxidant::Peroxide),
        _ => None,
    }
}

/// Whether it turns a liquor acid.
pub fn is_acid(kind: ProductKind) -> bool {
    matches!(
        kind,
        ProductKind::CitricAcid
            | ProductKind::AceticAcid
            | ProductKind::AscorbicAcid
            | ProductKind::Bisulfite
            | ProductKind::Metabisulfite
    )
}

/// Whether it is poured; powders are weighed.
pub fn is_liquid(kind: ProductKind) -> bool {
    matches!(kind, ProductKind::Hypochlorite | ProductKind::Peroxide | ProductKind::AceticAcid)
}

/// Whether a strength can be titrated for it.
pub fn is_titrated(kind: ProductKind) -> bool {
    oxidant(kind).is_some()
}
