//! Splits the app's program into a main part and the lazy pieces that `leptos::wasm_split` marks
//! (app/src/screens/lazy.rs), as cargo-leptos does with `--split`. Trunk cannot.

use std::fs;
use std::path::Path;
use std::process::Command;

use anyhow::{Context, Result, anyhow, ensure};
use rayon::prelude::*;
use wasm_split_cli_support::{Options, transform};

use crate::dist;

/// Base name of the program's script and, with `_bg.wasm`, of the program.
pub const PROGRAM: &str = "bleachfield";
/// The script that loads lazy pieces; the program's script imports it.
pub const LOADER: &str = "split.js";

/// WebAssembly features that the compiler uses and every current browser has. A split program
/// no longer declares them.
const FEATURES: [&str; 7] = [
    "--enable-bulk-memory",
    "--enable-extended-const",
    "--enable-multivalue",
    "--enable-mutable-globals",
    "--enable-nontrapping-float-to-int",
    "--enable-reference-types",
    "--enable-sign-ext",
];

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
    if optimize {
        let programs = dist::names(out)?.into_par_iter().filter(|name| name.ends_with(".wasm"));
        programs.try_for_each(|name| optimize_size(&out.join(name)))?;
    }
    Ok(())
}

fn optimize_size(program: &Path) -> Result<()> {
    run(Command::new("wasm-opt")
        .args(["-Oz", "--strip-producers", "--strip-target-features"])
        .args(FEATURES)
        .arg(program)
        .arg("-o")
        .arg(program))
}

/// Runs a tool; shows its output only if it fails.
fn run(command: &mut Command) -> Result<()> {
    let output = command.output().with_context(|| format!("{command:?}"))?;
    let stderr = String::from_utf8_lossy(&output.stderr);
    ensure!(output.status.success(), "{command:?} failed: {stderr}");
    Ok(())
}
