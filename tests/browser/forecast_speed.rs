//! What forecasts cost in Chromium: at the Sink the time to the first bands, to all samples, and to
//! the bands after a reading; the longest task on the page's thread meanwhile, and while ways to a
//! colour are searched; the time to learn from a season. Prints a table, and fails above the limits.
//!
//! Timed are the messages between page and worker, on the page: from the request that is posted to
//! the response that arrives, at this machine's speed and then multiplied by four. Chromium slows
//! down no worker: with the page alone slowed down, what the page does meanwhile would count
//! sixteen times. The longest task is that of further runs, with the page's thread four times
//! slower. An idle worker is started before.

use std::time::Duration;

use serde_json::Value;
use tokio::time::sleep;

use crate::chromedriver;
use crate::engine::{Engine, STANDARD_PHONE};
use crate::environment::TestEnvironment;
use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;
use crate::scenario::steps::{begin_batch, enter_demo, go_to_place, save, start_bath};
use crate::scenario::trial::{batch_address, bottle};

/// CPU slow-down.
const SLOWER: f64 = 4.0;
const RUNS: usize = 7;

/// Name and limit, ms, of what is timed.
const LIMITS: [(&str, f64); 4] = [
    ("first bands (100 samples)", 150.0),
    ("500 samples", 600.0),
    ("weighed by a reading", 50.0),
    ("longest task of the page", 50.0),
];

const LONGEST_TASK: usize = 3;

/// Measures a bath with each bleach and prints the table. Whether all is within the limits.
pub async fn measure(environment: &TestEnvironment) -> TestResult<bool> {
    let mut within = true;
    println!("at {SLOWER} times slow-down, median of {RUNS} (worst), ms");
    println!("{:<16}{:<30}{:>10}{:>10}{:>8}", "bath", "", "median", "worst", "limit");
    for bleach in ["Chlorine bleach", "Percarbonate"] {
        let phone = Phone::start(environment, Engine::Chromium, STANDARD_PHONE).await?;
        phone.open("/").await?;
        begin_batch(&phone, "Timed").await?;
        if bleach == "Chlorine bleach" {
            phone.tap("% NaOCl by mass (w/w)").await?;
            phone.fill("Strength of the bottle", "5").await?;
        } else {
            phone.tap(bleach).await?;
            phone.tap("% percarbonate").await?;
            phone.fill("Strength of the powder", "95").await?;
        }
        start_bath(&phone).await?;
        phone.wait_for_text("once dry, damage").await?;
        phone.execute(WATCH).await?;
        let timed = runs(&phone).await?;
        chromedriver::slow_down(phone.client()?, SLOWER).await?;
        let slow = runs(&phone).await?;
        chromedriver::slow_down(phone.client()?, 1.0).await?;
        for (nth, (name, limit)) in LIMITS.into_iter().enumerate() {
            let found = if nth == LONGEST_TASK { &slow } else { &timed };
            let mut times: Vec<f64> = found.iter().map(|run| run[nth]).collect();
            times.sort_by(f64::total_cmp);
            print_row(bleach, name, &times, limit);
            within &= times[times.len() / 2] <= limit;
        }
        phone.close().await;
    }
    within &= ways(environment).await?;
    learning(environment).await?;
    Ok(within)
}

/// The longest task of the page while ways to a colour are searched, and shown.
async fn ways(environment: &TestEnvironment) -> TestResult<bool> {
    let phone = Phone::start(environment, Engine::Chromium, STANDARD_PHONE).await?;
    phone.open("/").await?;
    bottle(&phone, "Timed bottle").await?;
    begin_batch(&phone, "Timed").await?;
    let batch = batch_address(&phone).await?;
    phone.open(&format!("{batch}/ways")).await?;
    phone.tap("Choose the colour").await?;
    phone.tap("Straw").await?;
    phone.wait_for("the colour", || async { Ok(phone.path().await?.ends_with("/colour")) }).await?;
    phone.open(&batch).await?;
    phone.execute(WATCH).await?;
    chromedriver::slow_down(phone.client()?, SLOWER).await?;
    let mut longest = Vec::new();
    for _ in 0..RUNS {
        phone.wait_for_text("Ways to this colour").await?;
        phone.execute("window.longest = 0").await?;
        phone.tap("Ways to this colour").await?;
        phone.wait_for_text("Odds from 120 simulated baths").await?;
        sleep(Duration::from_secs(1)).await;
        longest.push(phone.execute("return window.longest").await?.as_f64().unwrap_or(f64::NAN));
        phone.tap("Back").await?;
    }
    phone.close().await;
    longest.sort_by(f64::total_cmp);
    let median = longest[longest.len() / 2];
    print_row("Ways to a colour", "longest task of the page", &longest, LIMITS[LONGEST_TASK].1);
    Ok(median <= LIMITS[LONGEST_TASK].1)
}

