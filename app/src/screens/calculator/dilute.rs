//! Dilution of a bottle: how much of it, and how much water.

use bleachfield_core::{
    bath::{
        BOTTLE_STRENGTH, BleachAmount, Diluted, Dose, MeasuredDose, Oxidant, TARGET_STRENGTH,
        TOTAL_VOLUME, dilute, measure_out, nominal,
    },
    caution::{Act, Caution, Situation, cautions},
    message::Value,
    quantity::{Interval, QuantityKind, Unit, grams_per_litre, in_millilitres, millilitres},
};
use leptos::prelude::*;

use super::{
    bench::{ActCautions, Bench},
    session::{keep, keep_choice, keep_inputs},
    sums::{number_and_unit, refusal},
};
use crate::{
    components::{Figure, NumberField, NumberInput, RadioGroup, Term},
    i18n::{format_number, format_value, solution_text, t, t_with},
    route::Sum,
};

#[derive(Clone, Copy, PartialEq)]
enum StrengthUnit {
    Percent,
    GramsPerLitre,
}

#[component]
pub fn Dilute() -> impl IntoView {
    let unit = RwSignal::new(StrengthUnit::Percent);
    let percent = |field| NumberInput::new(field, QuantityKind::Share).between(1e-5, 0.30);
    let per_litre =
        |field| NumberInput::new(field, QuantityKind::Concentration).between(1e-3, 300.0);
    let bottle = (percent(BOTTLE_STRENGTH), per_litre(BOTTLE_STRENGTH));
    let target = (percent(TARGET_STRENGTH), per_litre(TARGET_STRENGTH));
    let total = NumberInput::new(TOTAL_VOLUME, QuantityKind::Volume).between(1.0, 1e6);
    let total = total.unit(Unit::Litre).filled(1.0);
    keep_choice(Sum::Dilute, "unit", unit, &[StrengthUnit::Percent, StrengthUnit::GramsPerLitre]);
    keep_inputs(Sum::Dilute, &[bottle.0, target.0, total]);
    keep(Sum::Dilute, "bottle_g_per_l", bottle.1.text);
    keep(Sum::Dilute, "target_g_per_l", target.1.text);
    let input = move |pair: (NumberInput, NumberInput)| match unit.get() {
        StrengthUnit::Percent => pair.0,
        StrengthUnit::GramsPerLitre => pair.1,
    };
    // Percent or g/L: only the ratio of the two strengths matters.
    let figure = move |pair| {
        let base = input(pair).base()?;
        Some(if unit.get() == StrengthUnit::Percent { base * 100.0 } else { base })
    };
    let answer = Memo::new(move |_| {
        let strength = figure(bottle)?;
        let diluted = dilute(nominal(strength), figure(target)?, millilitres(total.base()?));
        Some(diluted.map_err(|error| error.message()))
    });
    let refused = Signal::derive(move || answer.get().and_then(Result::err));
    // Percent may be counted in several ways: only g/L is a strength.
    let in_g_per_l = move |pair: (NumberInput, NumberInput)| {
        (unit.get() == StrengthUnit::GramsPerLitre).then(|| pair.1.base()).flatten()
    };
    let warn = Signal::derive(move || {
        let situation = Situation {
            oxidant: Oxidant::Hypochlorite.into(),
            strength: in_g_per_l(target).map(grams_per_litre).map(Interval::exact),
            bottle_strength: in_g_per_l(bottle)
                .map(|strength| Interval::exact(grams_per_litre(nominal(strength).high))),
            ..Situation::without_bleach()
        };
        cautions(Act::MakingLiquor, &situation)
    });
    let short = move || match answer.get() {
        Some(Ok(diluted)) => amounts(&diluted),
        Some(Err(why)) => refusal(&why),
        None => view! { <p class="soft">{t!("mix-dilute_waiting")}</p> }.into_any(),
    };
    let full = move || answer.get().and_then(Result::ok).map(|diluted| reasons(&diluted));
    let ready = Signal::derive(move || matches!(answer.get(), Some(Ok(_))));
    view! {
        <Bench of=Sum::Dilute short=short.into() full=full.into() ready>
            <section class="card stack">
                <RadioGroup label=t!("mix-counted") quiet=true value=unit options=vec![
                    (StrengthUnit::Percent, t!("mix-in_percent")),
                    (StrengthUnit::GramsPerLitre, t!("mix-in_grams_per_litre")),
                ] />
                {move || view! {
                    <NumberField ask=input(bottle) label=t!("mix-bottle") refused
                        term=Term::AvailableChlorine />
                    <NumberField ask=input(target) label=t!("mix-target") refused />
                }}
                <NumberField ask=total label=t!("mix-total") hint=t!("mix-total_hint") refused />
            </section>
            <ActCautions cautions=warn standing=standing() />
        </Bench>
    }
}

/// The cautions of pouring any chlorine bleach.
fn standing() -> Vec<Caution> {
    let situation =
        Situation { oxidant: Oxidant::Hypochlorite.into(), ..Situation::without_bleach() };
    cautions(Act::MakingLiquor, &situation)
}

/// What is poured: figures of a jug inside the range of the need, or of a weaker solution first.
fn amounts(diluted: &Diluted) -> AnyView {
    let out = measure_out(&Dose::Bottle(diluted.bottle), None, &diluted.water, 1);
    let poured = match out.dose {
        MeasuredDose::Solution(solution) => solution.take,
        MeasuredDose::Direct(_) => match out.dose.amount() {
            BleachAmount::Bottle(volume) => volume,
            BleachAmount::Powder(_) => diluted.bottle.value,
        },
    };
    let name = match out.dose {
        MeasuredDose::Solution(_) => t!("mix-from_solution"),
        MeasuredDose::Direct(_) => t!("mix-from_bottle"),
    };
    let (bottle, bottle_unit) = number_and_unit(poured, 4);
    let (water, water_unit) = number_and_unit(out.water, 4);
    view! {
        <div class="row even top">
            <Figure name number=bottle unit=bottle_unit />
            <Figure name=t!("mix-water") number=water unit=water_unit />
        </div>
        {solution_text(&out.dose).map(|text| view! { <p class="small">{text}</p> })}
    }
    .into_any()
}

fn reasons(diluted: &Diluted) -> AnyView {
    let exact = t_with!(
        "mix-exact",
        &[
            ("bottle", &format_number(in_millilitres(diluted.bottle.value), 4)),
            ("water", &format_number(in_millilitres(diluted.water.value), 4)),
            ("low", &format_value(&Value::Volume(diluted.bottle.low))),
            ("high", &format_value(&Value::Volume(diluted.bottle.high))),
        ],
    );
    view! { {amounts(diluted)}<p>{exact}</p> }.into_any()
}
