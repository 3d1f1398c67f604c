//! Hazard rules over plain facts: condition, severity, message, source.
//!
//! A caution is added as a variant of [`CautionId`] and a row in `rule`. The
//! unknown counts as the worse case. The caller puts the facts of a plan or a log
//! into a [`Situation`]; the rules depend on neither.

mod id;
mod planned;
mod rule;
mod situation;
#[cfg(test)]
mod tests;

pub use crate::chemistry::Residual;
pub use id::{Caution, CautionId, Severity};
pub use situation::{Act, Material, Situation};

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
