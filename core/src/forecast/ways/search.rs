//! All ways over all draws. A search goes on in small parts, so that a page stays awake.

use super::bath::{BathOfWay, NotTried, PlannedBath};
use super::request::WayRequest;
use super::stage::{LIGHTNESS, PulpNow, course, start_polymerization};
use crate::bath::kinetics::{BathModel, BathPoint, CoolingTable, polymerization_after};
use crate::chemistry::equilibrium::ConstantsTable;
use crate::chemistry::{Oxidant, Residual};
use crate::forecast::draw::Draw;
use crate::forecast::proposal::Proposal;
use crate::forecast::{ForecastError, k_over_s_of_lightness, lightness};

/// Times at which a bath may be stopped, minutes: within practice (see `bath::guide`), and up to
/// where a hypochlorite bath is long.
const HYPOCHLORITE_MINUTES: [f64; 7] = [0.0, 20.0, 30.0, 45.0, 60.0, 90.0, 120.0];
const PEROXIDE_MINUTES: [f64; 7] = [0.0, 30.0, 45.0, 60.0, 90.0, 120.0, 180.0];
/// Charges and temperatures that are tried, within what is customary, harmless and stirred by
/// hand (see `customary`, `bath_limits`).
const HYPOCHLORITE_CHARGES: [f64; 6] = [0.01, 0.015, 0.02, 0.03, 0.04, 0.06];
const PEROXIDE_CHARGES: [f64; 3] = [0.01, 0.02, 0.03];
const HYPOCHLORITE_CELSIUS: [f64; 2] = [30.0, 37.0];
const PEROXIDE_CELSIUS: [f64; 2] = [40.0, 47.0];
/// Of a mild bath.
const MILD_CHARGES: [f64; 3] = [0.01, 0.015, 0.02];
const MILD_PEROXIDE_CHARGES: [f64; 2] = [0.01, 0.02];
/// Length of the first of two baths: its place in the times.
const FIRST_OF_TWO: usize = 3;
const CONSISTENCY: f64 = 0.05;

/// A way that is tried: one bath, or two.
#[derive(Clone, Debug)]
pub(super) struct Way {
    pub baths: Vec<PlannedBath>,
    /// For each draw, for each time of the last bath.
    pub results: Vec<Vec<WayPoint>>,
    /// The end of the bath before the last, for each draw: oxidant left, mol/L.
    pub left_before: Vec<f64>,
}

/// A way at one time of its last bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct WayPoint {
    /// L* of the dry pulp.
    pub lightness: f64,
    /// Share of the chain length lost since before the first bath.
    pub chain_loss: f64,
    /// Oxidant in the liquor, mol/L.
    pub left: f64,
}

impl Way {
    /// Of the last bath.
    pub(super) fn minutes(&self) -> &[f64] {
        self.baths.last().map_or(&[], |bath| &bath.forecast.minutes)
    }

    /// Of every bath, with the last stopped at its `stop`-th time.
    pub(super) fn lengths(&self, stop: usize) -> Vec<f64> {
        let last = self.baths.len().saturating_sub(1);
        let length = |(nth, bath): (usize, &PlannedBath)| {
            bath.forecast.minutes[if nth == last { stop } else { FIRST_OF_TWO }]
        };
        self.baths.iter().enumerate().map(length).collect()
    }
}

/// How far a search is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WaySearchState {
    pub draws: u32,
    /// Baths that the planner refuses.
    pub refused: usize,
    /// Baths that would be dangerous.
    pub dangerous: usize,
    /// Baths that are tried.
    pub tried: usize,
}

/// A search under way.
#[derive(Clone, Debug)]
pub struct WaySearch {
    request: WayRequest,
    model: BathModel,
    seed: u32,
    pub(super) ways: Vec<Way>,
    /// Next draw, and the way that is next in it.
    draw: u32,
    next: usize,
    refused: usize,
    dangerous: usize,
}

impl WaySearch {
    /// A search without draws yet.
    ///
    /// # Errors
    /// [`WayRequest::check`].
    pub fn new(request: WayRequest, seed: u32) -> Result<Self, ForecastError> {
        request.check()?;
        let model = BathModel::new(ConstantsTable::new(), CoolingTable::none());
        let mut search = Self {
            request,
            model,
            seed,
            ways: Vec::new(),
            draw: 0,
            next: 0,
            refused: 0,
            dangerous: 0,
        };
        search.add_single_baths();
        search.add_two_baths();
        Ok(search)
    }

    pub fn request(&self) -> &WayRequest {
        &self.request
    }

    pub fn state(&self) -> WaySearchState {
        WaySearchState {
            draws: self.draw,
            refused: self.refused,
            dangerous: self.dangerous,
            tried: self.ways.len(),
        }
    }

    /// Simulates one way for one draw. Whether a draw is now complete in all ways.
    pub fn advance(&mut self) -> bool {
        let even = Proposal::even();
        let draw = Draw { index: self.draw, seed: self.seed, from: &even };
        if let Some(way) = self.ways.get_mut(self.next) {
            simulate(way, &self.model, &self.request, &draw);
        }
        self.next += 1;
        let complete = self.next >= self.ways.len();
        if complete {
            self.next = 0;
            self.draw += 1;
        }
        complete
    }

