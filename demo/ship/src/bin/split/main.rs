//! Cuts the built page's program where `app/src/screen/later.rs` says so, so that
//! the first start of the app fetches little.
//!
//! `split PROGRAM FOLDER`: PROGRAM is the page's program as the compiler left it,
//! with its relocations; FOLDER holds the app as Trunk built it. The page's script
//! and program in FOLDER are replaced, and a script that fetches the pieces when
//! they are needed, and the pieces, are put beside them. All share one hash, which
//! stands for the bytes of all of them: no piece can meet a program of another build.

mod imports;

use std::error::Error;
use std::fs;
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use bleachfield_ship::shipped::{LATER, SHELL, walk};
use sha2::{Digest, Sha256};
use wasm_split_cli_support::{Options, transform};

const NAME: &str = "bleachfield";
const SCRIPT: &str = "./bleachfield.js";

/// What every browser of the last years takes, and the compiler uses.
const FEATURES: [&str; 7] = [
    "--enable-bulk-memory",
    "--enable-extended-const",
    "--enable-multivalue",
    "--enable-mutable-globals",
    "--enable-nontrapping-float-to-int",
    "--enable-reference-types",
    "--enable-sign-ext",
];

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args_os().skip(1).map(PathBuf::from);
    let (Some(program), Some(folder)) = (arguments.next(), arguments.next()) else {
        return Err("usage: split PROGRAM FOLDER".into());
    };
    let bench = std::env::temp_dir().join(format!("bleachfield-split-{}", std::process::id()));
    fs::create_dir_all(&bench)?;
    let done = split(&program, &folder, &bench);
    fs::remove_dir_all(&bench)?;
    done
}

fn split(program: &Path, folder: &Path, bench: &Path) -> Result<(), Box<dyn Error>> {
    let uncut = fs::read(program)?;
    let main = bench.join(format!("{NAME}.wasm"));
    let later = format!("./{NAME}{LATER}");
    let mut options = Options::new(&uncut);
    options.output_dir = bench;
    options.main_out_path = &main;
    options.main_module = SCRIPT;
    options.link_name = &later;
    let pieces = transform(options).map_err(|error| format!("{error:#}"))?.split_modules;

    let bound = bench.join("bound");
    run(Command::new("wasm-bindgen")
        .args(["--target", "web", "--no-typescript", "--keep-lld-exports", "--out-name", NAME])
        .arg("--out-dir")
        .arg(&bound)
        .arg(&main))?;
    let main = bound.join(format!("{NAME}_bg.wasm"));
    let programs: Vec<_> = [&main].into_iter().chain(&pieces).collect();
    squeeze(&programs)?;
    let script = fs::read_to_string(bound.join(format!("{NAME}.js")))?;
    let (program, script) =
        imports::shorten(&fs::read(&main)?, &script, &format!("./{NAME}_bg.js"))?;
    fs::write(&main, program)?;

    let hash = hash_of(pieces.iter().chain([&main]))?;
    let hashed = format!("{NAME}-{hash}");
    let script = script
        .replace(&format!("from \"{later}\""), &format!("from \"./{hashed}{LATER}\""))
        .replace(&format!("{NAME}_bg.wasm"), &format!("{hashed}_bg.wasm"));
    let mut loader =
        fs::read_to_string(bench.join(&later))?.replace(SCRIPT, &format!("./{hashed}.js"));
    for piece in &pieces {
        let name = piece.file_name().ok_or("a piece without a name")?.to_string_lossy();
        loader = loader.replace(&format!("\"./{name}\""), &format!("\"./{hashed}-{name}\""));
        fs::copy(piece, folder.join(format!("{hashed}-{name}")))?;
    }
    let old = old_name(folder)?;
    fs::remove_file(folder.join(format!("{old}.js")))?;
    fs::remove_file(folder.join(format!("{old}_bg.wasm")))?;
    fs::write(folder.join(format!("{hashed}.js")), script)?;
    fs::write(folder.join(format!("{hashed}{LATER}")), loader)?;
    fs::copy(&main, folder.join(format!("{hashed}_bg.wasm")))?;
    let shell = folder.join(SHELL);
    let html = fs::read_to_string(&shell)?;
    fs::write(shell, html.replace(&old, &hashed))?;
    Ok(())
}

/// What Trunk called the page's script, without its ending.
fn old_name(folder: &Path) -> Result<String, Box<dyn Error>> {
    for file in walk(folder)? {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        if let Some(name) = name.strip_suffix("_bg.wasm")
            && name.strip_prefix(NAME).is_some_and(|hash| hash.starts_with('-'))
            && folder.join(format!("{name}.js")).exists()
        {
            return Ok(name.to_owned());
        }
    }
    Err("the folder holds no program of the page".into())
}

fn hash_of<'a>(files: impl Iterator<Item = &'a PathBuf>) -> Result<String, Box<dyn Error>> {
    let mut hash = Sha256::new();
    for file in files {
        hash.update(fs::read(file)?);
    }
    Ok(hash.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect())
}

/// Makes each of `programs` small where it is, as many at once as there are cores.
fn squeeze(programs: &[&PathBuf]) -> Result<(), String> {
    let next = AtomicUsize::new(0);
    let in_turn = || {
        while let Some(program) = programs.get(next.fetch_add(1, Ordering::Relaxed)) {
            run(Command::new("wasm-opt")
                .args(["-Oz", "--strip-producers", "--strip-target-features"])
                .args(FEATURES)
                .arg(program)
                .arg("-o")
                .arg(program))?;
        }
        Ok(())
    };
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    thread::scope(|scope| {
        let threads: Vec<_> = (0..cores).map(|_| scope.spawn(in_turn)).collect();
        let ended = |thread: thread::ScopedJoinHandle<Result<(), String>>| thread.join();
        threads.into_iter().map(ended).try_for_each(|end| end.map_err(|_| "stopped".to_owned())?)
    })
}

/// Runs a tool; what it says matters only if it fails.
fn run(command: &mut Command) -> Result<(), String> {
    let done = command.output().map_err(|error| format!("{command:?}: {error}"))?;
    if done.status.success() {
        return Ok(());
    }
    Err(format!("{command:?} failed: {}", String::from_utf8_lossy(&done.stderr)))
}
