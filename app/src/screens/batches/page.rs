//! A batch's page: where it stands, what to do next, and all that happened.

use bleachfield_core::{
    journal::{Batch, BatchState},
    message::Value,
    pulp::WetPulp,
    quantity::{grams, share},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    called,
    form::{BatchWriter, FormHost},
    latest, lots,
    next::{NextStep, StepTarget},
    state::StateMark,
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
pub fn BatchPage(id: Ulid, asked: Option<BatchForm>) -> impl IntoView {
    let studio = app_state();
    let here = Memo::new(move |_| studio.book(|book| book.batches.contains_key(&id)));
    (move || {
        if here.get() {
            view! { <Open id asked /> }.into_any()
        } else {
            view! { <Unknown /> }.into_any()
        }
    })
    .into_any()
}

#[component]
fn Open(id: Ulid, asked: Option<BatchForm>) -> impl IntoView {
    let studio = app_state();
    let writing = BatchWriter::new(id, studio, asked);
    let name = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(called).unwrap_or_default())
    });
    view! {
        <Page title=name back=Route::Batches>
            <div class="stack wide">
                <Head writing />
                <Doing writing />
                <PutBy writing />
                <h2>{t!("batch-timeline")}</h2>
                <Timeline writing />
                <footer class="row no-print">
                    <a href=Route::Send { batch: Some(id) }.href() class="button plain">
                        <icon::Send />{t!("batch-send")}
                    </a>
                    <button class="button bare" on:click=move |_| writing.show(BatchForm::Rename)>
                        {t!("form-rename-title")}
                    </button>
                    <a href=Route::BatchLabel(id).href() class="button plain">{t!("label-make")}</a>
                    <button class="button bare" on:click=move |_| print::page()>
                        {t!("batch-print")}
                    </button>
                    <button class="button bare" on:click=move |_| writing.show(BatchForm::Abandon)>
                        {t!("form-give_up-title")}
                    </button>
                </footer>
                <FormHost writing />
            </div>
        </Page>
    }
}

/// State, fibre, and the one big button.
#[component]
fn Head(writing: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writing;
    let seen = Memo::new(move |_| {
        studio.book(|book| {
            book.batches.get(&id).map(|b| BatchHead {
                state: b.state,
                fibre: b.fibre.clone(),
                started: clock::local_date(b.started),
                dry: dry_fibre(b),
                ph: latest::ph(b).map(|ph| format_number(ph.value, 3)),
                next: NextStep::of(b),
            })
        })
    });
    (move || {
        let BatchHead { state, fibre, started, dry, ph, next } = seen.get()?;
        let button = match next.way(id) {
            Some(StepTarget::Route(route)) => {
                view! { <a href=route.href() class="button touch">{t(next.key())}</a> }.into_any()
            }
            Some(StepTarget::Form(open)) => view! {
                <button class="button touch" on:click=move |_| writing.show(open)>
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
                    {dry.map(|(dry, assumed)| view! {
                        <Fact name=t!("figure-dry_fibre") value=dry assumed />
                    })}
                    {ph.map(|ph| view! { <Fact name=t!("batch-last_ph") value=ph /> })}
                </dl>
                {button}
            </header>
        })
    })
    .into_any()
}

/// What the head shows of a batch.
#[derive(Clone, PartialEq)]
struct BatchHead {
    state: BatchState,
    fibre: String,
    started: String,
    /// Oven-dry fibre, and whether that rests on something nobody measured.
    dry: Option<(String, bool)>,
    ph: Option<String>,
    next: NextStep,
}

/// The oven-dry fibre by the last weighing, with its range.
fn dry_fibre(batch: &Batch) -> Option<(String, bool)> {
    let weighed = batch.weighed.as_ref()?;
    let pulp = WetPulp::new(weighed.wet_mass_g.map(grams), weighed.dryness.map(share)).ok()?;
    let dry = pulp.oven_dry();
    let mass = |mass| format_value(&Value::Mass(mass));
    let gaps = [("value", &*mass(dry.value)), ("low", &*mass(dry.low)), ("high", &*mass(dry.high))];
    Some((t_with!("batch-dry_fibre", &gaps), dry.assumed))
}

/// What can be written down at any time.
#[component]
fn Doing(writing: BatchWriter) -> impl IntoView {
    let button = move |opens: BatchForm| {
        view! {
            <button class="button soft" on:click=move |_| writing.show(opens)>
                {(opens == BatchForm::Photo).then(|| view! { <icon::Camera /> })}
                {opens.short()}
            </button>
        }
    };
    let often = [BatchForm::Photo, BatchForm::Reading, BatchForm::Note];
    let after = [
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
            <div class="row even">{often.map(button).collect_view()}</div>
            <a href=Route::Colour(writing.batch).href() class="button soft">
                {t!("batch-colour")}
            </a>
            <details class="more">
                <summary>{t!("batch-more_to_write")}</summary>
                <div class="inside row">
                    {after.map(button).collect_view()}
                    <a href=Route::Plan(writing.batch).href() class="button soft">
                        {t!("batch-plan")}
                    </a>
                </div>
            </details>
        </nav>
    }
}

/// The lots that the batch became.
#[component]
fn PutBy(writing: BatchWriter) -> impl IntoView {
    let BatchWriter { batch: id, studio, .. } = writing;
    let lots = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(|b| b.lots.clone()).unwrap_or_default())
    });
    (move || {
        let lots = lots.get();
        (!lots.is_empty()).then(|| {
            studio.book(|book| {
                let (ledger, _) = lots::ledger(book);
                let cards = lots.iter().filter_map(|lot| book.lots.get(lot));
                let cards: Vec<_> = cards.map(|lot| lots::card(&ledger, lot)).collect();
                view! { <h2>{t!("lot-of_batch")}</h2><ul class="cards">{cards}</ul> }
            })
        })
    })
    .into_any()
}

/// The address names a batch that is not in this book.
#[component]
fn Unknown() -> impl IntoView {
    view! {
        <Page title=t!("batch-missing") back=Route::Batches>
            <div class="stack">
                <p>{t!("batch-unknown")}</p>
                <a href=Route::Import.href() class="button plain"><icon::Take />{t!("batches-take")}</a>
            </div>
        </Page>
    }
}
