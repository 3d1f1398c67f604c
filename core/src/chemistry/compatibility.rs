//! Incompatible ingredients: which must not be mixed, why, and the source.

use crate::message::{Message, Value};
use strum::IntoStaticStr;

/// Something that may be in a bath or touch it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, IntoStaticStr)]
#[strum(const_into_str, prefix = "ingredient-", serialize_all = "snake_case")]
pub enum Ingredient {
    Hypochlorite,
    /// Liquid peroxide.
    Peroxide,
    Percarbonate,
    /// Vinegar, citric acid, or any other, and acid cleaners.
    Acid,
    /// Ammonia, ammonium salts, urine, amines.
    Ammonia,
    /// Alcohols and acetone, rubbing alcohol among them.
    Alcohol,
    /// Aluminium, or zinc (galvanised iron).
    LightMetal,
    /// Copper, brass, mild steel, iron, nickel, cobalt.
    HeavyMetal,
    /// Rust on the pulp, on a tool or in the water.
    Rust,
    StainlessSteel,
    /// Soda ash, washing soda.
    Soda,
    Lye,
    /// Thiosulfate, sulfite, bisulfite, metabisulfite.
    SulfurReducer,
}

impl Ingredient {
    /// All, in the order to offer them.
    pub const ALL: [Self; 13] = [
        Self::Acid,
        Self::Ammonia,
        Self::Alcohol,
        Self::Hypochlorite,
        Self::Peroxide,
        Self::Percarbonate,
        Self::SulfurReducer,
        Self::LightMetal,
        Self::HeavyMetal,
        Self::Rust,
        Self::StainlessSteel,
        Self::Soda,
        Self::Lye,
    ];

    /// What is incompatible with this, in the order of [`Self::ALL`].
    pub fn clashing(self) -> impl Iterator<Item = Self> {
        Self::ALL.into_iter().filter(move |other| clash(self, *other).is_some())
    }

    /// Locale key of its name.
    pub fn key(self) -> &'static str {
        self.into_str()
    }
}

/// What happens when two ingredients are mixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(const_into_str, prefix = "clash-", serialize_all = "snake_case")]
pub enum ClashReason {
    /// Chlorine gas.
    Chlorine,
    /// Chloramines.
    Chloramines,
    /// Oxygen, fast, with heat and splash; a closed vessel bursts.
    OxygenBurst,
    /// Chloroform and other chlorinated organics.
    Chloroform,
    /// Hydrogen gas, and corrosion through the vessel.
    Hydrogen,
    /// The metal catalyses decomposition of the oxidant and corrodes.
    CatalysedLoss,
    /// Iron catalyses decomposition of the oxidant: froth, heat, weak spots in the fibre.
    RustCatalysis,
    /// Acetone peroxides and mixtures of peroxide with alcohol, which explode.
    ExplosivePeroxide,
    /// Peracetic acid from vinegar; carbon dioxide from percarbonate.
    PeracidAndFoam,
    /// Pitting, slower.
    Corrosion,
    /// Sulfur dioxide and colloidal sulfur.
    SulfurDioxide,
    /// The two consume each other, with heat.
    MutualLoss,
}

impl ClashReason {
    /// Locale key of the reason.
    pub fn key(self) -> &'static str {
        self.into_str()
    }

    pub fn source(self) -> &'static str {
        match self {
            Self::Chlorine => {
                "CDC, MMWR 1991, Chlorine Gas Toxicity from Mixture of Bleach with Other Cleaning Products (read)"
            }
            Self::Chloramines => "Stanford EHS, Bleach solutions (read)",
            Self::OxygenBurst => {
                "stoichiometry ClO- + H2O2 -> Cl- + H2O + O2 (computed); producer's safety sheet for percarbonate (read)"
            }
            Self::Chloroform => "haloform reaction, general chemistry (from memory)",
            Self::Hydrogen => "aluminium and zinc in alkali, general chemistry (from memory)",
            Self::CatalysedLoss => {
                "Ni, Co, Cu and Fe catalyse oxygen loss from hypochlorite (from memory); Zhao et al. 2018, BioResources 13:3922, for peroxide (read)"
            }
            Self::RustCatalysis => {
                "J. Loss Prev. Process Ind. 2009, 22:15 (abstract read): iron and copper ions; Zhao et al. 2018, BioResources 13:3922 (read)"
            }
            Self::ExplosivePeroxide => {
                "acetone peroxide; peroxide with organic matter, general chemistry (from memory)"
            }
            Self::PeracidAndFoam => {
                "peracetic acid equilibrium; acid on carbonate, general chemistry (from memory)"
            }
            Self::Corrosion => "Stanford EHS, Bleach solutions (read)",
            Self::SulfurDioxide => {
                "thiosulfate and sulfites in acid, general chemistry (from memory)"
            }
            Self::MutualLoss => "stoichiometry of dechlorination (computed)",
        }
    }
}

/// How a plan answers a clash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ClashSeverity {
    /// A remark; the plan goes on.
    Note,
    /// The plan is refused.
    Refused,
}

/// Two incompatible ingredients.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clash {
    pub first: Ingredient,
    pub second: Ingredient,
    pub reason: ClashReason,
    pub severity: ClashSeverity,
}

