//! The bleach: off the shelf, or typed from a label.

use bleachfield_core::{
    bath::{
        BOTTLE_DENSITY, BOTTLE_STRENGTH, Bleach, Bottle, LabelBasis, Oxidant, POWDER_STRENGTH,
        Powder, PowderBasis,
    },
    journal::{Product, ProductUsed},
    message::Message,
    quantity::{Basis, Estimate, QuantityKind, Unit, grams_per_millilitre, share},
};
use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    components::{Assumed, NumberField, NumberInput, RadioGroup},
    i18n::{key, t},
    platform::clock,
    screens::shelf,
    state::app_state,
};

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct BleachForm {
    from: RwSignal<BleachSource>,
    oxidant: RwSignal<Oxidant>,
    known: RwSignal<bool>,
    /// `None` where the label does not say.
    bottle_basis: RwSignal<Option<LabelBasis>>,
    percent: NumberInput,
    grams_per_litre: NumberInput,
    density: NumberInput,
    powder_basis: RwSignal<PowderBasis>,
    powder: NumberInput,
}

/// Where the bleach is taken from.
#[derive(Clone, Copy, PartialEq)]
enum BleachSource {
    Shelf(Ulid),
    Label,
}

/// A bleach that can be reckoned with, and how the journal names it.
#[derive(Clone, PartialEq)]
pub struct ChosenBleach {
    pub bleach: Bleach,
    pub used: ProductUsed,
}

impl BleachForm {
    /// An empty form; the first bleach on the shelf is taken if there is one.
    pub fn new() -> Self {
        let first = app_state().book_now(|book| {
            book.shelf().into_iter().find(|product| is_bleach(product)).map(|p| p.id)
        });
        Self {
            from: RwSignal::new(first.map_or(BleachSource::Label, BleachSource::Shelf)),
            oxidant: RwSignal::new(Oxidant::Hypochlorite),
            known: RwSignal::new(true),
            bottle_basis: RwSignal::new(Some(LabelBasis::NaoclByMass)),
            percent: NumberInput::new(BOTTLE_STRENGTH, QuantityKind::Share).between(0.0005, 0.30),
            grams_per_litre: NumberInput::new(BOTTLE_STRENGTH, QuantityKind::Concentration)
                .between(0.5, 300.0),
            density: NumberInput::new(BOTTLE_DENSITY, QuantityKind::Density)
                .unit(Unit::GramsPerMillilitre)
                .optional(),
            powder_basis: RwSignal::new(PowderBasis::Percarbonate),
            powder: NumberInput::new(POWDER_STRENGTH, QuantityKind::Share).between(0.001, 1.0),
        }
    }

    /// Which oxidant is chosen, even while its strength is not yet.
    pub fn oxidant(self) -> Oxidant {
        match self.from.get() {
            BleachSource::Label => self.oxidant.get(),
            BleachSource::Shelf(id) => app_state()
                .book(|book| book.products.get(&id).and_then(|p| Bleach::of(p, clock::now())))
                .map_or(Oxidant::Hypochlorite, |bleach| bleach.oxidant()),
        }
    }

    /// The bleach as answered so far; `None` while a field is empty or refused.
    pub fn chosen(self) -> Option<ChosenBleach> {
        match self.from.get() {
            BleachSource::Shelf(id) => app_state().book(|book| {
                let product = book.products.get(&id)?;
                let now = clock::now();
                Some(ChosenBleach {
                    bleach: Bleach::of(product, now)?,
                    used: ProductUsed::from_shelf(product, now)?,
                })
            }),
            BleachSource::Label => {
                let bleach = self.typed()?;
                Some(ChosenBleach { bleach, used: ProductUsed::typed(&bleach) })
            }
        }
    }

    /// What the core says against the label as typed.
    fn refused(self) -> Option<Message> {
        if self.oxidant.get() == Oxidant::Hypochlorite
            && self.known.get()
            && let Err(unsaid) = LabelBasis::stated(self.bottle_basis.get())
        {
            return Some(unsaid);
        }
        match self.typed()? {
            Bleach::Hypochlorite(bottle) => bottle.liquid().err(),
            Bleach::Percarbonate(powder) => powder.peroxide().err(),
        }
        .map(|error| error.message())
    }

