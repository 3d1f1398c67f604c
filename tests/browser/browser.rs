//! The processes of one browser and its driver.

use std::fs::{self, File};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::Duration;

use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use rustix::process::{Pid, Signal, kill_process};
use tokio::time::sleep;

use crate::engine::{BrowserFolders, Engine, ScreenSize};
use crate::error::{TestFailure, TestResult};

pub struct Browser {
    _driver: Driver,
    pub client: Client,
}

impl Browser {
    /// Starts a driver on a free port and, through it, a browser. Both print to `log`.
    pub async fn open(
        engine: Engine,
        folders: BrowserFolders<'_>,
        size: ScreenSize,
        log: &Path,
        display: &str,
    ) -> TestResult<Self> {
        engine.prepare(folders.profile)?;
        let port = free_port()?;
        let log = File::options().create(true).append(true).open(log)?;
        let driver = engine
            .driver(port, display)
            .stdin(Stdio::null())
            .stdout(log.try_clone()?)
            .stderr(log)
            .spawn()
            .map(Driver)
            .map_err(|error| {
                TestFailure::new(format!("the driver of {}: {error}", engine.name()))
            })?;
        let client = connect(engine, folders, size, port).await?;
        Ok(Self { _driver: driver, client })
    }

    /// Closes the browser in good order.
    pub async fn close(self) {
        let _ = self.client.clone().close().await;
    }

    /// Kills every process of the browser at once, as the system does when memory runs out.
    pub fn kill(self) {
        drop(self);
    }
}

/// The process of a driver. Dropped, it is killed with all below it, the browser too: also where
/// a start is given up half way.
struct Driver(Child);

impl Drop for Driver {
    fn drop(&mut self) {
        end(&mut self.0);
    }
}

async fn connect(
    engine: Engine,
    folders: BrowserFolders<'_>,
    size: ScreenSize,
    port: u16,
) -> TestResult<Client> {
    wait_until_listening(engine, port).await?;
    let client = ClientBuilder::new(HttpConnector::new())
        .capabilities(engine.capabilities(folders, size))
        .connect(&format!("http://127.0.0.1:{port}"))
        .await
        .map_err(|error| TestFailure::new(format!("{} did not start: {error}", engine.name())))?;
    fit(&client, size).await?;
    Ok(client)
}

async fn wait_until_listening(engine: Engine, port: u16) -> TestResult {
    for _ in 0..100 {
        if TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_ok() {
            return Ok(());
        }
        sleep(Duration::from_millis(100)).await;
    }
    Err(TestFailure::new(format!("the driver of {} never listened", engine.name())))
}

/// Resizes the window so that the page is as large as the phone's screen.
pub async fn fit(client: &Client, size: ScreenSize) -> TestResult {
    for _ in 0..3 {
        let inner = client.execute("return [innerWidth, innerHeight]", Vec::new()).await?;
        let inner = |at: usize| inner[at].as_u64().and_then(|n| u32::try_from(n).ok());
        let (Some(width), Some(height)) = (inner(0), inner(1)) else { break };
        if (width, height) == (size.width, size.height) {
            break;
        }
        let (_, _, outer_width, outer_height) = client.get_window_rect().await?;
        let fitted = |outer: u64, inner: u32, wanted: u32| {
            u32::try_from(outer).unwrap_or(wanted).saturating_sub(inner) + wanted
        };
        client
            .set_window_size(
                fitted(outer_width, width, size.width),
                fitted(outer_height, height, size.height),
            )
            .await?;
    }
    Ok(())
}

/// Kills `root` and all its descendants.
fn end(root: &mut Child) {
    for pid in descendants(root.id()) {
        if let Some(pid) = i32::try_from(pid).ok().and_then(Pid::from_raw) {
            let _ = kill_process(pid, Signal::KILL); // it may have ended already
        }
    }
    let _ = root.kill();
    let _ = root.wait();
}

/// All processes below `root`, read from /proc.
fn descendants(root: u32) -> Vec<u32> {
    let pairs: Vec<(u32, u32)> = fs::read_dir("/proc")
        .into_iter()
        .flatten()
        .filter_map(|entry| entry.ok()?.file_name().to_str()?.parse().ok())
        .filter_map(|pid: u32| Some((pid, parent_of(pid)?)))
        .collect();
    let mut found = vec![root];
    let mut at = 0;
    while at < found.len() {
        let parent = found[at];
        // The list is not of one instant: an id that is used again could make a circle.
        let children: Vec<u32> = pairs
            .iter()
            .filter(|(pid, of)| *of == parent && !found.contains(pid))
            .map(|(pid, _)| *pid)
            .collect();
        found.extend(children);
        at += 1;
    }
    found.split_off(1)
}

fn parent_of(pid: u32) -> Option<u32> {
    let stat = fs::read_to_string(format!("/proc/{pid}/stat")).ok()?;
    // "pid (name) state parent ..."; the name may contain spaces and brackets.
    stat.rsplit_once(')')?.1.split_whitespace().nth(1)?.parse().ok()
}

/// # Errors
/// If no port is free.
pub fn free_port() -> TestResult<u16> {
    Ok(TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?.local_addr()?.port())
}
