//! What was last read in a bath, and the situation that makes for the cautions.

use bleachfield_core::{
    caution::{Act, Caution, Residual, Severity, Situation, cautions},
    journal::{
        Active, Additive, Batch, BathView, Body, Book, Figure, Oxidant, PlanRecord, ReadingOf,
    },
    quantity::{Celsius, Ph, grams_per_litre, share},
};
use jiff::Timestamp;
use ulid::Ulid;

/// The last pH, strip and temperature of a bath.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LatestReadings {
    pub ph: Option<LatestReading>,
    pub strip: Option<LatestReading>,
    pub celsius: Option<LatestReading>,
    /// An oxidant of the other family went in too.
    second_oxidant: Option<Oxidant>,
    oxidant: Option<Oxidant>,
    plan: Option<PlannedBath>,
}

/// A figure and when it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LatestReading {
    pub figure: Figure,
    pub at: Timestamp,
}

/// What of the plan bears on the cautions.
#[derive(Clone, Debug, PartialEq)]
struct PlannedBath {
    active_g_per_l: Option<f64>,
    charge: f64,
}

impl LatestReadings {
    /// What the log says of the bath.
    pub fn of(book: &Book, bath: Ulid) -> Self {
        let Some(view) = book.bath(bath) else { return Self::default() };
        let Some(batch) = book.batches.get(&view.batch) else { return Self::default() };
        let mut latest = Self {
            oxidant: Some(view.oxidant),
            plan: plan_of(book, view).map(|plan| PlannedBath {
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
        for told in batch.visible_entries().filter(|told| told.body.bath() == Some(view.id)) {
            let read =
                |figure: Option<Figure>| figure.map(|figure| LatestReading { figure, at: told.at });
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

    /// What must be in sight before anything is pressed: what the readings
    /// raised, and every other danger.
    pub fn foremost(&self) -> Vec<Caution> {
        let mut foremost = self.raised();
        let dangers = self.standing().into_iter().filter(|c| c.severity == Severity::Danger);
        foremost.extend(dangers.collect::<Vec<_>>());
        foremost.sort_by_key(|caution| std::cmp::Reverse(caution.severity));
        foremost
    }

    /// What holds for such a bath anyway.
    pub fn lesser(&self) -> Vec<Caution> {
        let standing = self.standing().into_iter();
        standing.filter(|caution| caution.severity != Severity::Danger).collect()
    }

    fn standing(&self) -> Vec<Caution> {
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

/// The plan that a bath follows.
pub fn plan_of<'a>(book: &'a Book, view: &BathView) -> Option<&'a PlanRecord> {
    match &book.entry(view.plan?)?.body {
        Body::Planned(plan) => Some(plan),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::{
        caution::CautionId,
        journal::{
            Added, Amount, BathStarted, DeviceId, EntryWriter, Reading, Reheated, Schedule,
            Subject, Withdrawn,
        },
        quantity::{Basis, Estimate},
    };
    use jiff::SignedDuration;

    const BATH: Ulid = Ulid::from_parts(2, 2);

    /// The book of a bath and what happened in it, a minute apart, and the ids.
    fn book(oxidant: Oxidant, happened: Vec<Body>) -> (Book, Vec<Ulid>) {
        let mut pen = EntryWriter::new(DeviceId::new("a").unwrap(), None);
        let started = Body::BathStarted(BathStarted {
            bath: BATH,
            plan: None,
            oxidant,
            product: None,
            product_amount: None,
            water_added_ml: None,
            celsius: Some(figure(38.0)),
            schedule: Schedule::default(),
        });
        let about = Subject::Batch(Ulid::from_parts(1, 1));
        let entries: Vec<_> = std::iter::once(started)
            .chain(happened)
            .enumerate()
            .map(|(i, body)| {
                let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(i as i64);
                pen.write(now, i as u128, "", about, body).unwrap()
            })
            .collect();
        let ids = entries.iter().map(|entry| entry.id).collect();
        (Book::of(entries), ids)
    }

    fn figure(value: f64) -> Figure {
        Estimate::exact(value, Basis::Measured)
    }

    fn reading(what: ReadingOf, value: f64) -> Body {
        Body::Reading(Reading {
            bath: Some(BATH),
            what,
            figure: Some(figure(value)),
            text: String::new(),
        })
    }

    fn ids(cautions: &[Caution]) -> Vec<CautionId> {
        cautions.iter().map(|caution| caution.id).collect()
    }

    #[test]
    fn the_last_reading_of_each_kind_stands() {
        let (book, _) = book(
            Oxidant::Hypochlorite,
            vec![
                reading(ReadingOf::Ph, 10.5),
                reading(ReadingOf::AvailableChlorineMgPerL, 100.0),
                reading(ReadingOf::Ph, 9.8),
                Body::Reheated(Reheated {
                    bath: BATH,
                    from_celsius: Some(figure(30.0)),
                    to_celsius: Some(figure(40.0)),
                }),
            ],
        );
        let latest = LatestReadings::of(&book, BATH);
        assert_eq!(latest.ph.unwrap().figure.value, 9.8);
        assert_eq!(latest.strip.unwrap().figure.value, 100.0);
        assert_eq!(latest.celsius.unwrap().figure.value, 40.0);
        assert!(latest.raised().is_empty());
    }

    #[test]
    fn a_low_ph_raises_its_cautions_and_taking_it_back_lowers_them() {
        let (mut held, entries) = book(Oxidant::Hypochlorite, vec![reading(ReadingOf::Ph, 6.4)]);
        let raised = ids(&LatestReadings::of(&held, BATH).raised());
        assert!(raised.contains(&CautionId::HypochloritePhLow), "{raised:?}");
        assert!(raised.contains(&CautionId::ChlorineFromLiquor), "{raised:?}");

        let mut pen = EntryWriter::new(DeviceId::new("a").unwrap(), held.latest());
        let back = Body::Withdrawn(Withdrawn { entry: entries[1], why: String::new() });
        let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(9);
        let about = Subject::Batch(Ulid::from_parts(1, 1));
        held.add([pen.write(now, 9, "", about, back).unwrap()]);
        assert!(LatestReadings::of(&held, BATH).raised().is_empty());
    }

    #[test]
    fn a_second_oxidant_in_the_bath_is_a_danger_in_sight() {
        let add = |what| {
            vec![Body::Added(Added {
                bath: Some(BATH),
                what,
                product: None,
                amount: Amount::MassG(figure(10.0)),
                note: String::new(),
            })]
        };
        for (oxidant, added, danger) in [
            (Oxidant::Hypochlorite, Additive::Percarbonate, true),
            (Oxidant::Percarbonate, Additive::Hypochlorite, true),
            (Oxidant::Hypochlorite, Additive::Hypochlorite, false),
            (Oxidant::Percarbonate, Additive::Peroxide, false),
            (Oxidant::Hypochlorite, Additive::SodaAsh, false),
        ] {
            let (book, _) = book(oxidant, add(added));
            let foremost = ids(&LatestReadings::of(&book, BATH).foremost());
            let seen = foremost.contains(&CautionId::BleachWithPeroxide);
            assert_eq!(seen, danger, "{added:?} into {oxidant:?}: {foremost:?}");
        }
    }

    #[test]
    fn no_caution_is_lost_between_the_two_lists() {
        let (book, _) = book(Oxidant::Hypochlorite, vec![reading(ReadingOf::Ph, 6.4)]);
        let latest = LatestReadings::of(&book, BATH);
        let mut shown = ids(&latest.foremost());
        shown.extend(ids(&latest.lesser()));
        shown.sort();
        let mut all = ids(&cautions(Act::Bath, &latest.situation()));
        all.sort();
        assert_eq!(shown, all);
    }
}
