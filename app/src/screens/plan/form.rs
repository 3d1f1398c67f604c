//! The answers from which a bath is planned, and the plan.

use bleachfield_core::{
    bath::{
        ACID_PULP_PH, BOTTLE_DENSITY, BOTTLE_STRENGTH, Bleach, CARRY_OVER_PH, ExpressedWater,
        Oxidant as PlannedOxidant, PEROXIDE_STRENGTH, POWDER_STRENGTH, Plan, PlanRequest,
        RefusedPlan, Remedy, ResidualAlkali, plan,
    },
    caution::{Act, Caution, Residual, Situation, cautions},
    chemistry::alkali::{AlkaliReagent, strip_ph},
    derive::{PulpWaterPh, oxidant_left, plan_record},
    journal::{Alkali, Batch, BatchState, Oxidant, PlanRecord, ProductUsed},
    message::Message,
    pulp::{DRYNESS, WET_MASS, WetPulp},
    quantity::{Estimate, QuantityKind, in_share},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{aim_form::AimForm, dangers::Understood, signs::bath_cautions, steps::PlanStep};
use crate::{
    components::{NumberInput, RecordedInput},
    platform::clock,
    route::PlanStart,
    screens::calculator::inputs::{
        BleachForm, ChosenBleach, CoSolutesForm, MissingLabel, WetPulpForm,
    },
    state::app_state,
};

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct PlanForm {
    /// `None` for a plan that begins its batch.
    pub batch: Option<Ulid>,
    /// The plant of a batch that the plan begins.
    pub plant: RwSignal<String>,
    pub wet_pulp: WetPulpForm,
    pub bleach: BleachForm,
    pub aim: AimForm,
    /// pH of water squeezed from the pulp.
    pub squeezed_ph: RecordedInput<Estimate<f64>>,
    /// The pH must be read before there is a plan.
    pub squeezed_ph_is_needed: bool,
    /// Dangers that a person goes on with.
    pub understood: Understood,
    pub co_solutes: CoSolutesForm,
    /// For raising the pH.
    pub alkali: RwSignal<AlkaliReagent>,
    /// The cautions for the choice of bleach.
    pub choosing: Memo<Vec<Caution>>,
    /// What an earlier bath may have left in the pulp.
    residual: Residual,
    /// What the cook left in the pulp.
    cook_alkali: ResidualAlkali,
}

/// The result of the answers so far.
#[derive(Clone, PartialEq)]
pub enum PlanOutcome {
    /// An answer is missing or cannot be read.
    Waiting,
    Refused(RefusedPlan),
    Planned(Box<MadePlan>),
}

/// A plan with the answers that it was made from.
#[derive(Clone, PartialEq)]
pub struct MadePlan {
    pub request: PlanRequest,
    pub plan: Plan,
    /// As it is stored.
    pub record: PlanRecord,
    /// Of all acts of the bath.
    pub cautions: Vec<Caution>,
}

impl PlanForm {
    /// Filled with what is recorded of the batch.
    pub fn of(batch: &Batch) -> Self {
        let bleach = BleachForm::new();
        let residual = residual(batch);
        let (squeezed_ph, squeezed_ph_is_needed) = squeezed_ph(PulpWaterPh::of(batch));
        Self {
            batch: Some(batch.id),
            plant: RwSignal::new(String::new()),
            wet_pulp: batch.weighed.as_ref().map_or_else(WetPulpForm::assuming, WetPulpForm::of),
            aim: AimForm::new(untrack(|| bleach.oxidant())),
            bleach,
            squeezed_ph,
            squeezed_ph_is_needed,
            understood: Understood::new(),
            co_solutes: CoSolutesForm::new(),
            alkali: RwSignal::new(AlkaliReagent::SodaAsh),
            choosing: Memo::new(move |_| choosing(bleach, residual)),
            residual,
            cook_alkali: cook_alkali(batch),
        }
    }

    /// Of pulp that has no batch yet: nothing is known of it.
    pub fn without_batch() -> Self {
        Self { batch: None, ..Self::of(&Batch::default()) }
    }

    /// Fills in the answers of a stored plan, except of the pulp: that is as it was last weighed.
    pub fn fill(self, record: &PlanRecord) {
        self.bleach.fill(record.oxidant.into(), &record.product);
        self.aim.fill(record);
    }

    /// Fills in proposed values, as a start.
    pub fn begin_with(self, start: &PlanStart) {
        let used = app_state().book_now(|book| {
            let product = book.products.get(&start.product)?;
            let oxidant = Bleach::of(product, clock::now())?.oxidant();
            Some((oxidant, ProductUsed::from_shelf(product, clock::now())?))
        });
        if let Some((oxidant, used)) = used {
            self.bleach.fill(oxidant, &used);
        }
        self.aim.begin_with(start);
    }

    /// The first answer that is missing or refused, and its step. Tracked.
    pub fn missing(self) -> Option<(PlanStep, MissingLabel)> {
        let of_pulp = || Some((PlanStep::Pulp, MissingLabel::Field(self.wet_pulp.missing()?)));
        of_pulp().or_else(|| self.missing_of_bleach()).or_else(|| self.missing_of_bath())
    }

    /// The first answer besides the pulp that is missing or refused. Tracked.
    pub fn bath_missing(self) -> Option<MissingLabel> {
        self.missing_of_bleach().or_else(|| self.missing_of_bath()).map(|(_, missing)| missing)
    }

    fn missing_of_bleach(self) -> Option<(PlanStep, MissingLabel)> {
        Some((PlanStep::Bleach, self.bleach.missing()?))
    }

    fn missing_of_bath(self) -> Option<(PlanStep, MissingLabel)> {
        let ph = self.squeezed_ph.input;
        let wrong = ph.wrong().is_some() || (self.squeezed_ph_is_needed && ph.is_empty());
        let missing = self.aim.missing().or_else(|| wrong.then(|| ph.field()));
        Some((PlanStep::Bath, MissingLabel::Field(missing?)))
    }

    /// Marks what is missing on a step.
    pub fn try_step(self, step: PlanStep) {
        match step {
            PlanStep::Pulp => {
                untrack(|| self.wet_pulp.try_now());
            }
            PlanStep::Bleach => self.bleach.try_now(),
            PlanStep::Bath => self.aim.try_now(),
            PlanStep::Measure => {}
        }
    }

    /// Tracked.
    pub fn outcome(self) -> PlanOutcome {
        let Some((request, chosen)) = self.request() else { return PlanOutcome::Waiting };
        match plan(&request) {
            Ok(plan) => {
                let record = plan_record(&request, &plan, chosen.used);
                let cautions = bath_cautions(&Situation::of_plan(&request, &plan));
                PlanOutcome::Planned(Box::new(MadePlan { request, plan, record, cautions }))
            }
            Err(refused) => PlanOutcome::Refused(refused),
        }
    }

    /// Tracked; `None` while an answer is missing or cannot be read.
    fn request(self) -> Option<(PlanRequest, ChosenBleach)> {
        self.request_for(self.wet_pulp.weighed_pulp()?.pulp)
    }

    /// The request for this pulp, whatever was weighed. Tracked; `None` as for the form's own.
    pub fn request_for(self, pulp: WetPulp) -> Option<(PlanRequest, ChosenBleach)> {
        let chosen = self.bleach.chosen()?;
        let aim = self.aim.read()?;
        if self.squeezed_ph.input.wrong().is_some() {
            return None;
        }
        let expressed_water = self
            .squeezed_ph
            .get(strip_ph)
            .map(|ph| ExpressedWater { ph, alkali: self.cook_alkali });
        let request = PlanRequest {
            pulp,
            bleach: chosen.bleach,
            aim: aim.aim,
            size: aim.size,
            temperature: aim.temperature,
            residual: worst_for(self.residual, chosen.bleach.oxidant()),
            expressed_water,
            other_ingredients: self.co_solutes.with(self.bleach.oxidant()),
            on_hand: None,
            vessel: aim.vessel,
            minutes: Some(aim.minutes),
            cooling: None,
        };
        Some((request, chosen))
    }

    /// The product on the shelf that the bleach is taken from.
    pub fn shelf_bleach(self) -> Option<Ulid> {
        self.bleach.chosen()?.used.shelf
    }

    /// Whether [`Self::apply`] changes an answer: other remedies are done at the sink.
    pub fn can_apply(remedy: Remedy) -> bool {
        !matches!(
            remedy,
            Remedy::StrongerBottle(_)
                | Remedy::WashFirst
                | Remedy::RinsePulp
                | Remedy::SoakInSoda
                | Remedy::MeasureStrength(_)
                | Remedy::NewBleach
                | Remedy::WeakerPeroxide
        )
    }

    /// Changes the answers as a remedy of the core says.
    pub fn apply(self, remedy: Remedy) {
        match remedy {
            Remedy::Press(dryness) => self.wet_pulp.set_dryness(in_share(dryness)),
            Remedy::LeaveOut(ingredient) => self.co_solutes.leave_out(ingredient),
            other => self.aim.apply(other),
        }
    }
}

impl PlanOutcome {
    /// The plan as it is recorded.
    pub fn record(&self) -> Option<PlanRecord> {
        match self {
            Self::Planned(made) => Some(made.record.clone()),
            _ => None,
        }
    }

    /// The cautions of the plan.
    pub fn cautions(&self) -> &[Caution] {
        match self {
            Self::Planned(made) => &made.cautions,
            _ => &[],
        }
    }

    /// The predicted pH of a cooled sample.
    pub fn cooled_ph(&self) -> Option<f64> {
        match self {
            Self::Planned(made) => made.plan.ph.ok().map(|predicted| predicted.ph_at_25.value),
            _ => None,
        }
    }

    /// What a pH strip shows in a cooled sample: low and high.
    pub fn strip_ph(&self) -> Option<(f64, f64)> {
        match self {
            Self::Planned(made) => {
                let predicted = made.plan.ph.ok()?;
                Some((predicted.ph_at_25.low, predicted.ph_at_25.high))
            }
            _ => None,
        }
    }

    /// The step of the field that a refusal names.
    pub fn refused_at(&self) -> Option<PlanStep> {
        let message = self.refusal()?;
        Some(match message.field {
            Some(WET_MASS | DRYNESS) => PlanStep::Pulp,
            Some(BOTTLE_STRENGTH | BOTTLE_DENSITY | POWDER_STRENGTH | PEROXIDE_STRENGTH) => {
                PlanStep::Bleach
            }
            _ => PlanStep::Bath,
        })
    }

    /// The refusal, which names its field.
    pub fn refusal(&self) -> Option<Message> {
        match self {
            Self::Refused(refused) => Some(refused.message()),
            _ => None,
        }
    }
}

/// Tracked.
fn choosing(bleach: BleachForm, residual: Residual) -> Vec<Caution> {
    let bottle = bleach.chosen().and_then(|chosen| match chosen.bleach {
        Bleach::Hypochlorite(bottle) => bottle.liquid().ok(),
        _ => None,
    });
    let situation = Situation {
        oxidant: bleach.oxidant().into(),
        residual,
        bottle_strength: bottle.map(|liquid| liquid.available_chlorine.into()),
        ..Situation::default()
    };
    cautions(Act::ChoosingBleach, &situation)
}

/// Filled with the last pH that was read. Where that was acid, or acid was added since, it must
/// not be left empty: a guess would be too mild, so that it is missing shows at once.
fn squeezed_ph(last: PulpWaterPh) -> (RecordedInput<Estimate<f64>>, bool) {
    let input = NumberInput::new(CARRY_OVER_PH, QuantityKind::Ph);
    let (known, required) = match last {
        PulpWaterPh::NotRead => (None, false),
        PulpWaterPh::Read(ph) => (Some(ph), ph.low < ACID_PULP_PH),
        PulpWaterPh::AcidSince => (None, true),
    };
    let input = if required { input } else { input.optional() };
    let filled = RecordedInput::new(input, known, |ph| ph.value);
    if required {
        untrack(|| filled.input.try_now());
    }
    (filled, required)
}

fn cook_alkali(batch: &Batch) -> ResidualAlkali {
    match batch.cook.as_ref().and_then(|cook| cook.alkali) {
        Some(Alkali::SodaAsh | Alkali::WashingSoda | Alkali::WoodAsh) => ResidualAlkali::Soda,
        Some(Alkali::Lye | Alkali::Lime) => ResidualAlkali::Lye,
        _ => ResidualAlkali::Unknown,
    }
}

/// The pH of water squeezed from the pulp, as it was last read. `None` too where acid was added
/// since: then it must be read.
pub fn expressed_water(batch: &Batch) -> Option<ExpressedWater> {
    match PulpWaterPh::of(batch) {
        PulpWaterPh::Read(ph) => Some(ExpressedWater { ph, alkali: cook_alkali(batch) }),
        _ => None,
    }
}

/// What may be left in the pulp. The last bath counts until the batch is signed off as clean.
pub fn residual(batch: &Batch) -> Residual {
    let of_last_bath = match (batch.baths.last(), batch.state) {
        (None, _) | (_, BatchState::Clean) => Residual::None,
        (Some(bath), _) => match bath.oxidant {
            Oxidant::Hypochlorite => Residual::Hypochlorite,
            Oxidant::Percarbonate | Oxidant::Peroxide => Residual::Peroxide,
        },
    };
    match (of_last_bath, oxidant_left(batch)) {
        (left, Residual::None) | (Residual::None, left) => left,
        (one, other) if one == other => one,
        _ => Residual::Unknown,
    }
}

/// Where either oxidant may be left, the one that must not meet the planned one.
fn worst_for(left: Residual, planned: PlannedOxidant) -> Residual {
    match (left, planned) {
        (Residual::Unknown, PlannedOxidant::Hypochlorite) => Residual::Peroxide,
        (Residual::Unknown, _) => Residual::Hypochlorite,
        (known, _) => known,
    }
}
