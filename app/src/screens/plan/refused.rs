//! Why there is no plan, and a button for each remedy that the form can apply.

use bleachfield_core::bath::{RefusedPlan, Remedy};
use leptos::prelude::*;

use super::form::PlanForm;
use crate::{
    i18n::{render, t},
    route::Route,
};

#[component]
pub fn NoPlan(form: PlanForm, refused: Signal<Option<RefusedPlan>>) -> impl IntoView {
    let refused = Memo::new(move |_| refused.get());
    move || refused.get().map(|refused| reason(form, &refused))
}

fn reason(form: PlanForm, refused: &RefusedPlan) -> AnyView {
    let remedy = |remedy: &Remedy| {
        let remedy = *remedy;
        let text = render(&remedy.message());
        if PlanForm::can_apply(remedy) {
            view! {
                <button class="button plain" on:click=move |_| form.apply(remedy)>{text}</button>
            }
            .into_any()
        } else if let (Remedy::MeasureStrength(_), Some(product)) = (remedy, form.shelf_bleach()) {
            let href = Route::Product(product).href();
            view! { <a class="button plain" href=href>{text}</a> }.into_any()
        } else {
            view! { <p>{text}</p> }.into_any()
        }
    };
    view! {
        <section class="caution care" role="alert">
            <span class="severity">{t!("plan-refused_head")}</span>
            <p>{render(&refused.message())}</p>
            {(!refused.remedies.is_empty()).then(|| view! {
                <p>{t!("plan-ways_head")}</p>
                <div class="stack">{refused.remedies.iter().map(remedy).collect_view()}</div>
            })}
        </section>
    }
    .into_any()
}
