//! The sheet: who and when, the times of each table, and the stations. Made to be printed on one
//! page of A4 or Letter.

use bleachfield_core::{
    caution::{Caution, Severity},
    class_sheet::{ClassRequest, ClassSchedule, ClassSheet, ClassStation, Pace, ScheduledStation},
    derive::Station,
    message::Value,
    quantity::in_grams,
};
use leptos::prelude::*;

use super::amounts::{amounts, recipes};
use crate::{
    components::icon,
    i18n::{format_value, key, mass_text, render, t, t_count, t_with},
};

#[component]
pub fn Sheet(
    /// Of the batch; may be empty.
    name: String,
    request: ClassRequest,
    sheet: ClassSheet,
    /// Size of the paper that is made.
    format: String,
) -> impl IntoView {
    let title = if name.is_empty() {
        t!("class-title")
    } else {
        t_with!("class-title_of", &[("batch", &name)])
    };
    let stations = sheet.stations.iter().zip(&sheet.schedule.stations).enumerate();
    let stations =
        stations.map(|(nth, (one, at))| station(nth, one, at, &request, &sheet, &format));
    let stations = stations.collect_view();
    view! {
        <article class="class-sheet">
            <header>
                <h2>{title}</h2>
                <p>{who(&sheet)}</p>
                <p>{t!("class-everyone")}</p>
            </header>
            {short(&sheet)}
            {times(&sheet)}
            {sheet.schedule.pace.map(|pace| pace_line(pace, &sheet.schedule))}
            <div class="class-columns">{stations}</div>
            <p class="small">
                {t!("class-measured")}" "
                {sheet.label_first.as_ref().map(|caution| render(&caution.message))}
            </p>
        </article>
    }
}

/// "12 people at 3 tables, 9:00 to 14:30. 300 g dry pulp (1.5 kg wet)."
fn who(sheet: &ClassSheet) -> String {
    let people: u32 = sheet.tables.iter().sum();
    let begins = sheet.schedule.stations.first().map_or(0.0, |one| one.begins[0]);
    t_with!(
        "class-who",
        &[
            ("people", &t_count!("class-people", people as usize)),
            ("tables", &t_count!("class-tables", sheet.tables.len())),
            ("from", &time(begins)),
            ("to", &time(sheet.schedule.ends)),
            ("dry", &format_value(&Value::Mass(sheet.dry_fibre))),
            ("wet", &mass_text(in_grams(sheet.wet_pulp))),
        ]
    )
}

fn short(sheet: &ClassSheet) -> Option<AnyView> {
    let missing = format_value(&Value::Mass(sheet.short?));
    let text = t_with!("class-short", &[("missing", &missing)]);
    Some(view! { <p class="caution care" role="status">{text}</p> }.into_any())
}

