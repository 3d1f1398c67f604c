//! One draw of all inputs of a plan, and the bath that follows from it.

use super::Random;
use bleachfield_core::{
    bath::{
        Bleach, Bottle, CARRIED_ACID_FACTOR, Dose, ExpressedWater, FILLER, PeroxideBottle, Plan,
        PlanRequest, Powder, PowderBasis, SODA_WEIGHED, THERMOMETER_ERROR, grams_per_litre_of,
        modelled_density, plan,
    },
    chemistry::{
        alkali::{BICARBONATE, WINDOW_CELSIUS},
        bottle::free_lye,
        equilibrium::{Mix, Reagent},
        household::STRONGEST_PEROXIDE,
        peroxide_solution,
        substance::{
            CHLORINE, HYDROGEN_PEROXIDE, SODIUM_CARBONATE, SODIUM_PERCARBONATE, in_moles_per_litre,
            moles_per_litre,
        },
        water::kilograms_per_litre,
    },
    pulp::{CELLULOSE_DENSITY, WetPulp},
    quantity::{
        Basis, Celsius, Estimate, grams, grams_per_litre, grams_per_millilitre, in_grams,
        in_grams_per_millilitre, in_millilitres, in_share, share,
    },
};

/// Error of the modelled density of a bottle, g/mL, as `bath::strength` states it.
const DENSITY_ERROR: f64 = 0.02;
/// mL that a gram of dissolved powder takes up, as the balance states it.
const POWDER_VOLUME: f64 = 0.4;
/// Temperature at which the pulp's water is tested, °C, as the carry-over states it.
const TEST_CELSIUS: f64 = 20.0;
/// Most acetic acid in the pulp's water, mol/L, as the carry-over states it.
const MOST_ACETIC: f64 = 0.83;

/// The inputs of one bath.
pub struct Drawn {
    wet: f64,
    dryness: f64,
    bleach: Bleach,
    celsius: f64,
    expressed_ph: f64,
    carbonate: f64,
    acid: f64,
    /// Lye in the bottle, mol/L; share of soda ash in the powder's filler; soda ash over what was
    /// to be weighed.
    own: f64,
    bicarbonate: f64,
    model_error: f64,
}

/// The results of one bath.
pub struct Outcome(pub [f64; Outcome::COUNT]);

impl Outcome {
    pub const COUNT: usize = 7;
    pub const NAMES: [&str; Self::COUNT] =
        ["dose", "water", "charge", "strength", "consistency", "pH", "pH at 25"];
}

impl Drawn {
    pub fn new(request: &PlanRequest, planned: &Plan, random: &mut Random) -> Self {
        let mut draw = |range: Estimate<f64>| random.within(range);
        let expressed = request.expressed_water.unwrap_or_else(ExpressedWater::unknown);
        let own = match &request.bleach {
            Bleach::Hypochlorite(bottle) => {
                free_lye(bottle.liquid().unwrap().available_chlorine.value)
            }
            Bleach::Percarbonate(_) => FILLER,
            Bleach::Peroxide(_) => SODA_WEIGHED,
        };
        let error = |value, error| Estimate {
            value,
            low: value - error,
            high: value + error,
            basis: Basis::Computed,
        };
        Self {
            wet: draw(request.pulp.wet.map(in_grams)),
            dryness: draw(request.pulp.dryness.map(in_share)),
            bleach: match &request.bleach {
                Bleach::Hypochlorite(bottle) => {
                    let figure = draw(bottle.figure);
                    let density = match bottle.density {
                        Some(density) => draw(density.map(in_grams_per_millilitre)),
                        None => {
                            let modelled = modelled_density(figure, bottle.basis);
                            draw(error(modelled, DENSITY_ERROR))
                        }
                    };
                    let density = grams_per_millilitre(density);
                    Bleach::Hypochlorite(Bottle {
                        figure: Estimate::exact(figure, Basis::Measured),
                        basis: bottle.basis,
                        density: Some(Estimate::exact(density, Basis::Measured)),
                    })
                }
                Bleach::Percarbonate(powder) => {
                    // No powder holds more than pure percarbonate.
                    let figure =
                        powder.figure.map(|figure| in_share(figure).min(powder.basis.pure()));
                    let figure = Estimate::exact(share(draw(figure)), Basis::Measured);
                    Bleach::Percarbonate(Powder { figure, basis: powder.basis })
                }
                Bleach::Peroxide(bottle) => {
                    // No bath is planned with more than 12 %.
                    let most = 100.0 * STRONGEST_PEROXIDE;
                    let figure = bottle.figure.map(|percent| percent.min(most));
                    let figure = Estimate::exact(draw(figure), Basis::Measured);
                    Bleach::Peroxide(PeroxideBottle { figure, ..*bottle })
                }
            },
            celsius: draw(error(request.temperature.get(), THERMOMETER_ERROR)),
            expressed_ph: draw(expressed.ph),
            carbonate: draw(expressed.alkali.carbonate_share()),
            acid: draw(CARRIED_ACID_FACTOR),
            own: draw(own),
            bicarbonate: draw(BICARBONATE),
            model_error: draw(error(0.0, planned.ph.unwrap().model_error)),
        }
    }

