//! A trial before it is kept: its pots with their plans, and the entries that keep it.

use ulid::Ulid;

use crate::{
    bath::{BathAim, BathSize, Bleach, ExpressedWater, Plan, PlanRequest, RefusedPlan, plan},
    caution::{Act, Caution, Severity, Situation, cautions},
    chemistry::Residual,
    derive::plan_record,
    journal::{
        Batch, BatchStarted, Body, NewEntry, PlanRecord, ProductUsed, Schedule, Subject,
        TrialDesigned, TrialPot, Weighed,
    },
    message::{Message, Value},
    pulp::WetPulp,
    quantity::{Celsius, Mass, OutOfRange, Ratio, in_grams, share, weighed},
    trial::{
        DesignError, DesignPoint, DoseError, FEWEST_POTS, MOST_POTS, PotNeed, StaggeredPot,
        TrialDoses, design, stagger, trial_doses,
    },
};

/// A bleach of a trial, with its levels.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialBleach {
    pub bleach: Bleach,
    pub used: ProductUsed,
    /// Active per oven-dry fibre, rising; of every bleach as many.
    pub charges: Vec<f64>,
    pub celsius: Vec<f64>,
    pub minutes: Vec<f64>,
}

/// What a person chose.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialSetup {
    pub bleaches: Vec<TrialBleach>,
    pub pots: usize,
    pub seed: u32,
    /// Wet pulp of one pot.
    pub pot: Mass,
    pub dryness: crate::quantity::Estimate<Ratio>,
    /// Oven-dry fibre per total mass.
    pub consistency: f64,
    /// Minutes that one start or stop takes.
    pub apart: f64,
    pub residual: Residual,
    pub expressed_water: Option<ExpressedWater>,
}

/// One pot of a trial that is not kept yet.
#[derive(Clone, Debug, PartialEq)]
pub struct DraftPot {
    /// On its label: its place in the order.
    pub number: u32,
    pub levels: DesignPoint,
    pub of_bleach: usize,
    pub plan: Plan,
    pub record: PlanRecord,
    pub times: StaggeredPot,
}

/// A trial that can be kept.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialDraft {
    pub seed: u32,
    /// In the order of their starts.
    pub pots: Vec<DraftPot>,
    pub doses: TrialDoses,
    /// Of all pots together and of each, once each, the gravest first.
    pub cautions: Vec<Caution>,
    pub pot_dryness: crate::quantity::Estimate<f64>,
}

