//! Batches and readings as tables for a spreadsheet: CSV by RFC 4180, UTF-8, a point as the
//! decimal mark, times by RFC 3339. Names of columns are keys, the same in every language.

use std::collections::BTreeMap;

use csv::Writer;
use jiff::Timestamp;
use strum::IntoStaticStr;
use ulid::Ulid;

use crate::derive::{BatchResult, RunOfBatch, RunQuantity, RunTime, last_plan};
use crate::journal::{Batch, Book};

pub const CSV_MIME: &str = "text/csv";

/// What a table is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Table {
    /// A row for each batch.
    Batches,
    /// A row for each reading: colour, pH, temperature, strips.
    Readings,
}

const BATCH_COLUMNS: [&str; 20] = [
    "batch",
    "fibre",
    "tags",
    "started",
    "state",
    "raw_dry_g",
    "dry_before_g",
    "oxidant",
    "charge_percent",
    "planned_celsius",
    "minutes_in_bleach",
    "rinses",
    "lightness_first",
    "lightness_last",
    "dry_stored_g",
    "bleach_yield_percent",
    "cook_yield_percent",
    "cost",
    "cost_is_complete",
    "id",
];

const READING_COLUMNS: [&str; 12] = [
    "batch",
    "fibre",
    "read_at",
    "when",
    "minutes_in_bleach",
    "quantity",
    "unit",
    "value",
    "low",
    "high",
    "pulp",
    "entry",
];

