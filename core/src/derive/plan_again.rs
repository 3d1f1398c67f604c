//! A plan made again with other pulp or another bottle: each figure beside what it was, and what
//! differs. Not here: the plan itself, which is `bath::plan`.

use strum::IntoStaticStr;

use crate::journal::{Oxidant, PlanRecord};
use crate::message::{Message, Value};
use crate::quantity::{grams, millilitres};

/// A figure that is set beside what it was, in the order of the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum PlanFigure {
    WetPulp,
    Dryness,
    DryFibre,
    Bleach,
    SodaAsh,
    WaterToAdd,
    Charge,
    Consistency,
    Temperature,
    Time,
    Ph,
}

impl PlanFigure {
    const ALL: [Self; 11] = [
        Self::WetPulp,
        Self::Dryness,
        Self::DryFibre,
        Self::Bleach,
        Self::SodaAsh,
        Self::WaterToAdd,
        Self::Charge,
        Self::Consistency,
        Self::Temperature,
        Self::Time,
        Self::Ph,
    ];

    pub fn key(self) -> &'static str {
        self.into()
    }

    /// As the plan has it; `None` if it has none.
    pub fn of(self, plan: &PlanRecord) -> Option<Value> {
        let mass = |g: f64| Value::Mass(grams(g));
        Some(match self {
            Self::WetPulp => mass(plan.wet_mass_g.value),
            Self::Dryness => Value::Share(plan.dryness.value),
            Self::DryFibre => mass(plan.dry_fibre_g.value),
            Self::Bleach => plan.product_amount.into(),
            Self::SodaAsh => mass(plan.soda_ash_g?.value),
            Self::WaterToAdd => Value::Volume(millilitres(plan.water_to_add_ml.value)),
            Self::Charge => Value::Share(plan.charge.value),
            Self::Consistency => Value::Share(plan.consistency.value),
            Self::Temperature => Value::Celsius(plan.celsius),
            Self::Time => Value::Minutes(plan.minutes),
            Self::Ph => Value::Ph(plan.ph?.value),
        })
    }
}

/// Each figure that either plan has: now, and then. `now` is `None` while there is no plan yet.
pub fn figures_beside(
    then: &PlanRecord,
    now: Option<&PlanRecord>,
) -> Vec<(PlanFigure, Option<Value>, Option<Value>)> {
    let row = |figure: PlanFigure| (figure, now.and_then(|now| figure.of(now)), figure.of(then));
    let rows = PlanFigure::ALL.into_iter().map(row);
    rows.filter(|(_, now, then)| now.is_some() || then.is_some()).collect()
}

/// What differs from the earlier plan, the cause of each figure that does; empty if nothing.
pub fn differences(then: &PlanRecord, now: &PlanRecord) -> Vec<Message> {
    let mut found = Vec::new();
    let fibre = ratio(now.dry_fibre_g.value, then.dry_fibre_g.value);
    found.extend(fibre.map(|times| Message::new("again-fibre").with("times", times)));
    if now.oxidant == then.oxidant {
        found.extend(bottle(then, now));
    } else {
        let name = |oxidant: Oxidant| Value::Word(oxidant_key(oxidant));
        let other = Message::new("again-oxidant");
        found.push(other.with("now", name(now.oxidant)).with("then", name(then.oxidant)));
    }
    let settings = [
        ("again-charge", PlanFigure::Charge),
        ("again-consistency", PlanFigure::Consistency),
        ("again-temperature", PlanFigure::Temperature),
        ("again-time", PlanFigure::Time),
    ];
    for (key, figure) in settings {
        let numbers = |plan: &PlanRecord| match figure {
            PlanFigure::Charge => plan.charge.value,
            PlanFigure::Consistency => plan.consistency.value,
            PlanFigure::Temperature => plan.celsius,
            _ => plan.minutes,
        };
        if let (Some(_), Some(is), Some(was)) =
            (ratio(numbers(now), numbers(then)), figure.of(now), figure.of(then))
        {
            found.push(Message::new(key).with("now", is).with("then", was));
        }
    }
    found
}

