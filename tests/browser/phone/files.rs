//! Files that the phone is given, downloads and caches.

use std::fs;
use std::path::{Path, PathBuf};

use bleachfield_demo::photo;
use serde_json::json;

use super::{PATIENCE, Phone};
use crate::error::{TestFailure, TestResult};

impl Phone {
    /// Waits until the service worker has cached all that the app needs without a network.
    /// On a busy machine that takes long: six times the time limit.
    pub async fn wait_until_offline_ready(&self) -> TestResult {
        let missing = || self.execute_async(MISSING_FILES);
        let what = "the service worker to have every file";
        let waited = self
            .wait_within(6 * PATIENCE, what, || async { Ok(missing().await? == json!([])) })
            .await;
        let Err(failure) = waited else { return Ok(()) };
        let missing = missing().await.unwrap_or_default();
        Err(TestFailure::new(format!("{failure}; missing: {missing}")))
    }

    /// Selects `file` in the file picker called `name`.
    pub async fn attach(&self, name: &str, file: &Path) -> TestResult {
        let file = fs::canonicalize(file)?;
        self.find("field", name).await?.send_keys(&file.display().to_string()).await?;
        Ok(())
    }

    /// The folder of downloaded files.
    pub fn downloads(&self) -> PathBuf {
        self.folder.join("downloads")
    }

    /// Waits until a file whose name ends in `ending` is downloaded, and moves it out of the
    /// downloads.
    pub async fn downloaded_file(&self, ending: &str) -> TestResult<PathBuf> {
        let folder = self.downloads();
        self.wait_for("the file to be saved", || async {
            Ok(whole_file(&folder, ending)?.is_some())
        })
        .await?;
        let from = whole_file(&folder, ending)?;
        let from = from.ok_or_else(|| TestFailure::new("the saved file went away"))?;
        let to = self.folder.join(from.file_name().unwrap_or_default());
        fs::rename(from, &to)?;
        Ok(to)
    }

    /// Writes a synthetic photo of pulp as a file.
    pub fn photo_of_pulp(&self, seed: u64) -> TestResult<PathBuf> {
        let fibre = photo::preset::DemoFibre::IrisLeaf;
        let scene = photo::preset::photo(fibre, 0.4, true, photo::preset::Lighting::Overcast, seed);
        let place = self.folder.join(format!("pulp-{seed}.jpg"));
        let taken = photo::render(&scene);
        let taken = taken.map_err(|error| TestFailure::new(format!("the photo: {error}")))?;
        fs::write(&place, taken.jpeg)?;
        Ok(place)
    }
}

/// A file of that ending, unless a download is in progress.
fn whole_file(folder: &Path, ending: &str) -> TestResult<Option<PathBuf>> {
    let names: Vec<PathBuf> = fs::read_dir(folder)?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<Result<_, _>>()?;
    let has = |path: &Path, end: &str| path.to_string_lossy().ends_with(end);
    // Endings of partial files in Chromium, Firefox and WebKitGTK.
    if names.iter().any(|path| [".crdownload", ".part", ".wkdownload"].iter().any(|e| has(path, e)))
    {
        return Ok(None);
    }
    let found = names.into_iter().find(|path| has(path, ending));
    Ok(found.filter(|path| path.metadata().is_ok_and(|about| about.len() > 0)))
}

/// Returns the files that the service worker lists and has not cached; "the worker itself" if
/// none is active.
const MISSING_FILES: &str = r#"
    const registration = await navigator.serviceWorker.getRegistration();
    if (!registration?.active || !navigator.serviceWorker.controller) return ['the worker itself'];
    const scope = new URL(registration.scope);
    const script = await (await fetch(new URL('service_worker.js', scope))).text();
    const files = [...script.matchAll(/"path":"([^"]+)","hash":"([^"]+)","when"/g)]
        .map(([, path, hash]) => new URL(`${path}?hash=${encodeURIComponent(hash)}`, scope).href);
    const cache = await caches.open('bleachfield-files' + (scope.pathname === '/' ? '' : `@${scope.pathname}`));
    const kept = await Promise.all(files.map(async (key) => (await cache.match(key)) ? null : key));
    return kept.filter((key) => key);
"#;
