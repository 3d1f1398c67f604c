//! Reading the pots: a photo of each, a known colour, or by eye against the paper whites.

use bleachfield_core::{
    colour::{display::DisplayColour, target::PaperWhite},
    derive::{PotStage, PotStatus, TrialStatus, swatches},
    journal::{Body, ColourReading, PulpState, Subject},
    message::Field,
    quantity::{Basis, Estimate, QuantityKind},
};
use leptos::{prelude::*, task::spawn_local};

use super::words::{pot_title, treatment};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, notify},
    i18n::{format_number, t, t_with},
    route::{BatchForm, Route},
    screens::batches::name_of,
    state::app_state,
};

/// Half of the range of a colour that was told by eye: half of a step between paper whites (own
/// estimate).
const BY_EYE: f64 = 5.0;
/// Of one that was read off an instrument (own estimate: repeatability on rough pulp).
const BY_METER: f64 = 1.0;
const KNOWN_L: Field = Field("trial_l");
const KNOWN_A: Field = Field("trial_a");
const KNOWN_B: Field = Field("trial_b");

#[component]
pub fn ReadPots(status: TrialStatus, pulp: RwSignal<PulpState>) -> impl IntoView {
    let states = [PulpState::Dried, PulpState::Pressed, PulpState::Wet]
        .map(|state| (state, name_of("pulp_state", state)))
        .to_vec();
    let pots = status.pots.into_iter().map(|pot| view! { <ReadPot pot pulp /> });
    view! {
        <p>{t!("trial-read_how")}</p>
        <RadioGroup label=t!("trial-read_state") value=pulp options=states />
        <p class="small soft">{t!("trial-read_same")}</p>
        <ul class="trial-read">{pots.collect_view()}</ul>
    }
}

#[component]
fn ReadPot(pot: PotStatus, pulp: RwSignal<PulpState>) -> impl IntoView {
    let state = app_state();
    let batch = pot.batch;
    let read = Memo::new(move |_| {
        state.book(|book| {
            let all = swatches(book.batches.get(&batch)?);
            let pulp = pulp.get();
            let swatch = all.iter().rev().find(|swatch| swatch.reading.pulp == pulp)?;
            Some(swatch.figures().map(|figure| figure.value))
        })
    });
    let stopped = matches!(pot.stage, PotStage::Stopped { .. });
    let [l, a, b] = [(KNOWN_L, 1.0, 100.0), (KNOWN_A, -60.0, 60.0), (KNOWN_B, -60.0, 60.0)]
        .map(|(field, low, high)| NumberInput::new(field, QuantityKind::Number).between(low, high));
    let write = move |[l, a, b]: [f64; 3], half: f64, basis: Basis, how: String| {
        let figure = |value: f64| Estimate { value, low: value - half, high: value + half, basis };
        let lightness = figure(l);
        let reading = ColourReading {
            photo: None,
            bath: None,
            pulp: pulp.get_untracked(),
            lightness: Estimate { high: lightness.high.min(100.0), ..lightness },
            a: figure(a),
            b: figure(b),
            yellowness: None,
            blue_index: None,
            reference: how,
            patches: Vec::new(),
            measures: Default::default(),
            remarks: Vec::new(),
            ageing: None,
            earlier: None,
            light: None,
            camera: None,
        };
        spawn_local(async move {
            let body = Body::ColourReading(Box::new(reading));
            if state.write(Subject::Batch(batch), body).await.is_some() {
                notify(t!("trial-read_saved"), None);
            }
        });
    };
    let by_eye = PaperWhite::ALL.map(|step| {
        let lab = step.lab();
        let css = DisplayColour::new(lab).css();
        let press = move |_| {
            write([lab.l, lab.a, lab.b], BY_EYE, Basis::Strip, t!("trial-by_eye_reference"));
        };
        view! {
            <button class="chip" on:click=press>
                <span class="swatch" style:background=css aria-hidden="true"></span>
                <span>{t(step.key())}</span>
            </button>
        }
    });
    let save_known = move |_| {
        let ready = [l, a, b].map(|input| input.try_now());
        if let (false, Some(l), Some(a), Some(b)) = (
            ready.contains(&false),
            untrack(|| l.base()),
            untrack(|| a.base()),
            untrack(|| b.base()),
        ) {
            write([l, a, b], BY_METER, Basis::Measured, t!("trial-known_reference"));
        }
    };
    let shown = move || {
        read.get().map(|[l, a, b]| {
            let [l, a, b] = [l, a, b].map(|value| format_number(value, 3));
            t_with!("trial-read_as", &[("l", &l), ("a", &a), ("b", &b)])
        })
    };
    view! {
        <li class="card stack tight">
            <h2>{pot_title(pot.number)}</h2>
            <p class="small">{treatment(&pot.record)}</p>
            <p role="status">{move || shown().unwrap_or_else(|| t!("trial-not_read"))}</p>
            {if stopped {
                view! {
                    <div class="row even">
                        <a class="button soft" href=Route::form(batch, BatchForm::Photo).href()>
                            {t!("trial-read_photo")}
                        </a>
                        <a class="button soft" href=Route::Colour(batch).href()>
                            {t!("trial-read_measure")}
                        </a>
                    </div>
                    <details class="more">
                        <summary>{t!("trial-read_other")}</summary>
                        <div class="inside stack">
                            <p class="small">{t!("trial-by_eye")}</p>
                            <div class="chips">{by_eye.into_iter().collect_view()}</div>
                            <p class="small">{t!("trial-known")}</p>
                            <div class="trial-lab">
                                <NumberField ask=l />
                                <NumberField ask=a />
                                <NumberField ask=b />
                            </div>
                            <button class="button" on:click=save_known>{t!("trial-known_save")}</button>
                        </div>
                    </details>
                }
                .into_any()
            } else {
                view! { <p class="soft small">{t!("trial-read_later")}</p> }.into_any()
            }}
        </li>
    }
}
