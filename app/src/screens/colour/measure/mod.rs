//! Measuring colours in a photo: marks, references, result, saving.

mod mark_choice;
mod marks;
mod reference_card;
pub mod references;
mod result;
mod save;
mod slot;

use bleachfield_core::{
    colour::{
        camera::taught::TaughtCamera,
        difference::{self, ColourDifference},
        reference::Light,
    },
    derive::swatches,
    journal::{Body, CardRole, ColourReading, PhotoId, PulpState},
    message::Message,
};
use leptos::prelude::*;
use leptos::task::spawn_local;
use ulid::Ulid;
use web_sys::Blob;

use crate::{
    components::{Page, PhotoSetup},
    i18n::{key, render, t},
    platform::object_url::ObjectUrl,
    route::{ColourPurpose, Route},
    state::AppState,
    worker::{self, ColourRequest, ColourResult, PhotoAnalysis},
};
use references::References;
pub use result::predicted_drying;
use slot::Slots;

/// The state of the screen; copies share their signals.
#[derive(Clone, Copy)]
struct MeasureState {
    studio: AppState,
    batch: Ulid,
    purpose: ColourPurpose,
    photo: StoredValue<PhotoId>,
    file: StoredValue<Option<Blob>>,
    url: RwSignal<Option<ObjectUrl>>,
    analysis: RwSignal<Option<Result<PhotoAnalysis, Message>>>,
    marks: RwSignal<Slots>,
    /// The slot that taps and the size buttons act on.
    chosen: RwSignal<usize>,
    /// A mark is being dragged.
    dragging: RwSignal<bool>,
    /// The white is the person's own card, not copy paper.
    own_white: RwSignal<bool>,
    own_grey: RwSignal<bool>,
    light: RwSignal<Light>,
    pulp: RwSignal<PulpState>,
    result: RwSignal<Option<Result<ColourResult, Message>>>,
    /// Number of the last request; results of earlier ones are dropped.
    request: StoredValue<u32>,
}

/// `/batch/ID/colour/measure?photo=ID`
pub fn page(studio: AppState, batch: Ulid, photo: PhotoId, purpose: ColourPurpose) -> AnyView {
    let References { own_white, own_grey, light } = References::last_used();
    let measuring = MeasureState {
        studio,
        batch,
        purpose,
        photo: StoredValue::new(photo.clone()),
        file: StoredValue::new(None),
        url: RwSignal::new(None),
        analysis: RwSignal::new(None),
        marks: RwSignal::new(Slots::default()),
        chosen: RwSignal::new(slot::PULP),
        dragging: RwSignal::new(false),
        own_white: RwSignal::new(own_white),
        own_grey: RwSignal::new(own_grey),
        light: RwSignal::new(light),
        pulp: RwSignal::new(PulpState::default()),
        result: RwSignal::new(None),
        request: StoredValue::new(0),
    };
    measuring.load(photo);
    measuring.measure_on_change();
    measuring.follow_pulp_state();
    let title = match purpose {
        ColourPurpose::Swatch => key!("swatch-measure-title"),
        ColourPurpose::Target => key!("swatch-measure-title_target"),
    };
    view! {
        <Page title=t(title) back=Route::Colour(batch)>
            <div class="stack wide">
                {move || match measuring.analysis.get() {
                    None => view! { <p role="status">{t!("swatch-measure-looking")}</p> }.into_any(),
                    Some(Err(why)) => view! {
                        <section class="caution care" role="alert"><p>{render(&why)}</p></section>
                        <PhotoSetup />
                    }
                    .into_any(),
                    Some(Ok(analysis)) => measuring.view(analysis),
                }}
            </div>
        </Page>
    }
    .into_any()
}

impl MeasureState {
    /// Loads and analyses the photo.
    fn load(self, photo: PhotoId) {
        spawn_local({
            let photo = photo.clone();
            async move {
                // A photo that was just taken is analysed already.
                if let Some(analysis) = worker::held_analysis(photo.as_str()).await {
                    self.start(Ok(analysis));
                }
            }
        });
        spawn_local(async move {
            let analysis = match self.studio.photo(&photo).await.and_then(|photo| photo.to_blob()) {
                None => Err(Message::new(key!("photo-gone"))),
                Some(file) => {
                    let analysis = worker::analyse(photo.as_str(), &file).await;
                    if let Some(url) = ObjectUrl::new(&file) {
                        self.url.try_set(Some(url));
                    }
                    self.file.set_value(Some(file));
                    analysis
                }
            };
            self.start(analysis);
        });
    }

    /// Shows the first analysis to arrive.
    fn start(self, analysis: Result<PhotoAnalysis, Message>) {
        if !matches!(self.analysis.try_get_untracked(), Some(None)) {
            return;
        }
        if let Ok(analysis) = &analysis {
            self.marks.set(Slots::initial(self, analysis));
        }
        self.analysis.set(Some(analysis));
    }

