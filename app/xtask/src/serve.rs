//! Serves a built app on the loopback interface.

use std::net::Ipv4Addr;
use std::path::Path;
use std::sync::Arc;
use std::{fs, io};

use anyhow::{Context, Result, ensure};
use axum::Router;
use axum::extract::{Request, State};
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::{Next, from_fn};
use axum::response::{Html, IntoResponse, Response};
use axum::routing::get;
use tokio::net::TcpListener;
use tokio::runtime::{Builder, Runtime};
use tower_http::compression::CompressionLayer;
use tower_http::compression::predicate::{DefaultPredicate, NotForContentType, Predicate};
use tower_http::services::{ServeDir, ServeFile};
use tower_http::set_header::SetResponseHeaderLayer;
use tower_http::set_status::SetStatus;

use crate::dist::{INDEX, NOT_FOUND, is_hashed};

/// Policy of worker scripts, which the page's own policy does not cover.
const POLICY: &str = "default-src 'self' blob: data:; script-src 'self' 'wasm-unsafe-eval' \
    'unsafe-inline'; style-src 'self' 'unsafe-inline'; object-src 'none'; frame-ancestors 'none'";

/// A server bound to its port.
pub struct Server {
    runtime: Runtime,
    listener: TcpListener,
    site: Router,
}

impl Server {
    /// Binds a port for `dist`, 0 for any free one; returns the address too. With a `base`, such
    /// as `/some/folder/`, it is a plain static host with the app in that folder.
    ///
    /// # Errors
    /// If no app is built in `dist`, or the port cannot be used.
    pub fn bind(dist: &Path, port: u16, base: Option<&str>) -> Result<(Self, String)> {
        let built = dist.join(INDEX).is_file();
        ensure!(built, "no {INDEX} in {}; build the app first", dist.display());
        let runtime = Builder::new_current_thread().enable_all().build()?;
        let listener = runtime
            .block_on(TcpListener::bind((Ipv4Addr::LOCALHOST, port)))
            .with_context(|| format!("port {port} cannot be used; try --port 0"))?;
        let origin = format!("http://{}", listener.local_addr()?);
        let (site, address) = match base.map(|base| base.trim_matches('/')) {
            None => (site(dist)?, origin),
            Some(folder) => (plain_site(dist, folder), format!("{origin}/{folder}")),
        };
        Ok((Self { runtime, listener, site }, address))
    }

    /// Serves until the process ends.
    ///
    /// # Errors
    /// If the listener fails.
    pub fn run(self) -> io::Result<()> {
        self.runtime.block_on(async { axum::serve(self.listener, self.site).await })
    }
}

/// The files of `dist` at the root, and the page at every route: it is told the folder, as the
/// service worker does.
fn site(dist: &Path) -> io::Result<Router> {
    let page = fs::read_to_string(dist.join(INDEX))?.replacen("<meta", "<base href=\"/\"><meta", 1);
    let page = get(screen).with_state(Arc::new(page));
    Ok(finished(Router::new().fallback_service(files(dist).fallback(page))))
}

/// The files of `dist` in `folder`, and its page for addresses that are no file.
fn plain_site(dist: &Path, folder: &str) -> Router {
    let not_found = SetStatus::new(ServeFile::new(dist.join(NOT_FOUND)), StatusCode::NOT_FOUND);
    let files = files(dist).fallback(not_found);
    finished(match folder {
        "" => Router::new().fallback_service(files),
        folder => Router::new().nest_service(&format!("/{folder}"), files),
    })
}

fn files(dist: &Path) -> ServeDir {
    ServeDir::new(dist).precompressed_br()
}

/// Adds compression and headers.
fn finished(site: Router) -> Router {
    let set = |name: HeaderName, value: &'static str| {
        SetResponseHeaderLayer::overriding(name, HeaderValue::from_static(value))
    };
    // The demo file is large, and compressed already.
    let compressible = DefaultPredicate::new().and(NotForContentType::const_new("application/zip"));
    site.layer(from_fn(cache_control))
        .layer(CompressionLayer::new().compress_when(compressible))
        .layer(set(header::CONTENT_SECURITY_POLICY, POLICY))
        .layer(set(header::X_CONTENT_TYPE_OPTIONS, "nosniff"))
}

/// The page, unless the path looks like a file's.
async fn screen(State(page): State<Arc<String>>, request: Request) -> Response {
    let last = request.uri().path().rsplit('/').next().unwrap_or_default();
    if last.contains('.') {
        return StatusCode::NOT_FOUND.into_response();
    }
    Html(page.as_str().to_owned()).into_response()
}

