//! What a label says about strength, for each kind of product.

use bleachfield_core::{
    bath::{
        BOTTLE_DENSITY, BOTTLE_STRENGTH, Bleach, Bottle, LabelBasis, POWDER_STRENGTH, Powder,
        PowderBasis,
    },
    journal::{ProductKind, Strength, StrengthBasis},
    message::{Field, Message},
    quantity::{Basis, Estimate, QuantityKind, Unit, grams_per_millilitre, share},
};
use leptos::prelude::*;

use super::truth::Traps;
use crate::{
    components::{Assumed, NumberField, NumberInput, RadioGroup},
    i18n::{key, t},
};

const PEROXIDE_STRENGTH: Field = Field("peroxide_strength");
const SUBSTANCE_SHARE: Field = Field("substance_share");

/// Strongest peroxide taken, 50 % by mass: stronger is not sold to a studio (common practice,
/// no source).
const STRONGEST_PEROXIDE: f64 = 0.50;

/// Labels are nominal: ±5 % of the figure (common practice, no source).
const LABEL_OFF: f64 = 0.05;

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct LabelForm {
    kind: RwSignal<ProductKind>,
    known: RwSignal<bool>,
    /// `None` where the label does not say.
    bottle_basis: RwSignal<Option<LabelBasis>>,
    percent: NumberInput,
    grams_per_litre: NumberInput,
    density: NumberInput,
    powder_basis: RwSignal<PowderBasis>,
    powder: NumberInput,
    peroxide_by_mass: RwSignal<bool>,
    peroxide: NumberInput,
    substance: NumberInput,
}

impl LabelForm {
    pub fn new(kind: RwSignal<ProductKind>) -> Self {
        Self {
            kind,
            known: RwSignal::new(true),
            bottle_basis: RwSignal::new(Some(LabelBasis::NaoclByMass)),
            percent: NumberInput::new(BOTTLE_STRENGTH, QuantityKind::Share).between(0.0001, 1.0),
            grams_per_litre: NumberInput::new(BOTTLE_STRENGTH, QuantityKind::Concentration)
                .between(0.1, 500.0),
            density: NumberInput::new(BOTTLE_DENSITY, QuantityKind::Density)
                .unit(Unit::GramsPerMillilitre)
                .optional(),
            powder_basis: RwSignal::new(PowderBasis::Percarbonate),
            powder: NumberInput::new(POWDER_STRENGTH, QuantityKind::Share).between(0.001, 1.0),
            peroxide_by_mass: RwSignal::new(true),
            peroxide: NumberInput::new(PEROXIDE_STRENGTH, QuantityKind::Share)
                .between(0.001, STRONGEST_PEROXIDE),
            substance: NumberInput::new(SUBSTANCE_SHARE, QuantityKind::Share)
                .between(0.001, 1.0)
                .optional(),
        }
    }

    /// The strength as answered so far: `Some(None)` where the label gives none, `None` while
    /// a field is empty or refused.
    pub fn strength(self) -> Option<Option<Strength>> {
        let kind = self.kind.get();
        if is_bleach(kind) && !self.known.get() {
            return Some(None);
        }
        let percent = |share: f64, stated_as| Strength {
            figure: Estimate::within(share * 100.0, LABEL_OFF, Basis::Label),
            stated_as,
            density_g_per_ml: None,
        };
        match kind {
            ProductKind::Hypochlorite | ProductKind::Percarbonate => {
                let bleach = self.bleach()?;
                self.refused().is_none().then_some(Some(bleach.strength()))
            }
            ProductKind::Peroxide => {
                let stated_as = match self.peroxide_by_mass.get() {
                    true => StrengthBasis::HydrogenPeroxidePercentByMass,
                    false => StrengthBasis::HydrogenPeroxidePercentByVolume,
                };
                Some(Some(percent(self.peroxide.base()?, stated_as)))
            }
            _ => {
                self.substance.wrong().is_none().then_some(())?;
                let stated_as = StrengthBasis::SubstancePercentByMass;
                Some(self.substance.base().map(|share| percent(share, stated_as)))
            }
        }
    }

    /// Marks what is missing, and says whether the screen may go on.
    pub fn try_now(self) -> bool {
        let kind = self.kind.get();
        if is_bleach(kind) && self.known.get() {
            match (kind, self.bottle_basis.get()) {
                (ProductKind::Percarbonate, _) => self.powder.try_now(),
                (ProductKind::Peroxide, _) => self.peroxide.try_now(),
                (_, Some(LabelBasis::ChlorineGramsPerLitre)) => self.grams_per_litre.try_now(),
                _ => self.percent.try_now(),
            };
        }
        let density = kind != ProductKind::Hypochlorite || self.density.try_now();
        density && self.strength().is_some()
    }

