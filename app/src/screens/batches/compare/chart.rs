//! Readings of compared batches over their time in bleach: one curve each, with its letter.

use bleachfield_core::derive::{RunOfBatch, RunQuantity};
use leptos::prelude::*;

use super::Compared;
use crate::{
    components::FigureTable,
    i18n::{t, t_with},
    platform::clock,
    screens::batches::run_chart::{self, RunCurve},
};

/// Curves are told apart by these, and by a letter at their ends.
const DASHES: [&str; 4] = ["", "7 3", "2 3", "9 3 2 3"];

pub fn view(compared: &[Compared]) -> Option<AnyView> {
    let runs: Vec<RunOfBatch> =
        compared.iter().map(|one| RunOfBatch::of(&one.batch, clock::now())).collect();
    if runs.iter().all(|run| run.readings.is_empty()) {
        return None;
    }
    let summary = compared.iter().zip(&runs).filter_map(|(one, run)| told(one, run));
    let summary = summary.collect::<Vec<_>>().join(" ");
    let curves: Vec<RunCurve<'_>> = compared
        .iter()
        .zip(&runs)
        .zip(DASHES)
        .map(|((one, run), dashes)| RunCurve { run, letter: Some(one.letter), dashes })
        .collect();
    let quantities = RunQuantity::ALL.into_iter().filter(|of| {
        // One batch alone in a panel compares nothing.
        runs.iter().filter(|run| run.of_quantity(*of).next().is_some()).count() > 1
    });
    let quantities: Vec<RunQuantity> = quantities.collect();
    let rows = compared.iter().zip(&runs).flat_map(|(one, run)| {
        run_chart::table_rows(run).into_iter().map(|(when, cells)| {
            (t_with!("compare-at", &[("letter", &one.letter.to_string()), ("when", &when)]), cells)
        })
    });
    let rows: Vec<_> = rows.collect();
    let chart =
        (!quantities.is_empty()).then(|| run_chart::drawing(&curves, &quantities, summary.clone()));
    Some(
        view! {
            <section class="stack">
                <h2>{t!("compare-curves")}</h2>
                <figure class="picture">
                    {chart}
                    <figcaption class="small">
                        <p>{summary}</p>
                        <p class="soft">{t!("compare-key")}</p>
                    </figcaption>
                </figure>
                <details class="more">
                    <summary>{t!("swatch-chart-table")}</summary>
                    <div class="inside"><FigureTable heads=run_chart::table_heads() rows /></div>
                </details>
            </section>
        }
        .into_any(),
    )
}

/// The first and the last lightness of a batch, in a sentence.
fn told(one: &Compared, run: &RunOfBatch) -> Option<String> {
    let text = |value: f64| run_chart::fixed(value, 0);
    let mut lightness = run.of_quantity(RunQuantity::Lightness).map(|r| r.figure.value);
    let first = lightness.next()?;
    let batch = one.label();
    Some(match lightness.last() {
        None => t_with!("compare-told_one", &[("batch", &batch), ("l", &text(first))]),
        Some(last) => t_with!(
            "compare-told",
            &[
                ("batch", &batch),
                ("from", &text(first)),
                ("to", &text(last)),
                ("minutes", &text(run.minutes)),
            ]
        ),
    })
}
