//! Which product exactly: refuses those that are not for pulp.

use bleachfield_core::{
    chemistry::household::{BathUse, HouseholdProduct},
    journal::ProductKind,
    message::Message,
};
use leptos::prelude::*;

use super::kind::oxidant;
use crate::{
    components::RadioGroup,
    i18n::{render, sentence_case, t},
};

/// The choice; copies share their signals.
#[derive(Clone, Copy)]
pub struct HouseholdChoice {
    kind: RwSignal<ProductKind>,
    product: RwSignal<Option<HouseholdProduct>>,
}

impl HouseholdChoice {
    pub fn new(kind: RwSignal<ProductKind>) -> Self {
        Self { kind, product: RwSignal::new(None) }
    }

    /// The product, if one is chosen that is sold as a bleach of the present kind.
    fn chosen(self) -> Option<HouseholdProduct> {
        let like = HouseholdProduct::like(oxidant(self.kind.get())?);
        self.product.get().filter(|product| like.contains(product))
    }

    /// Why it may not go into a bath as it is.
    pub fn refused(self) -> Option<Message> {
        match self.chosen()?.bath_use() {
            BathUse::Planned(_) => None,
            BathUse::AsStockSolution(why) | BathUse::Refused(why) => Some(why),
        }
    }

    /// The choice and the refusal; nothing for what is no bleach.
    pub fn view(self) -> AnyView {
        (move || {
            let like = HouseholdProduct::like(oxidant(self.kind.get())?);
            let options = like.iter().map(|one| (Some(*one), sentence_case(t(one.word()))));
            let options = options.collect();
            Some(view! {
                <RadioGroup label=t!("shelf-new-household") value=self.product options />
                {move || self.refused().map(|why| view! {
                    <p class="caution danger" role="alert">{render(&why)}</p>
                })}
            })
        })
        .into_any()
    }
}
