//! Download size of every file of the built app, raw and brotli-compressed at quality 11: to
//! first use and in total. 1 KB is 1000 bytes.

#![allow(clippy::print_stdout)] // a report

use std::fs;
use std::ops::AddAssign;
use std::path::Path;

use anyhow::{Result, ensure};
use rayon::prelude::*;

use crate::dist::{self, BROTLI, DistFile, FetchPhase, SERVICE_WORKER};
use crate::post_build::brotli;

/// Most bytes until the app can be used.
const FIRST_LIMIT: usize = 440_000;
/// Most bytes in total, after which the app needs no network.
const TOTAL_LIMIT: usize = 2_600_000;

/// Prints the size of each file of the app in `dist`, and the sums.
///
/// # Errors
/// If a file cannot be read, or a limit is exceeded.
pub fn run(dist: &Path) -> Result<()> {
    let mut files = dist::list(dist)?;
    let worker = fs::read(dist.join(SERVICE_WORKER))?;
    files.push(DistFile {
        path: SERVICE_WORKER.to_owned(),
        hash: dist::sha256(&worker),
        when: FetchPhase::First,
    });
    let sizes: Vec<Size> =
        files.par_iter().map(|file| Size::of(dist, &file.path)).collect::<Result<_>>()?;
    let (mut first, mut total) = (Size::default(), Size::default());
    println!("{:>10} {:>10}  when   file", "raw", "brotli");
    for (file, size) in files.iter().zip(sizes) {
        let when = match file.when {
            FetchPhase::First => {
                first += size;
                "first"
            }
            FetchPhase::Quiet => "quiet",
        };
        total += size;
        println!("{:>10} {:>10}  {when}  {}", size.raw, size.compressed, file.path);
    }
    let sums = [("to first use", first, FIRST_LIMIT), ("in total", total, TOTAL_LIMIT)];
    for (what, size, limit) in sums {
        println!("{:>10} {:>10}  {what}; limit {limit}", size.raw, size.compressed);
    }
    for (what, size, limit) in sums {
        ensure!(size.compressed <= limit, "{} bytes {what} exceed {limit}", size.compressed);
    }
    Ok(())
}

/// Bytes of one or several files.
#[derive(Clone, Copy, Default)]
struct Size {
    raw: usize,
    compressed: usize,
}

impl Size {
    /// The compressed copy is used if the build made one.
    fn of(dist: &Path, name: &str) -> Result<Self> {
        let bytes = fs::read(dist.join(name))?;
        let compressed = match fs::read(dist.join(format!("{name}{BROTLI}"))) {
            Ok(compressed) => compressed,
            Err(_) => brotli(&bytes)?,
        };
        Ok(Self { raw: bytes.len(), compressed: compressed.len().min(bytes.len()) })
    }
}

impl AddAssign for Size {
    fn add_assign(&mut self, other: Self) {
        self.raw += other.raw;
        self.compressed += other.compressed;
    }
}
