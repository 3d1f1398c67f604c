//! The cook before the bath: alkali on dry fibre, liquor, pot, heat, yield.

mod alkali;
mod arrive;
mod history;
mod severity;
mod yields;

pub use alkali::{CookAlkali, equivalent};
pub use arrive::{Arrival, ArriveRefusal, LIQUOR_PH, arrive};
pub use history::{own_cooks, table_yield};
pub use severity::{HeatPoint, boiling_point, relative_rate, severity};
pub use yields::{Cooked, expected_yield};

use crate::message::{Field, Message, Value};
use crate::quantity::{
    Known, Mass, MassConcentration, Ratio, Volume, grams, grams_per_litre, in_grams,
    in_millilitres, in_share, millilitres, share,
};

pub const FIBRE: Field = Field("cook-fibre");
pub const CHARGE: Field = Field("cook-charge");
pub const PURITY: Field = Field("cook-purity");
pub const LIQUOR: Field = Field("cook-liquor");
pub const POT: Field = Field("cook-pot");
pub const TEMPERATURE: Field = Field("cook-temperature");
pub const TIME: Field = Field("cook-time");

/// Share of a pot that may be filled: the rest is for foam and stirring
/// (common practice, no source).
pub const FILL: f64 = 0.75;

/// Density of the fibre wall, g/mL (cellulose; handbook value, from memory).
const FIBRE_DENSITY: f64 = 1.5;

/// Hot in spent alkali for this long or more, pulp darkens: unaffected at 2 and
/// 4 h, 10–18 % darker at 6–8 h (alkali darkening of semichemical pulp, Western
/// Michigan University thesis 167).
const DARKENING_HOURS: f64 = 6.0;

/// A cook to be planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cook {
    /// Oven-dry raw fibre.
    pub dry_fibre: Known<Mass>,
    pub alkali: CookAlkali,
    /// Alkali on dry fibre, as pure sodium carbonate or sodium hydroxide: what
    /// the recipe books mean by "20 % soda ash".
    pub charge: Known<Ratio>,
    /// Share of the product that is what its name says.
    pub purity: Ratio,
    /// Litres of liquor for a kilogram of dry fibre.
    pub litres_per_kilogram: f64,
    /// Brim volume of the pot.
    pub pot: Volume,
    pub celsius: f64,
    pub minutes: f64,
}

/// What to weigh, pour and expect.
#[derive(Clone, Debug, PartialEq)]
pub struct CookPlan {
    /// Product to weigh, all loads together.
    pub alkali: Known<Mass>,
    /// The charge as Na2O on dry fibre, by which soda ash and lye compare.
    pub as_sodium_oxide: Ratio,
    /// Water, all loads together.
    pub water: Volume,
    /// How many times to fill the pot.
    pub loads: u32,
    /// Room that one load takes in the pot.
    pub load_volume: Volume,
    /// Alkali at the start, in the liquor, as pure Na2CO3 or NaOH.
    pub strength: MassConcentration,
    /// Relative severity: hours at 100 °C that would do the same by Vroom's
    /// temperature law.
    pub severity: f64,
    pub remarks: Vec<Message>,
}

/// Why there is no cook plan.
#[derive(Clone, Debug, PartialEq)]
pub enum CookRefusal {
    NoFibre {
        given: Mass,
    },
    /// Outside 1–60 % on dry fibre.
    BadCharge {
        given: Ratio,
    },
    BadPurity {
        given: Ratio,
    },
    /// Outside 5–50 L/kg.
    BadLiquorRatio {
        given: f64,
    },
    /// Not even a hundred grams of fibre fit.
    PotTooSmall {
        given: Volume,
    },
    /// Outside 20–130 °C.
    BadTemperature {
        given: f64,
    },
    /// Nothing or less, or over two days.
    BadTime {
        minutes: f64,
    },
}

