//! The form for the schedule of a running bath: its stop and its cues.

use bleachfield_core::{
    journal::{Body, Schedule, ScheduleChanged},
    message::{Field, Message},
    quantity::{NumberSpec, QuantityKind},
};
use leptos::prelude::*;

use super::running_bath::RunningBath;
use crate::{
    components::{NumberField, NumberInput, ValueField, to_first_wrong},
    i18n::{format_duration, format_number, t, t_with},
    platform::{
        clock,
        preferences::{DecimalMark, preferences_context},
    },
};

const STOP: Field = Field("stop_at");
const STIR: Field = Field("stir_every");
const REHEAT: Field = Field("reheat_every");
const PH: Field = Field("ph_at");
const STRIP: Field = Field("strip_at");
const PHOTO: Field = Field("photo_at");

/// Minutes by which one press puts off the stop.
const EXTENSIONS: [f64; 3] = [5.0, 10.0, 20.0];

#[component]
pub fn ScheduleForm(running: RunningBath) -> impl IntoView {
    let planned = running.view(|bath| bath.schedule().cloned()).flatten().unwrap_or_default();
    let answers = Answers::of(&planned);
    let Answers { stop, stir, reheat, ph, strip, photo } = answers;
    let planned = StoredValue::new(planned);
    let refused = RwSignal::new(None::<Message>);
    let write = move |schedule: Schedule| {
        let checked = schedule.check();
        refused.set(checked.as_ref().err().map(|error| error.message()));
        if checked.is_ok() {
            let change = ScheduleChanged { bath: running.bath, schedule, why: String::new() };
            running.write(vec![Body::ScheduleChanged(change)], t!("sink-said-times"));
        }
    };
    let save = Callback::new(move |()| {
        if let Some(schedule) = answers.schedule() {
            write(schedule);
        }
    });
    // From the planned stop, or from now if that is past.
    let extend = move |minutes: f64| {
        let schedule = planned.get_value();
        let elapsed = running.view(|bath| bath.elapsed(clock::now()).as_secs_f64() / 60.0);
        let from = schedule.stop_at_min.unwrap_or_default().max(elapsed.unwrap_or_default());
        write(Schedule { stop_at_min: Some((from + minutes).ceil()), ..schedule });
    };
    let elapsed = move || {
        t_with!("sink-times-from_start", &[("elapsed", &format_duration(running.elapsed()))])
    };
    view! {
        <div class="stack">
            <p class="soft">{elapsed}</p>
            <div class="row even" role="group" aria-label=t!("sink-times-more")>
                {EXTENSIONS.map(|minutes| view! {
                    <button class="button soft touch" disabled=move || running.sheets.busy.get()
                        on:click=move |_| extend(minutes)>
                        {t_with!("sink-times-by", &[("n", &format_number(minutes, 2))])}
                    </button>
                }).collect_view()}
            </div>
            <NumberField ask=stop label=t!("sink-times-stop") hint=t!("sink-times-stop_hint")
                refused on_enter=save />
            <NumberField ask=stir label=t!("sink-times-stir") refused on_enter=save />
            <NumberField ask=reheat label=t!("sink-times-reheat") refused on_enter=save />
            {ph.view(t!("sink-times-ph"), refused)}
            {strip.view(t!("sink-times-strip"), refused)}
            {photo.view(t!("sink-times-photo"), refused)}
            <button class="button touch" disabled=move || running.sheets.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-times-save")}</button>
        </div>
    }
}

/// The answers. Copied freely.
#[derive(Clone, Copy)]
struct Answers {
    stop: NumberInput,
    stir: NumberInput,
    reheat: NumberInput,
    ph: InstantsInput,
    strip: InstantsInput,
    photo: InstantsInput,
}

