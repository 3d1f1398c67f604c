//! What a built app consists of, and when a phone fetches each part.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use base64::Engine;
use base64::engine::general_purpose::STANDARD as BASE64;
use serde::Serialize;
use sha2::{Digest, Sha256};

/// The service worker itself: the browser keeps it, so it is not in its own list.
pub const SERVICE_WORKER: &str = "service_worker.js";
/// The page that every address of the app is answered with.
pub const SHELL: &str = "index.html";
/// How the script ends that fetches the program's pieces: the page's script imports it.
pub const LATER: &str = "-later.js";
/// How the file ends that holds all pieces of the program, sorted (`sorted`): fetched as
/// one and like with like, they compress to less. It is no program any more; by
/// its ending, servers know that it is worth compressing.
pub const PIECES: &str = "-pieces.wasm";
/// Folder of files that are offered but are no part of the app.
const NOT_THE_APP: &str = "demo/";
/// For the phone's home screen, which fetches them when the app is put there and keeps
/// them itself. The one left, of 192 pixels, is also what notices show.
const FOR_THE_HOME_SCREEN: [&str; 3] = [
    "icon/bleachfield-512.png",
    "icon/bleachfield-maskable-192.png",
    "icon/bleachfield-maskable-512.png",
];

/// When a file is fetched.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum When {
    /// Before the first screen can be used.
    First,
    /// After the first screen stands, without anyone waiting for it.
    Quiet,
}

/// One file of the built app, as the service worker lists it.
#[derive(Clone, Debug, Serialize)]
pub struct Shipped {
    /// Address on the origin, such as `/index.html`.
    pub path: String,
    /// `sha256-` and the digest in base64, as the `integrity` of a request takes it.
    pub hash: String,
    pub when: When,
    /// Where it stands among all pieces, one after another: first byte, and the byte after its last.
    #[serde(skip)]
    pub piece: Option<(usize, usize)>,
}

/// Lists the files of the app built in `dist`, in order of address.
///
/// A file belongs to the first fetch if the shell names it, or if it is a
/// script that the page's program imports (wasm-bindgen's `snippets/`).
///
/// # Errors
/// If `dist` or a file in it cannot be read, or there is no shell in it.
pub fn shipped(dist: &Path) -> io::Result<Vec<Shipped>> {
    let shell = fs::read_to_string(dist.join(SHELL))?;
    let mut files = Vec::new();
    for file in walk(dist)? {
        let name = name_in(dist, &file);
        if name == SERVICE_WORKER
            || name.starts_with(NOT_THE_APP)
            || name.ends_with(PIECES)
            || FOR_THE_HOME_SCREEN.contains(&&*name)
        {
            continue;
        }
        let hash = sha256(&fs::read(&file)?);
        let imported = name.starts_with("snippets/") || name.ends_with(LATER);
        let first = name == SHELL || imported || shell.contains(&name);
        let when = if first { When::First } else { When::Quiet };
        files.push(Shipped { path: format!("/{name}"), hash, when, piece: None });
    }
    files.sort_by(|a, b| a.path.cmp(&b.path));
    let mut from = 0;
    for file in files.iter_mut().filter(|file| is_piece(file)) {
        let length = fs::metadata(dist.join(&file.path[1..]))?.len();
        let to = from + usize::try_from(length).map_err(io::Error::other)?;
        file.piece = Some((from, to));
        from = to;
    }
    Ok(files)
}

/// A part of the program that comes later.
fn is_piece(file: &Shipped) -> bool {
    file.when == When::Quiet && file.path.ends_with(".wasm")
}

/// The digest of `bytes` in the form that `integrity` attributes and content
/// security policies use.
pub fn sha256(bytes: &[u8]) -> String {
    format!("sha256-{}", BASE64.encode(Sha256::digest(bytes)))
}

/// The text of each script that stands in the page itself.
pub fn inline_scripts(html: &str) -> Vec<&str> {
    let mut scripts = Vec::new();
    let mut rest = html;
    while let Some((_, after)) = rest.split_once("<script") {
        let Some((attributes, body)) = after.split_once('>') else { break };
        let Some((text, next)) = body.split_once("</script>") else { break };
        if !attributes.contains("src=") {
            scripts.push(text);
        }
        rest = next;
    }
    scripts
}

/// Every file below `folder`, in no particular order.
///
/// # Errors
/// If a folder cannot be read.
pub fn walk(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            files.extend(walk(&path)?);
        } else {
            files.push(path);
        }
    }
    Ok(files)
}

/// The name of `file` relative to `dist`, with `/` between its parts.
pub fn name_in(dist: &Path, file: &Path) -> String {
    let relative = file.strip_prefix(dist).unwrap_or(file);
    relative
        .components()
        .map(|part| part.as_os_str().to_string_lossy())
        .collect::<Vec<_>>()
        .join("/")
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn hash_is_that_of_the_standard() {
        // FIPS 180-4, SHA-256 of "abc" (NIST example), in base64.
        assert_eq!(sha256(b"abc"), "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
    }

    #[test]
    fn only_scripts_without_an_address_are_inline() {
        let html = r#"<script src="/a.js"></script><script type="module">import x</script>"#;
        assert_eq!(inline_scripts(html), ["import x"]);
    }

    #[test]
    fn what_the_shell_names_comes_first_and_the_rest_quietly() {
        let dist = std::env::temp_dir().join(format!("shipped-{}", std::process::id()));
        for (name, text) in [
            ("index.html", "<link href='/a.css'>"),
            ("a.css", "a"),
            ("worker.js", "w"),
            ("service_worker.js", "s"),
            ("snippets/x/inline0.js", "i"),
            ("app-later.js", "l"),
            ("app-b.wasm", "bb"),
            ("app-c.wasm", "ccc"),
            ("app-pieces.wasm", "bbccc"),
            ("icon/bleachfield-512.png", "p"),
            ("demo/studio.zip", "z"),
        ] {
            fs::create_dir_all(dist.join(name).parent().unwrap()).unwrap();
            fs::write(dist.join(name), text).unwrap();
        }
        let files = shipped(&dist).unwrap();
        fs::remove_dir_all(&dist).unwrap();
        let listed: Vec<_> = files.iter().map(|f| (f.path.as_str(), f.when, f.piece)).collect();
        assert_eq!(
            listed,
            [
                ("/a.css", When::First, None),
                ("/app-b.wasm", When::Quiet, Some((0, 2))),
                ("/app-c.wasm", When::Quiet, Some((2, 5))),
                ("/app-later.js", When::First, None),
                ("/index.html", When::First, None),
                ("/snippets/x/inline0.js", When::First, None),
                ("/worker.js", When::Quiet, None),
            ]
        );
    }
}
