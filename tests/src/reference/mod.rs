//! Published values, held as data, and what the core computes for them.
//!
//! Each table is one `tests/reference/NAME.csv` with one `NAME.rs` here. To add a table:
//! write both, then add its `mod` line and its line in [`TABLES`].
//!
//! The columns of a table:
//!
//! | column | holds |
//! | --- | --- |
//! | `name` | what is checked, for a person; unique among all tables: the name of the row's test |
//! | `check` | which function of the table computes it |
//! | `inputs` | `key=value;key=value`, all of which the function must read |
//! | `expected` | the published value |
//! | `tolerance` | absolute, or a part of the expected value if it ends in `%` |
//! | `unit` | unit of both |
//! | `source` | author, year, table or equation |
//! | `grade` | `read` (text seen), `memory` (not confirmed), `computed` (computed from other values) |
//! | `validity` | where the value holds |

mod bath;
mod chemistry;
mod colour;
mod kinetics;
mod learning;
mod row;
mod wash;

pub use row::{ReferenceRow, RowInputs, SourceGrade, Tolerance, read_rows};

use std::{fs, path::PathBuf};

/// Computes with the core the value that a row publishes.
pub type ReferenceCheck = fn(&RowInputs) -> Result<f64, String>;

/// One table with the functions that compute its values.
pub struct ReferenceTable {
    /// The file's name without its ending.
    pub name: &'static str,
    /// Check names, as written in the table, with their functions.
    pub checks: &'static [(&'static str, ReferenceCheck)],
}

/// Every table there is.
pub const TABLES: &[ReferenceTable] = &[
    bath::TABLE,
    chemistry::TABLE,
    chemistry::ACTIVITY,
    chemistry::SUBSTANCES,
    colour::TABLE,
    kinetics::TABLE,
    learning::TABLE,
    wash::TABLE,
];

/// The folder that holds the tables.
pub fn folder() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/reference"))
}

impl ReferenceTable {
    /// Reads every row of the table from its file.
    ///
    /// # Errors
    /// The file or a row of it cannot be read; the message names it.
    pub fn rows(&self) -> Result<Vec<ReferenceRow>, String> {
        let path = folder().join(self.name).with_extension("csv");
        let text =
            fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
        ReferenceRow::read_all(&text).map_err(|error| format!("{}: {error}", path.display()))
    }

    /// Computes a row's value, in the row's unit.
    ///
    /// # Errors
    /// The core refuses, the check does not exist, or it leaves an input of the row unread.
    pub fn compute(&self, row: &ReferenceRow) -> Result<f64, String> {
        let (_, check) = self
            .checks
            .iter()
            .find(|(name, _)| *name == row.check)
            .ok_or_else(|| format!("no check is called {}", row.check))?;
        let value = check(&row.inputs)?;
        match row.inputs.unread() {
            Some(key) => Err(format!("the check never read its input {key}")),
            None => Ok(value),
        }
    }

    /// Computes a row's value and holds it against the published one.
    ///
    /// # Errors
    /// As [`Self::compute`], or the value lies outside the tolerance.
    pub fn verify(&self, row: &ReferenceRow) -> Result<f64, String> {
        let value = self.compute(row)?;
        if row.accepts(value) {
            return Ok(value);
        }
        Err(format!(
            "expected {} ± {:.3e} {} ({}), computed {value}",
            row.expected,
            row.width(),
            row.unit,
            row.source
        ))
    }
}

/// A refusal of the core, as text.
fn refused(refusal: impl std::fmt::Debug) -> String {
    format!("{refusal:?}")
}

/// A value that the core may decline to give.
fn given(value: Option<f64>) -> Result<f64, String> {
    value.ok_or_else(|| "the core gives no value".to_owned())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use std::collections::{BTreeSet, HashSet};

    #[test]
    fn row_names_are_unique_among_all_tables() {
        let mut names = HashSet::new();
        for row in TABLES.iter().flat_map(|table| table.rows().unwrap()) {
            assert!(names.insert(row.name.clone()), "{} is there twice", row.name);
        }
    }

    #[test]
    fn every_row_can_fail() {
        for table in TABLES {
            let rows = table.rows().unwrap();
            assert!(!rows.is_empty(), "{} has no rows", table.name);
            for row in rows {
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
                assert!(!row.accepts(f64::NAN), "{}", row.name);
            }
        }
    }

    #[test]
    fn every_check_is_used() {
        for table in TABLES {
            let used: HashSet<String> =
                table.rows().unwrap().into_iter().map(|row| row.check).collect();
            for (name, _) in table.checks {
                assert!(used.contains(*name), "{} / {name} is never used", table.name);
            }
        }
    }

    #[test]
    fn every_file_is_a_table() {
        let stem = |path: PathBuf| path.file_stem().unwrap().to_string_lossy().into_owned();
        let files: BTreeSet<String> = fs::read_dir(folder())
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .filter(|path| path.extension().is_some_and(|ending| ending == "csv"))
            .map(stem)
            .collect();
        let tables: BTreeSet<String> = TABLES.iter().map(|table| table.name.to_owned()).collect();
        assert_eq!(files, tables);
    }
}
