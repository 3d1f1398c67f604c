//! What a phone fetches: the size of every file of the built app, raw and with
//! brotli at its best, to first use and altogether.
//!
//! `weigh FOLDER` fails if first use takes more than 300 KB or all of it more
//! than 600 KB (1 KB is 1000 bytes).

#![allow(clippy::print_stdout)] // a report is what this program is for

use std::error::Error;
use std::fs;
use std::path::Path;
use std::process::ExitCode;

use bleachfield_ship::shipped::{SERVICE_WORKER, When, shipped};
use bleachfield_ship::squeeze::brotli;

const FIRST_LIMIT: usize = 300_000;
const ALL_LIMIT: usize = 600_000;

fn main() -> Result<ExitCode, Box<dyn Error>> {
    let folder = std::env::args_os().nth(1).ok_or("usage: weigh FOLDER")?;
    let folder = Path::new(&folder);
    let (mut first, mut all) = (Weight::default(), Weight::default());
    println!("{:>10} {:>10}  when   file", "raw", "brotli");
    let mut files: Vec<_> =
        shipped(folder)?.into_iter().map(|file| (file.path, file.when)).collect();
    files.push((format!("/{SERVICE_WORKER}"), When::First));
    for (path, when) in files {
        let weight = Weight::of(&fs::read(folder.join(&path[1..]))?);
        let when = match when {
            When::First => {
                first.add(weight);
                "first"
            }
            When::Quiet => "quiet",
        };
        all.add(weight);
        println!("{:>10} {:>10}  {when}  {path}", weight.raw, weight.brotli);
    }
    let kept = [within("to first use", first, FIRST_LIMIT), within("altogether", all, ALL_LIMIT)];
    Ok(if kept == [true, true] { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

fn within(what: &str, weight: Weight, limit: usize) -> bool {
    let kept = weight.brotli <= limit;
    let verdict = if kept { "within" } else { "OVER" };
    println!("{:>10} {:>10}  {what}, {verdict} the limit of {limit}", weight.raw, weight.brotli);
    kept
}

#[derive(Clone, Copy, Default)]
struct Weight {
    raw: usize,
    brotli: usize,
}

impl Weight {
    fn of(bytes: &[u8]) -> Self {
        Self { raw: bytes.len(), brotli: brotli(bytes).len().min(bytes.len()) }
    }

    fn add(&mut self, other: Self) {
        self.raw += other.raw;
        self.brotli += other.brotli;
    }
}
