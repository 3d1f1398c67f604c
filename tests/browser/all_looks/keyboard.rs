//! The order in which the Tab key and a screen reader go through each screen, in Chromium: each
//! stop must have a name and show the focus, the order must be that of the document and of the
//! eye, and nothing may be trapped. What was found is written as `reading_order.md`.

use std::fmt::Write as _;
use std::fs;

use serde_json::{Value, json};

use super::screens::Screen;
use crate::chromedriver;
use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;

/// More stops than a screen has: it is a trap.
const MOST_STOPS: usize = 250;

/// The order of all screens looked at.
pub struct Order {
    /// Whether all screens are.
    whole: bool,
    text: String,
}

impl Order {
    pub fn new(only: &str) -> Self {
        Self { whole: only.is_empty(), text: HEAD.to_owned() }
    }

    /// Goes through the open screen; returns the faults.
    pub async fn add(
        &mut self,
        phone: &Phone,
        title: &str,
        screen: &Screen,
    ) -> TestResult<Vec<String>> {
        let (names, mut faults) = stops(phone).await?;
        let found = phone.execute(&OUTLINE.replace("NAMES", &json!(names).to_string())).await?;
        let lines = |part: &str| -> Vec<String> {
            let lines = found[part].as_array().into_iter().flatten();
            lines.filter_map(Value::as_str).map(str::to_owned).collect()
        };
        faults.extend(lines("faults"));
        let Screen { path, shows, .. } = screen;
        let _ = write!(self.text, "\n## {title}\n\n`{path}` ({shows})\n\n");
        for line in lines("outline") {
            let _ = writeln!(self.text, "{line}");
        }
        Ok(faults)
    }

    /// Writes the file if all screens were looked at and it is another; says so.
    pub fn write(&self, written: &str, file: &str) -> TestResult {
        let before: Vec<&str> = written.lines().collect();
        let changed = self.text.lines().filter(|line| !before.contains(line)).count();
        if self.whole && self.text != written {
            fs::write(file, &self.text)?;
            println!("{file} is written anew: {changed} lines are new");
        }
        Ok(())
    }
}

/// Presses Tab from the start of the screen until it is left. Role and name of each stop, as the
/// browser tells a screen reader, and the faults.
async fn stops(phone: &Phone) -> TestResult<(Vec<String>, Vec<String>)> {
    let (mut names, mut faults) = (Vec::new(), Vec::new());
    phone.execute(START).await?;
    loop {
        press_tab(phone).await?;
        let at = phone.execute(STOP).await?;
        if at.is_null() {
            break;
        }
        let (role, name) = announced(phone).await?;
        if name.is_empty() {
            faults.push(format!("no name for a screen reader: {}", at["html"]));
        }
        if at["visible"] != true {
            faults.push(format!("the focus cannot be seen: {role} “{name}”"));
        }
        names.push(format!("{role} “{name}”"));
        if names.len() > MOST_STOPS {
            faults.push(format!("the keys are trapped at {role} “{name}”"));
            break;
        }
    }
    Ok((names, faults))
}

async fn press_tab(phone: &Phone) -> TestResult {
    for kind in ["rawKeyDown", "keyUp"] {
        let key = json!({ "type": kind, "key": "Tab", "code": "Tab", "windowsVirtualKeyCode": 9 });
        chromedriver::devtools(phone.client()?, "Input.dispatchKeyEvent", key).await?;
    }
    Ok(())
}

/// Role and accessible name of the focused element, from the browser's accessibility tree.
async fn announced(phone: &Phone) -> TestResult<(String, String)> {
    let client = phone.client()?;
    let focused = json!({ "expression": "document.activeElement" });
    let focused = chromedriver::devtools(client, "Runtime.evaluate", focused).await?;
    let asked = json!({ "objectId": focused["result"]["objectId"], "fetchRelatives": false });
    let tree = chromedriver::devtools(client, "Accessibility.getPartialAXTree", asked).await?;
    let node = &tree["nodes"][0];
    let text = |part: &str| node[part]["value"].as_str().unwrap_or_default().trim().to_owned();
    match text("role") {
        role if role.is_empty() => Err(TestFailure::new(format!("no accessibility tree: {tree}"))),
        role => Ok((role, text("name"))),
    }
}

