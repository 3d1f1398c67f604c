//! Alkali left in the water of pulp.

use crate::chemistry::alkali::Alkali;
use crate::chemistry::equilibrium::{EquilibriumError, Mix, Reagent};
use crate::chemistry::substance::{in_moles_per_litre, moles_per_litre};
use crate::quantity::{Estimate, MassConcentration, Volume};

/// Alkali in the water that the acid goes into.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residue {
    pub alkali: Alkali,
    pub evidence: AlkaliEvidence,
    /// All the water, the pulp's own included.
    pub volume: Estimate<Volume>,
    pub celsius: f64,
}

/// How the amount of alkali is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AlkaliEvidence {
    /// As pure Na2CO3 or NaOH, in water without other buffers.
    Strength(Estimate<MassConcentration>),
    /// pH as read, of tap water with the alkali in it. The tap's own bicarbonate (0 to 5
    /// mmol/L) takes up acid too: near pH 8 nearly all of it.
    Ph(Estimate<f64>),
}

/// Alkaline solutes of the water, mol/L.
#[derive(Clone, Copy)]
pub(super) struct DissolvedAlkali {
    pub alkali: f64,
    pub bicarbonate: f64,
    pub carbon_dioxide: f64,
}

impl DissolvedAlkali {
    /// Alkali alone, mol/L.
    pub fn pure(alkali: f64) -> Self {
        Self { alkali, bicarbonate: 0.0, carbon_dioxide: 0.0 }
    }
}

impl Residue {
    /// Solutes of water that reads `ph`, with `bicarbonate` mol/L from the tap.
    pub(super) fn solutes_at(
        &self,
        ph: f64,
        bicarbonate: f64,
    ) -> Result<DissolvedAlkali, EquilibriumError> {
        let tap = Mix::new(self.celsius)?.with_baking_soda(moles_per_litre(bicarbonate));
        let dose = |reagent| tap.dose(reagent, ph).map(in_moles_per_litre);
        let none = DissolvedAlkali { alkali: 0.0, bicarbonate, carbon_dioxide: 0.0 };
        // Below the pH of the tap there is no added alkali, but carbon dioxide.
        Ok(if ph > tap.solve()?.ph() {
            DissolvedAlkali { alkali: dose(self.alkali.reagent())?, ..none }
        } else {
            DissolvedAlkali { carbon_dioxide: dose(Reagent::CarbonDioxide)?, ..none }
        })
    }

    /// The water with all carbonate dissolved, and with all of it lost to the air.
    pub(super) fn closed_and_gone(
        &self,
        solutes: DissolvedAlkali,
    ) -> Result<[Mix; 2], EquilibriumError> {
        let water = Mix::new(self.celsius)?;
        let DissolvedAlkali { alkali, bicarbonate, carbon_dioxide } = solutes;
        let closed = water
            .with_baking_soda(moles_per_litre(bicarbonate))
            .with_carbon_dioxide(moles_per_litre(carbon_dioxide));
        let sodium = match self.alkali {
            Alkali::SodaAsh => 2.0 * alkali,
            Alkali::Lye => alkali,
        };
        let gone = water.with_lye(moles_per_litre(sodium + bicarbonate));
        Ok([closed.with(self.alkali.reagent(), moles_per_litre(alkali)), gone])
    }
}
