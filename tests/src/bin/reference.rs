//! Prints every reference row: name, source, expected, ours, pass; then the count.

use bleachfield_tests::reference::{Outcome, SUBJECTS};
use std::io::{self, Write};

fn main() -> io::Result<()> {
    let mut out = io::stdout().lock();
    let (mut rows, mut passed) = (0, 0);
    for subject in SUBJECTS {
        writeln!(out, "== {}", subject.name)?;
        let outcomes = subject.run().map_err(io::Error::other)?;
        for outcome in &outcomes {
            write_row(&mut out, outcome)?;
        }
        let good = outcomes.iter().filter(|outcome| outcome.passes()).count();
        writeln!(out, "   {}: {good} of {} pass", subject.name, outcomes.len())?;
        rows += outcomes.len();
        passed += good;
    }
    writeln!(out, "{passed} of {rows} rows pass")?;
    if passed == rows { Ok(()) } else { Err(io::Error::other("some rows fail")) }
}

fn write_row(out: &mut impl Write, outcome: &Outcome) -> io::Result<()> {
    let row = &outcome.row;
    let ours = match &outcome.ours {
        Ok(value) => format!("{value:.6}"),
        Err(reason) => reason.clone(),
    };
    let verdict = if outcome.passes() { "pass" } else { "FAIL" };
    writeln!(
        out,
        "{verdict} | {} | {} ({:?}) | expected {} ± {:.3e} {} | ours {ours}",
        row.name,
        row.source,
        row.grade,
        row.expected,
        row.width(),
        row.unit
    )
}
