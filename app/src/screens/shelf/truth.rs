//! How strong a product truly is, in words and figures: bottles by the law of decay and the
//! best evidence, powders by their active oxygen.

use bleachfield_core::{
    bath::{Bottle, LabelBasis, figure_of, modelled_density},
    chemistry::{
        bottle::{BottleStrength, EvidenceKind},
        percarbonate::PercarbonatePowder,
    },
    journal::{Product, ProductKind, Strength as Stated, StrengthBasis},
    quantity::{
        Basis, Estimate, grams, grams_per_litre, in_grams_per_litre, in_grams_per_millilitre,
        in_millilitres,
    },
};
use jiff::Timestamp;
use leptos::prelude::*;

use super::state::ago;
use crate::{
    components::{Assumed, Fact, Figure},
    i18n::{format_number, key, render, t, t_with},
    platform::clock,
};

/// A strength short enough for a card.
pub struct StrengthText {
    pub value: String,
    pub range: Option<String>,
    pub rests_on: String,
    pub assumed: bool,
}

/// The strength of today for a card; `None` for what has none.
pub fn strength_text(product: &Product, now: Timestamp) -> Option<StrengthText> {
    match product.kind {
        ProductKind::Hypochlorite => Some(match product.strength_now(now) {
            Ok(strength) => {
                let chlorine = strength.available_chlorine.map(in_grams_per_litre);
                StrengthText {
                    value: t_with!(
                        "shelf-card-chlorine",
                        &[("n", &format_number(chlorine.value, places(chlorine)))],
                    ),
                    range: ranged(chlorine, "g/L"),
                    rests_on: rests_on(product, &strength, now),
                    assumed: chlorine.basis == Basis::Assumed,
                }
            }
            Err(refusal) => StrengthText {
                value: t!("shelf-unknown_strength"),
                range: Some(render(&refusal.message())),
                rests_on: String::new(),
                assumed: false,
            },
        }),
        ProductKind::Percarbonate => {
            let powder = product.powder().ok()?;
            let share = powder.share.map(|share| share * 100.0);
            Some(StrengthText {
                value: t_with!(
                    "shelf-card-percarbonate",
                    &[("n", &format_number(share.value, places(share)))],
                ),
                range: ranged(share, "%"),
                rests_on: stated_from(product, now),
                assumed: share.basis == Basis::Assumed,
            })
        }
        _ => product.strength().map(|(strength, _)| StrengthText {
            value: stated(strength),
            range: None,
            rests_on: stated_from(product, now),
            assumed: strength.figure.basis == Basis::Assumed,
        }),
    }
}

/// The mark that a value was assumed, if it was.
pub fn mark(assumed: bool) -> Option<AnyView> {
    assumed.then(|| view! { <Assumed /> }).map(IntoAny::into_any)
}

/// A strength as it was stated: "5 % NaOCl by mass".
pub fn stated(strength: &Stated) -> String {
    let key = match strength.stated_as {
        StrengthBasis::NaoclPercentByMass => key!("shelf-stated-naocl_mass"),
        StrengthBasis::NaoclPercentByVolume => key!("shelf-stated-naocl_volume"),
        StrengthBasis::AvailableChlorineGPerL => key!("shelf-stated-chlorine_litre"),
        StrengthBasis::AvailableChlorinePercentByMass => key!("shelf-stated-chlorine_mass"),
        StrengthBasis::AvailableChlorinePercentByVolume => key!("shelf-stated-chlorine_volume"),
        StrengthBasis::HydrogenPeroxidePercentByMass => key!("shelf-stated-peroxide_mass"),
        StrengthBasis::HydrogenPeroxidePercentByVolume => key!("shelf-stated-peroxide_volume"),
        StrengthBasis::PercarbonatePercentByMass => key!("shelf-stated-percarbonate"),
        StrengthBasis::ActiveOxygenPercentByMass => key!("shelf-stated-active_oxygen"),
        StrengthBasis::SubstancePercentByMass => key!("shelf-stated-substance"),
    };
    t_with(key, &[("n", &format_number(strength.figure.value, 3))])
}

