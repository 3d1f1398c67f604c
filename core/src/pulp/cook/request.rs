//! The plan of a cook: what to weigh, pour and expect.
//! Not here: the rinse after it, which is `rinse_ph`, and the yield (`cook_yield`).

use super::{CookAlkali, CookError, HeatPoint, severity};
use crate::message::{Message, Value};
use crate::pulp::{CELLULOSE_DENSITY, consistency::check_positive};
use crate::quantity::{
    Estimate, Mass, MassConcentration, Ratio, Volume, grams, grams_per_litre, in_grams,
    in_millilitres, in_share, millilitres, share,
};

/// A cook to be planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CookRequest {
    /// Oven-dry raw fibre.
    pub dry_fibre: Estimate<Mass>,
    pub alkali: CookAlkali,
    /// Alkali on dry fibre, as pure sodium carbonate or sodium hydroxide: "20 %
    /// soda ash" in recipe books.
    pub charge: Estimate<Ratio>,
    /// Share of the named substance in the product.
    pub purity: Ratio,
    /// Litres of liquor per kilogram of dry fibre.
    pub litres_per_kilogram: f64,
    /// Brim volume of the pot.
    pub pot: Volume,
    pub celsius: f64,
    pub minutes: f64,
}

/// What to weigh, pour and expect of a cook.
#[derive(Clone, Debug, PartialEq)]
pub struct CookPlan {
    /// Product to weigh, all loads together.
    pub alkali: Estimate<Mass>,
    /// The charge as Na2O on dry fibre, to compare soda ash and lye.
    pub as_sodium_oxide: Ratio,
    /// Water, all loads together.
    pub water: Volume,
    /// Number of pots to fill.
    pub loads: u32,
    /// Volume of one load in the pot.
    pub load_volume: Volume,
    /// Alkali in the liquor at the start, as pure Na2CO3 or NaOH.
    pub strength: MassConcentration,
    /// Relative severity: hours at 100 °C of the same effect by Vroom's
    /// temperature law.
    pub severity: f64,
    pub remarks: Vec<Message>,
}

/// What a first cook is usually done with: alkali on dry fibre, litres of liquor per kilogram, °C
/// and minutes (common practice, no source).
pub const USUAL_CHARGE: f64 = 0.20;
pub const USUAL_RATIO: f64 = 15.0;
pub const USUAL_CELSIUS: f64 = 98.0;
pub const USUAL_MINUTES: f64 = 120.0;

/// Share of a pot that may be filled; the rest is for foam and stirring
/// (common practice, no source).
pub const FILL: f64 = 0.75;

/// Pulp darkens in hot spent alkali from this time on: unaffected at 2 and 4 h,
/// 10–18 % darker at 6–8 h (alkali darkening of semichemical pulp, Western
/// Michigan University thesis 167).
const DARKENING_HOURS: f64 = 6.0;

impl CookRequest {
    /// Alkali, water, loads and severity.
    ///
    /// The liquor ratio counts all water, that inside soaked fibre included.
    ///
    /// # Errors
    /// [`CookError`] names the field.
    pub fn plan(&self) -> Result<CookPlan, CookError> {
        self.check()?;
        let fibre = in_grams(self.dry_fibre.value);
        let alkali_share = in_share(self.purity) * self.alkali.pure_share();
        let product = |fibre, charge| grams(in_grams(fibre) * in_share(charge) / alkali_share);
        let water = fibre * self.litres_per_kilogram;
        let bulk = water + fibre / CELLULOSE_DENSITY;
        let loads = (bulk / (FILL * in_millilitres(self.pot))).ceil().max(1.0);
        Ok(CookPlan {
            alkali: Estimate {
                value: product(self.dry_fibre.value, self.charge.value),
                low: product(self.dry_fibre.low, self.charge.low),
                high: product(self.dry_fibre.high, self.charge.high),
                basis: self.dry_fibre.basis.max(self.charge.basis),
            },
            as_sodium_oxide: share(in_share(self.charge.value) * self.alkali.sodium_oxide()),
            water: millilitres(water),
            loads: loads as u32,
            load_volume: millilitres(bulk / loads),
            strength: grams_per_litre(
                1000.0 * in_share(self.charge.value) / self.litres_per_kilogram,
            ),
            severity: severity(&[
                HeatPoint { minutes: 0.0, celsius: self.celsius },
                HeatPoint { minutes: self.minutes, celsius: self.celsius },
            ]),
            remarks: self.remarks(loads as u32),
        })
    }

    fn check(&self) -> Result<(), CookError> {
        check_positive(self.dry_fibre).map_err(|given| CookError::NoFibre { given })?;
        for given in [self.charge.low, self.charge.value, self.charge.high] {
            if !(0.01..=0.6).contains(&in_share(given)) {
                return Err(CookError::BadCharge { given });
            }
        }
        let purity = in_share(self.purity);
        if !(purity > 0.0 && purity <= 1.0) {
            return Err(CookError::BadPurity { given: self.purity });
        }
        let ratio = self.litres_per_kilogram;
        if !(5.0..=50.0).contains(&ratio) {
            return Err(CookError::BadLiquorRatio { given: ratio });
        }
        let pot = in_millilitres(self.pot);
        if !(pot.is_finite() && FILL * pot >= 100.0 * (ratio + 1.0 / CELLULOSE_DENSITY)) {
            return Err(CookError::PotTooSmall { given: self.pot });
        }
        if !(20.0..=130.0).contains(&self.celsius) {
            return Err(CookError::BadTemperature { given: self.celsius });
        }
        if !(self.minutes > 0.0 && self.minutes <= 48.0 * 60.0) {
            return Err(CookError::BadTime { minutes: self.minutes });
        }
        Ok(())
    }

    fn remarks(&self, loads: u32) -> Vec<Message> {
        let mut remarks = Vec::new();
        if self.alkali == CookAlkali::Lye {
            remarks.push(Message::new("cook-remark-lye"));
        }
        remarks.push(Message::new("cook-remark-no_aluminium"));
        if self.celsius > 101.0 {
            let celsius = Value::Celsius(self.celsius);
            remarks.push(Message::new("cook-remark-pressure").with("celsius", celsius));
        }
        if loads > 1 {
            let loads = Value::Count(loads.into());
            remarks.push(Message::new("cook-remark-split").with("loads", loads));
        }
        if self.minutes >= DARKENING_HOURS * 60.0 {
            let limit = Value::Minutes(DARKENING_HOURS * 60.0);
            remarks.push(Message::new("cook-remark-darkening").with("limit", limit));
        }
        remarks.push(Message::new("cook-remark-severity_limits"));
        remarks
    }
}
