//! Drives the built app as a person would, in three browser engines at phone size, over W3C
//! WebDriver. Each scenario runs in a browser with a profile of its own.

#![allow(clippy::print_stdout)] // the report goes to standard output

mod all_looks;
mod axe;
mod browser;
mod chromedriver;
mod console;
mod engine;
mod environment;
mod error;
mod first_minute;
mod forecast_speed;
mod keystroke;
mod layout;
mod person;
mod phone;
mod photo_speed;
mod report;
mod scenario;
mod server;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Parser, Subcommand};

use engine::{Engine, SMALL_PHONE, STANDARD_PHONE};
use environment::TestEnvironment;
use error::{TestFailure, TestResult};
use report::{Report, Retry};
use scenario::{ALL, Engines, KILL, Scenario};

/// Drives the built app in three browser engines. Prints a line for each scenario, and the
/// counts as the last line; fails if a scenario failed or none ran.
#[derive(Parser)]
struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
    /// Engine to run every scenario in, repeatable; by default each scenario runs in its own
    #[arg(long = "engine", value_enum, value_name = "ENGINE", global = true)]
    engines: Vec<Engine>,
    /// Run the scenarios, or look at the screens, whose name contains WORDS
    #[arg(long, value_name = "WORDS", global = true)]
    only: Option<String>,
    /// Run each scenario on the small phone as well
    #[arg(long)]
    small: bool,
    /// Print the names of the scenarios
    #[arg(long)]
    list: bool,
    /// Folder of the built app
    #[arg(long, env = "BLEACHFIELD_DIST", default_value = "dist", global = true)]
    dist: PathBuf,
}

#[derive(Subcommand)]
enum Command {
    /// Kill the browser right after "saved", TIMES times in each engine, and check that all is
    /// there
    Kills { times: usize },
    /// Measure the cost of a keystroke in Chromium at six times CPU slow-down
    Keystroke,
    /// Print what the steps of the job cost a person: taps, characters, scrolling, seconds
    FirstMinute,
    /// Look at every screen in every look, and print what is wrong; all engines by default
    Looks,
    /// Measure the cost of a photo in Chromium; fails above its limits
    PhotoSpeed,
    /// Measure the cost of a forecast at the Sink in Chromium at four times CPU slow-down; fails
    /// above its limits
    ForecastSpeed,
}

#[tokio::main(flavor = "current_thread")]
async fn main() -> ExitCode {
    let arguments = Arguments::parse();
    if arguments.list {
        ALL.iter().for_each(|scenario| println!("{}", scenario.name));
        return ExitCode::SUCCESS;
    }
    match run(&arguments).await {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(failure) => {
            println!("browser tests could not run: {failure}");
            ExitCode::FAILURE
        }
    }
}

/// Whether everything passed.
async fn run(arguments: &Arguments) -> TestResult<bool> {
    let only = arguments.only.as_deref().unwrap_or_default();
    let chosen: Vec<&Scenario> = ALL.iter().filter(|one| one.name.contains(only)).collect();
    if chosen.is_empty() && arguments.command.is_none() {
        return Err(TestFailure::new(format!("no scenario is called “{only}”; try --list")));
    }
    let engines = match arguments.engines.as_slice() {
        [] => Engine::ALL.as_slice(),
        some => some,
    };
    let environment = TestEnvironment::set_up(&arguments.dist)?;
    let mut report = Report::default();
    match arguments.command {
        Some(Command::Keystroke) => return keystroke::measure(&environment).await.map(|()| true),
        Some(Command::FirstMinute) => {
            return first_minute::measure(&environment).await.map(|()| true);
        }
        Some(Command::Looks) => return all_looks::measure(&environment, engines, only).await,
        Some(Command::PhotoSpeed) => return photo_speed::measure(&environment).await,
        Some(Command::ForecastSpeed) => return forecast_speed::measure(&environment).await,
        Some(Command::Kills { times }) => {
            for engine in engines {
                for _ in 0..times {
                    let size = STANDARD_PHONE;
                    report.run(&environment, *engine, size, &KILL, Retry::Never).await;
                }
            }
        }
        None => {
            for engine in engines {
                let is_chromium = *engine == Engine::Chromium;
                let is_named = arguments.engines.contains(engine);
                for scenario in &chosen {
                    let runs = is_named || is_chromium || scenario.engines == Engines::Each;
                    if !runs {
                        report.left_out += 1;
                        continue;
                    }
                    let small = arguments.small || scenario.small_too && is_chromium;
                    let small = small.then_some(SMALL_PHONE);
                    for size in [Some(STANDARD_PHONE), small].into_iter().flatten() {
                        report.run(&environment, *engine, size, scenario, Retry::Once).await;
                    }
                }
            }
        }
    }
    Ok(report.close())
}
