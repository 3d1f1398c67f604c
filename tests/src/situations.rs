//! Situations, held as data, and what the core says of each: cautions that must or must not
//! apply, or a refusal. The table is `tests/situations/situations.csv`.
//!
//! | column | holds |
//! | --- | --- |
//! | `name` | the situation, for a person; unique: the name of the row's test |
//! | `act` | an act of `caution::Act` in snake case, or `plan`, `mix`, `pair` |
//! | `facts` | `key=value;key=value`, all of which must be read; a range is `low..high`; a fact that is left out is unknown |
//! | `fires` | `caution:severity;...`, all of which must apply with this severity |
//! | `silent` | `caution;...`, none of which may apply |
//! | `refused` | key of the refusal; `none` for a pair that does not clash |
//!
//! Facts of an act: `oxidant`, `residual`, `material` (words of the core; `oxidant=none` is no
//! bleach), `celsius`, `ph`, `strength` and `bottle_strength` (g/L), `charge` (%), `minutes`,
//! `closed`, `rust`, `blender`, `sulfite` (`yes` or `no`). Those of `plan`, `mix` and `pair` are
//! in `situations/request.rs`.

mod facts;
mod request;

use crate::reference::{RowInputs, read_rows};
use bleachfield_core::caution::{Act, Caution, CautionId, Severity, cautions};
use serde_json::Value;
use std::{fmt, fs, path::Path};

/// One situation and what is expected of it. Columns as in the module's table.
pub struct SituationRow {
    pub name: String,
    pub act: String,
    pub facts: RowInputs,
    pub fires: Vec<(CautionId, Severity)>,
    pub silent: Vec<CautionId>,
    pub refused: Option<String>,
}

/// What the core says of a situation.
pub enum Outcome {
    Cautions(Vec<Caution>),
    /// Key of the message.
    Refused(&'static str),
}

impl fmt::Display for Outcome {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(key) => write!(f, "refused: {key}"),
            Self::Cautions(cautions) => {
                let grave = cautions.iter().filter(|caution| caution.severity > Severity::Note);
                let words: Vec<String> =
                    grave.map(|one| format!("{:?}:{:?}", one.id, one.severity)).collect();
                f.write_str(&words.join(" "))
            }
        }
    }
}

impl SituationRow {
    /// Every row of the table.
    ///
    /// # Errors
    /// The file or a row of it cannot be read; the message names it.
    pub fn all() -> Result<Vec<Self>, String> {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("situations").join("situations.csv");
        let text =
            fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
        read_rows(&text, &["name", "act", "facts", "fires", "silent", "refused"], Self::read)
    }

    fn read(record: &csv::StringRecord) -> Result<Self, String> {
        let fires = parts(&record[3]).map(|part| {
            let (id, severity) =
                part.split_once(':').ok_or_else(|| format!("{part:?} has no severity"))?;
            Ok((word(id)?, word(severity)?))
        });
        Ok(Self {
            name: record[0].to_owned(),
            act: record[1].to_owned(),
            facts: RowInputs::read(&record[2])?,
            fires: fires.collect::<Result<_, String>>()?,
            silent: parts(&record[4]).map(word).collect::<Result<_, _>>()?,
            refused: Some(record[5].to_owned()).filter(|key| !key.is_empty()),
        })
    }

    /// What the core says.
    ///
    /// # Errors
    /// A fact cannot be read, or was not.
    pub fn outcome(&self) -> Result<Outcome, String> {
        let outcome = match self.act.as_str() {
            "plan" => request::plan(&self.facts)?,
            "mix" => request::mix(&self.facts)?,
            "pair" => request::pair(&self.facts)?,
            act => Outcome::Cautions(cautions(word::<Act>(act)?, &facts::situation(&self.facts)?)),
        };
        match self.facts.unread() {
            Some(key) => Err(format!("nothing reads {key}")),
            None => Ok(outcome),
        }
    }

    /// Holds what the core says against what is expected.
    ///
    /// # Errors
    /// As [`Self::outcome`], or the difference.
    pub fn verify(&self) -> Result<Outcome, String> {
        let outcome = self.outcome()?;
        match (&outcome, &self.refused) {
            (Outcome::Refused(key), Some(expected)) if key == expected => {}
            (Outcome::Cautions(cautions), None) => self.verify_cautions(cautions)?,
            (_, Some(expected)) => return Err(format!("expected {expected}, but {outcome}")),
            (Outcome::Refused(_), None) => return Err(format!("expected cautions, but {outcome}")),
        }
        Ok(outcome)
    }

    fn verify_cautions(&self, cautions: &[Caution]) -> Result<(), String> {
        let of = |id| cautions.iter().find(|caution| caution.id == id);
        for &(id, severity) in &self.fires {
            match of(id) {
                Some(caution) if caution.severity == severity => {}
                Some(caution) => {
                    return Err(format!("{id:?} is {:?}, not {severity:?}", caution.severity));
                }
                None => return Err(format!("{id:?} does not apply")),
            }
        }
        match self.silent.iter().find(|id| of(**id).is_some()) {
            Some(id) => Err(format!("{id:?} applies")),
            None => Ok(()),
        }
    }
}

fn parts(text: &str) -> impl Iterator<Item = &str> {
    text.split(';').map(str::trim).filter(|part| !part.is_empty())
}

/// A word of the core, as it is stored.
fn word<T: serde::de::DeserializeOwned>(text: &str) -> Result<T, String> {
    serde_json::from_value(Value::String(text.trim().to_owned()))
        .map_err(|_| format!("{text:?} is no word of the core"))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_row_has_its_own_name_and_can_fail() {
        let rows = SituationRow::all().unwrap();
        assert!(rows.len() >= 120, "{} rows", rows.len());
        let mut names = HashSet::new();
        for row in &rows {
            assert!(names.insert(row.name.clone()), "{} is there twice", row.name);
            let expects = row.refused.is_some() || !row.fires.is_empty() || !row.silent.is_empty();
            assert!(expects, "{} expects nothing", row.name);
        }
    }

    #[test]
    fn every_caution_and_every_act_is_in_the_table() {
        let rows = SituationRow::all().unwrap();
        for id in CautionId::ALL {
            let fires = rows.iter().any(|row| row.fires.iter().any(|(fired, _)| fired == id));
            assert!(fires, "no row expects {id:?}");
        }
        for act in Act::ALL {
            let used = rows.iter().any(|row| word::<Act>(&row.act).is_ok_and(|one| one == *act));
            assert!(used, "no row is about {act:?}");
        }
    }
}
