//! Batches: the list, each batch's page, lots, labels and exchange files.

mod card;
mod compare;
mod empty;
mod entry;
pub mod exchange;
mod facts;
mod form;
mod install_offer;
mod label;
mod list;
mod lots;
mod marks;
mod new;
mod next_step;
mod page;
mod run_chart;
mod season;
mod situation;
mod state_mark;
mod timeline;

pub use self::{
    entry::name_of,
    facts::batch_name,
    next_step::{NextStep, StepTarget},
};

use leptos::prelude::*;

use self::{
    exchange::{ExportFile, ImportFile},
    label::LabelPage,
    list::Batches,
    lots::{LotPage, Lots},
    new::NewBatch,
    page::BatchPage,
};
use super::{
    calculator::sums::SumPage,
    plan::{NewPlan, PlanAgain, PlanBath, PlanFrom},
};
use crate::route::Route;

/// The screen of a route of this piece of the program (`screens::lazy`).
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::Compare(batches) => view! { <compare::Compare batches /> }.into_any(),
        Route::Season => view! { <season::Season /> }.into_any(),
        Route::NewBatch => view! { <NewBatch /> }.into_any(),
        Route::Send { batch } => view! { <ExportFile batch /> }.into_any(),
        Route::Import => view! { <ImportFile /> }.into_any(),
        Route::Batch { id, form } => view! { <BatchPage id form /> }.into_any(),
        Route::BatchLabel(id) => view! { <LabelPage id is_lot=false /> }.into_any(),
        Route::NewPlan => view! { <NewPlan /> }.into_any(),
        Route::PlanAgain(of) => view! { <PlanAgain of /> }.into_any(),
        Route::Plan(id) => view! { <PlanBath id change=false /> }.into_any(),
        Route::ChangePlan(id) => view! { <PlanBath id change=true /> }.into_any(),
        Route::StartPlan { batch, start } => view! { <PlanFrom batch start /> }.into_any(),
        Route::Lots => view! { <Lots /> }.into_any(),
        Route::Lot(id) => view! { <LotPage id /> }.into_any(),
        Route::LotLabel(id) => view! { <LabelPage id is_lot=true /> }.into_any(),
        Route::Sum(of) => view! { <SumPage of /> }.into_any(),
        _ => view! { <Batches /> }.into_any(),
    }
}
