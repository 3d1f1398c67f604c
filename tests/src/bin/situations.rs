//! Prints every situation: pass, name, what the core says; then the count.

use bleachfield_tests::situations::SituationRow;
use std::io::{self, Write};

fn main() -> io::Result<()> {
    let mut out = io::stdout().lock();
    let rows = SituationRow::all().map_err(io::Error::other)?;
    let mut passed = 0;
    for row in &rows {
        let (pass, found) = match row.verify() {
            Ok(outcome) => ("pass", outcome.to_string()),
            Err(difference) => ("FAIL", difference),
        };
        passed += usize::from(pass == "pass");
        writeln!(out, "{pass} | {} | {found}", row.name)?;
    }
    writeln!(out, "{passed} of {} situations as expected", rows.len())?;
    if passed == rows.len() { Ok(()) } else { Err(io::Error::other("some situations differ")) }
}
