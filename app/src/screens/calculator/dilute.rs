//! Thinning a bottle: how much of it, and how much water.

use bleachfield_core::{
    bath::{
        BOTTLE_STRENGTH, Diluted, DilutionError, Oxidant, TARGET_STRENGTH, TOTAL_VOLUME, dilute,
    },
    caution::{Act, Situation, cautions},
    message::Value,
    quantity::{Basis, Estimate, QuantityKind, in_jug, in_millilitres, millilitres},
};
use leptos::prelude::*;

use crate::{
    components::{CautionList, Figure, NumberField, NumberInput, RadioGroup},
    i18n::{format_number, format_value, t, t_with},
};

#[derive(Clone, Copy, PartialEq)]
enum CountedIn {
    Percent,
    GramsPerLitre,
}

#[component]
pub fn Dilute() -> impl IntoView {
    let counted = RwSignal::new(CountedIn::Percent);
    let percent = |field| NumberInput::new(field, QuantityKind::Share).between(1e-5, 0.30);
    let per_litre =
        |field| NumberInput::new(field, QuantityKind::Concentration).between(1e-3, 300.0);
    let bottle = (percent(BOTTLE_STRENGTH), per_litre(BOTTLE_STRENGTH));
    let target = (percent(TARGET_STRENGTH), per_litre(TARGET_STRENGTH));
    let total = NumberInput::new(TOTAL_VOLUME, QuantityKind::Volume).between(1.0, 1e6);
    let pick = move |pair: (NumberInput, NumberInput)| match counted.get() {
        CountedIn::Percent => pair.0,
        CountedIn::GramsPerLitre => pair.1,
    };
    // In the label's own percent or g/L: the sum is the same.
    let figure = move |pair: (NumberInput, NumberInput)| {
        let base = pick(pair).base()?;
        Some(if counted.get() == CountedIn::Percent { base * 100.0 } else { base })
    };
    let answer = Memo::new(move |_| {
        let strength = figure(bottle)?;
        let known = Estimate {
            value: strength,
            low: strength * LABEL_LOW,
            high: strength * LABEL_HIGH,
            basis: Basis::Label,
        };
        Some(dilute(known, figure(target)?, millilitres(total.base()?)))
    });
    let refused = Signal::derive(move || match answer.get() {
        Some(Err(refusal)) => Some(DilutionError::message(&refusal)),
        _ => None,
    });
    let warn = Signal::derive(|| {
        let oxidant = Some(Oxidant::Hypochlorite);
        cautions(Act::MakingLiquor, &Situation { oxidant, ..Situation::default() })
    });
    view! {
        <section class="card stack">
            <RadioGroup label=t!("mix-counted") quiet=true value=counted options=vec![
                (CountedIn::Percent, t!("mix-in_percent")),
                (CountedIn::GramsPerLitre, t!("mix-in_grams_per_litre")),
            ] />
            {move || view! {
                <NumberField ask=pick(bottle) label=t!("mix-bottle") refused />
                <NumberField ask=pick(target) label=t!("mix-target") refused />
            }}
            <NumberField ask=total label=t!("mix-total") hint=t!("mix-total_hint") refused />
        </section>
        {move || match answer.get() {
            Some(Ok(diluted)) => view! { <Answer diluted /> }.into_any(),
            Some(Err(_)) => ().into_any(),
            None => view! { <p class="soft">{t!("mix-dilute_waiting")}</p> }.into_any(),
        }}
        <CautionList cautions=warn />
    }
}

/// A label is nominal: 10 % less to 5 % more (common practice, no source), as
/// the core takes a labelled bottle.
const LABEL_LOW: f64 = 0.90;
const LABEL_HIGH: f64 = 1.05;

#[component]
fn Answer(diluted: Diluted) -> impl IntoView {
    let measure = |volume: bleachfield_core::quantity::Volume| {
        let ml = in_millilitres(in_jug(volume).value);
        if ml >= 1000.0 {
            (format_number(ml / 1000.0, 4), "L")
        } else {
            (format_number(ml, 4), "mL")
        }
    };
    let (bottle, bottle_unit) = measure(diluted.bottle.value);
    let (water, water_unit) = measure(diluted.water.value);
    let exact = t_with!(
        "mix-exact",
        &[
            ("bottle", &format_number(in_millilitres(diluted.bottle.value), 4)),
            ("water", &format_number(in_millilitres(diluted.water.value), 4)),
            ("low", &format_value(&Value::Volume(diluted.bottle.low))),
            ("high", &format_value(&Value::Volume(diluted.bottle.high))),
        ],
    );
    view! {
        <section class="card stack wide" aria-live="polite">
            <Figure name=t!("mix-from_bottle") number=bottle unit=bottle_unit.to_owned() />
            <Figure name=t!("mix-water") number=water unit=water_unit.to_owned() />
            <p class="small soft">{exact}</p>
        </section>
    }
}
