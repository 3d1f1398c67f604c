//! What a phone fetches: the size of every file of the built app, raw and with brotli at
//! quality 11, to first use and altogether. 1 KB is 1000 bytes.

#![allow(clippy::print_stdout)] // a report

use std::fs;
use std::path::Path;

use anyhow::Result;
use rayon::prelude::*;

use crate::dist::{self, BROTLI, DistFile, SERVICE_WORKER, When};
use crate::post_build::brotli;
use crate::verdict::Verdict;

/// Bytes to first use: the page can be used after this.
const FIRST_LIMIT: usize = 460_000;
/// Bytes altogether: the app needs no network after this.
const TOTAL_LIMIT: usize = 1_600_000;

/// Prints the size of each file of the app in `dist`, and of all together.
///
/// # Errors
/// If a file cannot be read.
pub fn run(dist: &Path) -> Result<Verdict> {
    let mut files = dist::list(dist)?;
    let worker = fs::read(dist.join(SERVICE_WORKER))?;
    files.push(DistFile {
        path: format!("/{SERVICE_WORKER}"),
        hash: dist::sha256(&worker),
        when: When::First,
    });
    let sizes: Vec<Size> =
        files.par_iter().map(|file| Size::of(dist, &file.path[1..])).collect::<Result<_>>()?;
    let (mut first, mut total) = (Size::default(), Size::default());
    println!("{:>10} {:>10}  when   file", "raw", "brotli");
    for (file, size) in files.iter().zip(sizes) {
        let when = match file.when {
            When::First => {
                first.add(size);
                "first"
            }
            When::Quiet => "quiet",
        };
        total.add(size);
        println!("{:>10} {:>10}  {when}  {}", size.raw, size.compressed, file.path);
    }
    let first = judge("to first use", first, FIRST_LIMIT);
    let total = judge("altogether", total, TOTAL_LIMIT);
    Ok(Verdict::of(first == Verdict::Within && total == Verdict::Within))
}

fn judge(what: &str, size: Size, limit: usize) -> Verdict {
    let verdict = Verdict::of(size.compressed <= limit);
    println!("{:>10} {:>10}  {what}: {verdict}, at most {limit}", size.raw, size.compressed);
    verdict
}

/// Bytes of a file or of several.
#[derive(Clone, Copy, Default)]
struct Size {
    raw: usize,
    compressed: usize,
}

impl Size {
    /// The build has compressed what is large.
    fn of(dist: &Path, name: &str) -> Result<Self> {
        let bytes = fs::read(dist.join(name))?;
        let compressed = match fs::read(dist.join(format!("{name}{BROTLI}"))) {
            Ok(compressed) => compressed,
            Err(_) => brotli(&bytes)?,
        };
        Ok(Self { raw: bytes.len(), compressed: compressed.len().min(bytes.len()) })
    }

    fn add(&mut self, other: Self) {
        self.raw += other.raw;
        self.compressed += other.compressed;
    }
}