    /// What meets the aim with these inputs, and what follows from measuring out `planned`.
    pub fn outcome(&self, request: &PlanRequest, planned: &Plan) -> Outcome {
        let exact = |value| Estimate::exact(value, Basis::Measured);
        let dryness = Estimate::exact(share(self.dryness), Basis::Measured);
        let meant = plan(&PlanRequest {
            pulp: WetPulp::new(Estimate::exact(grams(self.wet), Basis::Measured), dryness).unwrap(),
            bleach: self.bleach,
            temperature: Celsius::new(self.celsius).unwrap(),
            expressed_water: Some(ExpressedWater { ph: exact(8.0), ..ExpressedWater::unknown() }),
            ..request.clone()
        })
        .unwrap();
        let made = self.made(planned, request);
        let mix = self.mix(&made, self.celsius);
        let cooled = mix.brought_to(WINDOW_CELSIUS).unwrap();
        Outcome([
            measured(&meant),
            in_millilitres(meant.water_volume.value),
            made.active / made.oven_dry,
            1000.0 * made.active / made.liquor,
            made.oven_dry / made.mass,
            mix.solve().unwrap().ph() + self.model_error,
            cooled.solve().unwrap().ph() + self.model_error,
        ])
    }

    /// The bath of the planned dose and water.
    fn made(&self, planned: &Plan, request: &PlanRequest) -> Made {
        let water_density = kilograms_per_litre(request.temperature.get());
        let dose = measured(planned);
        let water = in_grams(planned.water.value);
        let oven_dry = self.wet * self.dryness;
        let pulp_water = (self.wet - oven_dry) / water_density;
        let (active, dose_mass, dose_volume) = match &self.bleach {
            Bleach::Hypochlorite(bottle) => {
                let density = in_grams_per_millilitre(bottle.density.unwrap().value);
                let chlorine = grams_per_litre_of(bottle.figure.value, bottle.basis, density);
                (dose * chlorine / 1000.0, dose * density, dose)
            }
            Bleach::Peroxide(bottle) => {
                let share = bottle.figure.value / 100.0;
                let density = in_grams_per_millilitre(peroxide_solution::density(share).unwrap());
                let soda = soda(planned);
                (dose * density * share, dose * density + soda, dose + POWDER_VOLUME * soda)
            }
            Bleach::Percarbonate(powder) => {
                let pure = powder.basis.pure();
                let peroxide = PowderBasis::Peroxide.pure() * in_share(powder.figure.value) / pure;
                (dose * peroxide, dose, POWDER_VOLUME * dose)
            }
        };
        let liquor = pulp_water + water / water_density + dose_volume;
        let mass = self.wet + water + dose_mass;
        let volume = liquor + oven_dry / CELLULOSE_DENSITY;
        assert!(volume > 0.0);
        Made { oven_dry, active, dose, soda: soda(planned), pulp_water, liquor, mass }
    }

    fn mix(&self, made: &Made, celsius: f64) -> Mix {
        let molar = |g: f64| grams_per_litre(1000.0 * g / made.liquor);
        let share = made.dose / made.liquor;
        let mix = Mix::new(celsius).unwrap();
        let (mix, water) = match &self.bleach {
            Bleach::Hypochlorite(_) => {
                let mix = mix
                    .with_bleach(CHLORINE.molar(molar(made.active)))
                    .with_lye(moles_per_litre(self.own * share));
                (mix, 1.0 - share)
            }
            Bleach::Peroxide(_) => {
                let peroxide = HYDROGEN_PEROXIDE.molar(molar(made.active));
                let ash = SODIUM_CARBONATE.molar(molar(self.own * made.soda));
                (mix.with_peroxide(peroxide).with_soda_ash(ash), 1.0 - share)
            }
            Bleach::Percarbonate(_) => {
                let peroxide = HYDROGEN_PEROXIDE.molar(molar(made.active));
                let pure = in_moles_per_litre(peroxide) / 1.5 * SODIUM_PERCARBONATE.grams_per_mole;
                let filler = (1000.0 * share - pure).max(0.0);
                let ash = SODIUM_CARBONATE.molar(grams_per_litre(self.own * filler));
                (mix.with_percarbonate(peroxide / 1.5).with_soda_ash(ash), 1.0)
            }
        };
        let mix = mix.with_baking_soda(moles_per_litre(self.bicarbonate * water));
        self.with_pulp_water(mix, (made.pulp_water / made.liquor).min(1.0))
    }

    fn with_pulp_water(&self, mix: Mix, share: f64) -> Mix {
        let tap =
            Mix::new(TEST_CELSIUS).unwrap().with_baking_soda(moles_per_litre(self.bicarbonate));
        if self.expressed_ph < tap.solve().unwrap().ph() {
            let strong = -tap.hidden_base(self.expressed_ph).unwrap();
            let acetic = tap.dose(Reagent::AceticAcid, self.expressed_ph).unwrap();
            let acetic = moles_per_litre(in_moles_per_litre(acetic).min(MOST_ACETIC));
            return mix
                .with_strong_acid(strong * (1.0 - self.acid).max(0.0) * share)
                .with_acetic_acid(acetic * self.acid * share);
        }
        let lye = tap.dose(Reagent::Lye, self.expressed_ph).unwrap();
        match tap.dose(Reagent::SodaAsh, self.expressed_ph) {
            Ok(ash) => mix
                .with_lye(lye * (1.0 - self.carbonate) * share)
                .with_soda_ash(ash * self.carbonate * share),
            Err(_) => mix.with_lye(lye * share),
        }
    }
}

/// A bath as made up: g and mL.
struct Made {
    oven_dry: f64,
    active: f64,
    dose: f64,
    soda: f64,
    pulp_water: f64,
    liquor: f64,
    mass: f64,
}

/// Soda ash of a plan, g.
fn soda(plan: &Plan) -> f64 {
    plan.soda_ash.map_or(0.0, |mass| in_grams(mass.value))
}

/// The dose of a plan, mL or g.
fn measured(plan: &Plan) -> f64 {
    match plan.dose {
        Dose::Bottle(volume) => in_millilitres(volume.value),
        Dose::Powder(mass) => in_grams(mass.value),
    }
}
