//! A product's present strength: bottles by decay from the best evidence, powders by their
//! active oxygen, others as stated.

use bleachfield_core::{
    bath::{LabelBasis, figure_of},
    chemistry::bottle::{BottleStrength, EvidenceKind, best},
    journal::{Product, ProductKind, Strength as Stated, StrengthBasis},
    quantity::{Basis, Estimate, grams, grams_per_litre, in_grams_per_litre, in_millilitres},
};
use jiff::Timestamp;
use leptos::prelude::*;

use super::{age::ago, strength_chart::strength_chart};
use crate::{
    components::{Assumed, Fact, Figure, Term},
    i18n::{format_number, key, render, t, t_with},
    platform::clock,
};

/// A strength in short, for a card.
pub struct StrengthText {
    pub value: String,
    pub range: Option<String>,
    pub rests_on: String,
    pub assumed: bool,
}

/// The present strength; `None` if the product has none.
pub fn strength_text(product: &Product, now: Timestamp) -> Option<StrengthText> {
    let text = |value, figure: Estimate<f64>, range, rests_on| StrengthText {
        value,
        range,
        rests_on,
        assumed: figure.basis == Basis::Assumed,
    };
    match product.kind {
        ProductKind::Hypochlorite => Some(match product.strength_now(now) {
            Ok(strength) => {
                let chlorine = strength.available_chlorine.map(in_grams_per_litre);
                if strength.is_too_uncertain() {
                    let value = uncertain_text(chlorine);
                    return Some(text(value, chlorine, None, rests_on(product, &strength, now)));
                }
                let value = t_with!("shelf-card-chlorine", &[("n", &rounded(chlorine))]);
                let range = range_text(chlorine, "g/L");
                text(value, chlorine, range, rests_on(product, &strength, now))
            }
            Err(error) => StrengthText {
                value: t!("shelf-unknown_strength"),
                range: Some(render(&error.message())),
                rests_on: String::new(),
                assumed: false,
            },
        }),
        ProductKind::Percarbonate => {
            let share = percent(product.powder().ok()?.share);
            let value = t_with!("shelf-card-percarbonate", &[("n", &rounded(share))]);
            Some(text(value, share, range_text(share, "%"), stated_from(product, now)))
        }
        _ => {
            let (strength, _) = product.strength()?;
            Some(text(stated(strength), strength.figure, None, stated_from(product, now)))
        }
    }
}

pub fn assumed_mark(assumed: bool) -> Option<AnyView> {
    assumed.then(|| view! { <Assumed /> }.into_any())
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

/// "48 to 52 g/L"; `None` without a range.
pub fn range_text(figure: Estimate<f64>, unit: &str) -> Option<String> {
    (figure.low < figure.high).then(|| {
        let digits = significant_digits(figure);
        let (low, high) = (format_number(figure.low, digits), format_number(figure.high, digits));
        t_with!("shelf-range", &[("low", &low), ("high", &high), ("unit", unit)])
    })
}

/// A range that no figure stands for.
fn uncertain_text(chlorine: Estimate<f64>) -> String {
    let (low, high) = (format_number(chlorine.low, 2), format_number(chlorine.high, 2));
    t_with!("shelf-card-chlorine_uncertain", &[("low", &low), ("high", &high)])
}

fn rounded(figure: Estimate<f64>) -> String {
    format_number(figure.value, significant_digits(figure))
}

/// Significant digits that the range justifies.
fn significant_digits(figure: Estimate<f64>) -> i32 {
    if figure.high - figure.low < 0.05 * figure.value { 3 } else { 2 }
}

fn percent(share: Estimate<f64>) -> Estimate<f64> {
    share.map(|share| share * 100.0)
}

/// The evidence that a bottle's strength rests on, and its age.
fn rests_on(product: &Product, strength: &BottleStrength, now: Timestamp) -> String {
    let evidence = product.evidence(now).unwrap_or_default();
    let days = best(&evidence).map_or(0.0, |best| best.days_ago);
    let key = match (strength.rests_on, product.label) {
        (EvidenceKind::Titration, _) => key!("shelf-rests_on-titration"),
        (EvidenceKind::Strip, _) => key!("shelf-rests_on-strip"),
        (EvidenceKind::Label, Some(_)) => key!("shelf-rests_on-label"),
        (EvidenceKind::Label, None) => key!("shelf-rests_on-nothing"),
    };
    t_with(key, &[("ago", &ago(days))])
}

/// The evidence that a strength without decay rests on.
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

/// The strength in full, for the product's page.
pub fn strength_card(product: &Product) -> AnyView {
    match product.kind {
        ProductKind::Hypochlorite => bottle_card(product),
        ProductKind::Percarbonate => powder_card(product),
        _ => stated_card(product),
    }
}

fn bottle_card(product: &Product) -> AnyView {
    let now = clock::now();
    let strength = match product.strength_now(now) {
        Ok(strength) => strength,
        Err(error) => {
            return view! {
                <section class="card stack">
                    <h2>{t!("shelf-unknown_strength")}</h2>
                    <p class="refused">{render(&error.message())}</p>
                </section>
            }
            .into_any();
        }
    };
    let chlorine = strength.available_chlorine.map(in_grams_per_litre);
    let left = percent(strength.left);
    let remarks = remarks(product, &strength);
    if strength.is_too_uncertain() {
        return view! {
            <section class="card stack">
                <p class="now"><strong>{uncertain_text(chlorine)}</strong></p>
                <p>{rests_on(product, &strength, now)}" "{assumed_mark(chlorine.basis == Basis::Assumed)}</p>
                <p>{t!("shelf-truth-measure")}</p>
                {remark_list(remarks)}
            </section>
        }
        .into_any();
    }
    let as_naocl = figure_of(chlorine.value, LabelBasis::NaoclByVolume, 1.0);
    view! {
        <section class="card stack">
            <Figure name=t!("shelf-truth-chlorine") number=rounded(chlorine) unit="g/L"
                term=Term::AvailableChlorine
                range=range_text(chlorine, "g/L").unwrap_or_default() />
            <p>{rests_on(product, &strength, now)}" "{assumed_mark(chlorine.basis == Basis::Assumed)}</p>
            <dl class="facts">
                <Fact name=t!("shelf-truth-as_naocl") value=format!("{} %", format_number(as_naocl, 2)) />
                <Fact name=t!("shelf-truth-left") value=range_text(left, "%")
                    .unwrap_or_else(|| format!("{} %", format_number(left.value, 2))) />
            </dl>
            {strength_chart(product, now)}
            <p class="small">{t!("shelf-truth-best_case")}</p>
            {remark_list(remarks)}
        </section>
    }
    .into_any()
}

fn remark_list(remarks: Vec<&'static str>) -> Option<AnyView> {
    (!remarks.is_empty()).then(|| {
        let lines = remarks.into_iter().map(|key| view! { <li>{t(key)}</li> });
        view! { <ul class="small">{lines.collect_view()}</ul> }.into_any()
    })
}

/// What widens the range, and where the decay law is extrapolated.
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
        (strength.extrapolation.long_exposed, key!("shelf-truth-beyond_long_exposed")),
        (strength.extrapolation.low_in_lye, key!("shelf-truth-beyond_low_in_lye")),
    ]
    .into_iter()
    .filter_map(|(applies, key)| applies.then_some(key))
    .collect()
}

