//! The pots of a class: a plan for the pulp of each, divided so that every vessel stays within
//! what the plan allows, and what is really measured out for it.

use super::{ClassBath, ClassError, ClassRequest, PotFor};
use crate::{
    bath::{Oxidant, Plan, PlanRequest, plan},
    caution::Situation,
    chemistry::water::TAP_CELSIUS,
    derive::{BathToMeasure, Station, plan_record},
    journal::PlanRecord,
    pulp::{
        ASSUMED_DRYNESS, WetPulp,
        cook::{CookPlan, CookRequest, USUAL_RATIO},
        wash::{
            DRIEST_SQUEEZE, Efficiency, OwnTargets, RinseTiming, SqueezedPulp, WashReadings,
            least_rinse,
        },
    },
    quantity::{
        Basis, Estimate, Mass, Resolution, Volume, grams, in_grams, in_jug, in_millilitres,
        in_share, millilitres, on_scale, share, weighed,
    },
};

/// The baths of a class, one for each number of people that share a pot.
#[derive(Clone, Debug, PartialEq)]
pub struct BathPots {
    /// The larger first.
    pub all: Vec<TableBath>,
}

/// The bath of some people.
#[derive(Clone, Debug, PartialEq)]
pub struct TableBath {
    pub people: u32,
    pub request: PlanRequest,
    pub plan: Plan,
    pub record: PlanRecord,
    pub measure: BathToMeasure,
}

/// What goes into the cooks of some people.
pub(super) struct CookAmounts {
    pub(super) raw: Mass,
    pub(super) alkali: Mass,
    pub(super) water: Volume,
}

/// All of them.
pub(super) struct Pots {
    pub(super) bath: Option<BathPots>,
    /// People and their cook.
    pub(super) cook: Vec<(u32, CookPlan)>,
    /// People and the water of one rinse of their pulp.
    rinse: Vec<(u32, Volume)>,
    /// Rinses that would be needed if no bleach were used up in the bath.
    pub(super) rinses_of_all_bleach: Option<u32>,
    wet_each: Mass,
    /// Raw fibre of a person.
    raw_each: Mass,
}

impl Pots {
    pub(super) fn of(request: &ClassRequest, table_sizes: &[u32]) -> Result<Self, ClassError> {
        let groups: Vec<u32> = match request.pot_for {
            PotFor::Person => vec![1],
            PotFor::Table => table_sizes.to_vec(),
            PotFor::Class => vec![request.people],
        };
        let bath = match &request.bath {
            Some(bath) => {
                let of = |people: &u32| TableBath::of(request, bath, *people);
                Some(BathPots { all: groups.iter().map(of).collect::<Result<_, _>>()? })
            }
            None => None,
        };
        let cook = if request.has(Station::Cook) {
            let of = |people: &u32| Ok((*people, cook_request(request, *people).plan()?));
            groups.iter().map(of).collect::<Result<_, ClassError>>()?
        } else {
            Vec::new()
        };
        let rinse = groups.iter().map(|people| Ok((*people, rinse_water(request, *people)?)));
        let rinse = rinse.collect::<Result<Vec<_>, ClassError>>()?;
        let most = match (&bath, rinse.first()) {
            (Some(bath), Some((_, each))) => {
                bath.all.first().and_then(|bath| rinses_of_all(request, bath, *each))
            }
            _ => None,
        };
        Ok(Self {
            bath,
            cook,
            rinse,
            rinses_of_all_bleach: most,
            wet_each: grams(in_grams(request.dry_each) / in_share(request.dryness.value)),
            raw_each: request.dry_each / in_share(request.cook_yield.value),
        })
    }

    pub(super) fn oxidant(&self) -> Option<Oxidant> {
        let first = self.bath.as_ref()?.all.first()?;
        Some(first.request.bleach.oxidant())
    }

    /// Wet pulp of all: as weighed out for the baths, where there are some.
    pub(super) fn wet_pulp(&self, tables: &[u32]) -> Mass {
        let people: u32 = tables.iter().sum();
        let Some(bath) = &self.bath else { return self.wet_each * f64::from(people) };
        let of = |people: u32| bath.of(people).map(|bath| in_grams(bath.measure.pulp));
        // One bath for all, for each table, or for each person.
        let all = of(people).or_else(|| tables.iter().map(|size| of(*size)).sum());
        grams(all.unwrap_or_else(|| f64::from(people) * of(1).unwrap_or_default()))
    }

    /// As measured, of all pots of the people together.
    pub(super) fn cook_of(&self, people: u32) -> CookAmounts {
        let raw = self.raw_each * f64::from(people);
        let Some((_, plan)) = self.cook.iter().find(|(of, _)| *of == people) else {
            return CookAmounts { raw, alkali: grams(0.0), water: millilitres(0.0) };
        };
        let loads = f64::from(plan.loads);
        CookAmounts {
            raw: on_scale(raw / loads).value * loads,
            alkali: on_scale(plan.alkali.value / loads).value * loads,
            water: in_jug(plan.water / loads).value * loads,
        }
    }

    /// The water of one rinse of the people's pulp.
    pub(super) fn rinse_of(&self, people: u32) -> Volume {
        let found = self.rinse.iter().find(|(of, _)| *of == people);
        found.map_or_else(|| millilitres(0.0), |(_, water)| *water)
    }

    /// The largest rinse.
    pub(super) fn largest_rinse(&self) -> Volume {
        self.rinse.first().map_or_else(|| millilitres(0.0), |(_, water)| *water)
    }
}

