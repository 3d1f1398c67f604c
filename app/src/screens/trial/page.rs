//! A trial's page: measure out, run, read, result. It opens where the trial is.

use bleachfield_core::{
    derive::{TrialResult, TrialStatus},
    journal::PulpState,
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{measure::Measure, read::ReadPots, result::ResultView, run::Run};
use crate::{
    components::{Page, RadioGroup},
    i18n::{t, t_with},
    route::Route,
    screens::batches::batch_name,
    state::app_state,
};

/// What is done with a trial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrialStep {
    Measure,
    Run,
    Read,
    Result,
}

impl TrialStep {
    /// Where the trial is.
    fn of(status: &TrialStatus, read: usize) -> Self {
        if !status.has_started() {
            Self::Measure
        } else if !status.is_over() {
            Self::Run
        } else if read < status.pots.len().min(4) {
            Self::Read
        } else {
            Self::Result
        }
    }
}

/// `/trial/ID`.
#[component]
pub fn TrialPage(trial: Ulid) -> impl IntoView {
    let state = app_state();
    let status = Memo::new(move |_| state.book(|book| TrialStatus::of(book, trial)));
    let Some(first) = status.get_untracked() else {
        return view! {
            <Page title=t!("trial-title") back=Route::Batches><p>{t!("trial-unknown")}</p></Page>
        }
        .into_any();
    };
    let parent = first.trial.parent;
    let name = state.book_now(|book| book.batches.get(&parent).map(batch_name).unwrap_or_default());
    let read = state.book_now(|book| {
        TrialResult::of(book, &first).pots.iter().filter(|pot| pot.colour.is_some()).count()
    });
    let step = RwSignal::new(TrialStep::of(&first, read));
    let options = vec![
        (TrialStep::Measure, t!("trial-step-measure")),
        (TrialStep::Run, t!("trial-step-run")),
        (TrialStep::Read, t!("trial-step-read")),
        (TrialStep::Result, t!("trial-step-result")),
    ];
    let pulp = RwSignal::new(PulpState::Dried);
    let title = t_with!("trial-title_of", &[("batch", &name)]);
    view! {
        <Page title back=Route::batch(parent)>
            <div class="stack wide trial">
                <div class="no-print">
                    <RadioGroup label=t!("trial-steps") value=step options quiet=true />
                </div>
                {move || {
                    let step = step.get();
                    let Some(now) = status.get() else {
                        return view! { <p>{t!("trial-unknown")}</p> }.into_any();
                    };
                    match step {
                        TrialStep::Measure => view! { <Measure status=now /> }.into_any(),
                        TrialStep::Run => view! { <Run status /> }.into_any(),
                        TrialStep::Read => view! { <ReadPots status=now pulp /> }.into_any(),
                        TrialStep::Result => view! { <ResultView status=now /> }.into_any(),
                    }
                }}
            </div>
        </Page>
    }
    .into_any()
}
