//! What is seen of a batch at a glance: a strip of photos, four figures, a chart of its readings.

use bleachfield_core::{
    derive::{BatchResult, RunOfBatch, RunQuantity, last_plan},
    journal::{Batch, Body, Book, PhotoId, PulpState, TimelineEntry},
    message::Value,
    pulp::WetPulp,
    quantity::{grams, share},
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, FigureTable, Picture},
    i18n::{format_number, format_value, t, t_with},
    platform::clock,
    screens::batches::{
        entry::name_of,
        facts::batch_name,
        form::BatchWriter,
        run_chart::{self, RunCurve},
    },
};

/// Photos from before the bath, during it, at its end, and of the dried pulp; nothing without
/// photos.
#[component]
pub fn PhotoStrip(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let photos = Memo::new(move |_| {
        studio.book(|book| {
            let batch = book.batches.get(&id)?;
            Some((batch_name(batch), chosen_photos(batch)))
        })
    });
    (move || {
        let (name, photos) = photos.get().filter(|(_, photos)| !photos.is_empty())?;
        let alt = t_with!("photo-of", &[("name", &name)]);
        let photos = photos.into_iter().map(|StripPhoto { photo, when }| {
            let when = when.text();
            let alt = format!("{alt}, {when}");
            view! {
                <li><Picture photo small=true opens=true alt=alt /><span>{when}</span></li>
            }
        });
        Some(view! {
            <ul class="photo-strip" aria-label=t!("batch-photos")>{photos.collect_view()}</ul>
        })
    })
    .into_any()
}

#[derive(Clone, Debug, PartialEq)]
struct StripPhoto {
    photo: PhotoId,
    when: When,
}

/// When a photo was taken.
#[derive(Clone, Copy, Debug, PartialEq)]
enum When {
    Before,
    /// Minutes of the bath.
    During(i64),
    /// In the first minutes after the bath.
    End,
    After,
    Dried,
}

impl When {
    fn text(self) -> String {
        match self {
            Self::Before => t!("batch-photo_before"),
            Self::During(minutes) => format_value(&Value::Minutes(minutes as f64)),
            Self::End => t!("batch-photo_end"),
            Self::After => t!("batch-photo_after"),
            Self::Dried => t!("batch-photo_dried"),
        }
    }
}

/// Photos during the bath that are shown.
const DURING: usize = 2;

/// The last photo of each time; of those during the bath, one amid and the last.
fn chosen_photos(batch: &Batch) -> Vec<StripPhoto> {
    let photos = batch.visible_entries().filter_map(|entry| {
        let Body::Photo(photo) = &entry.body else { return None };
        Some(StripPhoto { photo: photo.photo.clone(), when: when(batch, entry, photo.pulp) })
    });
    let photos: Vec<StripPhoto> = photos.collect();
    let last_of = |when| photos.iter().rev().find(|photo| photo.when == when).cloned();
    let during: Vec<&StripPhoto> =
        photos.iter().filter(|photo| matches!(photo.when, When::During(_))).collect();
    let step = during.len().div_ceil(DURING).max(1);
    let during = during.iter().rev().step_by(step).rev().map(|photo| (*photo).clone());
    last_of(When::Before)
        .into_iter()
        .chain(during)
        .chain([When::End, When::After, When::Dried].into_iter().filter_map(last_of))
        .collect()
}

/// A photo within this after the stop shows the end of the bath.
const END_MINUTES: f64 = 15.0;

fn when(batch: &Batch, entry: &TimelineEntry, pulp: PulpState) -> When {
    if pulp == PulpState::Dried {
        return When::Dried;
    }
    let Some(bath) = batch.baths.iter().rev().find(|bath| bath.started <= entry.at) else {
        return When::Before;
    };
    match bath.stopped {
        Some(stopped) if entry.at >= stopped.at => {
            let since = entry.at.duration_since(stopped.at).as_secs_f64() / 60.0;
            if since <= END_MINUTES { When::End } else { When::After }
        }
        _ => When::During(entry.at.duration_since(bath.started).as_mins()),
    }
}

