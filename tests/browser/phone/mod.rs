//! The phone in a scenario's hand: a browser at phone size, the app in it, and
//! the network that may go.

mod files;
mod look;

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use fantoccini::Client;
use fantoccini::elements::Element;
use fantoccini::error::CmdError;
use serde_json::{Value, json};
use tokio::time::sleep;

use crate::environment::TestEnvironment;
use crate::browser::Browser;
use crate::console;
use crate::engine::{Engine, BrowserFolders, ScreenSize};
use crate::error::{TestFailure, TestResult, ensure};
use crate::server::Server;

const PATIENCE: Duration = Duration::from_secs(15);
const PAUSE: Duration = Duration::from_millis(50);
/// The key under which a driver hands over an element (W3C WebDriver, "elements").
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";
const FINDER: &str = include_str!("../finder.js");

pub struct Phone {
    pub engine: Engine,
    pub size: ScreenSize,
    pub server: Server,
    browser: Option<Browser>,
    /// What the browser keeps, and the log of it and its driver.
    folder: PathBuf,
    screens: PathBuf,
    display: String,
    /// Where axe-core's script is.
    pub axe: PathBuf,
    differences: Vec<String>,
}

impl Phone {
    /// A phone that has never seen the app that `environment` serves.
    pub async fn start(environment: &TestEnvironment, engine: Engine, size: ScreenSize) -> TestResult<Self> {
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

    /// A second phone of the same make, which has never seen the app either.
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

    /// Starts the browser, with what it kept from before.
    pub async fn start_browser(&mut self) -> TestResult {
        self.browser = None;
        let profile = self.folder.join("profile");
        let log = self.log();
        let keep = BrowserFolders { profile: &profile, downloads: &self.downloads() };
        let browser = Browser::open(self.engine, keep, self.size, &log, &self.display).await?;
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

    pub async fn close(mut self) {
        if let Some(browser) = self.browser.take() {
            browser.close().await;
        }
        let _ = fs::remove_dir_all(&self.folder);
    }

    // --- going about

    /// Opens an address of the app, such as `/mix`, and waits until it has started.
    pub async fn open(&self, path: &str) -> TestResult {
        self.client()?.goto(&format!("{}{path}", self.server.origin())).await?;
        self.wait_for("the app to start", || async {
            let started = "return document.readyState === 'complete' \
                && !document.getElementById('starting') && !!document.querySelector('main')";
            Ok(self.run(started).await?.as_bool().unwrap_or_default())
        })
        .await
    }

    /// The path of the address that is open.
    pub async fn path(&self) -> TestResult<String> {
        Ok(self.client()?.current_url().await?.path().to_owned())
    }

    // --- seeing

    /// Waits until `words` can be seen on the screen.
    pub async fn wait_for_text(&self, words: &str) -> TestResult {
        self.wait_for(&format!("the words “{words}”"), || async {
            Ok(self.screen_text().await?.contains(&one_line(words)))
        })
        .await
    }

    /// Waits until `words` are nowhere on the screen.
    pub async fn wait_for_text_gone(&self, words: &str) -> TestResult {
        self.wait_for(&format!("the words “{words}” to go"), || async {
            Ok(!self.screen_text().await?.contains(&one_line(words)))
        })
        .await
    }

    /// All that can be read on the screen now, on one line.
    pub async fn screen_text(&self) -> TestResult<String> {
        let text = self.run("return document.body.innerText").await?;
        Ok(one_line(text.as_str().unwrap_or_default()))
    }

    // --- doing

    /// Taps the button, link, tab, choice or label called `name`.
    ///
    /// What the page has replaced or moved in the moment between the look and the press is
    /// looked for again, as a person would, and named in the run's report.
    pub async fn tap(&self, name: &str) -> TestResult {
        let began = Instant::now();
        loop {
            match self.find("press", name).await?.click().await {
                Err(why) if has_moved(&why) && began.elapsed() < PATIENCE => {
                    println!("         “{name}” was replaced or moved under the finger");
                    sleep(PAUSE).await;
                }
                done => return Ok(done?),
            }
        }
    }

    /// Replaces what stands in the field called `name`. It ends when the whole text is
    /// there: WebKitGTK goes on typing after its driver says that it has.
    pub async fn fill(&self, name: &str, text: &str) -> TestResult {
        let field = self.find("field", name).await?;
        field.clear().await?;
        field.send_keys(text).await?;
        self.wait_for(&format!("“{text}” to be typed into “{name}”"), || async {
            Ok(field.prop("value").await?.as_deref() == Some(text))
        })
        .await
    }

    /// Chooses `choice` in the drop-down list called `name`.
    pub async fn choose(&self, name: &str, choice: &str) -> TestResult {
        self.find("field", name).await?.select_by_label(choice).await?;
        Ok(())
    }

    /// What stands in the field called `name`.
    pub async fn value(&self, name: &str) -> TestResult<String> {
        Ok(self.find("field", name).await?.prop("value").await?.unwrap_or_default())
    }

    /// Waits for what is called `name` and can be pressed (`press`) or filled
    /// (`field`), or, as a last resort, what a CSS selector names (`any`).
    pub async fn find(&self, kind: &str, name: &str) -> TestResult<Element> {
        let client = self.client()?;
        let began = Instant::now();
        loop {
            let found = client.execute(FINDER, vec![json!(kind), json!(name)]).await?;
            if let Some(id) = found[ELEMENT].as_str() {
                return Ok(Element::from_element_id(client.clone(), id.to_owned().into()));
            }
            if began.elapsed() > PATIENCE {
                let there = self.screen_text().await?;
                let what =
                    format!("nothing to {kind} is called “{name}”; the screen says: {there}");
                return Err(TestFailure::new(what));
            }
            sleep(PAUSE).await;
        }
    }

    /// Runs a script in the page and returns what it returns.
    pub async fn run(&self, script: &str) -> TestResult<Value> {
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

    // --- judging

    /// No error in the browser's console since the last time this was asked.
    pub async fn check_console(&self) -> TestResult {
        let errors = console::errors(self.engine, self.client()?, &self.log()).await?;
        ensure(errors.is_empty(), || format!("the console says: {}", errors.join(" | ")))
    }

    /// Forgets what the console said: the scenario provoked it, for the reason given.
    pub async fn discard_console(&self, _reason: &str) -> TestResult {
        console::errors(self.engine, self.client()?, &self.log()).await?;
        Ok(())
    }

    /// Names something that this engine does not do as the others: counted and
    /// printed at the end of the run.
    pub fn record_difference(&mut self, what: &str) {
        self.differences.push(what.to_owned());
    }

    pub fn differences(&self) -> &[String] {
        &self.differences
    }

    /// Waits until `so` holds.
    pub async fn wait_for<F>(&self, what: &str, so: impl Fn() -> F) -> TestResult
    where
        F: Future<Output = TestResult<bool>>,
    {
        let began = Instant::now();
        while !so().await? {
            if began.elapsed() > PATIENCE {
                let there = self.screen_text().await.unwrap_or_default();
                let what = format!("waited in vain for {what}; the screen says: {there}");
                return Err(TestFailure::new(what));
            }
            sleep(PAUSE).await;
        }
        Ok(())
    }

    /// A folder of this phone's own, gone when the scenario is over.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    fn log(&self) -> PathBuf {
        self.folder.join("browser.log")
    }
}

/// Whether a press missed because the page changed after the look.
fn has_moved(why: &CmdError) -> bool {
    let why = why.to_string();
    ["stale element", "not clickable", "intercepted"].iter().any(|sign| why.contains(sign))
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
