//! The strength of a bleach as its label states it.

use bleachfield_core::{
    bath::{
        BOTTLE_DENSITY, BOTTLE_STRENGTH, Bleach, Bottle, DENSITY_OFF, LabelBasis, Oxidant,
        PEROXIDE_STRENGTH, POWDER_STRENGTH, PeroxideBasis, PeroxideBottle, Powder, PowderBasis,
    },
    chemistry::household::STRONGEST_PEROXIDE_LABEL,
    journal::Strength,
    message::{Field, Message},
    quantity::{Basis, Estimate, QuantityKind, Unit, grams_per_millilitre, share},
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, ChoiceError, NumberField, NumberInput, RadioGroup, Term},
    i18n::{key, render, t},
};

/// The form; copies share their signals. Its methods take the oxidant of the bleach. What a
/// figure counts is chosen by the person: the bases differ too much to assume one.
#[derive(Clone, Copy)]
pub struct BleachLabelForm {
    /// Whether the label gives a strength.
    pub known: RwSignal<bool>,
    /// `Some(None)` where the label does not say; `None` while nothing is chosen.
    bottle_basis: RwSignal<Option<Option<LabelBasis>>>,
    percent: NumberInput,
    grams_per_litre: NumberInput,
    density: NumberInput,
    powder_basis: RwSignal<Option<PowderBasis>>,
    powder: NumberInput,
    peroxide_basis: RwSignal<Option<PeroxideBasis>>,
    peroxide: NumberInput,
}

/// What is missing of a label.
#[derive(Clone, Copy, PartialEq)]
pub enum MissingLabel {
    Field(Field),
    /// What the figure counts.
    Basis,
}

impl BleachLabelForm {
    /// An empty form. `share` and `grams_per_litre` are the least and the largest strength of
    /// a bottle that is accepted.
    pub fn new(share: (f64, f64), grams_per_litre: (f64, f64)) -> Self {
        Self {
            known: RwSignal::new(true),
            bottle_basis: RwSignal::new(None),
            percent: NumberInput::new(BOTTLE_STRENGTH, QuantityKind::Share)
                .between(share.0, share.1),
            grams_per_litre: NumberInput::new(BOTTLE_STRENGTH, QuantityKind::Concentration)
                .between(grams_per_litre.0, grams_per_litre.1),
            density: NumberInput::new(BOTTLE_DENSITY, QuantityKind::Density)
                .unit(Unit::GramsPerMillilitre)
                .optional(),
            powder_basis: RwSignal::new(None),
            powder: NumberInput::new(POWDER_STRENGTH, QuantityKind::Share).between(0.001, 1.0),
            peroxide_basis: RwSignal::new(None),
            peroxide: NumberInput::new(PEROXIDE_STRENGTH, QuantityKind::Share)
                .between(0.001, STRONGEST_PEROXIDE_LABEL),
        }
    }

    /// Fills in a strength that was stated before.
    pub fn fill(self, strength: &Strength) {
        let set = |input: NumberInput, value| input.fill_figures(value, 6);
        self.known.set(strength.figure.basis != Basis::Assumed);
        if !self.known.get_untracked() {
            return;
        }
        if let Some(bottle) = strength.bottle() {
            self.bottle_basis.set(Some(Some(bottle.basis)));
            match bottle.basis {
                LabelBasis::ChlorineGramsPerLitre => set(self.grams_per_litre, bottle.figure.value),
                _ => set(self.percent, bottle.figure.value),
            }
            if let Some(density) = strength.density_g_per_ml {
                set(self.density, density.value);
            }
        } else if let Some(powder) = strength.powder() {
            self.powder_basis.set(Some(powder.basis));
            set(self.powder, strength.figure.value);
        } else if let Some(bottle) = strength.peroxide_bottle() {
            self.peroxide_basis.set(Some(bottle.basis));
            set(self.peroxide, bottle.figure.value);
        }
    }

