//! A browser at phone size with the app open in it, and the network, which can be switched
//! off.

mod files;
mod screenshot;
mod tabs;
mod touch;
mod typing;

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use fantoccini::Client;
use fantoccini::elements::Element;
use fantoccini::error::CmdError;
use serde_json::{Value, json};
use tokio::time::sleep;

use crate::browser::{Browser, fit};
use crate::console;
use crate::engine::{BrowserFolders, Engine, ScreenSize};
use crate::environment::TestEnvironment;
use crate::error::{TestFailure, TestResult, ensure};
use crate::server::Server;

/// Time limit of each wait.
const PATIENCE: Duration = Duration::from_secs(15);
const PAUSE: Duration = Duration::from_millis(50);
/// The web element identifier (W3C WebDriver, "Elements").
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";
const FINDER: &str = include_str!("../finder.js");

pub struct Phone {
    pub engine: Engine,
    pub size: ScreenSize,
    pub server: Server,
    browser: Option<Browser>,
    /// The browser's profile, its downloads, and the log of it and its driver.
    folder: PathBuf,
    screens: PathBuf,
    display: String,
    /// The script of axe-core.
    pub axe: PathBuf,
    differences: Vec<String>,
}

impl Phone {
    /// A phone with an empty profile.
    pub async fn start(
        environment: &TestEnvironment,
        engine: Engine,
        size: ScreenSize,
    ) -> TestResult<Self> {
        let folder = environment.scratch.join(format!("phone-{}", engine.name()));
        let server = Server::start(&environment.serve, &environment.dist)?;
        let screens = environment.screens.join(engine.name());
        let mut phone = Self {
            engine,
            size,
            server,
            browser: None,
            folder,
            screens,
            display: environment.display.name.clone(),
            axe: environment.axe.clone(),
            differences: Vec::new(),
        };
        phone.begin().await?;
        Ok(phone)
    }

    /// A second phone of the same engine and size with an empty profile.
    pub async fn another(&self) -> TestResult<Self> {
        let mut phone = Self {
            engine: self.engine,
            size: self.size,
            server: self.server.another()?,
            browser: None,
            folder: self.folder.with_extension("other"),
            screens: self.screens.clone(),
            display: self.display.clone(),
            axe: self.axe.clone(),
            differences: Vec::new(),
        };
        phone.begin().await?;
        Ok(phone)
    }

    async fn begin(&mut self) -> TestResult {
        let _ = fs::remove_dir_all(&self.folder);
        fs::create_dir_all(self.downloads())?;
        fs::create_dir_all(&self.screens)?;
        self.start_browser().await
    }

    pub fn client(&self) -> TestResult<&Client> {
        match &self.browser {
            Some(browser) => Ok(&browser.client),
            None => Err(TestFailure::new("the browser is not running: start_browser first")),
        }
    }

    // --- the browser as a process

    /// Starts the browser with its profile.
    pub async fn start_browser(&mut self) -> TestResult {
        self.browser = None;
        let profile = self.folder.join("profile");
        let log = self.log();
        let folders = BrowserFolders { profile: &profile, downloads: &self.downloads() };
        let browser = Browser::open(self.engine, folders, self.size, &log, &self.display).await?;
        self.browser = Some(browser);
        Ok(())
    }

    /// Closes the browser in good order and starts it again.
    pub async fn restart_browser(&mut self) -> TestResult {
        if let Some(browser) = self.browser.take() {
            browser.close().await;
        }
        self.start_browser().await
    }

    /// Kills every process of the browser at once.
    pub fn kill_browser(&mut self) {
        if let Some(browser) = self.browser.take() {
            browser.kill();
        }
    }

    /// Ends what a second phone took part in: its console must be free of errors.
    pub async fn close_after(self, mut outcome: TestResult) -> TestResult {
        if outcome.is_ok() {
            outcome = self.check_console().await;
        } else {
            let _ = self.screenshot("FAILED-on-the-other-phone").await;
        }
        self.close().await;
        outcome
    }

    pub async fn close(mut self) {
        if let Some(browser) = self.browser.take() {
            browser.close().await;
        }
        let _ = fs::remove_dir_all(&self.folder);
    }

    /// Resizes the window to the screen of another phone.
    pub async fn resize(&self, size: ScreenSize) -> TestResult {
        fit(self.client()?, size).await
    }

