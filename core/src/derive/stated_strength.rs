//! Conversion between a stored strength and the bottle or powder of a calculation.
//! Not here: what age does to a strength, which is `bottle_strength`.

use crate::{
    bath::{Bleach, Bottle, LabelBasis, PeroxideBasis, PeroxideBottle, Powder, PowderBasis},
    journal::{Strength, StrengthBasis},
    quantity::{grams_per_millilitre, in_grams_per_millilitre, in_share, share},
};

impl Strength {
    /// As a bottle of hypochlorite, if that is what it states.
    pub fn bottle(&self) -> Option<Bottle> {
        let basis = LabelBasis::ALL
            .into_iter()
            .find(|basis| self.stated_as == StrengthBasis::from(*basis))?;
        let density = self.density_g_per_ml.map(|d| d.map(grams_per_millilitre));
        Some(Bottle { figure: self.figure, basis, density })
    }

    /// As a percarbonate powder, if that is what it states.
    pub fn powder(&self) -> Option<Powder> {
        let basis = PowderBasis::ALL
            .into_iter()
            .find(|basis| self.stated_as == StrengthBasis::from(*basis))?;
        Some(Powder { figure: self.figure.map(|percent| share(percent / 100.0)), basis })
    }

    /// As a bottle of peroxide, if that is what it states.
    pub fn peroxide_bottle(&self) -> Option<PeroxideBottle> {
        let basis = PeroxideBasis::ALL
            .into_iter()
            .find(|basis| self.stated_as == StrengthBasis::from(*basis))?;
        Some(PeroxideBottle { figure: self.figure, basis })
    }
}

impl From<PeroxideBasis> for StrengthBasis {
    fn from(basis: PeroxideBasis) -> Self {
        match basis {
            PeroxideBasis::ByMass => Self::HydrogenPeroxidePercentByMass,
            PeroxideBasis::ByVolume => Self::HydrogenPeroxidePercentByVolume,
        }
    }
}

impl Bleach {
    /// Its strength as the journal stores it.
    pub fn strength(&self) -> Strength {
        match self {
            Bleach::Hypochlorite(bottle) => Strength {
                figure: bottle.figure,
                stated_as: bottle.basis.into(),
                density_g_per_ml: bottle.density.map(|d| d.map(in_grams_per_millilitre)),
            },
            Bleach::Peroxide(bottle) => Strength {
                figure: bottle.figure,
                stated_as: bottle.basis.into(),
                density_g_per_ml: None,
            },
            Bleach::Percarbonate(powder) => Strength {
                figure: powder.figure.map(|share| in_share(share) * 100.0),
                stated_as: powder.basis.into(),
                density_g_per_ml: None,
            },
        }
    }
}

impl From<LabelBasis> for StrengthBasis {
    fn from(basis: LabelBasis) -> Self {
        match basis {
            LabelBasis::NaoclByMass => Self::NaoclPercentByMass,
            LabelBasis::NaoclByVolume => Self::NaoclPercentByVolume,
            LabelBasis::ChlorineByMass => Self::AvailableChlorinePercentByMass,
            LabelBasis::ChlorineByVolume => Self::AvailableChlorinePercentByVolume,
            LabelBasis::ChlorineGramsPerLitre => Self::AvailableChlorineGPerL,
        }
    }
}

impl From<PowderBasis> for StrengthBasis {
    fn from(basis: PowderBasis) -> Self {
        match basis {
            PowderBasis::Percarbonate => Self::PercarbonatePercentByMass,
            PowderBasis::Peroxide => Self::HydrogenPeroxidePercentByMass,
            PowderBasis::ActiveOxygen => Self::ActiveOxygenPercentByMass,
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;

    #[test]
    fn a_stored_strength_converts_back_to_the_same_bleach() {
        for basis in LabelBasis::ALL {
            let bottle = Bottle::labelled(5.0, basis);
            let stored = Bleach::Hypochlorite(bottle).strength();
            assert_eq!(stored.bottle(), Some(bottle));
            assert_eq!(stored.powder(), None);
        }
        for basis in PowderBasis::ALL {
            let powder = Powder::labelled(share(0.12), basis);
            let stored = Bleach::Percarbonate(powder).strength();
            let back = stored.powder().unwrap();
            assert_eq!(back.basis, basis);
            assert!((in_share(back.figure.value) - 0.12).abs() < 1e-12);
            assert_eq!(stored.bottle(), None);
        }
        for basis in PeroxideBasis::ALL {
            let bottle = PeroxideBottle::labelled(6.0, basis);
            let stored = Bleach::Peroxide(bottle).strength();
            assert_eq!(stored.peroxide_bottle(), Some(bottle));
            assert_eq!(stored.bottle(), None);
        }
    }
}
