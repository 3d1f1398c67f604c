//! The programs and files that the browser tests use, and the folders that they write to.

use std::env;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use crate::error::{TestFailure, TestResult};

pub struct TestEnvironment {
    /// The built app.
    pub dist: PathBuf,
    /// The static server's program, built beside this one.
    pub serve: PathBuf,
    /// The script of axe-core.
    pub axe: PathBuf,
    /// Profiles and logs, one folder per phone.
    pub scratch: PathBuf,
    /// Screenshots, one folder per engine.
    pub screens: PathBuf,
    pub display: VirtualDisplay,
}

impl TestEnvironment {
    /// # Errors
    /// A file is missing, or Xvfb does not start.
    pub fn set_up(dist: &Path) -> TestResult<Self> {
        let program = env::current_exe()?;
        let beside = program.parent().unwrap_or(Path::new("."));
        let target = beside.parent().unwrap_or(Path::new("target"));
        let cache = env::var_os("BLEACHFIELD_CACHE").map(PathBuf::from).or_else(|| {
            env::var_os("HOME").map(|home| PathBuf::from(home).join(".cache/bleachfield"))
        });
        let environment = Self {
            dist: dist.to_owned(),
            serve: beside.join("xtask"),
            axe: cache.unwrap_or_default().join("node/node_modules/axe-core/axe.min.js"),
            scratch: env::temp_dir().join(format!("bleachfield-browser-{}", std::process::id())),
            screens: target.join("screens"),
            display: VirtualDisplay::start()?,
        };
        for (what, path) in [
            ("the built app", &environment.dist),
            ("the server", &environment.serve),
            ("axe-core", &environment.axe),
        ] {
            if !path.exists() {
                let path = path.display();
                return Err(TestFailure::new(format!(
                    "{what} is not at {path}: start with tests/run"
                )));
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

/// An X display; WebKitGTK needs one.
pub struct VirtualDisplay {
    process: Child,
    pub name: String,
}

impl VirtualDisplay {
    pub fn start() -> TestResult<Self> {
        let mut process = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1280x1024x24", "-nolisten", "tcp"])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| TestFailure::new(format!("Xvfb: {error}")))?;
        let mut number = String::new();
        if let Some(output) = process.stdout.take() {
            BufReader::new(output).read_line(&mut number)?;
        }
        Ok(Self { process, name: format!(":{}", number.trim()) })
    }
}

impl Drop for VirtualDisplay {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}
