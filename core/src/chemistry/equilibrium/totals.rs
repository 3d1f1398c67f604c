//! Total concentrations of a bath: the input of the solver.

use serde::{Deserialize, Serialize};

/// Total concentration of each component, whatever its form: mol per litre of liquor in a
/// [`Mix`](super::Mix), mol per kilogram of water in the solver.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct Totals {
    /// Na+.
    pub sodium: f64,
    /// SO4²- or another divalent anion that takes up no protons here.
    pub sulfate: f64,
    /// The unnamed anion of a strong acid, of charge -1.
    pub strong_anion: f64,
    /// Chloride, free or bound in Cl2.
    pub chloride: f64,
    /// Chlorine(+1): Cl2, HOCl and OCl-.
    pub hypochlorite: f64,
    pub carbonate: f64,
    pub peroxide: f64,
    pub acetate: f64,
    pub citrate: f64,
    /// Fixed activity of CO2 in a bath open to air; `carbonate` is then ignored.
    pub open_carbon_dioxide: Option<f64>,
}

impl Totals {
    /// Adds a strong base, as sodium; a strong acid, as its anion, if negative.
    pub fn add_strong_base(&mut self, amount: f64) {
        if amount > 0.0 {
            self.sodium += amount;
        } else {
            self.strong_anion -= amount;
        }
    }

    /// Net charge of the ions that take part in no reaction, without chloride.
    pub fn spectator_charge(&self) -> f64 {
        self.sodium - self.strong_anion - 2.0 * self.sulfate
    }

    /// Sum of z² m over the same ions.
    pub fn spectator_strength(&self) -> f64 {
        self.sodium + self.strong_anion + 4.0 * self.sulfate
    }

    /// Sum of m over the same ions.
    pub fn spectator_count(&self) -> f64 {
        self.sodium + self.strong_anion + self.sulfate
    }

    /// The sum of two, without `open_carbon_dioxide`.
    pub fn plus(&self, other: &Self) -> Self {
        Self {
            sodium: self.sodium + other.sodium,
            sulfate: self.sulfate + other.sulfate,
            strong_anion: self.strong_anion + other.strong_anion,
            chloride: self.chloride + other.chloride,
            hypochlorite: self.hypochlorite + other.hypochlorite,
            carbonate: self.carbonate + other.carbonate,
            peroxide: self.peroxide + other.peroxide,
            acetate: self.acetate + other.acetate,
            citrate: self.citrate + other.citrate,
            open_carbon_dioxide: None,
        }
    }

    /// All amounts multiplied by `factor`, without `open_carbon_dioxide`.
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            sodium: self.sodium * factor,
            sulfate: self.sulfate * factor,
            strong_anion: self.strong_anion * factor,
            chloride: self.chloride * factor,
            hypochlorite: self.hypochlorite * factor,
            carbonate: self.carbonate * factor,
            peroxide: self.peroxide * factor,
            acetate: self.acetate * factor,
            citrate: self.citrate * factor,
            open_carbon_dioxide: None,
        }
    }
}
