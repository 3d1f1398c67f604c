//! Hazard rules over plain facts: condition, severity, message, source.
//!
//! A caution is added as a variant of [`CautionId`], a row in `rule` and a condition in
//! `condition`. A rule looks at the whole range of a fact: it applies if any part of the range
//! meets its condition, with the severity and the figure of the worst end. An unknown fact
//! counts as its worst value; a caution with a figure is then replaced by one that says what is
//! unknown ([`CautionId::is_of_unknown`]). The caller puts the facts of a plan or a log into a
//! [`Situation`]; the rules depend on neither.

mod condition;
mod id;
mod planned;
mod rule;
mod situation;
#[cfg(test)]
mod tests;

pub use crate::chemistry::Residual;
pub use id::{Caution, CautionId, Fact, Severity};
pub use planned::cook_cautions;
pub use situation::{Act, BleachInUse, Material, Situation};

use rule::RULES;
use std::cmp::Reverse;

/// The cautions for `act` in this situation, the gravest first. The last is
/// always [`CautionId::LabelFirst`].
pub fn cautions(act: Act, situation: &Situation) -> Vec<Caution> {
    let mut found: Vec<Caution> =
        RULES.iter().filter_map(|rule| rule.caution(act, situation)).collect();
    found.sort_by_key(|caution| (caution.id == CautionId::LabelFirst, Reverse(caution.severity)));
    found
}
