//! The table of [`Prior`]s: value, range, source and validity of each parameter.

use super::parameter::Parameter::*;
use super::parameter::PriorQuality::{Abstract, OwnEstimate, Read};
use super::parameter::PriorScale::{Linear, Logarithmic};
use super::parameter::{Parameter, Prior, PriorQuality, PriorScale};

const fn row(
    parameter: Parameter,
    [low, value, high]: [f64; 3],
    scale: PriorScale,
    quality: PriorQuality,
    source: &'static str,
    validity: &'static str,
) -> Prior {
    Prior { parameter, value, low, high, scale, quality, source, validity }
}

/// Rows that both oxidants share.
const START_POLYMERIZATION: Prior = row(
    StartPolymerization,
    [500.0, 1200.0, 4000.0],
    Logarithmic,
    Read,
    "processed pulp 600-1100, linters 1000-3000, hemp soda pulp about 450 (review excerpts)",
    "cooked plant pulp",
);

pub(super) const HYPOCHLORITE: [Prior; 18] = [
    row(
        FastConsumers,
        [0.05, 0.15, 0.4],
        Logarithmic,
        OwnEstimate,
        "own estimate: 0.4 to 2.8 % available chlorine; total oxidation of 1 % lignin would \
         take 6.6 % (Wei et al., excerpt)",
        "cooked, rinsed pulp",
    ),
    row(
        SlowConsumers,
        [0.1, 0.35, 1.2],
        Logarithmic,
        OwnEstimate,
        "own estimate: 0.7 to 9 % available chlorine, below total oxidation of the lignin",
        "cooked, rinsed pulp",
    ),
    row(
        FastRate,
        [0.02, 0.08, 0.35],
        Logarithmic,
        OwnEstimate,
        "own estimate: half spent in 3 to 60 minutes at 10 mmol/L; no published course of \
         hypochlorite on pulp was found",
        "40 °C, pH 9.5-11",
    ),
    row(
        SlowRatio,
        [0.03, 0.1, 0.25],
        Logarithmic,
        Abstract,
        "two parallel steps, a factor of about 10 apart, on starch (Eisenbraun & Purves 1961)",
        "starch, pH 12, 20 °C; taken for pulp",
    ),
    row(
        ColourRate,
        [0.02, 0.08, 0.35],
        Logarithmic,
        OwnEstimate,
        "own estimate: half of the removable K/S in 6 to 80 minutes at 10 mmol/L",
        "40 °C, pH 9.5-11",
    ),
    row(
        ColourFloor,
        [0.03, 0.12, 0.4],
        Logarithmic,
        OwnEstimate,
        "own estimate; a ceiling of brightness is known for every stage (textbook, read)",
        "one stage",
    ),
    row(
        BleachEnergy,
        [51.0, 65.0, 96.0],
        Linear,
        Abstract,
        "63 and 88-96 kJ/mol on starch (Suzuki et al. 1979; Schmorak et al. 1961), 51-56 on a dye",
        "pH 8-11, 20-50 °C",
    ),
    row(
        AcidSpeedup,
        [2.0, 6.0, 20.0],
        Logarithmic,
        OwnEstimate,
        "own estimate: rates on starch fall from pH 7.5 to 11 (Schmorak et al. 1961)",
        "pH 7-11",
    ),
    row(
        AcidYield,
        [0.35, 0.7, 1.1],
        Linear,
        PriorQuality::Memory,
        "0.3-0.6 kg of NaOH for each kg of available chlorine holds the pH (handbooks)",
        "alkaline bath",
    ),
    row(
        ScissionRate,
        [0.9e-6, 3.5e-6, 14e-6],
        Logarithmic,
        OwnEstimate,
        "own estimate: 0.4 to 6 scissions in 10 000 units in 2 h at 8 mmol/L; a sound bath of \
         1.4 % spends about 5 % of its chlorine on cellulose",
        "40 °C, pH 10-11",
    ),
    row(
        ScissionEnergy,
        [63.0, 80.0, 96.0],
        Linear,
        Abstract,
        "starch in alkaline hypochlorite (Suzuki et al. 1979; Schmorak et al. 1961)",
        "starch; taken for cellulose",
    ),
    row(
        ScissionAcidRatio,
        [6.0, 13.0, 40.0],
        Logarithmic,
        OwnEstimate,
        "own estimate; order of rank from cotton: pH 9 < 4.5 < 7",
        "40 °C",
    ),
    row(
        ScissionAcidEnergy,
        [53.0, 55.0, 57.0],
        Linear,
        Abstract,
        "HOCl on bleached eucalyptus pulp, 55 ± 2 kJ/mol (Zhou, Jääskeläinen & Vuorinen)",
        "acid side",
    ),
    row(
        ScissionTogetherRatio,
        [3.0, 4.0, 8.0],
        Logarithmic,
        OwnEstimate,
        "own estimate: attack worst at pH 7 (Clibbens & Ridge 1927, from memory; Patel et al. \
         1974 and Han & Ahn 1997 on starch, abstracts)",
        "pH 6-9",
    ),
    row(
        MetalLoss,
        [1e-7, 2e-6, 5e-5],
        Logarithmic,
        OwnEstimate,
        "own estimate: 0.1 to 30 % in 2 h; copper, nickel and cobalt of water and vessel",
        "unknown traces of metal",
    ),
    row(
        MetalEnergy,
        [75.0, 83.3, 92.0],
        Linear,
        Abstract,
        "copper, 40-70 °C (Church 1994)",
        "copper; taken for all",
    ),
    row(
        DecayFactor,
        [1.0 / 3.0, 1.0, 3.0],
        Logarithmic,
        Abstract,
        "stoichiometric factor not seen; dilute liquor extrapolated (Adam et al. 1992; Adam & \
         Gordon 1999)",
        "15-55 °C",
    ),
    START_POLYMERIZATION,
];