impl CookRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        let new = Message::new;
        match self {
            Self::NoFibre { given } => {
                new("cook-refusal-no_fibre").beside(FIBRE).with("given", Value::Mass(*given))
            }
            Self::BadCharge { given } => new("cook-refusal-bad_charge")
                .beside(CHARGE)
                .with("given", Value::Share(in_share(*given)))
                .with("min", Value::Share(0.01))
                .with("max", Value::Share(0.6)),
            Self::BadPurity { given } => new("cook-refusal-bad_purity")
                .beside(PURITY)
                .with("given", Value::Share(in_share(*given))),
            Self::BadLiquorRatio { given } => new("cook-refusal-bad_liquor_ratio")
                .beside(LIQUOR)
                .with("given", Value::Number(*given))
                .with("min", Value::Number(5.0))
                .with("max", Value::Number(50.0)),
            Self::PotTooSmall { given } => {
                new("cook-refusal-pot_too_small").beside(POT).with("given", Value::Volume(*given))
            }
            Self::BadTemperature { given } => new("cook-refusal-bad_temperature")
                .beside(TEMPERATURE)
                .with("given", Value::Celsius(*given))
                .with("min", Value::Celsius(20.0))
                .with("max", Value::Celsius(130.0)),
            Self::BadTime { minutes } => {
                new("cook-refusal-bad_time").beside(TIME).with("given", Value::Minutes(*minutes))
            }
        }
    }
}

impl Cook {
    /// Alkali, water, loads and severity.
    ///
    /// The liquor ratio counts all water; water inside a soaked lump is part of it.
    ///
    /// # Errors
    /// [`CookRefusal`] names the field.
    pub fn plan(&self) -> Result<CookPlan, CookRefusal> {
        self.check()?;
        let fibre = in_grams(self.dry_fibre.value);
        let product = |fibre: Mass, charge: Ratio| {
            grams(
                in_grams(fibre) * in_share(charge)
                    / (in_share(self.purity) * self.alkali.pure_share()),
            )
        };
        let water = fibre * self.litres_per_kilogram;
        let bulk = water + fibre / FIBRE_DENSITY;
        let loads = (bulk / (FILL * in_millilitres(self.pot))).ceil().max(1.0);
        Ok(CookPlan {
            alkali: Known {
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

    fn check(&self) -> Result<(), CookRefusal> {
        for given in [self.dry_fibre.low, self.dry_fibre.value, self.dry_fibre.high] {
            if !(in_grams(given).is_finite() && in_grams(given) > 0.0) {
                return Err(CookRefusal::NoFibre { given });
            }
        }
        for given in [self.charge.low, self.charge.value, self.charge.high] {
            if !(0.01..=0.6).contains(&in_share(given)) {
                return Err(CookRefusal::BadCharge { given });
            }
        }
        let purity = in_share(self.purity);
        if !(purity > 0.0 && purity <= 1.0) {
            return Err(CookRefusal::BadPurity { given: self.purity });
        }
        let ratio = self.litres_per_kilogram;
        if !(5.0..=50.0).contains(&ratio) {
            return Err(CookRefusal::BadLiquorRatio { given: ratio });
        }
        let pot = in_millilitres(self.pot);
        if !(pot.is_finite() && FILL * pot >= 100.0 * (ratio + 1.0 / FIBRE_DENSITY)) {
            return Err(CookRefusal::PotTooSmall { given: self.pot });
        }
        if !(20.0..=130.0).contains(&self.celsius) {
            return Err(CookRefusal::BadTemperature { given: self.celsius });
        }
        if !(self.minutes > 0.0 && self.minutes <= 48.0 * 60.0) {
            return Err(CookRefusal::BadTime { minutes: self.minutes });
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
            remarks.push(
                Message::new("cook-remark-pressure").with("celsius", Value::Celsius(self.celsius)),
            );
        }
        if loads > 1 {
            remarks
                .push(Message::new("cook-remark-split").with("loads", Value::Count(loads.into())));
        }
        if self.minutes >= DARKENING_HOURS * 60.0 {
            remarks.push(
                Message::new("cook-remark-darkening")
                    .with("limit", Value::Minutes(DARKENING_HOURS * 60.0)),
            );
        }
        remarks.push(Message::new("cook-remark-severity_limits"));
        remarks
    }
}
