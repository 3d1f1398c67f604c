//! The last step of a build: names the program in the worker's script and the page's
//! inline script in its content security policy, and lists what was built in the
//! service worker.
//!
//! `precache FOLDER`, where FOLDER holds the built app; Trunk's post-build hook
//! gives its staging folder.

use std::error::Error;
use std::fs;
use std::path::Path;

use bleachfield_ship::shipped::{
    PIECES, SERVICE_WORKER, SHELL, Shipped, inline_scripts, sha256, shipped,
};
use bleachfield_ship::sorted::sorted;
use serde_json::{Value, json};

const INLINE_MARK: &str = "INLINE-SCRIPT";
const WORKER: &str = "worker.js";
const PROGRAM_MARK: &str = "PROGRAM";
/// In whatever quotes the service worker, made small or not, has them.
const LIST_MARK: [&str; 2] = ["'FILES'", "\"FILES\""];
const PIECES_MARK: [&str; 2] = ["'PIECES'", "\"PIECES\""];
const IN_ORDER_MARK: [&str; 2] = ["'IN_ORDER'", "\"IN_ORDER\""];
/// A file of its own to write and read; the phone gets it within the service worker.
const IN_ORDER: &str = "in_order.js";

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args_os().nth(1).ok_or("usage: precache FOLDER")?;
    let folder = Path::new(&folder);
    name_program(folder)?;
    allow_inline_scripts(folder)?;
    list_files(folder) // after the shell has its last bytes
}

/// Tells the worker's script what the shell's script calls the program.
fn name_program(folder: &Path) -> Result<(), Box<dyn Error>> {
    let html = fs::read_to_string(folder.join(SHELL))?;
    let (before, _) = html.split_once("_bg.wasm").ok_or("the shell starts no program")?;
    let name = before.rsplit(['\'', '"']).next().unwrap_or_default();
    let path = folder.join(WORKER);
    let script = fs::read_to_string(&path)?;
    fs::write(path, script.replace(PROGRAM_MARK, name))?;
    Ok(())
}

fn allow_inline_scripts(folder: &Path) -> Result<(), Box<dyn Error>> {
    let path = folder.join(SHELL);
    let html = fs::read_to_string(&path)?;
    let hashes: Vec<_> =
        inline_scripts(&html).iter().map(|text| format!("'{}'", sha256(text.as_bytes()))).collect();
    let policy_end = html.find("<title>").ok_or("the shell has no title after its policy")?;
    let (head, rest) = html.split_at(policy_end);
    // The comment above the policy speaks of the mark too; the policy is the last to.
    let at = head.rfind(INLINE_MARK).ok_or("the shell's policy has no place for the hash")?;
    let html =
        format!("{}{}{}{rest}", &head[..at], hashes.join(" "), &head[at + INLINE_MARK.len()..]);
    fs::write(path, html)?;
    Ok(())
}

fn list_files(folder: &Path) -> Result<(), Box<dyn Error>> {
    let path = folder.join(SERVICE_WORKER);
    let in_order = fs::read_to_string(folder.join(IN_ORDER))?;
    fs::remove_file(folder.join(IN_ORDER))?;
    let files = shipped(folder)?;
    let (pieces, files): (Vec<_>, Vec<_>) = files.iter().partition(|file| file.piece.is_some());
    let script = fs::read_to_string(&path)?;
    let script = put(&script, LIST_MARK, &serde_json::to_string(&files)?)?;
    let script = put(&script, IN_ORDER_MARK, in_order.trim_end())?;
    let script = put(&script, PIECES_MARK, &list_pieces(folder, &pieces)?.to_string())?;
    fs::write(path, script)?;
    Ok(())
}

/// Writes the file of all pieces, sorted, and says where it and they are.
fn list_pieces(folder: &Path, pieces: &[&Shipped]) -> Result<Value, Box<dyn Error>> {
    if pieces.is_empty() {
        return Ok(json!({ "each": [] })); // a program that was not cut
    }
    let programs: Vec<_> = pieces
        .iter()
        .map(|piece| fs::read(folder.join(&piece.path[1..])))
        .collect::<Result<_, _>>()?;
    let all = sorted(&programs.iter().map(Vec::as_slice).collect::<Vec<_>>())?;
    let hash = sha256(&all);
    let name: String = hash.chars().filter(char::is_ascii_alphanumeric).skip(6).take(16).collect();
    let path = format!("/{name}{PIECES}");
    fs::write(folder.join(&path[1..]), all)?;
    let begin = pieces.iter().fold(&*pieces[0].path, |begin, piece| {
        let alike = begin.bytes().zip(piece.path.bytes()).take_while(|(a, b)| a == b).count();
        &begin[..alike]
    });
    let each: Vec<_> = pieces
        .iter()
        .map(|file| (&file.path[begin.len()..], file.piece.map(|(from, to)| to - from)))
        .collect();
    let whole = sha256(&programs.concat());
    Ok(json!({ "path": path, "hash": hash, "whole": whole, "begin": begin, "each": each }))
}

fn put(script: &str, marks: [&str; 2], text: &str) -> Result<String, Box<dyn Error>> {
    let mark = marks.into_iter().find(|mark| script.contains(mark));
    let mark = mark.ok_or_else(|| format!("the service worker has no place for {}", marks[0]))?;
    Ok(script.replacen(mark, text, 1))
}
