//! Prints every reference row: name, source, expected, computed, pass; then the count.

use bleachfield_tests::reference::{ReferenceRow, ReferenceTable, TABLES};
use std::io::{self, Write};

fn main() -> io::Result<()> {
    let mut out = io::stdout().lock();
    let (mut total, mut passed) = (0, 0);
    for table in TABLES {
        writeln!(out, "== {}", table.name)?;
        let rows = table.rows().map_err(io::Error::other)?;
        let mut good = 0;
        for row in &rows {
            good += usize::from(print_row(&mut out, table, row)?);
        }
        writeln!(out, "   {}: {good} of {} pass", table.name, rows.len())?;
        total += rows.len();
        passed += good;
    }
    writeln!(out, "{passed} of {total} rows pass")?;
    if passed == total { Ok(()) } else { Err(io::Error::other("some rows fail")) }
}

/// Prints one line; whether the row passes.
fn print_row(out: &mut impl Write, table: &ReferenceTable, row: &ReferenceRow) -> io::Result<bool> {
    let passes = table.verify(row).is_ok();
    let computed = table.compute(row).map_or_else(|reason| reason, |value| format!("{value:.6}"));
    writeln!(
        out,
        "{} | {} | {} ({:?}) | expected {} ± {:.3e} {} | computed {computed}",
        if passes { "pass" } else { "FAIL" },
        row.name,
        row.source,
        row.grade,
        row.expected,
        row.width(),
        row.unit
    )?;
    Ok(passes)
}
