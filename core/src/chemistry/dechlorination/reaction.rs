//! Reactions of the antichlor reagents with hypochlorite, as stoichiometry.
//!
//! Amounts of reagent and protons follow from the table; a test checks each row by atoms and
//! charge.

/// Atoms and charge of a molecule or ion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Formula {
    /// C, H, O, S, Cl.
    atoms: [i32; 5],
    charge: i32,
}

const fn formula(atoms: [i32; 5], charge: i32) -> Formula {
    Formula { atoms, charge }
}

const WATER: Formula = formula([0, 2, 1, 0, 0], 0);
const PROTON: Formula = formula([0, 1, 0, 0, 0], 1);
const HYDROXIDE: Formula = formula([0, 1, 1, 0, 0], -1);
#[cfg(test)]
const HYPOCHLORITE: Formula = formula([0, 0, 1, 0, 1], -1);
#[cfg(test)]
const CHLORIDE: Formula = formula([0, 0, 0, 0, 1], -1);
const OXYGEN: Formula = formula([0, 0, 2, 0, 0], 0);
const SULFUR: Formula = formula([0, 0, 0, 1, 0], 0);
const SULFATE: Formula = formula([0, 0, 4, 1, 0], -2);
const SULFITE: Formula = formula([0, 0, 3, 1, 0], -2);
const BISULFITE: Formula = formula([0, 1, 3, 1, 0], -1);
const METABISULFITE: Formula = formula([0, 0, 5, 2, 0], -2);
const THIOSULFATE: Formula = formula([0, 0, 3, 2, 0], -2);
const TETRATHIONATE: Formula = formula([0, 0, 6, 4, 0], -2);
const ASCORBIC_ACID: Formula = formula([6, 8, 6, 0, 0], 0);
const ASCORBATE: Formula = formula([6, 7, 6, 0, 0], -1);
const DEHYDROASCORBIC_ACID: Formula = formula([6, 6, 6, 0, 0], 0);
const DIKETOGULONATE: Formula = formula([6, 7, 7, 0, 0], -1);
const HYDROGEN_PEROXIDE: Formula = formula([0, 2, 2, 0, 0], 0);

/// One reaction of a reagent with hypochlorite in alkali. All hypochlorite becomes chloride.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reaction {
    reagent: (i32, Formula),
    hypochlorite: i32,
    /// Products besides chloride; reactants are negative.
    products: &'static [(i32, Formula)],
}

impl Reaction {
    /// Moles of reagent per mole of chlorine.
    pub fn reagent_per_chlorine(&self) -> f64 {
        f64::from(self.reagent.0) / f64::from(self.hypochlorite)
    }

    /// Moles of strong acid per mole of chlorine, counted from OCl-; base if negative.
    pub fn acid_per_chlorine(&self) -> f64 {
        self.per_chlorine(|formula| match *formula {
            PROTON => 1,
            HYDROXIDE => -1,
            _ => 0,
        })
    }

    /// Moles of divalent anions formed per mole of chlorine.
    pub fn divalent_per_chlorine(&self) -> f64 {
        self.per_chlorine(|formula| i32::from(formula.charge == -2))
    }

    fn per_chlorine(&self, weight: impl Fn(&Formula) -> i32) -> f64 {
        let sum: i32 = self.products.iter().map(|(moles, formula)| moles * weight(formula)).sum();
        f64::from(sum) / f64::from(self.hypochlorite)
    }

    /// Surplus of atoms and charge of the products over the reactants: zero.
    #[cfg(test)]
    fn imbalance(&self) -> Formula {
        let chloride = (self.hypochlorite, CHLORIDE);
        let reactants =
            [(-self.reagent.0, self.reagent.1), (-self.hypochlorite, HYPOCHLORITE), chloride];
        let mut sum = formula([0; 5], 0);
        for (moles, part) in reactants.iter().chain(self.products) {
            for (total, atoms) in sum.atoms.iter_mut().zip(part.atoms) {
                *total += moles * atoms;
            }
            sum.charge += moles * part.charge;
        }
        sum
    }
}