    /// The bleach as labelled; `None` while a field is empty or refused.
    pub fn bleach(self, oxidant: Oxidant) -> Option<Bleach> {
        match oxidant {
            Oxidant::Hypochlorite => self.bottle().map(Bleach::Hypochlorite),
            Oxidant::Percarbonate => {
                let figure = share(self.powder.base()?);
                Some(Bleach::Percarbonate(Powder::labelled(figure, self.powder_basis.get()?)))
            }
            Oxidant::Peroxide => {
                let percent = self.peroxide.base()? * 100.0;
                let basis = self.peroxide_basis.get()?;
                Some(Bleach::Peroxide(PeroxideBottle::labelled(percent, basis)))
            }
        }
    }

    fn bottle(self) -> Option<Bottle> {
        let basis = LabelBasis::stated(self.bottle_basis.get()?).ok()?;
        let figure = match basis {
            LabelBasis::ChlorineGramsPerLitre => self.grams_per_litre.base()?,
            _ => self.percent.base()? * 100.0,
        };
        let density = self.density.base().map(|density| {
            Estimate::within(grams_per_millilitre(density), DENSITY_OFF, Basis::Measured)
        });
        Some(Bottle { density, ..Bottle::labelled(figure, basis) })
    }

    /// Why the core refuses the label.
    pub fn refused(self, oxidant: Oxidant) -> Option<Message> {
        if oxidant == Oxidant::Hypochlorite
            && let Some(Err(unstated)) = self.bottle_basis.get().map(LabelBasis::stated)
        {
            return Some(unstated);
        }
        match self.bleach(oxidant)? {
            Bleach::Hypochlorite(bottle) => bottle.liquid().err(),
            Bleach::Percarbonate(powder) => powder.peroxide().err(),
            // Too strong for a bath is for the plan to say, and for `too_strong`.
            Bleach::Peroxide(_) => None,
        }
        .map(|error| error.message())
    }

    /// Marks missing fields; whether all can be read.
    pub fn try_now(self, oxidant: Oxidant) -> bool {
        match oxidant {
            Oxidant::Percarbonate => self.powder.try_now(),
            Oxidant::Peroxide => self.peroxide.try_now(),
            Oxidant::Hypochlorite => self.strength().try_now() & self.density.try_now(),
        }
    }

    /// What is still to be typed or chosen of a known strength. Tracked.
    pub fn missing(self, oxidant: Oxidant) -> Option<MissingLabel> {
        let (typed, chosen) = self.typed_and_chosen(oxidant);
        if typed.base().is_none() {
            Some(MissingLabel::Field(typed.field()))
        } else if !chosen {
            Some(MissingLabel::Basis)
        } else if oxidant == Oxidant::Hypochlorite && self.density.wrong().is_some() {
            Some(MissingLabel::Field(self.density.field()))
        } else {
            None
        }
    }

    /// That a strength was typed and nobody said what it counts.
    fn no_basis(self, oxidant: Oxidant) -> Option<Message> {
        let (typed, chosen) = self.typed_and_chosen(oxidant);
        let missing = !typed.is_empty() && !chosen;
        missing.then(|| Message::new(key!("bleach-basis_not_chosen")))
    }

    fn typed_and_chosen(self, oxidant: Oxidant) -> (NumberInput, bool) {
        match oxidant {
            Oxidant::Hypochlorite => (self.strength(), self.bottle_basis.get().is_some()),
            Oxidant::Percarbonate => (self.powder, self.powder_basis.get().is_some()),
            Oxidant::Peroxide => (self.peroxide, self.peroxide_basis.get().is_some()),
        }
    }

    /// The choice whether the strength is known.
    pub fn known_choice(self) -> AnyView {
        view! {
            <RadioGroup label=t!("bleach-known") value=self.known options=vec![
                (true, t!("bleach-known_yes")),
                (false, t!("bleach-known_no")),
            ] />
        }
        .into_any()
    }

    /// The fields of a known strength.
    pub fn fields(self, oxidant: Oxidant) -> AnyView {
        view! {
            {self.strength_fields(oxidant)}
            {(oxidant == Oxidant::Hypochlorite).then(|| self.density_field())}
        }
        .into_any()
    }

