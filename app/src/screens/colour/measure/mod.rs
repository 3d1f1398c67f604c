//! Measuring colours in a photo: marks on it, what they are, what came of it.

mod card;
mod light;
mod marks;
mod result;
mod slot;
mod swatch;
mod ticks;

use bleachfield_core::{
    colour::reference::Light,
    journal::{Body, CardRole, ColourReading, PhotoId, PulpState},
    message::Message,
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;
use web_sys::{Blob, Url};

use crate::{
    components::Page,
    i18n::{key, render, t},
    route::{ColourPurpose, Route},
    state::AppState,
    worker::{self, ColourRequest, ColourResult, PhotoAnalysis},
};
pub use result::foreseen;
use slot::Slots;

/// All that the screen's parts share. Copied freely.
#[derive(Clone, Copy)]
struct MeasureState {
    studio: AppState,
    batch: Ulid,
    purpose: ColourPurpose,
    photo: StoredValue<PhotoId>,
    file: StoredValue<Option<Blob>>,
    /// The photo's object address.
    address: RwSignal<String>,
    looked: RwSignal<Option<Result<PhotoAnalysis, Message>>>,
    marks: RwSignal<Slots>,
    /// The mark that a tap on the photo brings there, and the buttons size.
    chosen: RwSignal<usize>,
    /// A mark is under a finger now.
    moving: RwSignal<bool>,
    /// The white is the person's own card, not copy paper.
    own_white: RwSignal<bool>,
    own_grey: RwSignal<bool>,
    light: RwSignal<Light>,
    pulp: RwSignal<PulpState>,
    found: RwSignal<Option<Result<ColourResult, Message>>>,
    /// Counts what was asked, so that an answer that came too late is dropped.
    asked: StoredValue<u32>,
}

/// `/batch/ID/colour/measure?photo=ID`
pub fn page(studio: AppState, batch: Ulid, photo: PhotoId, purpose: ColourPurpose) -> AnyView {
    let (own_white, own_grey, light) = light::remembered();
    let measuring = MeasureState {
        studio,
        batch,
        purpose,
        photo: StoredValue::new(photo.clone()),
        file: StoredValue::new(None),
        address: RwSignal::new(String::new()),
        looked: RwSignal::new(None),
        marks: RwSignal::new(Slots::default()),
        chosen: RwSignal::new(slot::PULP),
        moving: RwSignal::new(false),
        own_white: RwSignal::new(own_white),
        own_grey: RwSignal::new(own_grey),
        light: RwSignal::new(light),
        pulp: RwSignal::new(PulpState::default()),
        found: RwSignal::new(None),
        asked: StoredValue::new(0),
    };
    measuring.open(photo);
    measuring.follow();
    measuring.as_told();
    let title = match purpose {
        ColourPurpose::Swatch => key!("swatch-measure-title"),
        ColourPurpose::Target => key!("swatch-measure-title_target"),
    };
    view! {
        <Page title=t(title) back=Route::Colour(batch)>
            <div class="stack wide">
                {move || match measuring.looked.get() {
                    None => view! { <p role="status">{t!("swatch-measure-looking")}</p> }.into_any(),
                    Some(Err(why)) => view! {
                        <section class="caution care" role="alert"><p>{render(&why)}</p></section>
                    }
                    .into_any(),
                    Some(Ok(looked)) => measuring.view(looked),
                }}
            </div>
        </Page>
    }
    .into_any()
}

impl MeasureState {
    /// Fetches the photo and has it looked at.
    fn open(self, photo: PhotoId) {
        let address = self.address;
        on_cleanup(move || {
            let _ = Url::revoke_object_url(&address.get_untracked());
        });
        spawn_local({
            let photo = photo.clone();
            async move {
                // It was looked at already if it was just taken.
                if let Some(looked) = worker::held_analysis(photo.as_str()).await {
                    self.begin(Ok(looked));
                }
            }
        });
        spawn_local(async move {
            let looked = match self.studio.photo(&photo).await.and_then(|photo| photo.to_blob()) {
                None => Err(Message::new(key!("photo-gone"))),
                Some(file) => {
                    let looked = worker::analyse(photo.as_str(), &file).await;
                    if let Ok(at) = Url::create_object_url_with_blob(&file)
                        && let Some(late) = address.try_set(at)
                    {
                        let _ = Url::revoke_object_url(&late);
                    }
                    self.file.set_value(Some(file));
                    looked
                }
            };
            self.begin(looked);
        });
    }

    /// Shows what was seen, unless it is shown.
    fn begin(self, looked: Result<PhotoAnalysis, Message>) {
        if !matches!(self.looked.try_get_untracked(), Some(None)) {
            return;
        }
        if let Ok(looked) = &looked {
            self.marks.set(slot::first(self, looked));
        }
        self.looked.set(Some(looked));
    }

    /// Measures anew whenever anything that matters has changed.
    fn follow(self) {
        // Whatever else happens in the book is no reason.
        let cards = Memo::new(move |_| [CardRole::White, CardRole::Grey].map(|r| self.card(r)));
        Effect::new(move |_| {
            let marks = self.marks.get();
            let [white, grey] = cards.get();
            let light = self.light.get();
            light::remember(self.own_white.get(), self.own_grey.get(), light);
            if self.moving.get() || !matches!(self.looked.get(), Some(Ok(_))) {
                return;
            }
            let file = self.file.get_value();
            let number = self.asked.get_value().wrapping_add(1);
            self.asked.set_value(number);
            let photo = self.photo.with_value(PhotoId::to_string);
            let asked = ColourRequest { photo, marks: marks.marks(), white, grey, light };
            spawn_local(async move {
                let found = worker::measure_colour(asked, file).await;
                if self.asked.try_get_value() == Some(number) {
                    let _ = self.found.try_set(Some(found));
                }
            });
        });
    }

    /// Takes the pulp's state from the photo's entry; followed, for this screen may be made
    /// while that is still being written.
    fn as_told(self) {
        let told = Memo::new(move |_| {
            self.studio.book(|book| {
                book.batches.get(&self.batch)?.visible_entries().find_map(|told| match &told.body {
                    Body::Photo(p) if self.photo.with_value(|photo| p.photo == *photo) => {
                        Some(p.pulp)
                    }
                    _ => None,
                })
            })
        });
        Effect::new(move |_| {
            if let Some(told) = told.get() {
                self.pulp.set(told);
            }
        });
    }

    /// The own card's L*, a*, b*, if it is to be used and its values are known.
    fn card(self, role: CardRole) -> Option<[f64; 3]> {
        let own = if role == CardRole::White { self.own_white } else { self.own_grey };
        let card = self.studio.book(|book| book.studio.cards.get(&role).cloned());
        card.filter(|_| own.get()).map(|c| [c.lightness, c.a, c.b].map(|figure| figure.value))
    }

    /// What this photo's colour was measured as before, and its entry.
    fn before(self) -> Option<(Ulid, ColourReading)> {
        let photo = self.photo.get_value();
        self.studio.book_now(|book| {
            book.batches.get(&self.batch)?.visible_entries().rev().find_map(|told| {
                match &told.body {
                    Body::ColourReading(c) if c.photo.as_ref() == Some(&photo) => {
                        Some((told.entry.id, (**c).clone()))
                    }
                    _ => None,
                }
            })
        })
    }

    fn view(self, looked: PhotoAnalysis) -> AnyView {
        let own = self.purpose == ColourPurpose::Swatch;
        view! {
            {marks::view(self, looked.clone())}
            {result::view(self)}
            {ticks::view(self, looked)}
            {light::view(self)}
            {if own { swatch::view(self) } else { swatch::target(self) }}
        }
        .into_any()
    }
}
