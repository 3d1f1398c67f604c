//! The cost of a keystroke in Mix, where pH, chart, help and cautions of a liquor are
//! recomputed, in Chromium at six times CPU slow-down. Prints figures only.
//!
//! The work of a keystroke is what the page's thread does for it: the event handlers with the
//! computation and the changes to the document (until the thread is idle), and the frame that
//! shows them (from the animation callbacks to the end of style, layout and paint).

use serde_json::Value;

use crate::chromedriver;
use crate::engine::{Engine, STANDARD_PHONE};
use crate::environment::TestEnvironment;
use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;

/// CPU slow-down.
const SLOWER: f64 = 6.0;
/// A frame at 60 Hz, ms.
const FRAME: f64 = 1000.0 / 60.0;

/// The bleaches, the field typed in, and its first text.
const FIELDS: [(&str, &str, &str); 2] = [
    ("Chlorine bleach", "Strength of the liquor", "3.5"),
    ("Percarbonate", "Strength of the liquor", "6.2"),
];

/// Keystrokes before those counted, until the code is optimized.
const WARM_UP: usize = 20;
const COUNTED: usize = 60;

/// Types into a liquor of Mix and prints the cost of a keystroke.
pub async fn measure(environment: &TestEnvironment) -> TestResult {
    for (bleach, field, first) in FIELDS {
        let phone = Phone::start(environment, Engine::Chromium, STANDARD_PHONE).await?;
        phone.open("/mix").await?;
        phone.tap("pH of a liquor").await?;
        phone.tap(bleach).await?;
        phone.wait_for_text("Estimated pH").await?;
        phone.fill(field, first).await?;
        chromedriver::slow_down(phone.client()?, SLOWER).await?;
        let found =
            phone.execute_async(&TYPE.replace("KEYS", &(WARM_UP + COUNTED).to_string())).await?;
        print_figures(bleach, &found)?;
        phone.close().await;
    }
    Ok(())
}

fn print_figures(bleach: &str, found: &Value) -> TestResult {
    let strokes = found.as_array().cloned().unwrap_or_default();
    if strokes.len() != WARM_UP + COUNTED {
        return Err(TestFailure::new(format!(
            "{} keystrokes were measured: {found}",
            strokes.len()
        )));
    }
    let part = |stroke: &Value, name: &str| stroke[name].as_f64().unwrap_or(f64::NAN);
    let quantiles = |of: &dyn Fn(&Value) -> f64| {
        let mut times: Vec<f64> = strokes[WARM_UP..].iter().map(of).collect();
        times.sort_by(f64::total_cmp);
        (times[COUNTED / 2], times[COUNTED * 9 / 10])
    };
    let handled = quantiles(&|stroke| part(stroke, "handled"));
    let drawn = quantiles(&|stroke| part(stroke, "drawn"));
    let work = quantiles(&|stroke| part(stroke, "handled") + part(stroke, "drawn"));
    let verdict = if work.0 <= FRAME { "within a frame" } else { "over a frame" };
    println!(
        "{bleach}: {:.1} ms of work a keystroke at {SLOWER} times slow-down, median of {COUNTED} \
         (one in ten over {:.1}); {:.1} handled, {:.1} drawn; {verdict} of {FRAME:.1} ms",
        work.0, work.1, handled.0, drawn.0,
    );
    Ok(())
}

/// Types a number into the focused field, each keystroke in a frame of its own. For each: the
/// time until the thread is idle (a message to itself, after the microtasks in which the app
/// updates), and the time of the frame that shows it.
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
