//! Files that go into the phone and come out of it, the app's own among them.

use std::fs;
use std::path::{Path, PathBuf};

use bleachfield_demo::photo;
use serde_json::json;

use super::Phone;
use crate::failure::{Failure, Outcome, ensure};

impl Phone {
    /// Waits until all that the app needs without a network is on the phone.
    pub async fn wait_until_offline_ready(&self) -> Outcome {
        self.wait_for("the service worker to have every file", || async {
            let missing = self.run_async(MISSING_FILES).await?;
            Ok(missing == json!([]))
        })
        .await
    }

    /// Takes the files at `paths`, which have no hash in their keys, off the phone, and
    /// has the service worker fetch them again.
    pub async fn fetch_again(&self, paths: &[String]) -> Outcome {
        let script = FETCH_AGAIN.replace("PATHS", &json!(paths).to_string());
        let had = self.run_async(&script).await?;
        ensure(had == paths.len(), || format!("{had} of {} files had been kept", paths.len()))
    }

    /// Gives `file` to the file picker called `name`.
    pub async fn attach(&self, name: &str, file: &Path) -> Outcome {
        let file = fs::canonicalize(file)?;
        self.find("field", name).await?.send_keys(&file.display().to_string()).await?;
        Ok(())
    }

    /// Where this phone's browser puts what it is given to keep.
    pub fn downloads(&self) -> PathBuf {
        self.folder.join("downloads")
    }

    /// Waits until a file was saved whole whose name ends in `ending`, and takes it
    /// out of the downloads.
    pub async fn saved_file(&self, ending: &str) -> Outcome<PathBuf> {
        let folder = self.downloads();
        self.wait_for("the file to be saved", || async {
            Ok(whole_file(&folder, ending)?.is_some())
        })
        .await?;
        let from = whole_file(&folder, ending)?;
        let from = from.ok_or_else(|| Failure::new("the saved file went away"))?;
        let to = self.folder.join(from.file_name().unwrap_or_default());
        fs::rename(from, &to)?;
        Ok(to)
    }

    /// A photo of pulp as the studio's phone would take it, as a file.
    pub fn photo_of_pulp(&self, seed: u64) -> Outcome<PathBuf> {
        let fibre = photo::preset::DemoFibre::IrisLeaf;
        let scene = photo::preset::photo(fibre, 0.4, true, photo::preset::Lighting::Overcast, seed);
        let place = self.folder.join(format!("pulp-{seed}.jpg"));
        let taken = photo::render(&scene);
        let taken = taken.map_err(|error| Failure::new(format!("the photo: {error}")))?;
        fs::write(&place, taken.jpeg)?;
        Ok(place)
    }
}

/// A file of that ending, unless one is still being written.
fn whole_file(folder: &Path, ending: &str) -> Outcome<Option<PathBuf>> {
    let names: Vec<PathBuf> = fs::read_dir(folder)?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<Result<_, _>>()?;
    let has = |path: &Path, end: &str| path.to_string_lossy().ends_with(end);
    // Chromium, Firefox and WebKitGTK each call what is not yet whole otherwise.
    if names.iter().any(|path| [".crdownload", ".part", ".wkdownload"].iter().any(|e| has(path, e)))
    {
        return Ok(None);
    }
    let found = names.into_iter().find(|path| has(path, ending));
    Ok(found.filter(|path| path.metadata().is_ok_and(|about| about.len() > 0)))
}

/// Says how many files it deleted.
const FETCH_AGAIN: &str = r"
    const cache = await caches.open('bleachfield-files');
    const deleted = await Promise.all(PATHS.map((path) => cache.delete(path)));
    navigator.serviceWorker.controller.postMessage('fetch-quiet');
    return deleted.filter((was) => was).length;
";

/// The paths that the service worker lists and has not kept yet; all of them
/// where no service worker is active.
const MISSING_FILES: &str = r#"
    const registration = await navigator.serviceWorker.getRegistration();
    if (!registration?.active || !navigator.serviceWorker.controller) return ['the worker itself'];
    const script = await (await fetch('/service_worker.js')).text();
    const files = [...script.matchAll(/"path":"([^"]+)","hash":"([^"]+)","when"/g)]
        .map(([, path, hash]) => `${path}?hash=${encodeURIComponent(hash)}`);
    const [, begin, each] = script.match(/"begin":"([^"]+)","each":(\[.*?\]\])/) ?? [, '', '[]'];
    files.push(...JSON.parse(each).map(([rest]) => begin + rest));
    const cache = await caches.open('bleachfield-files');
    const kept = await Promise.all(files.map(async (key) => (await cache.match(key)) ? null : key));
    return kept.filter((key) => key);
"#;
