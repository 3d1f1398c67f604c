//! Step 4: what to measure out, in which order, and the start.

use bleachfield_core::{
    caution::{Caution, Severity},
    derive::BathToMeasure,
};
use leptos::prelude::*;

use crate::{
    components::TextField,
    i18n::t,
    route::Route,
    screens::plan::{
        dangers::Dangers,
        form::{PlanForm, PlanOutcome},
        heat::HotAndColdForm,
        ready_check::ReadyCheck,
        signs::{CautionSigns, heating_cautions},
        start::{Writing, fibre_names},
        steps::PlanStep,
    },
};

#[component]
pub fn MeasureStep(
    form: PlanForm,
    outcome: Memo<PlanOutcome>,
    shown: Signal<bool>,
    writing: Writing,
) -> impl IntoView {
    let record =
        Memo::new(move |_| shown.get().then(|| outcome.with(PlanOutcome::record)).flatten());
    let cautions = Memo::new(move |_| {
        let Some(record) = record.get() else { return Vec::new() };
        let water = BathToMeasure::of(&record).water_at.ok();
        let mut all = outcome.with(|outcome| outcome.cautions().to_vec());
        heating_cautions(&mut all, water);
        all
    });
    let below = Signal::derive(move || {
        let danger = |caution: &Caution| {
            caution.id.is_of_this_bath() && caution.severity == Severity::Danger
        };
        cautions.get().into_iter().filter(|caution| !danger(caution)).collect()
    });
    let hot_and_cold = HotAndColdForm::new();
    let is_new = form.batch.is_none();
    let keep = writing.keep;
    view! {
        <Dangers form outcome step=PlanStep::Measure />
        {move || record.get().map(|record| view! {
            <ReadyCheck record ph=outcome.with(PlanOutcome::strip_ph) ready=writing.ready hot_and_cold />
        })}
        {is_new.then(|| view! {
            <TextField label=t!("plan-plant") text=form.plant hint=t!("plan-plant_hint")
                offers=fibre_names() />
        })}
        <CautionSigns cautions=below />
        <button class="button plain" disabled=move || writing.busy.get()
            on:click=move |_| keep.run(())>
            {t!("plan-keep")}
        </button>
        <a class="button bare" href=Route::ClassSheet { batch: form.batch }.href()>
            {t!("class-for_class")}
        </a>
    }
}
