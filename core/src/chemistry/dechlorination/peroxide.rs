//! Removal of residual peroxide.

use super::error::AntichlorError;
use super::residual::{ResidualEvidence, mass_in};
use crate::chemistry::substance::{
    HYDROGEN_PEROXIDE, SODIUM_BISULFITE, SODIUM_METABISULFITE, SODIUM_SULFITE, Substance,
};
use crate::message::{Message, Value};
use crate::quantity::{Basis, Estimate, Mass, Ratio, Volume, in_share};

/// A method of removing peroxide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PeroxideRemoval {
    /// An enzyme used in textile finishing; near neutral, hand-warm, dose by its label.
    Catalase,
    Sulfite,
    Bisulfite,
    Metabisulfite,
    /// Keep warm and open until a strip reads zero.
    WaitWarm,
}

impl PeroxideRemoval {
    /// All, the mildest first.
    pub const ALL: [Self; 5] =
        [Self::WaitWarm, Self::Catalase, Self::Sulfite, Self::Bisulfite, Self::Metabisulfite];

    /// Grams of pure reagent per gram of H2O2 (SO3²⁻ + H2O2 → SO4²⁻ + H2O);
    /// `None` for the enzyme, which is not consumed, and for waiting.
    pub fn grams_per_gram(self) -> Option<f64> {
        let per = |reagent: Substance, moles: f64| {
            Some(reagent.grams_per_mole * moles / HYDROGEN_PEROXIDE.grams_per_mole)
        };
        match self {
            Self::Catalase | Self::WaitWarm => None,
            Self::Sulfite => per(SODIUM_SULFITE, 1.0),
            Self::Bisulfite => per(SODIUM_BISULFITE, 1.0),
            Self::Metabisulfite => per(SODIUM_METABISULFITE, 0.5),
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

/// How to remove the peroxide.
#[derive(Clone, Debug, PartialEq)]
pub struct PeroxidePlan {
    pub method: PeroxideRemoval,
    /// Peroxide to remove, as H2O2.
    pub peroxide: Estimate<Mass>,
    /// Product to weigh; `None` for catalase and waiting.
    pub dose: Option<Estimate<Mass>>,
    pub rinses_after: u32,
    pub remarks: Vec<Message>,
}

/// How to remove the peroxide (as H2O2) from `volume` of liquor.
///
/// Sulfites are dosed at stoichiometry and a tenth more. The activity of catalase
/// varies by product, so its label gives the dose; the remarks give its pH and
/// temperature. The time of waiting depends on metals in water and fibre and
/// cannot be predicted; a strip ends it.
///
/// # Errors
/// [`AntichlorError`] names the field.
pub fn peroxide_removal(
    method: PeroxideRemoval,
    residual: ResidualEvidence,
    volume: Estimate<Volume>,
    purity: Ratio,
) -> Result<PeroxidePlan, AntichlorError> {
    let strength = residual.checked_strength(volume, purity)?;
    let peroxide = mass_in(strength, volume);
    let dose = method.grams_per_gram().map(|each| {
        let each = each / in_share(purity);
        Estimate {
            value: peroxide.value * 1.1 * each,
            low: peroxide.low * each,
            high: peroxide.high * 1.1 * each,
            basis: Basis::Computed,
        }
    });
    let mut remarks = vec![match method {
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
    Ok(PeroxidePlan { method, peroxide, dose, rinses_after, remarks })
}
