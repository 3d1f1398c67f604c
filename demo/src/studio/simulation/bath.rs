//! The bath: planned by the core, its cues answered, stopped.

use bleachfield_core::bath::{
    BathAim, BathSize, Bleach, Cooling, Oxidant as BathOxidant, PlanRequest, plan as work_out,
};
use bleachfield_core::caution::Residual;
use bleachfield_core::derive::plan_record;
use bleachfield_core::journal::{
    Amount, BathStarted, BathStopped, Body, CueAnswered, CueOutcome, Figure, Oxidant, ProductUsed,
    PulpState, Reading, ReadingOf, Reheated, Stirred, StopReason,
};
use bleachfield_core::quantity::{Celsius, share};
use jiff::SignedDuration;

use super::{BatchSimulation, SimulatedBath};
use crate::photo::preset::Lighting;
use crate::studio::DemoError;
use crate::studio::model::{BleachResponse, OxidantState, ROOM, meter, ph, read, strip};
use crate::studio::shelf::StockBleach;

/// Target values of a bath.
#[derive(Clone, Copy, Debug)]
pub struct BathSettings {
    /// Active oxidant on oven-dry fibre, share by mass.
    pub charge: f64,
    pub consistency: f64,
    pub celsius: f64,
    pub minutes: f64,
}

impl BathSettings {
    pub fn with_charge(self, charge: f64) -> Self {
        Self { charge, ..self }
    }
}

impl BatchSimulation<'_> {
    /// Plans a bath and starts it.
    pub fn bleach(
        &mut self,
        stock: &StockBleach,
        wanted: BathSettings,
        response: BleachResponse,
    ) -> Result<(), DemoError> {
        self.plan(stock, wanted)?;
        self.start(response, stock.true_share)
    }

    /// Plans the bath with the core and writes the record as the app does.
    pub fn plan(&mut self, stock: &StockBleach, wanted: BathSettings) -> Result<(), DemoError> {
        self.wait(6);
        let pulp = self.pulp.ok_or_else(|| DemoError::of("a plan")("nothing was weighed"))?;
        let celsius = |value| Celsius::new(value).map_err(DemoError::of("a temperature"));
        let cooling = Cooling::measured(celsius(ROOM)?, celsius(50.0)?, celsius(44.5)?, 1.0)
            .map_err(DemoError::of("the bucket's cooling"))?;
        let request = PlanRequest {
            pulp,
            bleach: stock.bleach,
            aim: BathAim::Charge(share(wanted.charge)),
            size: BathSize::Consistency(share(wanted.consistency)),
            temperature: celsius(wanted.celsius)?,
            residual: Residual::None,
            expressed_water: None,
            other_ingredients: Vec::new(),
            on_hand: None,
            vessel: None,
            minutes: Some(wanted.minutes),
            cooling: (stock.bleach.oxidant() == BathOxidant::Percarbonate).then_some(cooling),
        };
        let plan = work_out(&request).map_err(DemoError::of("a plan"))?;
        let used = ProductUsed {
            shelf: Some(stock.id),
            name: stock.name.to_owned(),
            strength: stock.bleach.strength(),
        };
        let record = plan_record(&request, &plan, used);
        let entry = self.write(Body::Planned(Box::new(record.clone())));
        self.planned = Some((entry, record));
        match stock.bleach {
            Bleach::Hypochlorite(_) => self.chlorine_used = true,
            Bleach::Percarbonate(_) | Bleach::Peroxide(_) => self.peroxide_used = true,
        }
        Ok(())
    }

    fn start(&mut self, response: BleachResponse, true_share: f64) -> Result<(), DemoError> {
        self.wait(14);
        let (entry, record) =
            self.planned.clone().ok_or_else(|| DemoError::of("a bath")("no plan was made"))?;
        let id = self.journal.fresh_id(self.at);
        let poured = match record.product_amount {
            Amount::MassG(g) => Amount::MassG(read((g.value * 2.0).round() / 2.0, 0.5)),
            Amount::VolumeMl(ml) => Amount::VolumeMl(read(ml.value.round(), 1.0)),
        };
        let water = (record.water_to_add_ml.value / 10.0).round() * 10.0;
        self.write(Body::BathStarted(BathStarted {
            bath: id,
            plan: Some(entry),
            oxidant: record.oxidant,
            product: record.product.shelf,
            product_amount: Some(poured),
            water_added_ml: Some(read(water, 50.0)),
            celsius: Some(read(record.celsius + 1.0, 0.5)),
            schedule: record.schedule.clone(),
        }));
        let (started, colour_before) = (self.at, self.colour);
        self.bath = Some(SimulatedBath {
            id,
            started,
            record,
            response,
            true_share,
            colour_before,
            answered_until: 0,
        });
        Ok(())
    }

    /// Answers every cue up to a minute of the bath: stirring, reheating, readings. Photos
    /// are taken at the minutes given and skipped where they are due otherwise.
    pub fn tend(&mut self, until: f64, photos: &[(f64, Lighting)]) -> Result<(), DemoError> {
        let Some(bath) = &self.bath else { return Ok(()) };
        let (id, started, oxidant) = (bath.id, bath.started, bath.record.oxidant);
        for (second, task) in tasks(bath, until) {
            let lag = 20 + 9 * (second / 60 % 4) + 25 * task as i64;
            let at = started.checked_add(SignedDuration::from_secs(second + lag));
            self.at = at.unwrap_or(self.at).min(self.journal.now);
            let mut outcome = CueOutcome::Done;
            match task {
                Task::Stir => {
                    self.write(Body::Stirred(Stirred { bath: id }));
                }
                Task::Reheat => self.reheat()?,
                Task::Ph => {
                    let shown = meter(self.ph_now()?);
                    self.read(ReadingOf::Ph, shown);
                }
                Task::Strip => {
                    let shown = strip(self.charged()?.left);
                    self.read(strip_of(oxidant), shown);
                }
                Task::Photo => match photos.iter().find(|(at, _)| (at * 60.0) as i64 == second) {
                    Some((_, lighting)) => {
                        self.photograph(PulpState::Wet, *lighting, "")?;
                    }
                    None => outcome = CueOutcome::Skipped,
                },
            }
            let cue = format!("{}-{second}", task.key());
            self.write(Body::CueAnswered(CueAnswered { bath: id, cue, outcome }));
        }
        if let Some(bath) = &mut self.bath {
            bath.answered_until = (until * 60.0) as i64;
            let at = started.checked_add(SignedDuration::from_secs(bath.answered_until));
            self.at = self.at.max(at.unwrap_or(self.at).min(self.journal.now));
        }
        Ok(())
    }

    /// Stops and drains the bath. The wet pulp retains liquor.
    pub fn stop(&mut self, why: StopReason, note: &str) -> Result<(), DemoError> {
        self.wait(1);
        let left = (self.ph_now()?, self.charged()?.left);
        let colour = self.colour_now();
        if let Some(bath) = self.bath.take() {
            self.at = self.at.max(bath.started);
            let note = note.to_owned();
            self.write(Body::BathStopped(BathStopped { bath: bath.id, why, note }));
        }
        (self.liquor, self.colour, self.rinses) = (left, colour, 0);
        self.changed = Some(self.at);
        Ok(())
    }

    /// A reading of the bath or of expressed water.
    pub fn read(&mut self, what: ReadingOf, figure: Figure) {
        let bath = self.bath.as_ref().map(|bath| bath.id);
        self.write(Body::Reading(Reading {
            bath,
            what,
            figure: Some(figure),
            text: String::new(),
        }));
    }

    fn reheat(&mut self) -> Result<(), DemoError> {
        let Some(bath) = &self.bath else { return Ok(()) };
        let (id, aim) = (bath.id, bath.record.celsius);
        self.read(ReadingOf::Celsius, read(aim - 5.0, 0.5));
        let (from, to) = (Some(read(aim - 5.0, 0.5)), Some(read(aim + 0.5, 0.5)));
        self.write(Body::Reheated(Reheated { bath: id, from_celsius: from, to_celsius: to }));
        Ok(())
    }

    fn ph_now(&self) -> Result<f64, DemoError> {
        let celsius = self.bath.as_ref().map_or(ROOM, |bath| bath.record.celsius);
        ph(self.charged()?, celsius)
    }

    fn charged(&self) -> Result<OxidantState, DemoError> {
        let bath = self.bath.as_ref().ok_or_else(|| DemoError::of("a bath")("none runs"))?;
        let initial = bath.record.liquor_strength_g_per_l.value * bath.true_share;
        let left = initial * bath.response.left(self.minutes(bath));
        Ok(OxidantState { oxidant: bath.record.oxidant, initial, left })
    }
}

