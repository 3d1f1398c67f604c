//! A batch's page: where the pulp is, the one next step, photos, four figures and the whole run,
//! then what can be written down, and the record in lines that open.

mod glance;
mod ladder;
mod ways;

use bleachfield_core::{
    derive::{Proof, last_plan},
    journal::{Batch, BatchState, Book},
};
use leptos::prelude::*;
use ulid::Ulid;

use self::{
    glance::{KeyFacts, PhotoStrip, WholeRun},
    ladder::LadderView,
    ways::Ways,
};
use super::{
    facts::batch_name,
    form::{BatchWriter, FormHost},
    lots,
    marks::proof_mark,
    next_step::{NextStep, StepTarget},
    state_mark::StateMark,
    timeline::Timeline,
};
use crate::{
    components::{Page, icon},
    i18n::{t, t_with},
    platform::{clock, print},
    route::{self, BatchForm, Route},
    screens::station_bar::StationBar,
    state::app_state,
};

/// `/batch/ID`; `?do=weigh` (or another form) opens that form at once.
#[component]
pub fn BatchPage(id: Ulid, form: Option<BatchForm>) -> impl IntoView {
    let studio = app_state();
    let exists = Memo::new(move |_| studio.book(|book| book.batches.contains_key(&id)));
    (move || {
        if exists.get() {
            view! { <KnownBatch writer=BatchWriter::new(id, studio, form) /> }.into_any()
        } else {
            view! { <UnknownBatch /> }.into_any()
        }
    })
    .into_any()
}

#[component]
fn KnownBatch(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let name = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(batch_name).unwrap_or_default())
    });
    let unfold = Trigger::new();
    view! {
        <Page title=name back=Route::Batches>
            <div class="stack wide batch-page">
                <StationBar batch=id />
                <Head writer />
                <PhotoStrip writer />
                <KeyFacts writer />
                <WholeRun writer />
                <EntryButtons writer />
                <BatchLots writer />
                <h2>{t!("batch-timeline")}</h2>
                <Timeline writer unfold />
                <footer class="row no-print">
                    <a href=Route::Send { batch: Some(id) }.href() class="button plain">
                        <icon::Export />{t!("batch-send")}
                    </a>
                    <button class="button bare" on:click=move |_| writer.open(BatchForm::Rename)>
                        {t!("form-rename-title")}
                    </button>
                    <a href=Route::BatchLabel(id).href() class="button plain">{t!("label-make")}</a>
                    <button class="button bare" on:click=move |_| writer.open(BatchForm::Tags)>
                        {t!("form-tags-title")}
                    </button>
                    <a href=Route::ClassSheet { batch: Some(id) }.href() class="button plain">
                        {t!("class-title")}
                    </a>
                    <button class="button bare" on:click=move |_| {
                        unfold.notify();
                        request_animation_frame(print::page);
                    }>
                        {t!("batch-print")}
                    </button>
                    <button class="button bare" on:click=move |_| writer.open(BatchForm::Abandon)>
                        {t!("form-give_up-title")}
                    </button>
                </footer>
                <FormHost writer />
            </div>
        </Page>
    }
}

/// State, fibre and the next step: a button, or the ladder after the bath.
#[component]
fn Head(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let summary = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(|batch| PageSummary::of(book, batch)))
    });
    let on_ladder = Memo::new(move |_| {
        summary.with(|summary| summary.as_ref().is_some_and(PageSummary::is_on_ladder))
    });
    let status = move || {
        let PageSummary { state, fibre, tags, started, next, proof, .. } = summary.get()?;
        let button = match next.target(id) {
            _ if on_ladder.get_untracked() => None,
            Some(StepTarget::Route(route)) => Some(
                view! { <a href=route.href() class="button touch">{t(next.key())}</a> }.into_any(),
            ),
            Some(StepTarget::Form(form)) => Some(
                view! {
                    <button class="button touch" on:click=move |_| writer.open(form)>
                        {t(next.key())}
                    </button>
                }
                .into_any(),
            ),
            None => Some(view! { <p class="soft">{t(next.key())}</p> }.into_any()),
        };
        Some(view! {
            <div class="stack tight">
                <StateMark state=Signal::stored(state) />
                <p class="soft small">{t(&format!("state_tells-{}", state.key()))}</p>
                {proof.and_then(proof_mark)}
                <p class="small">{t_with!("batch-since", &[("fibre", &fibre), ("date", &started)])}</p>
                {(!tags.is_empty()).then(|| view! {
                    <ul class="tags" aria-label=t!("batch-tags")>
                        {tags.into_iter().map(|tag| view! {
                            <li><a class="tag" href=route::list_href("tag", &tag)>{tag.clone()}</a></li>
                        }).collect_view()}
                    </ul>
                })}
                {button}
            </div>
        })
    };
    view! {
        <header class="card stack batch-head">
            {status}
            <Show when=move || on_ladder.get()><LadderView writer /></Show>
        </header>
        <Show when=move || summary.with(|s| s.as_ref().is_some_and(PageSummary::has_old_ladder))>
            <details class="more">
                <summary>{t!("ladder-all")}</summary>
                <div class="inside"><LadderView writer /></div>
            </details>
        </Show>
    }
}

