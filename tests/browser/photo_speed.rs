//! What a photo costs, in Chromium: from the moment it is chosen until it is stored with
//! its small copy and its colour stands on the screen, against the browser's own decode of
//! the same file in the same run; and the longest task on the page's thread on a phone
//! four times slower than this machine. A measurement, not a test: it prints figures and
//! passes no judgement.
//!
//! Counted is all from the choice of the file (the field's "change") to the figures in the
//! document: reading the file, decoding, making it smaller as the preferences say at first,
//! the small copy, the hash, a press on "Save and measure its colour" in the same turn in
//! which the photo first stands on the screen to be saved, the write to disk until it is
//! committed, the book, the next screen, and the measurement. No work hides in a person's
//! pause between choosing and pressing: there is none. Not counted is what the form fetches,
//! starts and practises when it opens, for which a person who looks for a picture leaves more
//! than the second that is left here. The browser's own decode is timed afterwards, seven times, when
//! nothing else runs any more; the middle one counts.

use std::fs;
use std::time::Duration;

use bleachfield_demo::photo::preset::{DemoFibre, Lighting, photo};
use bleachfield_demo::photo::{Scene, render};
use serde_json::Value;
use tokio::time::sleep;

use crate::bench::Bench;
use crate::chromedriver;
use crate::engine::{Engine, USUAL};
use crate::failure::{Failure, Outcome};
use crate::phone::Phone;

/// How many times slower than this machine, for the longest task.
const SLOWER: f64 = 4.0;
const RUNS: usize = 9;
/// What a person takes at least to find a picture once the form is open.
const LOOKS_FOR_IT: Duration = Duration::from_secs(1);
/// By when all is done for sure.
const IS_THERE: Duration = Duration::from_secs(1);

/// Takes and measures a photo of 12 megapixels and one of 48, and prints what each cost.
pub async fn measure(bench: &Bench) -> Outcome {
    let phone = Phone::unpack(bench, Engine::Chromium, USUAL).await?;
    phone.open("/batches").await?;
    phone.tap("Load the demo studio").await?;
    phone.tap("Take it in").await?;
    phone.sees("It is in the book.").await?;
    phone.open("/batches").await?;
    phone.tap("Reed bed").await?;
    phone.sees("Colour, measured and followed").await?;
    let batch = phone.path().await?;

    let usual = photo(DemoFibre::CattailLeaf, 0.2, false, Lighting::Overcast, 12);
    let scene = Scene { width: 4000, height: 3000, ..usual };
    let rendered = render(&scene).map_err(|error| Failure::new(error.to_string()))?;
    let file = phone.folder().join("twelve.jpg");
    fs::write(&file, rendered.jpeg)?;

    for (name, megapixels) in [("12 MP", 12), ("48 MP", 48)] {
        let mut ratios = Vec::new();
        // Once without counting: the browser keeps what it compiled.
        for run in 0..=RUNS {
            let found = once(&phone, &batch, &file, megapixels, 1.0).await?;
            if run > 0 {
                ratios.push(tell(name, &found)?);
            }
        }
        ratios.sort_by(f64::total_cmp);
        println!("{name}: median ratio {:.2}", ratios[ratios.len() / 2]);
        let slow = once(&phone, &batch, &file, megapixels, SLOWER).await?;
        println!(
            "{name} at {SLOWER} times slower: longest task on the page's thread {:.0} ms ({})",
            slow["longest"].as_f64().unwrap_or(f64::NAN),
            slow["tasks"],
        );
    }
    phone.put_away().await;
    Ok(())
}

/// Chooses the photo, saves it and has it measured.
async fn once(
    phone: &Phone,
    batch: &str,
    file: &std::path::Path,
    megapixels: u32,
    slower: f64,
) -> Outcome<Value> {
    phone.open(&format!("{batch}?do=photo")).await?;
    phone.find("field", "Choose a picture").await?;
    sleep(LOOKS_FOR_IT).await;
    let client = phone.client()?;
    phone.run(WATCH).await?;
    chromedriver::slow_down(client, slower).await?;
    if megapixels != 12 {
        phone.attach("Choose a picture", file).await?;
        phone.sees("Made smaller").await?;
    }
    phone.run("window.seen.counts = true").await?;
    if megapixels == 12 {
        phone.attach("Choose a picture", file).await?;
    } else {
        phone.run_async(ENLARGE).await?;
    }
    // Asking whether it is there would hold it up.
    sleep(IS_THERE).await;
    phone.sees("Yellowness (E313)").await?;
    chromedriver::slow_down(client, 1.0).await?;
    phone.run_async(GATHER).await
}

fn tell(name: &str, found: &Value) -> Outcome<f64> {
    let part = |name: &str| found[name].as_f64().filter(|ms| *ms > 0.0);
    let (Some(ready), Some(all), Some(decode)) = (part("ready"), part("all"), part("decode"))
    else {
        return Err(Failure::new(format!("not all was seen: {found}")));
    };
    let ratio = all / decode;
    println!(
        "{name}: {all:.0} ms until it is stored and measured, {ready:.0} of them until it can \
         be saved; the browser's own decode {decode:.0} ms, ratio {ratio:.2}"
    );
    Ok(ratio)
}

/// Notes when a photo was chosen, stood ready and was measured, and every long task; presses
/// as soon as it stands.
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
        if (!seen.stood && shown && shown !== seen.before) {
            seen.stood = performance.now();
            [...document.querySelectorAll('dialog button')]
                .find((button) => button.innerText.startsWith('Save and measure')).click();
        }
        if (document.querySelector('.result .facts')) seen.done = performance.now();
    }).observe(document.body, { subtree: true, childList: true });
";

/// Chooses the last photo at twice the size: drawn here, since nobody wants such a file.
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
    const { chosen, stood, done, file, tasks } = window.seen;
    await new Promise((then) => setTimeout(then, 1500));
    const times = [];
    for (let i = 0; i < 7; i += 1) {
        const began = performance.now();
        (await createImageBitmap(file)).close();
        times.push(performance.now() - began);
    }
    times.sort((one, other) => one - other);
    return { ready: stood - chosen, all: done - chosen, decode: times[3],
        tasks: JSON.stringify(tasks), longest: Math.max(0, ...tasks) };
";
