//! The ways that peroxide goes.

use super::dose::{checked, in_liquor};
use super::reagent::molar;
use super::{AntichlorRefusal, Found};
use crate::message::{Message, Value};
use crate::quantity::{Basis, Known, Mass, Ratio, Volume, in_share};

/// A way for peroxide to go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PeroxideRemoval {
    /// The enzyme that textile works use; near neutral, hand-warm, dose by its label.
    Catalase,
    Sulfite,
    Bisulfite,
    Metabisulfite,
    /// Kept warm and open until a strip reads zero.
    WaitWarm,
}

impl PeroxideRemoval {
    /// Every way, the gentlest first.
    pub const ALL: [Self; 5] =
        [Self::WaitWarm, Self::Catalase, Self::Sulfite, Self::Bisulfite, Self::Metabisulfite];

    /// Grams of pure reagent for a gram of H2O2 (SO3²⁻ + H2O2 → SO4²⁻ + H2O);
    /// `None` for the enzyme, which is not used up, and for waiting.
    pub fn grams_per_gram(self) -> Option<f64> {
        match self {
            Self::Catalase | Self::WaitWarm => None,
            Self::Sulfite => Some(molar::SULFITE / molar::H2O2),
            Self::Bisulfite => Some(molar::BISULFITE / molar::H2O2),
            Self::Metabisulfite => Some(molar::METABISULFITE / 2.0 / molar::H2O2),
        }
    }

    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::Catalase => "antichlor-peroxide-catalase",
            Self::Sulfite => "antichlor-reagent-sulfite",
            Self::Bisulfite => "antichlor-reagent-bisulfite",
            Self::Metabisulfite => "antichlor-reagent-metabisulfite",
            Self::WaitWarm => "antichlor-peroxide-wait_warm",
        }
    }
}

/// How to take the peroxide out.
#[derive(Clone, Debug, PartialEq)]
pub struct PeroxidePlan {
    pub way: PeroxideRemoval,
    /// Peroxide to take out, as H2O2.
    pub peroxide: Known<Mass>,
    /// Product to weigh; `None` where there is nothing to calculate.
    pub dose: Option<Known<Mass>>,
    pub rinses_after: u32,
    pub remarks: Vec<Message>,
}

/// How to take the peroxide (as H2O2) out of `volume` of liquor.
///
/// Sulfites are dosed at stoichiometry and a tenth more. Catalase comes with an
/// activity of its own, so its label gives the dose; the remarks give the pH
/// and warmth it works at. How long waiting takes hangs on metals in water and
/// fibre and cannot be foretold, so it ends by strip.
///
/// # Errors
/// [`AntichlorRefusal`] names the field.
pub fn peroxide_removal(
    way: PeroxideRemoval,
    found: Found,
    volume: Known<Volume>,
    purity: Ratio,
) -> Result<PeroxidePlan, AntichlorRefusal> {
    let strength = checked(found, volume, purity)?;
    let peroxide = in_liquor(strength, volume);
    let dose = way.grams_per_gram().map(|each| {
        let each = each / in_share(purity);
        Known {
            value: peroxide.value * 1.1 * each,
            low: peroxide.low * each,
            high: peroxide.high * 1.1 * each,
            basis: Basis::Computed,
        }
    });
    let mut remarks = vec![match way {
        PeroxideRemoval::Catalase => Message::new("antichlor-remark-catalase")
            .with("ph_low", Value::Ph(6.5))
            .with("ph_high", Value::Ph(8.0))
            .with("cool", Value::Celsius(20.0))
            .with("warm", Value::Celsius(50.0)),
        PeroxideRemoval::WaitWarm => {
            Message::new("antichlor-remark-wait_warm").with("warm", Value::Celsius(40.0))
        }
        _ => Message::new("antichlor-remark-sulfite_fumes"),
    }];
    let rinses_after = if dose.is_some() { 2 } else { 1 };
    remarks.push(
        Message::new("antichlor-remark-rinse_after")
            .with("rinses", Value::Count(rinses_after.into())),
    );
    remarks.push(Message::new("antichlor-remark-prove_by_strip"));
    Ok(PeroxidePlan { way, peroxide, dose, rinses_after, remarks })
}
