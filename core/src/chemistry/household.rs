//! What people have under the sink: what each product holds, and whether a bath may be planned
//! with it. Shares are of mass. Strength today is in [`bottle`](super::bottle), the plan in
//! [`bath`](crate::bath).

use super::compatibility::Ingredient;
use super::oxidant::Oxidant;
use super::substance::{
    CALCIUM_HYPOCHLORITE, CHLORINE, ChlorineSource, SODIUM_CARBONATE,
    SODIUM_DICHLOROISOCYANURATE_DIHYDRATE, TRICHLOROISOCYANURIC_ACID,
};
use crate::message::{Field, Message, Value};
use crate::quantity::{
    Basis, Estimate, Mass, MassConcentration, OutOfRange, QuantityKind, Volume, grams,
    grams_per_litre, in_grams, in_grams_per_litre, in_millilitres,
};
use strum::IntoStaticStr;

/// Strongest hydrogen peroxide that a bath is planned with, share by mass: stronger burns skin
/// and feeds fire, and is not sold to the public in the EU (Regulation 2019/1148; from memory).
pub const STRONGEST_PEROXIDE: f64 = 0.12;

/// Strongest hydrogen peroxide that a label on the shelf may state, share by mass: stronger is
/// not sold to a studio (common practice, no source).
pub const STRONGEST_PEROXIDE_LABEL: f64 = 0.50;

/// Labels are nominal: error of a stated strength, as a part of it (common practice, no source).
/// Hypochlorite, which is lost with time, has a range of its own in `bath`.
pub const LABEL_OFF: f64 = 0.05;

/// A product by what its label says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(const_into_str, prefix = "household-", serialize_all = "snake_case")]
pub enum HouseholdProduct {
    /// Sodium hypochlorite, salt and water.
    PlainBleach,
    ThickenedBleach,
    /// With perfume or detergent.
    ScentedBleach,
    /// Pool chlorine or bleaching powder.
    CalciumHypochlorite,
    Dichloroisocyanurate,
    Trichloroisocyanurate,
    /// Percarbonate and soda alone.
    PercarbonatePowder,
    /// With enzymes, brighteners or detergent.
    LaundryPowder,
    /// Peroxide with detergent, perfume and acid.
    OxygenBleachLiquid,
    /// Hydrogen peroxide and water.
    PeroxideLiquid,
    /// Hair developer.
    PeroxideCream,
    DrainCleaner,
    LimescaleRemover,
    Vinegar,
    AmmoniaCleaner,
    AlcoholOrAcetone,
}

/// How a product may be used in a bath.
#[derive(Clone, Debug, PartialEq)]
pub enum BathUse {
    /// By its strength, as this oxidant.
    Planned(Oxidant),
    /// Only as a settled clear stock solution ([`CalciumHypochloriteStock`]); the message says
    /// how.
    AsStockSolution(Message),
    /// Not at all, for this reason.
    Refused(Message),
}

impl HouseholdProduct {
    /// All, in the order to offer them.
    pub const ALL: [Self; 16] = [
        Self::PlainBleach,
        Self::ThickenedBleach,
        Self::ScentedBleach,
        Self::PercarbonatePowder,
        Self::LaundryPowder,
        Self::OxygenBleachLiquid,
        Self::PeroxideLiquid,
        Self::PeroxideCream,
        Self::CalciumHypochlorite,
        Self::Dichloroisocyanurate,
        Self::Trichloroisocyanurate,
        Self::DrainCleaner,
        Self::LimescaleRemover,
        Self::Vinegar,
        Self::AmmoniaCleaner,
        Self::AlcoholOrAcetone,
    ];

    /// Those that are no bleach, and have no place in a bath.
    pub const CLEANERS: &'static [Self] =
        &[Self::DrainCleaner, Self::LimescaleRemover, Self::AmmoniaCleaner, Self::AlcoholOrAcetone];

