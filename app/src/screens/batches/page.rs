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
    form::{Form, FormHost, Writing},
    latest, lots,
    next::{Next, Way},
    state::StateMark,
    timeline::Timeline,
};
use crate::{
    components::{Fact, Page, icon},
    i18n::{format_number, format_value, t, t_with},
    platform::{clock, print},
    state::studio,
};

/// `/batch/ID`; `?do=weigh` (or another form) opens that form at once.
#[component]
pub fn BatchPage(id: Option<Ulid>, asked: Option<Form>) -> impl IntoView {
    match id {
        Some(id) => view! { <Known id asked /> }.into_any(),
        None => view! { <Unknown /> }.into_any(),
    }
}

/// A batch that may be in the book.
#[component]
fn Known(id: Ulid, asked: Option<Form>) -> impl IntoView {
    let studio = studio();
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
fn Open(id: Ulid, asked: Option<Form>) -> impl IntoView {
    let studio = studio();
    let writing = Writing::new(id, studio, asked);
    let name = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(called).unwrap_or_default())
    });
    view! {
        <Page title=name back="/batches">
            <div class="stack wide">
                <Head writing />
                <Doing writing />
                <PutBy writing />
                <h2>{t!("batch-timeline")}</h2>
                <Timeline writing />
                <footer class="row no-print">
                    <a href=format!("/batches/send?batch={id}") class="press plain">
                        <icon::Send />{t!("batch-send")}
                    </a>
                    <button class="press bare" on:click=move |_| writing.show(Form::Rename)>
                        {t!("form-rename-title")}
                    </button>
                    <a href=format!("/batch/{id}/label") class="press plain">{t!("label-make")}</a>
                    <button class="press bare" on:click=move |_| print::page()>
                        {t!("batch-print")}
                    </button>
                    <button class="press bare" on:click=move |_| writing.show(Form::GiveUp)>
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
fn Head(writing: Writing) -> impl IntoView {
    let Writing { batch: id, studio, .. } = writing;
    let seen = Memo::new(move |_| {
        studio.book(|book| {
            book.batches.get(&id).map(|b| Seen {
                state: b.state,
                fibre: b.fibre.clone(),
                started: clock::local_date(b.started),
                dry: dry_fibre(b),
                ph: latest::ph(b).map(|ph| format_number(ph.value, 3)),
                next: Next::of(b),
            })
        })
    });
    (move || {
        let Seen { state, fibre, started, dry, ph, next } = seen.get()?;
        let button = match next.way(id) {
            Some(Way::Address(href)) => {
                view! { <a href=href class="press wet">{t(next.key())}</a> }.into_any()
            }
            Some(Way::Form(open)) => view! {
                <button class="press wet" on:click=move |_| writing.show(open)>
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
struct Seen {
    state: BatchState,
    fibre: String,
    started: String,
    /// Oven-dry fibre, and whether that rests on something nobody measured.
    dry: Option<(String, bool)>,
    ph: Option<String>,
    next: Next,
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
fn Doing(writing: Writing) -> impl IntoView {
    let button = move |opens: Form| {
        view! {
            <button class="press soft" on:click=move |_| writing.show(opens)>
                {(opens == Form::Photo).then(|| view! { <icon::Camera /> })}
                {opens.short()}
            </button>
        }
    };
    let often = [Form::Photo, Form::Reading, Form::Note];
    let after = [
        Form::Cook,
        Form::Weigh,
        Form::Rinse,
        Form::Antichlor,
        Form::EndTest,
        Form::Acid,
        Form::Reserve,
        Form::SignOff,
        Form::Store,
        Form::Sheets,
    ];
    view! {
        <nav class="stack no-print" aria-label=t!("batch-write_down")>
            <div class="row even">{often.map(button).collect_view()}</div>
            <a href=format!("/batch/{}/colour", writing.batch) class="press soft">
                {t!("batch-colour")}
            </a>
            <details class="more">
                <summary>{t!("batch-more_to_write")}</summary>
                <div class="inside row">
                    {after.map(button).collect_view()}
                    <a href=format!("/batch/{}/plan", writing.batch) class="press soft">
                        {t!("batch-plan")}
                    </a>
                </div>
            </details>
        </nav>
    }
}

/// The lots that the batch became.
#[component]
fn PutBy(writing: Writing) -> impl IntoView {
    let Writing { batch: id, studio, .. } = writing;
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
        <Page title=t!("batch-missing") back="/batches">
            <div class="stack">
                <p>{t!("batch-unknown")}</p>
                <a href="/batches/take" class="press plain"><icon::Take />{t!("batches-take")}</a>
            </div>
        </Page>
    }
}
