//! What a keystroke in Mix costs: pH, chart, help and cautions of a liquor redrawn on a phone
//! six times slower than this machine, in Chromium. A measurement, not a test: it prints
//! figures and passes no judgement.
//!
//! The work of a keystroke is all that the page's one thread does for it: the event's
//! handlers with the sums and the changes to the document (until the thread is free again),
//! and the frame that shows them (from the animation callbacks to the end of style, layout
//! and paint). What is left of a frame of 16.7 ms is idle.

use serde_json::Value;

use crate::environment::TestEnvironment;
use crate::chromedriver;
use crate::engine::{Engine, STANDARD_PHONE};
use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;

/// How many times slower than this machine.
const SLOWER: f64 = 6.0;
/// A frame at 60 Hz, ms.
const FRAME: f64 = 1000.0 / 60.0;

/// Which liquors are typed at, and in which field.
const TYPED: [(&str, &str, &str); 2] =
    [("Chlorine bleach", "The liquor has", "3.5"), ("Percarbonate", "The liquor has", "6.2")];

/// How many keystrokes come before those that count: the code is compiled, then compiled well.
const BEFORE: usize = 20;
const COUNTED: usize = 60;

/// Types into the liquor of Mix and prints what a keystroke cost.
pub async fn measure(environment: &TestEnvironment) -> TestResult {
    for (bleach, field, first) in TYPED {
        let phone = Phone::start(environment, Engine::Chromium, STANDARD_PHONE).await?;
        phone.open("/mix").await?;
        phone.tap("pH of a liquor").await?;
        phone.tap(bleach).await?;
        phone.wait_for_text("pH, as reckoned").await?;
        phone.fill(field, first).await?;
        chromedriver::slow_down(phone.client()?, SLOWER).await?;
        let found = phone.execute_async(&TYPE.replace("KEYS", &(BEFORE + COUNTED).to_string())).await?;
        tell(bleach, &found)?;
        phone.close().await;
    }
    Ok(())
}

fn tell(bleach: &str, found: &Value) -> TestResult {
    let strokes = found.as_array().cloned().unwrap_or_default();
    if strokes.len() != BEFORE + COUNTED {
        return Err(TestFailure::new(format!("{} keystrokes were seen: {found}", strokes.len())));
    }
    let part = |stroke: &Value, name: &str| stroke[name].as_f64().unwrap_or(f64::NAN);
    let middle = |of: &dyn Fn(&Value) -> f64| {
        let mut times: Vec<f64> = strokes[BEFORE..].iter().map(of).collect();
        times.sort_by(f64::total_cmp);
        (times[COUNTED / 2], times[COUNTED * 9 / 10])
    };
    let handled = middle(&|stroke| part(stroke, "handled"));
    let drawn = middle(&|stroke| part(stroke, "drawn"));
    let work = middle(&|stroke| part(stroke, "handled") + part(stroke, "drawn"));
    let verdict = if work.0 <= FRAME { "within a frame" } else { "over a frame" };
    println!(
        "{bleach}: {:.1} ms of work a keystroke at {SLOWER} times slower, median of {COUNTED} \
         (one in ten over {:.1}); {:.1} handled, {:.1} drawn; {verdict} of {FRAME:.1} ms",
        work.0, work.1, handled.0, drawn.0,
    );
    Ok(())
}

/// Types into the field that has the cursor, a figure a keystroke, each in a frame of its own.
/// For each: the time until the thread is free again (a message to itself, behind the
/// microtasks in which the app redraws), and that of the frame which shows it.
const TYPE: &str = r"
    const field = document.activeElement;
    const soon = () => new Promise((then) => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => then(performance.now());
        channel.port2.postMessage(0);
    });
    const strokes = [];
    for (let n = 0; n < KEYS; n += 1) {
        field.value = (3 + (n % 20) / 10).toFixed(1);
        const began = performance.now();
        field.dispatchEvent(new Event('input', { bubbles: true }));
        const handled = (await soon()) - began;
        const drawn = await new Promise((then) => requestAnimationFrame(async () => {
            const frame = performance.now();
            then((await soon()) - frame);
        }));
        strokes.push({ handled, drawn });
    }
    return strokes;
";
