//! Drives the built app as a person would, in three browser engines at phone
//! size, over W3C WebDriver.
//!
//! ```text
//! browser [--engine chromium|firefox|webkit]... [--only WORDS]
//! browser kills N [--engine ...]
//! browser keystroke
//! browser photo-speed
//! ```
//!
//! Each scenario runs on a phone of its own. A line is printed for each; the
//! last line counts them, and the program fails if one did.

#![allow(clippy::print_stdout)] // a report is what this program is for

mod axe;
mod environment;
mod browser;
mod chromedriver;
mod console;
mod engine;
mod failure;
mod keystroke;
mod phone;
mod photo_speed;
mod scenario;
mod server;

use std::process::ExitCode;
use std::time::{Duration, Instant};

use environment::TestEnvironment;
use engine::{Engine, SMALL_PHONE, ScreenSize, STANDARD_PHONE};
use failure::{TestFailure, TestResult};
use phone::Phone;
use scenario::Scenario;
use tokio::time::timeout;

/// A scenario that takes longer hangs.
const LONGEST: Duration = Duration::from_secs(300);

#[tokio::main(flavor = "current_thread")]
async fn main() -> ExitCode {
    match run().await {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(failure) => {
            println!("browser tests could not run: {failure}");
            ExitCode::FAILURE
        }
    }
}

async fn run() -> TestResult<bool> {
    let asked = Asked::from_arguments()?;
    let environment = TestEnvironment::set_up()?;
    if asked.keystroke {
        return keystroke::measure(&environment).await.map(|()| true);
    }
    if asked.photo_speed {
        return photo_speed::measure(&environment).await.map(|()| true);
    }
    let mut report = Report::default();
    for engine in &asked.engines {
        for _ in 0..asked.kills.unwrap_or_default() {
            report.run(&environment, *engine, STANDARD_PHONE, &scenario::KILL).await;
        }
        if asked.kills.is_some() {
            continue;
        }
        for scenario in scenario::ALL.iter().filter(|one| one.name.contains(&asked.only)) {
            report.run(&environment, *engine, STANDARD_PHONE, scenario).await;
            if scenario.small_too {
                report.run(&environment, *engine, SMALL_PHONE, scenario).await;
            }
        }
    }
    Ok(report.close())
}

struct Asked {
    engines: Vec<Engine>,
    only: String,
    kills: Option<usize>,
    keystroke: bool,
    photo_speed: bool,
}

impl Asked {
    fn from_arguments() -> TestResult<Self> {
        let mut asked = Self {
            engines: Vec::new(),
            only: String::new(),
            kills: None,
            keystroke: false,
            photo_speed: false,
        };
        let mut given = std::env::args().skip(1);
        while let Some(word) = given.next() {
            if word == "keystroke" {
                asked.keystroke = true;
                continue;
            }
            if word == "photo-speed" {
                asked.photo_speed = true;
                continue;
            }
            let value = given.next().unwrap_or_default();
            match word.as_str() {
                "--engine" => asked.engines.push(Engine::named(&value).ok_or_else(|| {
                    TestFailure::new(format!("no engine “{value}”: chromium, firefox or webkit"))
                })?),
                "--only" => asked.only = value,
                "kills" => {
                    let times = value.parse();
                    asked.kills = Some(times.map_err(|_| TestFailure::new("kills takes a number"))?);
                }
                _ => return Err(TestFailure::new(format!("unknown argument “{word}”"))),
            }
        }
        if asked.engines.is_empty() {
            asked.engines = Engine::ALL.to_vec();
        }
        Ok(asked)
    }
}

#[derive(Default)]
struct Report {
    passed: usize,
    failed: usize,
    skipped: usize,
    differences: Vec<(Engine, String)>,
}

impl Report {
    async fn run(&mut self, environment: &TestEnvironment, engine: Engine, size: ScreenSize, scenario: &Scenario) {
        let title = format!("{:9}{}x{}  {}", engine.name(), size.width, size.height, scenario.name);
        if let Some((_, why)) = scenario.not_on.iter().find(|(without, _)| *without == engine) {
            self.skipped += 1;
            println!("skipped  {title}: {why}");
            return;
        }
        let began = Instant::now();
        let outcome = self.play(environment, engine, size, scenario).await;
        let seconds = began.elapsed().as_secs_f64();
        match outcome {
            Ok(()) => {
                self.passed += 1;
                println!("passed   {title} ({seconds:.1} s)");
            }
            Err(failure) => {
                self.failed += 1;
                println!("FAILED   {title} ({seconds:.1} s)\n         {failure}");
            }
        }
    }

    async fn play(
        &mut self,
        environment: &TestEnvironment,
        engine: Engine,
        size: ScreenSize,
        scenario: &Scenario,
    ) -> TestResult {
        let mut phone = Phone::start(environment, engine, size).await?;
        let mut outcome = match timeout(LONGEST, (scenario.play)(&mut phone)).await {
            Ok(outcome) => outcome,
            Err(_) => Err(TestFailure::new(format!("not done after {} s", LONGEST.as_secs()))),
        };
        if outcome.is_err() {
            let name = format!("FAILED-{}", scenario.name.replace(' ', "-"));
            let _ = phone.screenshot(&name).await; // the failure itself is what counts
        } else {
            outcome = phone.check_console().await;
        }
        for what in phone.differences() {
            let difference = (engine, what.clone());
            if !self.differences.contains(&difference) {
                self.differences.push(difference);
            }
        }
        phone.close().await;
        outcome
    }

    /// Prints the closing lines; true if nothing failed.
    fn close(&self) -> bool {
        println!("\nknown differences between the engines: {}", self.differences.len());
        for (engine, what) in &self.differences {
            println!("  {}: {what}", engine.name());
        }
        let Self { passed, failed, skipped, .. } = self;
        println!("{passed} passed, {failed} failed, {skipped} skipped");
        *failed == 0 && *passed > 0
    }
}