/// The time that the worker takes to learn from the demo studio's baths, as if there were 50.
/// Limit 1 s: printed, and no failure, since learning runs while nobody acts and gives way.
async fn learning(environment: &TestEnvironment) -> TestResult {
    let phone = Phone::start(environment, Engine::Chromium, STANDARD_PHONE).await?;
    phone.open("/batches").await?;
    phone.execute(WATCH).await?;
    enter_demo(&phone).await?;
    go_to_place(&phone, "Help").await?;
    sleep(Duration::from_secs(30)).await;
    let told = phone.execute("return window.seen").await?;
    let all = told.as_array().cloned().unwrap_or_default();
    let baths = all.iter().filter(|one| one["answer"] == "learning_part").count();
    let total: f64 = all
        .iter()
        .filter(|one| one["answer"] == "learnt")
        .filter_map(|end| {
            let run =
                all.iter().find(|one| one["command"] == "run" && one["number"] == end["number"])?;
            Some(SLOWER * (end["at"].as_f64()? - run["at"].as_f64()?))
        })
        .sum();
    phone.close().await;
    let of_50 = 50.0 * total / baths as f64;
    print_row(&format!("{baths} of the demo"), "learning, as if from 50 baths", &[of_50], 1000.0);
    Ok(())
}

/// Median and worst of times in rising order.
fn print_row(of: &str, name: &str, times: &[f64], limit: f64) {
    let (median, worst) = (times[times.len() / 2], times[times.len() - 1]);
    println!("{of:<16}{name:<30}{median:>10.1}{worst:>10.1}{limit:>8.0}");
}

/// Leaves the Sink and comes back, which begins the forecast anew, then saves a reading; so often.
async fn runs(phone: &Phone) -> TestResult<Vec<[f64; 4]>> {
    let mut found = Vec::new();
    for run in 0..RUNS {
        go_to_place(phone, "Help").await?;
        phone.wait_for_text_gone("once dry, damage").await?;
        phone.execute("window.seen.length = 0; window.longest = 0").await?;
        go_to_place(phone, "Sink").await?;
        phone.wait_for_text("once dry, damage").await?;
        // All samples, also of a slow build.
        sleep(Duration::from_secs(4)).await;
        phone.press("Check now").await?;
        phone.fill("pH", &format!("{:.1}", 10.0 + 0.1 * run as f64)).await?;
        phone.tap("A strip").await?;
        phone.execute("window.seen.reading = performance.now()").await?;
        save(phone, "Save the check").await?;
        sleep(Duration::from_secs(2)).await;
        let told = phone.execute("return { seen: window.seen, longest: window.longest }").await?;
        found.push(times(&told)?);
    }
    Ok(found)
}

/// The times of one run, those of messages multiplied.
fn times(told: &Value) -> TestResult<[f64; 4]> {
    let incomplete = || TestFailure::new(format!("incomplete measurement: {told}"));
    let all = told["seen"].as_array().ok_or_else(incomplete)?;
    let of = |command: &str, answer: &str| {
        let sent = all.iter().rev().find(|one| one["command"] == command)?;
        let number = &sent["number"];
        let came = all.iter().find(|one| one["answer"] == answer && one["number"] == *number)?;
        Some(SLOWER * (came["at"].as_f64()? - sent["at"].as_f64()?))
    };
    let first = of("start", "forecast_part").ok_or_else(incomplete)?;
    let every = of("start", "forecast").ok_or_else(incomplete)?;
    // Where the samples are too few for the reading, the bands come as a part.
    let weighed = of("weigh", "forecast_part").or_else(|| of("weigh", "forecast"));
    let longest = told["longest"].as_f64().ok_or_else(incomplete)?;
    Ok([first, every, weighed.ok_or_else(incomplete)?, longest])
}

/// Notes the messages of a forecast, and the longest task.
const WATCH: &str = r#"
    window.seen = [];
    window.longest = 0;
    new PerformanceObserver((list) => {
        for (const task of list.getEntries()) window.longest = Math.max(window.longest, task.duration);
    }).observe({ type: 'longtask' });
    const listened = new WeakSet();
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (message, ...rest) {
        if (!listened.has(this)) {
            listened.add(this);
            this.addEventListener('message', ({ data }) => {
                const answer = /^\{"(forecast_part|forecast|learning_part|learnt)":/.exec(data[1])?.[1];
                if (answer) window.seen.push({ answer, number: data[0], at: performance.now() });
            });
        }
        const command = /^\{"(?:forecast|learning)":\{"(\w+)":/.exec(message[1])?.[1];
        if (command) window.seen.push({ command, number: message[0], at: performance.now() });
        return post.call(this, message, ...rest);
    };
"#;
