//! The form of a check: pH, strip, temperature, a photo and a remark in one go, each optional and
//! all saved together.

use bleachfield_core::{
    bath::by_thermometer,
    chemistry::{
        alkali::{meter_ph, strip_ph},
        oxidant_strip,
    },
    derive::cue::CueKind,
    journal::{Body, Figure, Oxidant, Reading, ReadingOf},
    message::{Field, Message},
    quantity::{PH, QuantityKind, TEMPERATURE, Unit},
};
use leptos::prelude::*;

use super::{
    check_photo::{PhotoPart, wet_photo},
    running_bath::RunningBath,
    screen_cautions::FieldCautions,
};
use crate::{
    components::{
        ChoiceError, NumberField, NumberInput, RadioGroup, Term, TextField, to_first_wrong,
    },
    i18n::{key, t},
    screens::photo_choice::PhotoChoice,
};

const STRIP: Field = Field("bath_strip");

/// How a pH was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum PhBy {
    Strip,
    Meter,
}

/// The answers. Copied freely.
#[derive(Clone, Copy)]
struct Answers {
    ph: NumberInput,
    /// Chosen by the person.
    by: RwSignal<Option<PhBy>>,
    strip: NumberInput,
    celsius: NumberInput,
    photo: PhotoChoice,
    remark: RwSignal<String>,
    /// Saving was tried.
    tried: RwSignal<bool>,
}

#[component]
pub fn CheckForm(running: RunningBath) -> impl IntoView {
    let answers = Answers::new();
    let Answers { ph, by, strip, celsius, photo, remark, tried } = answers;
    let latest = running.latest_readings();
    let of_ph = Signal::derive(move || {
        // A strip until a choice was made: its range is the wider.
        let read = ph.base().map(|value| ph_figure(value, by.get().unwrap_or(PhBy::Strip)));
        read.map_or_else(Vec::new, |read| latest.with(|latest| latest.cautions_of_ph(read)))
    });
    let of_celsius = Signal::derive(move || {
        celsius
            .base()
            .map(by_thermometer)
            .map_or_else(Vec::new, |read| latest.with(|latest| latest.cautions_of_celsius(read)))
    });
    let strip_label = if running.oxidant == Oxidant::Hypochlorite {
        t!("sink-chlorine_strip")
    } else {
        t!("sink-peroxide_strip")
    };
    let no_way = Signal::derive(move || {
        let missing = tried.get() && by.get().is_none() && !ph.is_empty();
        missing.then(|| Message::new(key!("refusal-not_chosen")))
    });
    let nothing = move || tried.get() && answers.is_empty();
    let save = Callback::new(move |()| answers.save(running));
    view! {
        <div class="stack check">
            <div class="columns">
                <NumberField ask=ph label=t!("sink-ph") term=Term::Ph on_enter=save />
                <NumberField ask=celsius label=t!("sink-temperature") on_enter=save />
            </div>
            <Show when=move || { !ph.is_empty() }>
                <RadioGroup label=t!("sink-check-by") value=by options=vec![
                    (Some(PhBy::Strip), t!("sink-check-by_strip")),
                    (Some(PhBy::Meter), t!("sink-check-by_meter")),
                ] />
            </Show>
            <ChoiceError problem=no_way />
            <FieldCautions cautions=of_ph />
            <FieldCautions cautions=of_celsius />
            <NumberField ask=strip label=strip_label hint=t!("sink-check-strip_hint")
                on_enter=save />
            <PhotoPart photo />
            <TextField label=t!("sink-check-seen") text=remark />
            <p role="status">
                {move || nothing().then(|| view! {
                    <span class="refused">{t!("sink-check-nothing")}</span>
                })}
            </p>
            <button class="button touch" disabled=move || running.sheets.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-check-save")}</button>
        </div>
    }
}

impl Answers {
    fn new() -> Self {
        Self {
            ph: NumberInput::new(PH, QuantityKind::Ph).optional(),
            by: RwSignal::new(None),
            strip: NumberInput::new(STRIP, QuantityKind::Concentration)
                .unit(Unit::MilligramsPerLitre)
                .between(0.0, 20.0)
                .optional(),
            celsius: NumberInput::new(TEMPERATURE, QuantityKind::Temperature).optional(),
            photo: PhotoChoice::new(),
            remark: RwSignal::new(String::new()),
            tried: RwSignal::new(false),
        }
    }

    fn is_empty(self) -> bool {
        let numbers = [self.ph, self.strip, self.celsius];
        numbers.into_iter().all(NumberInput::is_empty)
            && self.photo.is_empty()
            && self.remark.with(|text| text.trim().is_empty())
    }

    /// Saves all answers together, once a photo that was chosen is prepared.
    fn save(self, running: RunningBath) {
        self.tried.set(true);
        let readable = [self.ph, self.strip, self.celsius].map(NumberInput::try_now);
        let by_missing = !self.ph.is_empty() && self.by.get_untracked().is_none();
        if readable.contains(&false) || by_missing || untrack(|| self.is_empty()) {
            return;
        }
        if !self.photo.is_ready() {
            return self.photo.when_ready(Callback::new(move |()| self.save(running)));
        }
        let mut bodies = self.readings(running);
        let mut photos = Vec::new();
        if let Some((body, photo)) = wet_photo(self.photo, running.bath) {
            bodies.push(body);
            bodies.extend(running.answers(CueKind::Photo));
            photos.push(photo);
        }
        running.write_with(bodies, photos, t!("sink-said-check"));
    }

    /// A reading for each answer, and answers to the cues that asked for it.
    fn readings(self, running: RunningBath) -> Vec<Body> {
        let reading = |what, figure, text| {
            Body::Reading(Reading { bath: Some(running.bath), what, figure, text })
        };
        let measured = |what, figure| reading(what, Some(figure), String::new());
        let mut bodies = Vec::new();
        if let (Some(ph), Some(by)) = (self.ph.base(), self.by.get_untracked()) {
            bodies.push(measured(ReadingOf::Ph, ph_figure(ph, by)));
            bodies.extend(running.answers(CueKind::Ph));
        }
        if let Some(g_per_l) = self.strip.base() {
            let what = match running.oxidant {
                Oxidant::Hypochlorite => ReadingOf::AvailableChlorineMgPerL,
                Oxidant::Percarbonate | Oxidant::Peroxide => ReadingOf::PeroxideMgPerL,
            };
            bodies.push(measured(what, oxidant_strip(g_per_l * 1000.0)));
            bodies.extend(running.answers(CueKind::Strip));
        }
        if let Some(celsius) = self.celsius.base() {
            bodies.push(measured(ReadingOf::Celsius, by_thermometer(celsius)));
            bodies.extend(running.answers(CueKind::Reheat));
        }
        let remark = self.remark.get_untracked().trim().to_owned();
        if !remark.is_empty() {
            bodies.push(reading(ReadingOf::Other, None, remark));
        }
        bodies
    }
}

/// A pH with the range of a meter or a strip.
fn ph_figure(ph: f64, by: PhBy) -> Figure {
    match by {
        PhBy::Strip => strip_ph(ph),
        PhBy::Meter => meter_ph(ph),
    }
}
