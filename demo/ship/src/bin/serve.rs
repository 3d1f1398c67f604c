//! Serves a built app on this machine alone.
//!
//! `serve FOLDER [--port N]`; port 0 takes any free one. The address is printed
//! on the first line once it answers. The files are read once, at the start, so
//! an address can only ever reach one of them.

#![allow(clippy::print_stdout)] // the address is what this program has to say

use std::collections::HashMap;
use std::error::Error;
use std::fs;
use std::net::Ipv4Addr;
use std::path::Path;
use std::sync::Arc;

use axum::Router;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use bleachfield_ship::shipped::{SHELL, name_in, walk};
use bleachfield_ship::squeeze::brotli;

/// For scripts that run outside the page, which the page's own policy does not reach.
const POLICY: &str = "default-src 'self' blob: data:; script-src 'self' 'wasm-unsafe-eval' \
    'unsafe-inline'; style-src 'self' 'unsafe-inline'; object-src 'none'; frame-ancestors 'none'";

#[tokio::main(flavor = "current_thread")]
async fn main() -> Result<(), Box<dyn Error>> {
    let (folder, port) = arguments()?;
    let site = Arc::new(read_site(Path::new(&folder))?);
    let listener = tokio::net::TcpListener::bind((Ipv4Addr::LOCALHOST, port))
        .await
        .map_err(|error| format!("port {port} cannot be used ({error}); try --port 0"))?;
    println!("http://{}", listener.local_addr()?);
    axum::serve(listener, Router::new().fallback(answer).with_state(site)).await?;
    Ok(())
}

fn arguments() -> Result<(String, u16), String> {
    const USAGE: &str = "usage: serve FOLDER [--port N]";
    let given: Vec<String> = std::env::args().skip(1).collect();
    match given.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [folder] => Ok((folder.to_owned(), 8470)),
        [folder, "--port", port] => match port.parse() {
            Ok(port) => Ok((folder.to_owned(), port)),
            Err(_) => Err(format!("{port} is not a port; {USAGE}")),
        },
        _ => Err(USAGE.to_owned()),
    }
}

/// Nothing that goes to a phone is this large. The program of a quick build is, and to
/// squeeze it takes longer than to build it.
const UNCUT: usize = 8_000_000;

type Site = HashMap<String, Page>;

struct Page {
    kind: HeaderValue,
    plain: Vec<u8>,
    squeezed: Option<Vec<u8>>,
}

fn read_site(folder: &Path) -> Result<Site, Box<dyn Error>> {
    let mut site = Site::new();
    let files = walk(folder)
        .map_err(|error| format!("{}: {error}; build the app first", folder.display()))?;
    for file in files {
        let plain = fs::read(&file)?;
        let kind = mime_guess::from_path(&file).first_or_octet_stream();
        let small = plain.len() < UNCUT && squeezes(kind.essence_str());
        let squeezed = small.then(|| brotli(&plain));
        let kind = HeaderValue::from_str(kind.as_ref())?;
        site.insert(format!("/{}", name_in(folder, &file)), Page { kind, plain, squeezed });
    }
    if site.contains_key(&format!("/{SHELL}")) {
        Ok(site)
    } else {
        Err(format!("no {SHELL} in {}; build the app first", folder.display()).into())
    }
}

fn squeezes(kind: &str) -> bool {
    kind.starts_with("text/")
        || ["wasm", "javascript", "json", "xml"].iter().any(|part| kind.ends_with(part))
}

async fn answer(
    State(site): State<Arc<Site>>,
    method: Method,
    uri: Uri,
    headers: HeaderMap,
) -> Response {
    if method != Method::GET && method != Method::HEAD {
        return StatusCode::METHOD_NOT_ALLOWED.into_response();
    }
    let Some(page) = find(&site, uri.path()) else {
        return StatusCode::NOT_FOUND.into_response();
    };
    let takes_brotli = headers
        .get(header::ACCEPT_ENCODING)
        .and_then(|value| value.to_str().ok())
        .is_some_and(|value| value.split(',').any(|one| one.trim().starts_with("br")));
    let mut response = match &page.squeezed {
        Some(bytes) if takes_brotli => {
            ([(header::CONTENT_ENCODING, "br")], bytes.clone()).into_response()
        }
        _ => page.plain.clone().into_response(),
    };
    let out = response.headers_mut();
    out.insert(header::CONTENT_TYPE, page.kind.clone());
    out.insert(header::VARY, HeaderValue::from_static("accept-encoding"));
    out.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY));
    out.insert(header::X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    // Names can stay while bytes change, so a browser always asks; the service
    // worker is what makes it fast.
    out.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-cache"));
    response
}

/// The file at `path`; the shell for an address that is a screen, not a file.
fn find<'a>(site: &'a Site, path: &str) -> Option<&'a Page> {
    let is_file = path.rsplit('/').next().is_some_and(|name| name.contains('.'));
    match site.get(path) {
        Some(page) => Some(page),
        None if is_file => None,
        None => site.get(&format!("/{SHELL}")),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn site() -> Site {
        let page = |text: &str| Page {
            kind: HeaderValue::from_static("text/html"),
            plain: text.into(),
            squeezed: None,
        };
        [("/index.html", page("shell")), ("/a.js", page("a"))]
            .into_iter()
            .map(|(path, page)| (path.to_owned(), page))
            .collect()
    }

    #[test]
    fn screens_get_the_shell_and_files_themselves() {
        let site = site();
        for (path, text) in
            [("/", "shell"), ("/mix", "shell"), ("/batch/01", "shell"), ("/a.js", "a")]
        {
            assert_eq!(find(&site, path).unwrap().plain, text.as_bytes(), "{path}");
        }
    }

    #[test]
    fn nothing_outside_the_folder_is_reached() {
        let site = site();
        for path in ["/../Cargo.toml", "/%2e%2e/Cargo.toml", "/b.js", "/.git"] {
            assert!(find(&site, path).is_none(), "{path}");
        }
    }
}