/// The test strip reading of an oxidant.
fn strip_of(oxidant: Oxidant) -> ReadingOf {
    match oxidant {
        Oxidant::Hypochlorite => ReadingOf::AvailableChlorineMgPerL,
        Oxidant::Percarbonate | Oxidant::Peroxide => ReadingOf::PeroxideMgPerL,
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Task {
    Stir,
    Reheat,
    Ph,
    Strip,
    Photo,
}

impl Task {
    /// The prefix of the cue's id.
    fn key(self) -> &'static str {
        match self {
            Task::Stir => "stir",
            Task::Reheat => "reheat",
            Task::Ph => "ph",
            Task::Strip => "strip",
            Task::Photo => "photo",
        }
    }
}

/// Tasks due after the last answered cue, up to a minute of the bath, in order: second and task.
fn tasks(bath: &SimulatedBath, until: f64) -> Vec<(i64, Task)> {
    let schedule = &bath.record.schedule;
    let last = (until * 60.0) as i64;
    let stop = schedule.stop_at_min.map_or(last + 1, |min| (min * 60.0) as i64);
    let mut tasks = Vec::new();
    for (task, every) in
        [(Task::Stir, schedule.stir_every_min), (Task::Reheat, schedule.reheat_every_min)]
    {
        let Some(every) = every else { continue };
        let seconds = (1..).map(|n| (every * 60.0 * f64::from(n)).round() as i64);
        tasks.extend(seconds.take_while(|s| *s <= last && *s < stop).map(|s| (s, task)));
    }
    for (task, minutes) in [
        (Task::Ph, &schedule.ph_at_min),
        (Task::Strip, &schedule.strip_at_min),
        (Task::Photo, &schedule.photo_at_min),
    ] {
        let seconds = minutes.iter().map(|min| (min * 60.0).round() as i64);
        tasks.extend(seconds.filter(|s| *s <= last).map(|s| (s, task)));
    }
    tasks.retain(|(second, _)| *second > bath.answered_until);
    tasks.sort_unstable();
    tasks
}
