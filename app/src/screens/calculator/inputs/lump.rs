//! The wet lump: what it weighs, and how dry it is.

use bleachfield_core::{
    journal::{DrySample, DrynessFrom as Noted, OwnFigureOf, Weighed},
    message::Message,
    pulp::{
        ASSUMED_DRYNESS, DRYNESS, Dried, DrynessFrom, SAMPLE_DRIED, SAMPLE_WET, WET_MASS, WetPulp,
    },
    quantity::{Basis, Kind, Known, Unit, grams, in_grams, in_share, share, weighed},
};
use leptos::prelude::*;

use crate::{
    components::{Ask, AskField, Assumed, Choice},
    i18n::{format_number, t, t_with},
    state::studio,
};

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct LumpForm {
    wet: Ask,
    how: RwSignal<How>,
    sample_wet: Ask,
    sample_dried: Ask,
    dried: RwSignal<Dried>,
    own: Ask,
}

/// How the dryness is come by.
#[derive(Clone, Copy, PartialEq)]
enum How {
    Sample,
    Own,
    Assumed,
}

/// A lump that can be reckoned with, and the entry that says how it was weighed.
#[derive(Clone, PartialEq)]
pub struct Lump {
    pub pulp: WetPulp,
    pub entry: Weighed,
}

impl LumpForm {
    /// An empty form. The studio's own squeeze figure is filled in if it has one.
    pub fn new() -> Self {
        let own = studio().book_now(|book| {
            book.studio.figures.get(&OwnFigureOf::SqueezeDryness).map(|(f, _)| *f)
        });
        let own_ask = Ask::new(DRYNESS, Kind::Share).between(0.005, 0.95);
        let own_text = own.map(|own| format_number(own.value * 100.0, 3)).unwrap_or_default();
        Self {
            wet: Ask::new(WET_MASS, Kind::Mass).between(1.0, 200_000.0),
            how: RwSignal::new(if own.is_some() { How::Own } else { How::Sample }),
            sample_wet: Ask::new(SAMPLE_WET, Kind::Mass).unit(Unit::Gram).between(1.0, 5_000.0),
            sample_dried: Ask::new(SAMPLE_DRIED, Kind::Mass)
                .unit(Unit::Gram)
                .between(0.05, 5_000.0),
            dried: RwSignal::new(Dried::Oven),
            own: own_ask.filled(own_text),
        }
    }

    /// The form filled with an earlier weighing.
    pub fn of(entry: &Weighed) -> Self {
        let form = Self::new();
        form.wet.text.set(format_number(entry.wet_mass_g.value, 6));
        match (entry.how, &entry.sample) {
            (Noted::Assumed, _) => form.how.set(How::Assumed),
            // A dried sample says more than a figure that is typed: it is kept as one.
            (Noted::DriedSample, Some(sample)) => {
                form.how.set(How::Sample);
                form.sample_wet.text.set(format_number(sample.wet_g.value, 6));
                form.sample_dried.text.set(format_number(sample.dry_g.value, 6));
                let as_weighed = sample.dry_g.value / sample.wet_g.value;
                let oven = (as_weighed - entry.dryness.value).abs() < 1e-6;
                form.dried.set(if oven { Dried::Oven } else { Dried::Air });
            }
            _ => {
                form.how.set(How::Own);
                form.own.text.set(format_number(entry.dryness.value * 100.0, 4));
            }
        }
        form
    }

    /// Writes a dryness into the form, as a plan that was refused may ask for.
    pub fn set_dryness(self, dryness: f64) {
        self.how.set(How::Own);
        self.own.text.set(format_number(dryness * 100.0, 4));
    }

    /// The lump as answered so far; `None` while a field is empty or refused.
    pub fn lump(self) -> Option<Lump> {
        self.read().ok().flatten()
    }

    /// Marks what is missing, and says whether the screen may go on.
    pub fn try_now(self) -> bool {
        let asked = match self.how.get() {
            How::Sample => self.sample_wet.try_now() & self.sample_dried.try_now(),
            How::Own => self.own.try_now(),
            How::Assumed => true,
        };
        self.wet.try_now() & asked && self.read().is_ok_and(|lump| lump.is_some())
    }

    fn refused(self) -> Option<Message> {
        self.read().err()
    }

    fn read(self) -> Result<Option<Lump>, Message> {
        let Some(wet) = self.wet.base() else { return Ok(None) };
        let wet = weighed(grams(wet));
        let (from, how, sample) = match self.how.get() {
            How::Assumed => (DrynessFrom::Assumed, Noted::Assumed, None),
            How::Own => {
                let Some(own) = self.own.base() else { return Ok(None) };
                let own = Known::within(own, OWN_SQUEEZE_VARIES, Basis::OwnRecord).map(share);
                (DrynessFrom::Own(own), Noted::OwnFigure, None)
            }
            How::Sample => {
                let (Some(wet), Some(dried)) = (self.sample_wet.base(), self.sample_dried.base())
                else {
                    return Ok(None);
                };
                let (wet, dried) = (weighed(grams(wet)), weighed(grams(dried)));
                let sample = DrySample { wet_g: wet.map(in_grams), dry_g: dried.map(in_grams) };
                let from = DrynessFrom::Sample { wet, dried, how: self.dried.get() };
                (from, Noted::DriedSample, Some(sample))
            }
        };
        let dryness = from.known().map_err(|error| error.message())?;
        let pulp = WetPulp::new(wet, dryness).map_err(|error| error.message())?;
        let entry =
            Weighed { wet_mass_g: wet.map(in_grams), dryness: dryness.map(in_share), how, sample };
        Ok(Some(Lump { pulp, entry }))
    }

    /// The fields.
    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || self.refused());
        let how = self.how;
        view! {
            <div class="stack">
                <AskField ask=self.wet hint=t!("lump-wet_hint") refused />
                <Choice label=t!("lump-how") value=how options=vec![
                    (How::Sample, t!("lump-sample")),
                    (How::Own, t!("lump-own")),
                    (How::Assumed, t!("lump-assumed")),
                ] />
                {move || match how.get() {
                    How::Sample => view! {
                        <div class="stack">
                            <p class="small soft">{t!("lump-sample_why")}</p>
                            <AskField ask=self.sample_wet refused />
                            <AskField ask=self.sample_dried refused />
                            <Choice label=t!("lump-dried") value=self.dried options=vec![
                                (Dried::Oven, t!("lump-oven")),
                                (Dried::Air, t!("lump-air")),
                            ] />
                        </div>
                    }.into_any(),
                    How::Own => view! {
                        <AskField ask=self.own hint=t!("lump-own_hint") refused />
                    }.into_any(),
                    How::Assumed => view! {
                        <p>
                            {t_with!("lump-assumed_why", &[
                                ("middle", &format_number(ASSUMED_DRYNESS.value * 100.0, 3)),
                                ("low", &format_number(ASSUMED_DRYNESS.low * 100.0, 3)),
                                ("high", &format_number(ASSUMED_DRYNESS.high * 100.0, 3)),
                            ])}
                            " "<Assumed />
                        </p>
                    }.into_any(),
                }}
            </div>
        }
        .into_any()
    }
}

/// How far a studio's own squeeze varies from one lump to the next: a tenth of
/// itself (common practice, no source).
const OWN_SQUEEZE_VARIES: f64 = 0.10;
