//! What a phone fetches: the size of every file of the built app, raw and with
//! brotli at its best, to first use and altogether.
//!
//! The aim is 300 KB to first use and 600 KB for all of it (1 KB is 1000 bytes),
//! and `weigh FOLDER` says how far off that is. It fails above the ceilings, which
//! stand where the app stood when they were set: it may shrink, never grow.
//! Lower them as it does.

#![allow(clippy::print_stdout)] // a report is what this program is for

use std::error::Error;
use std::fs;
use std::path::Path;
use std::process::ExitCode;

use bleachfield_ship::shipped::{PIECES, SERVICE_WORKER, When, name_in, shipped, walk};
use bleachfield_ship::squeeze::brotli;

const FIRST: Limit = Limit { aim: 300_000, ceiling: 250_000 };
const ALL: Limit = Limit { aim: 600_000, ceiling: 590_000 };

struct Limit {
    aim: usize,
    ceiling: usize,
}

fn main() -> Result<ExitCode, Box<dyn Error>> {
    let folder = std::env::args_os().nth(1).ok_or("usage: weigh FOLDER")?;
    let folder = Path::new(&folder);
    let (mut first, mut all) = (Weight::default(), Weight::default());
    println!("{:>10} {:>10}  when   file", "raw", "brotli");
    let mut files: Vec<_> = shipped(folder)?
        .into_iter()
        .filter(|file| file.piece.is_none()) // in the file of all pieces, below
        .map(|file| (file.path, file.when))
        .collect();
    files.push((format!("/{SERVICE_WORKER}"), When::First));
    let all_files = walk(folder)?;
    let pieces = all_files.iter().map(|file| name_in(folder, file)).filter(|n| n.ends_with(PIECES));
    files.extend(pieces.map(|name| (format!("/{name}"), When::Quiet)));
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
    let kept = [within("to first use", first, FIRST), within("altogether", all, ALL)];
    Ok(if kept == [true, true] { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

fn within(what: &str, weight: Weight, limit: Limit) -> bool {
    let Limit { aim, ceiling } = limit;
    let verdict = match weight.brotli {
        brotli if brotli <= aim => "within the aim",
        brotli if brotli <= ceiling => "OVER the aim, within the ceiling",
        _ => "OVER the ceiling",
    };
    println!(
        "{:>10} {:>10}  {what}: {verdict} (aim {aim}, ceiling {ceiling})",
        weight.raw, weight.brotli
    );
    weight.brotli <= ceiling
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
