//! Each reference row as a test of its own name:
//! `cargo test -p bleachfield-tests --test reference -- "pKa of HOCl at 5 °C"`.

use bleachfield_tests::reference::{ReferenceRow, ReferenceTable, TABLES};
use libtest_mimic::{Arguments, Trial};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = Arguments::from_args();
    match trials() {
        Ok(trials) => libtest_mimic::run(&arguments, trials).exit_code(),
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn trials() -> Result<Vec<Trial>, String> {
    let mut trials = Vec::new();
    for table in TABLES {
        trials.extend(table.rows()?.into_iter().map(|row| trial(table, row)));
    }
    Ok(trials)
}

fn trial(table: &'static ReferenceTable, row: ReferenceRow) -> Trial {
    let name = row.name.clone();
    Trial::test(name, move || Ok(table.verify(&row).map(drop)?)).with_kind(table.name)
}
