//! No bath is running: what this place is for, and how to begin.

use leptos::prelude::*;

use crate::{components::icon, i18n::word, route::Route};

#[component]
pub fn Empty() -> impl IntoView {
    view! {
        <section class="card empty">
            <icon::Sink />
            <h2>{word("sink.empty.head")}</h2>
            <p>{word("sink.empty.what")}</p>
            <ul class="left">
                <li>{word("sink.empty.cues")}</li>
                <li>{word("sink.empty.readings")}</li>
                <li>{word("sink.empty.stop")}</li>
            </ul>
            <a href=Route::NewBatch.href() class="button touch"><icon::Plus />{word("sink.empty.new")}</a>
            <a href=Route::Calculator.href() class="button plain touch"><icon::Mix />{word("sink.empty.mix")}</a>
        </section>
    }
}
