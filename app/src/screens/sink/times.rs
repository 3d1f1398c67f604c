//! Other times for a running bath: longer or shorter, and other cues.

use bleachfield_core::{
    journal::{Body, Schedule, ScheduleChanged},
    message::{Field, Message},
    quantity::{NumberSpec, QuantityKind},
};
use jiff::SignedDuration;
use leptos::prelude::*;

use super::running::RunningBath;
use crate::{
    components::{BottomSheet, NumberField, NumberInput, ValueField, to_first_wrong},
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

/// So many minutes more, by one press.
const MORE: [f64; 3] = [5.0, 10.0, 20.0];

#[component]
pub fn TimesSheet(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    view! {
        <BottomSheet open title=t!("sink-times-title")>
            <TimesForm running open />
        </BottomSheet>
    }
}

#[component]
fn TimesForm(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    let now = running.view(|bath| bath.schedule().cloned()).flatten().unwrap_or_default();
    let ask = |field, minutes: Option<f64>| {
        let text = minutes.map(|minutes| format_number(minutes, 4)).unwrap_or_default();
        NumberInput::new(field, QuantityKind::Duration).optional().filled(text)
    };
    let stop = ask(STOP, now.stop_at_min);
    let stir = ask(STIR, now.stir_every_min);
    let reheat = ask(REHEAT, now.reheat_every_min);
    let ph = TimesInput::of(PH, &now.ph_at_min);
    let strip = TimesInput::of(STRIP, &now.strip_at_min);
    let photo = TimesInput::of(PHOTO, &now.photo_at_min);
    let refused = RwSignal::new(None::<Message>);
    let write = move |schedule: Schedule| match schedule.check() {
        Ok(()) => {
            refused.set(None);
            let change = ScheduleChanged { bath: running.bath, schedule, why: String::new() };
            running.write(vec![Body::ScheduleChanged(change)], t!("sink-said-times"), Some(open));
        }
        Err(error) => refused.set(Some(error.message())),
    };
    let save = Callback::new(move |()| {
        let asked = [stop, stir, reheat].map(NumberInput::try_now);
        let (Ok(ph_at_min), Ok(strip_at_min), Ok(photo_at_min)) =
            (ph.read(), strip.read(), photo.read())
        else {
            return;
        };
        if !asked.contains(&false) {
            write(Schedule {
                stir_every_min: stir.base(),
                reheat_every_min: reheat.base(),
                ph_at_min,
                strip_at_min,
                photo_at_min,
                stop_at_min: stop.base(),
            });
        }
    });
    // More time is counted from the planned stop, or from now if that is past.
    let planned = now.stop_at_min;
    let longer = StoredValue::new(now);
    let more = move |minutes: f64| {
        let elapsed = running.view(|bath| bath.elapsed(clock::now()).as_secs_f64() / 60.0);
        let from = planned.unwrap_or_default().max(elapsed.unwrap_or_default());
        write(Schedule { stop_at_min: Some((from + minutes).ceil()), ..longer.get_value() });
    };
    let beside = Signal::derive(move || refused.get());
    view! {
        <div class="stack">
            <p class="soft">{move || {
                let now = running.studio.now();
                let run = running.studio.book(|b| b.bath(running.bath).map(|b| b.elapsed(now)));
                t_with!("sink-times-from_start", &[("elapsed", &format_duration(run.unwrap_or(SignedDuration::ZERO)))])
            }}</p>
            <div class="row even" role="group" aria-label=t!("sink-times-more")>
                {MORE.map(|minutes| view! {
                    <button class="button soft touch" disabled=move || running.busy.get()
                        on:click=move |_| more(minutes)>
                        {t_with!("sink-times-by", &[("n", &format_number(minutes, 2))])}
                    </button>
                }).collect_view()}
            </div>
            <NumberField ask=stop label=t!("sink-times-stop") hint=t!("sink-times-stop_hint")
                refused=beside on_enter=save />
            <NumberField ask=stir label=t!("sink-times-stir") refused=beside on_enter=save />
            <NumberField ask=reheat label=t!("sink-times-reheat") refused=beside on_enter=save />
            {ph.field(t!("sink-times-ph"), beside)}
            {strip.field(t!("sink-times-strip"), beside)}
            {photo.field(t!("sink-times-photo"), beside)}
            <button class="button touch" disabled=move || running.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-times-save")}</button>
        </div>
    }
}

/// A field for several instants: "10 30 60", "10; 30; 60", "10, 30, 60".
#[derive(Clone, Copy)]
struct TimesInput {
    text: RwSignal<String>,
    asked: NumberSpec,
}

impl TimesInput {
    fn of(field: Field, minutes: &[f64]) -> Self {
        let preferences = preferences_context().get_untracked();
        let mark = if preferences.mark == DecimalMark::Comma { ',' } else { '.' };
        let text: Vec<String> = minutes.iter().map(|minutes| format_number(*minutes, 4)).collect();
        Self {
            text: RwSignal::new(text.join("; ")),
            asked: NumberSpec::new(field, QuantityKind::Duration)
                .reader(preferences.measures, mark),
        }
    }

    /// The instants in minutes from the start, in order. Follows the text.
    fn read(self) -> Result<Vec<f64>, Message> {
        let mut minutes = Vec::new();
        for piece in pieces(&self.text.get()) {
            minutes.push(self.asked.parse(&piece).map_err(|wrong| wrong.message())?.base);
        }
        minutes.sort_by(f64::total_cmp);
        minutes.dedup();
        Ok(minutes)
    }

    fn field(self, label: String, refused: Signal<Option<Message>>) -> AnyView {
        let problem = Signal::derive(move || {
            let beside = || refused.get().filter(|m| m.field == Some(self.asked.field));
            self.read().err().or_else(beside)
        });
        view! {
            <ValueField label text=self.text unit=t!("sink-times-unit") problem
                hint=t!("sink-times-list_hint") />
        }
        .into_any()
    }
}

/// What is between semicolons, or commas that a space follows; between spaces
/// too where there is nothing but plain numbers, so that "1 h 30 min" is one.
fn pieces(text: &str) -> Vec<String> {
    let plain = |c: char| c.is_ascii_digit() || c.is_whitespace() || matches!(c, '.' | ',' | ';');
    let mut apart = text.replace(", ", ";");
    if text.chars().all(plain) {
        apart = apart.replace(char::is_whitespace, ";");
    }
    apart.split(';').map(|piece| piece.trim().to_owned()).filter(|p| !p.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::pieces;

    #[test]
    fn instants_come_apart_where_a_person_sets_them_apart() {
        for (text, apart) in [
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
            assert_eq!(pieces(text), apart, "{text}");
        }
    }
}
