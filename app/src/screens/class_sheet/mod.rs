//! The sheet for a workshop: what a teacher enters, and the sheet to read and to print.
//! Nothing is recorded here unless it is saved as a plan.

mod amounts;
mod form;
mod save;
mod sheet;
mod stations;

use leptos::prelude::*;
use ulid::Ulid;

use self::{form::ClassForm, save::SavePlan, sheet::Sheet, stations::StationChoices};
use super::{calculator::inputs::MissingLabel, plan::PlanForm};
use crate::{
    components::{NumberField, Page, RadioGroup, Term},
    i18n::{field_name, render, t, t_with},
    platform::print,
    route::Route,
    state::app_state,
};

/// The screen of this piece of the program (`screens::lazy`).
pub fn screen(route: Route) -> AnyView {
    let batch = match route {
        Route::ClassSheet { batch } => batch,
        _ => None,
    };
    view! { <ClassSheetPage batch /> }.into_any()
}

#[component]
fn ClassSheetPage(batch: Option<Ulid>) -> impl IntoView {
    let found = app_state().book_now(|book| book.batches.get(&batch?).cloned());
    let back = found.as_ref().map_or(Route::Batches, |batch| Route::batch(batch.id));
    let form = found.map_or_else(ClassForm::without_batch, |batch| ClassForm::of(&batch));
    let outcome = Memo::new(move |_| form.outcome());
    let refused = Signal::derive(move || {
        outcome.with(|outcome| Some(outcome.as_ref()?.1.as_ref().err()?.message()))
    });
    let sheet = move || {
        outcome.with(|outcome| match outcome {
            Some((request, Ok(sheet))) => {
                let (request, sheet) = (request.clone(), sheet.clone());
                view! {
                    <Sheet name=form.name() request=request.clone() sheet=sheet.clone()
                        format=form.format_name() />
                    <div class="stack no-print">
                        <button class="button touch" on:click=|_| print::page()>
                            {t!("class-print")}
                        </button>
                        <SavePlan form request sheet />
                    </div>
                }
                .into_any()
            }
            Some((_, Err(error))) => view! {
                <section class="caution care no-print" role="alert">
                    <span class="severity">{t!("class-refused")}</span>
                    <p>{render(&error.message())}</p>
                </section>
            }
            .into_any(),
            None => view! { <p class="soft no-print" role="status">{waiting(form)}</p> }.into_any(),
        })
    };
    view! {
        <Page title=t!("class-title") back>
            <div class="stack wide class-page">
                <div class="stack no-print">{fields(form, refused)}</div>
                {sheet}
            </div>
        </Page>
    }
}

/// What is missing. Tracked.
fn waiting(form: ClassForm) -> String {
    let what = match form.missing() {
        Some(MissingLabel::Field(field)) => field_name(field),
        Some(MissingLabel::Basis) => t!("plan-bar_basis"),
        None => return t!("class-waiting"),
    };
    t_with!("class-missing", &[("what", &what)])
}

fn fields(form: ClassForm, refused: Signal<Option<bleachfield_core::message::Message>>) -> AnyView {
    view! {
        <section class="card stack plan">
            <div class="plan-grid">
                <NumberField ask=form.people refused />
                <NumberField ask=form.per_table refused />
                <NumberField ask=form.dry_each hint=t!("class-dry_hint") refused
                    term=Term::OvenDry />
                <NumberField ask=form.pot hint=t!("class-pot_hint") refused />
            </div>
            {form.pot_choice()}
            <StationChoices form refused />
        </section>
        <details class="more" open=move || form.bath_is_open()>
            <summary>{move || form.bath_summary()}</summary>
            <div class="inside stack plan">{bath_fields(form.plan, form, refused)}</div>
        </details>
        <details class="more">
            <summary>{t!("class-more")}</summary>
            <div class="inside stack plan">
                <div class="plan-grid">
                    <NumberField ask=form.dryness.input refused term=Term::Dryness />
                    <NumberField ask=form.wash_rinses refused />
                </div>
                <RadioGroup label=t!("class-format") value=form.format options=form::formats() />
                <p class="small soft">{t!("class-format_hint")}</p>
            </div>
        </details>
    }
    .into_any()
}

fn bath_fields(
    plan: PlanForm,
    form: ClassForm,
    refused: Signal<Option<bleachfield_core::message::Message>>,
) -> AnyView {
    let oxidant = Memo::new(move |_| plan.bleach.oxidant());
    view! {
        {plan.bleach.view()}
        {plan.aim.preset_choice(oxidant)}
        {plan.aim.main_fields(oxidant, refused)}
        {form.needs_ph().then(|| view! {
            <NumberField ask=plan.squeezed_ph.input hint=t!("plan-squeezed_hint") refused />
        })}
    }
    .into_any()
}
