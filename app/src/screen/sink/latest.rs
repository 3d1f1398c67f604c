//! What was last read in a bath, and the situation that makes for the cautions.

use bleachfield_core::{
    caution::{Act, Caution, Residual, Situation, cautions},
    journal::{
        Active, Additive, Batch, BathView, Body, Book, Figure, Oxidant, PlanRecord, ReadingOf,
    },
    quantity::{Celsius, Ph, grams_per_litre, share},
};
use jiff::Timestamp;
use ulid::Ulid;

/// The last pH, strip and temperature of a bath.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Latest {
    pub ph: Option<Read>,
    pub strip: Option<Read>,
    pub celsius: Option<Read>,
    /// An oxidant of the other family went in too.
    second_oxidant: Option<Oxidant>,
    oxidant: Option<Oxidant>,
    plan: Option<Planned>,
}

/// A figure and when it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Read {
    pub figure: Figure,
    pub at: Timestamp,
}

/// What of the plan bears on the cautions.
#[derive(Clone, Debug, PartialEq)]
struct Planned {
    active_g_per_l: Option<f64>,
    charge: f64,
}

impl Latest {
    /// What the log says of the bath.
    pub fn of(book: &Book, bath: Ulid) -> Self {
        let Some(view) = book.bath(bath) else { return Self::default() };
        let Some(batch) = book.batches.get(&view.batch) else { return Self::default() };
        let mut latest = Self {
            oxidant: Some(view.oxidant),
            plan: plan_of(book, view).map(|plan| Planned {
                active_g_per_l: matches!(
                    plan.counted_as,
                    Active::AvailableChlorine | Active::HydrogenPeroxide
                )
                .then_some(plan.liquor_strength_g_per_l.value),
                charge: plan.charge.value,
            }),
            ..Self::default()
        };
        latest.take_in(batch, view);
        latest
    }

    fn take_in(&mut self, batch: &Batch, view: &BathView) {
        for told in batch.told().filter(|told| told.body.bath() == Some(view.id)) {
            let read = |figure: Option<Figure>| figure.map(|figure| Read { figure, at: told.at });
            match &told.body {
                Body::BathStarted(started) => self.celsius = read(started.celsius),
                Body::Reheated(warmed) => self.celsius = read(warmed.to_celsius).or(self.celsius),
                Body::Reading(reading) => {
                    let place = match reading.what {
                        ReadingOf::Ph => &mut self.ph,
                        ReadingOf::Celsius => &mut self.celsius,
                        ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL => {
                            &mut self.strip
                        }
                        _ => continue,
                    };
                    *place = read(reading.figure).or(*place);
                }
                Body::Added(added) => {
                    if let Some(other) = oxidant_of(added.what).filter(|o| !meets(*o, view.oxidant))
                    {
                        self.second_oxidant = Some(other);
                    }
                }
                _ => {}
            }
        }
    }

    /// The bath as the hazard rules look at it. A strip says little of how
    /// strong a bath is (it ends at a hundred or two), so the plan's strength
    /// stands, and where there is no plan it is not known.
    pub fn situation(&self) -> Situation {
        let residual = match self.second_oxidant.or(self.oxidant) {
            Some(Oxidant::Hypochlorite) => Residual::Hypochlorite,
            Some(_) => Residual::Peroxide,
            None => Residual::Unknown,
        };
        let plan = self.plan.as_ref();
        Situation {
            oxidant: self.oxidant.map(Into::into),
            residual,
            temperature: self.celsius.and_then(|read| Celsius::new(read.figure.value).ok()),
            ph: self.ph.and_then(|read| Ph::new(read.figure.value).ok()),
            strength: plan.and_then(|plan| plan.active_g_per_l).map(grams_per_litre),
            charge: plan.map(|plan| share(plan.charge)),
            ..Situation::default()
        }
    }

    /// The cautions that hold because of what was read, the gravest first.
    pub fn raised(&self) -> Vec<Caution> {
        raised(&self.situation(), self.ph.is_some(), self.celsius.is_some())
    }

    /// All other cautions for a running bath.
    pub fn standing(&self) -> Vec<Caution> {
        let raised = self.raised();
        let all = cautions(Act::Bath, &self.situation());
        all.into_iter().filter(|c| raised.iter().all(|r| r.id != c.id)).collect()
    }

    /// The cautions for warming it again.
    pub fn heating(&self) -> Vec<Caution> {
        cautions(Act::Heating, &self.situation())
    }
}

/// The cautions that hold for a running bath with this pH and temperature and
/// would not hold without.
pub fn raised(situation: &Situation, by_ph: bool, by_temperature: bool) -> Vec<Caution> {
    let without = Situation {
        ph: if by_ph { None } else { situation.ph },
        temperature: if by_temperature { None } else { situation.temperature },
        ..situation.clone()
    };
    let anyway = cautions(Act::Bath, &without);
    let mut found = cautions(Act::Bath, situation);
    found.retain(|caution| !anyway.contains(caution));
    found
}

/// The oxidant that an addition brings.
pub fn oxidant_of(what: Additive) -> Option<Oxidant> {
    match what {
        Additive::Hypochlorite => Some(Oxidant::Hypochlorite),
        Additive::Percarbonate => Some(Oxidant::Percarbonate),
        Additive::Peroxide => Some(Oxidant::Peroxide),
        _ => None,
    }
}

fn meets(one: Oxidant, other: Oxidant) -> bool {
    bleachfield_core::bath::Oxidant::from(one).may_meet(other.into())
}

fn plan_of<'a>(book: &'a Book, view: &BathView) -> Option<&'a PlanRecord> {
    match &book.entry(view.plan?)?.body {
        Body::Planned(plan) => Some(plan),
        _ => None,
    }
}