    /// Those that are sold for what this oxidant does, the plain one first.
    pub fn like(oxidant: Oxidant) -> &'static [Self] {
        match oxidant {
            Oxidant::Hypochlorite => &[
                Self::PlainBleach,
                Self::ThickenedBleach,
                Self::ScentedBleach,
                Self::CalciumHypochlorite,
                Self::Dichloroisocyanurate,
                Self::Trichloroisocyanurate,
            ],
            Oxidant::Percarbonate => &[Self::PercarbonatePowder, Self::LaundryPowder],
            Oxidant::Peroxide => {
                &[Self::PeroxideLiquid, Self::PeroxideCream, Self::OxygenBleachLiquid]
            }
        }
    }

    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        self.into_str()
    }

    /// What it holds that matters beside another product: all that it may hold.
    pub fn holds(self) -> &'static [Ingredient] {
        match self {
            Self::PlainBleach
            | Self::CalciumHypochlorite
            | Self::ThickenedBleach
            | Self::ScentedBleach => &[Ingredient::Hypochlorite],
            // The free acid of isocyanurates, and ammonia-like nitrogen.
            Self::Dichloroisocyanurate | Self::Trichloroisocyanurate => {
                &[Ingredient::Hypochlorite, Ingredient::Acid, Ingredient::Ammonia]
            }
            Self::PercarbonatePowder => &[Ingredient::Percarbonate, Ingredient::Soda],
            Self::LaundryPowder => &[Ingredient::Percarbonate, Ingredient::Soda],
            Self::OxygenBleachLiquid | Self::PeroxideLiquid | Self::PeroxideCream => {
                &[Ingredient::Peroxide]
            }
            // Some are lye with hypochlorite, some sulfuric acid.
            Self::DrainCleaner => &[Ingredient::Lye, Ingredient::Hypochlorite, Ingredient::Acid],
            Self::LimescaleRemover | Self::Vinegar => &[Ingredient::Acid],
            Self::AmmoniaCleaner => &[Ingredient::Ammonia],
            Self::AlcoholOrAcetone => &[Ingredient::Alcohol],
        }
    }

    /// Available chlorine, share by mass; `None` if it holds none, or its label gives it.
    ///
    /// Isocyanurates by formula, down by a tenth for what is sold; calcium hypochlorite 65 to
    /// 70 %, bleaching powder 20 to 35 % (a field guide to water disinfection; read).
    pub fn available_chlorine(self) -> Option<Estimate<f64>> {
        let by_formula = |source: ChlorineSource| {
            let share = source.available_chlorine();
            Estimate { value: share, low: 0.9 * share, high: share, basis: Basis::Computed }
        };
        match self {
            Self::CalciumHypochlorite => {
                Some(Estimate { value: 0.65, low: 0.20, high: 0.78, basis: Basis::Assumed })
            }
            Self::Dichloroisocyanurate => Some(by_formula(SODIUM_DICHLOROISOCYANURATE_DIHYDRATE)),
            Self::Trichloroisocyanurate => Some(by_formula(TRICHLOROISOCYANURIC_ACID)),
            _ => None,
        }
    }

    /// Whether a bath may be planned with it. A bottle of peroxide has a limit too
    /// ([`PeroxideBottle::check`](crate::bath::PeroxideBottle::check)).
    pub fn bath_use(self) -> BathUse {
        let refused = |key| BathUse::Refused(Message::new(key));
        match self {
            Self::PlainBleach => BathUse::Planned(Oxidant::Hypochlorite),
            Self::PercarbonatePowder => BathUse::Planned(Oxidant::Percarbonate),
            Self::PeroxideLiquid => BathUse::Planned(Oxidant::Peroxide),
            Self::CalciumHypochlorite => {
                BathUse::AsStockSolution(Message::new("household-note-calcium_hypochlorite"))
            }
            Self::ThickenedBleach => refused("household-refusal-thickened_bleach"),
            Self::ScentedBleach => refused("household-refusal-scented_bleach"),
            Self::Dichloroisocyanurate | Self::Trichloroisocyanurate => {
                refused("household-refusal-isocyanurate")
            }
            Self::LaundryPowder => refused("household-refusal-laundry_powder"),
            Self::OxygenBleachLiquid => refused("household-refusal-oxygen_bleach_liquid"),
            Self::PeroxideCream => refused("household-refusal-peroxide_cream"),
            Self::DrainCleaner => refused("household-refusal-drain_cleaner"),
            Self::LimescaleRemover => refused("household-refusal-limescale_remover"),
            Self::Vinegar => refused("household-refusal-vinegar"),
            Self::AmmoniaCleaner => refused("household-refusal-ammonia_cleaner"),
            Self::AlcoholOrAcetone => refused("household-refusal-alcohol_or_acetone"),
        }
    }
}

/// The refusal of peroxide that may have this share by mass.
pub fn peroxide_too_strong(share: f64) -> Message {
    Message::new("household-refusal-peroxide_too_strong")
        .with("given", Value::Share(share))
        .with("limit", Value::Share(STRONGEST_PEROXIDE))
}

