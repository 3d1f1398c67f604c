//! The amounts of a station as a table, and what goes into each pot.

use bleachfield_core::{
    class_sheet::{ClassItem, ClassSheet, Portion, PotFor},
    message::Value,
    quantity::{in_grams, in_millilitres},
};
use leptos::prelude::*;

use crate::{
    i18n::{
        format_number, format_value, mass_text, solution_text, t, t_count, t_with, volume_text,
    },
    screens::plan::{answer, load_line},
};

/// Who has an amount, in the order of the columns.
fn columns(sheet: &ClassSheet) -> Vec<(PotFor, String)> {
    let person = [(PotFor::Person, t!("class-one_person"))];
    let table =
        |size: &u32| (PotFor::Table, t_with!("class-table_of", &[("people", &size.to_string())]));
    // One table is all.
    let tables: Vec<_> = if sheet.tables.len() > 1 {
        sheet.table_sizes.iter().map(table).collect()
    } else {
        Vec::new()
    };
    person.into_iter().chain(tables).chain([(PotFor::Class, t!("class-all"))]).collect()
}

/// The amounts at a station; what is measured is set bold.
pub fn amounts(sheet: &ClassSheet, portions: &[Portion]) -> Option<AnyView> {
    if portions.is_empty() {
        return None;
    }
    let columns = columns(sheet);
    let heads = columns.iter().map(|(_, name)| view! { <th scope="col">{name.clone()}</th> });
    let heads = heads.collect_view();
    let rows = portions.iter().map(|portion| {
        let numbers = [portion.share.person].into_iter();
        let tables = if sheet.tables.len() > 1 { &portion.share.tables[..] } else { &[] };
        let numbers = numbers.chain(tables.iter().copied()).chain([portion.share.all]);
        let cells = numbers.zip(&columns).map(|(number, (whose, _))| {
            let measured = *whose == portion.measured
                || (portion.measured == PotFor::Table
                    && sheet.tables.len() == 1
                    && *whose == PotFor::Class);
            let text = amount(portion.item, number, measured);
            view! { <td class:measured=measured>{text}</td> }
        });
        let cells = cells.collect_view();
        view! { <tr><th scope="row">{name(portion.item)}</th>{cells}</tr> }
    });
    let rows = rows.collect_view();
    Some(
        view! {
            <table class="class-amounts">
                <thead><tr><td></td>{heads}</tr></thead>
                <tbody>{rows}</tbody>
            </table>
        }
        .into_any(),
    )
}

fn name(item: ClassItem) -> String {
    t(&format!("class-item-{}", <&str>::from(item)))
}

/// A measured amount to what a scale or jug shows, another to three figures. Of pieces that are
/// shared, a part.
fn amount(item: ClassItem, number: f64, measured: bool) -> String {
    if item.is_count() {
        return if number.fract() == 0.0 {
            format_value(&item.value(number))
        } else {
            format_number(number, 2)
        };
    }
    match item.value(number) {
        Value::Mass(mass) if measured => mass_text(in_grams(mass)),
        Value::Volume(volume) if measured => volume_text(in_millilitres(volume)),
        other => format_value(&other),
    }
}

/// What goes into the pots, a line for each number of people that share one.
pub fn recipes(sheet: &ClassSheet) -> Option<AnyView> {
    let bath = sheet.bath.as_ref()?;
    let lines = bath.all.iter().map(|one| {
        let whose = match one.people {
            1 if sheet.tables.iter().sum::<u32>() > 1 => t!("class-each_person"),
            people if sheet.table_sizes.contains(&people) && sheet.tables.len() > 1 => {
                t_with!("class-each_table", &[("people", &people.to_string())])
            }
            people => t_count!("class-for_people", people as usize),
        };
        let ph = one.plan.ph.ok().map(|predicted| predicted.ph_at_25.value);
        let pulp = mass_text(in_grams(one.measure.pulp));
        let what = match load_line(&one.measure) {
            Some(loads) => {
                let at = one.measure.water_at.ok();
                let at = at.map(|at| format_value(&Value::Celsius(at.get().round())));
                let at = at.map(|at| t_with!("class-water_at", &[("temperature", &at)]));
                format!("{whose}: {loads} {}", at.unwrap_or_default())
            }
            None => {
                let rest = answer(&one.record, ph);
                t_with!("class-recipe", &[("whose", &whose), ("pulp", &pulp), ("rest", &rest)])
            }
        };
        let dose =
            if one.measure.loads > 1 { one.measure.each.dose } else { one.measure.whole.dose };
        let more = solution_text(&dose).map(|line| format!(" {line}"));
        view! { <p><strong>{what}</strong>{more}</p> }
    });
    Some(lines.collect_view().into_any())
}
