//! One row of a reference table.

use std::{cell::RefCell, collections::BTreeMap};

/// How well a published value is known to us.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// The text was seen.
    Read,
    /// Remembered; not confirmed.
    Memory,
    /// Worked out from other values.
    Computed,
}

/// How far off still agrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// In the row's unit.
    Absolute(f64),
    /// As a part of the expected value.
    Part(f64),
}

/// A published value and the question that it answers. Columns as in the module's table.
pub struct Row {
    pub name: String,
    pub check: String,
    pub inputs: Inputs,
    pub expected: f64,
    pub tolerance: Tolerance,
    pub unit: String,
    pub source: String,
    pub grade: Grade,
    pub validity: String,
}

impl Row {
    /// Every row of a table with a header line.
    ///
    /// # Errors
    /// What is wrong, and in which row.
    pub fn read_all(csv: &str) -> Result<Vec<Self>, String> {
        let mut reader = csv::Reader::from_reader(csv.as_bytes());
        let expected_header = [
            "name",
            "check",
            "inputs",
            "expected",
            "tolerance",
            "unit",
            "source",
            "grade",
            "validity",
        ];
        if reader.headers().map_err(|error| error.to_string())? != expected_header.as_slice() {
            return Err(format!("the header must be {}", expected_header.join(",")));
        }
        reader
            .records()
            .map(|record| {
                let record = record.map_err(|error| error.to_string())?;
                Self::read(&record).map_err(|error| format!("{}: {error}", &record[0]))
            })
            .collect()
    }

    fn read(record: &csv::StringRecord) -> Result<Self, String> {
        let number = |text: &str| -> Result<f64, String> {
            text.trim().parse().map_err(|_| format!("{text:?} is not a number"))
        };
        let tolerance = match record[4].trim().strip_suffix('%') {
            Some(percent) => Tolerance::Part(number(percent)? / 100.0),
            None => Tolerance::Absolute(number(&record[4])?),
        };
        let grade = match record[7].trim() {
            "read" => Grade::Read,
            "memory" => Grade::Memory,
            "computed" => Grade::Computed,
            other => return Err(format!("{other:?} is no grade")),
        };
        Ok(Self {
            name: record[0].to_owned(),
            check: record[1].trim().to_owned(),
            inputs: Inputs::read(&record[2])?,
            expected: number(&record[3])?,
            tolerance,
            unit: record[5].to_owned(),
            source: record[6].trim().to_owned(),
            grade,
            validity: record[8].to_owned(),
        })
    }

    /// The tolerance in the row's unit.
    pub fn width(&self) -> f64 {
        match self.tolerance {
            Tolerance::Absolute(width) => width,
            Tolerance::Part(part) => (part * self.expected).abs(),
        }
    }

    /// Whether `ours` agrees.
    pub fn accepts(&self, ours: f64) -> bool {
        // A hair for rounding in the subtraction itself, so that 7.537 ± 0.003 takes 7.540.
        (ours - self.expected).abs() <= self.width() * (1.0 + 1e-9)
    }
}

/// The named inputs of a row; it remembers which were read.
pub struct Inputs {
    values: BTreeMap<String, String>,
    read: RefCell<Vec<String>>,
}

impl Inputs {
    fn read(text: &str) -> Result<Self, String> {
        let mut values = BTreeMap::new();
        for pair in text.split(';').map(str::trim).filter(|pair| !pair.is_empty()) {
            let (key, value) =
                pair.split_once('=').ok_or_else(|| format!("{pair:?} is not key=value"))?;
            if values.insert(key.trim().to_owned(), value.trim().to_owned()).is_some() {
                return Err(format!("{key} is given twice"));
            }
        }
        Ok(Self { values, read: RefCell::default() })
    }

    /// A number that must be there.
    ///
    /// # Errors
    /// It is missing, or not a number.
    pub fn number(&self, key: &str) -> Result<f64, String> {
        let text = self.text(key)?;
        text.parse().map_err(|_| format!("{key}={text} is not a number"))
    }

    /// A number that may be left out.
    ///
    /// # Errors
    /// It is there but not a number.
    pub fn number_or(&self, key: &str, otherwise: f64) -> Result<f64, String> {
        if self.values.contains_key(key) { self.number(key) } else { Ok(otherwise) }
    }

    /// A word that must be there.
    ///
    /// # Errors
    /// It is missing.
    pub fn text(&self, key: &str) -> Result<&str, String> {
        self.read.borrow_mut().push(key.to_owned());
        self.values.get(key).map(String::as_str).ok_or_else(|| format!("no input {key}"))
    }

    /// A word that may be left out.
    pub fn text_or<'a>(&'a self, key: &str, otherwise: &'a str) -> &'a str {
        self.text(key).unwrap_or(otherwise)
    }

    /// A key that the row gives and nobody asked for.
    pub fn unread(&self) -> Option<String> {
        let read = self.read.borrow();
        self.values.keys().find(|key| !read.contains(key)).cloned()
    }
}
