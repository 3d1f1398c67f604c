//! Runs scenarios, prints a line for each, and counts.

use std::fmt;
use std::time::{Duration, Instant};

use tokio::time::timeout;

use crate::engine::{Engine, ScreenSize};
use crate::environment::TestEnvironment;
use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;
use crate::scenario::Scenario;

/// A scenario that takes longer is stopped and fails.
const TIME_LIMIT: Duration = Duration::from_secs(300);
/// The same for starting a browser, and for what follows a scenario: a driver may answer nothing.
const DRIVER_LIMIT: Duration = Duration::from_secs(60);
/// Most runs that pass only the second time.
const UNSTABLE_LIMIT: usize = 2;

/// Whether a scenario that failed is run once more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Retry {
    /// On a new phone: a busy machine may be late.
    Once,
    /// What is lost once is lost.
    Never,
}

#[derive(Default)]
pub struct Report {
    counts: Counts,
    /// Runs in an engine that was not named, of scenarios that need none but Chromium.
    pub left_out: usize,
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
        retry: Retry,
    ) {
        let title = format!("{:9}{}x{}  {}", engine.name(), size.width, size.height, scenario.name);
        if let Some((_, why)) = scenario.not_on.iter().find(|(without, _)| *without == engine) {
            self.counts.skipped += 1;
            println!("skipped  {title}: {why}");
            return;
        }
        let began = Instant::now();
        let first = self.run_on_new_phone(environment, engine, size, scenario).await;
        let second = match (&first, retry) {
            (Err(failure), Retry::Once) => {
                println!("again    {title}\n         {failure}");
                Some(self.run_on_new_phone(environment, engine, size, scenario).await)
            }
            _ => None,
        };
        let seconds = began.elapsed().as_secs_f64();
        let outcome = Outcome::of(first, second);
        println!("{outcome:8} {title} ({seconds:.1} s)");
        if let Outcome::Unstable(failure) | Outcome::Failed(failure) = &outcome {
            println!("         {failure}");
        }
        self.counts.add(&outcome);
    }

    async fn run_on_new_phone(
        &mut self,
        environment: &TestEnvironment,
        engine: Engine,
        size: ScreenSize,
        scenario: &Scenario,
    ) -> TestResult {
        let start = Phone::start(environment, engine, size);
        let mut phone = within(DRIVER_LIMIT, "the browser's start", start).await?;
        let mut outcome = within(TIME_LIMIT, "the scenario", (scenario.run)(&mut phone)).await;
        if let Err(failure) = &outcome {
            if let Ok(Ok(Some(fault))) = timeout(DRIVER_LIMIT, phone.last_fault()).await {
                outcome = Err(TestFailure::new(format!("{failure}; a fault was kept: {fault}")));
            }
            let name = format!("FAILED-{}", scenario.name.replace(' ', "-"));
            // The first failure counts.
            let _ = timeout(DRIVER_LIMIT, phone.screenshot(&name)).await;
        } else {
            outcome = within(DRIVER_LIMIT, "the console", phone.check_console()).await;
        }
        for what in phone.differences() {
            let difference = (engine, what.clone());
            if !self.differences.contains(&difference) {
                self.differences.push(difference);
            }
        }
        // A phone that does not close is dropped, which kills its browser.
        let _ = timeout(DRIVER_LIMIT, phone.close()).await;
        outcome
    }

    /// Prints the closing lines; whether it holds.
    pub fn close(&self) -> bool {
        println!("\nknown differences between the engines: {}", self.differences.len());
        for (engine, what) in &self.differences {
            println!("  {}: {what}", engine.name());
        }
        if self.left_out > 0 {
            println!("left out, run if their engine is named by --engine: {}", self.left_out);
        }
        println!("{}", self.counts);
        self.counts.hold()
    }
}

