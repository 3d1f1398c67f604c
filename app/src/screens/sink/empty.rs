//! Shown while no bath runs: what the Sink is for, and how to begin.

use leptos::prelude::*;

use crate::{components::icon, i18n::t, route::Route};

#[component]
pub fn EmptySink() -> impl IntoView {
    view! {
        <section class="card empty">
            <icon::Sink />
            <h2>{t!("sink-empty-head")}</h2>
            <p>{t!("sink-empty-what")}</p>
            <ul class="left">
                <li>{t!("sink-empty-cues")}</li>
                <li>{t!("sink-empty-readings")}</li>
                <li>{t!("sink-empty-stop")}</li>
            </ul>
            <a href=Route::NewPlan.href() class="button touch">{t!("sink-empty-plan")}</a>
            <a href=Route::NewBatch.href() class="button plain touch"><icon::Plus />{t!("sink-empty-new")}</a>
            <a href=Route::Calculator.href() class="button plain touch"><icon::Mix />{t!("sink-empty-mix")}</a>
        </section>
    }
}
