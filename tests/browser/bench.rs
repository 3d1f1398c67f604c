//! What the browser tests work with, and where they put what they make.

use std::env;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use crate::error::{TestFailure, TestResult};

pub struct TestEnvironment {
    /// The built app.
    pub dist: PathBuf,
    /// The static server's program, which is built beside this one.
    pub serve: PathBuf,
    pub axe: PathBuf,
    /// Profiles and logs, one folder per phone.
    pub scratch: PathBuf,
    /// Pictures, one folder per engine.
    pub screens: PathBuf,
    pub display: Display,
}

impl TestEnvironment {
    /// Finds everything, or says what is not there.
    pub fn set_up() -> TestResult<Self> {
        let program = env::current_exe()?;
        let beside = program.parent().unwrap_or(Path::new("."));
        let target = beside.parent().unwrap_or(Path::new("target"));
        let cache = env::var_os("BLEACHFIELD_CACHE").map(PathBuf::from).or_else(|| {
            env::var_os("HOME").map(|home| PathBuf::from(home).join(".cache/bleachfield"))
        });
        let environment = Self {
            dist: env::var_os("BLEACHFIELD_DIST").map_or_else(|| "dist".into(), PathBuf::from),
            serve: beside.join("xtask"),
            axe: cache.unwrap_or_default().join("node/node_modules/axe-core/axe.min.js"),
            scratch: env::temp_dir().join(format!("bleachfield-browser-{}", std::process::id())),
            screens: target.join("screens"),
            display: Display::start()?,
        };
        for (what, path) in
            [("the built app", &environment.dist), ("the server", &environment.serve), ("axe-core", &environment.axe)]
        {
            if !path.exists() {
                let path = path.display();
                return Err(TestFailure::new(format!("{what} is not at {path}: start with tests/run")));
            }
        }
        Ok(environment)
    }
}

impl Drop for TestEnvironment {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.scratch);
    }
}

/// A screen for the one engine that cannot do without.
pub struct Display {
    process: Child,
    pub name: String,
}

impl Display {
    pub fn start() -> TestResult<Self> {
        let mut process = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1280x1024x24", "-nolisten", "tcp"])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| TestFailure::new(format!("Xvfb: {error}")))?;
        let mut number = String::new();
        if let Some(said) = process.stdout.take() {
            BufReader::new(said).read_line(&mut number)?;
        }
        Ok(Self { process, name: format!(":{}", number.trim()) })
    }
}

impl Drop for Display {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}