/// # Errors
/// That of `future`, or that it is not done in time.
async fn within<T>(
    limit: Duration,
    what: &str,
    future: impl Future<Output = TestResult<T>>,
) -> TestResult<T> {
    let late = || TestFailure::new(format!("{what}: not done after {} s", limit.as_secs()));
    timeout(limit, future).await.unwrap_or_else(|_| Err(late()))
}

/// What became of a scenario.
#[derive(Debug)]
enum Outcome {
    Passed,
    /// Failed so, and passed when it was run again.
    Unstable(TestFailure),
    Failed(TestFailure),
}

impl Outcome {
    /// Of a run and, where it failed, of a second one; a failure tells of the last run.
    fn of(first: TestResult, second: Option<TestResult>) -> Self {
        match (first, second) {
            (Ok(()), _) => Self::Passed,
            (Err(failure), Some(Ok(()))) => Self::Unstable(failure),
            (Err(failure), None) | (Err(_), Some(Err(failure))) => Self::Failed(failure),
        }
    }
}

impl fmt::Display for Outcome {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Passed => "passed",
            Self::Unstable(_) => "UNSTABLE",
            Self::Failed(_) => "FAILED",
        })
    }
}

#[derive(Default)]
struct Counts {
    passed: usize,
    unstable: usize,
    failed: usize,
    skipped: usize,
}

impl Counts {
    fn add(&mut self, outcome: &Outcome) {
        *match outcome {
            Outcome::Passed => &mut self.passed,
            Outcome::Unstable(_) => &mut self.unstable,
            Outcome::Failed(_) => &mut self.failed,
        } += 1;
    }

    /// Whether something passed, nothing failed, and few runs were unstable.
    fn hold(&self) -> bool {
        self.failed == 0 && self.unstable <= UNSTABLE_LIMIT && self.passed + self.unstable > 0
    }
}

impl fmt::Display for Counts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { passed, unstable, failed, skipped } = self;
        write!(f, "{passed} passed, {unstable} unstable, {failed} failed, {skipped} skipped")?;
        if *unstable > UNSTABLE_LIMIT {
            write!(f, "; more than {UNSTABLE_LIMIT} unstable runs count as a failure")?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn failure(what: &str) -> TestResult {
        Err(TestFailure::new(what))
    }

    fn counts(outcomes: impl IntoIterator<Item = Outcome>) -> Counts {
        let mut counts = Counts::default();
        outcomes.into_iter().for_each(|outcome| counts.add(&outcome));
        counts
    }

    #[test]
    fn a_run_that_passes_the_second_time_is_unstable_and_tells_of_the_first() {
        assert!(matches!(Outcome::of(Ok(()), None), Outcome::Passed));
        let outcome = Outcome::of(failure("late"), Some(Ok(())));
        assert!(matches!(&outcome, Outcome::Unstable(why) if why.to_string() == "late"));
        let outcome = Outcome::of(failure("late"), Some(failure("wrong")));
        assert!(matches!(&outcome, Outcome::Failed(why) if why.to_string() == "wrong"));
        let outcome = Outcome::of(failure("lost"), None);
        assert!(matches!(&outcome, Outcome::Failed(why) if why.to_string() == "lost"));
    }

    #[test]
    fn two_unstable_runs_hold_and_three_do_not() {
        let unstable = || Outcome::of(failure("late"), Some(Ok(())));
        let two = counts([Outcome::Passed, unstable(), unstable()]);
        assert!(two.hold());
        assert_eq!(two.to_string(), "1 passed, 2 unstable, 0 failed, 0 skipped");
        let three = counts([Outcome::Passed, unstable(), unstable(), unstable()]);
        assert!(!three.hold());
        assert!(three.to_string().contains("3 unstable"), "{three}");
    }

    #[test]
    fn a_failure_fails_and_so_does_nothing_run() {
        assert!(!counts([Outcome::Passed, Outcome::of(failure("wrong"), None)]).hold());
        assert!(!counts([]).hold());
        assert!(!Counts { skipped: 3, ..Counts::default() }.hold());
        assert!(counts([Outcome::Passed]).hold());
    }
}
