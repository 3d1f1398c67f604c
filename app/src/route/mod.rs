//! The address of each screen: one typed [`Route`], its parser, its link, and navigation.
//!
//! The screens themselves, and which route shows which, live in `screens`.

mod batch_form;
mod parse;
mod plan_start;

use std::{
    cell::{Cell, RefCell},
    fmt,
};

pub use batch_form::BatchForm;
use bleachfield_core::journal::PhotoId;
use leptos::prelude::*;
use leptos_router::{
    NavigateOptions,
    hooks::{use_location, use_navigate},
    location::{BrowserUrl, LocationProvider, Url},
};
pub use plan_start::PlanStart;
use strum::{EnumIter, EnumString, IntoStaticStr};
use ulid::Ulid;

use crate::platform::base;

/// A screen of the app, with what its address says of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Route {
    Sink,
    /// The Sink filled by a running bath.
    Bath(Ulid),
    Calculator,
    Sum(Sum),
    Batches,
    /// Two to four batches side by side.
    Compare(Vec<Ulid>),
    /// All baths together.
    Season,
    NewBatch,
    /// Writes an exchange file: of one batch, or of the whole book.
    Send {
        batch: Option<Ulid>,
    },
    Import,
    Yellowing,
    Batch {
        id: Ulid,
        form: Option<BatchForm>,
    },
    BatchLabel(Ulid),
    /// A plan that begins a batch.
    NewPlan,
    /// As [`Self::NewPlan`], filled from the plan of another batch.
    PlanAgain(Ulid),
    /// The plan of a batch: the kept one at its ready check, else a new one.
    Plan(Ulid),
    /// The form of the plan, filled from the kept one.
    ChangePlan(Ulid),
    /// The form of the plan, filled with values that were proposed elsewhere.
    StartPlan {
        batch: Ulid,
        start: PlanStart,
    },
    /// Ways to the colour that a batch is bleached towards.
    WaysToColour(Ulid),
    /// A ladder trial with pulp of a batch, to be set up.
    NewTrial(Ulid),
    Trial(Ulid),
    Colour(Ulid),
    ColourTarget(Ulid),
    /// Compares two colour readings, by their entries.
    ColourCompare {
        batch: Ulid,
        left: Option<Ulid>,
        right: Option<Ulid>,
    },
    ColourMeasure {
        batch: Ulid,
        photo: PhotoId,
        purpose: ColourPurpose,
    },
    /// The sheet for a workshop; of a batch's pulp and plan, or of a new one.
    ClassSheet {
        batch: Option<Ulid>,
    },
    /// Teaches this phone by a photo of known colours.
    Teach,
    Lots,
    Lot(Ulid),
    LotLabel(Ulid),
    Shelf,
    NewProduct,
    Product(Ulid),
    Titrate(Ulid),
    Help,
    Preferences,
    Glossary,
    /// What a forecast rests on.
    RestsOn,
}

/// A sum of Mix. Its name is the last part of its address, and is kept in local storage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, EnumIter, EnumString, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Sum {
    Dilute,
    DryFibre,
    Ph,
    Warm,
    Spoons,
    Percarbonate,
    Cook,
    Wash,
    Antichlor,
    Sheets,
}

/// What a colour is measured for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, EnumString, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum ColourPurpose {
    /// The batch's own pulp.
    #[default]
    Swatch,
    /// A paper to bleach towards.
    Target,
}

/// The places along the bottom edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Place {
    Sink,
    Mix,
    Batches,
    Shelf,
    Help,
}

impl Route {
    /// The batch's own page, with no form open.
    pub fn batch(id: Ulid) -> Self {
        Self::Batch { id, form: None }
    }

    /// The batch's own page with a form open.
    pub fn form(id: Ulid, form: BatchForm) -> Self {
        Self::Batch { id, form: Some(form) }
    }

    /// The link to it, such as `/some/folder/batch/01J…?do=photo`.
    pub fn href(&self) -> String {
        base::of_file(self.to_string().trim_start_matches('/'))
    }

