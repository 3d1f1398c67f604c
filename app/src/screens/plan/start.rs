//! Storing the plan, and starting the bath when oxidant meets pulp.

use bleachfield_core::{
    bath::BleachAmount,
    derive::BathToMeasure,
    journal::{Amount, BatchStarted, BathStarted, Body, Figure, NewEntry, PlanRecord, Subject},
    pulp::FIBRES,
    quantity::{Basis, Estimate, in_grams, in_millilitres},
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::form::{PlanForm, PlanOutcome};
use crate::{
    components::notify,
    i18n::{t, t_with},
    platform::{clock, draft},
    route::{self, Route},
    state::{AppState, app_state},
};

/// The two ways to write the plan. Copies share their signals.
#[derive(Clone, Copy)]
pub struct Writing {
    pub keep: Callback<()>,
    pub start: Callback<()>,
    pub busy: RwSignal<bool>,
    /// The ready check is ticked.
    pub ready: RwSignal<bool>,
}

impl Writing {
    pub fn of(form: PlanForm, outcome: Memo<PlanOutcome>) -> Self {
        let (busy, ready) = (RwSignal::new(false), RwSignal::new(false));
        let state = app_state();
        let write = move |starts: bool| {
            let Some(record) = outcome.with_untracked(PlanOutcome::record) else { return };
            if busy.get_untracked() {
                return;
            }
            busy.set(true);
            let from = route::current();
            let batch = form.batch.unwrap_or_else(|| state.fresh_id());
            let mut entries = entries(state, form, batch, &record);
            if starts {
                let plan = entries.last().map(|planned| planned.id);
                let started = started(state.fresh_id(), plan, &record);
                entries.push(state.new_entry(Subject::Batch(batch), Body::BathStarted(started)));
            }
            // Batch, weighing, plan and start in one transaction: a kill leaves all or none.
            spawn_local(async move {
                if state.write_entries(entries).await.is_some() {
                    if let Some(route) = &from {
                        draft::discard(&route.href());
                    }
                    if starts {
                        route::go_from(&from, &Route::Sink);
                    } else {
                        notify(t!("plan-kept"), None);
                        route::go_from(&from, &Route::batch(batch));
                    }
                }
                let _ = busy.try_set(false);
            });
        };
        let keep = Callback::new(move |()| write(false));
        let start = Callback::new(move |()| write(true));
        Self { keep, start, busy, ready }
    }
}

/// The entries of a plan: its batch if it begins one, the weighing if it was changed here, and
/// last the plan.
fn entries(state: AppState, form: PlanForm, batch: Ulid, record: &PlanRecord) -> Vec<NewEntry> {
    let about = Subject::Batch(batch);
    let mut entries = Vec::new();
    if form.batch.is_none() {
        let started = batch_of(form.plant.get_untracked().trim());
        entries.push(state.new_entry(about, Body::BatchStarted(started)));
    }
    let recorded =
        state.book_now(|book| book.batches.get(&batch).and_then(|batch| batch.weighed.clone()));
    let weighed = untrack(|| form.wet_pulp.weighed_pulp()).map(|pulp| pulp.entry);
    if let Some(weighed) = weighed
        && recorded.as_ref().is_none_or(|recorded| {
            recorded.dryness != weighed.dryness
                && differs(recorded.dryness.value, weighed.dryness.value)
                || differs(recorded.wet_mass_g.value, weighed.wet_mass_g.value)
        })
    {
        entries.push(state.new_entry(about, Body::Weighed(weighed)));
    }
    entries.push(state.new_entry(about, Body::Planned(Box::new(record.clone()))));
    entries
}

/// A batch that a plan begins, named by its plant, if that was said, and the date.
fn batch_of(plant: &str) -> BatchStarted {
    let date = clock::local_date(clock::now());
    let name = if plant.is_empty() {
        t_with!("plan-unnamed", &[("date", &date)])
    } else {
        t_with!("start-usual_name", &[("fibre", plant), ("date", &date)])
    };
    let known = FIBRES.iter().find(|row| t(&format!("fibre-{}", row.id)) == plant);
    BatchStarted {
        name,
        fibre: plant.to_owned(),
        fibre_key: known.map(|row| row.id.to_owned()),
        ..BatchStarted::default()
    }
}

/// The names of the fibres in the table.
pub fn fibre_names() -> Vec<String> {
    FIBRES.iter().map(|row| t(&format!("fibre-{}", row.id))).collect()
}

/// The start of a bath by its plan. The amounts are those that the plan said to measure out;
/// nobody measured them: marked as computed, or as assumed if what they rest on is.
pub fn started(bath: Ulid, plan: Option<Ulid>, record: &PlanRecord) -> BathStarted {
    let out = BathToMeasure::of(record).whole;
    let basis = record.product_amount.figure().basis;
    let water = in_millilitres(out.water + out.dose.water());
    BathStarted {
        bath,
        plan,
        oxidant: record.oxidant,
        product: record.product.shelf,
        product_amount: Some(match out.dose.amount() {
            BleachAmount::Powder(mass) => Amount::MassG(as_planned(in_grams(mass), basis)),
            BleachAmount::Bottle(volume) => {
                Amount::VolumeMl(as_planned(in_millilitres(volume), basis))
            }
        }),
        water_added_ml: Some(as_planned(water, record.water_to_add_ml.basis)),
        celsius: None,
        schedule: record.schedule.clone(),
    }
}

/// An amount that a plan said, which nobody measured.
fn as_planned(value: f64, rests_on: Basis) -> Figure {
    Estimate::exact(value, rests_on.max(Basis::Computed))
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
        assert_eq!(as_planned(65.0, Basis::Measured), Estimate::exact(65.0, Basis::Computed));
        assert_eq!(as_planned(65.0, Basis::Assumed).basis, Basis::Assumed);
    }
}