    /// What the core says against the label as typed.
    fn refused(self) -> Option<Message> {
        if self.kind.get() == ProductKind::Hypochlorite
            && let Err(unsaid) = LabelBasis::stated(self.bottle_basis.get())
        {
            return Some(unsaid);
        }
        match self.bleach()? {
            Bleach::Hypochlorite(bottle) => bottle.liquid().err(),
            Bleach::Percarbonate(powder) => powder.peroxide().err(),
        }
        .map(|error| error.message())
    }

    fn bleach(self) -> Option<Bleach> {
        if self.kind.get() == ProductKind::Percarbonate {
            let figure = share(self.powder.base()?);
            return Some(Bleach::Percarbonate(Powder::labelled(figure, self.powder_basis.get())));
        }
        let basis = LabelBasis::stated(self.bottle_basis.get()).ok()?;
        let figure = match basis {
            LabelBasis::ChlorineGramsPerLitre => self.grams_per_litre.base()?,
            _ => self.percent.base()? * 100.0,
        };
        let density = self
            .density
            .base()
            .map(|density| Estimate::within(grams_per_millilitre(density), 0.005, Basis::Measured));
        Some(Bleach::Hypochlorite(Bottle { density, ..Bottle::labelled(figure, basis) }))
    }

    /// The fields.
    pub fn view(self) -> AnyView {
        (move || {
            let kind = self.kind.get();
            if !is_bleach(kind) {
                return view! { <NumberField ask=self.substance hint=t!("shelf-substance_hint") /> }
                    .into_any();
            }
            view! {
                <RadioGroup label=t!("bleach-known") value=self.known options=vec![
                    (true, t!("bleach-known_yes")),
                    (false, t!("bleach-known_no")),
                ] />
                {move || if self.known.get() { self.stated(kind) } else { assumed(kind) }}
            }
            .into_any()
        })
        .into_any()
    }

    fn stated(self, kind: ProductKind) -> AnyView {
        let refused = Signal::derive(move || self.refused());
        match kind {
            ProductKind::Percarbonate => view! {
                <RadioGroup label=t!("bleach-powder_counts") value=self.powder_basis options=vec![
                    (PowderBasis::Percarbonate, t!("bleach-powder_percarbonate")),
                    (PowderBasis::Peroxide, t!("bleach-powder_peroxide")),
                    (PowderBasis::ActiveOxygen, t!("bleach-powder_oxygen")),
                ] />
                <NumberField ask=self.powder hint=t!("bleach-powder_hint") refused />
            }
            .into_any(),
            ProductKind::Peroxide => view! {
                <RadioGroup label=t!("shelf-peroxide_counts") value=self.peroxide_by_mass options=vec![
                    (true, t!("shelf-peroxide_mass")),
                    (false, t!("shelf-peroxide_volume")),
                ] />
                <NumberField ask=self.peroxide hint=t!("shelf-peroxide_hint") />
            }
            .into_any(),
            _ => view! {
                <RadioGroup label=t!("bleach-counts") value=self.bottle_basis options=vec![
                    (Some(LabelBasis::NaoclByMass), t!("bleach-nacl_mass")),
                    (Some(LabelBasis::NaoclByVolume), t!("bleach-nacl_volume")),
                    (Some(LabelBasis::ChlorineByMass), t!("bleach-chlorine_mass")),
                    (Some(LabelBasis::ChlorineByVolume), t!("bleach-chlorine_volume")),
                    (Some(LabelBasis::ChlorineGramsPerLitre), t!("bleach-chlorine_litre")),
                    (None, t!("bleach-basis_unsaid")),
                ] />
                {move || {
                    let litre = self.bottle_basis.get() == Some(LabelBasis::ChlorineGramsPerLitre);
                    let ask = if litre { self.grams_per_litre } else { self.percent };
                    view! { <NumberField ask hint=t!("bleach-strength_hint") refused /> }
                }}
                <NumberField ask=self.density hint=t!("bleach-density_hint") refused />
                {move || match self.bleach() {
                    Some(Bleach::Hypochlorite(bottle)) if bottle.liquid().is_ok() => {
                        Some(view! { <Traps bottle /> })
                    }
                    _ => None,
                }}
            }
            .into_any(),
        }
    }
}

fn is_bleach(kind: ProductKind) -> bool {
    super::kind::oxidant(kind).is_some()
}

fn assumed(kind: ProductKind) -> AnyView {
    let why = match kind {
        ProductKind::Percarbonate => key!("bleach-powder_assumed"),
        ProductKind::Peroxide => key!("shelf-peroxide_assumed"),
        _ => key!("bleach-bottle_assumed"),
    };
    view! { <p>{t(why)}" "<Assumed /></p> }.into_any()
}
