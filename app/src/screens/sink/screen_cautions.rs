//! The cautions of the Sink, each shown once: beside the reading that causes it, else with the
//! bath that is to be drained, else in one line that opens.

use bleachfield_core::{
    caution::{Act, Caution, Severity, cautions},
    journal::Book,
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{latest_readings::LatestReadings, running_bath::RunningBath, waiting_batches};
use crate::{
    components::{CautionCard, icon},
    i18n::{t, t_count},
    state::app_state,
};

#[derive(Clone, Debug, Default, PartialEq)]
struct Shown {
    /// Of each running bath, what its present figures cause.
    urgent: Vec<(Ulid, Vec<Caution>)>,
    draining: Vec<Caution>,
    standing: Vec<Caution>,
}

/// Copied freely.
#[derive(Clone, Copy)]
pub struct ScreenCautions(Memo<Shown>);

impl ScreenCautions {
    /// Provides the context.
    pub fn provide() -> Self {
        let state = app_state();
        let minute = Memo::new(move |_| state.now().as_second() / 60);
        let cautions = Self(Memo::new(move |_| {
            let minute = minute.get();
            state.book(|book| Shown::of(book, minute))
        }));
        provide_context(cautions);
        cautions
    }
}

impl Shown {
    fn of(book: &Book, minute: i64) -> Self {
        let mut shown = Self::default();
        for bath in book.running() {
            let minutes = (minute - bath.started.as_second() / 60) as f64;
            let latest = LatestReadings::of(book, bath.id).after(minutes);
            shown.urgent.push((bath.id, latest.urgent_cautions()));
            shown.standing.extend(latest.standing_cautions());
        }
        for bath in waiting_batches::to_drain(book) {
            // The strength is that of the fresh bath: a spent one is weaker.
            let situation = LatestReadings::of(book, bath).situation;
            shown.draining.extend(cautions(Act::Draining, &situation));
        }
        let is_urgent = |c: &Caution| {
            shown.urgent.iter().any(|(_, urgent)| urgent.iter().any(|u| u.id == c.id))
        };
        shown.draining.retain(|c| !is_urgent(c));
        shown.standing.retain(|c| !is_urgent(c));
        keep_first(&mut shown.draining);
        let draining = &shown.draining;
        shown.standing.retain(|c| draining.iter().all(|d| d.id != c.id));
        keep_first(&mut shown.standing);
        shown
    }
}

/// Each caution once, the gravest first.
fn keep_first(cautions: &mut Vec<Caution>) {
    cautions.sort_by_key(|caution| (std::cmp::Reverse(caution.severity), caution.id));
    cautions.dedup_by_key(|caution| caution.id);
}

/// What the present figures of a bath cause.
pub fn urgent_cautions(bath: Ulid) -> Memo<Vec<Caution>> {
    let ScreenCautions(shown) = expect_context();
    Memo::new(move |_| {
        shown.with(|shown| {
            let of_bath = shown.urgent.iter().find(|(id, _)| *id == bath);
            of_bath.map(|(_, urgent)| urgent.clone()).unwrap_or_default()
        })
    })
}

/// The same, each beside its reading.
#[component]
pub fn UrgentCautions(running: RunningBath) -> impl IntoView {
    let urgent = urgent_cautions(running.bath);
    let known = Signal::derive(move || {
        urgent.with(|all| all.iter().filter(|c| !c.id.is_of_unknown()).cloned().collect::<Vec<_>>())
    });
    // What rests on no figure yet is one line that opens: it ends with the next reading.
    let unknown = move || {
        let unknown = urgent.get().into_iter().filter(|caution| caution.id.is_of_unknown());
        unknown
            .map(|caution| {
                let title = t(&caution.id.title());
                view! {
                    <details class="more standing">
                        <summary class="danger"><icon::Hand />{title}</summary>
                        <div class="inside"><CautionCard caution /></div>
                    </details>
                }
            })
            .collect_view()
    };
    view! {
        <FieldCautions cautions=known />
        <div class="stack field-cautions" role="status">{unknown}</div>
    }
}

/// The dangers of draining a stopped bath.
#[component]
pub fn DrainingCautions() -> impl IntoView {
    let ScreenCautions(shown) = expect_context();
    let draining = Memo::new(move |_| shown.with(|shown| shown.draining.clone()));
    view! { <FieldCautions cautions=draining.into() /> }
}

/// What always holds for the running baths: one line that opens.
#[component]
pub fn StandingCautions() -> impl IntoView {
    let ScreenCautions(shown) = expect_context();
    let standing = Memo::new(move |_| shown.with(|shown| shown.standing.clone()));
    move || {
        let standing = standing.get();
        let danger = standing.iter().any(|caution| caution.severity == Severity::Danger);
        (!standing.is_empty()).then(|| view! {
            <details class="more standing">
                <summary class:danger=danger>
                    {danger.then(|| view! { <icon::Hand />{t!("caution-severity-danger")}": " })}
                    {t_count!("sink-standing", standing.len())}
                </summary>
                <div class="inside stack">
                    {standing.into_iter().map(|caution| view! { <CautionCard caution /> })
                        .collect_view()}
                </div>
            </details>
        })
    }
}

/// Cautions right under what causes them.
#[component]
pub fn FieldCautions(cautions: Signal<Vec<Caution>>) -> impl IntoView {
    view! {
        <div class="stack field-cautions" role="status">
            {move || cautions.get().into_iter().map(|caution| view! {
                <CautionCard caution />
            }).collect_view()}
        </div>
    }
}
