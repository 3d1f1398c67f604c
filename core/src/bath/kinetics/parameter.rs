//! Every rate constant and pool of the bath model: value, range, source, validity.
//!
//! Ranges are those that a forecast draws from: as likely below the value as above it, and
//! anywhere on either side with equal probability (of the logarithm, for a
//! [`PriorScale::Logarithmic`] one). Where the literature is silent the row says "own estimate"
//! and the range is wide.

use super::prior_table::{HYPOCHLORITE, PEROXIDE};
use crate::chemistry::Oxidant;
use serde::{Deserialize, Serialize};
use strum::{EnumCount, IntoStaticStr, VariantArray};

/// A parameter of the model.
#[derive(
    Clone,
    Copy,
    Debug,
    PartialEq,
    Eq,
    Hash,
    EnumCount,
    VariantArray,
    Serialize,
    Deserialize,
    IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Parameter {
    /// Oxidant that lignin, colour and other matter of the pulp spends fast, mol/kg of fibre.
    FastConsumers,
    /// The same, slowly.
    SlowConsumers,
    /// Rate constant of the fast consumers at [`reference_celsius`], L/(mol·s).
    FastRate,
    /// That of the slow ones over that of the fast ones.
    SlowRatio,
    /// Rate constant of the loss of colour at [`reference_celsius`]: L/(mol·s) for
    /// hypochlorite, (L/mol)^½/s for peroxide.
    ColourRate,
    /// K/S that no time removes, as a share of that at the start.
    ColourFloor,
    /// Activation energy of bleaching and consumption, kJ/mol.
    BleachEnergy,
    /// HOCl over OCl- in bleaching and consumption.
    AcidSpeedup,
    /// Acid formed, mol for each mol of oxidant that the pulp spends.
    AcidYield,
    /// Scissions by OCl- (or by all peroxide) at [`reference_celsius`], L/(mol·s).
    ScissionRate,
    /// Its activation energy, kJ/mol.
    ScissionEnergy,
    /// Scission by HOCl over that by OCl- at [`reference_celsius`].
    ScissionAcidRatio,
    /// Activation energy of scission by HOCl, kJ/mol.
    ScissionAcidEnergy,
    /// Scission by both together over that by HOCl.
    ScissionTogetherRatio,
    /// Loss of oxidant by metals at [`reference_celsius`], 1/s; of peroxide where it is half
    /// ionised.
    MetalLoss,
    /// Its activation energy, kJ/mol.
    MetalEnergy,
    /// Factor on the published decay of hypochlorite by itself.
    DecayFactor,
    /// Time in which 63 % of the powder dissolves, s.
    DissolvingTime,
    /// Degree of polymerization of the pulp's cellulose at the start.
    StartPolymerization,
}

/// How values between the ends of a range are spread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PriorScale {
    Linear,
    Logarithmic,
}

/// How well the source of a parameter is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PriorQuality {
    /// The passage was read.
    Read,
    /// An abstract or an excerpt.
    Abstract,
    Memory,
    /// No published value was found: own estimate, wide.
    OwnEstimate,
}

/// What is assumed of a parameter before any reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    pub parameter: Parameter,
    pub value: f64,
    pub low: f64,
    pub high: f64,
    pub scale: PriorScale,
    pub quality: PriorQuality,
    pub source: &'static str,
    pub validity: &'static str,
}

impl Prior {
    /// The value at a point 0 to 1 of its distribution.
    pub fn quantile(&self, point: f64) -> f64 {
        quantile(self.scale, [self.low, self.value, self.high], point)
    }
}

/// The value at a point 0 to 1 between `low`, median and `high`.
pub fn quantile(scale: PriorScale, [low, median, high]: [f64; 3], point: f64) -> f64 {
    let point = point.clamp(0.0, 1.0);
    let (from, to, share) =
        if point < 0.5 { (low, median, 2.0 * point) } else { (median, high, 2.0 * point - 1.0) };
    match scale {
        PriorScale::Logarithmic if from > 0.0 => from * (to / from).powf(share),
        _ => from + (to - from) * share,
    }
}

/// Temperature that the rate constants of an oxidant are for, °C.
pub const fn reference_celsius(oxidant: Oxidant) -> f64 {
    match oxidant {
        Oxidant::Hypochlorite => 40.0,
        Oxidant::Percarbonate | Oxidant::Peroxide => 50.0,
    }
}

/// The parameters of an oxidant's bath. Those of the other oxidant have no row.
pub fn priors(oxidant: Oxidant) -> &'static [Prior] {
    match oxidant {
        Oxidant::Hypochlorite => &HYPOCHLORITE,
        Oxidant::Percarbonate => &PEROXIDE,
        // Nothing to dissolve: the last row.
        Oxidant::Peroxide => PEROXIDE.split_last().map_or(&[], |(_, rest)| rest),
    }
}

/// A value for every parameter; 0 for those without a row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ParameterValues([f64; Parameter::COUNT]);

impl ParameterValues {
    /// The values of the table.
    pub fn typical(oxidant: Oxidant) -> Self {
        Self::drawn(oxidant, |_| 0.5)
    }

    /// Each at its point 0 to 1; `point` is called with the number of the row.
    pub fn drawn(oxidant: Oxidant, point: impl Fn(usize) -> f64) -> Self {
        let mut values = Self([0.0; Parameter::COUNT]);
        for (row, prior) in priors(oxidant).iter().enumerate() {
            values.0[prior.parameter as usize] = prior.quantile(point(row));
        }
        values
    }

    pub fn get(&self, parameter: Parameter) -> f64 {
        self.0[parameter as usize]
    }

    /// With another value for one parameter.
    #[must_use]
    pub fn with(mut self, parameter: Parameter, value: f64) -> Self {
        self.0[parameter as usize] = value;
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Oxidant; 3] = [Oxidant::Hypochlorite, Oxidant::Percarbonate, Oxidant::Peroxide];

    #[test]
    fn every_row_is_in_order_has_a_source_and_stands_once() {
        for oxidant in ALL {
            let rows = priors(oxidant);
            for (nth, prior) in rows.iter().enumerate() {
                assert!(prior.low < prior.value && prior.value < prior.high, "{prior:?}");
                assert!(prior.low > 0.0 && !prior.source.is_empty() && !prior.validity.is_empty());
                assert!(rows[..nth].iter().all(|other| other.parameter != prior.parameter));
            }
        }
        let used = |parameter: &Parameter| {
            ALL.iter().any(|&of| priors(of).iter().any(|prior| prior.parameter == *parameter))
        };
        assert!(Parameter::VARIANTS.iter().all(used));
        let dissolves =
            |of| priors(of).iter().any(|prior| prior.parameter == Parameter::DissolvingTime);
        assert!(dissolves(Oxidant::Percarbonate) && !dissolves(Oxidant::Peroxide));
    }

    #[test]
    fn an_own_estimate_is_wide() {
        for prior in ALL.iter().flat_map(|&oxidant| priors(oxidant)) {
            if prior.quality == PriorQuality::OwnEstimate {
                assert!(prior.high / prior.low > 1.8, "{prior:?}");
            }
        }
    }

    #[test]
    fn quantiles_reach_both_ends_and_the_value_between() {
        for prior in ALL.iter().flat_map(|&oxidant| priors(oxidant)) {
            let near = |point: f64, expected: f64| {
                assert!((prior.quantile(point) / expected - 1.0).abs() < 1e-12, "{prior:?}");
            };
            near(0.0, prior.low);
            near(0.5, prior.value);
            near(1.0, prior.high);
            assert!(prior.quantile(0.2) < prior.quantile(0.3));
        }
    }
}
