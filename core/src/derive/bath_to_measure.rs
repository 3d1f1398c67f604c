//! What to measure out for a planned bath, by its record: the same for a plan that was just made
//! and for one that was kept.

use crate::{
    bath::{
        self, BathParts, Dose, HeatError, MeasuredOut, ROOM_CELSIUS, measure_out,
        pulp_before_bleach,
    },
    journal::{Amount, Figure, PlanRecord},
    quantity::{
        Basis, Celsius, ComputedEstimate, Mass, Volume, grams, in_grams_per_millilitre, millilitres,
    },
};

/// The amounts of a bath and of each of its loads, and the warmth of the water.
#[derive(Clone, Debug, PartialEq)]
pub struct BathToMeasure {
    pub oxidant: bath::Oxidant,
    pub pulp: Mass,
    /// Equal loads; 1 where one vessel holds everything.
    pub loads: u32,
    pub whole: MeasuredOut,
    /// Of one load.
    pub each: MeasuredOut,
    pub pulp_of_each: Mass,
    /// The need with its range.
    pub dose: Dose,
    pub water: ComputedEstimate<Volume>,
    /// How warm the water to add must be; everything else is at [`ROOM_CELSIUS`].
    pub water_at: Result<Celsius, HeatError>,
    /// The pulp goes into the water before the bleach.
    pub pulp_first: bool,
    /// Of the liquor when it is mixed, g/L.
    pub strength: Figure,
}

impl BathToMeasure {
    pub fn of(record: &PlanRecord) -> Self {
        let oxidant = bath::Oxidant::from(record.oxidant);
        let dose = match record.product_amount {
            Amount::VolumeMl(ml) => Dose::Bottle(computed(ml).map(millilitres)),
            Amount::MassG(g) => Dose::Powder(computed(g).map(grams)),
        };
        let soda_ash = record.soda_ash_g.map(|g| computed(g).map(grams));
        let water = computed(record.water_to_add_ml).map(millilitres);
        let loads = load_count(record);
        let pulp = grams(record.wet_mass_g.value);
        let water_at = water_temperature(record);
        Self {
            oxidant,
            pulp,
            loads,
            whole: measure_out(&dose, soda_ash, &water, 1),
            each: measure_out(&dose, soda_ash, &water, loads),
            pulp_of_each: pulp / f64::from(loads),
            dose,
            water,
            pulp_first: water_at.is_ok_and(|at| pulp_before_bleach(oxidant, at)),
            water_at,
            strength: record.liquor_strength_g_per_l,
        }
    }
}

/// The first loads of very many are stored; together they hold their part of the pulp.
fn load_count(record: &PlanRecord) -> u32 {
    let pulp: f64 = record.loads.iter().map(|load| load.wet_pulp_g).sum();
    let shown = record.loads.len() as f64;
    if shown < 2.0 || pulp <= 0.0 {
        return 1;
    }
    (record.wet_mass_g.value / pulp * shown).round().clamp(shown, 1e6) as u32
}

fn water_temperature(record: &PlanRecord) -> Result<Celsius, HeatError> {
    let target = Celsius::new(record.celsius)?;
    let per_ml = in_grams_per_millilitre(bath::water_density(target));
    let bleach_g = match record.product_amount {
        // A tenth more for an unknown density is 0.1 °C of the water.
        Amount::VolumeMl(ml) => {
            ml.value * record.product.strength.density_g_per_ml.map_or(1.0, |density| density.value)
        }
        Amount::MassG(g) => g.value,
    };
    let parts = BathParts {
        fibre: grams(record.dry_fibre_g.value),
        pulp_water: grams((record.wet_mass_g.value - record.dry_fibre_g.value).max(0.0)),
        water: grams(record.water_to_add_ml.value * per_ml),
        bleach: grams(bleach_g + record.soda_ash_g.map_or(0.0, |g| g.value)),
    };
    parts.water_temperature(Celsius::new(ROOM_CELSIUS)?, target)
}

fn computed(figure: Figure) -> ComputedEstimate<f64> {
    let Figure { value, low, high, basis } = figure;
    ComputedEstimate { value, low, high, dominant: None, assumed: basis == Basis::Assumed }
}
