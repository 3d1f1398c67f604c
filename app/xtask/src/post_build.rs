//! Trunk's post-build hook: joins the style sheets, splits the program into lazy pieces, makes
//! 404.html, and writes the file list of the service worker.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use brotli::enc::BrotliEncoderParams;
use cargo_metadata::MetadataCommand;
use clap::ValueEnum;
use rayon::prelude::*;

use crate::dist::{self, BROTLI, INDEX, NOT_FOUND, SERVICE_WORKER};
use crate::index_html::{
    Replaced, allow_inline_scripts, fill, link_one_style_sheet, not_found, preload, relink,
    style_sheets,
};
use crate::split::{LOADER, PROGRAM, split};

/// Placeholder in public/worker.js for the path of the program's script.
const SCRIPT_PLACEHOLDER: &str = "PROGRAM";
const WORKER: &str = "worker.js";
/// Placeholder in public/service_worker.js for the file list.
const LIST_PLACEHOLDER: &str = "'FILES'";
/// wasm-bindgen's folder of scripts from libraries.
const SNIPPETS: &str = "snippets";

/// How the app was compiled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Profile {
    Debug,
    Release,
}

/// Finishes the build in `staging`.
///
/// # Errors
/// If a file is missing or not as expected, or a tool fails.
pub fn run(staging: &Path, profile: Profile) -> Result<()> {
    join_style_sheets(staging)?;
    let folder = split_program(staging, profile)?;
    link_program(staging, &folder)?;
    if profile == Profile::Release {
        compress(staging)?;
    }
    list_files(staging) // Last: the list holds a hash of each file.
}

/// Makes one style sheet of all that the page links to, so that one request precedes the first
/// picture.
fn join_style_sheets(staging: &Path) -> Result<()> {
    let path = staging.join(INDEX);
    let page = fs::read_to_string(&path)?;
    let sheets = style_sheets(&page);
    let mut joined = String::new();
    for name in &sheets {
        let sheet = staging.join(name);
        joined.push_str(&fs::read_to_string(&sheet).with_context(|| name.clone())?);
        joined.push('\n');
        fs::remove_file(sheet)?;
    }
    let name = format!("styles-{}.css", dist::content_hash([joined.as_bytes()]));
    fs::write(staging.join(&name), &joined)?;
    Ok(fs::write(path, link_one_style_sheet(&page, &name, joined.as_bytes())?)?)
}

/// Puts the split program into a folder of `staging` named by its content hash; returns its name.
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

/// Makes the page and the worker load the program in `folder` instead of Trunk's.
fn link_program(staging: &Path, folder: &str) -> Result<()> {
    let replaced = replaced_files(staging, folder)?;
    for file in &replaced {
        fs::remove_file(staging.join(&file.old_name))?;
    }
    let path = staging.join(INDEX);
    let page = relink(&fs::read_to_string(&path)?, &replaced);
    let loader = format!("{folder}/{LOADER}");
    let page = preload(&page, &loader, &fs::read(staging.join(&loader))?)?;
    fs::write(staging.join(NOT_FOUND), not_found(&page)?)?;
    fs::write(path, allow_inline_scripts(&page)?)?;

    let path = staging.join(WORKER);
    let script = fs::read_to_string(&path)?;
    fs::write(path, fill(&script, SCRIPT_PLACEHOLDER, &format!("./{folder}/{PROGRAM}.js"))?)?;
    Ok(())
}

/// Trunk's program, script and snippets, with their replacements.
fn replaced_files(staging: &Path, folder: &str) -> Result<Vec<Replaced>> {
    let mut replaced = Vec::new();
    for old_name in dist::names(staging)? {
        let Some(new_name) = replacement(&old_name, folder) else { continue };
        let read = |name: &str| fs::read(staging.join(name)).with_context(|| name.to_owned());
        let (old, new) = (read(&old_name)?, read(&new_name)?);
        replaced.push(Replaced { old_name, old, new_name, new });
    }
    Ok(replaced)
}

/// Where the split program has its own version of a file of Trunk's.
fn replacement(old_name: &str, folder: &str) -> Option<String> {
    if old_name.starts_with(SNIPPETS) {
        return Some(format!("{folder}/{old_name}"));
    }
    if !old_name.starts_with(PROGRAM) || old_name.starts_with(&format!("{folder}/")) {
        return None;
    }
    let ending = ["_bg.wasm", ".js"].into_iter().find(|ending| old_name.ends_with(ending))?;
    Some(format!("{folder}/{PROGRAM}{ending}"))
}

/// Writes the file list into the service worker.
fn list_files(staging: &Path) -> Result<()> {
    let path = staging.join(SERVICE_WORKER);
    let script = fs::read_to_string(&path)?;
    let list = serde_json::to_string(&dist::list(staging)?)?;
    fs::write(path, fill(&script, LIST_PLACEHOLDER, &list)?)?;
    Ok(())
}

/// Adds a brotli-compressed copy of each file with a content hash in its path.
fn compress(staging: &Path) -> Result<()> {
    let names = dist::names(staging)?.into_par_iter().filter(|name| dist::is_hashed(name));
    names.try_for_each(|name| {
        let compressed = brotli(&fs::read(staging.join(&name))?)?;
        Ok(fs::write(staging.join(name + BROTLI), compressed)?)
    })
}

/// Compresses at quality 11 with a window of 4 MB.
pub(crate) fn brotli(bytes: &[u8]) -> Result<Vec<u8>> {
    let params = BrotliEncoderParams { quality: 11, lgwin: 22, ..Default::default() };
    let mut compressed = Vec::new();
    brotli::BrotliCompress(&mut &bytes[..], &mut compressed, &params)?;
    Ok(compressed)
}
