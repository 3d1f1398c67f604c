//! Writes the demo studio as one exchange file:
//!
//! `cargo run -p bleachfield-demo --bin studio -- [--now RFC3339] OUT.bleachfield.zip`
//!
//! The season ends at `--now` ([`studio::NOW`] by default), and one bath was started 25
//! minutes before. The same instant gives the same bytes.

use std::error::Error;
use std::fs;
use std::path::PathBuf;

use bleachfield_demo::studio;
use jiff::Timestamp;

fn main() -> Result<(), Box<dyn Error>> {
    let (now, out) = arguments()?;
    let file = studio::file(now)?;
    if let Some(folder) = out.parent() {
        fs::create_dir_all(folder)?;
    }
    fs::write(&out, file).map_err(|error| format!("{}: {error}", out.display()))?;
    Ok(())
}

fn arguments() -> Result<(Timestamp, PathBuf), String> {
    const USAGE: &str = "usage: studio [--now RFC3339] OUT.bleachfield.zip";
    let given: Vec<String> = std::env::args().skip(1).collect();
    let (now, out) = match given.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["--now", now, out] => (now, out),
        [out] if !out.starts_with('-') => (studio::NOW, out),
        _ => return Err(USAGE.to_owned()),
    };
    let now = now.parse().map_err(|error| format!("{now} is no instant ({error}); {USAGE}"))?;
    Ok((now, out.into()))
}