/// A time of day, minutes after midnight.
fn time(minutes: f64) -> String {
    let minutes = minutes.round() as u32;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

fn station_name(station: Station) -> String {
    t(&format!("station-{}", <&str>::from(station)))
}

/// The times: a row for each table, a column for each station.
fn times(sheet: &ClassSheet) -> AnyView {
    let ClassSchedule { stations, .. } = &sheet.schedule;
    let heads =
        stations.iter().map(|one| view! { <th scope="col">{station_name(one.station)}</th> });
    let heads = heads.collect_view();
    let rows = sheet.tables.iter().enumerate().map(|(nth, people)| {
        let name = t_with!(
            "class-table_n",
            &[("n", &(nth + 1).to_string()), ("people", &people.to_string())]
        );
        let cells = stations.iter().map(|one| view! { <td>{time(one.begins[nth])}</td> });
        let cells = cells.collect_view();
        let end = stations.last().map_or(0.0, |one| one.begins[nth] + one.minutes);
        view! { <tr><th scope="row">{name}</th>{cells}<td>{time(end)}</td></tr> }
    });
    let rows = rows.collect_view();
    view! {
        <table class="class-schedule">
            <caption class="visually-hidden">{t!("class-schedule")}</caption>
            <thead><tr><td></td>{heads}<th scope="col">{t!("class-end")}</th></tr></thead>
            <tbody>{rows}</tbody>
        </table>
    }
    .into_any()
}

/// Which station makes the tables wait for each other, for the teacher alone.
fn pace_line(pace: Pace, schedule: &ClassSchedule) -> AnyView {
    let gap = format_value(&Value::Minutes(schedule.gap));
    let values = [
        ("station", station_name(pace.station)),
        ("gap", gap),
        ("more", (pace.places + 1).to_string()),
        ("end", time(pace.ends_with_one_more)),
    ];
    let values: Vec<(&str, &str)> = values.iter().map(|(name, text)| (*name, &**text)).collect();
    let key = if pace.ends_with_one_more < schedule.ends {
        key!("class-pace")
    } else {
        key!("class-pace_only")
    };
    view! { <p class="small no-print">{t_with(key, &values)}</p> }.into_any()
}

fn station(
    nth: usize,
    one: &ClassStation,
    at: &ScheduledStation,
    request: &ClassRequest,
    sheet: &ClassSheet,
    format: &str,
) -> AnyView {
    let name = format!("{}. {}", nth + 1, station_name(one.station));
    let minutes = format_value(&Value::Minutes(at.minutes));
    let whose = if at.together { format!("{minutes}, {}", t!("class-together")) } else { minutes };
    let id: &str = one.station.into();
    let needs = t(&format!("class-needs-{id}"));
    let first = sheet.bath.as_ref().and_then(|bath| bath.all.first());
    let bath = first.filter(|_| one.station == Station::Bath);
    // In which order it goes in is the plan's.
    let does = match bath {
        Some(bath) if bath.measure.pulp_first => t!("class-does-bath_pulp_first"),
        _ => t(&format!("class-does-{id}")),
    };
    let bath = bath.map(|bath| {
        let minutes = |minutes: f64| format_value(&Value::Minutes(minutes));
        let stop = t_with!("class-stop", &[("minutes", &minutes(bath.record.minutes))]);
        let stir = bath.record.schedule.stir_every_min;
        let stir = stir.map(|every| t_with!("class-stir", &[("minutes", &minutes(every))]));
        view! { {recipes(sheet)}<p>{stop}" "{stir}</p> }
    });
    let papers = (one.station == Station::Sheets && request.sheets_each > 0).then(|| {
        let text = t_with!(
            "class-papers",
            &[("count", &request.sheets_each.to_string()), ("format", format)]
        );
        view! { <p>{text}</p> }
    });
    view! {
        <section class="class-station">
            <h3>{name}<span class="class-time">{whose}</span></h3>
            <p>{does}</p>
            {bath}
            {amounts(sheet, &one.portions)}
            {one.remarks.iter().map(|remark| view! { <p>{render(remark)}</p> }).collect_view()}
            {papers}
            <p><strong>{t!("class-on_table")}</strong>" "{needs}</p>
            {one.cautions.iter().map(caution).collect_view()}
        </section>
    }
    .into_any()
}

/// A caution in the room that a printed page has: severity, heading, all of its words.
fn caution(caution: &Caution) -> AnyView {
    let (class, severity) = match caution.severity {
        Severity::Note => ("class-caution note", None),
        Severity::Care => ("class-caution care", Some(key!("caution-severity-care"))),
        Severity::Danger => ("class-caution danger", Some(key!("caution-severity-danger"))),
    };
    let title = t(&caution.id.title());
    let head =
        severity.map_or_else(|| title.clone(), |severity| format!("{}: {title}", t(severity)));
    let danger = caution.severity == Severity::Danger;
    view! {
        <p class=class role="note">
            {danger.then(|| view! { <icon::Hand /> })}
            <span><strong>{head}"."</strong>" "{render(&caution.message)}</span>
        </p>
    }
    .into_any()
}
