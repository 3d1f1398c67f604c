//! The latest readings of a bath, and the cautions that follow from them.

use std::cmp::Reverse;

use bleachfield_core::{
    bath,
    caution::{Act, Caution, CautionId, Fact, Residual, Severity, Situation, cautions},
    journal::{Active, Additive, BathView, Body, Book, Figure, Oxidant, PlanRecord, ReadingOf},
    quantity::{Interval, grams_per_litre, share},
};
use jiff::Timestamp;
use ulid::Ulid;

/// The latest pH, strip and temperature of a bath.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LatestReadings {
    pub ph: Option<LatestReading>,
    /// mg/L, of available chlorine or hydrogen peroxide.
    pub strip: Option<LatestReading>,
    pub celsius: Option<LatestReading>,
    /// The input of the hazard rules. Without a reading the pH is that predicted by the plan. The
    /// strength is the plan's, else unknown: a strip ends at 100 or 200 mg/L and says little of
    /// how strong a bath is.
    pub situation: Situation,
}

/// A figure and when it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LatestReading {
    pub figure: Figure,
    pub at: Timestamp,
}

impl LatestReadings {
    /// Empty if the book has no such bath.
    pub fn of(book: &Book, bath: Ulid) -> Self {
        let Some(view) = book.bath(bath) else { return Self::default() };
        let Some(batch) = book.batches.get(&view.batch) else { return Self::default() };
        let mut latest = Self::default();
        // An added oxidant that must not meet the bath's own.
        let mut clashing = None;
        for entry in batch.visible_entries().filter(|entry| entry.body.bath() == Some(view.id)) {
            if let Body::Added(added) = &entry.body {
                let clashes = |o: &Oxidant| !bath::Oxidant::from(*o).may_meet(view.oxidant.into());
                clashing = oxidant_of(added.what).filter(clashes).or(clashing);
            }
            latest.read(&entry.body, entry.at);
        }
        let plan = plan_of(book, view);
        let counts_active = |plan: &&PlanRecord| {
            matches!(plan.counted_as, Active::AvailableChlorine | Active::HydrogenPeroxide)
        };
        let minutes = match view.schedules.last() {
            Some((_, schedule)) => schedule.stop_at_min,
            None => plan.map(|plan| plan.minutes),
        };
        latest.situation = Situation {
            oxidant: bath::Oxidant::from(view.oxidant).into(),
            residual: residual_of(clashing.unwrap_or(view.oxidant)),
            temperature: latest.celsius.and_then(|read| Interval::celsius(read.figure)),
            ph: latest
                .ph
                .map(|read| read.figure)
                .or(plan.and_then(|plan| plan.ph))
                .and_then(Interval::ph),
            strength: plan
                .filter(counts_active)
                .map(|plan| Interval::from(plan.liquor_strength_g_per_l).map(grams_per_litre)),
            charge: plan.map(|plan| Interval::from(plan.charge).map(share)),
            minutes: minutes.map(Interval::exact),
            ..Situation::default()
        };
        latest
    }

    /// The same of a bath that has run for so many minutes: it may have run past its stop.
    #[must_use]
    pub fn after(mut self, minutes: f64) -> Self {
        if let Some(planned) = &mut self.situation.minutes {
            planned.high = planned.high.max(minutes);
        }
        self
    }

    fn read(&mut self, body: &Body, at: Timestamp) {
        let read = |figure: Option<Figure>| figure.map(|figure| LatestReading { figure, at });
        match body {
            Body::BathStarted(started) => self.celsius = read(started.celsius),
            Body::Reheated(reheated) => {
                self.celsius = read(reheated.to_celsius).or(self.celsius);
            }
            Body::Reading(reading) => {
                let latest = match reading.what {
                    ReadingOf::Ph => &mut self.ph,
                    ReadingOf::Celsius => &mut self.celsius,
                    ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL => {
                        &mut self.strip
                    }
                    _ => return,
                };
                *latest = read(reading.figure).or(*latest);
            }
            _ => {}
        }
    }

    /// The cautions that a new pH would raise.
    pub fn cautions_of_ph(&self, read: Figure) -> Vec<Caution> {
        let ph = Interval::ph(read);
        resting_on(&[Fact::Ph], &Situation { ph, ..self.situation.clone() })
    }

    /// The cautions that a new temperature would raise.
    pub fn cautions_of_celsius(&self, read: Figure) -> Vec<Caution> {
        let temperature = Interval::celsius(read);
        let situation = Situation { temperature, ..self.situation.clone() };
        resting_on(&[Fact::Temperature], &situation)
    }

    /// Those that present figures cause, which stand beside them: raised by the readings, every
    /// danger that rests on a figure or on its being unknown, and a clash of two oxidants; the
    /// gravest first.
    pub fn urgent_cautions(&self) -> Vec<Caution> {
        let mut urgent = cautions(Act::Bath, &self.situation);
        urgent.retain(|caution| self.is_urgent(caution));
        urgent.sort_by_key(|caution| Reverse(caution.severity));
        urgent
    }

    /// All others that hold for this bath.
    pub fn standing_cautions(&self) -> Vec<Caution> {
        let mut standing = cautions(Act::Bath, &self.situation);
        standing.retain(|caution| !self.is_urgent(caution));
        standing
    }

    /// The cautions for reheating it.
    pub fn heating_cautions(&self) -> Vec<Caution> {
        cautions(Act::Heating, &self.situation)
    }

