//! What the pots of a trial show.

use ulid::Ulid;

use super::status::{PotStage, TrialStatus};
use crate::{
    bath,
    derive::{colour_target, swatches},
    journal::{Book, Figure, Oxidant, PulpState},
    trial::{PotResponse, Response, best_pot},
};

/// One pot with its colour, if it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct PotResult {
    pub number: u32,
    pub batch: Ulid,
    pub oxidant: Oxidant,
    /// Name of the product; empty if it was typed from a label.
    pub product: String,
    /// Share of oven-dry fibre, as planned.
    pub charge: f64,
    pub celsius: f64,
    /// As it really ran; as planned while it has not stopped.
    pub minutes: f64,
    /// L*, a*, b*, all of pulp in the same state.
    pub colour: Option<[Figure; 3]>,
}

/// The pots of a trial, and the lines through them.
#[derive(Clone, Debug)]
pub struct TrialResult {
    /// By their numbers.
    pub pots: Vec<PotResult>,
    /// State in which most pots were read; readings in another are left out.
    pub pulp: PulpState,
    /// `None` with too few pots to draw a line.
    pub response: Option<Response>,
    /// Place in `pots` of the one to scale up; `None` before the first reading.
    pub best: Option<usize>,
    /// L* that the parent is bleached towards, if that was chosen. It is of dry pulp: compared
    /// only with dry pots.
    pub target: Option<f64>,
}

impl TrialResult {
    pub fn of(book: &Book, status: &TrialStatus) -> Self {
        let pulp = common_state(book, status);
        let mut pots: Vec<PotResult> = status
            .pots
            .iter()
            .filter(|pot| pot.stage != PotStage::Abandoned)
            .map(|pot| PotResult {
                number: pot.number,
                batch: pot.batch,
                oxidant: pot.record.oxidant,
                product: pot.record.product.name.clone(),
                charge: pot.record.charge.value,
                celsius: pot.record.celsius,
                minutes: match pot.stage {
                    PotStage::Stopped { minutes } => minutes,
                    _ => pot.record.minutes,
                },
                colour: colour_of(book, pot.batch, pulp),
            })
            .collect();
        pots.sort_by_key(|pot| pot.number);
        let bleaches: Vec<usize> = pots
            .iter()
            .map(|pot| {
                status.pots.iter().find(|one| one.batch == pot.batch).map_or(0, |p| p.of_bleach)
            })
            .collect();
        let read: Vec<usize> = (0..pots.len()).filter(|&nth| pots[nth].colour.is_some()).collect();
        let responses: Vec<PotResponse> =
            read.iter().filter_map(|&nth| response(&pots[nth], bleaches[nth])).collect();
        let parent = book.batches.get(&status.trial.parent);
        let target = parent.and_then(colour_target).map(|target| target.lightness.value);
        let comparable = target.filter(|_| pulp == PulpState::Dried);
        let best = best_pot(&responses, comparable, |nth| severity(&pots[read[nth]]));
        Self {
            response: Response::fit(&responses),
            best: best.map(|nth| read[nth]),
            pots,
            pulp,
            target,
        }
    }
}

/// The levels as they are fitted: bleach, charge in %, °C, minutes. Minutes are as planned to the
/// nearest 5: a stop half a minute late is no level of its own.
fn response(pot: &PotResult, of_bleach: usize) -> Option<PotResponse> {
    let [lightness, ..] = pot.colour?;
    let minutes = (pot.minutes / 5.0).round() * 5.0;
    let charge = (pot.charge * 1e4).round() / 100.0;
    Some(PotResponse {
        levels: [of_bleach as f64, charge, pot.celsius, minutes],
        lightness: lightness.value,
        half: 0.5 * (lightness.high - lightness.low),
    })
}

/// The order of how hard a pot was treated: a peroxide is milder than any hypochlorite (order of
/// rank of a conservation handbook); else charge times time, doubled every 10 °C (own estimate).
fn severity(pot: &PotResult) -> f64 {
    let bath = pot.charge * pot.minutes * ((pot.celsius - 40.0) / 10.0).exp2();
    let chlorine = !bath::Oxidant::from(pot.oxidant).is_peroxide();
    bath + if chlorine { 1e6 } else { 0.0 }
}

fn common_state(book: &Book, status: &TrialStatus) -> PulpState {
    let states = [PulpState::Dried, PulpState::Pressed, PulpState::Wet];
    let count = |state| {
        status.pots.iter().filter(|pot| colour_of(book, pot.batch, state).is_some()).count()
    };
    // The first of the most: dry before wet.
    states.into_iter().rev().max_by_key(|state| count(*state)).unwrap_or_default()
}

/// The last reading after the bath, of pulp in this state.
fn colour_of(book: &Book, batch: Ulid, state: PulpState) -> Option<[Figure; 3]> {
    let batch = book.batches.get(&batch)?;
    let stopped = batch.baths.last()?.stopped?.at;
    let all = swatches(batch);
    let found = all.iter().rev().find(|swatch| {
        swatch.reading.pulp == state && swatch.at >= stopped && swatch.reading.ageing.is_none()
    });
    found.map(|swatch| swatch.figures())
}
