//! Saving a measured colour: as a swatch of the batch, or as its target.

use bleachfield_core::{
    colour::reversion::Ageing,
    journal::{
        Body, CardRole, ColourReading, ColourTarget, Corrected, PulpState, Subject, TargetFrom,
    },
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::MeasureState;
use crate::{
    components::{RadioGroup, TextField, notify},
    i18n::{key, t, t_with},
    route::{self, Route},
    screens::{batches::name_of, colour::timed_swatch::TimedSwatch},
};

/// Name of the measure that holds the difference to a second pulp in the photo.
const BETWEEN: &str = "difference_to_second_pulp";

/// Pulp state, earlier swatch and ageing, and the button that saves the swatch.
pub fn swatch(measuring: MeasureState) -> AnyView {
    let MeasureState { studio, batch, pulp, .. } = measuring;
    let photo = measuring.photo.get_value();
    let others: Vec<TimedSwatch> = studio
        .book_now(|book| book.batches.get(&batch).map(TimedSwatch::all_of))
        .unwrap_or_default()
        .into_iter()
        .filter(|one| one.swatch.photo() != Some(&photo))
        .collect();
    let previous = measuring.previous_reading();
    let earlier = RwSignal::new(previous.as_ref().and_then(|(_, reading)| reading.earlier));
    let ageing = RwSignal::new(previous.and_then(|(_, reading)| reading.ageing));
    let dried: Vec<Ulid> = others
        .iter()
        .filter(|one| one.swatch.reading.pulp == PulpState::Dried)
        .map(|one| one.swatch.entry)
        .collect();
    // Only a swatch that was dry before can have aged.
    let aged = Memo::new(move |_| {
        pulp.get() == PulpState::Dried && earlier.get().is_some_and(|id| dried.contains(&id))
    });
    let methods = || {
        let all = Ageing::ALL.map(|one| (Some(one), t(one.key())));
        [(None, t!("swatch-keep-not_aged"))].into_iter().chain(all).collect::<Vec<_>>()
    };
    let save = Callback::new(move |()| {
        let Some(Ok(result)) = measuring.result.get_untracked() else { return };
        let Some(mut reading) = result.readings.into_iter().next() else { return };
        reading.pulp = pulp.get_untracked();
        reading.earlier = earlier.get_untracked();
        reading.ageing = ageing.get_untracked().filter(|_| aged.get_untracked());
        if let Some(difference) = result.differences.first() {
            reading.measures.insert(BETWEEN.to_owned(), difference.delta_e00);
        }
        measuring.save_reading(reading);
    });
    let states = [PulpState::Wet, PulpState::Pressed, PulpState::Dried];
    view! {
        <section class="stack">
            <RadioGroup label=t!("form-photo-state") value=pulp
                options=states.map(|p| (p, name_of("form-photo-pulp", p))).to_vec() />
            {(!others.is_empty()).then(|| earlier_select(&others, earlier))}
            {move || aged.get().then(|| view! {
                <RadioGroup label=t!("swatch-keep-ageing") value=ageing options=methods() />
            })}
            {save_button(measuring, key!("swatch-keep-save"), save)}
        </section>
    }
    .into_any()
}

/// Whether this is a swatch measured before, and which.
fn earlier_select(others: &[TimedSwatch], earlier: RwSignal<Option<Ulid>>) -> AnyView {
    let options = others.iter().rev().map(|one| {
        let id = one.swatch.entry;
        view! {
            <option value=id.to_string() selected=move || earlier.get() == Some(id)>
                {one.line()}
            </option>
        }
    });
    view! {
        <div class="field">
            <label for="colour-earlier">{t!("swatch-keep-earlier")}</label>
            <select id="colour-earlier"
                on:change=move |event| earlier.set(event_target_value(&event).parse().ok())>
                <option value="">{t!("swatch-keep-new")}</option>
                {options.collect_view()}
            </select>
            <span class="hint">{t!("swatch-keep-earlier_hint")}</span>
        </div>
    }
    .into_any()
}

/// The paper's name, and the button that makes its colour the target.
pub fn target(measuring: MeasureState) -> AnyView {
    let name = RwSignal::new(String::new());
    let save = Callback::new(move |()| {
        let Some(Ok(result)) = measuring.result.get_untracked() else { return };
        let Some(reading) = result.readings.first() else { return };
        let body = Body::ColourTarget(Box::new(ColourTarget {
            lightness: reading.lightness,
            a: reading.a,
            b: reading.b,
            from: TargetFrom::Photo(measuring.photo.get_value()),
            name: name.get_untracked().trim().to_owned(),
        }));
        measuring.write(body, key!("entry-colour_target"));
    });
    view! {
        <section class="stack">
            <TextField label=t!("swatch-target-name") text=name />
            {save_button(measuring, key!("swatch-target-aim"), save)}
        </section>
    }
    .into_any()
}

/// Disabled until there is a colour.
fn save_button(measuring: MeasureState, key: &'static str, save: Callback<()>) -> AnyView {
    let none =
        move || !matches!(measuring.result.get(), Some(Ok(result)) if !result.readings.is_empty());
    view! {
        <button class="button touch" disabled=none on:click=move |_| save.run(())>{t(key)}</button>
    }
    .into_any()
}

impl MeasureState {
    /// Writes a reading of this photo. A previous one is corrected, so that references to it
    /// stay valid.
    fn save_reading(self, mut reading: ColourReading) {
        let photo = self.photo.get_value();
        reading.bath = self.studio.book_now(|book| {
            book.batches.get(&self.batch)?.visible_entries().find_map(|entry| match &entry.body {
                Body::Photo(p) if p.photo == photo => p.bath,
                _ => None,
            })
        });
        reading.photo = Some(photo);
        let own = self.own_white.get_untracked();
        let card = self.studio.book_now(|book| book.studio.cards.get(&CardRole::White).cloned());
        reading.reference = match card.filter(|_| own) {
            Some(card) => card.name,
            None => t!("swatch-reference-copy_paper_name"),
        };
        let body = Body::ColourReading(Box::new(reading));
        let body = match self.previous_reading() {
            Some((entry, _)) => Body::Corrected(Corrected {
                entry,
                body: Box::new(body),
                at: None,
                why: String::new(),
            }),
            None => body,
        };
        self.write(body, key!("entry-colour_reading"));
    }

    /// Writes an entry; once it is on disk, goes to the batch's colours. `what` is the entry's
    /// name.
    fn write(self, body: Body, what: &'static str) {
        let Self { studio, batch, .. } = self;
        let from = route::current();
        spawn_local(async move {
            if studio.write(Subject::Batch(batch), body).await.is_some() {
                notify(t_with!("batch-saved", &[("what", &t(what))]), None);
                route::go_from(&from, &Route::Colour(batch));
            }
        });
    }
}
