//! The strength of a bleach as its label states it.

use bleachfield_core::{
    bath::{
        BOTTLE_DENSITY, BOTTLE_STRENGTH, Bleach, Bottle, DENSITY_OFF, LabelBasis, Oxidant,
        POWDER_STRENGTH, Powder, PowderBasis,
    },
    message::Message,
    quantity::{Basis, Estimate, QuantityKind, Unit, grams_per_millilitre, share},
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, NumberField, NumberInput, RadioGroup},
    i18n::{key, t},
};

/// The form; copies share their signals. Its methods take the oxidant of the bleach; hydrogen
/// peroxide from a bottle is not covered.
#[derive(Clone, Copy)]
pub struct BleachLabelForm {
    /// Whether the label gives a strength.
    pub known: RwSignal<bool>,
    /// `None` where the label does not say.
    bottle_basis: RwSignal<Option<LabelBasis>>,
    percent: NumberInput,
    grams_per_litre: NumberInput,
    density: NumberInput,
    powder_basis: RwSignal<PowderBasis>,
    powder: NumberInput,
}

impl BleachLabelForm {
    /// An empty form. `share` and `grams_per_litre` are the least and the largest strength of
    /// a bottle that is accepted.
    pub fn new(share: (f64, f64), grams_per_litre: (f64, f64)) -> Self {
        Self {
            known: RwSignal::new(true),
            bottle_basis: RwSignal::new(Some(LabelBasis::NaoclByMass)),
            percent: NumberInput::new(BOTTLE_STRENGTH, QuantityKind::Share)
                .between(share.0, share.1),
            grams_per_litre: NumberInput::new(BOTTLE_STRENGTH, QuantityKind::Concentration)
                .between(grams_per_litre.0, grams_per_litre.1),
            density: NumberInput::new(BOTTLE_DENSITY, QuantityKind::Density)
                .unit(Unit::GramsPerMillilitre)
                .optional(),
            powder_basis: RwSignal::new(PowderBasis::Percarbonate),
            powder: NumberInput::new(POWDER_STRENGTH, QuantityKind::Share).between(0.001, 1.0),
        }
    }

    /// The bleach as labelled; `None` while a field is empty or refused.
    pub fn bleach(self, oxidant: Oxidant) -> Option<Bleach> {
        if oxidant == Oxidant::Percarbonate {
            let figure = share(self.powder.base()?);
            return Some(Bleach::Percarbonate(Powder::labelled(figure, self.powder_basis.get())));
        }
        let basis = LabelBasis::stated(self.bottle_basis.get()).ok()?;
        let figure = match basis {
            LabelBasis::ChlorineGramsPerLitre => self.grams_per_litre.base()?,
            _ => self.percent.base()? * 100.0,
        };
        let density = self.density.base().map(|density| {
            Estimate::within(grams_per_millilitre(density), DENSITY_OFF, Basis::Measured)
        });
        Some(Bleach::Hypochlorite(Bottle { density, ..Bottle::labelled(figure, basis) }))
    }

    /// Why the core refuses the label.
    pub fn refused(self, oxidant: Oxidant) -> Option<Message> {
        if oxidant == Oxidant::Hypochlorite
            && let Err(unstated) = LabelBasis::stated(self.bottle_basis.get())
        {
            return Some(unstated);
        }
        match self.bleach(oxidant)? {
            Bleach::Hypochlorite(bottle) => bottle.liquid().err(),
            Bleach::Percarbonate(powder) => powder.peroxide().err(),
        }
        .map(|error| error.message())
    }

    /// Marks missing fields; whether all can be read.
    pub fn try_now(self, oxidant: Oxidant) -> bool {
        match oxidant {
            Oxidant::Percarbonate => self.powder.try_now(),
            _ => self.strength(self.bottle_basis.get()).try_now() & self.density.try_now(),
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
        let refused = Signal::derive(move || self.refused(oxidant));
        if oxidant == Oxidant::Percarbonate {
            return view! {
                <RadioGroup label=t!("bleach-powder_counts") value=self.powder_basis options=vec![
                    (PowderBasis::Percarbonate, t!("bleach-powder_percarbonate")),
                    (PowderBasis::Peroxide, t!("bleach-powder_peroxide")),
                    (PowderBasis::ActiveOxygen, t!("bleach-powder_oxygen")),
                ] />
                <NumberField ask=self.powder hint=t!("bleach-powder_hint") refused />
            }
            .into_any();
        }
        view! {
            <RadioGroup label=t!("bleach-counts") value=self.bottle_basis options=vec![
                (Some(LabelBasis::NaoclByMass), t!("bleach-nacl_mass")),
                (Some(LabelBasis::NaoclByVolume), t!("bleach-nacl_volume")),
                (Some(LabelBasis::ChlorineByMass), t!("bleach-chlorine_mass")),
                (Some(LabelBasis::ChlorineByVolume), t!("bleach-chlorine_volume")),
                (Some(LabelBasis::ChlorineGramsPerLitre), t!("bleach-chlorine_litre")),
                (None, t!("bleach-basis_unsaid")),
            ] />
            {move || view! {
                <NumberField ask=self.strength(self.bottle_basis.get())
                    hint=t!("bleach-strength_hint") refused />
            }}
            <NumberField ask=self.density hint=t!("bleach-density_hint") refused />
        }
        .into_any()
    }

    fn strength(self, basis: Option<LabelBasis>) -> NumberInput {
        match basis {
            Some(LabelBasis::ChlorineGramsPerLitre) => self.grams_per_litre,
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
