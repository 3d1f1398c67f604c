//! Exact doses of small pots. Between the pots of a trial only differences count, so each dose is
//! within 3 % of its aim: directly where a syringe or a scale shows that, else all pots of one
//! bleach from one stock solution.

use crate::bath::{BleachAmount, Dose};
use crate::quantity::{Mass, Resolution, Volume, grams, in_grams, in_millilitres, millilitres};

/// What a pot needs, by its plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PotNeed {
    /// Pots of one bleach share its stock solution.
    pub of_bleach: usize,
    pub dose: BleachAmount,
    /// Soda ash of a peroxide bath.
    pub soda_ash: Option<Mass>,
    /// Water to add, that of the bleach's solution included.
    pub water: Volume,
}

impl PotNeed {
    /// By the values of a plan, without their ranges: those are the same for all pots.
    pub fn of(of_bleach: usize, plan: &crate::bath::Plan) -> Self {
        let dose = match &plan.dose {
            Dose::Bottle(volume) => BleachAmount::Bottle(volume.value),
            Dose::Powder(mass) => BleachAmount::Powder(mass.value),
        };
        Self {
            of_bleach,
            dose,
            soda_ash: plan.soda_ash.map(|mass| mass.value),
            water: plan.water_volume.value,
        }
    }
}

/// How one amount is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SmallDose {
    Direct(BleachAmount),
    /// Of the stock solution of its bleach, or of soda ash.
    Stock(Volume),
}

/// A solution that is mixed once for all pots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// `None` for that of soda ash, which every bleach shares.
    pub of_bleach: Option<usize>,
    /// What is measured into it.
    pub active: BleachAmount,
    /// Water to mix it with.
    pub water: Volume,
    /// What that makes: more than all pots take.
    pub makes: Volume,
}

/// What goes into one pot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PotDose {
    pub bleach: SmallDose,
    /// The bleach in it, as a record has it.
    pub holds: BleachAmount,
    pub soda_ash: Option<SmallDose>,
    /// Water to measure besides.
    pub water: Volume,
}

/// The doses of a trial, in the order of the needs.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialDoses {
    pub stocks: Vec<Stock>,
    pub pots: Vec<PotDose>,
}

/// A dose that no syringe, scale or solution measures.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum DoseError {
    /// A pot whose bath is too small.
    #[error("a pot is too small to measure its dose within 3 %")]
    PotTooSmall { water: Volume },
}

/// Largest error of a dose, as a part of it (own choice: a tenth of the step between charges of
/// 1 % and 1.5 %, or less).
const OFF: f64 = 0.03;
/// Share of a stock solution that is mixed beyond what the pots take.
const SPARE: f64 = 1.1;
/// Share of a pot's water that a stock solution may bring: the pulp is stirred into the rest.
const MOST_OF_WATER: f64 = 0.8;
/// Strengths of stock solutions, the strongest first, so that the pot's own water changes least:
/// volume of bleach in a volume.
const OF_BOTTLE: [f64; 4] = [0.5, 0.2, 0.1, 0.02];
/// Grams of powder or soda ash in a millilitre: below 5 %, well under the solubility of either
/// (percarbonate 140 g/L at 20 °C).
const OF_POWDER: [f64; 3] = [0.05, 0.02, 0.01];

/// The doses of all pots.
///
/// # Errors
/// [`DoseError`] with the water of the smallest pot that cannot be measured.
pub fn trial_doses(needs: &[PotNeed]) -> Result<TrialDoses, DoseError> {
    let mut stocks = Vec::new();
    let mut bleach = vec![None; needs.len()];
    let mut bleaches: Vec<usize> = needs.iter().map(|need| need.of_bleach).collect();
    bleaches.sort_unstable();
    bleaches.dedup();
    for of_bleach in bleaches {
        let pots: Vec<usize> =
            (0..needs.len()).filter(|&nth| needs[nth].of_bleach == of_bleach).collect();
        let amounts: Vec<Amount> =
            pots.iter().map(|&nth| Amount::of(needs[nth].dose, needs[nth].water)).collect();
        let (doses, stock) = measured(&amounts)?;
        stocks.extend(stock.map(|stock| Stock { of_bleach: Some(of_bleach), ..stock }));
        for (nth, dose) in pots.into_iter().zip(doses) {
            bleach[nth] = Some(dose);
        }
    }
    let with_soda: Vec<usize> =
        (0..needs.len()).filter(|&nth| needs[nth].soda_ash.is_some()).collect();
    let mut soda = vec![None; needs.len()];
    let amounts: Vec<Amount> = with_soda
        .iter()
        .filter_map(|&nth| {
            let mass = needs[nth].soda_ash?;
            Some(Amount::of(BleachAmount::Powder(mass), needs[nth].water * 0.5))
        })
        .collect();
    if !amounts.is_empty() {
        let (doses, stock) = measured(&amounts)?;
        stocks.extend(stock);
        for (nth, dose) in with_soda.into_iter().zip(doses) {
            soda[nth] = Some(dose.0);
        }
    }
    let pots = needs
        .iter()
        .zip(bleach)
        .zip(soda)
        .filter_map(|((need, bleach), soda_ash)| {
            let (bleach, holds) = bleach?;
            let brought = water_of(bleach, &stocks, Some(need.of_bleach))
                + soda_ash.map_or(0.0, |dose| water_of(dose, &stocks, None));
            let water = (in_millilitres(need.water) - brought).max(0.0);
            let (water, _) = Resolution::jug(millilitres(water)).round(water);
            Some(PotDose { bleach, holds, soda_ash, water: millilitres(water) })
        })
        .collect();
    Ok(TrialDoses { stocks, pots })
}

