//! Published values, held as data, and what the core makes of them.
//!
//! Each subject has one `tests/reference/SUBJECT.csv` and one `SUBJECT.rs` here. To add a
//! subject: write both, then add its `mod` line and its line in [`SUBJECTS`].
//!
//! The columns of a table:
//!
//! | column | holds |
//! | --- | --- |
//! | `name` | what is checked, for a person; unique in its table |
//! | `check` | which function of the subject answers it |
//! | `inputs` | `key=value;key=value`, all of which the function must read |
//! | `expected` | the published value |
//! | `tolerance` | absolute, or a part of the expected value if it ends in `%` |
//! | `unit` | unit of both |
//! | `source` | author, year, table or equation |
//! | `grade` | `read` (text seen), `memory` (not confirmed), `computed` (worked out from other values) |
//! | `validity` | where the value holds |

mod bath;
mod chemistry;
mod colour;
mod row;
mod wash;

pub use row::{Grade, Inputs, Row, Tolerance};

/// A question that rows of a table can ask of the core.
pub type Check = fn(&Inputs) -> Result<f64, String>;

/// One table with the functions that answer it.
pub struct Subject {
    pub name: &'static str,
    /// The text of the table.
    pub csv: &'static str,
    /// Check names, as written in the table, with their functions.
    pub checks: &'static [(&'static str, Check)],
}

/// Every table there is.
pub const SUBJECTS: &[Subject] =
    &[bath::SUBJECT, chemistry::SUBJECT, colour::SUBJECT, wash::SUBJECT];

/// What came of one row.
pub struct Outcome {
    pub row: Row,
    /// What the core says, or why it could not.
    pub ours: Result<f64, String>,
}

impl Outcome {
    /// Whether our value lies within the tolerance.
    pub fn passes(&self) -> bool {
        matches!(&self.ours, Ok(ours) if self.row.accepts(*ours))
    }
}

impl Subject {
    /// Every row of the table, answered.
    ///
    /// # Errors
    /// A row that cannot be read, with its line.
    pub fn run(&self) -> Result<Vec<Outcome>, String> {
        Ok(Row::read_all(self.csv)?.into_iter().map(|row| self.answer(row)).collect())
    }

    fn answer(&self, row: Row) -> Outcome {
        let ours = match self.checks.iter().find(|(name, _)| *name == row.check) {
            None => Err(format!("no check is called {}", row.check)),
            Some((_, check)) => check(&row.inputs).and_then(|value| match row.inputs.unread() {
                Some(key) => Err(format!("the check never read its input {key}")),
                None => Ok(value),
            }),
        };
        Outcome { row, ours }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_row_passes() {
        let mut failures = Vec::new();
        for subject in SUBJECTS {
            for outcome in subject.run().unwrap() {
                if !outcome.passes() {
                    failures.push(format!(
                        "{} / {}: expected {} ± {:?}, ours {:?}",
                        subject.name,
                        outcome.row.name,
                        outcome.row.expected,
                        outcome.row.tolerance,
                        outcome.ours
                    ));
                }
            }
        }
        assert!(failures.is_empty(), "{}", failures.join("\n"));
    }

    #[test]
    fn no_row_is_vacuous() {
        for subject in SUBJECTS {
            let mut names = HashSet::new();
            for row in Row::read_all(subject.csv).unwrap() {
                assert!(names.insert(row.name.clone()), "{} is there twice", row.name);
                assert!(!row.source.is_empty(), "{} has no source", row.name);
                let width = row.width();
                assert!(width > 0.0 && width.is_finite(), "{} cannot fail", row.name);
                assert!(
                    row.expected == 0.0 || width < row.expected.abs(),
                    "{} would accept zero",
                    row.name
                );
                assert!(!row.accepts(row.expected + 1.01 * width), "{}", row.name);
                assert!(!row.accepts(row.expected - 1.01 * width), "{}", row.name);
            }
        }
    }

    #[test]
    fn every_check_is_asked() {
        for subject in SUBJECTS {
            let asked: HashSet<String> =
                Row::read_all(subject.csv).unwrap().into_iter().map(|row| row.check).collect();
            for (name, _) in subject.checks {
                assert!(asked.contains(*name), "{} / {name} is never asked", subject.name);
            }
        }
    }
}