/// Another bottle, or the same one stronger or weaker than it was.
fn bottle(then: &PlanRecord, now: &PlanRecord) -> Vec<Message> {
    let mut found = Vec::new();
    let names = [&now.product.name, &then.product.name].map(|name| name.trim());
    if now.product.shelf != then.product.shelf && names[0] != names[1] {
        let text = |name: &str| {
            if name.is_empty() {
                Value::Word("again-no_name")
            } else {
                Value::Text(name.to_owned())
            }
        };
        let other = Message::new("again-product");
        found.push(other.with("now", text(names[0])).with("then", text(names[1])));
    }
    // Product for each gram of fibre at the same charge: how much stronger or weaker it is.
    let per_fibre = |plan: &PlanRecord| {
        plan.product_amount.figure().value / (plan.dry_fibre_g.value * plan.charge.value)
    };
    if let Some(times) = ratio(per_fibre(now), per_fibre(then)) {
        let weaker = per_fibre(now) > per_fibre(then);
        let key = if weaker { "again-weaker" } else { "again-stronger" };
        found.push(Message::new(key).with("times", times));
    }
    found
}

fn oxidant_key(oxidant: Oxidant) -> &'static str {
    match oxidant {
        Oxidant::Hypochlorite => "oxidant-hypochlorite",
        Oxidant::Percarbonate => "oxidant-percarbonate",
        Oxidant::Peroxide => "oxidant-peroxide",
    }
}

/// How many times as much it is; `None` if three figures show no difference, or where nothing
/// can be compared.
fn ratio(now: f64, then: f64) -> Option<Value> {
    let ratio = now / then;
    (ratio.is_finite() && ratio > 0.0 && (ratio - 1.0).abs() > 5e-3)
        .then(|| Value::Number((ratio * 100.0).round() / 100.0))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::journal::{Amount, Body, sample};
    use crate::quantity::{Basis, Estimate};

    fn plan() -> PlanRecord {
        let bodies = sample::bodies(100.0, 1);
        let planned = bodies.into_iter().find_map(|(_, body)| match body {
            Body::Planned(plan) => Some(*plan),
            _ => None,
        });
        planned.unwrap()
    }

    fn keys(now: &PlanRecord) -> Vec<&'static str> {
        differences(&plan(), now).iter().map(|message| message.key).collect()
    }

    fn exact(value: f64) -> Estimate<f64> {
        Estimate::exact(value, Basis::Measured)
    }

    #[test]
    fn the_same_plan_differs_in_nothing() {
        assert_eq!(keys(&plan()), Vec::<&str>::new());
        let beside = figures_beside(&plan(), None);
        assert!(beside.iter().all(|(_, now, then)| now.is_none() && then.is_some()));
        // The sample has no pH.
        assert!(beside.iter().all(|(figure, ..)| *figure != PlanFigure::Ph));
    }

    /// Twice the fibre with a bottle of half the strength takes four times as much.
    #[test]
    fn fibre_and_bottle_are_told_apart() {
        let mut now = plan();
        now.dry_fibre_g = exact(200.0);
        now.product_amount = Amount::VolumeMl(exact(400.0));
        assert_eq!(keys(&now), ["again-fibre", "again-weaker"]);
        let times = differences(&plan(), &now)[1].values[0].1.clone();
        assert_eq!(times, Value::Number(2.0));
        // More of the same bottle for more fibre is no weaker bottle.
        now.product_amount = Amount::VolumeMl(exact(200.0));
        assert_eq!(keys(&now), ["again-fibre"]);
    }

    #[test]
    fn what_a_person_changed_is_said() {
        let mut now = plan();
        now.minutes = 90.0;
        now.celsius = 40.0;
        now.product.shelf = None;
        now.product.name = String::new();
        assert_eq!(keys(&now), ["again-product", "again-temperature", "again-time"]);
        now.oxidant = Oxidant::Percarbonate;
        assert_eq!(keys(&now)[0], "again-oxidant");
    }
}
