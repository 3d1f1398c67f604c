//! Prediction of the pH of the bath, and the alkali that brings it into range.
//!
//! What decides the pH is seldom measured: lye in the bottle or soda in the
//! powder, alkali carried over by the pulp, bicarbonate of tap water. Each enters
//! with its range, so that the result names the input to measure.

use super::{
    carry_over::{Alkalinity, CARRY_OVER_PH, CarryOver, ExpressedWater},
    request::{Bleach, PlanRequest},
};
use crate::{
    chemistry::{
        EquilibriumError,
        alkali::{self, Advice, AlkaliReagent, BICARBONATE, PhWindow, WATER_BICARBONATE},
        bottle::free_lye,
        equilibrium::{Constants, MAX_IONIC_STRENGTH, Mix},
        substance::{
            CHLORINE, HYDROGEN_PEROXIDE, SODIUM_CARBONATE, SODIUM_PERCARBONATE, in_moles_per_litre,
            moles_per_litre,
        },
    },
    message::{Field, Message, Value},
    quantity::{
        Basis, ComputedEstimate, Estimate, Mass, MassConcentration, UncertainInput, Volume, grams,
        grams_per_litre, in_grams_per_litre, in_millilitres, propagate_uncertainty,
    },
};

/// The pH of the bath as made up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PredictedPh {
    pub ph: ComputedEstimate<f64>,
    /// The range that the pH should be in.
    pub window: PhWindow,
    /// Whether the pulp carries alkali over; over-rinsed pulp does not.
    pub carries_alkali: bool,
    /// All the liquor.
    liquor: Volume,
    mix: Mix,
}

/// What to do about the predicted pH.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PhHelp {
    /// The pH is within its window.
    Leave,
    /// Too low: add this alkali to the whole bath, the low end of `mass` first.
    Add { alkali: AlkaliReagent, mass: Estimate<Mass> },
    /// Too high: rinse the pulp better, or make the bath larger. Never acid.
    TooHigh,
}

impl PredictedPh {
    /// Mass of `alkali` for the whole bath.
    ///
    /// # Errors
    /// A window that this alkali does not reach.
    pub fn help(&self, alkali: AlkaliReagent) -> Result<PhHelp, EquilibriumError> {
        let litres = in_millilitres(self.liquor) / 1000.0;
        let advice = alkali::from_reading(&self.mix, self.ph.estimate(), self.window, alkali)?;
        Ok(match advice {
            Advice::Leave { .. } => PhHelp::Leave,
            Advice::TooHigh { .. } => PhHelp::TooHigh,
            Advice::Add { alkali, dose, .. } => {
                let mass = dose.map(|dose| grams(in_grams_per_litre(dose) * litres));
                PhHelp::Add { alkali, mass }
            }
        })
    }

    /// Remarks on ends of the range outside the window.
    pub(super) fn remarks(&self) -> Vec<Message> {
        let PhWindow { low, high, .. } = self.window;
        let with_ph = |key, value| Message::new(key).with("ph", Value::Ph(value));
        let mut remarks = Vec::new();
        if self.ph.low < low && !self.carries_alkali {
            remarks.push(Message::new("remark-over_rinsed"));
        }
        if self.ph.value >= low && self.ph.low < low {
            remarks.push(with_ph("remark-ph_may_be_low", self.ph.low));
        }
        if self.ph.value <= high && self.ph.high > high {
            remarks.push(with_ph("remark-ph_may_be_high", self.ph.high));
        }
        remarks
    }
}

/// The mixture whose pH is predicted.
pub(super) struct Mixture {
    /// Available chlorine or H2O2 in all the liquor.
    pub(super) strength: MassConcentration,
    /// mL of a bottle, g of a powder.
    pub(super) dose: f64,
    pub(super) pulp_water: Volume,
    pub(super) liquor: Volume,
}