    /// Whether it is all one form, whose half-filled fields are kept until it is saved.
    pub fn is_form(&self) -> bool {
        matches!(
            self,
            Self::NewBatch
                | Self::NewPlan
                | Self::PlanAgain(_)
                | Self::Plan(_)
                | Self::ChangePlan(_)
                | Self::StartPlan { .. }
                | Self::NewTrial(_)
                | Self::NewProduct
                | Self::Titrate(_)
                | Self::ClassSheet { .. }
        )
    }

    /// The link to a step of its form.
    pub fn step_href(&self, step: &str) -> String {
        let href = self.href();
        let mark = if href.contains('?') { '&' } else { '?' };
        format!("{href}{mark}step={step}")
    }

    /// The place that it belongs to.
    pub fn place(&self) -> Place {
        match self {
            Self::Sink | Self::Bath(_) => Place::Sink,
            Self::Calculator | Self::Sum(_) => Place::Mix,
            Self::Shelf | Self::NewProduct | Self::Product(_) | Self::Titrate(_) => Place::Shelf,
            Self::Help | Self::Preferences | Self::Glossary | Self::RestsOn => Place::Help,
            _ => Place::Batches,
        }
    }
}

/// Its address within the folder of the app, such as `/batch/01J…?do=photo`. [`Route::parse`]
/// reads it back.
impl fmt::Display for Route {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sink => f.write_str("/sink"),
            Self::Bath(id) => write!(f, "/sink?bath={id}"),
            Self::Calculator => f.write_str("/mix"),
            Self::Sum(sum) => write!(f, "/mix/{}", <&str>::from(sum)),
            Self::Batches => f.write_str("/batches"),
            Self::Compare(batches) => {
                let ids: Vec<String> = batches.iter().map(Ulid::to_string).collect();
                write!(f, "/batches/compare?of={}", ids.join("."))
            }
            Self::Season => f.write_str("/batches/season"),
            Self::NewBatch => f.write_str("/batches/new"),
            Self::Send { batch: None } => f.write_str("/batches/send"),
            Self::Send { batch: Some(id) } => write!(f, "/batches/send?batch={id}"),
            Self::Import => f.write_str("/batches/take"),
            Self::Yellowing => f.write_str("/batches/yellowing"),
            Self::Batch { id, form: None } => write!(f, "/batch/{id}"),
            Self::Batch { id, form: Some(form) } => {
                write!(f, "/batch/{id}?do={}", <&str>::from(form))
            }
            Self::BatchLabel(id) => write!(f, "/batch/{id}/label"),
            Self::NewPlan => f.write_str("/plan"),
            Self::PlanAgain(id) => write!(f, "/plan?again={id}"),
            Self::Plan(id) => write!(f, "/batch/{id}/plan"),
            Self::ChangePlan(id) => write!(f, "/batch/{id}/plan?do=change"),
            Self::StartPlan { batch, start } => write!(f, "/batch/{batch}/plan?{start}"),
            Self::WaysToColour(id) => write!(f, "/batch/{id}/ways"),
            Self::NewTrial(id) => write!(f, "/batch/{id}/trial"),
            Self::Trial(id) => write!(f, "/trial/{id}"),
            Self::Colour(id) => write!(f, "/batch/{id}/colour"),
            Self::ColourTarget(id) => write!(f, "/batch/{id}/colour/target"),
            Self::ColourCompare { batch, left, right } => {
                write!(f, "/batch/{batch}/colour/compare")?;
                let asked = [("left", left), ("right", right)];
                let asked = asked.iter().filter_map(|(name, id)| id.map(|id| (name, id)));
                for (nth, (name, id)) in asked.enumerate() {
                    write!(f, "{}{name}={id}", if nth == 0 { '?' } else { '&' })?;
                }
                Ok(())
            }
            Self::ColourMeasure { batch, photo, purpose } => {
                write!(f, "/batch/{batch}/colour/measure?photo={photo}")?;
                match purpose {
                    ColourPurpose::Swatch => Ok(()),
                    ColourPurpose::Target => f.write_str("&for=target"),
                }
            }
            Self::ClassSheet { batch: None } => f.write_str("/class_sheet"),
            Self::ClassSheet { batch: Some(id) } => write!(f, "/class_sheet?batch={id}"),
            Self::Teach => f.write_str("/colour/teach"),
            Self::Lots => f.write_str("/lots"),
            Self::Lot(id) => write!(f, "/lot/{id}"),
            Self::LotLabel(id) => write!(f, "/lot/{id}/label"),
            Self::Shelf => f.write_str("/shelf"),
            Self::NewProduct => f.write_str("/shelf/new"),
            Self::Product(id) => write!(f, "/shelf/{id}"),
            Self::Titrate(id) => write!(f, "/shelf/{id}/titrate"),
            Self::Help => f.write_str("/help"),
            Self::Preferences => f.write_str("/help/preferences"),
            Self::Glossary => f.write_str("/help/glossary"),
            Self::RestsOn => f.write_str("/help/rests_on"),
        }
    }
}

