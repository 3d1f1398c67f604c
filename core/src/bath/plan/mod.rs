//! The plan of one bath: what to measure out, and what comes of it.

mod load;
mod refusal;
mod schedule;
mod sums;
mod way;

pub use load::{CAPACITY, Filled, Load, Loads, Vessel};
pub use refusal::{Reason, Refused};
pub use schedule::{Cue, CueKind, Guide, Schedule, Window, guide};
pub use way::Way;

use super::{
    BATH_TEMPERATURE, BOTTLE_STRENGTH, Bottle, Cooling, Oxidant, POWDER_STRENGTH, Powder,
    water_density,
};
use crate::{
    caution::{Act, Caution, Residual, Situation, cautions},
    message::{Field, Message, Value},
    pulp::{DRYNESS, Readings, WET_MASS, WetPulp, readings},
    quantity::{
        Celsius, Figure, Input, Kind, Known, Mass, MassConcentration, OutOfRange, Ratio, Volume,
        grams, grams_per_litre, in_grams, in_grams_per_litre, in_grams_per_millilitre,
        in_millilitres, in_share, millilitres, share, spread,
    },
};
use sums::{Chemical, Fill, Target};

/// Works a bath out.
///
/// # Errors
/// [`Refused`]: the reason, and the nearest plans that would work, each checked
/// to work before it is offered.
pub fn plan(request: &Request) -> Result<Plan, Refused> {
    let facts = Facts::of(request)?;
    if let Some(reason) = facts.obstacle(request) {
        return Err(Refused { ways: way::ways(request, &reason), reason });
    }
    facts.plan(request).ok_or_else(|| Refused { reason: Reason::NotFinite, ways: Vec::new() })
}

/// What a person wants of a bath.
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    pub pulp: WetPulp,
    pub bleach: Bleach,
    pub aim: Aim,
    pub size: Size,
    /// What the bath is to be kept at.
    pub temperature: Celsius,
    /// What may still be in the pulp from an earlier bath.
    pub carried: Residual,
    /// How much of the bottle or powder there is, in mL or g, if that matters.
    pub on_hand: Option<OnHand>,
    /// What the bath is made up in, to split it into loads.
    pub vessel: Option<Vessel>,
    /// Planned length in minutes; the usual hour where nobody says.
    pub minutes: Option<f64>,
    /// How the vessel loses heat, to say when to reheat.
    pub cooling: Option<Cooling>,
}

/// The bleach of a bath: one bottle or one powder, never both.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bleach {
    Hypochlorite(Bottle),
    Percarbonate(Powder),
}

impl Bleach {
    pub fn oxidant(&self) -> Oxidant {
        match self {
            Bleach::Hypochlorite(_) => Oxidant::Hypochlorite,
            Bleach::Percarbonate(_) => Oxidant::Percarbonate,
        }
    }
}

/// How strong the bath is to be. Active means available chlorine or H2O2.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Aim {
    /// Active per volume of all the liquor, the pulp's own water included.
    Strength(MassConcentration),
    /// Active per oven-dry fibre.
    Charge(Ratio),
}

/// How large the bath is to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// Oven-dry fibre over all mass.
    Consistency(Ratio),
    /// Pulp and liquor together.
    TotalVolume(Volume),
}

/// What there is of the bleach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OnHand {
    Bottle(Volume),
    Powder(Mass),
}

/// What to measure out of the bleach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dose {
    Bottle(Figure<Volume>),
    Powder(Figure<Mass>),
}

