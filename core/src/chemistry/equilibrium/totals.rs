//! Total concentrations of a bath: the input of the solver.

/// Total concentration of each component, whatever its form, mol/kg of water.
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