/// "48 to 52 g/L", where there is a range.
pub fn ranged(figure: Estimate<f64>, unit: &str) -> Option<String> {
    (figure.low < figure.high).then(|| {
        let places = places(figure);
        let (low, high) = (format_number(figure.low, places), format_number(figure.high, places));
        t_with!("shelf-range", &[("low", &low), ("high", &high), ("unit", unit)])
    })
}

/// As many figures as the range lets a person trust.
fn places(figure: Estimate<f64>) -> i32 {
    if figure.high - figure.low < 0.05 * figure.value { 3 } else { 2 }
}

fn rests_on(product: &Product, strength: &BottleStrength, now: Timestamp) -> String {
    let found = product.evidence(now).unwrap_or_default();
    let best = bleachfield_core::chemistry::bottle::best(&found);
    let ago = ago(best.map_or(0.0, |best| best.days_ago));
    let key = match (strength.rests_on, product.label) {
        (EvidenceKind::Titration, _) => key!("shelf-rests_on-titration"),
        (EvidenceKind::Strip, _) => key!("shelf-rests_on-strip"),
        (EvidenceKind::Label, Some(_)) => key!("shelf-rests_on-label"),
        (EvidenceKind::Label, None) => key!("shelf-rests_on-nothing"),
    };
    t_with(key, &[("ago", &ago)])
}

/// Where the last word on a strength that does not age came from.
fn stated_from(product: &Product, now: Timestamp) -> String {
    match product.strength() {
        Some((_, Some(at))) => {
            let days = now.duration_since(at).as_secs_f64() / 86_400.0;
            t_with!("shelf-rests_on-test", &[("ago", &ago(days.max(0.0)))])
        }
        Some((_, None)) => t!("shelf-rests_on-label_only"),
        None => t!("shelf-rests_on-nothing"),
    }
}

/// The whole truth about a product, for its page.
#[component]
pub fn Truth(product: Product) -> impl IntoView {
    match product.kind {
        ProductKind::Hypochlorite => bottle_truth(&product).into_any(),
        ProductKind::Percarbonate => powder_truth(&product).into_any(),
        _ => plain_truth(&product).into_any(),
    }
}

fn bottle_truth(product: &Product) -> AnyView {
    let now = clock::now();
    let strength = match product.strength_now(now) {
        Ok(strength) => strength,
        Err(refusal) => {
            return view! {
                <section class="card stack">
                    <h2>{t!("shelf-unknown_strength")}</h2>
                    <p class="refused">{render(&refusal.message())}</p>
                </section>
            }
            .into_any();
        }
    };
    let chlorine = strength.available_chlorine.map(in_grams_per_litre);
    let left = strength.left.map(|left| left * 100.0);
    let remarks = remarks(product, &strength);
    let assumed = chlorine.basis == Basis::Assumed;
    let by_volume =
        |grams| format!("{} %", format_number(figure_of(grams, LabelBasis::NaoclByVolume, 1.0), 2));
    view! {
        <section class="card stack">
            <Figure name=t!("shelf-truth-chlorine") number=format_number(chlorine.value, places(chlorine)) unit="g/L"
                range=ranged(chlorine, "g/L").unwrap_or_default() />
            <p>{rests_on(product, &strength, now)}" "{mark(assumed)}</p>
            <dl class="facts">
                <Fact name=t!("shelf-truth-as_naocl") value=by_volume(chlorine.value) />
                <Fact name=t!("shelf-truth-left") value=ranged(left, "%")
                    .unwrap_or_else(|| format!("{} %", format_number(left.value, 2))) />
            </dl>
            <p class="small">{t!("shelf-truth-best_case")}</p>
            {(!remarks.is_empty()).then(|| view! {
                <ul class="small">
                    {remarks.into_iter().map(|key| view! { <li>{t(key)}</li> }).collect_view()}
                </ul>
            })}
        </section>
    }
    .into_any()
}