    fn is_urgent(&self, caution: &Caution) -> bool {
        let raised = match caution.id.fact() {
            Some(Fact::Ph) => self.ph.is_some(),
            Some(Fact::Temperature) => self.celsius.is_some(),
            _ => false,
        };
        let danger = caution.severity == Severity::Danger && caution.id.fact().is_some();
        raised || danger || caution.id == CautionId::BleachWithPeroxide
    }
}

/// The cautions of a running bath that rest on these facts.
fn resting_on(facts: &[Fact], situation: &Situation) -> Vec<Caution> {
    let mut resting = cautions(Act::Bath, situation);
    resting.retain(|caution| caution.id.fact().is_some_and(|fact| facts.contains(&fact)));
    resting
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

/// What an oxidant leaves in liquor and pulp.
pub fn residual_of(oxidant: Oxidant) -> Residual {
    match oxidant {
        Oxidant::Hypochlorite => Residual::Hypochlorite,
        Oxidant::Percarbonate | Oxidant::Peroxide => Residual::Peroxide,
    }
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
        journal::{
            Added, Amount, BathStarted, DeviceId, EntryWriter, Reading, Reheated, Schedule,
            Subject, Withdrawn,
        },
        quantity::{Basis, Estimate},
    };
    use jiff::SignedDuration;

    const BATH: Ulid = Ulid::from_parts(2, 2);

    /// A book of one bath with these entries, a minute apart, and the ids of all entries.
    fn book_of(oxidant: Oxidant, bodies: Vec<Body>) -> (Book, Vec<Ulid>) {
        let mut writer = EntryWriter::new(DeviceId::new("a").unwrap(), None);
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
            .chain(bodies)
            .enumerate()
            .map(|(i, body)| {
                let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(i as i64);
                writer.write(now, i as u128, "", about, body).unwrap()
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
    fn the_latest_reading_of_each_kind_counts() {
        let (book, _) = book_of(
            Oxidant::Hypochlorite,
            vec![
                reading(ReadingOf::Ph, 10.5),
                reading(ReadingOf::AvailableChlorineMgPerL, 100.0),
                reading(ReadingOf::Ph, 10.4),
                Body::Reheated(Reheated {
                    bath: BATH,
                    from_celsius: Some(figure(30.0)),
                    to_celsius: Some(figure(40.0)),
                }),
            ],
        );
        let latest = LatestReadings::of(&book, BATH);
        assert_eq!(latest.ph.unwrap().figure.value, 10.4);
        assert_eq!(latest.strip.unwrap().figure.value, 100.0);
        assert_eq!(latest.celsius.unwrap().figure.value, 40.0);
        let urgent = latest.urgent_cautions();
        let unknown = [Some(Fact::Dose), Some(Fact::Time)];
        assert!(urgent.iter().all(|c| unknown.contains(&c.id.fact())), "{urgent:?}");
    }

    #[test]
    fn a_bath_past_its_stop_is_a_long_bath() {
        let (book, _) = book_of(Oxidant::Hypochlorite, Vec::new());
        let mut latest = LatestReadings::of(&book, BATH);
        latest.situation.minutes = Some(Interval::exact(60.0));
        let is_long = |minutes| {
            let all = latest.clone().after(minutes);
            ids(&[all.urgent_cautions(), all.standing_cautions()].concat())
                .contains(&CautionId::LongBath)
        };
        assert!(!is_long(59.0));
        assert!(is_long(300.0));
    }

    #[test]
    fn a_low_ph_raises_its_cautions_and_its_withdrawal_removes_them() {
        let (mut book, entries) = book_of(Oxidant::Hypochlorite, vec![reading(ReadingOf::Ph, 6.4)]);
        let raised = ids(&LatestReadings::of(&book, BATH).urgent_cautions());
        assert!(raised.contains(&CautionId::HypochloritePhLow), "{raised:?}");
        assert!(raised.contains(&CautionId::ChlorineFromLiquor), "{raised:?}");

        let mut writer = EntryWriter::new(DeviceId::new("a").unwrap(), book.latest());
        let withdrawn = Body::Withdrawn(Withdrawn { entry: entries[1], why: String::new() });
        let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(9);
        let about = Subject::Batch(Ulid::from_parts(1, 1));
        book.add([writer.write(now, 9, "", about, withdrawn).unwrap()]);
        let left = ids(&LatestReadings::of(&book, BATH).urgent_cautions());
        assert!(!left.contains(&CautionId::ChlorineFromLiquor), "{left:?}");
        assert!(!left.contains(&CautionId::HypochloritePhLow), "{left:?}");
    }

    #[test]
    fn a_clashing_second_oxidant_is_an_urgent_danger() {
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
            let (book, _) = book_of(oxidant, add(added));
            let urgent = ids(&LatestReadings::of(&book, BATH).urgent_cautions());
            let seen = urgent.contains(&CautionId::BleachWithPeroxide);
            assert_eq!(seen, danger, "{added:?} into {oxidant:?}: {urgent:?}");
        }
    }

    #[test]
    fn no_caution_is_lost_between_the_two_lists() {
        let (book, _) = book_of(Oxidant::Hypochlorite, vec![reading(ReadingOf::Ph, 6.4)]);
        let latest = LatestReadings::of(&book, BATH);
        let mut shown = ids(&[latest.urgent_cautions(), latest.standing_cautions()].concat());
        shown.sort();
        let mut all = ids(&cautions(Act::Bath, &latest.situation));
        all.sort();
        assert_eq!(shown, all);
    }
}
