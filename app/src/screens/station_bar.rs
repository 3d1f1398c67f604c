//! The line of the job with where the pulp of a batch is now, for every screen of the batch.

use bleachfield_core::derive::Station;
use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    i18n::{t, t_with},
    state::app_state,
};

/// The stations as a list: done, present, ahead. Nothing for a batch that is not in the book or
/// was abandoned.
#[component]
pub fn StationBar(batch: Ulid) -> impl IntoView {
    let studio = app_state();
    let now = Memo::new(move |_| studio.book(|book| Station::of(book, book.batches.get(&batch)?)));
    (move || {
        let now = now.get()?;
        let stations = Station::ALL.iter().map(|station| station_view(*station, now));
        Some(view! {
            <div class="stations no-print">
                <ol aria-label=t!("station-all")>{stations.collect_view()}</ol>
            </div>
        })
    })
    .into_any()
}

fn station_view(station: Station, now: Station) -> impl IntoView {
    let key: &str = station.into();
    let name = t(&format!("station-{key}"));
    let class = match station.cmp(&now) {
        std::cmp::Ordering::Less => "done",
        std::cmp::Ordering::Equal => "now",
        std::cmp::Ordering::Greater => "ahead",
    };
    let current = (station == now).then_some("step");
    let spoken = (class == "done").then(|| t_with!("station-done", &[("name", &name)]));
    let spoken = spoken.unwrap_or_else(|| name.clone());
    view! {
        <li class=class aria-current=current>
            <span class="dot" aria-hidden="true"></span>
            <span class="name" aria-hidden="true">{name}</span>
            <span class="visually-hidden">{spoken}</span>
        </li>
    }
}
