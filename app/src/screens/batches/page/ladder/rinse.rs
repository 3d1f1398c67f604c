//! The rinse to be done now: how much water, what is left of it, and one press when it is done.

use bleachfield_core::{
    derive::{SignOffEvidence, ladder::RinsesAhead},
    journal::{Body, Figure, Rinsed},
    quantity::{Basis, Estimate, QuantityKind, Unit, in_millilitres},
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, NumberField, NumberInput, RecordedInput},
    i18n::{t, t_count, t_with},
    route::BatchForm,
    screens::batches::form::{
        BatchWriter, SaveButton, StripChoice, all_valid, inputs, no_water, ph_figure, strip_figure,
    },
};

/// A volume that was planned and not measured: as assumed as any.
const PLANNED_OFF: f64 = 0.2;

#[component]
pub fn RinseRung(writer: BatchWriter, ahead: RinsesAhead) -> impl IntoView {
    let used = writer.read(|_, batch| SignOffEvidence::of(batch).used).unwrap_or_default();
    let planned = ahead
        .each
        .map(|each| Estimate::within(in_millilitres(each) / 1000.0, PLANNED_OFF, Basis::Assumed));
    let water = RecordedInput::new(
        NumberInput::new(inputs::RINSE_WATER, QuantityKind::Volume).unit(Unit::Litre),
        planned.map(rounded),
        |litres: Figure| litres.value,
    );
    let ph = NumberInput::new(inputs::PH_SQUEEZED, QuantityKind::Ph).optional();
    let strip = inputs::strip_input().optional();
    let strip_of = StripChoice::new(used);
    let no_water = Signal::derive(move || no_water(water.input));
    let run = Callback::new(move |()| {
        let named = strip_of.is_chosen_for(strip);
        if !all_valid(&[water.input, ph, strip]) || no_water.get_untracked().is_some() || !named {
            return;
        }
        let Some(water_l) =
            untrack(|| water.get(|ml| Estimate::exact(ml / 1000.0, Basis::Measured)))
        else {
            return;
        };
        writer.save(Body::Rinsed(Rinsed {
            water_l,
            minutes: None,
            dryness_after: None,
            ph: ph_figure(ph, true),
            strip_mg_per_l: strip_figure(strip),
            strip_of: strip_of.named(strip),
            note: String::new(),
        }));
    });
    let is_planned = planned.is_some();
    let hint = if is_planned { t!("ladder-water_planned") } else { String::new() };
    view! {
        {count_view(ahead)}
        <NumberField ask=water.input refused=no_water hint />
        {move || (is_planned && water.known().is_some()).then(|| view! { <p><Assumed /></p> })}
        <div class="pair">
            <NumberField ask=ph />
            <NumberField ask=strip label=strip_of.label() />
        </div>
        {strip_of.view()}
        <p class="small soft">{t!("ladder-read_or_not")}</p>
        <SaveButton writer label=t!("entry-rinsed") run />
        <button class="button bare" on:click=move |_| writer.open(BatchForm::Rinse)>
            {t!("ladder-rinse_more")}
        </button>
    }
}

/// To what a bucket shows: half a litre, a tenth below two litres.
fn rounded(litres: Figure) -> Figure {
    let step = if litres.value < 2.0 { 0.1 } else { 0.5 };
    let value = ((litres.value / step).ceil() * step).max(step);
    Estimate::within(value, PLANNED_OFF, litres.basis)
}

/// How many rinses are left, as far as that is known.
fn count_view(ahead: RinsesAhead) -> AnyView {
    let Some(count) = ahead.count.filter(|count| *count > 0) else {
        return view! { <p class="soft">{t!("ladder-rinses_open")}</p> }.into_any();
    };
    let most = ahead.most.filter(|most| *most > count);
    let range = most.map(|most| t_with!("ladder-rinses_most", &[("most", &most.to_string())]));
    view! {
        <p>
            <b>{t_count!("ladder-rinses_left", count as usize)}</b>
            {range.map(|range| format!(" {range}"))}
            {ahead.assumed.then(|| view! { " "<Assumed /> })}
        </p>
        {ahead.assumed.then(|| view! { <p class="small soft">{t!("ladder-bath_not_read")}</p> })}
    }
    .into_any()
}