/// Predicts the pH of the bath of `request`.
///
/// # Errors
/// Outside 5 to 80 °C, or too much salt for the activity model anywhere in the
/// inputs' ranges.
pub(super) fn predict(
    request: &PlanRequest,
    mixture: &Mixture,
) -> Result<PredictedPh, EquilibriumError> {
    let model = PhModel::new(request, mixture)?;
    let mix = model.mix(&model.nominal())?;
    let nominal = mix.solve()?;
    let ph = |x: &[f64; 4]| {
        let solution = model.mix(x).and_then(|mix| mix.solve());
        [solution.map_or(f64::NAN, |solution| solution.ph())]
    };
    // An end of a range is beyond the model: no range can be given.
    let [ph] =
        propagate_uncertainty(&model.inputs, ph).ok_or(EquilibriumError::TooConcentrated {
            ionic_strength: nominal.ionic_strength(),
            highest: MAX_IONIC_STRENGTH,
        })?;
    let window = match request.bleach {
        Bleach::Hypochlorite(_) => PhWindow::HYPOCHLORITE,
        Bleach::Percarbonate(_) => PhWindow::PEROXIDE,
    };
    let carries_alkali = model.nominal_alkalinity.is_positive();
    Ok(PredictedPh { ph, window, carries_alkali, liquor: mixture.liquor, mix })
}

/// Field for the share of carbonate in carried-over alkali.
pub const CARRIED_ALKALI: Field = Field("carried_alkali");
/// Field for free lye in the bottle.
pub const BOTTLE_LYE: Field = Field("bottle_lye");
/// Field for the share of soda ash in what is not percarbonate.
pub const POWDER_FILLER: Field = Field("powder_filler");

/// The bath as a function of its uncertain inputs.
struct PhModel {
    /// pH of expressed water, carbonate share of its alkali, alkali of the
    /// bleach ([`BleachAlkali`]), bicarbonate of tap water (mol/L).
    inputs: [UncertainInput; 4],
    carry_over: CarryOver,
    /// Alkalinity of the pulp's water at the inputs' values.
    nominal_alkalinity: Alkalinity,
    /// The bleach alone.
    bleach: Mix,
    bleach_alkali: BleachAlkali,
    /// Shares of the liquor: water (tap and pulp), and the pulp's water.
    water: f64,
    pulp_water: f64,
}

/// Alkali that the bleach brings besides its active chemical.
#[derive(Clone, Copy)]
enum BleachAlkali {
    /// Volume of bottle per volume of liquor; times lye in the bottle, mol/L.
    Lye { bottle_share: f64 },
    /// g/L of powder that is not percarbonate; times its share of soda ash.
    SodaAsh { filler: f64 },
}

impl PhModel {
    fn new(request: &PlanRequest, mixture: &Mixture) -> Result<Self, EquilibriumError> {
        let constants = Constants::at(request.temperature.get())?;
        let carry_over = CarryOver::new()?;
        let liquor_share = |part: f64| part / in_millilitres(mixture.liquor);
        let dose = liquor_share(mixture.dose);
        let strength = in_grams_per_litre(mixture.strength);
        let (bleach, bleach_alkali, own, water) = match request.bleach {
            Bleach::Hypochlorite(_) => (
                Mix::at(constants).with_bleach(CHLORINE.molar(mixture.strength)),
                BleachAlkali::Lye { bottle_share: dose },
                UncertainInput::of(BOTTLE_LYE, free_lye(mixture.strength / dose)),
                1.0 - dose,
            ),
            Bleach::Percarbonate(_) => {
                let peroxide = in_moles_per_litre(HYDROGEN_PEROXIDE.molar(mixture.strength));
                let pure = strength / HYDROGEN_PEROXIDE.grams_per_mole / 1.5
                    * SODIUM_PERCARBONATE.grams_per_mole;
                (
                    Mix::at(constants).with_percarbonate(moles_per_litre(peroxide / 1.5)),
                    BleachAlkali::SodaAsh { filler: (1000.0 * dose - pure).max(0.0) },
                    UncertainInput::of(POWDER_FILLER, FILLER),
                    1.0,
                )
            }
        };
        let expressed = request.expressed_water.unwrap_or_else(ExpressedWater::unknown);
        let inputs = [
            UncertainInput::of(CARRY_OVER_PH, expressed.ph),
            UncertainInput::of(CARRIED_ALKALI, expressed.alkali.carbonate_share()),
            own,
            UncertainInput::of(WATER_BICARBONATE, BICARBONATE),
        ];
        let nominal_alkalinity = carry_over.alkalinity(expressed.ph.value, BICARBONATE.value)?;
        let pulp_water = liquor_share(in_millilitres(mixture.pulp_water)).min(1.0);
        Ok(Self {
            inputs,
            carry_over,
            nominal_alkalinity,
            bleach,
            bleach_alkali,
            water,
            pulp_water,
        })
    }

