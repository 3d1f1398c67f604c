//! Trunk's post-build hook: replaces the program by a split one, and lists what was built
//! in the service worker.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use brotli::enc::BrotliEncoderParams;
use cargo_metadata::MetadataCommand;
use clap::ValueEnum;
use rayon::prelude::*;

use crate::dist::{self, BROTLI, INDEX, SERVICE_WORKER};
use crate::index_html::{Replaced, allow_inline_scripts, preload, relink};
use crate::split::{LOADER, PROGRAM, split};

/// Stands in public/worker.js for the address of the program's script.
const SCRIPT_MARK: &str = "PROGRAM";
const WORKER: &str = "worker.js";
/// Stands in public/service_worker.js for the list of files.
const LIST_MARK: &str = "'FILES'";
/// wasm-bindgen's folder of scripts that libraries bring along.
const SNIPPETS: &str = "snippets";

/// How the app was compiled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Profile {
    Debug,
    Release,
}

/// Finishes what Trunk has built in `staging`.
///
/// # Errors
/// If a file is not there or not as expected, or one of the tools fails.
pub fn run(staging: &Path, profile: Profile) -> Result<()> {
    let folder = split_program(staging, profile)?;
    link_program(staging, &folder)?;
    if profile == Profile::Release {
        compress(staging)?;
    }
    list_files(staging) // Last: the list holds a hash of each file.
}

/// Puts the split program into a folder of `staging` that is named by its content.
fn split_program(staging: &Path, profile: Profile) -> Result<String> {
    let target = MetadataCommand::new().no_deps().exec()?.target_directory;
    let folder = if profile == Profile::Release { "release" } else { "debug" };
    let linked = target.join("wasm32-unknown-unknown").join(folder).join("bleachfield.wasm");
    let out = staging.join("split");
    split(linked.as_std_path(), &out, profile == Profile::Release)?;
    let names = dist::names(&out)?;
    let files = names.iter().map(|name| fs::read(out.join(name))).collect::<Result<Vec<_>, _>>()?;
    let hash = dist::content_hash(files.iter().map(Vec::as_slice));
    let name = format!("{PROGRAM}-{hash}");
    fs::rename(out, staging.join(&name))?;
    Ok(name)
}

/// Makes the page and the worker start the program in `folder` instead of Trunk's.
fn link_program(staging: &Path, folder: &str) -> Result<()> {
    let replaced = replaced_files(staging, folder)?;
    for file in &replaced {
        fs::remove_file(staging.join(&file.old_name))?;
    }
    let path = staging.join(INDEX);
    let page = relink(&fs::read_to_string(&path)?, &replaced);
    let loader = format!("{folder}/{LOADER}");
    let page = preload(&page, &loader, &fs::read(staging.join(&loader))?)?;
    fs::write(path, allow_inline_scripts(&page)?)?;

    let path = staging.join(WORKER);
    let script = fs::read_to_string(&path)?;
    fs::write(path, put(&script, SCRIPT_MARK, &format!("/{folder}/{PROGRAM}.js"))?)?;
    Ok(())
}

/// Trunk's program, its script and snippets, and what takes their place.
fn replaced_files(staging: &Path, folder: &str) -> Result<Vec<Replaced>> {
    let mut replaced = Vec::new();
    for old_name in dist::names(staging)? {
        let new_name = if old_name.starts_with(SNIPPETS) {
            format!("{folder}/{old_name}")
        } else if old_name.starts_with(&format!("{folder}/")) {
            continue;
        } else if old_name.starts_with(PROGRAM) && old_name.ends_with("_bg.wasm") {
            format!("{folder}/{PROGRAM}_bg.wasm")
        } else if old_name.starts_with(PROGRAM) && old_name.ends_with(".js") {
            format!("{folder}/{PROGRAM}.js")
        } else {
            continue;
        };
        let read = |name: &str| fs::read(staging.join(name)).with_context(|| name.to_owned());
        let (old, new) = (read(&old_name)?, read(&new_name)?);
        replaced.push(Replaced { old_name, old, new_name, new });
    }
    Ok(replaced)
}

/// Lists the app's files in its service worker.
fn list_files(staging: &Path) -> Result<()> {
    let path = staging.join(SERVICE_WORKER);
    let script = fs::read_to_string(&path)?;
    let list = serde_json::to_string(&dist::list(staging)?)?;
    fs::write(path, put(&script, LIST_MARK, &list)?)?;
    Ok(())
}

fn put(script: &str, mark: &str, text: &str) -> Result<String> {
    script.find(mark).with_context(|| format!("no {mark} in a script of public/"))?;
    Ok(script.replacen(mark, text, 1))
}

/// Puts a copy compressed with brotli beside each file that never changes at its address.
fn compress(staging: &Path) -> Result<()> {
    let names = dist::names(staging)?.into_par_iter().filter(|name| dist::is_hashed(name));
    names.try_for_each(|name| {
        let compressed = brotli(&fs::read(staging.join(&name))?)?;
        Ok(fs::write(staging.join(name + BROTLI), compressed)?)
    })
}

/// `bytes` compressed at quality 11 with the largest standard window.
pub(crate) fn brotli(bytes: &[u8]) -> Result<Vec<u8>> {
    let params = BrotliEncoderParams { quality: 11, lgwin: 22, ..Default::default() };
    let mut compressed = Vec::new();
    brotli::BrotliCompress(&mut &bytes[..], &mut compressed, &params)?;
    Ok(compressed)
}
