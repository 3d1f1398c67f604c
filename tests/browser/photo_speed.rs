//! The cost of a photo in Chromium: from its selection until it is stored with its small copy
//! and its colour is shown, relative to the browser's own decode of the same file in the same
//! run; and the longest task on the page's thread at four times CPU slow-down. Prints the
//! figures, and fails above the limits.
//!
//! Counted is everything from the file field's "change" event to the figures in the document:
//! reading and decoding the file, resizing as the default preferences say, the small copy, the
//! hash, a press on "Save and measure its colour" as soon as the preview is shown, the commit
//! of the write, the projection, the next screen, and the measurement. No work is hidden in a
//! person's pause between selecting and pressing. Not counted is what the form loads and warms
//! up when it opens; a person needs longer to find a picture than the second left here. The
//! browser's own decode is timed afterwards seven times; the median counts.

use std::fs;
use std::time::Duration;

use bleachfield_demo::photo::preset::{DemoFibre, Lighting, photo};
use bleachfield_demo::photo::{Scene, render};
use serde_json::Value;
use tokio::time::sleep;

use crate::chromedriver;
use crate::engine::{Engine, STANDARD_PHONE};
use crate::environment::TestEnvironment;
use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;
use crate::scenario::steps::enter_demo;

/// CPU slow-down for the longest task.
const SLOWER: f64 = 4.0;
const RUNS: usize = 9;
/// Limit of the median time, relative to the browser's own decode.
const MOST_RATIO: f64 = 2.5;
/// Limit of a task on the page's thread, ms.
const LONGEST_TASK: f64 = 100.0;
/// Time that a person needs at least to find a picture once the form is open.
const BEFORE_SELECTION: Duration = Duration::from_secs(1);
/// Time without WebDriver commands, which would delay the page.
const UNDISTURBED: Duration = Duration::from_secs(1);

/// Measures photos of 12 and 48 megapixels and prints the figures. Whether they are within the
/// limits.
pub async fn measure(environment: &TestEnvironment) -> TestResult<bool> {
    let mut within = true;
    let phone = Phone::start(environment, Engine::Chromium, STANDARD_PHONE).await?;
    phone.open("/batches").await?;
    enter_demo(&phone).await?;
    phone.open("/batches").await?;
    phone.tap("Reed bed").await?;
    phone.wait_for_text("Colour over time").await?;
    let batch = phone.path().await?;

    let usual = photo(DemoFibre::CattailLeaf, 0.2, false, Lighting::Overcast, 12);
    let scene = Scene { width: 4000, height: 3000, ..usual };
    let rendered = render(&scene).map_err(|error| TestFailure::new(error.to_string()))?;
    let file = phone.folder().join("twelve.jpg");
    fs::write(&file, rendered.jpeg)?;

    for (name, megapixels) in [("12 MP", 12), ("48 MP", 48)] {
        let mut ratios = Vec::new();
        // The first run is not counted: the browser caches compiled code.
        for run in 0..=RUNS {
            let found = once(&phone, &batch, &file, megapixels, 1.0).await?;
            if run > 0 {
                ratios.push(print_run(name, &found)?);
            }
        }
        ratios.sort_by(f64::total_cmp);
        let ratio = ratios[ratios.len() / 2];
        println!("{name}: median ratio {ratio:.2} (at most {MOST_RATIO})");
        let slow = once(&phone, &batch, &file, megapixels, SLOWER).await?;
        let longest = slow["longest"].as_f64().unwrap_or(f64::NAN);
        println!(
            "{name} at {SLOWER} times slow-down: longest task on the page's thread {longest:.0} ms \
             (at most {LONGEST_TASK}; {})",
            slow["tasks"],
        );
        within &= ratio <= MOST_RATIO && longest <= LONGEST_TASK;
    }
    phone.close().await;
    Ok(within)
}

