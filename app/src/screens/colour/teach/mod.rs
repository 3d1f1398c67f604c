//! Teaching this phone: a photo of a 24-patch chart, or of swatches of known colour, tells how its
//! camera shows colours in one kind of light.

mod again;
mod known;

use bleachfield_core::{
    colour::{PatchRole, camera::chart::ChartEdition, reference::Light},
    journal::{Body, CameraTaught, Subject},
};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{mark_board::MarkSet, photo_input::PassingPhoto, refusal};
use crate::{
    components::{Page, RadioGroup, TextField, notify},
    i18n::{fixed, key, render, t, t_with},
    platform::clock,
    route::Route,
    state::AppState,
    worker::{self, PatchMark, PhotoAnalysis, TeachRequest},
};
use known::KnownSwatches;

/// What is photographed.
#[derive(Clone, Copy, PartialEq)]
enum Known {
    Chart(ChartEdition),
    Swatches,
}

/// Names of the corner patches, in order round the chart.
const CORNERS: [&str; 4] = ["brown", "blue_green", "black", "white"];
/// Where their marks start, as shares of width and height.
const CORNER_PLACES: [[f64; 2]; 4] = [[0.15, 0.2], [0.85, 0.2], [0.85, 0.8], [0.15, 0.8]];

/// The state of the screen; copies share their signals.
#[derive(Clone, Copy)]
struct TeachState {
    studio: AppState,
    photo: PassingPhoto,
    known: RwSignal<Known>,
    light: RwSignal<Light>,
    corners: RwSignal<[[f64; 2]; 4]>,
    swatches: KnownSwatches,
    name: RwSignal<String>,
    chosen: RwSignal<usize>,
    dragging: RwSignal<bool>,
    result: RwSignal<Option<Taught>>,
    /// Number of the last request; results of earlier ones are dropped.
    request: StoredValue<u32>,
    saved: RwSignal<bool>,
}

/// What the photo taught, or why it cannot: each reason with what to do about it.
type Taught = Result<CameraTaught, Vec<(String, String)>>;

/// `/colour/teach`
pub fn page(studio: AppState) -> AnyView {
    let state = TeachState {
        studio,
        photo: PassingPhoto::new(),
        known: RwSignal::new(Known::Chart(ChartEdition::FromNovember2014)),
        light: RwSignal::new(Light::Daylight),
        corners: RwSignal::new(CORNER_PLACES),
        swatches: KnownSwatches::new(),
        name: RwSignal::new(String::new()),
        chosen: RwSignal::new(0),
        dragging: RwSignal::new(false),
        result: RwSignal::new(None),
        request: StoredValue::new(0),
        saved: RwSignal::new(false),
    };
    state.teach_on_change();
    let known = vec![
        (Known::Chart(ChartEdition::FromNovember2014), t(ChartEdition::FromNovember2014.key())),
        (Known::Chart(ChartEdition::BeforeNovember2014), t(ChartEdition::BeforeNovember2014.key())),
        (Known::Swatches, t!("teach-known-swatches")),
    ];
    let lights = [Light::Daylight, Light::Bulb, Light::GoodLamp];
    let lights = lights.map(|light| (light, t(light.key()))).to_vec();
    view! {
        <Page title=t!("teach-title") back=Route::Batches>
            <div class="stack wide">
                <p>{t!("teach-what")}</p>
                <p class="small">{t!("teach-optional")}</p>
                {move || state.taught_before()}
                <RadioGroup label=t!("teach-known") value=state.known options=known />
                <RadioGroup label=t!("swatch-reference-light") value=state.light options=lights />
                <p class="small">{move || t(match state.known.get() {
                    Known::Chart(_) => key!("teach-how-chart"),
                    Known::Swatches => key!("teach-how-swatches"),
                })}</p>
                {state.photo.buttons()}
                {move || match state.photo.analysis.get() {
                    Some(Ok(analysis)) => Some(state.marks(&analysis)),
                    _ => None,
                }}
                {move || state.outcome()}
                {move || state.saved.get().then(|| again::view(studio, state.light.get()))}
            </div>
        </Page>
    }
    .into_any()
}

impl TeachState {
    /// What this phone was taught in the chosen light.
    fn taught_before(self) -> Option<AnyView> {
        let key = (self.studio.device(), self.light.get());
        let (taught, at) = self.studio.book(|book| {
            book.studio.cameras.get(&key).map(|(taught, _, at)| (taught.clone(), *at))
        })?;
        let text = t_with!(
            "teach-known_already",
            &[
                ("day", &clock::local_date(at)),
                ("name", &taught.surface_name),
                ("before", &fixed(taught.before_delta_e00, 1)),
                ("after", &fixed(taught.after_delta_e00, 1)),
            ],
        );
        Some(view! { <section class="card"><p>{text}</p></section> }.into_any())
    }