    fn nominal(&self) -> [f64; 4] {
        self.inputs.map(|input| input.value)
    }

    fn mix(&self, &[ph, carbonate, own, bicarbonate]: &[f64; 4]) -> Result<Mix, EquilibriumError> {
        // The most expensive step, and only two of the inputs affect it.
        let nominal = self.nominal();
        let alkalinity = if (ph, bicarbonate) == (nominal[0], nominal[3]) {
            self.nominal_alkalinity
        } else {
            self.carry_over.alkalinity(ph, bicarbonate)?
        };
        let (lye, ash) = alkalinity.divided(carbonate);
        let bleach = match self.bleach_alkali {
            BleachAlkali::Lye { bottle_share } => {
                self.bleach.with_lye(moles_per_litre(own * bottle_share))
            }
            BleachAlkali::SodaAsh { filler } => {
                self.bleach.with_soda_ash(SODIUM_CARBONATE.molar(grams_per_litre(own * filler)))
            }
        };
        Ok(bleach
            .with_baking_soda(moles_per_litre(bicarbonate * self.water))
            .with_lye(moles_per_litre(lye * self.pulp_water))
            .with_soda_ash(moles_per_litre(ash * self.pulp_water)))
    }
}

/// Share of soda ash in what is not percarbonate: laundry powders are filled with
/// it, pure powder hardly at all (from memory).
const FILLER: Estimate<f64> = Estimate { value: 0.5, low: 0.0, high: 1.0, basis: Basis::Assumed };

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::{
        bath::{
            BathAim, BathSize, Bottle, LabelBasis, Plan, PlanError, Powder, PowderBasis, Remedy,
            ResidualAlkali, plan,
        },
        chemistry::{Residual, compatibility::Ingredient},
        pulp::WetPulp,
        quantity::{Celsius, in_grams, share, weighed},
    };

    fn request(bleach: Bleach) -> PlanRequest {
        let dryness = Estimate::within(share(0.2), 0.1, Basis::Measured);
        let pulp = WetPulp::new(weighed(grams(1000.0)), dryness).unwrap();
        let (aim, size) = (BathAim::Charge(share(0.03)), BathSize::Consistency(share(0.05)));
        let at = Celsius::new(25.0).unwrap();
        PlanRequest { residual: Residual::None, ..PlanRequest::new(pulp, bleach, aim, size, at) }
    }

    fn bleach() -> Bleach {
        Bleach::Hypochlorite(Bottle::labelled(5.25, LabelBasis::NaoclByMass))
    }

    /// The plan for pulp whose expressed water has this pH.
    fn rinsed_to(ph: f64) -> Plan {
        let ph = Estimate { value: ph, low: ph - 0.5, high: ph + 0.5, basis: Basis::Strip };
        let expressed_water = Some(ExpressedWater { ph, alkali: ResidualAlkali::Soda });
        plan(&PlanRequest { expressed_water, ..request(bleach()) }).unwrap()
    }

    fn keys(plan: &Plan) -> Vec<&'static str> {
        plan.remarks.iter().map(|remark| remark.key).collect()
    }

    #[test]
    fn over_and_under_rinsing_move_the_predicted_ph() {
        let ph = |expressed| rinsed_to(expressed).ph.unwrap().ph;
        let (over, well, under) = (ph(7.0), ph(10.5), ph(11.5));
        assert!(over.value + 0.1 < well.value && well.value + 0.1 < under.value);
        assert!(over.low < PhWindow::HYPOCHLORITE.low);
        assert!(under.value > PhWindow::HYPOCHLORITE.high);
        assert!(keys(&rinsed_to(7.0)).contains(&"remark-over_rinsed"));
        assert!(!keys(&rinsed_to(10.0)).contains(&"remark-over_rinsed"));
        assert_eq!(rinsed_to(11.4).ph.unwrap().help(AlkaliReagent::SodaAsh), Ok(PhHelp::TooHigh));
    }

    #[test]
    fn untested_pulp_is_assumed_with_a_wide_range() {
        let unknown = plan(&request(bleach())).unwrap().ph.unwrap().ph;
        assert!(unknown.assumed && unknown.high - unknown.low > 1.0);
        assert!(unknown.dominant.is_some());
        let impossible =
            ExpressedWater { ph: Estimate::exact(15.0, Basis::Strip), ..ExpressedWater::unknown() };
        let refused = plan(&PlanRequest { expressed_water: Some(impossible), ..request(bleach()) })
            .unwrap_err();
        assert_eq!(refused.message().field, Some(CARRY_OVER_PH));
    }

    #[test]
    fn the_advised_alkali_brings_the_bath_to_its_aim() {
        // Little lye, no carry-over and soft water: a low pH.
        let predicted = rinsed_to(7.0).ph.unwrap();
        let slack = PredictedPh {
            ph: ComputedEstimate { value: 8.6, low: 8.3, high: 9.0, ..predicted.ph },
            ..predicted
        };
        let PhHelp::Add { mass, .. } = slack.help(AlkaliReagent::SodaAsh).unwrap() else {
            panic!()
        };
        assert!(mass.low < mass.value && mass.value < mass.high);
        let litres = in_millilitres(slack.liquor) / 1000.0;
        let ash = SODIUM_CARBONATE.molar(grams_per_litre(in_grams(mass.value) / litres));
        let slack_mix = slack.mix.with_strong_acid(-slack.mix.hidden_base(8.6).unwrap());
        let made = slack_mix.with_soda_ash(ash).solve().unwrap().ph();
        assert!((made - PhWindow::HYPOCHLORITE.aim).abs() < 1e-3, "{made}");
        assert!(slack.help(AlkaliReagent::BakingSoda).is_err());
    }

    #[test]
    fn pure_percarbonate_is_within_its_window() {
        let powder = Bleach::Percarbonate(Powder::labelled(share(0.325), PowderBasis::Peroxide));
        let ph = plan(&request(powder)).unwrap().ph.unwrap();
        assert!((10.3..10.9).contains(&ph.ph.value), "{ph:?}");
        assert_eq!(ph.window, PhWindow::PEROXIDE);
        assert_eq!(ph.help(AlkaliReagent::SodaAsh), Ok(PhHelp::Leave));
    }

    #[test]
    fn no_ph_is_predicted_outside_the_model() {
        let hot = PlanRequest { temperature: Celsius::new(90.0).unwrap(), ..request(bleach()) };
        let plan = plan(&hot).unwrap();
        assert!(matches!(plan.ph, Err(EquilibriumError::OutOfRange(_))));
    }

    #[test]
    fn incompatible_ingredients_are_refused() {
        use Ingredient::*;
        for what in [Peroxide, Percarbonate, Acid, Ammonia, Alcohol, LightMetal, HeavyMetal] {
            let with =
                PlanRequest { other_ingredients: vec![StainlessSteel, what], ..request(bleach()) };
            let refused = plan(&with).unwrap_err();
            assert!(matches!(refused.error, PlanError::Clash(c) if c.second == what), "{what:?}");
            assert_eq!(refused.remedies, [Remedy::LeaveOut(what)]);
            let left_out = plan(&refused.remedies[0].apply(&with)).unwrap();
            assert!(keys(&left_out).contains(&"note-clash"), "stainless steel is a remark");
        }
    }
}