    fn typed(self) -> Option<Bleach> {
        if self.oxidant.get() == Oxidant::Percarbonate {
            if !self.known.get() {
                return Some(Bleach::Percarbonate(Powder::unknown()));
            }
            let figure = share(self.powder.base()?);
            return Some(Bleach::Percarbonate(Powder::labelled(figure, self.powder_basis.get())));
        }
        if !self.known.get() {
            return Some(Bleach::Hypochlorite(Bottle::unknown()));
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
        let from = self.from;
        let offers = move || {
            let mut offers: Vec<(BleachSource, String)> = app_state().book(|book| {
                book.shelf()
                    .into_iter()
                    .filter(|product| is_bleach(product))
                    .map(|product: &Product| {
                        (BleachSource::Shelf(product.id), product.name.clone())
                    })
                    .collect()
            });
            offers.push((BleachSource::Label, t!("bleach-type_label")));
            offers
        };
        view! {
            <div class="stack">
                {move || {
                    let offers = offers();
                    (offers.len() > 1).then(|| view! {
                        <RadioGroup label=t!("bleach-from") value=from options=offers />
                    })
                }}
                {move || match from.get() {
                    BleachSource::Label => self.label().into_any(),
                    BleachSource::Shelf(id) => shelf_strength(id).into_any(),
                }}
            </div>
        }
        .into_any()
    }

    fn label(self) -> AnyView {
        let refused = Signal::derive(move || self.refused());
        view! {
            <div class="stack">
                <RadioGroup label=t!("bleach-oxidant") value=self.oxidant options=vec![
                    (Oxidant::Hypochlorite, t!("oxidant-hypochlorite")),
                    (Oxidant::Percarbonate, t!("oxidant-percarbonate")),
                ] />
                <RadioGroup label=t!("bleach-known") value=self.known options=vec![
                    (true, t!("bleach-known_yes")),
                    (false, t!("bleach-known_no")),
                ] />
                {move || if !self.known.get() {
                    let why = match self.oxidant.get() {
                        Oxidant::Percarbonate => key!("bleach-powder_assumed"),
                        _ => key!("bleach-bottle_assumed"),
                    };
                    view! { <p>{t(why)}" "<Assumed /></p> }.into_any()
                } else if self.oxidant.get() == Oxidant::Percarbonate {
                    view! {
                        <RadioGroup label=t!("bleach-powder_counts") value=self.powder_basis options=vec![
                            (PowderBasis::Percarbonate, t!("bleach-powder_percarbonate")),
                            (PowderBasis::Peroxide, t!("bleach-powder_peroxide")),
                            (PowderBasis::ActiveOxygen, t!("bleach-powder_oxygen")),
                        ] />
                        <NumberField ask=self.powder hint=t!("bleach-powder_hint") refused />
                    }.into_any()
                } else {
                    let percent = self.bottle_basis.get() != Some(LabelBasis::ChlorineGramsPerLitre);
                    view! {
                        <RadioGroup label=t!("bleach-counts") value=self.bottle_basis options=vec![
                            (Some(LabelBasis::NaoclByMass), t!("bleach-nacl_mass")),
                            (Some(LabelBasis::NaoclByVolume), t!("bleach-nacl_volume")),
                            (Some(LabelBasis::ChlorineByMass), t!("bleach-chlorine_mass")),
                            (Some(LabelBasis::ChlorineByVolume), t!("bleach-chlorine_volume")),
                            (Some(LabelBasis::ChlorineGramsPerLitre), t!("bleach-chlorine_litre")),
                            (None, t!("bleach-basis_unsaid")),
                        ] />
                        <NumberField ask=if percent { self.percent } else { self.grams_per_litre }
                            hint=t!("bleach-strength_hint") refused />
                        <NumberField ask=self.density hint=t!("bleach-density_hint") refused />
                    }.into_any()
                }}
            </div>
        }.into_any()
    }
}

/// What a product from the shelf is reckoned with, and what that rests on.
fn shelf_strength(id: Ulid) -> Option<AnyView> {
    let now = app_state()
        .book(|book| book.products.get(&id).and_then(|p| shelf::strength_text(p, clock::now())));
    now.map(|now| {
        view! {
            <p role="status">
                <strong>{now.value}</strong>{now.range.map(|range| format!(" ({range})"))}
                ". "{now.rests_on}" "{shelf::mark(now.assumed)}
            </p>
        }
    })
    .map(IntoAny::into_any)
}

/// Whether baths are planned with it.
fn is_bleach(product: &Product) -> bool {
    Bleach::of(product, clock::now()).is_some()
}