    /// Measures again whenever marks, references or light change.
    fn measure_on_change(self) {
        // Memo: other changes of the book do not matter.
        let cards = Memo::new(move |_| [CardRole::White, CardRole::Grey].map(|r| self.card(r)));
        let lesson = Memo::new(move |_| self.lesson());
        Effect::new(move |_| {
            let marks = self.marks.get().marks();
            let [white, grey] = cards.get();
            let (own_white, own_grey) = (self.own_white.get(), self.own_grey.get());
            let light = self.light.get();
            let camera = lesson.get();
            References { own_white, own_grey, light }.remember();
            if self.dragging.get() || !matches!(self.analysis.get(), Some(Ok(_))) {
                return;
            }
            let file = self.file.get_value();
            let number = self.request.get_value().wrapping_add(1);
            self.request.set_value(number);
            let photo = self.photo.with_value(PhotoId::to_string);
            let request = ColourRequest { photo, marks, white, grey, light, camera };
            spawn_local(async move {
                let result = worker::measure_colour(request, file).await;
                if self.request.try_get_value() == Some(number) {
                    self.result.try_set(Some(result));
                }
            });
        });
    }

    /// Takes the pulp's state from the photo's entry, which may still be being written.
    fn follow_pulp_state(self) {
        let state = Memo::new(move |_| {
            self.studio.book(|book| {
                let mut entries = book.batches.get(&self.batch)?.visible_entries();
                entries.find_map(|entry| match &entry.body {
                    Body::Photo(p) if self.photo.with_value(|photo| p.photo == *photo) => {
                        Some(p.pulp)
                    }
                    _ => None,
                })
            })
        });
        Effect::new(move |_| {
            if let Some(state) = state.get() {
                self.pulp.set(state);
            }
        });
    }

    /// L*, a*, b* of the person's own card, if it is in use and its values are known.
    fn card(self, role: CardRole) -> Option<[f64; 3]> {
        let own = if role == CardRole::White { self.own_white } else { self.own_grey };
        let card = self.studio.book(|book| book.studio.cards.get(&role).cloned());
        card.filter(|_| own.get()).map(|c| [c.lightness, c.a, c.b].map(|figure| figure.value))
    }

    /// What the phone that took the photo was taught in this light, with the entry.
    fn lesson(self) -> Option<(Ulid, TaughtCamera)> {
        let photo = self.photo.get_value();
        let light = self.light.get();
        self.studio.book(|book| {
            let device = book.device_of_photo(self.batch, &photo)?;
            book.lesson(&device, light)
        })
    }

    /// The change since the last swatch of the batch from another photo in the same state.
    fn since_before(self, reading: &ColourReading) -> Option<ColourDifference> {
        let photo = self.photo.get_value();
        let pulp = self.pulp.get_untracked();
        self.studio.book_now(|book| {
            let taken = book.device_of_photo(self.batch, &photo)?;
            let all = swatches(book.batches.get(&self.batch)?);
            let before = all
                .into_iter()
                .rev()
                .find(|one| one.photo() != Some(&photo) && one.reading.pulp == pulp)?;
            Some(if before.device == taken {
                before.reading.difference_to(reading)
            } else {
                let figures = [reading.lightness, reading.a, reading.b];
                difference::unrelated(before.figures(), figures)
            })
        })
    }

    /// The last reading of this photo, with its entry.
    fn previous_reading(self) -> Option<(Ulid, ColourReading)> {
        let photo = self.photo.get_value();
        self.studio.book_now(|book| {
            let mut entries = book.batches.get(&self.batch)?.visible_entries().rev();
            entries.find_map(|entry| match &entry.body {
                Body::ColourReading(c) if c.photo.as_ref() == Some(&photo) => {
                    Some((entry.entry.id, (**c).clone()))
                }
                _ => None,
            })
        })
    }

    /// The photo's address; empty until it is loaded.
    fn photo_src(self) -> String {
        self.url.with(|url| url.as_ref().map(ObjectUrl::to_string).unwrap_or_default())
    }

    fn view(self, analysis: PhotoAnalysis) -> AnyView {
        view! {
            {marks::view(self, &analysis)}
            {result::view(self)}
            {mark_choice::view(self, analysis)}
            {references::view(self)}
            <details class="more">
                <summary>{t!("drawing-photo_head")}</summary>
                <div class="inside"><PhotoSetup /></div>
            </details>
            {match self.purpose {
                ColourPurpose::Swatch => save::swatch(self),
                ColourPurpose::Target => save::target(self),
            }}
        }
        .into_any()
    }
}
