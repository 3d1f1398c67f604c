//! A request as bare numbers: checked, tried, and worked out with its ranges.

use super::{
    super::{
        BATH_TEMPERATURE, BOTTLE_DENSITY, BOTTLE_STRENGTH, Oxidant, POWDER_STRENGTH, PURE_PEROXIDE,
        water_density,
    },
    AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, Aim, Bleach, Dose, Load, Loads, MINUTES,
    OnHand, Plan, Reason, Request, Schedule, Size, guide, percarbonate_limit,
    ph::{self, MadeUp},
    sums::{self, Chemical, Fill, Target},
};
use crate::{
    caution::{Act, Residual, cautions},
    chemistry::compatibility::{Clash, Severity, clashes},
    message::{Message, Value},
    pulp::{DRYNESS, WET_MASS, readings},
    quantity::{
        Basis, Figure, Input, Kind, Known, OutOfRange, grams, grams_per_litre, in_grams,
        in_grams_per_litre, in_grams_per_millilitre, in_millilitres, in_share, millilitres, share,
        spread,
    },
};

/// The request in bare numbers, checked: g, mL, g/mL, shares.
pub(super) struct Facts {
    inputs: [Input; 4],
    target: Target,
    fill: Fill,
    water_density: f64,
    powder: bool,
}

/// Whether a plan exists, without working its ranges out.
pub(super) fn works(request: &Request) -> bool {
    Facts::of(request).is_ok_and(|facts| facts.obstacle(request).is_none())
}

impl Facts {
    pub(super) fn of(request: &Request) -> Result<Self, OutOfRange> {
        request.pulp.check()?;
        let wet = request.pulp.wet.map(in_grams);
        let dryness = request.pulp.dryness.map(in_share);
        let (strength, density, powder) = match &request.bleach {
            Bleach::Hypochlorite(bottle) => {
                let liquid = bottle.liquid()?;
                let name = liquid.available_chlorine.dominant.unwrap_or(BOTTLE_STRENGTH);
                let chlorine = liquid.available_chlorine.known();
                let strength = Input::of(name, chlorine.map(|c| in_grams_per_litre(c) / 1000.0));
                let density = liquid.density.known().map(in_grams_per_millilitre);
                (strength, Input::of(BOTTLE_DENSITY, density), false)
            }
            Bleach::Percarbonate(powder) => {
                let peroxide = powder.peroxide()?.known().map(in_share);
                let basis = Basis::Computed;
                let density = Input::of(POWDER_STRENGTH, Known::exact(1.0, basis));
                (Input::of(POWDER_STRENGTH, peroxide), density, true)
            }
        };
        let target = match request.aim {
            Aim::Strength(aim) => Target::Strength(
                OutOfRange::check(
                    AIM_STRENGTH,
                    Kind::Concentration,
                    in_grams_per_litre(aim),
                    1e-3,
                    200.0,
                )? / 1000.0,
            ),
            Aim::Charge(aim) => Target::Charge(OutOfRange::check(
                AIM_CHARGE,
                Kind::Share,
                in_share(aim),
                1e-5,
                1.0,
            )?),
        };
        let fill = match request.size {
            Size::Consistency(aim) => Fill::Consistency(OutOfRange::check(
                AIM_CONSISTENCY,
                Kind::Share,
                in_share(aim),
                1e-4,
                0.5,
            )?),
            Size::TotalVolume(aim) => Fill::Volume(OutOfRange::check(
                AIM_VOLUME,
                Kind::Volume,
                in_millilitres(aim),
                1.0,
                5e6,
            )?),
        };
        OutOfRange::check(
            BATH_TEMPERATURE,
            Kind::Temperature,
            request.temperature.get(),
            0.0,
            95.0,
        )?;
        if let Some(minutes) = request.minutes {
            OutOfRange::check(MINUTES, Kind::Duration, minutes, 1.0, 2880.0)?;
        }
        if let Some(vessel) = &request.vessel {
            vessel.check()?;
        }
        if let Some(squeezed) = &request.squeezed {
            squeezed.check()?;
        }
        let inputs = [Input::of(WET_MASS, wet), Input::of(DRYNESS, dryness), strength, density];
        let water_density = in_grams_per_millilitre(water_density(request.temperature));
        Ok(Self { inputs, target, fill, water_density, powder })
    }

    fn chemical(&self, strength: f64, density: f64) -> Chemical {
        if self.powder { Chemical::powder(strength) } else { Chemical::bottle(strength, density) }
    }

    fn need(&self, x: &[f64; 4]) -> sums::Need {
        let [wet, dryness, strength, density] = *x;
        let chemical = self.chemical(strength, density);
        sums::need(wet, dryness, chemical, self.target, self.fill, self.water_density)
    }

    fn middle(&self) -> [f64; 4] {
        self.inputs.map(|input| input.value)
    }