/// Why there is no trial.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TrialError {
    #[error(transparent)]
    Design(#[from] DesignError),
    #[error(transparent)]
    Dose(#[from] DoseError),
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// The planner refuses a pot.
    #[error("pot refused: {0}")]
    Pot(Box<RefusedPlan>),
    /// No bleach was chosen.
    #[error("no bleach")]
    NoBleach,
    /// A pot's own figures are a danger.
    #[error("a pot is dangerous")]
    Danger(Box<Caution>),
}

impl TrialError {
    pub fn message(&self) -> Message {
        let count = |n: usize| Value::Count(n as u64);
        match self {
            Self::Design(DesignError::Pots(pots)) => Message::new("refusal-trial_pots")
                .with("pots", count(*pots))
                .with("fewest", count(FEWEST_POTS))
                .with("most", count(MOST_POTS)),
            Self::Design(DesignError::NothingVaries) => Message::new("refusal-trial_same"),
            Self::Design(DesignError::TooManyLevels { levels, pots }) => {
                Message::new("refusal-trial_levels")
                    .with("levels", count(*levels))
                    .with("pots", count(*pots))
            }
            Self::Dose(DoseError::PotTooSmall { .. }) => Message::new("refusal-trial_too_small"),
            Self::OutOfRange(error) => error.message(),
            Self::Pot(refused) => refused.message(),
            Self::NoBleach => Message::new("refusal-trial_no_bleach"),
            Self::Danger(caution) => caution.message.clone(),
        }
    }
}

impl TrialDraft {
    /// Designs, plans and doses a trial.
    ///
    /// # Errors
    /// [`TrialError`]. A pot that the planner refuses or whose figures are a danger refuses the
    /// whole trial: a design without it would not be balanced.
    pub fn new(setup: &TrialSetup) -> Result<Self, TrialError> {
        let first = setup.bleaches.first().ok_or(TrialError::NoBleach)?;
        let levels =
            [setup.bleaches.len(), first.charges.len(), first.celsius.len(), first.minutes.len()];
        let points = design(levels, setup.pots, setup.seed)?;
        let pulp = WetPulp::new(weighed(setup.pot), setup.dryness)?;
        let mut pots = Vec::with_capacity(points.len());
        let mut found: Vec<Caution> = Vec::new();
        for (nth, levels) in points.into_iter().enumerate() {
            let (pot, situation) = DraftPot::new(setup, pulp, levels, nth as u32 + 1)?;
            add_cautions(&mut found, &situation)?;
            pots.push(pot);
        }
        let lengths: Vec<f64> = pots.iter().map(|pot| pot.record.minutes).collect();
        for (pot, times) in pots.iter_mut().zip(stagger(&lengths, setup.apart)) {
            pot.times = times;
        }
        let needs: Vec<PotNeed> =
            pots.iter().map(|pot| PotNeed::of(pot.of_bleach, &pot.plan)).collect();
        let doses = trial_doses(&needs)?;
        let pot_dryness = setup.dryness.map(crate::quantity::in_share);
        Ok(Self { seed: setup.seed, pots, doses, cautions: found, pot_dryness })
    }

    /// Active chemical of all pots, g: available chlorine, and H2O2.
    pub fn active(&self) -> [f64; 2] {
        let mut active = [0.0; 2];
        for pot in &self.pots {
            let peroxide = pot.record.oxidant != crate::journal::Oxidant::Hypochlorite;
            active[usize::from(peroxide)] += in_grams(pot.plan.active.value);
        }
        active
    }

    /// Minutes from the first start to the last stop.
    pub fn minutes(&self) -> f64 {
        self.pots.iter().map(|pot| pot.times.stop).fold(0.0, f64::max)
    }

    /// The entries that keep the trial: of each pot its batch, weighing and plan, and last that of
    /// the trial. A pot has the fibre and the cook of its parent. `name` names the batch of a pot.
    pub fn entries(
        &self,
        parent: &Batch,
        weighed: &Weighed,
        name: impl Fn(u32) -> String,
        mut fresh: impl FnMut() -> Ulid,
    ) -> (Ulid, Vec<NewEntry>) {
        let trial = fresh();
        let mut entries = Vec::with_capacity(3 * self.pots.len() + 1);
        let mut designed = Vec::with_capacity(self.pots.len());
        for pot in &self.pots {
            let batch = fresh();
            let about = Subject::Batch(batch);
            let started = BatchStarted {
                name: name(pot.number),
                fibre: parent.fibre.clone(),
                fibre_key: parent.fibre_key.clone(),
                cook: parent.cook.clone(),
                ..BatchStarted::default()
            };
            let bodies = [
                Body::BatchStarted(started),
                Body::Weighed(Weighed { wet_mass_g: pot.record.wet_mass_g, ..weighed.clone() }),
                Body::Planned(Box::new(pot.record.clone())),
            ];
            entries.extend(bodies.map(|body| NewEntry { id: fresh(), about, body }));
            designed.push(TrialPot { number: pot.number, batch, starts_at_min: pot.times.start });
        }
        let body = Body::TrialDesigned(Box::new(TrialDesigned {
            trial,
            seed: self.seed,
            pots: designed,
            note: String::new(),
        }));
        entries.push(NewEntry { id: fresh(), about: Subject::Batch(parent.id), body });
        (trial, entries)
    }
}

impl DraftPot {
    fn new(
        setup: &TrialSetup,
        pulp: WetPulp,
        levels: DesignPoint,
        number: u32,
    ) -> Result<(Self, Situation), TrialError> {
        let [of_bleach, charge, celsius, minutes] = levels;
        let of = setup.bleaches.get(of_bleach).ok_or(TrialError::NoBleach)?;
        let level = |levels: &[f64], nth: usize| levels.get(nth).copied().unwrap_or(f64::NAN);
        let (aim, size) = (
            BathAim::Charge(share(level(&of.charges, charge))),
            BathSize::Consistency(share(setup.consistency)),
        );
        let celsius = Celsius::new(level(&of.celsius, celsius))?;
        let request = PlanRequest {
            residual: setup.residual,
            expressed_water: setup.expressed_water,
            minutes: Some(level(&of.minutes, minutes)),
            ..PlanRequest::new(pulp, of.bleach, aim, size, celsius)
        };
        let plan = plan(&request).map_err(|refused| TrialError::Pot(Box::new(refused)))?;
        let mut record = plan_record(&request, &plan, of.used.clone());
        // The trial's own screen leads; a cue of every pot would call all the time.
        record.schedule =
            Schedule { stop_at_min: Some(plan.schedule.minutes), ..Schedule::default() };
        let situation = Situation::of_plan(&request, &plan);
        let times = StaggeredPot { start: 0.0, stop: 0.0 };
        Ok((Self { number, levels, of_bleach, plan, record, times }, situation))
    }
}

/// Adds the cautions of a pot that are not there yet.
fn add_cautions(found: &mut Vec<Caution>, situation: &Situation) -> Result<(), TrialError> {
    for act in [Act::Bath, Act::MakingLiquor, Act::Heating] {
        for caution in cautions(act, situation) {
            if caution.severity == Severity::Danger && caution.id.is_of_this_bath() {
                return Err(TrialError::Danger(Box::new(caution)));
            }
            if !found.iter().any(|known| known.id == caution.id) {
                found.push(caution);
            }
        }
    }
    found.sort_by_key(|caution| std::cmp::Reverse(caution.severity));
    Ok(())
}
