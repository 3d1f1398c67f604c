//! Prediction of the pH of the bath, and the alkali that brings it into range.

use super::{
    check::CheckedRequest,
    ph_model::{NominalBath, PhModel},
    request::PlanRequest,
    solve::SolvedBath,
};
use crate::{
    chemistry::{
        EquilibriumError,
        alkali::{self, Advice, AlkaliReagent, PhWindow, WINDOW_CELSIUS},
        equilibrium::{MAX_IONIC_STRENGTH, Mix, model_error},
    },
    message::{Message, Value},
    quantity::{
        ComputedEstimate, Estimate, Mass, Volume, grams, in_grams_per_litre, in_millilitres,
    },
};

/// The pH of the bath as made up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PredictedPh {
    /// At the bath's temperature.
    pub ph: ComputedEstimate<f64>,
    /// Of a sample cooled to 25 °C ([`WINDOW_CELSIUS`]), as a strip shows it. The window, the
    /// remarks and the help go by this.
    pub ph_at_25: ComputedEstimate<f64>,
    /// The range that the pH of the cooled sample should be in.
    pub window: PhWindow,
    /// Whether the pulp carries alkali over; over-rinsed pulp does not.
    pub carries_alkali: bool,
    pulp: PulpWater,
    /// Error of the solver itself, in pH either way; part of both ranges.
    pub model_error: f64,
    /// All the liquor.
    liquor: Volume,
    mix: Mix,
}

/// What is known of the pulp's own water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum PulpWater {
    Untested,
    MayBeAcid,
    Neutral,
}

impl PulpWater {
    fn of(request: &PlanRequest) -> Self {
        match &request.expressed_water {
            None => Self::Untested,
            Some(water) if water.may_be_acid() => Self::MayBeAcid,
            Some(_) => Self::Neutral,
        }
    }
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
    /// Whether the pH in the bath differs from that of a cooled sample by more than a meter's
    /// error, so that both must be shown.
    pub fn differs_when_cooled(&self) -> bool {
        (self.ph.value - self.ph_at_25.value).abs() > 0.1
    }

    /// Mass of `alkali` for the whole bath.
    ///
    /// # Errors
    /// A window that this alkali does not reach.
    pub fn help(&self, alkali: AlkaliReagent) -> Result<PhHelp, EquilibriumError> {
        let litres = in_millilitres(self.liquor) / 1000.0;
        let reading = self.ph_at_25.estimate();
        let advice = alkali::from_reading(&self.mix, reading, WINDOW_CELSIUS, self.window, alkali)?;
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
        match self.pulp {
            PulpWater::Untested => remarks.push(Message::new("remark-pulp_not_tested")),
            PulpWater::MayBeAcid => remarks.push(Message::new("remark-acid_pulp")),
            PulpWater::Neutral => {}
        }
        let ph = self.ph_at_25;
        if ph.low < low && !self.carries_alkali && self.pulp == PulpWater::Neutral {
            remarks.push(Message::new("remark-over_rinsed"));
        }
        if ph.value >= low && ph.low < low {
            remarks.push(with_ph("remark-ph_may_be_low", ph.low));
        }
        if ph.value <= high && ph.high > high {
            remarks.push(with_ph("remark-ph_may_be_high", ph.high));
        }
        remarks
    }
}

