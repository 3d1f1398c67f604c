//! The facts of compared batches as tables: those that differ, and, folded, those that do not.

use bleachfield_core::derive::{ComparedLine, FactValue};
use leptos::prelude::*;

use super::Compared;
use crate::{
    components::FigureTable,
    i18n::{format_number, format_value, t, t_count},
    screens::batches::entry::name_of,
};

pub fn view(compared: &[Compared], lines: &[ComparedLine]) -> AnyView {
    let (differing, equal): (Vec<&ComparedLine>, Vec<&ComparedLine>) =
        lines.iter().partition(|line| line.differs());
    let groups = differing.chunk_by(|one, other| one.fact.group() == other.fact.group());
    let groups = groups.map(|lines| {
        let heading = t(&format!("compare-group-{}", <&str>::from(lines[0].fact.group())));
        table(compared, lines, heading)
    });
    let none = differing.is_empty().then(|| view! { <p>{t!("compare-nothing_differs")}</p> });
    let folded = (!equal.is_empty()).then(|| {
        view! {
            <details class="more">
                <summary>{t_count!("compare-equal", equal.len())}</summary>
                <div class="inside">{table(compared, &equal, t!("compare-fact"))}</div>
            </details>
        }
    });
    view! {
        <section class="stack compare-lines">
            <h2>{t!("compare-differs")}</h2>
            {none}
            {groups.collect_view()}
            {folded}
        </section>
    }
    .into_any()
}

fn table(compared: &[Compared], lines: &[&ComparedLine], heading: String) -> AnyView {
    let letters = compared.iter().map(|one| one.letter.to_string());
    let heads = std::iter::once(heading).chain(letters).collect();
    let rows = lines.iter().map(|line| {
        let name = t(&format!("compare-fact-{}", line.fact.key()));
        let cells = line.values.iter().map(|value| value.as_ref().map_or_else(dash, text));
        (name, cells.collect())
    });
    view! { <FigureTable heads rows=rows.collect() /> }.into_any()
}

/// Not known.
fn dash() -> String {
    "–".to_owned()
}

fn text(value: &FactValue) -> String {
    match value {
        FactValue::Value(value) => format_value(value),
        FactValue::Oxidant(oxidant) => name_of("oxidant", *oxidant),
        FactValue::Alkali(alkali) => name_of("alkali", *alkali),
        FactValue::Antichlor(antichlor) => name_of("antichlor", *antichlor),
        FactValue::Proof(proof) => name_of("compare-proof", *proof),
        FactValue::Cost(cost) if cost.is_complete => format_number(cost.known, 3),
        FactValue::Cost(cost) => format!("≥ {}", format_number(cost.known, 3)),
    }
}