impl BathPots {
    /// The bath that so many people share.
    pub fn of(&self, people: u32) -> Option<&TableBath> {
        self.all.iter().find(|bath| bath.people == people)
    }

    /// Checks with strips of one bath.
    pub(super) fn checks(&self) -> u32 {
        let first = self.all.first();
        first.map_or(0, |bath| bath.record.schedule.ph_at_min.len() as u32)
    }

    /// Length of the bath, minutes.
    pub(super) fn minutes(&self) -> f64 {
        self.all.first().map_or(0.0, |bath| bath.record.minutes)
    }
}

/// Times that the pulp of a load is rounded and planned again: its number of loads may change.
const ROUNDS: usize = 4;

impl TableBath {
    /// The bath of the pulp of so many people: weighed to what a scale shows for each load.
    ///
    /// # Errors
    /// A refused plan.
    pub(super) fn of(
        class: &ClassRequest,
        bath: &ClassBath,
        people: u32,
    ) -> Result<Self, ClassError> {
        let wet = in_grams(class.dry_each) * f64::from(people) / in_share(class.dryness.value);
        let mut loads = 1;
        let mut made = None;
        for _ in 0..ROUNDS {
            let each = on_scale(grams(wet / f64::from(loads))).value;
            let request = of_pulp(class, &bath.request, each * f64::from(loads))?;
            let plan = plan(&request)?;
            let count = plan.loads.count;
            made = Some((request, plan));
            if count == loads {
                break;
            }
            loads = count;
        }
        // At least one round was made.
        let Some((request, plan)) = made else { return Err(ClassError::NoBath) };
        let record = plan_record(&request, &plan, bath.product.clone());
        let measure = BathToMeasure::of(&record);
        Ok(Self { people, request, plan, record, measure })
    }

    pub(super) fn situation(&self) -> Situation {
        Situation::of_plan(&self.request, &self.plan)
    }
}

/// The same bath with other pulp.
fn of_pulp(class: &ClassRequest, bath: &PlanRequest, wet: Mass) -> Result<PlanRequest, ClassError> {
    use crate::bath::BathSize::{Consistency, TotalVolume};
    let size = match bath.size {
        Consistency(share) => Consistency(share),
        // A volume is that of the pulp that it was planned with.
        TotalVolume(volume) => {
            let planned = bath.pulp.oven_dry().value;
            let now = in_grams(wet) * in_share(class.dryness.value);
            TotalVolume(volume * (now / in_grams(planned).max(1e-6)))
        }
    };
    Ok(PlanRequest {
        pulp: WetPulp::new(weighed(wet), class.dryness)?,
        size,
        on_hand: None,
        vessel: Some(class.vessel),
        ..bath.clone()
    })
}

fn cook_request(request: &ClassRequest, people: u32) -> CookRequest {
    let raw = |part| grams(in_grams(request.dry_each) * f64::from(people) / in_share(part));
    let yielded = request.cook_yield;
    CookRequest {
        // More fibre is needed where less of it comes back.
        dry_fibre: Estimate {
            value: raw(yielded.value),
            low: raw(yielded.high),
            high: raw(yielded.low),
            basis: yielded.basis,
        },
        alkali: request.cook_alkali,
        charge: request.cook_charge,
        purity: share(1.0),
        litres_per_kilogram: USUAL_RATIO,
        pot: request.vessel.capacity,
        celsius: request.cook_celsius,
        minutes: request.cook_minutes,
    }
}

/// The people's pulp as it is squeezed between rinses.
fn squeezed(request: &ClassRequest, people: u32) -> SqueezedPulp {
    let given = request.dryness;
    let fits = in_share(given.high) <= DRIEST_SQUEEZE;
    let dryness = if fits { given } else { ASSUMED_DRYNESS.map(share) };
    let dry = in_grams(request.dry_each) * f64::from(people);
    SqueezedPulp {
        wet_mass: Estimate::exact(grams(dry / in_share(dryness.value)), Basis::Computed),
        dryness,
    }
}

/// Water of one rinse: the least that the pulp can be stirred in, in as many vessels as that
/// needs, each as much as a jug shows, rounded up.
fn rinse_water(request: &ClassRequest, people: u32) -> Result<Volume, ClassError> {
    let pulp = squeezed(request, people);
    let water = in_millilitres(least_rinse(&pulp)?);
    let held = in_grams(pulp.held().value);
    let vessels =
        ((water + held) / in_millilitres(request.vessel.working()) - 1e-6).ceil().max(1.0);
    let each = water / vessels;
    let step = Resolution::jug(millilitres(each)).step;
    Ok(millilitres((each / step - 1e-9).ceil().max(1.0) * step * vessels))
}

/// Rinses until strips show none, if the bath left all of its bleach; `None` where that is more
/// than can be counted.
fn rinses_of_all(request: &ClassRequest, bath: &TableBath, each: Volume) -> Option<u32> {
    let readings =
        WashReadings { oxidant: Some(bath.plan.strength.estimate()), ..WashReadings::default() };
    let pulp = squeezed(request, bath.people);
    let (own, timing) = (OwnTargets::default(), RinseTiming::default());
    let wash = readings.wash(pulp, own, Efficiency::assumed(), timing, TAP_CELSIUS).ok()?;
    wash.rinses_of(each).ok().map(|plan| plan.rinses)
}
