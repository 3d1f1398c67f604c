//! The bucket, drawn to scale by weight: fibre, the water in the pulp, added water, bleach.

use bleachfield_core::{
    bath::BathParts,
    message::Value,
    quantity::{Mass, in_grams},
};
use leptos::prelude::*;

use crate::i18n::{format_value, t, t_with};

/// Inner size of the drawing.
const TOP: f64 = 13.0;
const HEIGHT: f64 = 96.0;
/// Least height that can be seen.
const THIN: f64 = 1.5;

#[component]
pub fn Bucket(parts: BathParts) -> impl IntoView {
    let named = [
        ("bleach", t!("plan-bucket_bleach"), parts.bleach),
        ("added", t!("plan-bucket_water"), parts.water),
        ("held", t!("plan-bucket_held"), parts.pulp_water),
        ("fibre", t!("plan-bucket_fibre"), parts.fibre),
    ];
    let all: f64 = named.iter().map(|(_, _, mass)| in_grams(*mass)).sum();
    // Pulp alone is the lower third: the rest of the bucket is still to be filled.
    let filled = if in_grams(parts.water) > 0.0 { HEIGHT } else { HEIGHT / 3.0 };
    let text = |mass: Mass| format_value(&Value::Mass(mass));
    let [bleach, water, held, fibre] = &named;
    let label = t_with!(
        "plan-bucket",
        &[
            ("bleach", &text(bleach.2)),
            ("water", &text(water.2)),
            ("held", &text(held.2)),
            ("fibre", &text(fibre.2)),
        ]
    );
    let mut y = TOP + HEIGHT - filled;
    let layers = named.iter().map(|(class, _, mass)| {
        let height =
            if in_grams(*mass) > 0.0 { (in_grams(*mass) / all * filled).max(THIN) } else { 0.0 };
        let layer = view! { <rect class=*class x="6" y=y width="88" height=height /> };
        y += height;
        layer
    });
    let layers = layers.collect_view();
    let present = named.iter().filter(|(_, _, mass)| in_grams(*mass) > 0.0);
    let keys = present.map(|(class, name, mass)| {
        view! { <li><i class=*class></i>{format!("{name} {}", text(*mass))}</li> }
    });
    let keys = keys.collect_view();
    view! {
        <figure class="plan-bucket">
            <svg viewBox="0 0 100 116" role="img" aria-label=label>
                <clipPath id="bucket-inside"><path d="M5 10h90l-9 99H14z" /></clipPath>
                <g clip-path="url(#bucket-inside)">{layers}</g>
                <path class="wall" d="M3 8h94M5 8l9 103h72l9-103" />
            </svg>
            <ul aria-hidden="true">{keys}</ul>
        </figure>
    }
}
