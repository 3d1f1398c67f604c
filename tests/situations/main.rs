//! Each situation as a test of its own name:
//! `cargo test -p bleachfield-tests --test situations -- "Vinegar"`.

use bleachfield_tests::situations::SituationRow;
use libtest_mimic::{Arguments, Trial};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = Arguments::from_args();
    let rows = match SituationRow::all() {
        Ok(rows) => rows,
        Err(error) => {
            eprintln!("{error}");
            return ExitCode::FAILURE;
        }
    };
    let trials = rows.into_iter().map(|row| {
        Trial::test(row.name.clone(), move || Ok(row.verify().map(drop)?)).with_kind("situation")
    });
    libtest_mimic::run(&arguments, trials.collect()).exit_code()
}
