//! One row of a reference table.

use std::{cell::RefCell, collections::BTreeMap};

/// How well the source of a published value is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SourceGrade {
    /// The text was seen.
    Read,
    /// From memory; not confirmed.
    Memory,
    /// Computed from other values.
    Computed,
}

/// The largest accepted deviation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// In the row's unit.
    Absolute(f64),
    /// As a part of the expected value.
    Part(f64),
}

/// A published value and how it is computed. Columns as in the module's table.
pub struct ReferenceRow {
    pub name: String,
    pub check: String,
    pub inputs: RowInputs,
    pub expected: f64,
    pub tolerance: Tolerance,
    pub unit: String,
    pub source: String,
    pub grade: SourceGrade,
    pub validity: String,
}

/// Reads every row of a table with this header line.
///
/// # Errors
/// The header or a row is malformed; the message names the row.
pub fn read_rows<T>(
    csv: &str,
    header: &[&str],
    read: impl Fn(&csv::StringRecord) -> Result<T, String>,
) -> Result<Vec<T>, String> {
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    if reader.headers().map_err(|error| error.to_string())? != header {
        return Err(format!("the header must be {}", header.join(",")));
    }
    reader
        .records()
        .map(|record| {
            let record = record.map_err(|error| error.to_string())?;
            read(&record).map_err(|error| format!("{}: {error}", &record[0]))
        })
        .collect()
}

impl ReferenceRow {
    /// Reads every row of a table with a header line.
    ///
    /// # Errors
    /// The header or a row is malformed; the message names the row.
    pub fn read_all(csv: &str) -> Result<Vec<Self>, String> {
        let header = [
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
        read_rows(csv, &header, Self::read)
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
            "read" => SourceGrade::Read,
            "memory" => SourceGrade::Memory,
            "computed" => SourceGrade::Computed,
            other => return Err(format!("{other:?} is no grade")),
        };
        Ok(Self {
            name: record[0].to_owned(),
            check: record[1].trim().to_owned(),
            inputs: RowInputs::read(&record[2])?,
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

    /// Whether `value`, in the row's unit, lies within the tolerance.
    pub fn accepts(&self, value: f64) -> bool {
        // Allows for rounding in the subtraction itself, so that 7.537 ± 0.003 accepts 7.540.
        (value - self.expected).abs() <= self.width() * (1.0 + 1e-9)
    }
}

/// The named inputs of a row. Records which of them a check has read.
pub struct RowInputs {
    values: BTreeMap<String, String>,
    read: RefCell<Vec<String>>,
}

impl RowInputs {
    pub(crate) fn read(text: &str) -> Result<Self, String> {
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

    /// A required number.
    ///
    /// # Errors
    /// It is missing, or not a number.
    pub fn number(&self, key: &str) -> Result<f64, String> {
        let text = self.text(key)?;
        text.parse().map_err(|_| format!("{key}={text} is not a number"))
    }

    /// An optional number.
    ///
    /// # Errors
    /// It is given but not a number.
    pub fn number_or(&self, key: &str, default: f64) -> Result<f64, String> {
        if self.values.contains_key(key) { self.number(key) } else { Ok(default) }
    }

    /// A required text.
    ///
    /// # Errors
    /// It is missing.
    pub fn text(&self, key: &str) -> Result<&str, String> {
        self.read.borrow_mut().push(key.to_owned());
        self.values.get(key).map(String::as_str).ok_or_else(|| format!("no input {key}"))
    }

    /// A text, if it is given.
    pub fn optional(&self, key: &str) -> Option<&str> {
        self.text(key).ok()
    }

    /// An optional text, with its default.
    pub fn text_or<'a>(&'a self, key: &str, default: &'a str) -> &'a str {
        self.text(key).unwrap_or(default)
    }

    /// A key that the row gives and no check has read.
    pub fn unread(&self) -> Option<String> {
        let read = self.read.borrow();
        self.values.keys().find(|key| !read.contains(key)).cloned()
    }
}
