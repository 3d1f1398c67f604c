//! The cautions of a class, each at one station: the first where it applies.

use super::{ClassRequest, pots::Pots};
use crate::{
    bath::Oxidant,
    caution::{Act, Caution, CautionId, Residual, Situation, cautions, cook_cautions},
    derive::Station,
    quantity::Interval,
};

/// The cautions that are still to be placed.
pub(super) struct ClassCautions {
    by_station: Vec<(Station, Vec<Caution>)>,
    pub(super) label_first: Option<Caution>,
}

impl ClassCautions {
    /// The cautions of a station, the gravest first.
    pub(super) fn take(&mut self, station: Station) -> Vec<Caution> {
        let found = self.by_station.iter().position(|(at, _)| *at == station);
        found.map(|at| self.by_station.swap_remove(at).1).unwrap_or_default()
    }
}

pub(super) fn by_station(request: &ClassRequest, pots: &Pots) -> ClassCautions {
    // The last caution of every act.
    let label_first = cautions(Act::Draining, &Situation::without_bleach()).pop();
    let mut all = ClassCautions { by_station: Vec::new(), label_first };
    for setting in &request.stations {
        for caution in of_station(request, pots, setting.station) {
            all.place(setting.station, caution);
        }
    }
    for (_, cautions) in &mut all.by_station {
        cautions.sort_by_key(|caution| std::cmp::Reverse(caution.severity));
    }
    all
}

impl ClassCautions {
    /// Keeps a caution at its first station, with its gravest wording.
    fn place(&mut self, station: Station, caution: Caution) {
        if caution.id == CautionId::LabelFirst {
            return;
        }
        let known =
            self.by_station.iter_mut().flat_map(|(_, all)| all).find(|one| one.id == caution.id);
        if let Some(known) = known {
            if known.severity < caution.severity {
                *known = caution;
            }
            return;
        }
        match self.by_station.iter_mut().find(|(at, _)| *at == station) {
            Some((_, all)) => all.push(caution),
            None => self.by_station.push((station, vec![caution])),
        }
    }
}

fn of_station(request: &ClassRequest, pots: &Pots, station: Station) -> Vec<Caution> {
    match station {
        Station::Cook => of_cook(request, pots),
        Station::Bath => of_baths(pots),
        Station::Wash => of_acts(&after_bath(pots), &[Act::Draining]),
        Station::Prove => {
            let mut all = of_acts(&after_bath(pots), &[Act::Storing]);
            all.retain(|caution| caution.id == CautionId::StoringPulp);
            all
        }
        _ => cautions(Act::Draining, &Situation::without_bleach()),
    }
}

fn of_acts(situation: &Situation, acts: &[Act]) -> Vec<Caution> {
    acts.iter().flat_map(|act| cautions(*act, situation)).collect()
}

fn of_cook(request: &ClassRequest, pots: &Pots) -> Vec<Caution> {
    let first = pots.cook.first();
    first.map_or_else(Vec::new, |(_, plan)| {
        cook_cautions(request.cook_alkali, plan, request.cook_celsius)
    })
}

/// Of every bath of the class, and of the warm water for it.
fn of_baths(pots: &Pots) -> Vec<Caution> {
    let Some(bath) = &pots.bath else { return Vec::new() };
    let mut all = Vec::new();
    for bath in &bath.all {
        let situation = bath.situation();
        all.extend(of_acts(&situation, &[Act::OpeningBottle, Act::MakingLiquor, Act::Bath]));
        if situation.blender {
            all.extend(of_acts(&situation, &[Act::BlendingHot]));
        }
        all.extend(of_acts(&situation, &[Act::Heating]));
        if let Ok(at) = bath.measure.water_at {
            let water =
                Situation { temperature: Some(Interval::exact(at)), ..Situation::without_bleach() };
            all.extend(of_acts(&water, &[Act::Heating]));
        }
    }
    all
}

/// Of a bath that is drained: as strong as it was made.
fn after_bath(pots: &Pots) -> Situation {
    let Some(first) = pots.bath.as_ref().and_then(|bath| bath.all.first()) else {
        return Situation::without_bleach();
    };
    let residual = match first.request.bleach.oxidant() {
        Oxidant::Hypochlorite => Residual::Hypochlorite,
        Oxidant::Percarbonate | Oxidant::Peroxide => Residual::Peroxide,
    };
    Situation { residual, ..first.situation() }
}
