//! Cautions for what is done with a product of the shelf.

use bleachfield_core::{
    caution::{Act, Caution, Residual, Situation, cautions},
    journal::{Product, ProductKind},
};

use super::kind::{is_acid, oxidant};
use crate::platform::clock;

pub fn storing(product: &Product) -> Vec<Caution> {
    if let Some(situation) = bleach_situation(product) {
        return cautions(Act::Storing, &situation);
    }
    if is_acid(product.kind) {
        return cautions(Act::AddingAcid, &Situation::default());
    }
    cautions(Act::Storing, &Situation::without_bleach())
}

/// For opening a bleach; other products have none.
pub fn opening(product: &Product) -> Vec<Caution> {
    of_bleach(product, Act::OpeningBottle, |situation| situation)
}

/// For pouring out the rest of a bleach; other products have none.
pub fn draining(product: &Product) -> Vec<Caution> {
    of_bleach(product, Act::Draining, |s| Situation { strength: s.bottle_strength, ..s })
}

/// For titrating a bleach: acid meets a little of it.
pub fn titrating(product: &Product) -> Vec<Caution> {
    let residual = match product.kind {
        ProductKind::Hypochlorite => Residual::Hypochlorite,
        _ => Residual::Peroxide,
    };
    of_bleach(product, Act::AddingAcid, |situation| Situation { residual, ..situation })
}

fn of_bleach(
    product: &Product,
    act: Act,
    situation: impl FnOnce(Situation) -> Situation,
) -> Vec<Caution> {
    bleach_situation(product).map(|s| cautions(act, &situation(s))).unwrap_or_default()
}

/// The facts for the hazard rules, without any pulp; `None` if the product is no bleach.
fn bleach_situation(product: &Product) -> Option<Situation> {
    let strength = product.strength_now(clock::now()).ok();
    Some(Situation {
        oxidant: oxidant(product.kind)?.into(),
        residual: Residual::None,
        bottle_strength: strength.map(|strength| strength.available_chlorine.into()),
        ..Situation::default()
    })
}