fn powder_card(product: &Product) -> AnyView {
    let powder = match product.powder() {
        Ok(powder) => powder,
        Err(error) => {
            return view! { <p class="refused">{render(&error.message())}</p> }.into_any();
        }
    };
    let peroxide = percent(powder.peroxide());
    let with_range = |figure: Estimate<f64>, unit: &str| match range_text(figure, unit) {
        Some(range) => format!("{} {unit} ({range})", rounded(figure)),
        None => format!("{} {unit}", rounded(figure)),
    };
    // 10 g/L of powder.
    let released = powder.released(grams_per_litre(10.0));
    // Litres of oxygen from 1 kg at 20 °C.
    let gas = powder.oxygen(grams(1000.0), 20.0).map(|gas| in_millilitres(gas) / 1000.0);
    view! {
        <section class="card stack">
            <Figure name=t!("shelf-truth-peroxide") number=rounded(peroxide) unit="%"
                range=range_text(peroxide, "%").unwrap_or_default() />
            <p>{stated_from(product, clock::now())}" "{assumed_mark(peroxide.basis == Basis::Assumed)}</p>
            <dl class="facts">
                <Fact name=t!("shelf-truth-active_oxygen")
                    value=with_range(percent(powder.active_oxygen()), "%") />
                <Fact name=t!("shelf-truth-percarbonate") value=with_range(percent(powder.share), "%") />
            </dl>
            <h3>{t!("shelf-truth-ten_grams")}</h3>
            <dl class="facts">
                <Fact name=t!("shelf-truth-gives_peroxide")
                    value=with_range(released.peroxide.map(in_grams_per_litre), "g/L") />
                <Fact name=t!("shelf-truth-gives_soda")
                    value=with_range(released.soda_ash.map(in_grams_per_litre), "g/L") />
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

fn stated_card(product: &Product) -> AnyView {
    let peroxide = product.kind == ProductKind::Peroxide;
    let text = match product.strength() {
        Some((strength, _)) => stated(strength),
        None if peroxide => t!("shelf-peroxide_assumed"),
        None => return ().into_any(),
    };
    view! {
        <section class="card stack">
            <p class="now"><strong>{text}</strong></p>
            <p class="soft">{stated_from(product, clock::now())}</p>
            {peroxide.then(|| view! { <p class="small">{t!("shelf-truth-peroxide_ages")}</p> })}
        </section>
    }
    .into_any()
}
