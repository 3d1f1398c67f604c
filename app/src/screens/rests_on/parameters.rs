//! The parameters, one fold each: name, range and origin in sight, source on tap.

use bleachfield_core::bath::Oxidant;
use bleachfield_core::bath::kinetics::{Parameter, Prior, PriorQuality, priors};
use bleachfield_core::learning::{ParameterOrigin, ParameterSupport};
use leptos::prelude::*;

use crate::i18n::{format_number, key, t, t_count, t_with};

#[component]
pub fn Parameters(oxidant: Oxidant, support: Vec<ParameterSupport>) -> impl IntoView {
    let row = |support: ParameterSupport| {
        let prior = priors(oxidant).iter().find(|prior| prior.parameter == support.parameter)?;
        Some(parameter(oxidant, prior, &support))
    };
    view! { <div class="stack">{support.into_iter().filter_map(row).collect_view()}</div> }
}

fn parameter(oxidant: Oxidant, prior: &Prior, support: &ParameterSupport) -> impl IntoView + use<> {
    let name = t(&format!("learning-parameter-{}", <&str>::from(support.parameter)));
    let [low, _, high] = support.range.map(number);
    let unit = unit(oxidant, support.parameter).map(t).unwrap_or_default();
    let range = t_with!("learning-range", &[("low", &low), ("high", &high)]);
    let is_own = support.origin == ParameterOrigin::Own;
    let source = if is_own {
        t_with!("learning-source_own", &[("source", prior.source)])
    } else {
        prior.source.to_owned()
    };
    view! {
        <details class="more">
            <summary>
                {name}
                <br />
                <span class="soft small">{format!("{range} {unit} · {}", origin(prior, support))}</span>
            </summary>
            <div class="inside stack">
                <p><strong>{t!("learning-source")}</strong>" "{source}</p>
                <p>{t_with!("learning-holds", &[("where", prior.validity)])}</p>
            </div>
        </details>
    }
}

/// Where its range is from, in a few words.
fn origin(prior: &Prior, support: &ParameterSupport) -> String {
    let readings = support.readings as usize;
    match (support.origin, prior.quality) {
        (ParameterOrigin::Own, _) => t_count!("learning-from_readings", readings),
        _ if readings > 0 => t_count!("learning-seen", readings),
        (_, PriorQuality::OwnEstimate) => t!("learning-estimated"),
        _ => t!("learning-published"),
    }
}

/// Two figures; very small ones by their power of ten.
fn number(value: f64) -> String {
    if value.abs() >= 1e-3 {
        return format_number(value, 2);
    }
    let power = value.abs().log10().floor();
    let digits = [
        ('-', '⁻'),
        ('0', '⁰'),
        ('1', '¹'),
        ('2', '²'),
        ('3', '³'),
        ('4', '⁴'),
        ('5', '⁵'),
        ('6', '⁶'),
        ('7', '⁷'),
        ('8', '⁸'),
        ('9', '⁹'),
    ];
    let raised: String = format!("{power}")
        .chars()
        .filter_map(|digit| digits.iter().find(|(plain, _)| *plain == digit).map(|(_, up)| *up))
        .collect();
    format!("{}·10{raised}", format_number(value / 10_f64.powf(power), 2))
}

/// The locale key of its unit; `None` for a ratio.
fn unit(oxidant: Oxidant, of: Parameter) -> Option<&'static str> {
    use Parameter::*;
    Some(match of {
        FastConsumers | SlowConsumers => key!("learning-unit-per_fibre"),
        ColourRate if oxidant.is_peroxide() => key!("learning-unit-root_rate"),
        FastRate | ColourRate | ScissionRate => key!("learning-unit-rate"),
        BleachEnergy | ScissionEnergy | ScissionAcidEnergy | MetalEnergy => {
            key!("learning-unit-energy")
        }
        MetalLoss => key!("learning-unit-per_second"),
        AcidYield => key!("learning-unit-acid"),
        DissolvingTime => key!("learning-unit-second"),
        SlowRatio
        | ColourFloor
        | AcidSpeedup
        | ScissionAcidRatio
        | ScissionTogetherRatio
        | DecayFactor
        | StartPolymerization => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_numbers_are_written_by_their_power() {
        assert_eq!(number(3.5e-6), "3.5·10⁻⁶");
        assert_eq!(number(0.08), "0.08");
        assert_eq!(number(1200.0), "1200");
    }
}
