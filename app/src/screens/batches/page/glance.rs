//! What is seen of a batch at a glance: a strip of photos, and its figures in one line.

use bleachfield_core::{
    derive::swatches,
    journal::{Batch, Body, PhotoId, PulpState, TimelineEntry},
    message::Value,
    pulp::WetPulp,
    quantity::{grams, share},
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, Picture},
    i18n::{format_number, format_value, t, t_with},
    screens::batches::{
        facts::{batch_name, latest_ph},
        form::BatchWriter,
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

/// "200 g dry · 2 % · 60 min · L* 57 → 74", as far as it is known.
#[component]
pub fn FactsLine(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let facts = Memo::new(move |_| studio.book(|book| book.batches.get(&id).map(facts_of)));
    (move || {
        let facts = facts.get().filter(|facts| !facts.is_empty())?;
        let facts = facts.into_iter().map(|(text, assumed)| {
            view! { <li>{text}{assumed.then(|| view! { " "<Assumed /> })}</li> }
        });
        Some(view! { <ul class="facts-line">{facts.collect_view()}</ul> })
    })
    .into_any()
}

/// Each fact, and whether it was assumed.
fn facts_of(batch: &Batch) -> Vec<(String, bool)> {
    let bath = batch.baths.last();
    let plan = bath.and_then(|bath| bath.plan).or(batch.plan);
    let plan = batch.timeline.iter().find(|entry| Some(entry.entry.id) == plan);
    let charge = plan.and_then(|entry| match &entry.body {
        Body::Planned(plan) => Some(format_value(&Value::Share(plan.charge.value))),
        _ => None,
    });
    let ran = bath.and_then(|bath| {
        let minutes = bath.elapsed(bath.stopped?.at).as_mins();
        Some(format_value(&Value::Minutes(minutes as f64)))
    });
    let ph =
        latest_ph(batch).map(|ph| t_with!("batches-ph", &[("ph", &format_number(ph.value, 3))]));
    let known = [charge, ran, ph, lightness(batch)].into_iter().flatten();
    dry_fibre(batch).into_iter().chain(known.map(|text| (text, false))).collect()
}

/// The oven-dry fibre of the last weighing.
fn dry_fibre(batch: &Batch) -> Option<(String, bool)> {
    let weighed = batch.weighed.as_ref()?;
    let pulp = WetPulp::new(weighed.wet_mass_g.map(grams), weighed.dryness.map(share)).ok()?;
    let dry = pulp.oven_dry();
    let mass = format_value(&Value::Mass(dry.value));
    Some((t_with!("batch-facts_dry", &[("mass", &mass)]), dry.assumed))
}

/// The first and the last lightness that was measured.
fn lightness(batch: &Batch) -> Option<String> {
    let swatches = swatches(batch);
    let value = |at: usize| Some(format_number(swatches.get(at)?.reading.lightness.value, 2));
    let last = value(swatches.len().checked_sub(1)?)?;
    Some(match swatches.len() {
        1 => t_with!("batch-facts_lightness_one", &[("last", &last)]),
        _ => t_with!("batch-facts_lightness", &[("first", &value(0)?), ("last", &last)]),
    })
}
