//! The bleach of a bath: a product on the shelf, or one typed from its label.

use bleachfield_core::{
    bath::{Bleach, Bottle, Oxidant, PeroxideBottle, Powder},
    journal::{Product, ProductUsed},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::bleach_label::{BleachLabelForm, MissingLabel, assumed_strength};
use crate::{components::RadioGroup, i18n::t, platform::clock, screens::shelf, state::app_state};

/// Strengths of a bottle that baths are planned with: share, and available chlorine in g/L.
const BOTTLE_SHARE: (f64, f64) = (0.0005, 0.30);
const BOTTLE_GRAMS_PER_LITRE: (f64, f64) = (0.5, 300.0);

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct BleachForm {
    source: RwSignal<BleachSource>,
    oxidant: RwSignal<Oxidant>,
    label: BleachLabelForm,
}

/// Where the bleach is taken from.
#[derive(Clone, Copy, PartialEq)]
enum BleachSource {
    Shelf(Ulid),
    Label,
}

/// A bleach to calculate with, and how the journal names it.
#[derive(Clone, PartialEq)]
pub struct ChosenBleach {
    pub bleach: Bleach,
    pub used: ProductUsed,
}

impl BleachForm {
    /// A form with the first bleach on the shelf chosen, or an empty label.
    pub fn new() -> Self {
        let first = app_state().book_now(|book| {
            book.shelf().into_iter().find(|product| is_bleach(product)).map(|p| p.id)
        });
        Self {
            source: RwSignal::new(first.map_or(BleachSource::Label, BleachSource::Shelf)),
            oxidant: RwSignal::new(Oxidant::Hypochlorite),
            label: BleachLabelForm::new(BOTTLE_SHARE, BOTTLE_GRAMS_PER_LITRE),
        }
    }

    /// Fills in a bleach that was used before: the product while it is on the shelf, else a label.
    pub fn fill(self, oxidant: Oxidant, used: &ProductUsed) {
        let on_shelf = used.shelf.filter(|id| {
            app_state().book_now(|book| book.shelf().iter().any(|product| product.id == *id))
        });
        if let Some(id) = on_shelf {
            self.source.set(BleachSource::Shelf(id));
            return;
        }
        self.source.set(BleachSource::Label);
        self.oxidant.set(oxidant);
        // The strength of a product that is gone tells nothing of another.
        if used.shelf.is_none() {
            self.label.fill(&used.strength);
        }
    }

    /// Which oxidant is chosen, even while its strength is not yet.
    pub fn oxidant(self) -> Oxidant {
        match self.source.get() {
            BleachSource::Label => self.oxidant.get(),
            BleachSource::Shelf(id) => app_state()
                .book(|book| book.products.get(&id).and_then(|p| Bleach::of(p, clock::now())))
                .map_or(Oxidant::Hypochlorite, |bleach| bleach.oxidant()),
        }
    }

    /// What is missing of the label, if one is typed. Tracked.
    pub fn missing(self) -> Option<MissingLabel> {
        (self.source.get() == BleachSource::Label && self.label.known.get())
            .then(|| self.label.missing(self.oxidant.get()))
            .flatten()
    }

    /// Marks missing fields.
    pub fn try_now(self) {
        if self.source.get_untracked() == BleachSource::Label {
            untrack(|| self.label.try_now(self.oxidant.get()));
        }
    }

    /// The bleach as answered so far; `None` while a field is empty or refused.
    pub fn chosen(self) -> Option<ChosenBleach> {
        match self.source.get() {
            BleachSource::Shelf(id) => app_state().book(|book| {
                let product = book.products.get(&id)?;
                let now = clock::now();
                Some(ChosenBleach {
                    bleach: Bleach::of(product, now)?,
                    used: ProductUsed::from_shelf(product, now)?,
                })
            }),
            BleachSource::Label => {
                let bleach = self.labelled()?;
                Some(ChosenBleach { bleach, used: ProductUsed::typed(&bleach) })
            }
        }
    }

    fn labelled(self) -> Option<Bleach> {
        match self.oxidant.get() {
            oxidant if self.label.known.get() => self.label.bleach(oxidant),
            Oxidant::Hypochlorite => Some(Bleach::Hypochlorite(Bottle::unknown())),
            Oxidant::Percarbonate => Some(Bleach::Percarbonate(Powder::unknown())),
            Oxidant::Peroxide => Some(Bleach::Peroxide(PeroxideBottle::unknown())),
        }
    }

    /// The fields.
    pub fn view(self) -> AnyView {
        let sources = move || {
            app_state().book(|book| {
                let shelf = book.shelf().into_iter().filter(|product| is_bleach(product));
                shelf
                    .map(|product| (BleachSource::Shelf(product.id), product.name.clone()))
                    .chain([(BleachSource::Label, t!("bleach-type_label"))])
                    .collect::<Vec<_>>()
            })
        };
        view! {
            <div class="stack">
                {move || Some(sources()).filter(|sources| sources.len() > 1).map(|options| view! {
                    <RadioGroup label=t!("bleach-from") value=self.source options />
                })}
                {move || match self.source.get() {
                    BleachSource::Label => self.label_view(),
                    BleachSource::Shelf(id) => shelf_strength(id).into_any(),
                }}
            </div>
        }
        .into_any()
    }

    fn label_view(self) -> AnyView {
        view! {
            <div class="stack">
                <RadioGroup label=t!("bleach-oxidant") value=self.oxidant options=vec![
                    (Oxidant::Hypochlorite, t!("oxidant-hypochlorite")),
                    (Oxidant::Percarbonate, t!("oxidant-percarbonate")),
                    (Oxidant::Peroxide, t!("oxidant-peroxide")),
                ] />
                {move || {
                    let oxidant = self.oxidant.get();
                    if self.label.known.get() {
                        self.label.strength_fields(oxidant)
                    } else {
                        assumed_strength(oxidant)
                    }
                }}
                <details class="more">
                    <summary>{t!("bleach-more")}</summary>
                    <div class="inside stack">
                        {self.label.known_choice()}
                        {move || (self.oxidant.get() == Oxidant::Hypochlorite
                            && self.label.known.get()).then(|| self.label.density_field())}
                    </div>
                </details>
            </div>
        }
        .into_any()
    }
}

/// The strength of a product on the shelf, and its evidence.
fn shelf_strength(id: Ulid) -> Option<AnyView> {
    let now = app_state()
        .book(|book| book.products.get(&id).and_then(|p| shelf::strength_text(p, clock::now())))?;
    let view = view! {
        <p role="status">
            <strong>{now.value}</strong>{now.range.map(|range| format!(" ({range})"))}
            ". "{now.rests_on}" "{shelf::assumed_mark(now.assumed)}
        </p>
    };
    Some(view.into_any())
}

/// Whether baths are planned with it.
fn is_bleach(product: &Product) -> bool {
    Bleach::of(product, clock::now()).is_some()
}