/// What widens the range, and where the law was stretched.
fn remarks(product: &Product, strength: &BottleStrength) -> Vec<&'static str> {
    let keeping = product.keeping();
    [
        (strength.widened && keeping.opened, key!("shelf-truth-opened")),
        (strength.widened && keeping.lit, key!("shelf-truth-lit")),
        (keeping.celsius.value > 25.0, key!("shelf-truth-warm")),
        (keeping.celsius.basis == Basis::Assumed, key!("shelf-truth-temperature_assumed")),
        (strength.extrapolation.dilute, key!("shelf-truth-beyond_dilute")),
        (strength.extrapolation.cold, key!("shelf-truth-beyond_cold")),
        (strength.extrapolation.hot, key!("shelf-truth-beyond_hot")),
        (strength.extrapolation.low_in_lye, key!("shelf-truth-beyond_low_in_lye")),
    ]
    .into_iter()
    .filter_map(|(holds, key)| holds.then_some(key))
    .collect()
}

fn powder_truth(product: &Product) -> AnyView {
    let powder = match product.powder() {
        Ok(powder) => powder,
        Err(refusal) => {
            return view! { <p class="refused">{render(&refusal.message())}</p> }.into_any();
        }
    };
    let percent = |known: Estimate<f64>| known.map(|share| share * 100.0);
    let peroxide = percent(powder.peroxide());
    let row = |known: Estimate<f64>, unit: &str| match ranged(known, unit) {
        Some(range) => format!("{} {unit} ({range})", format_number(known.value, places(known))),
        None => format!("{} {unit}", format_number(known.value, places(known))),
    };
    let PowderYield { soda_ash, peroxide: in_litre, gas } = given(&powder);
    view! {
        <section class="card stack">
            <Figure name=t!("shelf-truth-peroxide") number=format_number(peroxide.value, places(peroxide)) unit="%"
                range=ranged(peroxide, "%").unwrap_or_default() />
            <p>{stated_from(product, clock::now())}" "{mark(peroxide.basis == Basis::Assumed)}</p>
            <dl class="facts">
                <Fact name=t!("shelf-truth-active_oxygen")
                    value=row(percent(powder.active_oxygen()), "%") />
                <Fact name=t!("shelf-truth-percarbonate") value=row(percent(powder.share), "%") />
            </dl>
            <h3>{t!("shelf-truth-ten_grams")}</h3>
            <dl class="facts">
                <Fact name=t!("shelf-truth-gives_peroxide") value=row(in_litre, "g/L") />
                <Fact name=t!("shelf-truth-gives_soda") value=row(soda_ash, "g/L") />
            </dl>
            <p>{t_with!("shelf-truth-gas", &[
                ("litres", &format_number(gas.value, 2)),
                ("most", &format_number(gas.high, 2)),
            ])}</p>
            <p>{t!("shelf-truth-never_closed")}</p>
            <p class="small soft">{t!("shelf-truth-filler")}</p>
        </section>
    }
    .into_any()
}

/// What a powder gives.
struct PowderYield {
    /// g/L in a liquor of 10 g/L of powder.
    soda_ash: Estimate<f64>,
    peroxide: Estimate<f64>,
    /// Litres of oxygen from a kilogram, at 20 °C.
    gas: Estimate<f64>,
}

fn given(powder: &PercarbonatePowder) -> PowderYield {
    let released = powder.released(grams_per_litre(10.0));
    PowderYield {
        soda_ash: released.soda_ash.map(in_grams_per_litre),
        peroxide: released.peroxide.map(in_grams_per_litre),
        gas: powder.oxygen(grams(1000.0), 20.0).map(|gas| in_millilitres(gas) / 1000.0),
    }
}