pub(super) const PEROXIDE: [Prior; 14] = [
    row(
        FastConsumers,
        [0.05, 0.15, 0.5],
        Logarithmic,
        OwnEstimate,
        "own estimate: 0.2 to 1.7 % H2O2",
        "cooked, rinsed pulp",
    ),
    row(
        SlowConsumers,
        [0.1, 0.5, 2.0],
        Logarithmic,
        OwnEstimate,
        "own estimate: 0.3 to 7 % H2O2",
        "cooked, rinsed pulp",
    ),
    row(
        FastRate,
        [0.03, 0.12, 0.5],
        Logarithmic,
        OwnEstimate,
        "own estimate: half spent in 3 to 50 minutes at 8 mmol/L of HO2-; first order in HO2- \
         (Brooks & Moore 2000)",
        "50 °C, pH 10-11.5",
    ),
    row(SlowRatio, [0.03, 0.1, 0.3], Logarithmic, OwnEstimate, "own estimate", "pH 10-11.5"),
    row(
        ColourRate,
        [0.0012, 0.0065, 0.035],
        Logarithmic,
        Abstract,
        "form and temperature by Ni, Dixon & Ooi (1997), whose unit of time was not seen: half of \
         the removable K/S in 6 minutes to 3 hours at 8 mmol/L of HO2- (own estimate)",
        "pH 10.5-11.5; below 60 °C extrapolated",
    ),
    row(
        ColourFloor,
        [0.1, 0.3, 0.65],
        Logarithmic,
        OwnEstimate,
        "own estimate; ceilings of 28.7 % (unbleached banana) to 87 % ISO are published",
        "one stage",
    ),
    row(
        BleachEnergy,
        [45.0, 65.0, 71.0],
        Linear,
        Abstract,
        "45 (Moldenius & Sjögren 1982), 69.6 (Ni et al. 1997), 71 kJ/mol (Brooks & Moore 2000)",
        "40-92 °C",
    ),
    row(
        AcidYield,
        [0.2, 0.5, 1.0],
        Linear,
        OwnEstimate,
        "own estimate; decomposition to oxygen forms no acid",
        "alkaline bath",
    ),
    row(
        ScissionRate,
        [2e-8, 1e-7, 6e-7],
        Logarithmic,
        OwnEstimate,
        "own estimate: far below hypochlorite at pH 9 (order of rank, conservation handbook); 0 to \
         10 % loss of viscosity in stages of this kind (Marathe et al.)",
        "stabilised, 50 °C",
    ),
    row(
        ScissionEnergy,
        [38.0, 60.0, 71.0],
        Linear,
        OwnEstimate,
        "own estimate, between waste and bleaching of peroxide",
        "40-90 °C",
    ),
    row(
        MetalLoss,
        [1.3e-6, 2.6e-5, 5.5e-4],
        Logarithmic,
        Abstract,
        "0.0004 to 0.0068 1/min with and without metals (Zhao et al. 2018, 60 °C and pH 10.5 \
         assumed) up to 0.0922 1/min at 70 °C and pH 11.6, unstabilised (Zhang 2010)",
        "unknown traces of metal",
    ),
    row(
        MetalEnergy,
        [36.0, 38.0, 45.0],
        Linear,
        Abstract,
        "37.7 kJ/mol, 20-110 °C (Stevens & Hsieh 1996)",
        "20-110 °C",
    ),
    START_POLYMERIZATION,
    row(
        DissolvingTime,
        [40.0, 180.0, 900.0],
        Logarithmic,
        OwnEstimate,
        "own estimate: powder stirred in; coated grains take longer",
        "stirred bath",
    ),
];
