//! A photo from the store.

use bleachfield_core::journal::PhotoId;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::BottomSheet;
use crate::{
    i18n::t,
    platform::object_url::ObjectUrl,
    state::{AppState, app_state},
    storage::PhotoBytes,
    worker,
};

/// A photo, or a text in its place while it is not on this phone.
///
/// A photo without a thumbnail gets one when it is first shown small.
#[component]
pub fn Picture(
    photo: PhotoId,
    /// Alternative text.
    #[prop(into)]
    alt: String,
    /// The thumbnail, for lists.
    #[prop(optional)]
    small: bool,
    /// A press shows the whole photo.
    #[prop(optional)]
    opens: bool,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let picture = view! { <Image photo=photo.clone() small alt=alt.clone() /> };
    if !opens {
        return picture.into_any();
    }
    view! {
        <button class="picture-button" on:click=move |_| open.set(true)>{picture}</button>
        <BottomSheet open title=alt.clone()>
            <Image photo=photo.clone() small=false alt=alt.clone() />
        </BottomSheet>
    }
    .into_any()
}

enum LoadedImage {
    Loading,
    Ready(ObjectUrl),
    /// Not on this phone.
    Missing,
    /// On this phone, and cannot be read.
    Unreadable,
}

#[component]
fn Image(photo: PhotoId, small: bool, alt: String) -> impl IntoView {
    let studio = app_state();
    let image = RwSignal::new(LoadedImage::Loading);
    spawn_local(async move {
        let thumb = if small { thumb(studio, &photo).await } else { None };
        let stored = match thumb {
            Some(thumb) => Ok(Some(thumb)),
            None => studio.read_photo(&photo).await,
        };
        let shown = match stored {
            Ok(Some(stored)) => stored.to_blob().and_then(|blob| ObjectUrl::new(&blob)),
            Ok(None) => None,
            Err(_) => {
                image.try_set(LoadedImage::Unreadable);
                return;
            }
        };
        // If disposed meanwhile, the URL is dropped here.
        image.try_set(shown.map_or(LoadedImage::Missing, LoadedImage::Ready));
    });
    let class = if small { "picture small" } else { "picture" };
    (move || {
        image.with(|image| match image {
            LoadedImage::Loading => view! {
                <span class=class role="img" aria-label=alt.clone() aria-busy="true"></span>
            }
            .into_any(),
            LoadedImage::Ready(url) => {
                view! { <img class=class src=url.to_string() alt=alt.clone() /> }.into_any()
            }
            LoadedImage::Missing => {
                view! { <span class=class>{t!("photo-gone")}</span> }.into_any()
            }
            LoadedImage::Unreadable => {
                view! { <span class=class>{t!("photo-unreadable")}</span> }.into_any()
            }
        })
    })
    .into_any()
}

/// The thumbnail, made and stored if there is none; the whole photo if that fails.
async fn thumb(studio: AppState, photo: &PhotoId) -> Option<PhotoBytes> {
    if let Some(thumb) = studio.thumb(photo).await {
        return Some(thumb);
    }
    let whole = studio.photo(photo).await?;
    let Some(thumb) = worker::thumbnail(&whole).await else { return Some(whole) };
    if let Some(store) = studio.store() {
        // If this fails it is made again next time.
        let _ = store.put_thumb(photo, &thumb).await;
    }
    Some(thumb)
}
