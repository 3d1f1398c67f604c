//! Storing the plan, and starting the bath when oxidant meets pulp.

use bleachfield_core::{
    derive::plan_record,
    journal::{Amount, BathStarted, Body, Figure, NewEntry, PlanRecord, Subject},
    quantity::{Basis, Estimate},
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::{
    form::{MadePlan, PlanForm},
    ready_sheet::ReadySheet,
};
use crate::{
    components::notify,
    i18n::t,
    platform::draft,
    route::{self, Route},
    state::app_state,
};

/// Two presses: the first reminds of goggles and gloves, the second starts the bath.
#[component]
pub fn StartBath(form: PlanForm, made: MadePlan) -> impl IntoView {
    let record = plan_record(&made.request, &made.plan, made.chosen.used.clone());
    let record = StoredValue::new(record);
    let weighed = StoredValue::new(form.wet_pulp.weighed_pulp().map(|pulp| pulp.entry));
    let with_soda = made.plan.soda_ash.is_some();
    let open = RwSignal::new(false);
    let busy = RwSignal::new(false);
    let state = app_state();
    let about = Subject::Batch(form.batch);

    // The weighing is written again only if it was changed here. The plan is the last.
    let entries = move || {
        let recorded = state
            .book_now(|book| book.batches.get(&form.batch).and_then(|batch| batch.weighed.clone()));
        let mut entries = Vec::new();
        if let Some(weighed) = weighed.get_value()
            && recorded.as_ref().is_none_or(|recorded| {
                recorded.dryness != weighed.dryness
                    && differs(recorded.dryness.value, weighed.dryness.value)
                    || differs(recorded.wet_mass_g.value, weighed.wet_mass_g.value)
            })
        {
            entries.push(state.new_entry(about, Body::Weighed(weighed)));
        }
        entries.push(state.new_entry(about, Body::Planned(Box::new(record.get_value()))));
        entries
    };
    let write = move |entries: Vec<NewEntry>, said: Option<String>, next: Route| {
        if busy.get_untracked() {
            return;
        }
        busy.set(true);
        let from = route::current();
        spawn_local(async move {
            if state.write_entries(entries).await.is_some() {
                draft::discard(&Route::Plan(form.batch).href());
                draft::discard(&Route::ChangePlan(form.batch).href());
                if let Some(said) = said {
                    notify(said, None);
                }
                route::go_from(&from, &next);
            }
            let _ = busy.try_set(false);
        });
    };
    let save = move |_| write(entries(), Some(t!("plan-kept")), Route::batch(form.batch));
    // Weighing, plan and start in one transaction: a kill leaves all of them or none.
    let start = Callback::new(move |()| {
        let mut entries = entries();
        let plan = entries.last().map(|planned| planned.id);
        let started = started(state.fresh_id(), plan, &record.get_value());
        entries.push(state.new_entry(about, Body::BathStarted(started)));
        write(entries, None, Route::Sink);
    });
    view! {
        <div class="stack">
            <button class="button touch" on:click=move |_| open.set(true)>{t!("plan-start")}</button>
            <button class="button plain" disabled=move || busy.get() on:click=save>
                {t!("plan-keep")}
            </button>
        </div>
        <ReadySheet open busy with_soda start />
    }
}

/// The start of a bath by its plan. The amounts are those of the plan, not measured: marked as
/// computed, or as assumed if what they rest on is.
pub fn started(bath: Ulid, plan: Option<Ulid>, record: &PlanRecord) -> BathStarted {
    BathStarted {
        bath,
        plan,
        oxidant: record.oxidant,
        product: record.product.shelf,
        product_amount: Some(match record.product_amount {
            Amount::MassG(g) => Amount::MassG(as_planned(g)),
            Amount::VolumeMl(ml) => Amount::VolumeMl(as_planned(ml)),
        }),
        water_added_ml: Some(as_planned(record.water_to_add_ml)),
        celsius: None,
        schedule: record.schedule.clone(),
    }
}

/// The amount that a plan said, which nobody measured.
fn as_planned(figure: Figure) -> Figure {
    Estimate::exact(figure.value, figure.basis.max(Basis::Computed))
}

/// By more than the rounding of a field.
fn differs(one: f64, other: f64) -> bool {
    (one - other).abs() > 1e-3 * one.abs().max(other.abs())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_by_the_plan_is_never_measured() {
        let figure = |basis| Estimate { value: 65.0, low: 60.0, high: 70.0, basis };
        let planned = |basis| as_planned(figure(basis));
        assert_eq!(planned(Basis::Measured), Estimate::exact(65.0, Basis::Computed));
        assert_eq!(planned(Basis::Assumed).basis, Basis::Assumed);
    }
}
