//! The bleach to plan a bath with, from a product on the shelf or a label.
//! Not here: the plan itself, which is `bath`.

use jiff::Timestamp;

use crate::{
    bath::{Bleach, Bottle, PeroxideBottle, Powder},
    journal::{Product, ProductKind, ProductUsed, Strength},
};

impl Bleach {
    /// The bleach that a shelf product is at `now`: a bottle at its current strength
    /// ([`Product::strength_now`]), a powder or peroxide by its last test or label; a wide assumption where
    /// neither states a strength. Where a bottle's age cannot be calculated (a date ahead of the
    /// clock), its strength as stated. `None` for a product that no bath is planned with.
    pub fn of(product: &Product, now: Timestamp) -> Option<Self> {
        let stated = product.strength().map(|(strength, _)| strength);
        match product.kind {
            ProductKind::Hypochlorite => {
                let stated = stated.and_then(Strength::bottle).unwrap_or_else(Bottle::unknown);
                let bottle = match product.strength_now(now) {
                    Ok(today) => {
                        let density = stated.density;
                        Bottle { density, ..Bottle::titrated(today.available_chlorine) }
                    }
                    Err(_) => stated,
                };
                Some(Bleach::Hypochlorite(bottle))
            }
            ProductKind::Percarbonate => {
                let powder = stated.and_then(Strength::powder).unwrap_or_else(Powder::unknown);
                Some(Bleach::Percarbonate(powder))
            }
            ProductKind::Peroxide => {
                let bottle = stated.and_then(Strength::peroxide_bottle);
                Some(Bleach::Peroxide(bottle.unwrap_or_else(PeroxideBottle::unknown)))
            }
            _ => None,
        }
    }
}

impl ProductUsed {
    /// A shelf product with the strength of [`Bleach::of`].
    pub fn from_shelf(product: &Product, now: Timestamp) -> Option<Self> {
        let strength = Bleach::of(product, now)?.strength();
        Some(Self { shelf: Some(product.id), name: product.name.clone(), strength })
    }

    /// A bleach whose strength was typed off a label.
    pub fn typed(bleach: &Bleach) -> Self {
        Self { shelf: None, name: String::new(), strength: bleach.strength() }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use jiff::civil::Date;

    use super::*;
    use crate::bath::LabelBasis;
    use crate::derive::sample::{bottle, now};
    use crate::quantity::in_grams_per_litre;

    #[test]
    fn a_bath_is_planned_with_the_strength_of_today() {
        let Some(Bleach::Hypochlorite(now_in)) = Bleach::of(&bottle(), now()) else { panic!() };
        let today = bottle().strength_now(now()).unwrap();
        assert_eq!(now_in.basis, LabelBasis::ChlorineGramsPerLitre);
        assert!(
            (now_in.figure.value - in_grams_per_litre(today.available_chlorine.value)).abs() < 1e-9
        );
        assert_eq!(now_in.figure.basis, today.available_chlorine.basis);
        assert!(now_in.liquid().is_ok());
        // With a wrong clock the label stands as printed.
        let ahead = Product { made: Some(Date::constant(2027, 5, 4)), ..bottle() };
        let Some(Bleach::Hypochlorite(printed)) = Bleach::of(&ahead, now()) else { panic!() };
        assert_eq!(printed.figure.value, 5.0);
    }
}