/// An amount to measure, in mL or g, and the most of a solution that may carry it, mL.
#[derive(Clone, Copy)]
struct Amount {
    value: f64,
    liquid: bool,
    room: f64,
}

impl Amount {
    fn of(amount: BleachAmount, water: Volume) -> Self {
        let (value, liquid) = match amount {
            BleachAmount::Bottle(volume) => (in_millilitres(volume), true),
            BleachAmount::Powder(mass) => (in_grams(mass), false),
        };
        Self { value, liquid, room: in_millilitres(water) * MOST_OF_WATER }
    }

    fn amount(self, value: f64) -> BleachAmount {
        if self.liquid {
            BleachAmount::Bottle(millilitres(value))
        } else {
            BleachAmount::Powder(grams(value))
        }
    }

    /// On the marks of a syringe, cylinder or scale; `None` if that is off by too much.
    fn direct(self) -> Option<f64> {
        let resolution = if self.liquid {
            Resolution::jug(millilitres(self.value))
        } else {
            Resolution::scale(grams(self.value))
        };
        close(resolution, self.value)
    }

    /// Of a solution with this much in a millilitre.
    fn taken(self, strength: f64) -> Option<f64> {
        let ml = self.value / strength;
        let taken = close(Resolution::jug(millilitres(ml)), ml)?;
        (taken <= self.room).then_some(taken)
    }
}

fn close(resolution: Resolution, value: f64) -> Option<f64> {
    let (rounded, error) = resolution.round(value);
    (rounded > 0.0 && error.abs() <= OFF).then_some(rounded)
}

type Measured = (Vec<(SmallDose, BleachAmount)>, Option<Stock>);

/// The doses of pots that share a bleach, and their stock solution if one is needed.
fn measured(amounts: &[Amount]) -> Result<Measured, DoseError> {
    let direct: Option<Vec<f64>> = amounts.iter().map(|amount| amount.direct()).collect();
    if let Some(direct) = direct {
        let dose = |(amount, value): (&Amount, f64)| {
            let amount = amount.amount(value);
            (SmallDose::Direct(amount), amount)
        };
        return Ok((amounts.iter().zip(direct).map(dose).collect(), None));
    }
    let liquid = amounts.iter().any(|amount| amount.liquid);
    let strengths: &[f64] = if liquid { &OF_BOTTLE } else { &OF_POWDER };
    let found = strengths.iter().find_map(|&strength| {
        let taken: Option<Vec<f64>> = amounts.iter().map(|amount| amount.taken(strength)).collect();
        Some((strength, taken?))
    });
    let Some((strength, taken)) = found else {
        let least = amounts.iter().map(|amount| amount.room).fold(f64::INFINITY, f64::min);
        return Err(DoseError::PotTooSmall { water: millilitres(least / MOST_OF_WATER) });
    };
    let stock = stock(strength, taken.iter().sum(), liquid);
    let dose = |(amount, ml): (&Amount, f64)| {
        (SmallDose::Stock(millilitres(ml)), amount.amount(ml * strength))
    };
    Ok((amounts.iter().zip(taken).map(dose).collect(), Some(stock)))
}

/// A solution for `taken` mL in all, in whole 5 mL of bleach or 1 g of powder.
fn stock(strength: f64, taken: f64, liquid: bool) -> Stock {
    let step = if liquid { 5.0 } else { 1.0 };
    let active = (taken * SPARE * strength / step).ceil() * step;
    let makes = active / strength;
    let (active, water) = if liquid {
        (BleachAmount::Bottle(millilitres(active)), makes - active)
    } else {
        // So thin a solution is as large as its water, within 2 %; it is filled up to the mark.
        (BleachAmount::Powder(grams(active)), makes)
    };
    Stock { of_bleach: None, active, water: millilitres(water), makes: millilitres(makes) }
}

