//! Readings of meters and strips, computed by the core where it has a model.

use bleachfield_core::chemistry::equilibrium::Mix;
use bleachfield_core::chemistry::substance::moles_per_litre;
use bleachfield_core::journal::{Figure, Oxidant};
use bleachfield_core::pulp::wash::{
    Alkali, Efficiency, PulpLiquor, RinseTiming, SqueezedPulp, Targets, Wash,
};
use bleachfield_core::quantity::{
    Basis, Estimate, grams_per_litre, in_grams_per_litre, millilitres, share, weighed,
};

use super::DemoError;

/// The studio's tap water: pH, and hardness in mg/L as CaCO3.
pub const TAP_PH: f64 = 7.4;
pub const HARDNESS: f64 = 120.0;
/// The room, °C.
pub const ROOM: f64 = 17.0;
/// Dryness after squeezing, oven-dry over wet mass.
pub const SQUEEZE: f64 = 0.21;

/// How a pulp responds to a bath. Invented for each bath; no source.
#[derive(Clone, Copy, Debug)]
pub struct BleachResponse {
    /// Time constant of the oxidant's consumption, min.
    pub tau_min: f64,
    /// Share of the oxidant that is never consumed.
    pub residual_share: f64,
    /// Share of the initial colour that is left in the end.
    pub final_colour: f64,
}

impl BleachResponse {
    pub fn with_final_colour(self, final_colour: f64) -> Self {
        Self { final_colour, ..self }
    }

    /// Share of the oxidant left after a time in minutes.
    pub fn left(&self, minutes: f64) -> f64 {
        self.residual_share + (1.0 - self.residual_share) * (-minutes / self.tau_min).exp()
    }

    /// Share of the colour left after a time in minutes; slower than the oxidant.
    pub fn colour(&self, minutes: f64) -> f64 {
        self.final_colour + (1.0 - self.final_colour) * (-minutes / (1.3 * self.tau_min)).exp()
    }
}

/// Oxidant in a liquor, g/L of available chlorine or H2O2.
#[derive(Clone, Copy, Debug)]
pub struct OxidantState {
    pub oxidant: Oxidant,
    pub initial: f64,
    pub left: f64,
}

/// pH of a bath at a temperature in °C.
///
/// The liquor is the core's [`Mix`]: the bleach, 0.4 g/L of soda ash carried over from the
/// cook, the bottle's lye, and the acid formed by oxidation, 0.3 mol for each mole of
/// oxidant consumed (own estimate, no source).
pub fn ph(charged: OxidantState, celsius: f64) -> Result<f64, DemoError> {
    const CHLORINE: f64 = 70.906;
    const PEROXIDE: f64 = 34.0147;
    const COOK: f64 = 0.4 / 105.99;
    let mix =
        Mix::new(celsius).map_err(DemoError::of("a pH"))?.with_soda_ash(moles_per_litre(COOK));
    let hypochlorite = charged.oxidant == Oxidant::Hypochlorite;
    let each = if hypochlorite { CHLORINE } else { PEROXIDE };
    let (poured, left) = (charged.initial / each, charged.left / each);
    let used = moles_per_litre(poured - left);
    let mix = if hypochlorite {
        // A bottle has about 1 mol of lye to 8 mol of hypochlorite (from memory).
        mix.with_bleach(moles_per_litre(left))
            .with_salt(used * 2.0)
            .with_lye(moles_per_litre(poured / 8.0))
    } else {
        mix.with_soda_ash(moles_per_litre(poured / 1.5)).with_peroxide(moles_per_litre(left))
    };
    let found = mix.with_strong_acid(used * 0.3).solve().map_err(DemoError::of("a pH"))?;
    Ok(found.ph())
}

/// pH, and oxidant in g/L, of the water in squeezed pulp after rinses.
pub fn rinsed(
    wet_g: f64,
    (ph, oxidant): (f64, f64),
    rinses: u32,
    litres: f64,
) -> Result<(f64, f64), DemoError> {
    let soda = Alkali::SodaAsh;
    let refused = DemoError::of("a rinse");
    let tap = soda
        .tap(TAP_PH, grams_per_litre(HARDNESS / 1000.0), ROOM)
        .map_err(DemoError::of("the tap"))?;
    let exact = |grams| Estimate::exact(grams_per_litre(grams), Basis::Computed);
    let alkali = soda.strength(ph, ROOM).map_err(DemoError::of("an alkali"))?;
    let wash = Wash {
        pulp: SqueezedPulp {
            wet_mass: weighed(bleachfield_core::quantity::grams(wet_g)),
            dryness: Estimate::exact(share(SQUEEZE), Basis::OwnRecord),
        },
        liquor: PulpLiquor {
            oxidant: Some(exact(oxidant)),
            alkali: Some(exact(in_grams_per_litre(alkali))),
            ..PulpLiquor::default()
        },
        targets: Targets::default(),
        tap,
        efficiency: Efficiency::assumed(),
        timing: RinseTiming::default(),
    };
    let left = wash.after(rinses, millilitres(litres * 1000.0)).map_err(refused)?;
    let value = |known: Option<Estimate<_>>| known.map_or(0.0, |k| in_grams_per_litre(k.value));
    let alkali = grams_per_litre(value(left.alkali));
    let ph = soda.ph(alkali, ROOM).map_err(DemoError::of("a rinse's pH"))?;
    Ok((ph.max(TAP_PH), value(left.oxidant)))
}

/// A pH meter's reading: rounded to 0.1, ± 0.1.
pub fn meter(ph: f64) -> Figure {
    let value = (ph * 10.0).round() / 10.0;
    Estimate { value, low: value - 0.1, high: value + 0.1, basis: Basis::Measured }
}

/// A strip's reading: the nearest of its steps, mg/L, with the neighbouring steps as the
/// range.
pub fn strip(grams_per_litre: f64) -> Figure {
    const STEPS: [f64; 14] =
        [0.0, 0.5, 1.0, 3.0, 5.0, 10.0, 25.0, 50.0, 100.0, 200.0, 400.0, 800.0, 1500.0, 3000.0];
    let given = grams_per_litre * 1000.0;
    let nearest = STEPS
        .iter()
        .enumerate()
        .min_by(|a, b| (a.1 - given).abs().total_cmp(&(b.1 - given).abs()))
        .map_or(0, |(i, _)| i);
    Estimate {
        value: STEPS[nearest],
        low: STEPS[nearest.saturating_sub(1)],
        high: STEPS[(nearest + 1).min(STEPS.len() - 1)],
        basis: Basis::Strip,
    }
}

/// Dryness after the studio's usual squeeze, from its own figure.
pub fn usual_dryness() -> Figure {
    Estimate { basis: Basis::OwnRecord, ..read(SQUEEZE, 0.015) }
}

/// An instrument's reading, ± `within`.
pub fn read(value: f64, within: f64) -> Figure {
    Estimate { value, low: value - within, high: value + within, basis: Basis::Measured }
}
