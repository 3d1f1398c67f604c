//! What a forecast at the Sink costs in Chromium: time to the first bands, to all samples, and to
//! the bands after a reading, and the longest task on the page's thread meanwhile. Prints a table,
//! and fails above the limits.
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
use crate::scenario::steps::{begin_batch, go_to_place, save, start_bath};

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
    println!("{:<16}{:<28}{:>10}{:>10}{:>8}", "bath", "", "median", "worst", "limit");
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
            let (median, worst) = (times[times.len() / 2], times[times.len() - 1]);
            println!("{bleach:<16}{name:<28}{median:>10.1}{worst:>10.1}{limit:>8.0}");
            within &= median <= limit;
        }
        phone.close().await;
    }
    Ok(within)
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
                const answer = /^\{"(forecast_part|forecast)":/.exec(data[1])?.[1];
                if (answer) window.seen.push({ answer, number: data[0], at: performance.now() });
            });
        }
        const command = /^\{"forecast":\{"(\w+)":/.exec(message[1])?.[1];
        if (command) window.seen.push({ command, number: message[0], at: performance.now() });
        return post.call(this, message, ...rest);
    };
"#;
