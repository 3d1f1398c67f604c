//! Offers once, after the first batch, to put the app on the home screen: a line on the list
//! of batches, which can be dismissed for good.

use leptos::prelude::*;

use crate::{
    i18n::t,
    platform::{
        demo,
        install::{InstallWay, use_install},
        local_storage,
    },
    route::Route,
    state::app_state,
};

/// In local storage once it was answered: `true`.
const KEY: &str = "bleachfield.install_offered";

#[component]
pub fn InstallOffer() -> impl IntoView {
    let way = use_install();
    let answered = RwSignal::new(local_storage::get(KEY).unwrap_or(false));
    let answer = move || {
        local_storage::set(KEY, &true);
        answered.set(true);
    };
    // Never over a running bath; a browser that only has a menu offers nothing.
    let offered = Memo::new(move |_| {
        let has_way = matches!(way.get(), InstallWay::Prompt | InstallWay::ShareMenu);
        let calm = app_state().book(|book| !book.batches.is_empty() && book.running().is_empty());
        has_way && calm && !answered.get() && !demo::is_open()
    });
    view! {
        <Show when=move || offered.get()>
            <div class="caution note">
                <p>{t!("install-offer")}</p>
                <div class="row even">
                    <a href=Route::Help.href() class="button plain" on:click=move |_| answer()>
                        {t!("install-offer_how")}
                    </a>
                    <button class="button plain" on:click=move |_| answer()>
                        {t!("install-offer_no")}
                    </button>
                </div>
            </div>
        </Show>
    }
}
