//! How the app gets onto the home screen, for this browser; nothing once it is there.

use leptos::{prelude::*, task::spawn_local};

use crate::{
    components::icon,
    i18n::t,
    platform::install::{self, InstallWay, use_install},
};

#[component]
pub fn InstallSection() -> impl IntoView {
    let way = use_install();
    let how = move || match way.get() {
        InstallWay::Installed => ().into_any(),
        InstallWay::Prompt => view! {
            <p>{t!("install-why")}</p>
            <button class="button" on:click=move |_| spawn_local(install::prompt())>
                <icon::Plus />{t!("install-do")}
            </button>
        }
        .into_any(),
        InstallWay::ShareMenu => view! {
            <p>{t!("install-why")}</p>
            <div class="install-steps">
                {drawing()}
                <ol>
                    <li>{t!("install-share-1")}</li>
                    <li>{t!("install-share-2")}</li>
                    <li>{t!("install-share-3")}</li>
                </ol>
            </div>
        }
        .into_any(),
        InstallWay::BrowserMenu => view! {
            <p>{t!("install-why")}</p>
            <p>{t!("help-phone_install")}</p>
        }
        .into_any(),
    };
    view! {
        <Show when=move || way.get() != InstallWay::Installed>
            <section class="card stack" id="install">
                <h2>{t!("install-head")}</h2>
                {how}
            </section>
        </Show>
    }
}

/// A phone with the three presses numbered: the bar at its foot, a line of the list that it
/// opens, and the new sheet on the home screen. A sketch of ours, like no phone's signs.
fn drawing() -> impl IntoView {
    let number = |x: u32, y: u32, n: u32| {
        view! {
            <g>
                <circle cx=x cy=y r="9" fill="var(--press)" stroke="none" />
                <text x=x y=y + 4 text-anchor="middle" font-size="12" font-weight="700"
                    fill="var(--press-ink)" stroke="none">{n}</text>
            </g>
        }
    };
    view! {
        <svg class="install-drawing" viewBox="0 0 190 150" fill="none" stroke="currentColor"
            stroke-width="2" stroke-linecap="round" stroke-linejoin="round" role="img"
            aria-label=t!("install-drawing")>
            <rect x="6" y="6" width="78" height="138" rx="10" />
            <path d="M6 122h78M16 20h46M16 30h34" />
            <path d="M18 52h54M18 66h54M18 80h54" stroke-width="1.500" />
            <rect x="14" y="88" width="62" height="20" rx="4" fill="var(--press-soft)" />
            <path d="M22 98h28" />
            {number(45, 133, 1)}
            {number(64, 98, 2)}
            <path d="M92 75h8m-4-4 4 4-4 4" />
            <rect x="106" y="6" width="78" height="138" rx="10" />
            <rect x="116" y="20" width="16" height="16" rx="3" />
            <rect x="138" y="20" width="16" height="16" rx="3" />
            <rect x="160" y="20" width="16" height="16" rx="3" />
            <rect x="116" y="44" width="16" height="16" rx="3" />
            <rect x="138" y="44" width="16" height="16" rx="3" fill="var(--press-soft)" />
            <path d="M141 50c4-1 7 1 10 0M141 54c4-1 7 1 10 0" stroke-width="1.500" />
            {number(160, 62, 3)}
        </svg>
    }
}
