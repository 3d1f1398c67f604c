//! A person at the sink with a phone: what it costs them in taps, characters, scrolling and
//! time.
//!
//! The pauses are those of the keystroke-level model (Card, Moran and Newell, "The
//! Psychology of Human-Computer Interaction", 1983; figures from memory): 1.35 s to think and
//! 1.1 s to reach before each tap, 0.28 s for each character.

use std::fmt;
use std::time::{Duration, Instant};

use fantoccini::elements::Element;
use serde_json::json;
use tokio::time::sleep;

use crate::error::{TestFailure, TestResult};
use crate::phone::Phone;
use crate::scenario::steps::HOLD;

const THINK: Duration = Duration::from_millis(1350);
const REACH: Duration = Duration::from_millis(1100);
const KEY: Duration = Duration::from_millis(280);

pub struct Person<'a> {
    phone: &'a Phone,
    began: Instant,
    taps: usize,
    characters: usize,
    /// CSS pixels.
    scrolled: f64,
}

/// What a job has cost.
pub struct Effort {
    pub taps: usize,
    pub characters: usize,
    /// Heights of the screen.
    pub screens: f64,
    pub seconds: f64,
}

impl<'a> Person<'a> {
    /// Begins to count.
    pub fn at(phone: &'a Phone) -> Self {
        Self { phone, began: Instant::now(), taps: 0, characters: 0, scrolled: 0.0 }
    }

    /// Taps what is called `name`, scrolled to first if it is out of sight.
    pub async fn tap(&mut self, name: &str) -> TestResult {
        let target = self.phone.find_still("press", name).await?;
        if self.reach(target).await.is_err() {
            // The page has replaced it meanwhile.
            let target = self.phone.find_still("press", name).await?;
            self.reach(target).await?;
        }
        Ok(())
    }

    /// Taps all that a CSS selector matches, one after the other, until it matches nothing.
    pub async fn tap_all(&mut self, selector: &str) -> TestResult {
        let left = format!("return !!document.querySelector('{selector}')");
        while self.phone.execute(&left).await? == true {
            let target = self.phone.find_still("any", selector).await?;
            self.reach(target).await?;
        }
        Ok(())
    }

    /// Presses what is called `name` as long as a finger does: the Sink takes shorter touches for
    /// drops of water.
    pub async fn press(&mut self, name: &str) -> TestResult {
        sleep(THINK + REACH).await;
        self.taps += 1;
        self.phone.press(name).await
    }

    /// Holds what is called `name`.
    pub async fn hold(&mut self, name: &str) -> TestResult {
        sleep(THINK + REACH).await;
        self.taps += 1;
        self.phone.press_for(name, HOLD).await
    }

    /// Types into the field called `name`.
    pub async fn fill(&mut self, name: &str, text: &str) -> TestResult {
        let field = self.phone.find_still("field", name).await?;
        self.reach(field.clone()).await?;
        field.clear().await?;
        sleep(KEY * text.chars().count() as u32).await;
        field.send_keys(text).await?;
        self.characters += text.chars().count();
        Ok(())
    }

    /// Reads `words`, scrolled to if they are out of sight.
    pub async fn read(&mut self, words: &str) -> TestResult {
        self.phone.wait_for_text(words).await?;
        sleep(THINK).await;
        let by = self.phone.client()?.execute(SCROLL_TO_WORDS, vec![json!(words)]).await?;
        self.scrolled += by.as_f64().ok_or_else(|| {
            TestFailure::new(format!("“{words}” stands in no single place of the screen"))
        })?;
        Ok(())
    }

    /// What it has cost so far.
    pub async fn effort(&self) -> TestResult<Effort> {
        let height = self.phone.execute("return innerHeight").await?.as_f64().unwrap_or(f64::NAN);
        Ok(Effort {
            taps: self.taps,
            characters: self.characters,
            screens: self.scrolled / height,
            seconds: self.began.elapsed().as_secs_f64(),
        })
    }

    async fn reach(&mut self, target: Element) -> TestResult {
        sleep(THINK).await;
        let element = serde_json::to_value(&target)
            .map_err(|error| TestFailure::new(format!("an element: {error}")))?;
        let by = self.phone.client()?.execute(SCROLL_TO, vec![element]).await?;
        self.scrolled += by.as_f64().unwrap_or_default();
        sleep(REACH).await;
        target.click().await?;
        self.taps += 1;
        Ok(())
    }
}

impl fmt::Display for Effort {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { taps, characters, screens, seconds } = self;
        write!(f, "{taps:>6} {characters:>11} {screens:>9.1} {seconds:>8.0}")
    }
}

/// Scrolls to an element if it is out of sight or covered; returns by how many pixels.
const SCROLL_TO: &str = "
    const [element] = arguments;
    const at = () => scrollY + (document.querySelector('dialog[open]')?.scrollTop ?? 0);
    const { left, top, width, height, bottom } = element.getBoundingClientRect();
    const hit = document.elementFromPoint(left + width / 2, top + height / 2);
    const seen = top >= 0 && bottom <= innerHeight && hit
        && (element.contains(hit) || hit.contains(element) || hit.closest('label') === element
            || element.labels && [...element.labels].includes(hit.closest('label')));
    if (seen) return 0;
    const before = at();
    element.scrollIntoView({ block: 'center', behavior: 'instant' });
    return Math.abs(at() - before);";

/// As [`SCROLL_TO`], of the smallest element that holds the words.
const SCROLL_TO_WORDS: &str = "
    const tidy = (text) => (text || '').replace(/\\s+/g, ' ').trim();
    const words = tidy(arguments[0]);
    const holds = (element) => tidy(element.innerText).includes(words)
        && element.getClientRects().length > 0;
    const root = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
    const all = [...root.querySelectorAll('*')].filter(holds);
    const seen = (element) => {
        const { left, top, width, height, bottom } = element.getBoundingClientRect();
        const hit = document.elementFromPoint(left + width / 2, top + height / 2);
        return top >= 0 && bottom <= innerHeight && hit
            && (element.contains(hit) || hit.contains(element));
    };
    const smallest = all.filter((one) => ![...one.children].some(holds));
    if (smallest.length === 0) return null;
    if (smallest.some(seen)) return 0;
    const at = () => scrollY + (document.querySelector('dialog[open]')?.scrollTop ?? 0);
    const before = at();
    smallest[0].scrollIntoView({ block: 'center', behavior: 'instant' });
    return Math.abs(at() - before);";
