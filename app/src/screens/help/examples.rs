//! Worked examples: each is calculated here and now by the same functions as a plan.

use bleachfield_core::{
    bath::{BathAim, BathSize, Bleach, Bottle, LabelBasis, PlanRequest, dilute, nominal, plan},
    caution::Residual,
    derive::plan_record,
    journal::ProductUsed,
    message::Value,
    pulp::{
        ASSUMED_DRYNESS, WetPulp,
        wash::{Efficiency, SqueezedPulp, compare},
    },
    quantity::{
        Basis, Celsius, Estimate, grams, in_grams, in_millilitres, millilitres, share, weighed,
    },
};
use leptos::prelude::*;

use crate::{
    components::Staircase,
    i18n::{format_number, format_value, t, t_with, volume_text},
    screens::plan::{Bucket, answer},
};

/// What the examples start from.
const BOTTLE_PERCENT: f64 = 5.25;
const TARGET_PERCENT: f64 = 2.0;
const LIQUOR_ML: f64 = 500.0;
const WET_G: f64 = 1000.0;
const CHARGE: f64 = 0.02;
const CONSISTENCY: f64 = 0.05;
const CELSIUS: f64 = 38.0;
const RINSE_ML: f64 = 12_000.0;
const RINSES: u32 = 4;

#[component]
pub fn Examples() -> impl IntoView {
    let fold = |head: String, inside: Option<AnyView>| {
        inside.map(|inside| {
            view! {
                <details class="more">
                    <summary>{head}</summary>
                    <div class="inside stack">{inside}</div>
                </details>
            }
        })
    };
    view! {
        <section class="stack">
            <h2>{t!("help-examples_head")}</h2>
            {fold(t!("help-example-dilute_head"), dilution())}
            {fold(t!("help-example-dry_head"), dry_fibre())}
            {fold(t!("help-example-bath_head"), bath())}
            {fold(t!("help-example-rinse_head"), rinses())}
        </section>
    }
}

fn number(value: f64) -> String {
    format_number(value, 3)
}

fn dilution() -> Option<AnyView> {
    let made = dilute(nominal(BOTTLE_PERCENT), TARGET_PERCENT, millilitres(LIQUOR_ML)).ok()?;
    let ml = |volume| volume_text(in_millilitres(volume).round());
    let text = t_with!(
        "help-example-dilute",
        &[
            ("volume", &volume_text(LIQUOR_ML)),
            ("target", &number(TARGET_PERCENT)),
            ("strength", &number(BOTTLE_PERCENT)),
            ("bottle", &ml(made.bottle.value)),
            ("water", &ml(made.water.value)),
            ("low", &ml(made.bottle.low)),
            ("high", &ml(made.bottle.high)),
        ]
    );
    Some(view! { <p>{text}</p> }.into_any())
}

fn wet_pulp() -> Option<WetPulp> {
    WetPulp::new(weighed(grams(WET_G)), ASSUMED_DRYNESS.map(share)).ok()
}

fn dry_fibre() -> Option<AnyView> {
    let dry = wet_pulp()?.oven_dry();
    let mass = |mass| format_value(&Value::Mass(mass));
    let text = t_with!(
        "help-example-dry",
        &[
            ("wet", &mass(grams(WET_G))),
            ("percent", &number(100.0 * ASSUMED_DRYNESS.value)),
            ("dry", &mass(dry.value)),
            ("low", &mass(dry.low)),
            ("high", &mass(dry.high)),
        ]
    );
    Some(view! { <p>{text}</p> }.into_any())
}

fn bath() -> Option<AnyView> {
    let bleach = Bleach::Hypochlorite(Bottle::labelled(BOTTLE_PERCENT, LabelBasis::NaoclByMass));
    let (aim, size) = (BathAim::Charge(share(CHARGE)), BathSize::Consistency(share(CONSISTENCY)));
    let request = PlanRequest::new(wet_pulp()?, bleach, aim, size, Celsius::new(CELSIUS).ok()?);
    let request = PlanRequest { residual: Residual::None, ..request };
    let plan = plan(&request).ok()?;
    let record = plan_record(&request, &plan, ProductUsed::typed(&bleach));
    let text = t_with!(
        "help-example-bath",
        &[
            ("wet", &format_value(&Value::Mass(grams(WET_G)))),
            ("dry", &number(in_grams(plan.oven_dry.value))),
            ("charge", &number(100.0 * CHARGE)),
            ("chlorine", &number(in_grams(plan.active.value))),
            ("strength", &number(BOTTLE_PERCENT)),
            ("answer", &answer(&record, None)),
        ]
    );
    Some(view! { <p>{text}</p><Bucket parts=plan.parts() /> }.into_any())
}

fn rinses() -> Option<AnyView> {
    let pulp = SqueezedPulp {
        wet_mass: Estimate::exact(grams(WET_G), Basis::Computed),
        dryness: ASSUMED_DRYNESS.map(share),
    };
    let total = millilitres(RINSE_ML);
    let splits = compare(&pulp, total, RINSES, Efficiency::ideal()).ok()?;
    let (one, many) = (splits.first()?.left.value, splits.last()?.left.value);
    // Each of the equal rinses leaves the same share.
    let each = many.powf(1.0 / f64::from(RINSES));
    let left = (0..=RINSES).map(|nth| each.powi(nth as i32)).collect();
    let text = t_with!(
        "help-example-rinse",
        &[
            ("water", &volume_text(RINSE_ML)),
            ("wet", &format_value(&Value::Mass(grams(WET_G)))),
            ("one", &format_number(100.0 * one, 2)),
            ("rinses", &RINSES.to_string()),
            ("each", &volume_text(RINSE_ML / f64::from(RINSES))),
            ("many", &format_number(100.0 * many, 2)),
        ]
    );
    Some(view! { <p>{text}</p><Staircase left /> }.into_any())
}
