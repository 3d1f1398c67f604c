//! Washing by hand: stir the lump into clean water, let it soak, squeeze, repeat.
//!
//! The lump keeps `L` litres of water when it is squeezed; `W` litres of clean
//! water thin that to `L / (L + W)` of what it was, if mixing were perfect. It
//! never is: liquor inside the fibre walls needs time to come out, and alkali
//! sits on the fibre. So one rinse is taken to leave `(L / (L + W))^e`, where
//! `e` is learnt from this studio's own readings ([`efficiency`]), and each
//! solute falls towards what the tap already carries, never below it.
//!
//! * [`Wash::rinses_of`] counts rinses of a given size;
//! * [`compare`] sets the same water in one, two, three… rinses side by side;
//! * [`Wash::least_water`] and [`Wash::least_time`] choose count and size together;
//! * [`norden`] has the figures of merit that mills use.

mod alkali;
pub mod efficiency;
mod job;
pub mod norden;
mod plan;
mod record;
mod refusal;

pub use alkali::Alkali;
pub use efficiency::{Efficiency, ReadingPair};
pub use plan::{MOST_RINSES, Pace, RinsePlan, RinseStep, STIRRABLE, SplitRow, Wash, compare};
pub use record::{Record, STRIP_PH, learnt, own_dryness, usual_targets};
pub use refusal::{
    ALKALI, BUCKET, DRYNESS, ORGANICS, OXIDANT, PACE, SALT, TARGET, WATER, WET_MASS, WashRefusal,
};

use crate::quantity::{Basis, Known, Mass, MassConcentration, Ratio, grams, in_grams, in_share};

/// The driest that a person's hands or a small press leave a lump: 45 % solids.
/// Hydraulically pressed posts of sheets reach 30–45 % (from memory, no print
/// seen); a loose lump does not exceed them.
pub const DRIEST_SQUEEZE: f64 = 0.45;

/// A washable thing dissolved in the liquor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Solute {
    /// Available chlorine (as Cl2) or hydrogen peroxide, whichever was used.
    Oxidant,
    /// Soda ash or lye, in whichever terms the liquor was given.
    Alkali,
    /// Neutral salts, mostly sodium chloride and sulfate.
    Salt,
    /// What came out of the plant: the brown.
    Organics,
}

impl Solute {
    /// All four, in the order in which they are shown.
    pub const ALL: [Self; 4] = [Self::Oxidant, Self::Alkali, Self::Salt, Self::Organics];

    /// Locale key of the solute's name.
    pub fn word(self) -> &'static str {
        match self {
            Self::Oxidant => "wash-solute-oxidant",
            Self::Alkali => "wash-solute-alkali",
            Self::Salt => "wash-solute-salt",
            Self::Organics => "wash-solute-organics",
        }
    }
}

/// One figure for each solute that is known or asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PerSolute<T> {
    pub oxidant: Option<T>,
    pub alkali: Option<T>,
    pub salt: Option<T>,
    pub organics: Option<T>,
}

impl<T> Default for PerSolute<T> {
    fn default() -> Self {
        Self { oxidant: None, alkali: None, salt: None, organics: None }
    }
}

impl<T: Copy> PerSolute<T> {
    /// The figure for one solute.
    pub fn get(&self, solute: Solute) -> Option<T> {
        match solute {
            Solute::Oxidant => self.oxidant,
            Solute::Alkali => self.alkali,
            Solute::Salt => self.salt,
            Solute::Organics => self.organics,
        }
    }

    /// Puts a figure in.
    pub fn set(&mut self, solute: Solute, figure: Option<T>) {
        match solute {
            Solute::Oxidant => self.oxidant = figure,
            Solute::Alkali => self.alkali = figure,
            Solute::Salt => self.salt = figure,
            Solute::Organics => self.organics = figure,
        }
    }
}

/// What is in the liquor that the lump holds, per litre.
pub type Liquor = PerSolute<Known<MassConcentration>>;

/// How little of each solute may be left, per litre of the water still held.
pub type Targets = PerSolute<MassConcentration>;

/// What the wash water itself brings, per litre: the floor that no number of
/// rinses goes below. A solute left out counts as absent from the tap.
pub type Tap = PerSolute<MassConcentration>;

/// The squeezed lump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lump {
    /// Mass of the lump as squeezed before the first rinse.
    pub wet_mass: Known<Mass>,
    /// Dryness that this person's squeeze reaches, the same each time:
    /// oven-dry mass over wet mass.
    pub dryness: Known<Ratio>,
}

impl Lump {
    /// Oven-dry fibre in the lump.
    pub fn dry_fibre(&self) -> Known<Mass> {
        combine(self.wet_mass, self.dryness, |wet, dry| wet * dry)
    }

    /// Water held after each squeeze; its range takes the wettest squeeze of
    /// the heaviest lump for the high end.
    pub fn held(&self) -> Known<Mass> {
        let (wet, dry) = (self.wet_mass, self.dryness);
        let water = |wet: Mass, dry: Ratio| grams(in_grams(wet) * (1.0 - in_share(dry)));
        Known {
            value: water(wet.value, dry.value),
            low: water(wet.low, dry.high),
            high: water(wet.high, dry.low),
            basis: worse(wet.basis, dry.basis),
        }
    }
}

fn combine(wet: Known<Mass>, dry: Known<Ratio>, product: impl Fn(f64, f64) -> f64) -> Known<Mass> {
    let of = |wet: Mass, dry: Ratio| grams(product(in_grams(wet), in_share(dry)));
    Known {
        value: of(wet.value, dry.value),
        low: of(wet.low, dry.low),
        high: of(wet.high, dry.high),
        basis: worse(wet.basis, dry.basis),
    }
}

/// The weaker of two kinds of evidence: a result is no better than its worst input.
pub(crate) fn worse(a: Basis, b: Basis) -> Basis {
    a.max(b)
}

#[cfg(test)]
mod tests;