/// The table of all batches, the latest entry first.
///
/// Cells that a spreadsheet would take for a formula begin with an apostrophe (OWASP, "CSV
/// injection"): all that is typed, a name or a tag, may come from another phone.
pub fn csv_table(table: Table, book: &Book, now: Timestamp) -> String {
    let mut writer = Writer::from_writer(Vec::new());
    let mut write = |row: &[String]| {
        // A vector takes all that is written to it.
        let _ = writer.write_record(row);
    };
    match table {
        Table::Batches => {
            write(&BATCH_COLUMNS.map(str::to_owned));
            for batch in book.batches_by_change() {
                write(&batch_row(book, batch, now));
            }
        }
        Table::Readings => {
            write(&READING_COLUMNS.map(str::to_owned));
            for batch in book.batches_by_change() {
                reading_rows(batch, now).iter().for_each(|row| write(row));
            }
        }
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

fn batch_row(book: &Book, batch: &Batch, now: Timestamp) -> [String; BATCH_COLUMNS.len()] {
    let result = BatchResult::of(book, batch);
    let plan = last_plan(batch);
    let percent = |share: Option<f64>| number(share.map(|share| 100.0 * share), 2);
    let tags: Vec<&str> = batch.tags.iter().map(String::as_str).collect();
    [
        text(&batch.name),
        text(&batch.fibre),
        text(&tags.join("; ")),
        time(batch.started),
        batch.state.key().to_owned(),
        number(batch.raw_dry_g.map(|raw| raw.value), 1),
        number(result.dry_before_g, 1),
        plan.map(|plan| <&str>::from(plan.oxidant)).unwrap_or_default().to_owned(),
        percent(plan.map(|plan| plan.charge.value)),
        number(plan.map(|plan| plan.celsius), 1),
        number((!batch.baths.is_empty()).then(|| RunOfBatch::of(batch, now).minutes), 1),
        batch.rinses.len().to_string(),
        number(result.lightness_first, 2),
        number(result.lightness_last, 2),
        number(result.dry_after_g, 1),
        percent(result.bleach_yield),
        percent(result.cook_yield),
        number(result.cost.map(|cost| cost.known), 2),
        result.cost.map(|cost| cost.is_complete.to_string()).unwrap_or_default(),
        batch.id.to_string(),
    ]
}

fn reading_rows(batch: &Batch, now: Timestamp) -> Vec<[String; READING_COLUMNS.len()]> {
    let run = RunOfBatch::of(batch, now);
    let times: BTreeMap<Ulid, Timestamp> =
        batch.visible_entries().map(|entry| (entry.entry.id, entry.at)).collect();
    let rows = run.readings.iter().map(|reading| {
        let (quantity, unit) = match reading.of {
            RunQuantity::Lightness => ("lightness", "L*"),
            RunQuantity::Yellowness => ("yellowness", "E313"),
            RunQuantity::Ph => ("ph", ""),
            RunQuantity::Temperature => ("temperature", "°C"),
            RunQuantity::Strip => ("strip", "mg/L"),
        };
        let (when, minutes) = match reading.time {
            RunTime::Before => ("before", None),
            RunTime::InBleach(minutes) => ("in_bleach", Some(minutes)),
            RunTime::After(_) => ("after", None),
        };
        let is_colour = matches!(reading.of, RunQuantity::Lightness | RunQuantity::Yellowness);
        let pulp = if is_colour { <&str>::from(reading.pulp) } else { "" };
        [
            text(&batch.name),
            text(&batch.fibre),
            times.get(&reading.entry).copied().map(time).unwrap_or_default(),
            when.to_owned(),
            number(minutes, 1),
            quantity.to_owned(),
            unit.to_owned(),
            number(Some(reading.figure.value), 3),
            number(Some(reading.figure.low), 3),
            number(Some(reading.figure.high), 3),
            pulp.to_owned(),
            reading.entry.to_string(),
        ]
    });
    rows.collect()
}

/// A cell of what a person typed.
fn text(typed: &str) -> String {
    let formula = typed.trim_start().starts_with(['=', '+', '-', '@', '|', '%'])
        || typed.starts_with(['\t', '\r', '\n']);
    if formula { format!("'{typed}") } else { typed.to_owned() }
}

/// With at most so many decimal places; empty where it is not known.
fn number(value: Option<f64>, places: usize) -> String {
    let Some(value) = value.filter(|value| value.is_finite()) else { return String::new() };
    let text = format!("{value:.places$}");
    if places == 0 { text } else { text.trim_end_matches('0').trim_end_matches('.').to_owned() }
}

/// To the second.
fn time(at: Timestamp) -> String {
    let whole = Timestamp::from_second(at.as_second()).unwrap_or(at);
    whole.to_string()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::derive::sample::{book, exact, reading, rinse, weighed};
    use crate::journal::sample::bath_started;
    use crate::journal::{BatchStarted, Body, Oxidant, ReadingOf};

    fn read(text: &str) -> Vec<Vec<String>> {
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
        reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
    }

    fn named(name: &str) -> Book {
        let started = BatchStarted { name: name.to_owned(), ..BatchStarted::default() };
        let bath = Body::BathStarted(bath_started(Ulid(7), Oxidant::Hypochlorite));
        book(vec![
            Body::BatchStarted(started),
            weighed(),
            bath,
            reading(ReadingOf::Ph, exact(10.25)),
            rinse(8.0, Some(0.0), Some(7.5)),
        ])
    }

    #[test]
    fn a_row_for_each_batch_and_reading_with_all_columns() {
        let book = named("Iris, \"second\" cut\nof May");
        let now = Timestamp::UNIX_EPOCH;
        let batches = read(&csv_table(Table::Batches, &book, now));
        assert_eq!(batches.len(), 2);
        assert_eq!(batches[0], BATCH_COLUMNS);
        let cell = |name: &str| {
            let column = BATCH_COLUMNS.iter().position(|column| *column == name).unwrap();
            batches[1][column].as_str()
        };
        assert_eq!(cell("batch"), "Iris, \"second\" cut\nof May");
        assert_eq!(cell("dry_before_g"), "250");
        assert_eq!(cell("rinses"), "1");
        assert_eq!(cell("cost"), "");
        let readings = read(&csv_table(Table::Readings, &book, now));
        assert_eq!(readings[0], READING_COLUMNS);
        let ph = readings.iter().find(|row| row[5] == "ph" && row[3] == "in_bleach").unwrap();
        assert_eq!((ph[7].as_str(), ph[2].as_str()), ("10.25", "1970-01-01T00:03:00Z"));
        assert!(readings.iter().skip(1).all(|row| row.len() == READING_COLUMNS.len()));
    }

    #[test]
    fn nothing_typed_is_a_formula() {
        let now = Timestamp::UNIX_EPOCH;
        for name in ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", " =A1", "\t=A1"] {
            let batches = read(&csv_table(Table::Batches, &named(name), now));
            assert_eq!(batches[1][0], format!("'{name}"));
        }
        // A name with such a sign inside stays as it is.
        assert_eq!(text("Reed - second cut"), "Reed - second cut");
        assert_eq!(text("5 % charge"), "5 % charge");
    }

    #[test]
    fn numbers_are_plain() {
        assert_eq!(number(Some(-0.5), 2), "-0.5");
        assert_eq!(number(Some(200.0), 1), "200");
        assert_eq!(number(Some(f64::NAN), 1), "");
        assert_eq!(number(None, 1), "");
    }
}
