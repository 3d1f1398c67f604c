//! What stands on a shelf, and how it is measured out.

use bleachfield_core::{bath::Oxidant, journal::ProductKind};

use crate::i18n::{key, t};

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
        t(match self {
            Self::Bleach => key!("shelf-sort-bleach"),
            Self::Alkali => key!("shelf-sort-alkali"),
            Self::Antichlor => key!("shelf-sort-antichlor"),
            Self::Acid => key!("shelf-sort-acid"),
            Self::Chalk => key!("shelf-sort-chalk"),
            Self::Other => key!("shelf-sort-other"),
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
    t(match kind {
        ProductKind::Hypochlorite => key!("shelf-kind-hypochlorite"),
        ProductKind::Percarbonate => key!("shelf-kind-percarbonate"),
        ProductKind::Peroxide => key!("shelf-kind-peroxide"),
        ProductKind::SodaAsh => key!("shelf-kind-soda_ash"),
        ProductKind::WashingSoda => key!("shelf-kind-washing_soda"),
        ProductKind::Lye => key!("shelf-kind-lye"),
        ProductKind::BakingSoda => key!("shelf-kind-baking_soda"),
        ProductKind::Thiosulfate => key!("shelf-kind-thiosulfate"),
        ProductKind::Sulfite => key!("shelf-kind-sulfite"),
        ProductKind::Bisulfite => key!("shelf-kind-bisulfite"),
        ProductKind::Metabisulfite => key!("shelf-kind-metabisulfite"),
        ProductKind::AscorbicAcid => key!("shelf-kind-ascorbic_acid"),
        ProductKind::CitricAcid => key!("shelf-kind-citric_acid"),
        ProductKind::AceticAcid => key!("shelf-kind-acetic_acid"),
        ProductKind::CalciumCarbonate => key!("shelf-kind-calcium_carbonate"),
        ProductKind::Other => key!("shelf-kind-other"),
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