    /// Completes draws up to `draws`.
    pub fn advance_to(&mut self, draws: u32) {
        while self.draw < draws {
            self.advance();
        }
    }

    /// The first bleach of an oxidant.
    fn bleach(&self, is: impl Fn(Oxidant) -> bool) -> Option<(usize, Oxidant)> {
        let bleaches = self.request.bleaches.iter().enumerate();
        bleaches.map(|(nth, bleach)| (nth, bleach.oxidant())).find(|(_, oxidant)| is(*oxidant))
    }

    fn add_single_baths(&mut self) {
        let oxidants = [Oxidant::Hypochlorite, Oxidant::Percarbonate, Oxidant::Peroxide];
        for oxidant in oxidants {
            let Some((bleach, _)) = self.bleach(|one| one == oxidant) else { continue };
            let (charges, temperatures): (&[f64], &[f64]) = if oxidant.is_peroxide() {
                (&PEROXIDE_CHARGES, &PEROXIDE_CELSIUS)
            } else {
                (&HYPOCHLORITE_CHARGES, &HYPOCHLORITE_CELSIUS)
            };
            for &charge in charges {
                for &celsius in temperatures {
                    let bath =
                        BathOfWay { bleach, oxidant, charge, celsius, consistency: CONSISTENCY };
                    self.add(&[bath]);
                }
            }
        }
    }

    /// Two mild baths of one bleach, and a peroxide after a hypochlorite. Never the other way
    /// round: a hypochlorite adds carbonyls, which yellow, and an alkaline peroxide removes part
    /// of them (Perrin, Lachenal & Chirat 2017, Holzforschung 71, abstract).
    fn add_two_baths(&mut self) {
        let mild = |(bleach, oxidant): (usize, Oxidant), charge| BathOfWay {
            bleach,
            oxidant,
            charge,
            celsius: if oxidant.is_peroxide() { PEROXIDE_CELSIUS } else { HYPOCHLORITE_CELSIUS }[0],
            consistency: CONSISTENCY,
        };
        let hypochlorite = self.bleach(|one| one == Oxidant::Hypochlorite);
        let peroxide = self.bleach(Oxidant::is_peroxide);
        if let Some(bleach) = hypochlorite {
            for charge in MILD_CHARGES {
                self.add(&[mild(bleach, charge), mild(bleach, charge)]);
                if let Some(second) = peroxide {
                    for second_charge in MILD_PEROXIDE_CHARGES {
                        self.add(&[mild(bleach, charge), mild(second, second_charge)]);
                    }
                }
            }
        }
        if let Some(bleach) = peroxide {
            for charge in MILD_PEROXIDE_CHARGES {
                self.add(&[mild(bleach, charge), mild(bleach, charge)]);
            }
        }
    }

    fn add(&mut self, baths: &[BathOfWay]) {
        let planned = baths.iter().enumerate().map(|(nth, bath)| {
            // A second bath follows a wash that was tested.
            let residual = if nth == 0 { self.request.residual } else { Residual::None };
            let minutes: &[f64] =
                if bath.oxidant.is_peroxide() { &PEROXIDE_MINUTES } else { &HYPOCHLORITE_MINUTES };
            PlannedBath::new(&self.request, *bath, residual, minutes)
        });
        match planned.collect::<Result<Vec<_>, NotTried>>() {
            Ok(baths) => {
                self.ways.push(Way { baths, results: Vec::new(), left_before: Vec::new() });
            }
            Err(NotTried::Refused) => self.refused += 1,
            Err(NotTried::Danger) => self.dangerous += 1,
        }
    }
}

/// Adds a draw to a way; none where it cannot be simulated.
fn simulate(way: &mut Way, model: &BathModel, request: &WayRequest, draw: &Draw) {
    let mut pulp = PulpNow::fresh();
    let mut left_before = 0.0;
    let last = way.baths.len().saturating_sub(1);
    for (nth, bath) in way.baths.iter().enumerate() {
        let Some(course) = course(bath, model, draw, nth, &pulp) else { return };
        let oxidant = bath.bath.oxidant;
        if nth == last {
            let points = course.iter().map(|point| outcome(request, draw, pulp, oxidant, point));
            way.results.push(points.collect());
            way.left_before.push(left_before);
            return;
        }
        let Some(end) = course.get(FIRST_OF_TWO) else { return };
        left_before = end.oxidant;
        pulp = pulp.after(oxidant, end);
    }
}

fn outcome(
    request: &WayRequest,
    draw: &Draw,
    before: PulpNow,
    oxidant: Oxidant,
    point: &BathPoint,
) -> WayPoint {
    let after = before.after(oxidant, point);
    let start = k_over_s_of_lightness(draw.estimate(LIGHTNESS, request.lightness));
    let chain = start_polymerization(draw);
    WayPoint {
        lightness: lightness(start * after.colour),
        chain_loss: 1.0 - polymerization_after(chain, after.scissions) / chain,
        left: point.oxidant,
    }
}
