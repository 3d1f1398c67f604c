//! The sums before and after the bath: what each asks, and what it answers.
//!
//! The forms of a batch's page show them above what they write down; Mix opens
//! them without a batch, at `/mix/wash` and the like.

mod antichlor;
mod cook;
mod page;
mod sheets;
mod wash;

pub use antichlor::AntichlorSum;
pub use cook::CookSum;
pub use page::SumPage;
pub use sheets::SheetsSum;
pub use wash::WashSum;

use bleachfield_core::{
    message::{Message, Value},
    quantity::{Basis, Estimate, Mass, Volume, in_grams, in_millilitres, millilitres},
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, Figure, NumberField, NumberInput},
    i18n::{format_number, format_value, render, t, t_with},
};

/// A number that the book filled in. It keeps its range and basis while its text stands
/// as it was filled in. Copied freely.
#[derive(Clone, Copy)]
pub struct Recorded<T: Copy + Send + Sync + 'static> {
    pub ask: NumberInput,
    filled: StoredValue<Option<(String, T)>>,
}

impl<T: Copy + Send + Sync + 'static> Recorded<T> {
    /// `ask` with the recorded value filled in as the number that `shown` gives.
    pub fn new(ask: NumberInput, recorded: Option<T>, shown: impl Fn(T) -> f64) -> Self {
        let filled = recorded.map(|value| (format_number(shown(value), 3), value));
        let text = filled.as_ref().map(|(text, _)| text.clone()).unwrap_or_default();
        Self { ask: ask.filled(text), filled: StoredValue::new(filled) }
    }

    /// The value as recorded, or as `typed` makes it of what was typed since, in the base
    /// unit of its kind. Follows the text.
    pub fn get(self, typed: impl Fn(f64) -> T) -> Option<T> {
        let text = self.ask.text.get();
        let unchanged = |(filled, value): &(String, T)| (*filled == text).then_some(*value);
        self.filled
            .with_value(|filled| filled.as_ref().and_then(unchanged))
            .or_else(|| self.ask.base().map(typed))
    }
}

/// The fields for these questions; a refusal stands beside the one it is about.
pub fn fields(asks: &[NumberInput], refused: Signal<Option<Message>>) -> AnyView {
    asks.iter().map(|ask| view! { <NumberField ask=*ask refused /> }).collect_view().into_any()
}

/// What to know, a line each.
pub fn remarks(list: &[Message]) -> AnyView {
    list.iter().map(|remark| view! { <p>{render(remark)}</p> }).collect_view().into_any()
}

/// Why there is no answer.
pub fn refusal(why: &Message) -> AnyView {
    view! { <p class="caution care" role="alert">{render(why)}</p> }.into_any()
}

/// A kitchen's scale shows a gram, a letter scale a tenth: under half a gram neither
/// tells much, and what is under a milligram is less than a drop of the solution that
/// stands in for weighing (common practice, no source). Grams.
const FEW_SCALES_SHOW: f64 = 0.5;
const NO_SCALE_SHOWS: f64 = 0.001;

/// Whether a mass is less than any scale shows.
pub fn too_little(mass: Estimate<Mass>) -> bool {
    in_grams(mass.value) < NO_SCALE_SHOWS
}

/// A mass to weigh out, with its range; where a scale shows so little, how to measure
/// it out all the same.
pub fn weigh_out(name: String, mass: Estimate<Mass>) -> AnyView {
    let range = range(mass.low < mass.high, Value::Mass(mass.low), Value::Mass(mass.high));
    let assumed = mass.basis == Basis::Assumed;
    let grams = in_grams(mass.value);
    if too_little(mass) {
        let unit = "g".to_owned();
        return view! {
            <Figure name number=format!("< {}", format_number(NO_SCALE_SHOWS, 1)) unit />
            <p>{t!("weigh-too_little")}</p>
        }
        .into_any();
    }
    // A gram in a litre: as many litres as there are grams to be had.
    let by_solution = (grams < FEW_SCALES_SHOW).then(|| {
        let volume = format_value(&Value::Volume(millilitres(grams * 1000.0)));
        t_with!("weigh-by_solution", &[("volume", &volume)])
    });
    view! {
        <Figure name number=format_number(grams, 3) unit="g".to_owned() range />
        {by_solution.map(|text| view! { <p>{text}</p> })}
        {assumed.then(|| view! { <p><Assumed />" "{t!("plan-assumed_why")}</p> })}
    }
    .into_any()
}

/// A volume to pour, with its range.
pub fn pour_out(name: String, volume: Estimate<Volume>) -> AnyView {
    let range =
        range(volume.low < volume.high, Value::Volume(volume.low), Value::Volume(volume.high));
    let millilitres = in_millilitres(volume.value);
    let (value, unit) =
        if millilitres >= 1000.0 { (millilitres / 1000.0, "L") } else { (millilitres, "mL") };
    view! { <Figure name number=format_number(value, 3) unit=unit.to_owned() range /> }.into_any()
}

/// "3 g to 5 g", or nothing where there is no range.
pub fn range(is: bool, low: Value, high: Value) -> String {
    let (low, high) = (format_value(&low), format_value(&high));
    if is { t_with!("figure_range", &[("low", &low), ("high", &high)]) } else { String::new() }
}

/// A table: its headings, and its rows of cells. The last cell of a row that has
/// fewer than there are headings holds words, and takes the rest of the row.
pub fn table(heads: Vec<String>, rows: Vec<Vec<String>>) -> AnyView {
    let columns = heads.len();
    let heads = heads.into_iter().map(|head| view! { <th scope="col">{head}</th> }).collect_view();
    let rows = rows
        .into_iter()
        .map(|row| {
            let (last, rest) = (row.len().saturating_sub(1), columns.saturating_sub(row.len()));
            let cells = row.into_iter().enumerate().map(|(nth, cell)| {
                if nth == 0 {
                    return view! { <th scope="row">{cell}</th> }.into_any();
                }
                let takes = (nth == last && rest > 0).then_some(rest + 1);
                view! { <td colspan=takes class:words=takes.is_some()>{cell}</td> }.into_any()
            });
            let cells = cells.collect_view();
            view! { <tr>{cells}</tr> }
        })
        .collect_view();
    view! {
        <table class="loads"><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>
    }
    .into_any()
}
