//! Keeping what was measured: as a swatch of the batch, or as the colour to aim at.

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
    screens::{batches::name_of, colour::seen},
};

/// Where the difference to a second pulp in the photo is kept.
const BETWEEN: &str = "difference_to_second_pulp";

/// How wet it was, whether it is a swatch seen before, and the button that keeps it.
pub fn view(measuring: MeasureState) -> AnyView {
    let MeasureState { studio, batch, pulp, .. } = measuring;
    let photo = measuring.photo.get_value();
    let others: Vec<seen::TimedSwatch> = studio
        .book_now(|book| book.batches.get(&batch).map(seen::all))
        .unwrap_or_default()
        .into_iter()
        .filter(|one| one.swatch.photo() != Some(&photo))
        .collect();
    let before = measuring.before();
    let earlier = RwSignal::new(before.as_ref().and_then(|(_, reading)| reading.earlier));
    let ageing = RwSignal::new(before.and_then(|(_, reading)| reading.ageing));
    let states = [PulpState::Wet, PulpState::Pressed, PulpState::Dried];
    let options = others.iter().rev().map(|one| {
        let id = one.swatch.entry;
        view! {
            <option value=id.to_string() selected=move || earlier.get() == Some(id)>
                {one.line()}
            </option>
        }
    });
    let options: Vec<_> = options.collect();
    let dried: Vec<Ulid> = others
        .iter()
        .filter(|one| one.swatch.reading.pulp == PulpState::Dried)
        .map(|one| one.swatch.entry)
        .collect();
    // Only what was dry before can have aged since.
    let aged = Memo::new(move |_| {
        pulp.get() == PulpState::Dried && earlier.get().is_some_and(|id| dried.contains(&id))
    });
    let methods = || {
        let all = Ageing::ALL.map(|one| (Some(one), t(one.key())));
        [(None, t!("swatch-keep-not_aged"))].into_iter().chain(all).collect::<Vec<_>>()
    };
    let save = move || {
        let Some(Ok(found)) = measuring.found.get_untracked() else { return };
        let Some(mut reading) = found.readings.into_iter().next() else { return };
        reading.pulp = pulp.get_untracked();
        reading.earlier = earlier.get_untracked();
        reading.ageing = ageing.get_untracked().filter(|_| aged.get_untracked());
        if let Some(between) = found.between {
            reading.measures.insert(BETWEEN.to_owned(), between);
        }
        measuring.keep(reading);
    };
    view! {
        <section class="stack">
            <RadioGroup label=t!("form-photo-state") value=pulp
                options=states.map(|p| (p, name_of("form-photo-pulp", p))).to_vec() />
            {(!options.is_empty()).then(|| view! {
                <div class="field">
                    <label for="colour-earlier">{t!("swatch-keep-earlier")}</label>
                    <select id="colour-earlier"
                        on:change=move |event| earlier.set(event_target_value(&event).parse().ok())>
                        <option value="">{t!("swatch-keep-new")}</option>
                        {options}
                    </select>
                    <span class="hint">{t!("swatch-keep-earlier_hint")}</span>
                </div>
            })}
            {move || aged.get().then(|| view! {
                <RadioGroup label=t!("swatch-keep-ageing") value=ageing options=methods() />
            })}
            {save_press(measuring, key!("swatch-keep-save"), Callback::new(move |()| save()))}
        </section>
    }
    .into_any()
}

/// What the paper is called, and the button that makes it the target.
pub fn target(measuring: MeasureState) -> AnyView {
    let name = RwSignal::new(String::new());
    let save = move || {
        let Some(Ok(found)) = measuring.found.get_untracked() else { return };
        let Some(reading) = found.readings.first() else { return };
        let body = Body::ColourTarget(Box::new(ColourTarget {
            lightness: reading.lightness,
            a: reading.a,
            b: reading.b,
            from: TargetFrom::Photo(measuring.photo.get_value()),
            name: name.get_untracked().trim().to_owned(),
        }));
        measuring.write(body, key!("entry-colour_target"));
    };
    view! {
        <section class="stack">
            <TextField label=t!("swatch-target-name") text=name />
            {save_press(measuring, key!("swatch-target-aim"), Callback::new(move |()| save()))}
        </section>
    }
    .into_any()
}

/// Can be pressed once there is a colour.
fn save_press(measuring: MeasureState, key: &'static str, run: Callback<()>) -> AnyView {
    let none =
        move || !matches!(measuring.found.get(), Some(Ok(found)) if !found.readings.is_empty());
    view! {
        <button class="button touch" disabled=none on:click=move |_| run.run(())>{t(key)}</button>
    }
    .into_any()
}

impl MeasureState {
    /// Writes a reading of this photo; one that was made before is corrected, so that what
    /// names it still finds it.
    fn keep(self, mut reading: ColourReading) {
        let photo = self.photo.get_value();
        reading.bath = self.studio.book_now(|book| {
            book.batches.get(&self.batch)?.visible_entries().find_map(|told| match &told.body {
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
        let body = match self.before() {
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

    /// Writes it down, says so once it is on disk, and goes to the batch's colours.
    fn write(self, body: Body, what: &'static str) {
        let Self { studio, batch, .. } = self;
        spawn_local(async move {
            if studio.write(Subject::Batch(batch), body).await.is_some() {
                notify(t_with!("batch-saved", &[("what", &t(what))]), None);
                route::go(&Route::Colour(batch));
            }
        });
    }
}
