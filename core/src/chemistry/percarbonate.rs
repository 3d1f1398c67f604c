//! Sodium percarbonate, 2Na2CO3·3H2O2: how rich the powder is, what it gives, how it is lost.

use super::equilibrium::Constants;
use super::refusal::{Refusal, within};
use super::substance::{HYDROGEN_PEROXIDE, SODIUM_CARBONATE, SODIUM_PERCARBONATE, moles_per_litre};
use crate::message::Field;
use crate::quantity::{
    Basis, Kind, Known, Mass, MassConcentration, PH, Volume, grams_per_litre, in_grams,
    in_grams_per_litre, millilitres,
};
use uom::si::f64::MolarConcentration;

/// Active oxygen of the pure substance, by mass: 15.29 %.
pub const PURE_ACTIVE_OXYGEN: f64 = 1.5 * 15.999 / 157.010;
/// H2O2 of the pure substance, by mass: 32.50 %.
pub const PURE_PEROXIDE: f64 = 1.5 * 34.0147 / 157.010;
/// Hottest bath that the powder should meet, °C: above about 50 °C it decomposes by itself,
/// faster and faster (producer's safety and handling sheet; read).
pub const HOTTEST: f64 = 50.0;

pub const ACTIVE_OXYGEN: Field = Field("active_oxygen");
pub const POWDER: Field = Field("percarbonate");

/// How rich a powder is in percarbonate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Powder {
    /// Pure percarbonate, as a share of the powder's mass (0 to 1).
    pub share: Known<f64>,
}

impl Powder {
    /// From active oxygen by mass (0.135 for 13.5 %): a label, a data sheet, or a titration.
    ///
    /// # Errors
    /// Below zero, above the pure substance, or a range the wrong way round.
    pub fn from_active_oxygen(share: Known<f64>) -> Result<Self, Refusal> {
        Self::of(share.map(|oxygen| oxygen / PURE_ACTIVE_OXYGEN))
    }

    /// From "equivalent to so much H2O2" by mass.
    ///
    /// # Errors
    /// As [`Self::from_active_oxygen`].
    pub fn from_peroxide(share: Known<f64>) -> Result<Self, Refusal> {
        Self::of(share.map(|peroxide| peroxide / PURE_PEROXIDE))
    }

    /// From the share of percarbonate itself, such as a safety data sheet's range.
    ///
    /// # Errors
    /// As [`Self::from_active_oxygen`].
    pub fn of(share: Known<f64>) -> Result<Self, Refusal> {
        // Titrations of pure powder land a little above it.
        within(POWDER, Kind::Share, share.low, 0.0, 1.02)?;
        within(POWDER, Kind::Share, share.high, share.low, 1.02)?;
        within(POWDER, Kind::Share, share.value, share.low, share.high)?;
        Ok(Self { share })
    }

    /// A powder that says nothing: laundry boosters run from 15 to 30 % (from memory); with
    /// no figure nobody should count on more.
    pub fn unknown() -> Self {
        Self { share: Known { value: 0.22, low: 0.15, high: 0.30, basis: Basis::Assumed } }
    }

    /// Active oxygen by mass.
    pub fn active_oxygen(&self) -> Known<f64> {
        self.share.map(|share| share * PURE_ACTIVE_OXYGEN)
    }

    /// H2O2 released, by mass of powder.
    pub fn peroxide(&self) -> Known<f64> {
        self.share.map(|share| share * PURE_PEROXIDE)
    }

    /// What so much powder in a litre gives.
    pub fn released(&self, powder: MassConcentration) -> Released {
        let molar = |share: f64| SODIUM_PERCARBONATE.molar(powder * share);
        Released {
            percarbonate: self.share.map(molar),
            peroxide: self
                .share
                .map(|share| HYDROGEN_PEROXIDE.mass_concentration(molar(share) * 1.5)),
            soda_ash: self.share.map(|share| SODIUM_CARBONATE.mass_concentration(molar(share))),
        }
    }

    /// Oxygen that so much powder gives off when all of it is spent, at a temperature in °C
    /// and one atmosphere: half a mole for each H2O2, 117 L per kg of the pure at 25 °C.
    pub fn oxygen(&self, powder: Mass, celsius: f64) -> Known<Volume> {
        /// L·atm/(mol·K).
        const GAS: f64 = 0.082_057;
        self.share.map(|share| {
            let moles = in_grams(powder) * share * 0.75 / SODIUM_PERCARBONATE.grams_per_mole;
            millilitres(1000.0 * moles * GAS * (celsius + 273.15))
        })
    }
}

