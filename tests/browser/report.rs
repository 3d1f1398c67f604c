//! Runs scenarios, prints a line for each, and counts.

use std::time::{Duration, Instant};

use tokio::time::timeout;

use crate::engine::{Engine, ScreenSize};
use crate::environment::TestEnvironment;
use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;
use crate::scenario::Scenario;

/// A scenario that takes longer is stopped and fails.
const TIME_LIMIT: Duration = Duration::from_secs(300);

#[derive(Default)]
pub struct Report {
    passed: usize,
    failed: usize,
    skipped: usize,
    /// Known differences between the engines.
    differences: Vec<(Engine, String)>,
}

impl Report {
    pub async fn run(
        &mut self,
        environment: &TestEnvironment,
        engine: Engine,
        size: ScreenSize,
        scenario: &Scenario,
    ) {
        let title = format!("{:9}{}x{}  {}", engine.name(), size.width, size.height, scenario.name);
        if let Some((_, why)) = scenario.not_on.iter().find(|(without, _)| *without == engine) {
            self.skipped += 1;
            println!("skipped  {title}: {why}");
            return;
        }
        let began = Instant::now();
        let outcome = self.run_on_new_phone(environment, engine, size, scenario).await;
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

    async fn run_on_new_phone(
        &mut self,
        environment: &TestEnvironment,
        engine: Engine,
        size: ScreenSize,
        scenario: &Scenario,
    ) -> TestResult {
        let mut phone = Phone::start(environment, engine, size).await?;
        let mut outcome = match timeout(TIME_LIMIT, (scenario.run)(&mut phone)).await {
            Ok(outcome) => outcome,
            Err(_) => Err(TestFailure::new(format!("not done after {} s", TIME_LIMIT.as_secs()))),
        };
        if outcome.is_err() {
            let name = format!("FAILED-{}", scenario.name.replace(' ', "-"));
            let _ = phone.screenshot(&name).await; // the first failure counts
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

    /// Prints the closing lines; whether something passed and nothing failed.
    pub fn close(&self) -> bool {
        println!("\nknown differences between the engines: {}", self.differences.len());
        for (engine, what) in &self.differences {
            println!("  {}: {what}", engine.name());
        }
        let Self { passed, failed, skipped, .. } = self;
        println!("{passed} passed, {failed} failed, {skipped} skipped");
        *failed == 0 && *passed > 0
    }
}
