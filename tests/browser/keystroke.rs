//! What a keystroke in Mix costs: pH, chart, help and cautions of a liquor redrawn on a phone
//! six times slower than this machine, in Chromium. A measurement, not a test: it prints
//! figures and passes no judgement.
//!
//! The work of a keystroke is all that the page's one thread does for it: the event's
//! handlers with the sums and the changes to the document (until the thread is free again),
//! and the frame that shows them (from the animation callbacks to the end of style, layout
//! and paint). What is left of a frame of 16.7 ms is idle.

use fantoccini::wd::WebDriverCompatibleCommand;
use serde_json::{Value, json};

use crate::bench::Bench;
use crate::engine::{Engine, USUAL};
use crate::failure::{Failure, Outcome};
use crate::phone::Phone;

/// How many times slower than this machine.
const SLOWER: f64 = 6.0;
/// A frame at 60 Hz, ms.
const FRAME: f64 = 1000.0 / 60.0;

/// Which liquors are typed at, and in which field.
const TYPED: [(&str, &str, &str); 2] =
    [("Chlorine bleach", "The liquor has", "3.5"), ("Percarbonate", "The liquor has", "6.25")];

/// Types into the liquor of Mix and prints what each keystroke cost.
pub async fn measure(bench: &Bench) -> Outcome {
    for (bleach, field, text) in TYPED {
        let phone = Phone::unpack(bench, Engine::Chromium, USUAL).await?;
        phone.open("/mix").await?;
        phone.tap("pH of a liquor").await?;
        phone.tap(bleach).await?;
        phone.sees("pH, as reckoned").await?;
        phone.run(WATCH).await?;
        let rate = json!({ "rate": SLOWER });
        phone.client()?.issue_cmd(DevTools("Emulation.setCPUThrottlingRate", rate)).await?;
        // Once without counting: the code is compiled and the caches are filled.
        for counted in [false, true, true, true] {
            phone.run("window.keystrokes = []").await?;
            phone.fill(field, text).await?;
            let found = phone.run_async(GATHER).await?;
            if counted {
                tell(bleach, &found)?;
            }
        }
        phone.put_away().await;
    }
    Ok(())
}

fn tell(bleach: &str, found: &Value) -> Outcome {
    let strokes = found.as_array().cloned().unwrap_or_default();
    if strokes.is_empty() {
        return Err(Failure::new("no keystroke was seen"));
    }
    for stroke in strokes {
        let part = |name: &str| stroke[name].as_f64().unwrap_or(f64::NAN);
        let (handled, drawn) = (part("handled"), part("drawn"));
        let work = handled + drawn;
        let verdict = if work <= FRAME { "within a frame" } else { "over a frame" };
        println!(
            "{bleach}, “{}”: {work:.1} ms of work at {SLOWER} times slower \
             ({handled:.1} handled, {drawn:.1} drawn; {:.0} ms from key to picture), {verdict}",
            stroke["text"].as_str().unwrap_or_default(),
            part("shown"),
        );
    }
    Ok(())
}

/// Marks the start of each input event before the app sees it, the moment when the thread is
/// free again (a message to itself, behind the microtasks in which the app redraws), the next
/// frame's start, and the moment after that frame.
const WATCH: &str = r"
    window.keystrokes = [];
    const soon = (then) => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => then(performance.now());
        channel.port2.postMessage(0);
    };
    document.addEventListener('input', (event) => {
        const began = performance.now();
        const stroke = { text: event.target.value };
        soon((free) => { stroke.handled = free - began; });
        requestAnimationFrame(() => {
            const frame = performance.now();
            soon((over) => {
                stroke.drawn = over - frame;
                stroke.shown = over - event.timeStamp;
                window.keystrokes.push(stroke);
            });
        });
    }, true);
";

const GATHER: &str = r"
    await new Promise((done) => setTimeout(done, 500));
    return window.keystrokes.filter((stroke) => stroke.text);
";

/// A command of the browser's own protocol for developers' tools.
#[derive(Debug)]
pub struct DevTools(pub &'static str, pub Value);

impl WebDriverCompatibleCommand for DevTools {
    fn endpoint(
        &self,
        base: &url::Url,
        session: Option<&str>,
    ) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/goog/cdp/execute", session.unwrap_or_default()))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(json!({ "cmd": self.0, "params": self.1 }).to_string()))
    }
}