impl Clash {
    /// The clash as a message: both ingredients and the reason.
    pub fn message(&self) -> Message {
        let key = match self.severity {
            ClashSeverity::Refused => "refusal-clash",
            ClashSeverity::Note => "note-clash",
        };
        Message::new(key)
            .with("first", Value::Word(self.first.key()))
            .with("second", Value::Word(self.second.key()))
            .with("reason", Value::Word(self.reason.key()))
    }
}

/// The clash of two ingredients, in either order; `None` if they are compatible.
pub fn clash(first: Ingredient, second: Ingredient) -> Option<Clash> {
    let pair = |&&(a, b, ..): &&Pair| (a, b) == (first, second) || (b, a) == (first, second);
    let &(_, _, reason, severity) = PAIRS.iter().find(pair)?;
    Some(Clash { first, second, reason, severity })
}

/// All clashes among the ingredients of one bath, most severe first.
pub fn clashes(present: &[Ingredient]) -> Vec<Clash> {
    let mut found: Vec<Clash> = present
        .iter()
        .enumerate()
        .flat_map(|(index, &first)| {
            present[index + 1..].iter().filter_map(move |&second| clash(first, second))
        })
        .collect();
    found.sort_by_key(|clash| std::cmp::Reverse(clash.severity));
    found
}

type Pair = (Ingredient, Ingredient, ClashReason, ClashSeverity);

/// Incompatible pairs. A reducer in the bath itself is refused; the antichlor step comes after
/// the bath.
const PAIRS: &[Pair] = {
    use ClashReason::*;
    use ClashSeverity::*;
    use Ingredient::*;
    &[
        (Hypochlorite, Peroxide, OxygenBurst, Refused),
        (Hypochlorite, Percarbonate, OxygenBurst, Refused),
        (Hypochlorite, Acid, Chlorine, Refused),
        (Hypochlorite, Ammonia, Chloramines, Refused),
        (Hypochlorite, Alcohol, Chloroform, Refused),
        (Hypochlorite, SulfurReducer, MutualLoss, Refused),
        (Hypochlorite, LightMetal, CatalysedLoss, Refused),
        (Hypochlorite, HeavyMetal, CatalysedLoss, Refused),
        (Hypochlorite, StainlessSteel, Corrosion, Note),
        (Peroxide, HeavyMetal, CatalysedLoss, Refused),
        (Percarbonate, HeavyMetal, CatalysedLoss, Refused),
        (Peroxide, SulfurReducer, MutualLoss, Refused),
        (Percarbonate, SulfurReducer, MutualLoss, Refused),
        (Percarbonate, LightMetal, Hydrogen, Refused),
        // Alkali is part of a peroxide bath.
        (Peroxide, LightMetal, Hydrogen, Refused),
        (Peroxide, Alcohol, ExplosivePeroxide, Refused),
        (Percarbonate, Alcohol, ExplosivePeroxide, Refused),
        (Peroxide, Acid, PeracidAndFoam, Refused),
        (Percarbonate, Acid, PeracidAndFoam, Refused),
        (Peroxide, Rust, RustCatalysis, Note),
        (Percarbonate, Rust, RustCatalysis, Note),
        (Hypochlorite, Rust, RustCatalysis, Note),
        (Soda, LightMetal, Hydrogen, Refused),
        (Lye, LightMetal, Hydrogen, Refused),
        (Acid, SulfurReducer, SulfurDioxide, Refused),
    ]
};

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn clash_does_not_depend_on_order() {
        for &(a, b, reason, _) in PAIRS {
            assert_eq!(clash(a, b).map(|clash| clash.reason), Some(reason));
            assert_eq!(clash(b, a).map(|clash| clash.reason), Some(reason));
        }
    }

    #[test]
    fn clashes_list_every_pair_most_severe_first() {
        let found = clashes(&[
            Ingredient::Percarbonate,
            Ingredient::StainlessSteel,
            Ingredient::Hypochlorite,
            Ingredient::Acid,
        ]);
        let reasons: Vec<ClashReason> = found.iter().map(|clash| clash.reason).collect();
        assert_eq!(
            reasons,
            [
                ClashReason::OxygenBurst,
                ClashReason::PeracidAndFoam,
                ClashReason::Chlorine,
                ClashReason::Corrosion
            ]
        );
    }

    #[test]
    fn peroxide_with_acetone_acid_or_metal_is_refused_and_rust_is_a_note() {
        use ClashSeverity::{Note, Refused};
        use Ingredient::*;
        for oxidant in [Peroxide, Percarbonate] {
            for other in [Alcohol, Acid, HeavyMetal, LightMetal] {
                assert_eq!(clash(oxidant, other).unwrap().severity, Refused, "{other:?}");
            }
            assert_eq!(clash(oxidant, Rust).unwrap().severity, Note);
        }
    }

    #[test]
    fn bleach_with_soda_in_stainless_steel_is_only_a_note() {
        let found =
            clashes(&[Ingredient::Hypochlorite, Ingredient::Soda, Ingredient::StainlessSteel]);
        assert!(found.iter().all(|clash| clash.severity == ClashSeverity::Note));
    }
}