fn plain_truth(product: &Product) -> AnyView {
    let now = clock::now();
    let peroxide = product.kind == ProductKind::Peroxide;
    let text = match product.strength() {
        Some((strength, _)) => stated(strength),
        None if peroxide => t!("shelf-peroxide_assumed"),
        None => return ().into_any(),
    };
    view! {
        <section class="card stack">
            <p class="now"><strong>{text}</strong></p>
            <p class="soft">{stated_from(product, now)}</p>
            {peroxide.then(|| view! { <p class="small">{t!("shelf-truth-peroxide_ages")}</p> })}
        </section>
    }
    .into_any()
}

/// What the number on a label would be worth, had it been counted in each of the ways in use.
#[component]
pub fn Traps(bottle: Bottle) -> impl IntoView {
    let Ok(liquid) = bottle.liquid() else { return ().into_any() };
    let chlorine = in_grams_per_litre(liquid.available_chlorine.value);
    let density = in_grams_per_millilitre(liquid.density.value);
    let figure = format_number(bottle.figure.value, 3);
    let in_litres = bottle.basis == LabelBasis::ChlorineGramsPerLitre;
    let rows = LabelBasis::ALL.into_iter().filter_map(|basis| {
        let value = match (in_litres, basis) {
            // The same bottle, as each label would state it.
            (true, LabelBasis::ChlorineGramsPerLitre) => return None,
            (true, basis) => format!("{} %", format_number(figure_of(chlorine, basis, density), 3)),
            (false, LabelBasis::ChlorineGramsPerLitre) => return None,
            (false, basis) => {
                let read = Bottle { basis, ..bottle }.liquid();
                let worth = read.map(|l| in_grams_per_litre(l.available_chlorine.value));
                worth.map_or_else(
                    |_| t!("shelf-traps-cannot_be"),
                    |g| format!("{} g/L", format_number(g, 3)),
                )
            }
        };
        let mine = basis == bottle.basis;
        Some(view! {
            <dt>{basis_name(basis)}{mine.then(|| format!(" {}", t!("shelf-traps-mine")))}</dt>
            <dd>{value}</dd>
        })
    });
    let rows = rows.collect_view();
    let litres = (!in_litres)
        .then(|| t_with!("shelf-traps-in_litres", &[("n", &format_number(chlorine, 3))]));
    let modelled = bottle.density.is_none()
        && matches!(bottle.basis, LabelBasis::NaoclByMass | LabelBasis::ChlorineByMass);
    let density = modelled.then(|| {
        let density = modelled_density(bottle.figure.value, bottle.basis);
        t_with!("shelf-traps-density", &[("density", &format_number(density, 3))])
    });
    let (head, why) = if in_litres {
        (t_with!("shelf-traps-head_litre", &[("n", &figure)]), key!("shelf-traps-why_litre"))
    } else {
        (t_with!("shelf-traps-head", &[("n", &figure)]), key!("shelf-traps-why"))
    };
    view! {
        <details class="more">
            <summary>{head}</summary>
            <div class="inside stack">
                <p>{t(why)}</p>
                <dl class="facts">{rows}</dl>
                {litres.map(|text| view! { <p>{text}</p> })}
                {density.map(|text| view! { <p class="small soft">{text}</p> })}
            </div>
        </details>
    }
    .into_any()
}

fn basis_name(basis: LabelBasis) -> String {
    t(match basis {
        LabelBasis::NaoclByMass => key!("bleach-nacl_mass"),
        LabelBasis::NaoclByVolume => key!("bleach-nacl_volume"),
        LabelBasis::ChlorineByMass => key!("bleach-chlorine_mass"),
        LabelBasis::ChlorineByVolume => key!("bleach-chlorine_volume"),
        LabelBasis::ChlorineGramsPerLitre => key!("bleach-chlorine_litre"),
    })
}
