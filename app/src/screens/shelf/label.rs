//! The strength on a label, for each kind of product.

use bleachfield_core::{
    bath::{Bleach, Oxidant},
    chemistry::household::check_peroxide,
    journal::{ProductKind, Strength, StrengthBasis},
    message::{Field, Message},
    quantity::{Basis, Estimate, QuantityKind},
};
use leptos::prelude::*;

use super::{kind, label_comparison::LabelComparison};
use crate::{
    components::{NumberField, NumberInput, RadioGroup},
    i18n::{render, t},
    screens::calculator::inputs::{BleachLabelForm, assumed_strength},
};

const PEROXIDE_STRENGTH: Field = Field("peroxide_strength");
const SUBSTANCE_SHARE: Field = Field("substance_share");

/// Strengths of a bottle of hypochlorite that are accepted: share, and available chlorine in g/L.
const BOTTLE_SHARE: (f64, f64) = (0.0001, 1.0);
const BOTTLE_GRAMS_PER_LITRE: (f64, f64) = (0.1, 500.0);

/// Strongest peroxide accepted, 50 % by mass: stronger is not sold to a studio (common practice,
/// no source).
const STRONGEST_PEROXIDE: f64 = 0.50;

/// Labels are nominal: ±5 % of the figure (common practice, no source).
const LABEL_ACCURACY: f64 = 0.05;

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct LabelForm {
    kind: RwSignal<ProductKind>,
    bleach: BleachLabelForm,
    peroxide_by_mass: RwSignal<bool>,
    peroxide: NumberInput,
    substance: NumberInput,
}

impl LabelForm {
    pub fn new(kind: RwSignal<ProductKind>) -> Self {
        Self {
            kind,
            bleach: BleachLabelForm::new(BOTTLE_SHARE, BOTTLE_GRAMS_PER_LITRE),
            peroxide_by_mass: RwSignal::new(true),
            peroxide: NumberInput::new(PEROXIDE_STRENGTH, QuantityKind::Share)
                .between(0.001, STRONGEST_PEROXIDE),
            substance: NumberInput::new(SUBSTANCE_SHARE, QuantityKind::Share)
                .between(0.001, 1.0)
                .optional(),
        }
    }

    /// The oxidant of a bleach; `None` for other products.
    fn oxidant(self) -> Option<Oxidant> {
        kind::oxidant(self.kind.get())
    }

    /// The strength as answered so far: `Some(None)` where the label gives none, `None` while
    /// a field is empty or refused.
    pub fn strength(self) -> Option<Option<Strength>> {
        let percent = |share: f64, stated_as| Strength {
            figure: Estimate::within(share * 100.0, LABEL_ACCURACY, Basis::Label),
            stated_as,
            density_g_per_ml: None,
        };
        match self.oxidant() {
            Some(_) if !self.bleach.known.get() => Some(None),
            Some(Oxidant::Peroxide) => {
                let stated_as = match self.peroxide_by_mass.get() {
                    true => StrengthBasis::HydrogenPeroxidePercentByMass,
                    false => StrengthBasis::HydrogenPeroxidePercentByVolume,
                };
                Some(Some(percent(self.peroxide.base()?, stated_as)))
            }
            Some(oxidant) => {
                let bleach = self.bleach.bleach(oxidant)?;
                self.bleach.refused(oxidant).is_none().then_some(Some(bleach.strength()))
            }
            None if self.substance.wrong().is_some() => None,
            None => {
                let stated_as = StrengthBasis::SubstancePercentByMass;
                Some(self.substance.base().map(|share| percent(share, stated_as)))
            }
        }
    }

    /// Why no bath is planned with peroxide of this label.
    fn too_strong(self) -> Option<Message> {
        check_peroxide(Estimate::exact(self.peroxide.base()?, Basis::Label)).err()
    }

    /// Marks missing fields; whether the form is complete.
    pub fn try_now(self) -> bool {
        let fields = match self.oxidant() {
            Some(_) if !self.bleach.known.get() => true,
            Some(Oxidant::Peroxide) => self.peroxide.try_now(),
            Some(oxidant) => self.bleach.try_now(oxidant),
            None => true,
        };
        fields && self.strength().is_some()
    }

    /// The fields.
    pub fn view(self) -> AnyView {
        (move || match self.oxidant() {
            None => view! { <NumberField ask=self.substance hint=t!("shelf-substance_hint") /> }
                .into_any(),
            Some(oxidant) => view! {
                {self.bleach.known_choice()}
                {move || if self.bleach.known.get() {
                    self.known_strength(oxidant)
                } else {
                    assumed_strength(oxidant)
                }}
            }
            .into_any(),
        })
        .into_any()
    }

    fn known_strength(self, oxidant: Oxidant) -> AnyView {
        if oxidant == Oxidant::Peroxide {
            return view! {
                <RadioGroup label=t!("shelf-peroxide_counts") value=self.peroxide_by_mass options=vec![
                    (true, t!("shelf-peroxide_mass")),
                    (false, t!("shelf-peroxide_volume")),
                ] />
                <NumberField ask=self.peroxide hint=t!("shelf-peroxide_hint") />
                {move || self.too_strong().map(|why| view! {
                    <p class="caution danger" role="alert">{render(&why)}</p>
                })}
            }
            .into_any();
        }
        view! {
            {self.bleach.fields(oxidant)}
            {move || match self.bleach.bleach(oxidant) {
                Some(Bleach::Hypochlorite(bottle)) if bottle.liquid().is_ok() => {
                    Some(view! { <LabelComparison bottle /> })
                }
                _ => None,
            }}
        }
        .into_any()
    }
}
