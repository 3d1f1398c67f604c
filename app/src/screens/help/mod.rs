//! Help: emergencies, this device and its preferences, methods, all cautions, and sources.

mod examples;
mod glossary;
mod install;
mod methods;
mod preferences;
mod this_device;
mod unreadable;

pub use preferences::preference_tick;

use bleachfield_core::caution::CautionId;
use leptos::prelude::*;

use self::{
    examples::Examples, glossary::Glossary, install::InstallSection, methods::Methods,
    preferences::PreferencesScreen, this_device::ThisDevice,
};
use crate::{
    components::{Page, icon},
    i18n::{has_message, key, t},
    platform::demo,
    route::Route,
    screens::demo::EnterDemo,
};

/// The entry point of the lazy piece.
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::Preferences => view! { <PreferencesScreen /> }.into_any(),
        Route::Glossary => view! { <Glossary /> }.into_any(),
        _ => view! { <Help /> }.into_any(),
    }
}

/// The screen at `/help`.
#[component]
pub fn Help() -> impl IntoView {
    view! {
        <Page title=t!("place-help")>
            <div class="stack wide">
                <Emergencies />
                <ThisDevice />
                <InstallSection />
                <DemoSection />
                <a href=Route::Preferences.href() class="button plain">{t!("help-preferences")}</a>
                <a href=Route::Glossary.href() class="button plain">{t!("glossary-title")}</a>
                <a href=Route::RestsOn.href() class="button plain">{t!("learning-link")}</a>
                <Methods />
                <Examples />
                <section class="stack">
                    <h2>{t!("help-cautions_head")}</h2>
                    <details class="more">
                        <summary>{t!("help-cautions_all")}</summary>
                        <div class="inside stack">{cautions()}</div>
                    </details>
                </section>
                <section class="stack">
                    <h2>{t!("help-sources_head")}</h2>
                    <p>{t!("help-sources_say")}</p>
                    <ul>{sources()}</ul>
                    <p class="small soft">{t!("help-not")}</p>
                </section>
            </div>
        </Page>
    }
}

/// The way into the demo studio, or that this is it.
#[component]
fn DemoSection() -> impl IntoView {
    view! {
        <section class="card stack">
            <h2>{t!("demo-name")}</h2>
            {if demo::is_open() {
                view! { <p>{t!("demo-here")}</p> }.into_any()
            } else {
                view! { <EnterDemo /> }.into_any()
            }}
        </section>
    }
}

/// What to do at once. First on the page, never folded.
#[component]
fn Emergencies() -> impl IntoView {
    let lines = [
        key!("help-wrong_smell"),
        key!("help-wrong_eye"),
        key!("help-wrong_skin"),
        key!("help-wrong_swallowed"),
        key!("help-wrong_spill"),
    ];
    view! {
        <section class="caution danger">
            <span class="severity"><icon::Hand />{t!("help-wrong_head")}</span>
            <ul>{lines.map(|key| view! { <li>{t(key)}</li> }).collect_view()}</ul>
            <p>{t!("help-wrong_label")}</p>
        </section>
    }
}

/// All cautions. Where the message has values of a bath, its general form is under `-help`.
fn cautions() -> AnyView {
    let say = |id: &CautionId| {
        let general = id.say().replace("-say", "-help");
        t(if has_message(&general) { &general } else { id.say() })
    };
    CautionId::ALL
        .iter()
        .map(|id| view! { <div><h3>{t(&id.title())}</h3><p>{say(id)}</p></div> })
        .collect_view()
        .into_any()
}

fn sources() -> AnyView {
    (1..=10).map(|n| view! { <li>{t(&format!("help-source-{n}"))}</li> }).collect_view().into_any()
}