    // --- navigation

    /// Opens an address of the app, such as `/mix`, and waits until it has started.
    pub async fn open(&self, path: &str) -> TestResult {
        self.client()?.goto(&format!("{}{path}", self.server.address())).await?;
        self.wait_for("the app to start", || async {
            let started = "return document.readyState === 'complete' \
                && !document.getElementById('starting') && !!document.querySelector('main')";
            Ok(self.execute(started).await?.as_bool().unwrap_or_default())
        })
        .await
    }

    /// Opens a file of the origin that is not the app, and so holds no database connection.
    pub async fn open_file(&self, path: &str) -> TestResult {
        self.client()?.goto(&format!("{}{path}", self.server.origin())).await?;
        self.wait_for(path, || async {
            Ok(self.execute("return document.readyState").await? == "complete")
        })
        .await
    }

    /// The path of the address that is open.
    pub async fn path(&self) -> TestResult<String> {
        Ok(self.client()?.current_url().await?.path().to_owned())
    }

    // --- reading

    /// Waits until `words` are on the screen.
    pub async fn wait_for_text(&self, words: &str) -> TestResult {
        self.wait_for(&format!("the words “{words}”"), || async {
            Ok(self.screen_text().await?.contains(&one_line(words)))
        })
        .await
    }

    /// Waits until `words` are not on the screen.
    pub async fn wait_for_text_gone(&self, words: &str) -> TestResult {
        self.wait_for(&format!("the words “{words}” to go"), || async {
            Ok(!self.screen_text().await?.contains(&one_line(words)))
        })
        .await
    }

    /// Whether the page has the screen for itself. Firefox shows a bar of its own at times.
    pub async fn has_whole_screen(&self) -> TestResult<bool> {
        let height = self.execute("return innerHeight").await?.as_u64();
        Ok(self.engine != Engine::Firefox || height >= Some(u64::from(self.size.height)))
    }

    /// The text of the screen, on one line.
    pub async fn screen_text(&self) -> TestResult<String> {
        let text = self.execute("return document.body?.innerText").await?;
        Ok(one_line(text.as_str().unwrap_or_default()))
    }

    /// What the app kept of a fault that stopped it.
    pub async fn last_fault(&self) -> TestResult<Option<String>> {
        let kept = self.execute("return localStorage.getItem('bleachfield.last_panic')").await?;
        Ok(kept.as_str().map(str::to_owned))
    }

    // --- input

    /// Taps the button, link, tab, choice or label called `name`.
    ///
    /// Tries again, with a line in the report, if the page replaced or moved it meanwhile.
    pub async fn tap(&self, name: &str) -> TestResult {
        let began = Instant::now();
        loop {
            match self.find("press", name).await?.click().await {
                Err(why) if has_moved(&why) && began.elapsed() < PATIENCE => {
                    println!("         “{name}” was replaced or moved before the tap");
                    sleep(PAUSE).await;
                }
                done => return Ok(done?),
            }
        }
    }

    /// Replaces the text in the field called `name`. Waits for the whole text: WebKitGTK's
    /// driver returns before the typing is done.
    pub async fn fill(&self, name: &str, text: &str) -> TestResult {
        let field = self.find("field", name).await?;
        field.clear().await?;
        field.send_keys(text).await?;
        self.wait_for(&format!("“{text}” to be typed into “{name}”"), || async {
            Ok(field.prop("value").await?.as_deref() == Some(text))
        })
        .await
    }

    /// Selects `choice` in the drop-down list called `name`.
    pub async fn select(&self, name: &str, choice: &str) -> TestResult {
        self.find("field", name).await?.select_by_label(choice).await?;
        Ok(())
    }

    /// The text in the field called `name`.
    pub async fn value(&self, name: &str) -> TestResult<String> {
        Ok(self.find("field", name).await?.prop("value").await?.unwrap_or_default())
    }

    /// Waits for the element called `name` that can be pressed (`press`) or filled (`field`),
    /// or for what a CSS selector matches (`any`).
    pub async fn find(&self, kind: &str, name: &str) -> TestResult<Element> {
        self.find_in(kind, name, false).await
    }

    /// As [`Self::find`]; the page stays where it is scrolled to.
    pub async fn find_still(&self, kind: &str, name: &str) -> TestResult<Element> {
        self.find_in(kind, name, true).await
    }