    /// Why the plan cannot be, at the inputs' values.
    pub(super) fn obstacle(&self, request: &Request) -> Option<Reason> {
        if let Some(reason) = mixing(request) {
            return Some(reason);
        }
        if let Some(clash) = company(request).find(|clash| clash.severity == Severity::Refused) {
            return Some(Reason::Clash(clash));
        }
        let x = self.middle();
        let [wet, dryness, strength, _] = x;
        let oven_dry = wet * dryness;
        let pulp_water = wet - oven_dry;
        let room = sums::room(oven_dry, self.fill, self.water_density);
        let litre = |per_ml: f64| grams_per_litre(per_ml * 1000.0);
        if !self.powder
            && let Target::Strength(target) = self.target
            && target >= strength
        {
            return Some(Reason::TooWeak { bottle: litre(strength), target: litre(target) });
        }
        if pulp_water > room {
            return Some(Reason::PulpTooWet {
                water: grams(pulp_water),
                room: grams(room.max(0.0)),
            });
        }
        let need = self.need(&x);
        let finite = [need.active, need.dose, need.water].iter().all(|x| x.is_finite());
        if !finite || need.active < 0.0 || need.water < -1e-9 * wet {
            let takes = if finite { need.dose * need.dose_mass } else { f64::INFINITY };
            let left = grams((room - pulp_water).max(0.0));
            return Some(Reason::NoRoomForBleach {
                takes: takes.is_finite().then(|| grams(takes)),
                left,
            });
        }
        if self.powder {
            let limit = percarbonate_limit(request.temperature);
            let percarbonate = need.dose * strength / PURE_PEROXIDE;
            let given = grams_per_litre(percarbonate / need.liquor * 1000.0);
            if given > limit {
                return Some(Reason::WillNotDissolve { given, limit });
            }
        }
        let short = match (request.on_hand, self.powder) {
            (Some(OnHand::Bottle(have)), false) => in_millilitres(have) < need.dose,
            (Some(OnHand::Powder(have)), true) => in_grams(have) < need.dose,
            _ => false,
        };
        short.then(|| Reason::NotEnough { need: self.on_hand(need.dose) })
    }

    fn on_hand(&self, dose: f64) -> OnHand {
        if self.powder { OnHand::Powder(grams(dose)) } else { OnHand::Bottle(millilitres(dose)) }
    }

    pub(super) fn plan(&self, request: &Request) -> Option<Plan> {
        let need = |x: &[f64; 4]| {
            let need = self.need(x);
            [need.dose, need.water]
        };
        let [dose, water] = spread(&self.inputs, need)?;
        let measured = (dose.value, water.value);
        let outcome = |x: &[f64; 4]| {
            let [wet, dryness, strength, density] = *x;
            let chemical = self.chemical(strength, density);
            let made = sums::outcome(wet, dryness, chemical, measured, self.water_density);
            [
                made.oven_dry,
                made.pulp_water,
                made.active,
                made.charge,
                made.strength * 1000.0,
                made.consistency,
                made.total_mass,
                made.total_volume,
            ]
        };
        let [oven_dry, pulp_water, active, charge, strength, consistency, mass, volume] =
            spread(&self.inputs, outcome)?;
        let mut remarks = if water.low < 0.0 { vec![short_of_room(&water)] } else { Vec::new() };
        remarks.extend(company(request).map(|clash| clash.message()));
        let water = Figure { low: water.low.max(0.0), ..water };
        let amount = if self.powder { dose.value } else { dose.value * self.inputs[3].value };
        let liquor = grams((water.value + amount).max(1e-6));
        let wet = request.pulp.wet.value;
        let readings = readings(wet, request.pulp.dryness.value, liquor).ok()?;
        let at = request.temperature;
        let density = self.water_density;
        let foreseen = ph::foresee(
            request,
            &MadeUp {
                strength: grams_per_litre(strength.value),
                dose: dose.value,
                pulp_water: millilitres(pulp_water.value / density),
                liquor: millilitres(active.value / strength.value * 1000.0),
            },
        );
        if let Ok(foreseen) = &foreseen {
            remarks.extend(foreseen.remarks());
        }
        let plan = Plan {
            oven_dry: oven_dry.map(grams),
            pulp_water: pulp_water.map(grams),
            dose: if self.powder {
                Dose::Powder(dose.map(grams))
            } else {
                Dose::Bottle(dose.map(millilitres))
            },
            water: water.map(grams),
            water_volume: water.map(|g| millilitres(g / density)),
            active: active.map(grams),
            charge: charge.map(share),
            strength: strength.map(grams_per_litre),
            consistency: consistency.map(share),
            readings,
            ph: foreseen,
            total_mass: mass.map(grams),
            total_volume: volume.map(millilitres),
            loads: Loads::split(
                Load {
                    pulp: wet,
                    dose: self.on_hand(dose.value),
                    water: millilitres(water.value / density),
                    volume: millilitres(volume.value),
                },
                request.vessel.as_ref(),
            ),
            schedule: Schedule::suggest(request.bleach.oxidant(), at, request),
            guide: guide(request.bleach.oxidant()),
            cautions: Vec::new(),
            remarks,
        };
        Some(Plan { cautions: cautions(Act::Bath, &plan.situation(request)), ..plan })
    }
}

/// The range of the water reaches below none at all: who is to blame?
fn short_of_room(water: &Figure<f64>) -> Message {
    let pulp = matches!(water.dominant, Some(WET_MASS | DRYNESS));
    let key = if pulp { "remark-may_be_too_wet" } else { "remark-may_be_too_weak" };
    Message::new(key).with("short", Value::Mass(grams(-water.low)))
}

/// What the bleach and its company do to each other, the worst first.
fn company(request: &Request) -> impl Iterator<Item = Clash> + use<> {
    let present = if request.company.is_empty() {
        Vec::new()
    } else {
        let mut present = vec![request.bleach.ingredient()];
        present.extend(&request.company);
        present
    };
    clashes(&present).into_iter()
}

/// Hypochlorite and peroxide in one vessel.
fn mixing(request: &Request) -> Option<Reason> {
    let new = request.bleach.oxidant();
    let old = match request.carried {
        Residual::Hypochlorite => Oxidant::Hypochlorite,
        Residual::Peroxide => Oxidant::Peroxide,
        Residual::None | Residual::Unknown => return None,
    };
    (!new.may_meet(old)).then_some(Reason::WouldMix { old, new })
}