/// A bath worked out. Amounts to measure carry the range that they would need
/// to have for the aim to be met exactly; outcomes carry the range that they
/// will have once the amounts are measured as given.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What is in the lump.
    pub oven_dry: Figure<Mass>,
    pub pulp_water: Figure<Mass>,
    /// To measure out.
    pub dose: Dose,
    pub water: Figure<Mass>,
    /// The water in a jug, at the bath's temperature.
    pub water_volume: Figure<Volume>,
    /// What comes of it: available chlorine or H2O2.
    pub active: Figure<Mass>,
    pub charge: Figure<Ratio>,
    /// Active over all the liquor.
    pub strength: Figure<MassConcentration>,
    /// By the standard definition.
    pub consistency: Figure<Ratio>,
    /// And what the same weighing is often taken for.
    pub readings: Readings,
    pub total_mass: Figure<Mass>,
    pub total_volume: Figure<Volume>,
    /// One load where no vessel was named.
    pub loads: Loads,
    pub schedule: Schedule,
    pub guide: Guide,
    pub cautions: Vec<Caution>,
    /// What else is worth knowing: a range that reaches into the impossible.
    pub remarks: Vec<Message>,
}

pub const AIM_STRENGTH: Field = Field("aim_strength");
pub const AIM_CHARGE: Field = Field("aim_charge");
pub const AIM_CONSISTENCY: Field = Field("aim_consistency");
pub const AIM_VOLUME: Field = Field("aim_volume");
pub const MINUTES: Field = Field("minutes");
pub const ON_HAND: Field = Field("on_hand");

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
    fn of(request: &Request) -> Result<Self, OutOfRange> {
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
                (strength, Input::of(super::BOTTLE_DENSITY, density), false)
            }
            Bleach::Percarbonate(powder) => {
                let peroxide = powder.peroxide()?.known().map(in_share);
                let basis = crate::quantity::Basis::Computed;
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
    fn obstacle(&self, request: &Request) -> Option<Reason> {
        if let Some(reason) = mixing(request) {
            return Some(reason);
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
        if !(pulp_water <= room) {
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
            let percarbonate = need.dose * strength / super::PURE_PEROXIDE;
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

    fn plan(&self, request: &Request) -> Option<Plan> {
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
        let mut remarks = Vec::new();
        if water.low < 0.0 {
            remarks.push(
                Message::new("remark.may_be_too_wet").with("short", Value::Mass(grams(-water.low))),
            );
        }
        let water = Figure { low: water.low.max(0.0), ..water };
        let amount = if self.powder { dose.value } else { dose.value * self.inputs[3].value };
        let liquor = grams(water.value + amount);
        let wet = request.pulp.wet.value;
        let readings = readings(wet, request.pulp.dryness.value, liquor.max_of(1e-6)).ok()?;
        let at = request.temperature;
        let density = self.water_density;
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

impl Plan {
    /// What the hazard rules need to know of this plan.
    pub fn situation(&self, request: &Request) -> Situation {
        let bottle_strength = match &request.bleach {
            Bleach::Hypochlorite(bottle) => {
                bottle.liquid().ok().map(|liquid| liquid.available_chlorine.value)
            }
            Bleach::Percarbonate(_) => None,
        };
        Situation {
            oxidant: Some(request.bleach.oxidant()),
            residual: request.carried,
            temperature: Some(request.temperature),
            strength: Some(self.strength.value),
            bottle_strength,
            charge: Some(self.charge.value),
            blender: request.vessel.is_some_and(|vessel| vessel.filled == Filled::Blender),
            ..Situation::default()
        }
    }
}

trait MaxOf {
    fn max_of(self, least: f64) -> Self;
}

impl MaxOf for Mass {
    fn max_of(self, least: f64) -> Mass {
        grams(in_grams(self).max(least))
    }
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

/// Most sodium percarbonate that dissolves, g/L: 120 at 10 °C (from memory),
/// 140 at 20 °C and above (ECHA registration dossier 15960, section 4.9). Hotter
/// water takes more, but a hot saturated liquor is decomposing, so it stops
/// there; colder water follows the line down.
pub fn percarbonate_limit(at: Celsius) -> MassConcentration {
    grams_per_litre((100.0 + 2.0 * at.get()).min(140.0))
}