    /// The density of a bottle, which may be left out.
    pub fn density_field(self) -> AnyView {
        let refused = Signal::derive(move || self.refused(Oxidant::Hypochlorite));
        view! { <NumberField ask=self.density hint=t!("bleach-density_hint") refused /> }.into_any()
    }

    /// What the label counts, and its figure.
    pub fn strength_fields(self, oxidant: Oxidant) -> AnyView {
        let refused = Signal::derive(move || self.refused(oxidant));
        let no_basis = Signal::derive(move || self.no_basis(oxidant));
        if oxidant == Oxidant::Peroxide {
            return self.peroxide_fields(no_basis);
        }
        if oxidant == Oxidant::Percarbonate {
            return view! {
                <RadioGroup label=t!("bleach-powder_counts") value=self.powder_basis options=vec![
                    (Some(PowderBasis::Percarbonate), t!("bleach-powder_percarbonate")),
                    (Some(PowderBasis::Peroxide), t!("bleach-powder_peroxide")),
                    (Some(PowderBasis::ActiveOxygen), t!("bleach-powder_oxygen")),
                ] />
                <ChoiceError problem=no_basis />
                <NumberField ask=self.powder hint=t!("bleach-powder_hint") refused
                    term=Term::Percarbonate />
            }
            .into_any();
        }
        view! {
            <RadioGroup label=t!("bleach-counts") value=self.bottle_basis options=vec![
                (Some(Some(LabelBasis::NaoclByMass)), t!("bleach-nacl_mass")),
                (Some(Some(LabelBasis::NaoclByVolume)), t!("bleach-nacl_volume")),
                (Some(Some(LabelBasis::ChlorineByMass)), t!("bleach-chlorine_mass")),
                (Some(Some(LabelBasis::ChlorineByVolume)), t!("bleach-chlorine_volume")),
                (Some(Some(LabelBasis::ChlorineGramsPerLitre)), t!("bleach-chlorine_litre")),
                (Some(None), t!("bleach-basis_unsaid")),
            ] />
            <ChoiceError problem=no_basis />
            {move || view! {
                <NumberField ask=self.strength() hint=t!("bleach-strength_hint") refused
                    term=Term::AvailableChlorine />
            }}
        }
        .into_any()
    }

    fn peroxide_fields(self, no_basis: Signal<Option<Message>>) -> AnyView {
        view! {
            <RadioGroup label=t!("shelf-peroxide_counts") value=self.peroxide_basis options=vec![
                (Some(PeroxideBasis::ByMass), t!("shelf-peroxide_mass")),
                (Some(PeroxideBasis::ByVolume), t!("shelf-peroxide_volume")),
            ] />
            <ChoiceError problem=no_basis />
            <NumberField ask=self.peroxide hint=t!("shelf-peroxide_hint") />
            {move || self.too_strong().map(|why| view! {
                <p class="caution danger" role="alert">{render(&why)}</p>
            })}
        }
        .into_any()
    }

    /// Why no bath is planned with peroxide of this label.
    fn too_strong(self) -> Option<Message> {
        match self.bleach(Oxidant::Peroxide)? {
            Bleach::Peroxide(bottle) => bottle.check().err(),
            _ => None,
        }
    }

    /// The field of a bottle's strength. Tracks the basis.
    fn strength(self) -> NumberInput {
        match self.bottle_basis.get() {
            Some(Some(LabelBasis::ChlorineGramsPerLitre)) => self.grams_per_litre,
            _ => self.percent,
        }
    }
}

/// What is assumed of a bleach of unknown strength.
pub fn assumed_strength(oxidant: Oxidant) -> AnyView {
    let text = match oxidant {
        Oxidant::Hypochlorite => key!("bleach-bottle_assumed"),
        Oxidant::Percarbonate => key!("bleach-powder_assumed"),
        Oxidant::Peroxide => key!("shelf-peroxide_assumed"),
    };
    view! { <p>{t(text)}" "<Assumed /></p> }.into_any()
}