    async fn find_in(&self, kind: &str, name: &str, still: bool) -> TestResult<Element> {
        let client = self.client()?;
        let began = Instant::now();
        loop {
            let found =
                client.execute(FINDER, vec![json!(kind), json!(name), json!(still)]).await?;
            if let Some(id) = found[ELEMENT].as_str() {
                return Ok(Element::from_element_id(client.clone(), id.to_owned().into()));
            }
            if began.elapsed() > PATIENCE {
                let there = self.screen_text().await?;
                let what = format!("no {kind} is called “{name}”; on the screen: {there}");
                return Err(TestFailure::new(what));
            }
            sleep(PAUSE).await;
        }
    }

    /// Runs a script in the page and returns what it returns.
    pub async fn execute(&self, script: &str) -> TestResult<Value> {
        Ok(self.client()?.execute(script, Vec::new()).await?)
    }

    /// Runs the body of an async function in the page and waits for its value.
    pub async fn execute_async(&self, body: &str) -> TestResult<Value> {
        let script = format!(
            "const done = arguments[arguments.length - 1]; \
             (async () => {{ {body} }})().then(done, (error) => done('error: ' + error));"
        );
        Ok(self.client()?.execute_async(&script, Vec::new()).await?)
    }

    // --- checks

    /// Checks that the browser's console has no errors since the last call.
    pub async fn check_console(&self) -> TestResult {
        let errors = console::errors(self.engine, self.client()?, &self.log()).await?;
        ensure(errors.is_empty(), || format!("errors in the console: {}", errors.join(" | ")))
    }

    /// As [`Self::check_console`], but errors with these words are recorded as a difference from
    /// the other engines.
    pub async fn check_console_but(&mut self, words: &str, why: &str) -> TestResult {
        let errors = console::errors(self.engine, self.client()?, &self.log()).await?;
        let (known, other): (Vec<_>, Vec<_>) =
            errors.into_iter().partition(|error| error.contains(words));
        if !known.is_empty() {
            self.record_difference(why);
        }
        ensure(other.is_empty(), || format!("errors in the console: {}", other.join(" | ")))
    }

    /// Discards errors in the console that the scenario provoked, for the reason given.
    pub async fn discard_console(&self, _reason: &str) -> TestResult {
        console::errors(self.engine, self.client()?, &self.log()).await?;
        Ok(())
    }

    /// Records a difference from the other engines; counted and printed at the end of the run.
    pub fn record_difference(&mut self, what: &str) {
        self.differences.push(what.to_owned());
    }

    pub fn differences(&self) -> &[String] {
        &self.differences
    }

    /// Waits until `condition` holds, for [`PATIENCE`].
    pub async fn wait_for<F>(&self, what: &str, condition: impl Fn() -> F) -> TestResult
    where
        F: Future<Output = TestResult<bool>>,
    {
        self.wait_within(PATIENCE, what, condition).await
    }

    /// Waits until `condition` holds, for `limit`.
    async fn wait_within<F>(
        &self,
        limit: Duration,
        what: &str,
        condition: impl Fn() -> F,
    ) -> TestResult
    where
        F: Future<Output = TestResult<bool>>,
    {
        let began = Instant::now();
        loop {
            match condition().await {
                Ok(true) => return Ok(()),
                Ok(false) => {}
                Err(failure) if ended_with_page(&failure) => {}
                Err(failure) => return Err(failure),
            }
            if began.elapsed() > limit {
                let there = self.screen_text().await.unwrap_or_default();
                let what = format!("timed out waiting for {what}; on the screen: {there}");
                return Err(TestFailure::new(what));
            }
            sleep(PAUSE).await;
        }
    }

    /// A folder of this phone, deleted when it is closed.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    fn log(&self) -> PathBuf {
        self.folder.join("browser.log")
    }
}

/// Whether a click failed because the page changed meanwhile.
fn has_moved(error: &CmdError) -> bool {
    let error = error.to_string();
    ["stale element", "not clickable", "intercepted"].iter().any(|sign| error.contains(sign))
}

/// Whether a script gave nothing because its page was left meanwhile; seen with WebKitGTK's driver.
fn ended_with_page(failure: &TestFailure) -> bool {
    matches!(failure, TestFailure::Driver(error)
        if error.to_string().contains("Could not parse script result"))
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
