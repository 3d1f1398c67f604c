//! The facts of a batch that the hazard rules look at.

use bleachfield_core::{
    caution::{BleachInUse, Residual, Situation},
    derive::{SignOffEvidence, ladder::plan_of_bath},
    journal::{Batch, Body, Oxidant, PlanRecord, TimelineEntry},
    pulp::sign_off::EndTestKind,
    quantity::Interval,
};

use super::facts::latest_ph;

/// The situation of a batch as it is now.
pub fn situation(batch: &Batch) -> Situation {
    let gaps = SignOffEvidence::of(batch).unmet_tests();
    let unmet = |test| gaps.iter().any(|gap| gap.test == test);
    let of = |oxidant: Oxidant| BleachInUse::Known(oxidant.into());
    let (residual, oxidant) = match batch.baths.last().map(|bath| bath.oxidant) {
        None => (Residual::None, BleachInUse::None),
        // Of either kind something may be left.
        Some(oxidant) if unmet(EndTestKind::ChlorineStrip) && unmet(EndTestKind::PeroxideStrip) => {
            (Residual::Unknown, of(oxidant))
        }
        Some(oxidant @ Oxidant::Hypochlorite) if unmet(EndTestKind::ChlorineStrip) => {
            (Residual::Hypochlorite, of(oxidant))
        }
        Some(oxidant @ (Oxidant::Percarbonate | Oxidant::Peroxide))
            if unmet(EndTestKind::PeroxideStrip) =>
        {
            (Residual::Peroxide, of(oxidant))
        }
        // Its own strip passed; that of an earlier hypochlorite bath must pass too.
        Some(_) if unmet(EndTestKind::ChlorineStrip) => (Residual::Hypochlorite, BleachInUse::None),
        Some(_) => (Residual::None, BleachInUse::None),
    };
    let ph = latest_ph(batch).and_then(Interval::ph);
    let now = Situation { oxidant, residual, ph, ..Situation::default() };
    if residual == Residual::None {
        return now;
    }
    let Some(plan) = plan_as_it_ran(batch) else { return now };
    // As fresh as it was planned: a spent liquor is weaker.
    let planned = Situation::of_record(plan, residual);
    Situation {
        strength: planned.strength,
        charge: planned.charge,
        bottle_strength: planned.bottle_strength,
        ph: now.ph.or(planned.ph),
        ..now
    }
}

/// The plan of the last bath, if nothing was added that it does not know.
fn plan_as_it_ran(batch: &Batch) -> Option<&PlanRecord> {
    let started = batch.baths.last()?.started;
    let added = |entry: &TimelineEntry| matches!(entry.body, Body::Added(_)) && entry.at >= started;
    let plan = plan_of_bath(batch)?;
    (!batch.visible_entries().any(added)).then_some(plan)
}
