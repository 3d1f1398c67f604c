//! A batch's page: its state, the next step, what can be written down, the timeline.

use bleachfield_core::{
    journal::{Batch, BatchState},
    message::Value,
    pulp::WetPulp,
    quantity::{grams, share},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    facts::{batch_name, latest_ph},
    form::{BatchWriter, FormHost},
    lots,
    next_step::{NextStep, StepTarget},
    state_mark::StateMark,
    timeline::Timeline,
};
use crate::{
    components::{Fact, Page, icon},
    i18n::{format_number, format_value, t, t_with},
    platform::{clock, print},
    route::{BatchForm, Route},
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
    view! {
        <Page title=name back=Route::Batches>
            <div class="stack wide">
                <Summary writer />
                <EntryButtons writer />
                <BatchLots writer />
                <h2>{t!("batch-timeline")}</h2>
                <Timeline writer />
                <footer class="row no-print">
                    <a href=Route::Send { batch: Some(id) }.href() class="button plain">
                        <icon::Export />{t!("batch-send")}
                    </a>
                    <button class="button bare" on:click=move |_| writer.open(BatchForm::Rename)>
                        {t!("form-rename-title")}
                    </button>
                    <a href=Route::BatchLabel(id).href() class="button plain">{t!("label-make")}</a>
                    <button class="button bare" on:click=move |_| print::page()>
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

/// State, fibre and the button of the next step.
#[component]
fn Summary(writer: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writer;
    let summary =
        Memo::new(move |_| studio.book(|book| book.batches.get(&id).map(PageSummary::of)));
    (move || {
        let PageSummary { state, fibre, started, dry_fibre, ph, next } = summary.get()?;
        let button = match next.target(id) {
            Some(StepTarget::Route(route)) => {
                view! { <a href=route.href() class="button touch">{t(next.key())}</a> }.into_any()
            }
            Some(StepTarget::Form(form)) => view! {
                <button class="button touch" on:click=move |_| writer.open(form)>
                    {t(next.key())}
                </button>
            }
            .into_any(),
            None => view! { <p class="soft">{t(next.key())}</p> }.into_any(),
        };
        Some(view! {
            <header class="card stack tight batch-head">
                <StateMark state=Signal::stored(state) />
                <p class="soft small">{t(&format!("state_tells-{}", state.key()))}</p>
                <p>{t_with!("batch-since", &[("fibre", &fibre), ("date", &started)])}</p>
                <dl class="facts">
                    {dry_fibre.map(|(value, assumed)| view! {
                        <Fact name=t!("figure-dry_fibre") value assumed />
                    })}
                    {ph.map(|ph| view! { <Fact name=t!("batch-last_ph") value=ph /> })}
                </dl>
                {button}
            </header>
        })
    })
    .into_any()
}

/// What the summary shows; it is rendered again only if one of these changes.
#[derive(Clone, PartialEq)]
struct PageSummary {
    state: BatchState,
    fibre: String,
    started: String,
    /// Oven-dry fibre, and whether a part of it was assumed.
    dry_fibre: Option<(String, bool)>,
    ph: Option<String>,
    next: NextStep,
}

impl PageSummary {
    fn of(batch: &Batch) -> Self {
        Self {
            state: batch.state,
            fibre: batch.fibre.clone(),
            started: clock::local_date(batch.started),
            dry_fibre: dry_fibre(batch),
            ph: latest_ph(batch).map(|ph| format_number(ph.value, 3)),
            next: NextStep::of(batch),
        }
    }
}

/// The oven-dry fibre of the last weighing, with its range.
fn dry_fibre(batch: &Batch) -> Option<(String, bool)> {
    let weighed = batch.weighed.as_ref()?;
    let pulp = WetPulp::new(weighed.wet_mass_g.map(grams), weighed.dryness.map(share)).ok()?;
    let dry = pulp.oven_dry();
    let [value, low, high] =
        [dry.value, dry.low, dry.high].map(|mass| format_value(&Value::Mass(mass)));
    let text = t_with!("batch-dry_fibre", &[("value", &value), ("low", &low), ("high", &high)]);
    Some((text, dry.assumed))
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
                let cards = lots.map(|lot| lots::card(&ledger, lot)).collect_view();
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
