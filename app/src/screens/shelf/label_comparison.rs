//! What the figure on a bottle's label would mean in each of the usual ways to state it.

use bleachfield_core::{
    bath::{Bottle, LabelBasis, figure_of, modelled_density},
    quantity::{in_grams_per_litre, in_grams_per_millilitre},
};
use leptos::prelude::*;

use crate::i18n::{format_number, key, t, t_with};

#[component]
pub fn LabelComparison(bottle: Bottle) -> impl IntoView {
    let Ok(liquid) = bottle.liquid() else { return ().into_any() };
    let chlorine = in_grams_per_litre(liquid.available_chlorine.value);
    let density = in_grams_per_millilitre(liquid.density.value);
    let figure = format_number(bottle.figure.value, 3);
    let in_litres = bottle.basis == LabelBasis::ChlorineGramsPerLitre;
    let others = LabelBasis::ALL.into_iter().filter(|b| *b != LabelBasis::ChlorineGramsPerLitre);
    let rows = others.map(|basis| {
        // A label in g/L is converted to each basis; a label in percent is read in each.
        let value = if in_litres {
            format!("{} %", format_number(figure_of(chlorine, basis, density), 3))
        } else {
            Bottle { basis, ..bottle }.liquid().map_or_else(
                |_| t!("shelf-traps-cannot_be"),
                |l| {
                    let chlorine = in_grams_per_litre(l.available_chlorine.value);
                    format!("{} g/L", format_number(chlorine, 3))
                },
            )
        };
        let mine = basis == bottle.basis;
        view! {
            <dt>{basis_name(basis)}{mine.then(|| format!(" {}", t!("shelf-traps-mine")))}</dt>
            <dd>{value}</dd>
        }
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
