//! The scenarios: each a short file, told as a person would do it.
//!
//! A new one is a file with `pub async fn run(phone: &mut Phone) -> TestResult`
//! and a line in [`ALL`].

mod after;
mod colour;
mod doings;
mod earlier_build;
mod kill;
mod leaves_nothing;
mod offline;
mod places;
mod story;
mod turned;
mod two_phones;
mod update;

use std::future::Future;
use std::pin::Pin;

use crate::engine::Engine;
use crate::error::TestResult;
use crate::phone::Phone;

pub type ScenarioFn = for<'a> fn(&'a mut Phone) -> Pin<Box<dyn Future<Output = TestResult> + 'a>>;

pub struct Scenario {
    pub name: &'static str,
    pub run: ScenarioFn,
    /// Run on the small phone as well.
    pub small_too: bool,
    /// Engines that cannot do it, each with the reason, which is printed.
    pub not_on: &'static [(Engine, &'static str)],
}

/// What `browser kills N` does N times.
pub const KILL: Scenario = Scenario {
    name: "killed right after saving, and all is there",
    run: |phone| Box::pin(kill::run(phone)),
    small_too: false,
    not_on: &[],
};

pub const ALL: &[Scenario] = &[
    Scenario {
        name: "five places, readable and without barriers",
        run: |phone| Box::pin(places::run(phone)),
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "colour measured, followed, aimed at, compared and aged",
        run: |phone| Box::pin(colour::run(phone)),
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "a database of an earlier build opens with nothing lost",
        play: |phone| Box::pin(earlier_build::play(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "starts cold with the server stopped",
        run: |phone| Box::pin(offline::run(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "nothing leaves the origin",
        run: |phone| Box::pin(leaves_nothing::run(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a new version waits and then takes over whole",
        run: |phone| Box::pin(update::run(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "from the wet lump to stored pulp, with a network and without",
        run: |phone| Box::pin(story::run(phone)),
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "two phones exchange files and nothing is lost",
        run: |phone| Box::pin(two_phones::run(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "from the cook to the sheets, no acid before a zero test",
        run: |phone| Box::pin(after::run(phone)),
        small_too: false,
        not_on: &[],
    },
];
