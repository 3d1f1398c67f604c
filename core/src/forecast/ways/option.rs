//! The best way of each kind, with what it takes.

use super::bath::PlannedBath;
use super::search::{Way, WayPoint, WaySearch};
use super::water::{WashBetween, wash};
use crate::chemistry::Oxidant;
use crate::chemistry::substance::CHLORINE;
use crate::forecast::band::quantiles;
use crate::quantity::{Basis, Estimate, in_millilitres};

/// The kinds of ways.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, strum::IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum WayKind {
    /// One bath of hypochlorite.
    OneHypochlorite,
    /// One bath of percarbonate or peroxide.
    OnePeroxide,
    TwoHypochlorite,
    TwoPeroxide,
    PeroxideAfterHypochlorite,
}

/// A way, with the odds and the price of it.
#[derive(Clone, Debug)]
pub struct WayOption {
    pub kind: WayKind,
    pub baths: Vec<PlannedBath>,
    /// Minutes of each bath.
    pub lengths: Vec<f64>,
    /// Chance, 0 to 1, that the colour is reached at the end.
    pub odds: f64,
    /// L* at the end: 10, 50 and 90 %.
    pub lightness: [f64; 3],
    /// Share of the chain length lost at the end: 10, 50 and 90 %.
    pub chain_loss: [f64; 3],
    /// Chance that the loss is past what was allowed.
    pub odds_of_damage: f64,
    /// With the washes, minutes; `None` where the wash cannot be worked out.
    pub minutes: Option<f64>,
    /// Liquor and rinses, litres; `None` likewise.
    pub water_l: Option<f64>,
    /// Available chlorine that goes down the drain, g: 10 to 90 %. 0 without hypochlorite.
    pub chlorine_g: Estimate<f64>,
}

/// Chance of too much damage from which a way is not offered: as for a running bath.
const HARM: f64 = 0.1;
/// Ways whose odds differ by less are equal: the error of a chance from some hundred draws.
const EQUAL: f64 = 0.05;
/// Fewest draws that odds may rest on.
const FEWEST: usize = 20;

impl WaySearch {
    /// The best way of each kind: of those that damage within what is allowed, with the best
    /// odds, the mildest; then the shortest. Best odds first. Kinds that would damage too much
    /// are left out.
    pub fn options(&self) -> Vec<WayOption> {
        let mut best: Vec<(WayKind, Candidate)> = Vec::new();
        for way in &self.ways {
            let Some(kind) = kind(way) else { continue };
            for stop in 1..way.minutes().len() {
                let Some(found) = Candidate::of(self, way, stop) else { continue };
                match best.iter_mut().find(|(one, _)| *one == kind) {
                    None => best.push((kind, found)),
                    Some((_, known)) if found.is_better(known) => *known = found,
                    Some(_) => {}
                }
            }
        }
        let mut options: Vec<WayOption> =
            best.into_iter().map(|(kind, found)| found.option(self, kind)).collect();
        options.sort_by(|one, other| {
            other.odds.total_cmp(&one.odds).then(one.chain_loss[1].total_cmp(&other.chain_loss[1]))
        });
        options
    }
}

fn kind(way: &Way) -> Option<WayKind> {
    let is_peroxide: Vec<bool> =
        way.baths.iter().map(|bath| bath.bath.oxidant.is_peroxide()).collect();
    Some(match is_peroxide[..] {
        [false] => WayKind::OneHypochlorite,
        [true] => WayKind::OnePeroxide,
        [false, false] => WayKind::TwoHypochlorite,
        [true, true] => WayKind::TwoPeroxide,
        [false, true] => WayKind::PeroxideAfterHypochlorite,
        _ => return None,
    })
}

/// A way with its last bath stopped at a time.
struct Candidate<'a> {
    way: &'a Way,
    stop: usize,
    odds: f64,
    odds_of_damage: f64,
    /// Median.
    chain_loss: f64,
    length: f64,
}