/// What a powder gives to each litre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Released {
    /// As Na2CO3·1.5H2O2, for [`Mix::with_percarbonate`](super::equilibrium::Mix).
    pub percarbonate: Known<MolarConcentration>,
    pub peroxide: Known<MassConcentration>,
    /// From the percarbonate alone; soda ash that fills the powder comes on top.
    pub soda_ash: Known<MassConcentration>,
}

/// Most percarbonate that should be dissolved in a litre.
///
/// 140 g/L at 20 °C (ECHA registration dossier; read), 120 at 10 °C (from memory), in a
/// straight line below 20 °C. The 150 to 185 g/L reported for 30 to 40 °C (from memory) are
/// of liquor that is already decomposing, so warmer than 20 °C the cap stays at 140.
///
/// # Errors
/// Outside 5-80 °C.
pub fn solubility(celsius: f64) -> Result<MassConcentration, Refusal> {
    let celsius = within(crate::quantity::TEMPERATURE, Kind::Temperature, celsius, 5.0, 80.0)?;
    Ok(grams_per_litre(140.0 - 2.0 * (20.0 - celsius).max(0.0)))
}

/// Whether so much pure percarbonate goes into solution.
///
/// # Errors
/// More than [`solubility`], or a temperature outside 5-80 °C.
pub fn refuse_undissolved(percarbonate: MassConcentration, celsius: f64) -> Result<(), Refusal> {
    let most = in_grams_per_litre(solubility(celsius)?);
    within(POWDER, Kind::Concentration, in_grams_per_litre(percarbonate), 0.0, most)?;
    Ok(())
}

/// Temperature and pH of a peroxide liquor that stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    pub celsius: f64,
    pub ph: f64,
}

/// How many times as fast peroxide is lost at `to` as at `from`.
///
/// Rate = k[H2O2][HO2-] with 38 kJ/mol (9 kcal/mol), 20-110 °C, Stevens & Hsieh (1996;
/// abstract read). The range runs to 45 kJ/mol (Moldenius & Sjögren 1982, of bleaching;
/// read). A study of percarbonate found its fastest loss at pH 10.5, where metals ruled, so
/// the course with pH is for clean liquor. Only the ratio means anything: the rate itself
/// hangs on traces of metal.
///
/// # Errors
/// A temperature outside 5-80 °C or a pH outside 7-13.
pub fn relative_loss(from: Standing, to: Standing) -> Result<Known<f64>, Refusal> {
    const STEVENS: f64 = 38_000.0;
    const MOLDENIUS: f64 = 45_000.0;
    let speed = |standing: Standing| -> Result<f64, Refusal> {
        let ph = within(PH, Kind::Ph, standing.ph, 7.0, 13.0)?;
        let constant = Constants::at(standing.celsius)?.peroxide;
        let dissociated = constant / (constant + 10_f64.powf(-ph));
        Ok(dissociated * (1.0 - dissociated))
    };
    let forms = speed(to)? / speed(from)?;
    let warmth = |energy: f64| activation(energy, from.celsius, to.celsius);
    let (a, b) = (forms * warmth(STEVENS), forms * warmth(MOLDENIUS));
    Ok(Known { value: a, low: a.min(b), high: a.max(b), basis: Basis::Computed })
}

/// Arrhenius factor between two temperatures in °C for an activation energy in J/mol.
pub fn activation(joules_per_mole: f64, from_celsius: f64, to_celsius: f64) -> f64 {
    let per_kelvin = 1.0 / (from_celsius + 273.15) - 1.0 / (to_celsius + 273.15);
    (joules_per_mole / 8.314 * per_kelvin).exp()
}

/// Share of the peroxide left in made-up liquor after some minutes: from clean with a
/// chelant (0.0004 /min) to iron in it (0.0068 /min), Zhao et al. (2018), BioResources
/// 13:3922 (read). That is all that can be said; make it fresh. The middle is geometric.
///
/// # Errors
/// A time below zero or above 30 days.
pub fn left_in_liquor(minutes: f64) -> Result<Known<f64>, Refusal> {
    const CHELATED: f64 = 0.0004;
    const WITH_IRON: f64 = 0.0068;
    let minutes = within(super::decay::AGE, Kind::Duration, minutes, 0.0, 30.0 * 1440.0)?;
    let left = |per_minute: f64| (-per_minute * minutes).exp();
    Ok(Known {
        value: left((CHELATED * WITH_IRON).sqrt()),
        low: left(WITH_IRON),
        high: left(CHELATED),
        basis: Basis::Assumed,
    })
}

