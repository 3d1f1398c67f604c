//! Keeping the plan, and starting the clock when oxidant meets pulp.

use bleachfield_core::{
    derive::plan_record,
    journal::{Amount, BathStarted, Body, Figure as Kept, PlanRecord, Subject},
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;

use super::{MadePlan, PlanForm};
use crate::{
    components::{BottomSheet, notify},
    i18n::t,
    route::{Route, go},
    state::app_state,
};

/// Two presses: the first keeps the plan and asks for goggles and gloves, the
/// second starts the clock.
#[component]
pub fn StartBath(form: PlanForm, made: MadePlan) -> impl IntoView {
    let record = plan_record(&made.request, &made.plan, made.chosen.used.clone());
    let record = StoredValue::new(record);
    let weighed = StoredValue::new(form.lump.weighed_pulp().map(|lump| lump.entry));
    let asking = RwSignal::new(false);
    let busy = RwSignal::new(false);
    let studio = app_state();
    let about = Subject::Batch(form.batch);

    // The lump is written again only if it was changed here.
    let bodies = move || {
        let known = studio
            .book_now(|book| book.batches.get(&form.batch).and_then(|batch| batch.weighed.clone()));
        let mut bodies = Vec::new();
        if let Some(weighed) = weighed.get_value()
            && known.as_ref().is_none_or(|known| {
                known.dryness != weighed.dryness
                    && differs(known.dryness.value, weighed.dryness.value)
                    || differs(known.wet_mass_g.value, weighed.wet_mass_g.value)
            })
        {
            bodies.push((about, Body::Weighed(weighed)));
        }
        bodies.push((about, Body::Planned(Box::new(record.get_value()))));
        bodies
    };
    let keep = move |_| {
        busy.set(true);
        spawn_local(async move {
            if studio.write_all(bodies()).await.is_some() {
                notify(t!("plan-kept"), None);
                go(&Route::batch(form.batch));
            }
            let _ = busy.try_set(false);
        });
    };
    let start = move |_| {
        busy.set(true);
        spawn_local(async move {
            let Some(ids) = studio.write_all(bodies()).await else {
                let _ = busy.try_set(false);
                return;
            };
            let bath = studio.fresh_id();
            let started = started(bath, ids.last().copied(), &record.get_value());
            if studio.write(about, Body::BathStarted(started)).await.is_some() {
                go(&Route::Sink);
            }
            let _ = busy.try_set(false);
        });
    };
    view! {
        <div class="stack">
            <button class="button touch" on:click=move |_| asking.set(true)>{t!("plan-start")}</button>
            <button class="button plain" disabled=move || busy.get() on:click=keep>
                {t!("plan-keep")}
            </button>
        </div>
        <BottomSheet open=asking title=t!("plan-start_head")>
            <div class="stack">
                <ul>
                    <li>{t!("plan-ready_wear")}</li>
                    <li>{t!("plan-ready_air")}</li>
                    <li>{t!("plan-ready_add")}</li>
                    <li>{t!("plan-ready_tests")}</li>
                </ul>
                <p class="small soft">{t!("plan-start_clock")}</p>
                <button class="button touch" disabled=move || busy.get() on:click=start>
                    {t!("plan-start_now")}
                </button>
            </div>
        </BottomSheet>
    }
}

fn started(bath: Ulid, plan: Option<Ulid>, record: &PlanRecord) -> BathStarted {
    let exact = |figure: Kept| Kept { low: figure.value, high: figure.value, ..figure };
    BathStarted {
        bath,
        plan,
        oxidant: record.oxidant,
        product: record.product.shelf,
        product_amount: Some(match record.product_amount {
            Amount::MassG(g) => Amount::MassG(exact(g)),
            Amount::VolumeMl(ml) => Amount::VolumeMl(exact(ml)),
        }),
        water_added_ml: Some(exact(record.water_to_add_ml)),
        celsius: None,
        schedule: record.schedule.clone(),
    }
}

/// By more than rounding in a field.
fn differs(one: f64, other: f64) -> bool {
    (one - other).abs() > 1e-3 * one.abs().max(other.abs())
}
