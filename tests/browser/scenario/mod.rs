//! The scenarios, each a file that drives the app as a person would.
//!
//! A new one is a file with `pub async fn run(phone: &mut Phone) -> TestResult`
//! and a line in [`ALL`].

mod announced;
mod bad_side;
mod book;
mod class_sheet;
mod colour;
mod demo;
mod earlier_book;
mod exchange;
mod finishing;
mod first_plan;
mod focus;
mod forecast;
mod install;
mod kept_plan;
mod kill;
mod learning;
mod mix;
mod offline;
mod orientation;
mod places;
mod same_origin;
mod sink;
pub mod steps;
mod stopped;
mod story;
mod subpath;
mod teach;
pub mod trial;
mod unfinished;
mod unreadable;
mod untested;
mod update;
mod ways;

use std::future::Future;
use std::pin::Pin;

use crate::all_looks;
use crate::engine::Engine;
use crate::error::TestResult;
use crate::phone::Phone;

pub type ScenarioFn = for<'a> fn(&'a mut Phone) -> Pin<Box<dyn Future<Output = TestResult> + 'a>>;

pub struct Scenario {
    pub name: &'static str,
    pub run: ScenarioFn,
    /// Where it runs on every change.
    pub engines: Engines,
    /// Whether it runs on the small phone as well on every change, in Chromium.
    pub small_too: bool,
    /// Engines that cannot run it, each with the reason.
    pub not_on: &'static [(Engine, &'static str)],
}

/// Where a scenario runs on every change; each runs in an engine that `--engine` names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engines {
    /// What an engine may do in its own way: storage, service worker, files, pictures, focus,
    /// touches.
    Each,
    /// What the core computes and the document shows alike: the time of CI is not endless.
    Chromium,
}

/// The scenario of `browser kills N`.
pub const KILL: Scenario = Scenario {
    name: "killed right after saving, and all is there",
    run: |phone| Box::pin(kill::run(phone)),
    engines: Engines::Each,
    small_too: false,
    not_on: &[],
};

pub const ALL: &[Scenario] = &[
    Scenario {
        name: "five places, readable and without barriers",
        run: |phone| Box::pin(places::run(phone)),
        engines: Engines::Each,
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "every screen, without barriers, and nothing cut off or covered",
        run: |phone| Box::pin(all_looks::check(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "quick sums: tiles, an answer in sight, nothing typed is lost",
        run: |phone| Box::pin(mix::run(phone)),
        engines: Engines::Chromium,
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "a book of an earlier build opens with nothing lost",
        run: |phone| Box::pin(earlier_book::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a field keeps its cursor while choices and results change",
        run: |phone| Box::pin(focus::in_forms(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a field keeps its cursor while the clock ticks and another tab writes",
        run: |phone| Box::pin(focus::in_sheets(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a half-filled form is there again, and units are chosen by a tap",
        run: |phone| Box::pin(unfinished::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "what is wrong, unknown or extreme is refused or made safe",
        run: |phone| Box::pin(bad_side::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a kept plan is what starts, and what changed since is said",
        run: |phone| Box::pin(kept_plan::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a first plan in few presses, the answer always in sight",
        run: |phone| Box::pin(first_plan::run(phone)),
        engines: Engines::Chromium,
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "the book is searched, batches are set side by side, a plan is made again",
        run: |phone| Box::pin(book::run(phone)),
        engines: Engines::Chromium,
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "a class sheet: amounts and times for a workshop, on one page",
        run: |phone| Box::pin(class_sheet::run(phone)),
        engines: Engines::Chromium,
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "answers, errors, cues and saves are announced, and the clock is not",
        run: |phone| Box::pin(announced::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "colour measured, followed, aimed at, compared and aged",
        run: |phone| Box::pin(colour::run(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "the phone is taught by a chart, and measures by it",
        run: |phone| Box::pin(teach::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "the demo studio is a place of its own",
        run: |phone| Box::pin(demo::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[(
            Engine::WebKit,
            "its process crashed here twice in one run of CI, cause not found",
        )],
    },
    Scenario {
        name: "starts cold with the server stopped",
        run: |phone| Box::pin(offline::run(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "works from any folder of a plain host",
        run: |phone| Box::pin(subpath::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "put on the home screen, offered once",
        run: |phone| Box::pin(install::run(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "nothing leaves the origin",
        run: |phone| Box::pin(same_origin::run(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a new version waits and then takes over whole",
        run: |phone| Box::pin(update::run(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "from the wet pulp to stored pulp, with a network and without",
        run: |phone| Box::pin(story::run(phone)),
        engines: Engines::Each,
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "baths at the Sink: one fills the screen, several are rows, a stop is held",
        run: |phone| Box::pin(sink::run(phone)),
        engines: Engines::Each,
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "forecast of a bath: wide at first, narrowed by readings, with one advice",
        run: |phone| Box::pin(forecast::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "learning: a second bath is forecast narrower, and what it rests on is listed",
        run: |phone| Box::pin(learning::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "stopped by a fault, the clock and the way to stop are there",
        run: |phone| Box::pin(stopped::run(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "what cannot be read is counted, exported and kept",
        run: |phone| Box::pin(unreadable::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "two phones exchange files and nothing is lost",
        run: |phone| Box::pin(exchange::run(phone)),
        engines: Engines::Each,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "from the cook to the sheets, no acid before a zero test",
        run: |phone| Box::pin(finishing::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a ladder trial of six pots, from set-up to scale-up, without a network",
        run: |phone| Box::pin(trial::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "from a target colour to a plan, one stage and two",
        run: |phone| Box::pin(ways::run(phone)),
        engines: Engines::Chromium,
        small_too: false,
        not_on: &[],
    },
];
