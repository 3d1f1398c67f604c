//! A photo from the store.

use bleachfield_core::journal::PhotoId;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::Url;

use super::BottomSheet;
use crate::{i18n::t, state::app_state, worker};

/// A photo, or words in its place while it is not here.
///
/// A photo that came without a small copy gets one when it is first shown small.
#[component]
pub fn Picture(
    photo: PhotoId,
    /// For a screen reader, and where the photo is missing.
    #[prop(into)]
    alt: String,
    /// The small copy, for lists.
    #[prop(optional)]
    small: bool,
    /// A press shows the whole photo.
    #[prop(optional)]
    opens: bool,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let alt = StoredValue::new(alt);
    let picture = view! { <Shown photo=photo.clone() small alt=alt.get_value() /> };
    if !opens {
        return picture.into_any();
    }
    view! {
        <button class="picture-button" on:click=move |_| open.set(true)>{picture}</button>
        <BottomSheet open title=alt.get_value()>
            <Shown photo=photo.clone() small=false alt=alt.get_value() />
        </BottomSheet>
    }
    .into_any()
}

#[derive(Clone, PartialEq)]
enum PictureState {
    Opening,
    /// An object address, to be given back.
    Here(String),
    /// Not on this phone.
    Gone,
}

#[component]
fn Shown(photo: PhotoId, small: bool, alt: String) -> impl IntoView {
    let studio = app_state();
    let seen = RwSignal::new(PictureState::Opening);
    spawn_local(async move {
        let kept = match (small, studio.thumb(&photo).await) {
            (true, Some(thumb)) => Some(thumb),
            (small, _) => match studio.photo(&photo).await {
                Some(whole) if small => {
                    let thumb = worker::thumbnail(&whole).await;
                    if let (Some(thumb), Some(store)) = (&thumb, studio.store()) {
                        // Without it the next look makes it again.
                        let _ = store.put_thumb(&photo, thumb).await;
                    }
                    thumb.or(Some(whole))
                }
                whole => whole,
            },
        };
        let address = kept
            .and_then(|kept| kept.to_blob())
            .and_then(|blob| Url::create_object_url_with_blob(&blob).ok());
        let now = address.map_or(PictureState::Gone, PictureState::Here);
        // The screen may be gone by now: then give the address back at once.
        if let Some(PictureState::Here(address)) = seen.try_set(now) {
            let _ = Url::revoke_object_url(&address);
        }
    });
    on_cleanup(move || {
        if let PictureState::Here(address) = seen.get_untracked() {
            let _ = Url::revoke_object_url(&address);
        }
    });
    let class = if small { "picture small" } else { "picture" };
    (move || match seen.get() {
        PictureState::Opening => view! { <span class=class aria-busy="true"></span> }.into_any(),
        PictureState::Here(address) => {
            view! { <img class=class src=address alt=alt.clone() /> }.into_any()
        }
        PictureState::Gone => view! { <span class=class>{t!("photo-gone")}</span> }.into_any(),
    })
    .into_any()
}
