//! Which product exactly: refuses those that are not for pulp, and makes a stock solution of the
//! one that is only for that.

use bleachfield_core::{
    chemistry::household::{BathUse, HouseholdProduct},
    journal::{ProductKind, Strength},
    message::Message,
};
use leptos::prelude::*;

use super::{kind::oxidant, stock_solution::StockSolutionForm};
use crate::{
    components::RadioGroup,
    i18n::{render, sentence_case, t},
};

/// The choice; copies share their signals.
#[derive(Clone, Copy)]
pub struct HouseholdChoice {
    kind: RwSignal<ProductKind>,
    product: RwSignal<Option<HouseholdProduct>>,
    stock: StockSolutionForm,
}

impl HouseholdChoice {
    pub fn new(kind: RwSignal<ProductKind>) -> Self {
        Self { kind, product: RwSignal::new(None), stock: StockSolutionForm::new() }
    }

    /// What may be sold as a product of the present kind.
    fn offered(self) -> &'static [HouseholdProduct] {
        match self.kind.get() {
            ProductKind::Other => HouseholdProduct::CLEANERS,
            kind => oxidant(kind).map_or(&[], HouseholdProduct::like),
        }
    }

    /// What it is used as, if one of those offered is chosen.
    fn bath_use(self) -> Option<BathUse> {
        let product = self.product.get()?;
        self.offered().contains(&product).then(|| product.bath_use())
    }

    /// Why it may not go onto the shelf.
    pub fn refused(self) -> Option<Message> {
        match self.bath_use()? {
            BathUse::Planned(_) | BathUse::AsStockSolution(_) => None,
            BathUse::Refused(why) => Some(why),
        }
    }

    /// Whether it goes onto the shelf as a stock solution, so that no label is asked for.
    pub fn is_stock_solution(self) -> bool {
        matches!(self.bath_use(), Some(BathUse::AsStockSolution(_)))
    }

    /// The strength of the stock solution; `None` while a field is empty or refused.
    pub fn stock_strength(self) -> Option<Strength> {
        self.stock.strength()
    }

    /// Marks missing fields of the stock solution; whether there is one.
    pub fn try_stock(self) -> bool {
        self.stock.try_now()
    }

    /// The choice, and what follows from it; nothing where there is none.
    pub fn view(self) -> AnyView {
        (move || {
            let offered = self.offered();
            let options = offered.iter().map(|one| (Some(*one), sentence_case(t(one.word()))));
            let options = options.collect();
            (!offered.is_empty()).then(|| {
                view! {
                    <RadioGroup label=t!("shelf-new-household") value=self.product options />
                    {move || self.consequence()}
                }
            })
        })
        .into_any()
    }

    fn consequence(self) -> Option<AnyView> {
        match self.bath_use()? {
            BathUse::Planned(_) => None,
            BathUse::Refused(why) => Some(danger(&why)),
            BathUse::AsStockSolution(how) => {
                Some(view! { {danger(&how)} {self.stock.view()} }.into_any())
            }
        }
    }
}

fn danger(message: &Message) -> AnyView {
    view! { <p class="caution danger" role="alert">{render(message)}</p> }.into_any()
}
