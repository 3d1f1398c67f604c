//! Splits the app's program into a main part and the lazy pieces that `leptos::wasm_split` marks
//! (app/src/screens/lazy.rs), as cargo-leptos does with `--split`. Trunk cannot.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, anyhow, ensure};
use rayon::prelude::*;
use wasm_split_cli_support::{Options, transform};

use crate::dist;

/// Base name of the program's script and, with `_bg.wasm`, of the program.
pub const PROGRAM: &str = "bleachfield";
/// The script that loads lazy pieces; the program's script imports it.
pub const LOADER: &str = "split.js";

/// Makes programs small; run by Node.
const OPTIMIZER: &str = include_str!("../optimize.mjs");

/// Splits `linked`, the linker's output with relocations, into the new folder `out`: program,
/// script, loader and lazy pieces, which refer to each other by relative paths.
///
/// # Errors
/// If `linked` has no relocations, or one of the tools fails.
pub fn split(linked: &Path, out: &Path, optimize: bool) -> Result<()> {
    let input = fs::read(linked).with_context(|| linked.display().to_string())?;
    fs::create_dir_all(out)?;
    let main = out.join("main.wasm");
    let (script, loader) = (format!("./{PROGRAM}.js"), format!("./{LOADER}"));
    let mut options = Options::new(&input);
    options.output_dir = out;
    options.main_out_path = &main;
    options.main_module = &script;
    options.link_name = &loader;
    transform(options).map_err(|error| anyhow!("splitting {}: {error:#}", linked.display()))?;
    run(Command::new("wasm-bindgen")
        .args(["--target", "web", "--no-typescript", "--keep-lld-exports"])
        .args(["--out-name", PROGRAM, "--out-dir"])
        .args([out, &main]))?;
    fs::remove_file(&main)?;
    if optimize { optimize_size(out) } else { Ok(()) }
}

/// Makes every program in `folder` small, with as many processes as there are cores.
fn optimize_size(folder: &Path) -> Result<()> {
    let tool = tool_path("wasm-opt")?;
    let names = dist::names(folder)?.into_iter().filter(|name| name.ends_with(".wasm"));
    let mut files = names
        .map(|name| {
            let path = folder.join(name);
            Ok((fs::metadata(&path)?.len(), path))
        })
        .collect::<Result<Vec<_>>>()?;
    files.sort_unstable_by(|a, b| b.cmp(a));
    // The largest first, each to the process with the least.
    let mut shares = vec![(0, Vec::new()); rayon::current_num_threads()];
    for (size, path) in files {
        if let Some((sum, share)) = shares.iter_mut().min_by_key(|(sum, _)| *sum) {
            *sum += size;
            share.push(path);
        }
    }
    shares.into_par_iter().try_for_each(|(_, share)| {
        let node = ["--input-type=module", "--eval", OPTIMIZER, "--"];
        run(Command::new("node").args(node).arg(&tool).args(share))
    })
}

/// The file that a command runs.
fn tool_path(name: &str) -> Result<PathBuf> {
    let path = env::var_os("PATH").unwrap_or_default();
    let mut found = env::split_paths(&path).map(|folder| folder.join(name));
    found.find(|file| file.is_file()).with_context(|| format!("{name} is not in PATH"))
}

/// Runs a tool; shows its output only if it fails.
fn run(command: &mut Command) -> Result<()> {
    let output = command.output().with_context(|| format!("{command:?}"))?;
    let stderr = String::from_utf8_lossy(&output.stderr);
    ensure!(output.status.success(), "{command:?} failed: {stderr}");
    Ok(())
}
