//! Hazard and precautionary statements for a tub of pulp.
//!
//! Codes and wording are those of the UN Globally Harmonized System (GHS,
//! annex 3), from memory; the wording is in the locale. Which apply follows
//! the generic mixture rules (GHS chapters 3.2 and 3.3: a corrosive irritates
//! the eye from 1 %, a category 1 eye or skin hazard damages it from 3 %),
//! simplified to the stricter side. Local labelling law takes precedence.

use strum::IntoStaticStr;

/// Residues that the water in the tub may contain.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Residues {
    /// Hypochlorite was used on the pulp.
    pub hypochlorite: bool,
    /// Peroxide or percarbonate was used on the pulp.
    pub peroxide: bool,
    /// Cooking alkali or alkaline bleach liquor was not rinsed out.
    pub alkaline: bool,
}

/// A GHS hazard statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "UPPERCASE")]
pub enum Hazard {
    /// Causes skin irritation.
    H315,
    /// Causes serious eye damage.
    H318,
    /// Causes serious eye irritation.
    H319,
    /// Contact with acids liberates toxic gas (EU supplement EUH031).
    Euh031,
}

impl Hazard {
    /// The code as printed.
    pub fn code(self) -> &'static str {
        self.into()
    }

    /// Locale key of the statement.
    pub fn key(self) -> &'static str {
        match self {
            Self::H315 => "label-hazard-h315",
            Self::H318 => "label-hazard-h318",
            Self::H319 => "label-hazard-h319",
            Self::Euh031 => "label-hazard-euh031",
        }
    }
}

/// A GHS precautionary statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Precaution {
    /// Keep out of reach of children.
    P102,
    /// Wear protective gloves and eye protection.
    P280,
    /// IF ON SKIN: wash with plenty of water.
    P302P352,
    /// IF IN EYES: rinse cautiously with water for several minutes….
    P305P351P338,
    /// Do not close tightly: gas may build up (own wording; GHS has no code).
    Vent,
    /// Never with acid (own wording, beside EUH031).
    NoAcid,
}

impl Precaution {
    /// The code as printed; empty for own wording.
    pub fn code(self) -> &'static str {
        match self {
            Self::P102 => "P102",
            Self::P280 => "P280",
            Self::P302P352 => "P302 + P352",
            Self::P305P351P338 => "P305 + P351 + P338",
            Self::Vent | Self::NoAcid => "",
        }
    }

    /// Locale key of the statement.
    pub fn key(self) -> &'static str {
        match self {
            Self::P102 => "label-precaution-p102",
            Self::P280 => "label-precaution-p280",
            Self::P302P352 => "label-precaution-p302_p352",
            Self::P305P351P338 => "label-precaution-p305_p351_p338",
            Self::Vent => "label-precaution-vent",
            Self::NoAcid => "label-precaution-no_acid",
        }
    }
}

/// The hazard statements that apply: none for pulp that was tested clean and
/// is not alkaline; otherwise those of its possible residues.
pub fn hazards(residues: Residues, untested: bool) -> Vec<Hazard> {
    let chlorine = residues.hypochlorite && untested;
    let peroxide = residues.peroxide && untested;
    let mut hazards = Vec::new();
    if residues.alkaline || chlorine {
        hazards.push(Hazard::H315);
    }
    if residues.alkaline {
        hazards.push(Hazard::H318);
    } else if chlorine || peroxide {
        hazards.push(Hazard::H319);
    }
    if chlorine {
        hazards.push(Hazard::Euh031);
    }
    hazards
}

/// The precautionary statements that apply, in the order of printing. Pulp
/// that may contain peroxide must be vented.
pub fn precautions(residues: Residues, untested: bool) -> Vec<Precaution> {
    let hazards = hazards(residues, untested);
    if hazards.is_empty() {
        return Vec::new();
    }
    let mut list = vec![Precaution::P102, Precaution::P280];
    if hazards.contains(&Hazard::H315) {
        list.push(Precaution::P302P352);
    }
    list.push(Precaution::P305P351P338);
    if hazards.contains(&Hazard::Euh031) {
        list.push(Precaution::NoAcid);
    }
    if residues.peroxide && untested {
        list.push(Precaution::Vent);
    }
    list
}

/// Locale key of "danger" for serious eye damage, else of "warning"; `None`
/// without a hazard.
pub fn signal_word(hazards: &[Hazard]) -> Option<&'static str> {
    if hazards.contains(&Hazard::H318) {
        Some("label-signal-danger")
    } else if hazards.is_empty() {
        None
    } else {
        Some("label-signal-warning")
    }
}
