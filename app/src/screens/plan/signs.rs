//! The cautions that stand for every bath of this kind: one line of signs with their words; the
//! whole text and the sources on a tap.

use std::cmp::Reverse;

use bleachfield_core::{
    caution::{Act, Caution, CautionId, Severity, Situation, cautions},
    quantity::{Celsius, Interval},
};
use leptos::prelude::*;

use crate::{
    components::{CautionCard, icon},
    i18n::{t, t_count},
};

#[component]
pub fn CautionSigns(#[prop(into)] cautions: Signal<Vec<Caution>>) -> impl IntoView {
    let cautions = Memo::new(move |_| cautions.get());
    move || {
        let all = cautions.get();
        let (danger, rest): (Vec<_>, Vec<_>) =
            all.iter().cloned().partition(|caution| caution.severity == Severity::Danger);
        let signs = danger.iter().map(|caution| {
            view! {
                <span class="plan-sign">
                    <span class="crossed">{drawing(caution.id)}</span>
                    <span>{t(&caution.id.title())}</span>
                </span>
            }
        });
        (!all.is_empty()).then(|| {
            view! {
                <details class="plan-signs">
                    <summary>
                        <span class="plan-sign-row">{signs.collect_view()}</span>
                        <span class="why">{t_count!("plan-signs_why", rest.len())}</span>
                    </summary>
                    <div class="stack">
                        {all.into_iter().map(|caution| view! { <CautionCard caution /> })
                            .collect_view()}
                    </div>
                </details>
            }
        })
    }
}

/// A thing that must stay away, as a drawing of ours; the bar across it is drawn by the style.
fn drawing(id: CautionId) -> AnyView {
    icon::drawing(match id {
        // A half lemon.
        CautionId::BleachWithAcid | CautionId::PeroxideWithAcid => {
            "M3 12a9 9 0 0 1 18 0zM12 12V5M12 12l5-5M12 12L7 7M9 17l-1 3M15 17l1 3"
        }
        // A spray bottle.
        CautionId::BleachWithAmmonia => {
            "M8 21h9V12l-3-3V6h-4v3l-2 3zM14 6h2l1-3h-8v3M4 3l2 1M4 6l2-.5"
        }
        // A small bottle with fumes.
        CautionId::BleachWithSolvent | CautionId::PeroxideWithSolvent => {
            "M9 21h6a2 2 0 0 0 2-2l-3-7V8h-4v4l-3 7a2 2 0 0 0 2 2zM9 5c0-1 2-1 2-2M13 5c0-1 2-1 2-2"
        }
        // A tub with its lid on.
        CautionId::PeroxideClosed => "M4 8h16M5 8l1.500 13h11L19 8M6 5h12v3M9 13v4M15 13v4",
        // A pot.
        CautionId::AluminiumWithAlkali => "M5 9h14v9a3 3 0 0 1-3 3H8a3 3 0 0 1-3-3zM2 9h3M19 9h3",
        _ => "M12 4l9 16H3zM12 10v5M12 17.500v.5",
    })
}

/// The cautions of all acts of a planned bath, each once, the gravest first.
pub fn bath_cautions(situation: &Situation) -> Vec<Caution> {
    let mut all = cautions(Act::Bath, situation);
    let blending = situation.blender.then_some(Act::BlendingHot);
    for act in [Act::MakingLiquor, Act::Heating].into_iter().chain(blending) {
        add(&mut all, cautions(act, situation));
    }
    all
}

/// Adds the cautions of hot water to add.
pub fn heating_cautions(all: &mut Vec<Caution>, water: Option<Celsius>) {
    let temperature = water.map(Interval::exact);
    if temperature.is_some() {
        let heating = Situation { temperature, ..Situation::without_bleach() };
        add(all, cautions(Act::Heating, &heating));
    }
}

fn add(all: &mut Vec<Caution>, more: Vec<Caution>) {
    for caution in more {
        if !all.iter().any(|known| known.id == caution.id) {
            all.push(caution);
        }
    }
    all.sort_by_key(|caution| Reverse(caution.severity));
}
