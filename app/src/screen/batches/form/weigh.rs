//! Wet pulp on the scale, and how dry it is.

use bleachfield_core::{
    journal::{Body, DrySample, DrynessFrom, Figure, OwnFigureOf, Weighed},
    message::Message,
    pulp::consistency::{self, DRYNESS, Dried, SAMPLE_DRIED, SAMPLE_WET, WET_MASS, WetPulp},
    quantity::{Basis, Kind, Known, grams, in_share, share},
};
use leptos::prelude::*;

use super::{Save, Writing, asks};
use crate::{
    locale::{said, word, words, written},
    part::{Ask, AskField, Assumed, Choice},
};

#[component]
pub fn Weigh(writing: Writing) -> impl IntoView {
    let own = writing.studio.book_now(|book| {
        book.studio.figures.get(&OwnFigureOf::SqueezeDryness).map(|(figure, _)| *figure)
    });
    let start = if own.is_some() { DrynessFrom::OwnFigure } else { DrynessFrom::DriedSample };
    let answers = Answers {
        wet: Ask::new(WET_MASS, Kind::Mass),
        how: RwSignal::new(start),
        sample_wet: Ask::new(SAMPLE_WET, Kind::Mass),
        sample_dried: Ask::new(SAMPLE_DRIED, Kind::Mass),
        dried: RwSignal::new(Dried::Air),
        dryness: own.map_or(Ask::new(DRYNESS, Kind::Share), |own| {
            let text = crate::locale::number(own.value * 100.0, 3);
            Ask::new(DRYNESS, Kind::Share).filled(text)
        }),
        own,
    };
    let refused = Signal::derive(move || answers.read().err().flatten());
    let run = Callback::new(move |()| {
        if asks::all_well(&answers.asked())
            && let Ok(weighed) = answers.read()
        {
            writing.save(Body::Weighed(weighed));
        }
    });
    let how = answers.how;
    let hows = [DrynessFrom::DriedSample, DrynessFrom::OwnFigure, DrynessFrom::Assumed]
        .map(|how| (how, word(&format!("form.weigh.how.{}", key(how)))));
    view! {
        <div class="stack">
            <AskField ask=answers.wet refused hint=word("form.weigh.wet_hint") />
            <Choice label=word("form.weigh.how.label") value=how options=hows.to_vec() />
            {move || match how.get() {
                DrynessFrom::DriedSample => view! {
                    <p class="soft small">{word("form.weigh.sample_hint")}</p>
                    <AskField ask=answers.sample_wet refused />
                    <AskField ask=answers.sample_dried refused />
                    <Choice label=word("form.weigh.dried.label") value=answers.dried options=vec![
                        (Dried::Air, word("form.weigh.dried.air")),
                        (Dried::Oven, word("form.weigh.dried.oven")),
                    ] />
                }.into_any(),
                DrynessFrom::OwnFigure => view! {
                    <AskField ask=answers.dryness refused hint=word("form.weigh.own_hint") />
                }.into_any(),
                DrynessFrom::Assumed => view! {
                    <p>{word("form.weigh.assumed_hint")}" "<Assumed /></p>
                }.into_any(),
            }}
            {move || answers.told()}
            <Save writing run />
        </div>
    }
}

#[derive(Clone, Copy)]
struct Answers {
    wet: Ask,
    how: RwSignal<DrynessFrom>,
    sample_wet: Ask,
    sample_dried: Ask,
    dried: RwSignal<Dried>,
    dryness: Ask,
    /// This studio's figure, if it has one.
    own: Option<Figure>,
}

impl Answers {
    /// The questions that count now.
    fn asked(self) -> Vec<Ask> {
        match self.how.get_untracked() {
            DrynessFrom::DriedSample => vec![self.wet, self.sample_wet, self.sample_dried],
            DrynessFrom::OwnFigure => vec![self.wet, self.dryness],
            DrynessFrom::Assumed => vec![self.wet],
        }
    }

    /// The weighing, or what the core says against it; nothing while an
    /// answer is missing or unreadable, for then its own field says so.
    fn read(self) -> Result<Weighed, Option<Message>> {
        let wet_mass_g = asks::weighed(self.wet).ok_or(None)?;
        let how = self.how.get();
        let mut sample = None;
        let dryness = match how {
            DrynessFrom::DriedSample => {
                let wet_g = asks::weighed(self.sample_wet).ok_or(None)?;
                let dry_g = asks::weighed(self.sample_dried).ok_or(None)?;
                sample = Some(DrySample { wet_g, dry_g });
                consistency::DrynessFrom::Sample {
                    wet: wet_g.map(grams),
                    dried: dry_g.map(grams),
                    how: self.dried.get(),
                }
            }
            DrynessFrom::OwnFigure => {
                let value = self.dryness.base().ok_or(None)?;
                // Left as it was filled in, it keeps its range.
                let own = self.own.filter(|own| (own.value - value).abs() < 5e-4);
                let own = own.unwrap_or(Known::exact(value, Basis::OwnRecord));
                consistency::DrynessFrom::Own(own.map(share))
            }
            DrynessFrom::Assumed => consistency::DrynessFrom::Assumed,
        };
        let dryness = dryness.known().map_err(|refusal| Some(refusal.message()))?;
        WetPulp::new(wet_mass_g.map(grams), dryness).map_err(|refusal| Some(refusal.message()))?;
        Ok(Weighed { wet_mass_g, dryness: dryness.map(in_share), how, sample })
    }

    /// What it comes to: dry fibre and water in the lump.
    fn told(self) -> Option<AnyView> {
        let weighed = match self.read() {
            Ok(weighed) => weighed,
            // Beside its field already, unless it belongs to none.
            Err(Some(message)) if message.field.is_none() => {
                return Some(view! { <p class="wrong">{said(&message)}</p> }.into_any());
            }
            Err(_) => return None,
        };
        let pulp =
            WetPulp::new(weighed.wet_mass_g.map(grams), weighed.dryness.map(share)).ok()?;
        let (dry, water) = (pulp.oven_dry(), pulp.water());
        let mass = |value| written(&bleachfield_core::message::Value::Mass(value));
        let range = words("figure_range", &[("low", &mass(dry.low)), ("high", &mass(dry.high))]);
        Some(
            view! {
                <dl class="facts">
                    <dt>{word("figure.dryness")}</dt>
                    <dd>{written(&Kind::Share.value(weighed.dryness.value))}</dd>
                    <dt>{word("figure.dry_fibre")}</dt>
                    <dd>
                        {mass(dry.value)}{dry.assumed.then(|| view! { " "<Assumed /> })}
                        {(dry.low < dry.high).then(|| view! { <span class="range">{range}</span> })}
                    </dd>
                    <dt>{word("figure.water_in_lump")}</dt>
                    <dd>{mass(water.value)}</dd>
                </dl>
            }
            .into_any(),
        )
    }
}

fn key(how: DrynessFrom) -> &'static str {
    match how {
        DrynessFrom::DriedSample => "dried_sample",
        DrynessFrom::OwnFigure => "own_figure",
        DrynessFrom::Assumed => "assumed",
    }
}