impl<'a> Candidate<'a> {
    /// `None` if too few draws could be simulated, or it damages too much.
    fn of(search: &WaySearch, way: &'a Way, stop: usize) -> Option<Self> {
        let drawn = search.state().draws as usize;
        let count = way.results.len();
        if count < FEWEST || count * 10 < drawn * 9 {
            return None;
        }
        let request = search.request();
        let part = |holds: &dyn Fn(&WayPoint) -> bool| {
            way.results.iter().filter(|points| holds(&points[stop])).count() as f64 / count as f64
        };
        let odds_of_damage = part(&|point| point.chain_loss > request.most_chain_loss);
        if odds_of_damage > HARM {
            return None;
        }
        let odds = part(&|point| point.lightness >= request.target);
        let [_, chain_loss, _] = range(way, stop, |point| point.chain_loss);
        let length = way.lengths(stop).iter().sum();
        Some(Self { way, stop, odds, odds_of_damage, chain_loss, length })
    }

    fn is_better(&self, known: &Self) -> bool {
        if (self.odds - known.odds).abs() > EQUAL {
            return self.odds > known.odds;
        }
        if (self.chain_loss - known.chain_loss).abs() > 0.01 {
            return self.chain_loss < known.chain_loss;
        }
        self.length < known.length
    }

    fn option(self, search: &WaySearch, kind: WayKind) -> WayOption {
        let Self { way, stop, odds, odds_of_damage, .. } = self;
        let lengths = way.lengths(stop);
        let left = range(way, stop, |point| point.left);
        let before = quantiles(&way.left_before, &ones(way.left_before.len()), TENTHS);
        let before = before.unwrap_or_default();
        let washes: Vec<Option<WashBetween>> = way
            .baths
            .iter()
            .enumerate()
            .map(|(nth, bath)| {
                let left = if nth + 1 == way.baths.len() { left } else { before };
                wash(search.request(), bath, left)
            })
            .collect();
        let all = washes.into_iter().collect::<Option<Vec<_>>>();
        let liquor: f64 = way
            .baths
            .iter()
            .map(|bath| in_millilitres(bath.plan.water_volume.value) / 1000.0)
            .sum();
        let minutes = all.as_ref().map(|all| {
            lengths.iter().sum::<f64>() + all.iter().map(|wash| wash.minutes).sum::<f64>()
        });
        let water_l =
            all.as_ref().map(|all| liquor + all.iter().map(|wash| wash.litres).sum::<f64>());
        WayOption {
            kind,
            baths: way.baths.clone(),
            lengths,
            odds,
            lightness: range(way, stop, |point| point.lightness),
            chain_loss: range(way, stop, |point| point.chain_loss),
            odds_of_damage,
            minutes,
            water_l,
            chlorine_g: chlorine(way, [before, left]),
        }
    }
}

const TENTHS: [f64; 3] = [0.1, 0.5, 0.9];

fn ones(count: usize) -> Vec<f64> {
    vec![1.0; count]
}

fn range(way: &Way, stop: usize, of: impl Fn(&WayPoint) -> f64) -> [f64; 3] {
    let values: Vec<f64> = way.results.iter().map(|points| of(&points[stop])).collect();
    quantiles(&values, &ones(values.len()), TENTHS).unwrap_or([f64::NAN; 3])
}

/// Available chlorine left in the liquors of the hypochlorite baths, g.
fn chlorine(way: &Way, [before, last]: [[f64; 3]; 2]) -> Estimate<f64> {
    let mut sum = [0.0; 3];
    for (nth, bath) in way.baths.iter().enumerate() {
        if bath.bath.oxidant != Oxidant::Hypochlorite {
            continue;
        }
        let litres = in_millilitres(bath.plan.total_volume.value) / 1000.0;
        let left = if nth + 1 == way.baths.len() { last } else { before };
        for (sum, left) in sum.iter_mut().zip(left) {
            *sum += left.max(0.0) * litres * CHLORINE.grams_per_mole;
        }
    }
    Estimate { value: sum[1], low: sum[0], high: sum[2], basis: Basis::Computed }
}
