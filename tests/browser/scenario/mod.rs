//! The scenarios: each a short file, told as a person would do it.
//!
//! A new one is a file with `pub async fn play(phone: &mut Phone) -> Outcome`
//! and a line in [`ALL`].

mod after;
mod colour;
mod doings;
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
use crate::failure::Outcome;
use crate::phone::Phone;

pub type Play = for<'a> fn(&'a mut Phone) -> Pin<Box<dyn Future<Output = Outcome> + 'a>>;

pub struct Scenario {
    pub name: &'static str,
    pub play: Play,
    /// Run on the small phone as well.
    pub small_too: bool,
    /// Engines that cannot do it, each with the reason, which is printed.
    pub not_on: &'static [(Engine, &'static str)],
}

/// What `browser kills N` does N times.
pub const KILL: Scenario = Scenario {
    name: "killed right after saving, and all is there",
    play: |phone| Box::pin(kill::play(phone)),
    small_too: false,
    not_on: &[],
};

pub const ALL: &[Scenario] = &[
    Scenario {
        name: "five places, readable and without barriers",
        play: |phone| Box::pin(places::play(phone)),
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "colour measured, followed, aimed at, compared and aged",
        play: |phone| Box::pin(colour::play(phone)),
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "starts cold with the server stopped",
        play: |phone| Box::pin(offline::play(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "nothing leaves the origin",
        play: |phone| Box::pin(leaves_nothing::play(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "a new version waits and then takes over whole",
        play: |phone| Box::pin(update::play(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "from the wet lump to stored pulp, with a network and without",
        play: |phone| Box::pin(story::play(phone)),
        small_too: true,
        not_on: &[],
    },
    Scenario {
        name: "two phones exchange files and nothing is lost",
        play: |phone| Box::pin(two_phones::play(phone)),
        small_too: false,
        not_on: &[],
    },
    Scenario {
        name: "from the cook to the sheets, no acid before a zero test",
        play: |phone| Box::pin(after::play(phone)),
        small_too: false,
        not_on: &[],
    },
];