/// What the head shows; it is rendered again only if one of these changes.
#[derive(Clone, PartialEq)]
struct PageSummary {
    state: BatchState,
    fibre: String,
    tags: Vec<String>,
    started: String,
    next: NextStep,
    bleached: bool,
    /// Of pulp that was stored or used.
    proof: Option<Proof>,
}

impl PageSummary {
    fn of(book: &Book, batch: &Batch) -> Self {
        let stored = matches!(batch.state, BatchState::Stored | BatchState::Used);
        Self {
            state: batch.state,
            fibre: batch.fibre.clone(),
            tags: batch.tags.iter().cloned().collect(),
            started: clock::local_date(batch.started),
            next: NextStep::of(book, batch),
            bleached: !batch.baths.is_empty(),
            proof: stored.then(|| Proof::of(batch)),
        }
    }

    /// Whether the next step is one of the ladder's.
    fn is_on_ladder(&self) -> bool {
        use BatchState::{Clean, Stopped, Unproven, Washing};
        self.bleached && matches!(self.state, Stopped | Washing | Clean | Unproven)
    }

    /// Whether the ladder was left, with tests that may still be made.
    fn has_old_ladder(&self) -> bool {
        self.bleached && self.proof.is_some_and(|proof| proof != Proof::Clean)
    }
}

/// What can be written down at any time.
#[component]
fn EntryButtons(writer: BatchWriter) -> impl IntoView {
    let button = move |form: BatchForm| {
        view! {
            <button class="button soft" on:click=move |_| writer.open(form)>
                {(form == BatchForm::Photo).then(|| view! { <icon::Camera /> })}
                {form.button_label()}
            </button>
        }
    };
    let has_plan = Memo::new(move |_| {
        writer.studio.book(|book| book.batches.get(&writer.batch).and_then(last_plan).is_some())
    });
    let frequent = [BatchForm::Photo, BatchForm::Reading, BatchForm::Note];
    let others = [
        BatchForm::Cook,
        BatchForm::Weigh,
        BatchForm::Rinse,
        BatchForm::Antichlor,
        BatchForm::EndTest,
        BatchForm::Acid,
        BatchForm::Reserve,
        BatchForm::SignOff,
        BatchForm::Store,
        BatchForm::Sheets,
    ];
    view! {
        <nav class="stack no-print" aria-label=t!("batch-write_down")>
            <div class="row even">{frequent.map(button).collect_view()}</div>
            <a href=Route::Colour(writer.batch).href() class="button soft">
                {t!("batch-colour")}
            </a>
            <Ways batch=writer.batch />
            <div class="row even">
                {move || has_plan.get().then(|| view! {
                    <a href=Route::PlanAgain(writer.batch).href() class="button soft">
                        {t!("again-do")}
                    </a>
                })}
                <a href=route::list_href("compare", &writer.batch.to_string()) class="button soft">
                    {t!("compare-with")}
                </a>
            </div>
            <details class="more">
                <summary>{t!("batch-more_to_write")}</summary>
                <div class="inside row">
                    {others.map(button).collect_view()}
                    <a href=Route::Plan(writer.batch).href() class="button soft">
                        {t!("batch-plan")}
                    </a>
                </div>
            </details>
        </nav>
    }
}

/// The lots in which the batch is stored.
#[component]
fn BatchLots(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let lots = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(|b| b.lots.clone()).unwrap_or_default())
    });
    (move || {
        let lots = lots.get();
        (!lots.is_empty()).then(|| {
            studio.book(|book| {
                let (ledger, _) = lots::ledger(book);
                let lots = lots.iter().filter_map(|lot| book.lots.get(lot));
                let cards = lots.map(|lot| lots::card(book, &ledger, lot)).collect_view();
                view! { <h2>{t!("lot-of_batch")}</h2><ul class="cards">{cards}</ul> }
            })
        })
    })
    .into_any()
}

#[component]
fn UnknownBatch() -> impl IntoView {
    view! {
        <Page title=t!("batch-missing") back=Route::Batches>
            <div class="stack">
                <p>{t!("batch-unknown")}</p>
                <a href=Route::Import.href() class="button plain"><icon::Import />{t!("batches-take")}</a>
            </div>
        </Page>
    }
}