/// Water that a dose brings, mL.
fn water_of(dose: SmallDose, stocks: &[Stock], of_bleach: Option<usize>) -> f64 {
    let SmallDose::Stock(taken) = dose else { return 0.0 };
    let stock = stocks.iter().find(|stock| stock.of_bleach == of_bleach);
    stock.map_or(0.0, |stock| {
        in_millilitres(taken) * in_millilitres(stock.water) / in_millilitres(stock.makes)
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn bottle(ml: f64, water: f64) -> PotNeed {
        let dose = BleachAmount::Bottle(millilitres(ml));
        PotNeed { of_bleach: 0, dose, soda_ash: None, water: millilitres(water) }
    }

    fn ml_of(amount: BleachAmount) -> f64 {
        match amount {
            BleachAmount::Bottle(volume) => in_millilitres(volume),
            BleachAmount::Powder(mass) => in_grams(mass),
        }
    }

    #[test]
    fn doses_that_a_syringe_shows_need_no_stock() {
        let doses = trial_doses(&[bottle(20.2, 400.0), bottle(40.1, 400.0)]).unwrap();
        assert!(doses.stocks.is_empty());
        assert_eq!(
            doses.pots[0].bleach,
            SmallDose::Direct(BleachAmount::Bottle(millilitres(20.0)))
        );
        assert_eq!(doses.pots[1].water, millilitres(400.0));
    }

    #[test]
    fn one_dose_too_small_takes_all_pots_of_its_bleach_to_one_stock() {
        let doses = trial_doses(&[bottle(1.3, 60.0), bottle(2.6, 60.0)]).unwrap();
        let [stock] = doses.stocks[..] else { panic!("{doses:?}") };
        // Every pot: what it holds is within 3 %, and its water and solution add up.
        for (pot, (need, water)) in doses.pots.iter().zip([(1.3, 60.0), (2.6, 60.0)]) {
            assert!((ml_of(pot.holds) / need - 1.0).abs() <= 0.03, "{pot:?}");
            let SmallDose::Stock(taken) = pot.bleach else { panic!("{pot:?}") };
            let all = in_millilitres(taken) - ml_of(pot.holds) + in_millilitres(pot.water);
            assert!((all - water).abs() <= 0.75, "{pot:?}");
        }
        let taken: f64 = doses.pots.iter().map(|pot| ml_of(pot.holds)).sum();
        assert!(ml_of(stock.active) >= taken, "{stock:?}");
    }

    #[test]
    fn soda_ash_has_a_stock_of_its_own() {
        let need = PotNeed { soda_ash: Some(grams(0.3)), ..bottle(25.0, 200.0) };
        let doses = trial_doses(&[need, PotNeed { soda_ash: Some(grams(0.62)), ..need }]).unwrap();
        assert_eq!(doses.stocks.iter().map(|stock| stock.of_bleach).collect::<Vec<_>>(), [None]);
        assert!(doses.pots.iter().all(|pot| matches!(pot.soda_ash, Some(SmallDose::Stock(_)))));
    }

    #[test]
    fn a_pot_that_is_too_small_is_refused() {
        assert!(trial_doses(&[bottle(0.004, 1.0)]).is_err());
    }

    proptest! {
        #[test]
        fn every_dose_is_close_and_every_stock_suffices(
            needs in prop::collection::vec((0.2..12.0f64, 0..2usize), 4..=12),
        ) {
            let needs: Vec<PotNeed> = needs
                .into_iter()
                .map(|(amount, of_bleach)| PotNeed {
                    of_bleach,
                    dose: if of_bleach == 0 {
                        BleachAmount::Bottle(millilitres(amount))
                    } else {
                        BleachAmount::Powder(grams(amount * 0.3))
                    },
                    soda_ash: None,
                    water: millilitres(420.0),
                })
                .collect();
            let Ok(doses) = trial_doses(&needs) else { return Ok(()) };
            for (need, pot) in needs.iter().zip(&doses.pots) {
                prop_assert!((ml_of(pot.holds) / ml_of(need.dose) - 1.0).abs() < 0.0301);
            }
            for stock in &doses.stocks {
                let pots = needs.iter().zip(&doses.pots).filter(|(need, _)| Some(need.of_bleach) == stock.of_bleach);
                let taken: f64 = pots.filter_map(|(_, pot)| match pot.bleach {
                    SmallDose::Stock(ml) => Some(in_millilitres(ml)),
                    SmallDose::Direct(_) => None,
                }).sum();
                prop_assert!(in_millilitres(stock.makes) >= taken);
            }
        }
    }
}
