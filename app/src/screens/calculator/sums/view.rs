//! Views that the sums share: fields, answers, amounts, tables.

use bleachfield_core::{
    message::{Message, Value},
    quantity::{
        BY_SOLUTION_BELOW, Basis, Estimate, LEAST_DOSE, Mass, Volume, in_grams, in_millilitres,
        millilitres,
    },
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, Fact, Figure, NumberField, NumberInput},
    i18n::{format_number, format_value, render, t, t_with},
};

/// The fields of these inputs; a refusal is shown beside the field it names.
pub fn fields(inputs: &[NumberInput], refused: Signal<Option<Message>>) -> AnyView {
    let field = |input: &NumberInput| view! { <NumberField ask=*input refused /> };
    inputs.iter().map(field).collect_view().into_any()
}

/// The answer of a form: text `waiting` while it is incomplete, the refusal, or the answer's view.
pub fn answer_view<T>(
    answer: Option<Result<T, Message>>,
    waiting: &'static str,
    view: impl FnOnce(&T) -> AnyView,
) -> AnyView {
    match answer {
        None => view! { <p class="soft">{t(waiting)}</p> }.into_any(),
        Some(Err(why)) => refusal(&why),
        Some(Ok(answer)) => view(&answer),
    }
}

/// Rows of a fact list: message key of the name, and value.
pub fn fact_rows<const N: usize>(facts: [(&str, String); N]) -> AnyView {
    facts.map(|(name, value)| view! { <Fact name=t(name) value /> }).collect_view().into_any()
}

/// A section that is folded at first.
pub fn folded(head: String, inside: impl IntoView) -> AnyView {
    view! {
        <details class="more">
            <summary>{head}</summary>
            <div class="inside stack">{inside}</div>
        </details>
    }
    .into_any()
}

/// Remarks, a paragraph each.
pub fn remarks(list: &[Message]) -> AnyView {
    list.iter().map(|remark| view! { <p>{render(remark)}</p> }).collect_view().into_any()
}

/// Why there is no answer.
pub fn refusal(why: &Message) -> AnyView {
    view! { <p class="caution care" role="alert">{render(why)}</p> }.into_any()
}

/// Whether a mass is too small to be measured out.
pub fn too_little(mass: Estimate<Mass>) -> bool {
    in_grams(mass.value) < LEAST_DOSE
}

/// A mass to weigh out, with its range; for a small mass also the volume of a solution.
pub fn weigh_out(name: String, mass: Estimate<Mass>) -> AnyView {
    let grams = in_grams(mass.value);
    if too_little(mass) {
        let unit = "g".to_owned();
        return view! {
            <Figure name number=format!("< {}", format_number(LEAST_DOSE, 1)) unit />
            <p>{t!("weigh-too_little")}</p>
        }
        .into_any();
    }
    // A solution of 1 g/L.
    let by_solution = (grams < BY_SOLUTION_BELOW).then(|| {
        let volume = format_value(&Value::Volume(millilitres(grams * 1000.0)));
        t_with!("weigh-by_solution", &[("volume", &volume)])
    });
    view! {
        <Figure name number=format_number(grams, 3) unit="g".to_owned()
            range=range(mass.low, mass.high, Value::Mass) />
        {by_solution.map(|text| view! { <p>{text}</p> })}
        {(mass.basis == Basis::Assumed).then(|| view! { <p><Assumed />" "{t!("plan-assumed_why")}</p> })}
    }
    .into_any()
}

/// A volume to pour, with its range.
pub fn pour_out(name: String, volume: Estimate<Volume>) -> AnyView {
    let (number, unit) = number_and_unit(volume.value, 3);
    view! { <Figure name number unit range=range(volume.low, volume.high, Value::Volume) /> }
        .into_any()
}

/// A volume in litres from 1 L on, else in millilitres: number and unit.
pub fn number_and_unit(volume: Volume, figures: i32) -> (String, String) {
    let ml = in_millilitres(volume);
    let (value, unit) = if ml >= 1000.0 { (ml / 1000.0, "L") } else { (ml, "mL") };
    (format_number(value, figures), unit.to_owned())
}

/// "3 g to 5 g"; empty where there is no range.
pub fn range<T: PartialOrd>(low: T, high: T, value: impl Fn(T) -> Value) -> String {
    if low < high {
        let (low, high) = (format_value(&value(low)), format_value(&value(high)));
        t_with!("figure_range", &[("low", &low), ("high", &high)])
    } else {
        String::new()
    }
}

/// A table of headings and rows of cells. A short row's last cell is text and spans the columns
/// that are left.
pub fn table(heads: impl IntoIterator<Item = String>, rows: Vec<Vec<String>>) -> AnyView {
    let heads: Vec<String> = heads.into_iter().collect();
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
                let span = (nth == last && rest > 0).then_some(rest + 1);
                view! { <td colspan=span class:words=span.is_some()>{cell}</td> }.into_any()
            });
            view! { <tr>{cells.collect_view()}</tr> }
        })
        .collect_view();
    view! {
        <table class="loads"><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>
    }
    .into_any()
}
