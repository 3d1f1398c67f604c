//! Total concentrations of a bath: the input of the solver.

/// Total concentration of each component, whatever its form: mol per litre of liquor in a
/// [`Mix`](super::Mix), mol per kilogram of water in the solver.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Totals {
    /// Net charge of the ions that take part in no reaction: sodium minus sulfate and the like.
    pub spectator_charge: f64,
    /// Sum of z² m over the same ions.
    pub spectator_strength: f64,
    /// Sum of m over the same ions.
    pub spectator_count: f64,
    /// Chloride, free or bound in Cl2.
    pub chloride: f64,
    /// Chlorine(+1): Cl2, HOCl and OCl-.
    pub hypochlorite: f64,
    pub carbonate: f64,
    pub peroxide: f64,
    pub acetate: f64,
    pub citrate: f64,
    /// Fixed CO2(aq) of a bath open to air; `carbonate` is then ignored.
    pub open_carbon_dioxide: Option<f64>,
}

impl Totals {
    /// Adds an inert monovalent cation such as sodium; an anion if negative.
    pub fn add_spectator(&mut self, amount: f64) {
        self.spectator_charge += amount;
        self.spectator_strength += amount.abs();
        self.spectator_count += amount.abs();
    }

    /// All amounts multiplied by `factor`, without `open_carbon_dioxide`.
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            spectator_charge: self.spectator_charge * factor,
            spectator_strength: self.spectator_strength * factor,
            spectator_count: self.spectator_count * factor,
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
