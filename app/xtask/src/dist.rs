//! The files of a built app, and when a phone fetches each.

use std::fs;
use std::io;
use std::path::Path;

use base64::Engine;
use base64::engine::general_purpose::STANDARD as BASE64;
use serde::Serialize;
use sha2::{Digest, Sha256, Sha384};
use walkdir::WalkDir;

/// The service worker: cached by the browser, so not in its own list.
pub const SERVICE_WORKER: &str = "service_worker.js";
/// The page served at every route.
pub const INDEX: &str = "index.html";
/// The page of a host for an address that is no file; with a network only, so not in the list.
pub const NOT_FOUND: &str = "404.html";
/// Suffix of a file's brotli-compressed copy.
pub const BROTLI: &str = ".br";
/// Folder of demo files, which are no part of the app.
const DEMO: &str = "demo/";
/// Icons that the browser caches itself on installation. The 192 px icon is not among them,
/// since notifications show it too.
const INSTALL_ICONS: [&str; 3] = [
    "icon/bleachfield-512.png",
    "icon/bleachfield-maskable-192.png",
    "icon/bleachfield-maskable-512.png",
];
/// Hexadecimal digits of a content hash in a file name, by Trunk and by [`content_hash`].
const HASH_DIGITS: usize = 16;

/// When the service worker fetches a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum FetchPhase {
    /// Before the app can be used.
    First,
    /// In the background after the first screen is shown.
    Quiet,
}

/// A file of the built app, as the service worker lists it.
#[derive(Clone, Debug, Serialize)]
pub struct DistFile {
    /// Path in the folder of the app, such as `icon/bleachfield.svg`.
    pub path: String,
    /// In the form of a request's `integrity`.
    pub hash: String,
    pub when: FetchPhase,
}

/// Lists the files of the app built in `dist`, sorted by path. Those that the page names are
/// fetched first.
///
/// # Errors
/// If `dist` or a file in it cannot be read, or there is no page in it.
pub fn list(dist: &Path) -> io::Result<Vec<DistFile>> {
    let page = fs::read_to_string(dist.join(INDEX))?;
    let is_shipped = |name: &String| {
        ![SERVICE_WORKER, NOT_FOUND].contains(&&**name)
            && !name.starts_with(DEMO)
            && !INSTALL_ICONS.contains(&&**name)
    };
    let names = names(dist)?.into_iter().filter(is_shipped);
    names
        .map(|name| {
            let hash = sha256(&fs::read(dist.join(&name))?);
            let first = name == INDEX || page.contains(&name);
            let when = if first { FetchPhase::First } else { FetchPhase::Quiet };
            Ok(DistFile { path: name, hash, when })
        })
        .collect()
}

/// The paths of all files in `folder` relative to it, sorted. Compressed copies and hidden
/// files are left out.
///
/// # Errors
/// If a folder cannot be read.
pub fn names(folder: &Path) -> io::Result<Vec<String>> {
    let mut names = Vec::new();
    for entry in WalkDir::new(folder) {
        let entry = entry?;
        let path = entry.path().strip_prefix(folder).unwrap_or(entry.path());
        let parts: Vec<_> = path.iter().map(|part| part.to_string_lossy()).collect();
        let name = parts.join("/");
        if entry.file_type().is_file() && !name.ends_with(BROTLI) && !name.starts_with('.') {
            names.push(name);
        }
    }
    names.sort();
    Ok(names)
}

/// Whether a component of `path` ends in a content hash (`base-0123456789abcdef.css`), so that
/// its content never changes.
pub fn is_hashed(path: &str) -> bool {
    let hashed = |part: &str| {
        let stem = part.split('.').next().unwrap_or_default();
        stem.rsplit_once('-').is_some_and(|(_, hash)| {
            hash.len() == HASH_DIGITS && hash.bytes().all(|digit| digit.is_ascii_hexdigit())
        })
    };
    path.split('/').any(hashed)
}

/// A content hash of the concatenated `parts`, for a file name.
pub fn content_hash<'a>(parts: impl IntoIterator<Item = &'a [u8]>) -> String {
    let mut hash = Sha256::new();
    parts.into_iter().for_each(|part| hash.update(part));
    hash.finalize().iter().take(HASH_DIGITS / 2).map(|byte| format!("{byte:02x}")).collect()
}

/// The SHA-256 digest of `bytes` in the form of `integrity` and content security policies.
pub fn sha256(bytes: &[u8]) -> String {
    format!("sha256-{}", BASE64.encode(Sha256::digest(bytes)))
}

/// The SHA-384 digest of `bytes` in the form of Trunk's `integrity` attributes.
pub fn sha384(bytes: &[u8]) -> String {
    format!("sha384-{}", BASE64.encode(Sha384::digest(bytes)))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn digests_match_the_standard() {
        // FIPS 180-4, SHA-256 and SHA-384 of "abc" (NIST examples), in base64.
        assert_eq!(sha256(b"abc"), "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
        assert_eq!(
            sha384(b"abc"),
            "sha384-ywB1P0WjXou1oD1pmsZQBycsMqsO3tFjGotgWkP/W+2AhgcroefMI1i67KE0yCWn"
        );
        assert_eq!(content_hash([&b"a"[..], b"bc"]), "ba7816bf8f01cfea");
    }

    #[test]
    fn hashed_names_are_recognised() {
        for path in ["/house-0123456789abcdef.css", "/bleachfield-0123456789abcdef/split_mix.wasm"]
        {
            assert!(is_hashed(path), "{path}");
        }
        for path in ["/index.html", "/icon/bleachfield-192.png", "/x-0123456789abcdeg.js", "/mix"] {
            assert!(!is_hashed(path), "{path}");
        }
    }

    #[test]
    fn files_named_by_the_page_are_fetched_first() {
        let dist = tempfile::tempdir().unwrap();
        for (name, text) in [
            ("404.html", "not of the app"),
            ("index.html", "<link href=/a.css><script src=/app-1/app.js>"),
            (".build", "not of the app"),
            ("a.css", "a"),
            ("a.css.br", "not of the app"),
            ("app-1/app.js", "j"),
            ("app-1/split_mix.wasm", "m"),
            ("demo/studio.zip", "z"),
            ("icon/bleachfield-512.png", "p"),
            ("service_worker.js", "s"),
            ("worker.js", "w"),
        ] {
            let path = dist.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
        let files = list(dist.path()).unwrap();
        let listed: Vec<_> = files.iter().map(|file| (file.path.as_str(), file.when)).collect();
        assert_eq!(
            listed,
            [
                ("a.css", FetchPhase::First),
                ("app-1/app.js", FetchPhase::First),
                ("app-1/split_mix.wasm", FetchPhase::Quiet),
                ("index.html", FetchPhase::First),
                ("worker.js", FetchPhase::Quiet),
            ]
        );
    }
}