pub const STOCK_POWDER: Field = Field("stock_powder");
pub const STOCK_VOLUME: Field = Field("stock_volume");
pub const STOCK_SHARE: Field = Field("stock_available_chlorine");

/// Strongest stock solution of calcium hypochlorite, g/L available chlorine. Field practice
/// makes 10 g/L (a recipe of 70 % powder, settled overnight; read); twice that is taken as the
/// most that still settles clear (own estimate). The salt itself dissolves to about 210 g/L
/// at 25 °C (from memory).
pub const STRONGEST_STOCK: f64 = 20.0;

/// A settled clear stock solution of calcium hypochlorite.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CalciumHypochloriteStock {
    /// In the clear liquor above the sediment.
    pub available_chlorine: Estimate<MassConcentration>,
    /// Lime and chalk left at the bottom, dry, which never go onto pulp.
    pub sediment: Estimate<Mass>,
    /// Dissolved calcium, which soda ash precipitates as chalk: least soda ash, per litre, to
    /// precipitate all of it.
    pub soda_for_calcium: MassConcentration,
    /// Hours to settle: at least six (the same recipe; read).
    pub settle_hours: f64,
}

/// The stock of `powder` in water, made up to `volume`; `share` is the powder's available
/// chlorine. Powder goes into water, never water onto powder.
///
/// # Errors
/// An amount that is not above zero, a share above the pure salt's 99 %, or more than
/// [`STRONGEST_STOCK`] anywhere in the range.
pub fn calcium_hypochlorite_stock(
    powder: Mass,
    volume: Volume,
    share: Estimate<f64>,
) -> Result<CalciumHypochloriteStock, OutOfRange> {
    /// Chlorine in the clear liquor over that in the powder: the sediment keeps some (a
    /// recipe: 10.5 g/L weighed in, about 10 found; read; range own estimate).
    const CLEAR: Estimate<f64> =
        Estimate { value: 0.95, low: 0.85, high: 1.0, basis: Basis::Assumed };
    let pure = CALCIUM_HYPOCHLORITE.available_chlorine();
    let share = share.check(STOCK_SHARE, QuantityKind::Share, 0.01, pure)?;
    let powder = OutOfRange::check(STOCK_POWDER, QuantityKind::Mass, in_grams(powder), 0.01, 1e5)?;
    let millilitres = in_millilitres(volume);
    let litres =
        OutOfRange::check(STOCK_VOLUME, QuantityKind::Volume, millilitres, 1.0, 1e6)? / 1000.0;
    let strength = |share: f64, clear: f64| powder * share * clear / litres;
    let most = strength(share.high, CLEAR.high);
    OutOfRange::check(STOCK_POWDER, QuantityKind::Concentration, most, 0.0, STRONGEST_STOCK)?;
    let (lime, least, greatest) = sediment_share(share.low);
    // Half a mole of calcium to each of hypochlorite, and as much again as chloride in
    // bleaching powder.
    let calcium = most / CHLORINE.grams_per_mole * if share.low < 0.5 { 1.0 } else { 0.5 };
    Ok(CalciumHypochloriteStock {
        available_chlorine: Estimate {
            value: grams_per_litre(strength(share.value, CLEAR.value)),
            low: grams_per_litre(strength(share.low, CLEAR.low)),
            high: grams_per_litre(most),
            basis: share.basis.max(CLEAR.basis),
        },
        sediment: Estimate {
            value: grams(powder * lime),
            low: grams(powder * least),
            high: grams(powder * greatest),
            basis: Basis::Assumed,
        },
        soda_for_calcium: grams_per_litre(calcium * SODIUM_CARBONATE.grams_per_mole),
        settle_hours: 6.0,
    })
}

/// Powder for a litre of stock that is nowhere in its range above this strength.
///
/// # Errors
/// As [`calcium_hypochlorite_stock`].
pub fn powder_per_litre(
    strength: MassConcentration,
    share: Estimate<f64>,
) -> Result<Mass, OutOfRange> {
    let wanted = in_grams_per_litre(strength);
    let kind = QuantityKind::Concentration;
    OutOfRange::check(STOCK_POWDER, kind, wanted, 0.01, STRONGEST_STOCK)?;
    OutOfRange::check(STOCK_SHARE, QuantityKind::Share, share.high, 0.01, 1.0)?;
    Ok(grams(wanted / share.high))
}