/// Predicts the pH of the bath of `checked`, measured out as in `bath`.
///
/// # Errors
/// Outside 5 to 80 °C, or too much salt for the activity model anywhere in the
/// inputs' ranges.
pub(super) fn predict(
    checked: &CheckedRequest,
    bath: &SolvedBath,
) -> Result<PredictedPh, EquilibriumError> {
    let model = PhModel::new(checked, bath)?;
    let NominalBath { mix, liquor, ionic_strength, carries_alkali } = *model.nominal();
    // An end of a range is beyond the model: no range can be given.
    let [ph, ph_at_25] = model
        .ph()
        .ok_or(EquilibriumError::TooConcentrated { ionic_strength, highest: MAX_IONIC_STRENGTH })?;
    Ok(PredictedPh {
        ph,
        ph_at_25,
        window: PhWindow::of(checked.request.bleach.oxidant()),
        carries_alkali,
        pulp: PulpWater::of(checked.request),
        model_error: model_error(ionic_strength),
        liquor,
        mix,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::{
        bath::{
            BathAim, BathSize, Bleach, Bottle, CARRY_OVER_PH, ExpressedWater, LabelBasis,
            PeroxideBasis, PeroxideBottle, Plan, PlanError, Powder, PowderBasis, Remedy,
            ResidualAlkali, plan,
        },
        chemistry::{
            Residual,
            compatibility::Ingredient,
            substance::{ACETIC_ACID, SODIUM_CARBONATE},
        },
        pulp::WetPulp,
        quantity::{Basis, Celsius, grams_per_litre, in_grams, share, weighed},
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
        let ph = |expressed| rinsed_to(expressed).ph.unwrap().ph_at_25;
        let (over, well, under) = (ph(7.0), ph(10.5), ph(11.5));
        assert!(over.value + 0.1 < well.value && well.value + 0.1 < under.value);
        assert!(over.low < PhWindow::HYPOCHLORITE.low);
        assert!(under.value > PhWindow::HYPOCHLORITE.high);
        assert!(keys(&rinsed_to(7.0)).contains(&"remark-over_rinsed"));
        assert!(!keys(&rinsed_to(10.0)).contains(&"remark-pulp_not_tested"));
        assert!(keys(&plan(&request(bleach())).unwrap()).contains(&"remark-pulp_not_tested"));
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
            ph_at_25: ComputedEstimate { value: 8.6, low: 8.3, high: 9.0, ..predicted.ph },
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
    fn peroxide_with_its_soda_ash_is_the_liquor_of_percarbonate() {
        let percarbonate = Powder::labelled(share(0.325), PowderBasis::Peroxide);
        let percarbonate = plan(&request(Bleach::Percarbonate(percarbonate))).unwrap();
        for percent in [3.0, 6.0, 12.0] {
            let bottle = PeroxideBottle::labelled(percent, PeroxideBasis::ByMass);
            let peroxide = plan(&request(Bleach::Peroxide(bottle))).unwrap();
            let ph = peroxide.ph.unwrap();
            let ratio = in_grams(peroxide.active.value) / in_grams(percarbonate.active.value);
            assert!((ratio - 1.0).abs() < 0.01, "{ratio}");
            assert!((ph.ph.value - percarbonate.ph.unwrap().ph.value).abs() < 0.03, "{ph:?}");
            let soda = in_grams(peroxide.soda_ash.unwrap().value);
            assert!((soda / in_grams(peroxide.active.value) - 2.0775).abs() < 1e-3);
            assert_eq!(ph.window, PhWindow::PEROXIDE);
        }
        assert_eq!(percarbonate.soda_ash, None);
    }

    #[test]
    fn a_hot_bath_is_judged_by_its_cooled_sample() {
        // 200 g of fibre with 3 % H2O2 at 5 % and 50 °C: no soda, though the pH in the bath is
        // below the window.
        let powder = Bleach::Percarbonate(Powder::labelled(share(0.325), PowderBasis::Peroxide));
        let hot = PlanRequest { temperature: Celsius::new(50.0).unwrap(), ..request(powder) };
        let ph = plan(&hot).unwrap().ph.unwrap();
        assert!(ph.ph.value < ph.window.low && ph.differs_when_cooled(), "{ph:?}");
        assert_eq!(ph.help(AlkaliReagent::SodaAsh), Ok(PhHelp::Leave));
        let cool = plan(&request(powder)).unwrap().ph.unwrap();
        assert!((cool.ph_at_25.value - ph.ph_at_25.value).abs() < 0.02);
        assert!(!cool.differs_when_cooled());
    }

    #[test]
    fn temperature_and_model_error_widen_the_ph() {
        let exact = |value| Estimate::exact(value, Basis::Measured);
        let expressed_water = Some(ExpressedWater { ph: exact(8.0), alkali: ResidualAlkali::Soda });
        let at = |celsius| {
            let temperature = Celsius::new(celsius).unwrap();
            let request = PlanRequest { expressed_water, temperature, ..request(bleach()) };
            plan(&request).unwrap().ph.unwrap()
        };
        for celsius in [6.0, 25.0, 45.0, 79.0] {
            let ph = at(celsius);
            for range in [ph.ph, ph.ph_at_25] {
                assert!(range.high - range.low > 1.9 * ph.model_error, "{ph:?}");
            }
        }
    }

    #[test]
    fn acid_pulp_stops_hypochlorite() {
        // A strip in 5 g/L of acetic acid.
        let acetic =
            Mix::new(20.0).unwrap().with_acetic_acid(ACETIC_ACID.molar(grams_per_litre(5.0)));
        let read = acetic.solve().unwrap().ph();
        for value in [read, 4.0, 6.4] {
            let ph = Estimate { value, low: value - 0.5, high: value + 0.5, basis: Basis::Strip };
            let expressed_water = Some(ExpressedWater { ph, alkali: ResidualAlkali::Soda });
            let acid = PlanRequest { expressed_water, ..request(bleach()) };
            let refused = plan(&acid).unwrap_err();
            assert!(matches!(refused.error, PlanError::AcidPulp { .. }), "{value}: {refused:?}");
            assert_eq!(refused.message().field, Some(CARRY_OVER_PH));
            assert_eq!(refused.remedies, [Remedy::RinsePulp, Remedy::SoakInSoda]);
            for remedy in refused.remedies {
                assert!(plan(&remedy.apply(&acid)).is_ok());
            }
        }
    }

    #[test]
    fn acid_pulp_lowers_the_ph_of_percarbonate() {
        let powder = Bleach::Percarbonate(Powder::labelled(share(0.325), PowderBasis::Peroxide));
        let with = |value| {
            let ph = Estimate { value, low: value - 0.5, high: value + 0.5, basis: Basis::Strip };
            let expressed_water = Some(ExpressedWater { ph, alkali: ResidualAlkali::Soda });
            plan(&PlanRequest { expressed_water, ..request(powder) }).unwrap()
        };
        let (acid, neutral) = (with(3.5), with(8.0));
        let ph = |plan: &Plan| plan.ph.unwrap().ph_at_25;
        assert!(ph(&acid).value < ph(&neutral).value - 0.05, "{:?}", ph(&acid));
        assert!(ph(&acid).low < ph(&neutral).low - 0.3, "{:?}", ph(&acid));
        assert!(keys(&acid).contains(&"remark-acid_pulp"));
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
