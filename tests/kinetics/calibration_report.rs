//! Learning in simulated studios: `cargo run --release -p bleachfield-tests --bin calibration --
//! [studios] [--stops]`. Prints the table, with `--stops` each stop too, and fails outside its limits.
#![allow(clippy::print_stdout)]

mod evaluation;
mod other_law;
mod random;
mod stop;
mod studio;
mod tally;

use std::process::ExitCode;
use tally::{Row, table, tally};

fn main() -> ExitCode {
    let studios = std::env::args().nth(1).and_then(|count| count.parse().ok()).unwrap_or(200);
    let rows = tally(studios, &[0, 1, 2, 5, 10, 20]);
    println!("{studios} studios of each law; 80 % bands; width of L* after 90 minutes, median");
    println!("{}", table(&rows));
    if std::env::args().any(|argument| argument == "--stops") {
        for row in &rows {
            for stop in &row.stops {
                println!("{:?} {:2} {stop}", row.law, row.seen);
            }
        }
    }
    let failures: Vec<String> = rows.iter().flat_map(failures).collect();
    failures.iter().for_each(|failure| println!("{failure}"));
    println!("{}", if failures.is_empty() { "All within the limits." } else { "NOT all within." });
    if failures.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn failures(row: &Row) -> Vec<String> {
    let limits = [
        (!(0.75..=0.85).contains(&row.coverage()), "the band does not hold 75 to 85 %"),
        (row.seen >= 5 && row.near() < 0.8, "stop within 10 minutes in less than 80 %"),
        (row.damaged() > 0.05, "damage past the limit in more than 5 %"),
    ];
    let named = |text: &str| format!("{:?} law, {} seen: {text}", row.law, row.seen);
    limits.into_iter().filter(|(failed, _)| *failed).map(|(_, text)| named(text)).collect()
}
