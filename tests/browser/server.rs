//! The static server of the app. Without a network this process does not run.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use crate::error::{TestFailure, TestResult};

pub struct Server {
    program: PathBuf,
    folder: PathBuf,
    /// The folder of the app on the host, such as `/some/folder`; empty for the root.
    base: String,
    port: u16,
    process: Option<Child>,
}

impl Server {
    /// Serves `folder` on a free port with `program` (app/xtask).
    pub fn start(program: &Path, folder: &Path) -> TestResult<Self> {
        let (program, folder) = (program.to_owned(), folder.to_owned());
        let mut server = Self { program, folder, base: String::new(), port: 0, process: None };
        server.resume()?;
        Ok(server)
    }

    /// The same app on another origin.
    pub fn another(&self) -> TestResult<Self> {
        Self::start(&self.program, &self.folder)
    }

    /// The origin of the app, the same for the lifetime of this value: storage belongs to the
    /// origin.
    pub fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// The address of the app, with no slash at its end.
    pub fn address(&self) -> String {
        format!("{}{}", self.origin(), self.base)
    }

    /// Serves the app in a folder, such as `/some/folder`, as a plain static host does.
    pub fn move_to(&mut self, base: &str) -> TestResult {
        self.stop();
        base.clone_into(&mut self.base);
        self.resume()
    }

    /// Takes the network away.
    pub fn stop(&mut self) {
        if let Some(mut process) = self.process.take() {
            let _ = process.kill();
            let _ = process.wait();
        }
    }

    /// Brings the network back.
    pub fn resume(&mut self) -> TestResult {
        if self.process.is_some() {
            return Ok(());
        }
        let mut command = Command::new(&self.program);
        command.arg("serve").arg(&self.folder).args(["--port", &self.port.to_string()]);
        if !self.base.is_empty() {
            command.args(["--base", &self.base]);
        }
        let mut process =
            command.stdin(Stdio::null()).stdout(Stdio::piped()).spawn().map_err(|error| {
                TestFailure::new(format!("{}: {error}", self.program.display()))
            })?;
        let mut address = String::new();
        if let Some(output) = process.stdout.take() {
            BufReader::new(output).read_line(&mut address)?;
        }
        self.process = Some(process);
        let port = address.trim().trim_end_matches(&self.base).rsplit(':').next();
        let port = port.and_then(|port| port.parse().ok());
        self.port = port.ok_or_else(|| {
            TestFailure::new(format!("the server of {} did not start", self.folder.display()))
        })?;
        Ok(())
    }

    /// Whether there is a network.
    pub fn is_running(&self) -> bool {
        self.process.is_some()
    }

    /// Serves another build on the same origin.
    pub fn serve_instead(&mut self, folder: &Path) -> TestResult {
        self.stop();
        folder.clone_into(&mut self.folder);
        self.resume()
    }

    pub fn folder(&self) -> &Path {
        &self.folder
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}