/// The four figures of a batch: dry fibre, charge, time in the bath, and what came of it.
/// Nothing while none is known.
#[component]
pub fn KeyFacts(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let facts = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(|batch| key_facts(book, batch)))
    });
    (move || {
        let facts = facts.get().filter(|facts| facts.iter().any(|fact| fact.value.is_some()))?;
        let facts = facts.into_iter().map(|KeyFact { name, value, assumed, more }| {
            view! {
                <div>
                    <dt>{name}</dt>
                    <dd>
                        {value.unwrap_or_else(|| "–".to_owned())}
                        {assumed.then(|| view! { " "<Assumed /> })}
                        {more.map(|more| view! { <span class="small soft">{more}</span> })}
                    </dd>
                </div>
            }
        });
        Some(view! { <dl class="key-facts">{facts.collect_view()}</dl> })
    })
    .into_any()
}

#[derive(Clone, PartialEq)]
struct KeyFact {
    name: String,
    /// `None` while it is not known.
    value: Option<String>,
    assumed: bool,
    /// What stands below it.
    more: Option<String>,
}

fn key_facts(book: &Book, batch: &Batch) -> [KeyFact; 4] {
    let fact = |name, value| KeyFact { name, value, assumed: false, more: None };
    let result = BatchResult::of(book, batch);
    let plan = last_plan(batch);
    let charge = plan.map(|plan| format_value(&Value::Share(plan.charge.value)));
    let product = plan.map(|plan| name_of("oxidant", plan.oxidant));
    let minutes = |minutes: f64| format_value(&Value::Minutes(minutes.round()));
    let ran = batch
        .baths
        .last()
        .and_then(|bath| Some(minutes(bath.elapsed(bath.stopped?.at).as_secs_f64() / 60.0)));
    let planned =
        plan.map(|plan| t_with!("batch-fact_planned", &[("time", &minutes(plan.minutes))]));
    let kept = result
        .bleach_yield
        .map(|kept| t_with!("find-yield", &[("share", &format_value(&Value::Share(kept)))]));
    let (dry, assumed) = dry_fibre(batch).unzip();
    [
        KeyFact { assumed: assumed.unwrap_or(false), ..fact(t!("figure-dry_fibre"), dry) },
        KeyFact { more: product, ..fact(t!("figure-charge"), charge) },
        KeyFact { more: planned, ..fact(t!("batch-fact_time"), ran) },
        KeyFact { more: kept, ..fact(t!("batch-fact_lightness"), lightness(&result)) },
    ]
}

/// The oven-dry fibre of the last weighing.
fn dry_fibre(batch: &Batch) -> Option<(String, bool)> {
    let weighed = batch.weighed.as_ref()?;
    let pulp = WetPulp::new(weighed.wet_mass_g.map(grams), weighed.dryness.map(share)).ok()?;
    let dry = pulp.oven_dry();
    Some((format_value(&Value::Mass(dry.value)), dry.assumed))
}

/// The first and the last lightness that was measured.
fn lightness(result: &BatchResult) -> Option<String> {
    let first = format_number(result.lightness_first?, 2);
    Some(match result.lightness_last {
        None => t_with!("batch-facts_lightness_one", &[("last", &first)]),
        Some(last) => {
            let last = format_number(last, 2);
            t_with!("batch-facts_lightness", &[("first", &first), ("last", &last)])
        }
    })
}

/// All readings of the batch over its time in bleach; nothing before there are two.
#[component]
pub fn WholeRun(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let run = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(|b| RunOfBatch::of(b, clock::now())))
    });
    (move || {
        let run = run.get().filter(|run| run.readings.len() > 1 && run.minutes > 0.0)?;
        let is_read = |of: &RunQuantity| run.of_quantity(*of).next().is_some();
        let of: Vec<RunQuantity> = RunQuantity::ALL.into_iter().filter(is_read).collect();
        let told = run_chart::told(&run);
        let curve = RunCurve { run: &run, letter: None, dashes: "" };
        let chart = run_chart::drawing(&[curve], &of, told.clone());
        Some(view! {
            <section class="whole-run">
                <h2 class="visually-hidden">{t!("run-title")}</h2>
                <figure class="picture">
                    {chart}
                    <figcaption class="small">
                        <p>{told}</p>
                        <p class="soft no-print">{t!("run-key")}</p>
                    </figcaption>
                </figure>
                <details class="more">
                    <summary>{t!("swatch-chart-table")}</summary>
                    <div class="inside table-scroll">
                        <FigureTable heads=run_chart::table_heads() rows=run_chart::table_rows(&run) />
                    </div>
                </details>
            </section>
        })
    })
    .into_any()
}