/// The route that the page is at; `None` where the address leads nowhere. Reactive.
///
/// To be called below the router.
pub fn use_route() -> Memo<Option<Route>> {
    let location = use_location();
    Memo::new(move |_| {
        location.query.with(|query| {
            let path = location.pathname.with(|path| base::within(path))?;
            Route::parse(&path, |name| query.get_str(name))
        })
    })
}

type Navigate = Box<dyn Fn(&str, NavigateOptions)>;

thread_local! {
    /// Saving navigates after an await, when no reactive owner is current.
    static NAVIGATE: RefCell<Option<Navigate>> = const { RefCell::new(None) };
    static CURRENT: Cell<Option<Memo<Option<Route>>>> = const { Cell::new(None) };
    /// The query of the list of batches as it was last shown.
    static LIST_QUERY: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Lets [`go`] navigate. Once, below the router.
pub fn provide() {
    let navigate = use_navigate();
    NAVIGATE.set(Some(Box::new(navigate)));
    CURRENT.set(Some(use_route()));
}

/// The route that the page is at now, for [`go_from`]. Untracked.
pub fn current() -> Option<Route> {
    CURRENT.get().and_then(|route| route.get_untracked())
}

/// Opens a route unless the page has left `from` meanwhile: what was saved in the background
/// does not take a person away from where they went.
pub fn go_from(from: &Option<Route>, to: &Route) {
    if *from == current() {
        go(to);
    }
}

/// Opens a route. May be called from anywhere, also after an await.
pub fn go(route: &Route) {
    NAVIGATE.with_borrow(|navigate| {
        if let Some(navigate) = navigate {
            navigate(&route.href(), NavigateOptions::default());
        }
    });
}

/// Opens a step of a route's form. The step is no part of the route: the form stays as it is,
/// and the browser's back button goes one step back.
pub fn go_step(route: &Route, step: &str) {
    NAVIGATE.with_borrow(|navigate| {
        if let Some(navigate) = navigate {
            navigate(&route.step_href(step), NavigateOptions::default());
        }
    });
}

/// Remembers what is searched for on the list of batches, for the links back to it.
pub fn keep_list_query(query: &str) {
    LIST_QUERY.set(query.to_owned());
}

/// Writes what is searched for into the address of the list of batches, in place of what was
/// there: no step for the browser's back button. No other screen's address is changed.
pub fn write_list_query() {
    let query = LIST_QUERY.with_borrow(Clone::clone);
    let search = window().location().search().unwrap_or_default();
    if current() != Some(Route::Batches) || search.trim_start_matches('?') == query {
        return;
    }
    let options = NavigateOptions { replace: true, scroll: false, ..NavigateOptions::default() };
    NAVIGATE.with_borrow(|navigate| {
        if let Some(navigate) = navigate {
            navigate(&back_href(&Route::Batches), options);
        }
    });
}

/// The list of batches with one thing asked, such as a tag.
pub fn list_href(name: &str, value: &str) -> String {
    format!("{}?{name}={}", Route::Batches.href(), Url::escape(value))
}

/// The link back to a screen: to the list of batches as it was left.
pub fn back_href(route: &Route) -> String {
    let query = LIST_QUERY.with_borrow(Clone::clone);
    match route {
        Route::Batches if !query.is_empty() => format!("{}?{query}", route.href()),
        route => route.href(),
    }
}

/// Tells the router that the screen of a followed link is shown, so that it updates the address
/// bar.
pub fn use_completion() -> impl Fn() {
    let browser = expect_context::<BrowserUrl>();
    move || browser.ready_to_complete()
}