/// Selects the photo, saves it and waits for its measurement.
async fn once(
    phone: &Phone,
    batch: &str,
    file: &std::path::Path,
    megapixels: u32,
    slower: f64,
) -> TestResult<Value> {
    phone.open(&format!("{batch}?do=photo")).await?;
    phone.find("field", "Choose a picture").await?;
    phone.tap("Wet").await?;
    sleep(BEFORE_SELECTION).await;
    let client = phone.client()?;
    phone.execute(WATCH).await?;
    chromedriver::slow_down(client, slower).await?;
    if megapixels != 12 {
        phone.attach("Choose a picture", file).await?;
        phone.wait_for_text("Made smaller").await?;
    }
    phone.execute("window.seen.counts = true").await?;
    if megapixels == 12 {
        phone.attach("Choose a picture", file).await?;
    } else {
        phone.execute_async(ENLARGE).await?;
    }
    sleep(UNDISTURBED).await;
    phone.wait_for_text("Yellowness (E313)").await?;
    chromedriver::slow_down(client, 1.0).await?;
    phone.execute_async(GATHER).await
}

fn print_run(name: &str, found: &Value) -> TestResult<f64> {
    let part = |name: &str| found[name].as_f64().filter(|ms| *ms > 0.0);
    let (Some(ready), Some(all), Some(decode)) = (part("ready"), part("all"), part("decode"))
    else {
        return Err(TestFailure::new(format!("incomplete measurement: {found}")));
    };
    let ratio = all / decode;
    println!(
        "{name}: {all:.0} ms until it is stored and measured, {ready:.0} of them until it can \
         be saved; the browser's own decode {decode:.0} ms, ratio {ratio:.2}"
    );
    Ok(ratio)
}

/// Records when a photo was selected, previewed and measured, and every long task; presses
/// "Save and measure" as soon as it is previewed.
const WATCH: &str = r"
    const seen = window.seen = { tasks: [] };
    new PerformanceObserver((list) => {
        for (const task of list.getEntries()) seen.tasks.push(Math.round(task.duration));
    }).observe({ type: 'longtask' });
    document.addEventListener('change', (event) => {
        if (event.target.type !== 'file') return;
        seen.file = event.target.files[0];
        seen.before = document.querySelector('dialog .picture');
        seen.chosen = performance.now();
        seen.tasks = [];
    }, true);
    new MutationObserver(() => {
        if (!seen.counts || !seen.chosen || seen.done) return;
        const shown = document.querySelector('dialog .picture');
        if (!seen.previewed && shown && shown !== seen.before) {
            seen.previewed = performance.now();
            [...document.querySelectorAll('dialog button')]
                .find((button) => button.innerText.startsWith('Save and measure')).click();
        }
        if (document.querySelector('.result .facts')) seen.done = performance.now();
    }).observe(document.body, { subtree: true, childList: true });
";

/// Selects the last photo at twice the size.
const ENLARGE: &str = r"
    const small = await createImageBitmap(window.seen.file);
    const canvas = new OffscreenCanvas(small.width * 2, small.height * 2);
    canvas.getContext('2d').drawImage(small, 0, 0, canvas.width, canvas.height);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
    const chosen = new DataTransfer();
    chosen.items.add(new File([blob], 'large.jpg', { type: 'image/jpeg' }));
    const input = document.querySelector('dialog input[type=file]:not([capture])');
    input.files = chosen.files;
    input.dispatchEvent(new Event('change', { bubbles: true }));
";

const GATHER: &str = r"
    const { chosen, previewed, done, file, tasks } = window.seen;
    await new Promise((then) => setTimeout(then, 1500));
    const times = [];
    for (let i = 0; i < 7; i += 1) {
        const began = performance.now();
        (await createImageBitmap(file)).close();
        times.push(performance.now() - began);
    }
    times.sort((one, other) => one - other);
    return { ready: previewed - chosen, all: done - chosen, decode: times[3],
        tasks: JSON.stringify(tasks), longest: Math.max(0, ...tasks) };
";
