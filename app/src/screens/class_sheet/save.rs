//! Saves the bath of the class as one plan: of its batch, or of one that it begins.

use bleachfield_core::{
    class_sheet::{ClassRequest, ClassSheet},
    journal::{BatchStarted, Body, Subject},
};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::form::ClassForm;
use crate::{
    components::notify,
    i18n::{t, t_with},
    platform::{clock, draft},
    route::{self, Route},
    state::app_state,
};

#[component]
pub fn SavePlan(form: ClassForm, request: ClassRequest, sheet: ClassSheet) -> impl IntoView {
    let state = app_state();
    let busy = RwSignal::new(false);
    let Ok(Some(record)) = sheet.plan_of_all(&request) else { return ().into_any() };
    let record = StoredValue::new(record);
    let save = move |_| {
        if busy.get_untracked() {
            return;
        }
        busy.set(true);
        let from = route::current();
        let batch = form.batch.unwrap_or_else(|| state.fresh_id());
        let about = Subject::Batch(batch);
        let mut bodies = Vec::new();
        if form.batch.is_none() {
            let date = clock::local_date(clock::now());
            let name = t_with!("class-batch_name", &[("date", &date)]);
            bodies.push((about, Body::BatchStarted(BatchStarted { name, ..Default::default() })));
        }
        bodies.push((about, Body::Planned(Box::new(record.get_value()))));
        spawn_local(async move {
            if state.write_all(bodies).await.is_some() {
                if let Some(route) = &from {
                    draft::discard(&route.href());
                }
                notify(t!("plan-kept"), None);
                route::go_from(&from, &Route::batch(batch));
            }
            let _ = busy.try_set(false);
        });
    };
    view! {
        <button class="button plain" disabled=move || busy.get() on:click=save>{t!("class-save")}</button>
        <p class="small soft">{t!("class-save_why")}</p>
    }
    .into_any()
}
