//! The steps along the top: where one is, and the way back to what is done.

use leptos::prelude::*;

use super::steps::PlanStep;
use crate::{i18n::t, route::Route};

#[component]
pub fn StepBar(
    route: Route,
    step: Memo<PlanStep>,
    /// The last step that can be opened.
    reach: Memo<PlanStep>,
) -> impl IntoView {
    let item = |(nth, one): (usize, &PlanStep)| {
        let one = *one;
        let href = route.step_href(one.key());
        let here = move || step.get() == one;
        let open = move || one <= reach.get();
        let current = move || if here() { "step" } else { "false" };
        view! {
            <li class:here=here class:done=move || one < step.get()>
                {move || if open() {
                    view! {
                        <a href=href.clone() aria-current=current>
                            <b aria-hidden="true">{nth + 1}</b><span>{one.name()}</span>
                        </a>
                    }
                    .into_any()
                } else {
                    view! {
                        <span class="ahead">
                            <b aria-hidden="true">{nth + 1}</b><span>{one.name()}</span>
                        </span>
                    }
                    .into_any()
                }}
            </li>
        }
    };
    view! {
        <nav class="plan-steps" aria-label=t!("plan-steps")>
            <ol>{PlanStep::ALL.iter().enumerate().map(item).collect_view()}</ol>
        </nav>
    }
}
