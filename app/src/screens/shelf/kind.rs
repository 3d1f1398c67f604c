//! Kinds of products: groups, names and properties.

use bleachfield_core::{bath::Oxidant, journal::ProductKind};

use crate::i18n::{key, t};

/// Groups of products, in the order of the list.
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

    /// The group of a kind.
    pub fn of(kind: ProductKind) -> Self {
        let group = Self::ALL.into_iter().find(|group| group.kinds().contains(&kind));
        group.unwrap_or(Self::Other)
    }

    /// The kinds of this group; never empty.
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

/// The oxidant of a bleach; `None` for other products.
pub fn oxidant(kind: ProductKind) -> Option<Oxidant> {
    match kind {
        ProductKind::Hypochlorite => Some(Oxidant::Hypochlorite),
        ProductKind::Percarbonate => Some(Oxidant::Percarbonate),
        ProductKind::Peroxide => Some(Oxidant::Peroxide),
        _ => None,
    }
}

/// Whether it makes a liquor acid.
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

/// Measured by volume; powders are weighed.
pub fn is_liquid(kind: ProductKind) -> bool {
    matches!(kind, ProductKind::Hypochlorite | ProductKind::Peroxide | ProductKind::AceticAcid)
}

/// Whether its strength can be titrated.
pub fn is_titrated(kind: ProductKind) -> bool {
    oxidant(kind).is_some()
}