    fn marks(self, analysis: &PhotoAnalysis) -> AnyView {
        let aspect = f64::from(analysis.height) / f64::from(analysis.width);
        let set = match self.known.get() {
            Known::Chart(_) => self.corner_marks(aspect),
            Known::Swatches => self.swatches.marks(self, aspect),
        };
        let rows = (self.known.get() == Known::Swatches).then(|| self.swatches.rows());
        view! {
            <p class="small">{t(match self.known.get() {
                Known::Chart(_) => key!("teach-mark-corners"),
                Known::Swatches => key!("teach-mark-swatches"),
            })}</p>
            {set.view()}
            {rows}
        }
        .into_any()
    }

    fn corner_marks(self, aspect: f64) -> MarkSet {
        let corners = self.corners;
        MarkSet {
            count: 4,
            mark: Callback::new(move |nth: usize| {
                let [x, y] = corners.get()[nth];
                Some(PatchMark { place: PatchRole::Surface, x, y, radius: 0.02 })
            }),
            set: Callback::new(move |(nth, mark): (usize, PatchMark)| {
                corners.update(|corners| corners[nth] = [mark.x, mark.y]);
            }),
            name: Callback::new(|nth: usize| t(&format!("teach-corner-{}", CORNERS[nth]))),
            id: Callback::new(|nth: usize| CORNERS[nth].to_owned()),
            chosen: self.chosen,
            dragging: self.dragging,
            src: self.photo.src(),
            alt: StoredValue::new(t!("swatch-mark-photo")),
            aspect,
            least: 0.02,
        }
    }

    /// Teaches again whenever the photo, its marks or their values change.
    fn teach_on_change(self) {
        Effect::new(move |_| {
            let surfaces = match self.known.get() {
                Known::Chart(edition) => {
                    let corners = self.corners.get();
                    Some(worker::KnownSurfaces::Chart { edition, corners })
                }
                Known::Swatches => self.swatches.known(),
            };
            let light = self.light.get();
            self.saved.set(false);
            if self.dragging.get() || !matches!(self.photo.analysis.get(), Some(Ok(_))) {
                return;
            }
            let Some(surfaces) = surfaces else { return self.result.set(None) };
            let number = self.request.get_value().wrapping_add(1);
            self.request.set_value(number);
            let request = TeachRequest { photo: self.photo.id(), surfaces, light };
            let file = self.photo.file();
            spawn_local(async move {
                let result = match worker::teach(request, file).await {
                    Ok(Ok(taught)) => Ok(taught),
                    Ok(Err(reasons)) => Err(reasons.iter().map(refusal::words).collect()),
                    Err(why) => Err(vec![(render(&why), String::new())]),
                };
                if self.request.try_get_value() == Some(number) {
                    self.result.try_set(Some(result));
                }
            });
        });
    }

    fn outcome(self) -> Option<AnyView> {
        if !matches!(self.photo.analysis.get(), Some(Ok(_))) {
            return None;
        }
        Some(match self.result.get()? {
            Err(reasons) => refusal::view(t!("teach-refused"), &reasons),
            Ok(taught) => self.learnt(taught),
        })
    }

    fn learnt(self, taught: CameraTaught) -> AnyView {
        let figures = t_with!(
            "teach-learnt",
            &[
                ("before", &fixed(taught.before_delta_e00, 1)),
                ("after", &fixed(taught.after_delta_e00, 1)),
            ],
        );
        let save = move |_| self.save(taught.clone());
        view! {
            <section class="card stack" role="status">
                <p><b>{figures}</b></p>
                <p class="small">{t!("teach-used_for")}</p>
                <TextField label=t!("teach-name") text=self.name />
                <button class="button touch" type="button" on:click=save
                    disabled=move || self.saved.get()>{t!("teach-save")}</button>
            </section>
        }
        .into_any()
    }

    fn save(self, mut taught: CameraTaught) {
        let name = self.name.get_untracked();
        taught.surface_name = match (name.trim(), self.known.get_untracked()) {
            ("", Known::Chart(edition)) => t(edition.key()),
            ("", Known::Swatches) => t!("teach-known-swatches"),
            (name, _) => name.to_owned(),
        };
        spawn_local(async move {
            let body = Body::CameraTaught(Box::new(taught));
            if self.studio.write(Subject::Studio, body).await.is_some() {
                let what = t(key!("entry-camera_taught"));
                notify(t_with!("batch-saved", &[("what", &what)]), None);
                self.saved.try_set(true);
            }
        });
    }
}