/// To sulfate in alkali with excess chlorine, to sulfur and sulfate, and to tetrathionate in
/// acid or with excess thiosulfate. The three occur together.
pub(super) const THIOSULFATE_REACTIONS: &[Reaction] = &[
    Reaction {
        reagent: (1, THIOSULFATE),
        hypochlorite: 4,
        products: &[(2, SULFATE), (2, PROTON), (-1, WATER)],
    },
    Reaction { reagent: (1, THIOSULFATE), hypochlorite: 1, products: &[(1, SULFUR), (1, SULFATE)] },
    Reaction {
        reagent: (2, THIOSULFATE),
        hypochlorite: 1,
        products: &[(1, TETRATHIONATE), (2, HYDROXIDE), (-1, WATER)],
    },
];

pub(super) const SULFITE_REACTIONS: &[Reaction] =
    &[Reaction { reagent: (1, SULFITE), hypochlorite: 1, products: &[(1, SULFATE)] }];

pub(super) const BISULFITE_REACTIONS: &[Reaction] = &[Reaction {
    reagent: (1, BISULFITE),
    hypochlorite: 1,
    products: &[(1, SULFATE), (1, PROTON)],
}];

pub(super) const METABISULFITE_REACTIONS: &[Reaction] = &[Reaction {
    reagent: (1, METABISULFITE),
    hypochlorite: 2,
    products: &[(2, SULFATE), (2, PROTON), (-1, WATER)],
}];

/// To dehydroascorbic acid, which hydrolyses to diketogulonate, an acid: 0.032 /min at pH 7
/// and 27 °C (half in 22 minutes; Analyst 2000, doi 10.1039/b007299k, abstract read), faster
/// in alkali.
pub(super) const ASCORBIC_ACID_REACTIONS: &[Reaction] = &[
    Reaction {
        reagent: (1, ASCORBIC_ACID),
        hypochlorite: 1,
        products: &[(1, DEHYDROASCORBIC_ACID), (1, WATER)],
    },
    Reaction {
        reagent: (1, ASCORBIC_ACID),
        hypochlorite: 1,
        products: &[(1, DIKETOGULONATE), (1, PROTON)],
    },
];

/// As [`ASCORBIC_ACID_REACTIONS`].
pub(super) const ASCORBATE_REACTIONS: &[Reaction] = &[
    Reaction {
        reagent: (1, ASCORBATE),
        hypochlorite: 1,
        products: &[(1, DEHYDROASCORBIC_ACID), (1, HYDROXIDE)],
    },
    Reaction { reagent: (1, ASCORBATE), hypochlorite: 1, products: &[(1, DIKETOGULONATE)] },
];

pub(super) const PEROXIDE_REACTIONS: &[Reaction] = &[Reaction {
    reagent: (1, HYDROGEN_PEROXIDE),
    hypochlorite: 1,
    products: &[(1, WATER), (1, OXYGEN)],
}];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chemistry::dechlorination::AntichlorReagent;

    #[test]
    fn every_reaction_balances_in_atoms_and_charge() {
        for reagent in AntichlorReagent::ALL {
            for reaction in reagent.reactions() {
                assert_eq!(reaction.imbalance(), formula([0; 5], 0), "{reagent:?}");
            }
        }
    }

    #[test]
    fn acid_per_mole_of_chlorine() {
        use AntichlorReagent::*;
        for (reagent, acid) in [
            (ThiosulfatePentahydrate, &[0.5, 0.0, -2.0][..]),
            (ThiosulfateAnhydrous, &[0.5, 0.0, -2.0]),
            (Sulfite, &[0.0]),
            (Bisulfite, &[1.0]),
            (Metabisulfite, &[1.0]),
            (AscorbicAcid, &[0.0, 1.0]),
            (SodiumAscorbate, &[-1.0, 0.0]),
            (Peroxide, &[0.0]),
        ] {
            let found: Vec<f64> =
                reagent.reactions().iter().map(Reaction::acid_per_chlorine).collect();
            assert_eq!(found, acid, "{reagent:?}");
        }
    }
}