/// Hashed files are cached for good, others are revalidated.
async fn cache_control(request: Request, next: Next) -> Response {
    let hashed = is_hashed(request.uri().path());
    let mut response = next.run(request).await;
    let immutable = hashed && response.status().is_success();
    let value = if immutable { "public, max-age=31536000, immutable" } else { "no-cache" };
    response.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static(value));
    response
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use axum::body::{Body, to_bytes};
    use tempfile::TempDir;
    use tower::ServiceExt;

    use super::*;

    const HASHED: &str = "/a-0123456789abcdef.js";

    fn dist() -> TempDir {
        let dist = tempfile::tempdir().unwrap();
        let write = |name: &str, text: &str| fs::write(dist.path().join(name), text).unwrap();
        write(INDEX, &format!("<meta>page {}", "word ".repeat(100)));
        write(NOT_FOUND, "lost");
        write(&HASHED[1..], "script");
        write(&format!("{}.br", &HASHED[1..]), "compressed");
        write("a.wasm", "program");
        dist
    }

    async fn answer(dist: &TempDir, path: &str, takes: &str) -> (Response, String) {
        answer_of(site(dist.path()).unwrap(), path, takes).await
    }

    async fn answer_of(site: Router, path: &str, takes: &str) -> (Response, String) {
        let request =
            Request::get(path).header(header::ACCEPT_ENCODING, takes).body(Body::empty()).unwrap();
        let mut response = site.oneshot(request).await.unwrap();
        let body = to_bytes(std::mem::take(response.body_mut()), 1_000_000).await.unwrap();
        (response, String::from_utf8_lossy(&body).into_owned())
    }

    fn value(response: &Response, name: HeaderName) -> &str {
        response.headers().get(name).map(|value| value.to_str().unwrap()).unwrap_or_default()
    }

    #[tokio::test]
    async fn routes_get_the_page_and_files_themselves() {
        let dist = dist();
        for path in ["/", "/mix", "/batch/01?do=stop"] {
            let (response, body) = answer(&dist, path, "").await;
            assert_eq!(response.status(), StatusCode::OK, "{path}");
            assert!(value(&response, header::CONTENT_TYPE).starts_with("text/html"), "{path}");
            assert!(body.contains("<meta>page"), "{path}: {body}");
            assert_eq!(body.contains("<base href=\"/\">"), path != "/", "{path}: {body}");
        }
        let (response, body) = answer(&dist, "/a.wasm", "").await;
        assert_eq!(value(&response, header::CONTENT_TYPE), "application/wasm");
        assert_eq!(body, "program");
    }

    #[tokio::test]
    async fn a_plain_host_has_files_in_the_folder_and_its_page_for_the_rest() {
        let dist = dist();
        for (path, status, text) in [
            ("/studio/app/", StatusCode::OK, "<meta>page"),
            ("/studio/app/a.wasm", StatusCode::OK, "program"),
            ("/studio/app/mix", StatusCode::NOT_FOUND, "lost"),
            ("/studio/app/batch/01/plan?do=x", StatusCode::NOT_FOUND, "lost"),
            ("/studio/app/b.js", StatusCode::NOT_FOUND, "lost"),
            ("/a.wasm", StatusCode::NOT_FOUND, ""),
            ("/", StatusCode::NOT_FOUND, ""),
        ] {
            let site = plain_site(dist.path(), "studio/app");
            let (response, body) = answer_of(site, path, "").await;
            assert_eq!(response.status(), status, "{path}");
            assert!(body.starts_with(text), "{path}: {body}");
        }
    }

    #[tokio::test]
    async fn missing_files_and_those_outside_the_folder_are_not_found() {
        let dist = dist();
        for path in ["/b.js", "/icon/b.png", "/../Cargo.toml", "/%2e%2e/Cargo.toml", "/.git"] {
            let (response, _) = answer(&dist, path, "").await;
            assert_eq!(response.status(), StatusCode::NOT_FOUND, "{path}");
        }
    }

    #[tokio::test]
    async fn hashed_files_are_cached_and_others_revalidated() {
        let dist = dist();
        for (path, immutable) in
            [(HASHED, true), ("/", false), ("/a.wasm", false), ("/b-0123456789abcdef.js", false)]
        {
            let (response, _) = answer(&dist, path, "br").await;
            let cache = value(&response, header::CACHE_CONTROL);
            assert_eq!(cache.contains("immutable"), immutable, "{path}: {cache}");
            assert_eq!(value(&response, header::X_CONTENT_TYPE_OPTIONS), "nosniff", "{path}");
            assert!(response.headers().contains_key(header::CONTENT_SECURITY_POLICY), "{path}");
        }
    }

    #[tokio::test]
    async fn compressed_copies_are_served_where_there_are_any() {
        let dist = dist();
        let (response, body) = answer(&dist, HASHED, "gzip, br").await;
        assert_eq!(value(&response, header::CONTENT_ENCODING), "br");
        assert_eq!(value(&response, header::CONTENT_TYPE), "text/javascript");
        assert_eq!(body, "compressed");
        let (response, body) = answer(&dist, HASHED, "").await;
        assert_eq!((value(&response, header::CONTENT_ENCODING), &*body), ("", "script"));
        let (response, _) = answer(&dist, "/", "br").await;
        assert_eq!(value(&response, header::CONTENT_ENCODING), "br");
    }
}