impl Answers {
    fn of(schedule: &Schedule) -> Self {
        let input = |field, minutes: Option<f64>| {
            let input = NumberInput::new(field, QuantityKind::Duration).optional();
            if let Some(minutes) = minutes {
                input.fill(minutes);
            }
            input
        };
        Self {
            stop: input(STOP, schedule.stop_at_min),
            stir: input(STIR, schedule.stir_every_min),
            reheat: input(REHEAT, schedule.reheat_every_min),
            ph: InstantsInput::of(PH, &schedule.ph_at_min),
            strip: InstantsInput::of(STRIP, &schedule.strip_at_min),
            photo: InstantsInput::of(PHOTO, &schedule.photo_at_min),
        }
    }

    /// `None` while one cannot be read.
    fn schedule(self) -> Option<Schedule> {
        let readable = [self.stop, self.stir, self.reheat].map(NumberInput::try_now);
        let schedule = Schedule {
            stir_every_min: self.stir.base(),
            reheat_every_min: self.reheat.base(),
            ph_at_min: self.ph.minutes().ok()?,
            strip_at_min: self.strip.minutes().ok()?,
            photo_at_min: self.photo.minutes().ok()?,
            stop_at_min: self.stop.base(),
        };
        (!readable.contains(&false)).then_some(schedule)
    }
}

/// A field for several instants: "10 30 60", "10; 30; 60", "10, 30, 60".
#[derive(Clone, Copy)]
struct InstantsInput {
    text: RwSignal<String>,
    spec: NumberSpec,
}

impl InstantsInput {
    fn of(field: Field, minutes: &[f64]) -> Self {
        let preferences = preferences_context().get_untracked();
        let mark = if preferences.mark == DecimalMark::Comma { ',' } else { '.' };
        let text: Vec<String> = minutes.iter().map(|minutes| format_number(*minutes, 4)).collect();
        Self {
            text: RwSignal::new(text.join("; ")),
            spec: NumberSpec::new(field, QuantityKind::Duration).reader(preferences.measures, mark),
        }
    }

    /// Minutes from the start, sorted, tracked.
    fn minutes(self) -> Result<Vec<f64>, Message> {
        let parse = |piece: String| self.spec.parse(&piece).map(|typed| typed.base);
        let minutes = split(&self.text.get()).into_iter().map(parse).collect::<Result<Vec<_>, _>>();
        let mut minutes = minutes.map_err(|error| error.message())?;
        minutes.sort_by(f64::total_cmp);
        minutes.dedup();
        Ok(minutes)
    }

    fn view(self, label: String, refused: RwSignal<Option<Message>>) -> AnyView {
        let problem = Signal::derive(move || {
            let refused = || refused.get().filter(|m| m.field == Some(self.spec.field));
            self.minutes().err().or_else(refused)
        });
        view! {
            <ValueField label text=self.text unit=t!("sink-times-unit") problem
                hint=t!("sink-times-list_hint") />
        }
        .into_any()
    }
}

/// Splits at semicolons, and at commas followed by a space; at spaces too if there are only
/// plain numbers, so that "1 h 30 min" stays whole.
fn split(text: &str) -> Vec<String> {
    let plain = |c: char| c.is_ascii_digit() || c.is_whitespace() || matches!(c, '.' | ',' | ';');
    let mut separated = text.replace(", ", ";");
    if text.chars().all(plain) {
        separated = separated.replace(char::is_whitespace, ";");
    }
    separated.split(';').map(|piece| piece.trim().to_owned()).filter(|p| !p.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::split;

    #[test]
    fn instants_are_split_as_typed() {
        for (text, expected) in [
            ("", vec![]),
            ("10 30 60", vec!["10", "30", "60"]),
            ("10; 30;60", vec!["10", "30", "60"]),
            ("10, 30, 60", vec!["10", "30", "60"]),
            ("0,5; 1,5", vec!["0,5", "1,5"]),
            ("1 h; 90 min", vec!["1 h", "90 min"]),
            ("10 min, 20 min", vec!["10 min", "20 min"]),
            ("1 h 30 min", vec!["1 h 30 min"]),
            ("1 1/2 h; 2 h", vec!["1 1/2 h", "2 h"]),
            (" ; 10 ;; ", vec!["10"]),
        ] {
            assert_eq!(split(text), expected, "{text}");
        }
    }
}
