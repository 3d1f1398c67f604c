//! Help: what to do when something goes wrong, every caution, how things are
//! done, this phone and its preferences, and where the numbers come from.

mod methods;
mod preferences;
mod this_phone;

use bleachfield_core::caution::CautionId;
use leptos::prelude::*;

use self::{methods::Methods, preferences::PreferencesScreen, this_phone::ThisPhone};
use crate::{
    components::{Page, icon},
    i18n::{has_message, key, t},
    route::Route,
};

/// The piece's entry point.
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::Preferences => view! { <PreferencesScreen /> }.into_any(),
        _ => view! { <Help /> }.into_any(),
    }
}

/// The screen at `/help`.
#[component]
pub fn Help() -> impl IntoView {
    view! {
        <Page title=t!("place-help")>
            <div class="stack wide">
                <WhenItGoesWrong />
                <ThisPhone />
                <a href=Route::Preferences.href() class="button plain">{t!("help-preferences")}</a>
                <Methods />
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

/// First on the page, never folded: what to do at once.
#[component]
fn WhenItGoesWrong() -> impl IntoView {
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

/// Every hazard that Bleachfield knows. Those whose sentences carry numbers of
/// a bath are told here in general, under `-help`.
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