/// What makes a peroxide bath die early.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum EarlyDeath {
    /// Iron, manganese or copper, from water, plant or vessel.
    Metals,
    /// Calcium and magnesium throw down carbonate, which takes alkali and scales.
    HardWater,
    /// Above [`HOTTEST`].
    Heat,
    /// Enzymes of raw plant matter (catalase).
    Catalase,
}

impl EarlyDeath {
    /// All of them, the commonest first.
    pub const ALL: [Self; 4] = [Self::Metals, Self::HardWater, Self::Heat, Self::Catalase];

    /// Locale key of the words.
    pub fn key(self) -> &'static str {
        match self {
            Self::Metals => "peroxide-early_death-metals",
            Self::HardWater => "peroxide-early_death-hard_water",
            Self::Heat => "peroxide-early_death-heat",
            Self::Catalase => "peroxide-early_death-catalase",
        }
    }
}

/// Something that keeps a peroxide bath alive, with its usual dose on dry fibre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stabiliser {
    /// Locale key of its name.
    pub key: &'static str,
    /// Share of dry fibre.
    pub least: f64,
    pub most: f64,
    pub source: &'static str,
    /// Which early death it guards against.
    pub guards_against: EarlyDeath,
}

/// The usual stabilisers.
pub const STABILISERS: [Stabiliser; 3] = [
    Stabiliser {
        key: "stabiliser-sodium_silicate",
        least: 0.005,
        most: 0.03,
        source: "paperacademy.net 1267, 41 °Bé solution (read)",
        guards_against: EarlyDeath::Metals,
    },
    Stabiliser {
        key: "stabiliser-magnesium_sulfate",
        least: 0.0005,
        most: 0.001,
        source: "paperacademy.net 1267 (read)",
        guards_against: EarlyDeath::Metals,
    },
    Stabiliser {
        key: "stabiliser-chelant",
        least: 0.001,
        most: 0.005,
        source: "DTPA or EDTA, from memory",
        guards_against: EarlyDeath::Metals,
    },
];

/// Soda ash that hard water takes out of a bath as chalk: a mole for each mole of hardness,
/// hardness as CaCO3. An upper bound, since some calcium stays dissolved.
pub fn soda_lost_to_hardness(hardness: MassConcentration) -> MolarConcentration {
    moles_per_litre(in_grams_per_litre(hardness) / 100.087)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::grams;

    #[test]
    fn richer_than_pure_is_refused() {
        let known = |share| Known::exact(share, Basis::Label);
        assert!(Powder::of(known(1.5)).is_err());
        assert!(Powder::from_active_oxygen(known(0.17)).is_err());
        assert!(Powder::from_peroxide(known(-0.1)).is_err());
        assert!(Powder::from_active_oxygen(known(0.135)).is_ok());
    }

    #[test]
    fn a_silent_label_is_not_trusted_beyond_thirty_percent() {
        let unknown = Powder::unknown();
        assert!(unknown.share.high <= 0.30 && unknown.share.basis == Basis::Assumed);
        let gas = unknown.oxygen(grams(100.0), 25.0);
        assert!(gas.low < gas.value && gas.value < gas.high);
    }

    #[test]
    fn warm_water_does_not_raise_the_cap() {
        assert_eq!(solubility(60.0).unwrap(), solubility(20.0).unwrap());
        assert!(solubility(10.0).unwrap() < solubility(20.0).unwrap());
        assert!(refuse_undissolved(grams_per_litre(141.0), 40.0).is_err());
        assert!(refuse_undissolved(grams_per_litre(20.0), 40.0).is_ok());
    }

    #[test]
    fn loss_is_fastest_where_both_forms_are_present() {
        let at = |ph| Standing { celsius: 25.0, ph };
        let loss = |ph| relative_loss(at(10.0), at(ph)).unwrap().value;
        assert!(loss(11.65) > loss(10.5) && loss(11.65) > loss(12.8));
        assert!((loss(10.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn made_up_liquor_is_a_guess_between_bounds() {
        let day = left_in_liquor(1440.0).unwrap();
        assert!(day.low < 0.001 && day.high > 0.5);
        assert!(left_in_liquor(-1.0).is_err());
    }
}