/// What does not dissolve, as a share of the powder: value, least, most. Pool powder 2 to 10 %,
/// bleaching powder below 50 % available chlorine 20 to 50 % (from memory).
fn sediment_share(available: f64) -> (f64, f64, f64) {
    if available < 0.5 { (0.35, 0.20, 0.50) } else { (0.06, 0.02, 0.10) }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::millilitres;
    use HouseholdProduct::*;

    fn share(value: f64) -> Estimate<f64> {
        Estimate::within(value, 0.05, Basis::Label)
    }

    #[test]
    fn only_four_products_reach_a_bath() {
        for product in HouseholdProduct::ALL {
            let found = product.bath_use();
            match product {
                PlainBleach => assert_eq!(found, BathUse::Planned(Oxidant::Hypochlorite)),
                PercarbonatePowder => assert_eq!(found, BathUse::Planned(Oxidant::Percarbonate)),
                PeroxideLiquid => assert_eq!(found, BathUse::Planned(Oxidant::Peroxide)),
                CalciumHypochlorite => assert!(matches!(found, BathUse::AsStockSolution(_))),
                _ => assert!(matches!(found, BathUse::Refused(_)), "{product:?}"),
            }
            assert!(!product.holds().is_empty());
        }
    }

    #[test]
    fn the_first_like_each_oxidant_is_planned_as_it() {
        for oxidant in [Oxidant::Hypochlorite, Oxidant::Percarbonate, Oxidant::Peroxide] {
            let planned = HouseholdProduct::like(oxidant)[0].bath_use();
            assert_eq!(planned, BathUse::Planned(oxidant));
        }
    }

    #[test]
    fn isocyanurates_clash_with_bleach_and_acid() {
        use crate::chemistry::compatibility::{ClashSeverity, clash};
        for product in [Dichloroisocyanurate, Trichloroisocyanurate] {
            for other in [Ingredient::Hypochlorite, Ingredient::Acid, Ingredient::Ammonia] {
                let refused = product.holds().iter().any(|held| {
                    clash(*held, other).is_some_and(|c| c.severity == ClashSeverity::Refused)
                });
                assert!(refused, "{product:?} with {other:?}");
            }
        }
    }

    #[test]
    fn available_chlorine_by_formula() {
        let of = |product: HouseholdProduct| product.available_chlorine().unwrap();
        assert!((of(Dichloroisocyanurate).value - 0.554).abs() < 5e-4);
        assert!((of(Trichloroisocyanurate).value - 0.9153).abs() < 5e-4);
        let calcium = CALCIUM_HYPOCHLORITE.available_chlorine();
        assert!((calcium - 0.992).abs() < 5e-4 && of(CalciumHypochlorite).high < calcium);
    }

    #[test]
    fn stock_of_pool_powder() {
        // 1.5 kg of 70 % powder to 100 L: about 10 g/L (a recipe).
        let (powder, volume) = (grams(1500.0), millilitres(100_000.0));
        let stock = calcium_hypochlorite_stock(powder, volume, share(0.70)).unwrap();
        assert!((in_grams_per_litre(stock.available_chlorine.value) - 10.0).abs() < 0.1);
        assert!(in_grams_per_litre(stock.available_chlorine.high) > 10.5);
        assert!(in_grams(stock.sediment.high) <= 150.0);
        // 0.0777 mol/L of calcium.
        assert!((in_grams_per_litre(stock.soda_for_calcium) - 8.24).abs() < 0.02);
    }

    #[test]
    fn too_strong_a_stock_and_impossible_powder_are_errors() {
        let litre = millilitres(1000.0);
        assert!(calcium_hypochlorite_stock(grams(35.0), litre, share(0.70)).is_err());
        assert!(calcium_hypochlorite_stock(grams(10.0), litre, share(1.0)).is_err());
        assert!(calcium_hypochlorite_stock(grams(0.0), litre, share(0.70)).is_err());
        assert!(calcium_hypochlorite_stock(grams(10.0), millilitres(0.0), share(0.7)).is_err());
        assert!(powder_per_litre(grams_per_litre(21.0), share(0.70)).is_err());
    }

    #[test]
    fn powder_for_a_stock_is_never_above_the_strength_asked_for() {
        let asked = grams_per_litre(10.0);
        let powder = powder_per_litre(asked, share(0.65)).unwrap();
        let stock = calcium_hypochlorite_stock(powder, millilitres(1000.0), share(0.65)).unwrap();
        assert!(stock.available_chlorine.high <= asked * 1.000_001);
    }
}