const HEAD: &str = "# Order of keys and of a screen reader

Made by `tests/browser/looks`, in Chromium at 390×844: what a screen reader reads as landmarks and
headings, what it is told of by itself (live), and the numbered stops of the Tab key with role and
name, in the order of the document. In names, a figure is written as #. A run also checks that each
stop has a name, shows the focus, and comes after the one before it for the eye too.
";

/// Lets the next Tab begin at the start of the open dialog, or of the page.
const START: &str = "
    const root = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
    window.stops = [];
    const before = root.getAttribute('tabindex');
    root.tabIndex = -1;
    root.focus();
    if (before === null) root.removeAttribute('tabindex');
    scrollTo(0, 0);
    root.scrollTop = 0;
";

/// The stop at which the focus is: null at the end of the screen, or back at the first.
const STOP: &str = r"
    const e = document.activeElement;
    // A sheet that scrolls is a stop of its own, at its end.
    if (!e || e.matches('html, body, dialog') || window.stops.includes(e)) return null;
    window.stops.push(e);
    const ringed = (one) => {
        if (!one) return false;
        const { outlineStyle, outlineWidth, opacity } = getComputedStyle(one);
        return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2 && opacity !== '0';
    };
    const up = e.parentElement;
    const visible = [e, e.nextElementSibling, up, up?.parentElement].some(ringed);
    return { visible, html: e.outerHTML.slice(0, 120) };
";

/// The outline of the screen in the order of the document, and where the stops do not follow it
/// or jump back for the eye. NAMES are the names of the stops.
const OUTLINE: &str = r"
    const names = NAMES;
    const root = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
    const tidy = (text) => (text ?? '').replace(/\s+/g, ' ').trim();
    const plain = (text) => tidy(text)
        .replace(/\b(\d{1,2} )?(January|February|March|April|May|June|July|August|September|October|November|December|Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sep|Sept|Oct|Nov|Dec)\b( \d{2,4})?/g, '#')
        .replace(/\b(Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day\b|\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun)\b/g, '#')
        .replace(/\d+([.,:]\d+)*/g, '#').slice(0, 90);
    const shown = (e) => e.checkVisibility({ visibilityProperty: true }) && !e.closest('[inert], template');
    const outline = [], faults = [];
    let last = -1;
    for (const e of [root, ...root.querySelectorAll('*')]) {
        if (!shown(e)) continue;
        const label = tidy(e.getAttribute('aria-label'));
        const nth = window.stops.indexOf(e);
        if (e.matches('main, nav, dialog')) outline.push(`- ${e.tagName.toLowerCase()}${label ? ` “${plain(label)}”` : ''}`);
        if (e.matches('h1, h2, h3, h4')) outline.push(`- ${e.tagName.toLowerCase()} “${plain(e.innerText)}”`);
        const live = e.getAttribute('aria-live') ?? { alert: 'assertive', status: 'polite' }[e.getAttribute('role')];
        if (live && live !== 'off') outline.push(`- live, ${live}`);
        if (nth < 0) continue;
        outline.push(`- ${nth + 1}. ${plain(names[nth])}`);
        if (nth !== last + 1) faults.push(`stop ${nth + 1}, ${names[nth]}, is not where the document has it`);
        last = nth;
    }
    const layer = (e) => {
        for (let up = e; up && up !== root; up = up.parentElement) if (/fixed|sticky/.test(getComputedStyle(up).position)) return up;
        return null;
    };
    window.stops.forEach((e, nth) => {
        const before = window.stops[nth - 1];
        if (!before || layer(before) !== layer(e)) return;
        const [a, b] = [before.getBoundingClientRect(), e.getBoundingClientRect()];
        if (b.bottom <= a.top + 2 && b.left < a.right - 2) faults.push(`${names[nth]} stands above ${names[nth - 1]}, and is reached after it`);
    });
    return { outline, faults };
";
