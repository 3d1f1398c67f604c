//! Two photos under one correction: each is corrected by its own white, so that a colour looks
//! the same in both; side by side, or one over the other.

use leptos::prelude::*;
use ulid::Ulid;

use super::{
    chip::chip,
    corrected_photo::{CorrectedPhoto, is_comparable},
    figures::{by_lightness, plus_minus},
    timed_swatch::TimedSwatch,
};
use crate::{
    components::{Page, RadioGroup},
    i18n::{key, t, t_with},
    route::Route,
    state::AppState,
};

/// `/batch/ID/colour/compare?left=ENTRY&right=ENTRY`
pub fn page(studio: AppState, id: Ulid, asked: [Option<Ulid>; 2]) -> AnyView {
    let all =
        studio.book_now(|book| book.batches.get(&id).map(TimedSwatch::all_of)).unwrap_or_default();
    let all: Vec<TimedSwatch> = all.into_iter().filter(is_comparable).collect();
    let back = Route::Colour(id);
    if all.len() < 2 {
        return view! {
            <Page title=t!("swatch-compare-title") back>
                <p>{t!("swatch-compare-too_few")}</p>
            </Page>
        }
        .into_any();
    }
    let index = |id: Option<Ulid>| all.iter().position(|one| Some(one.swatch.entry) == id);
    let first = index(asked[0]).unwrap_or(0);
    let last = index(asked[1]).unwrap_or(all.len() - 1);
    let last = if last == first { usize::from(first == 0) } else { last };
    let chosen = [RwSignal::new(first), RwSignal::new(last)];
    let pair = Pair { all: StoredValue::new(all), chosen };
    let split = RwSignal::new(false);
    let divider = RwSignal::new(50.0);
    view! {
        <Page title=t!("swatch-compare-title") back>
            <div class="stack wide">
                <p class="small">{t!("swatch-compare-how")}</p>
                {pair.select(0)}
                {pair.select(1)}
                <RadioGroup label=t!("swatch-compare-view") quiet=true value=split
                    options=vec![(false, t!("swatch-compare-beside")), (true, t!("swatch-compare-split"))] />
                {move || if split.get() { pair.split(divider) } else { pair.beside() }}
                {move || pair.difference()}
            </div>
        </Page>
    }
    .into_any()
}

/// The two chosen swatches out of all that can be compared; copies share their signals.
#[derive(Clone, Copy)]
struct Pair {
    all: StoredValue<Vec<TimedSwatch>>,
    chosen: [RwSignal<usize>; 2],
}

impl Pair {
    fn swatch(self, side: usize) -> TimedSwatch {
        self.all.with_value(|all| all[self.chosen[side].get()].clone())
    }

    /// The list to choose one side from.
    fn select(self, side: usize) -> AnyView {
        let value = self.chosen[side];
        let label = [key!("swatch-compare-left"), key!("swatch-compare-right")][side];
        let id = ["compare-left", "compare-right"][side];
        let lines =
            self.all.with_value(|all| all.iter().map(TimedSwatch::short_line).collect::<Vec<_>>());
        let options = lines.into_iter().enumerate().map(|(nth, line)| {
            view! { <option value=nth.to_string() selected=move || value.get() == nth>{line}</option> }
        });
        view! {
            <div class="field">
                <label for=id>{t(label)}</label>
                <select id=id on:change=move |event| {
                    value.set(event_target_value(&event).parse().unwrap_or_default());
                }>{options.collect_view()}</select>
            </div>
        }
        .into_any()
    }

    fn photo(self, side: usize) -> impl Fn() -> AnyView + Copy {
        let filter_id = ["map-left", "map-right"][side];
        move || view! { <CorrectedPhoto swatch=self.swatch(side) filter_id /> }.into_any()
    }

    fn beside(self) -> AnyView {
        view! { <div class="beside"><div>{self.photo(0)}</div><div>{self.photo(1)}</div></div> }
            .into_any()
    }

    /// The right photo over the left one, from the divider on (percent of the width).
    fn split(self, divider: RwSignal<f64>) -> AnyView {
        let clip = move || format!("clip-path:inset(0 0 0 {:.0}%)", divider.get());
        view! {
            <div class="split">
                <div>{self.photo(0)}</div>
                <div class="over" style=clip>{self.photo(1)}</div>
                <i style=move || format!("left:{:.0}%", divider.get())></i>
            </div>
            <label class="field">
                <span class="label">{t!("swatch-compare-divide")}</span>
                <input type="range" min="0" max="100" prop:value=move || divider.get().to_string()
                    on:input=move |event| divider.set(event_target_value(&event).parse().unwrap_or(50.0)) />
            </label>
        }
        .into_any()
    }

    fn difference(self) -> AnyView {
        let [left, right] = [0, 1].map(|side| self.swatch(side).swatch);
        let found = left.difference_to(&right);
        let (change, difference) = (by_lightness(&found), plus_minus(found.delta_e00, 1));
        let text = t_with!(
            "swatch-compare-difference",
            &[("change", &change), ("difference", &difference)],
        );
        view! {
            <p class="row">
                {chip(left.reading.lab(), "swatch large")}
                {chip(right.reading.lab(), "swatch large")}
                <span class="grow">{text}</span>
            </p>
        }
        .into_any()
    }
}
