//! Current strength of a product on the shelf, from its label, its tests and its storage.
//! Not here: the decay law and how evidence is weighed, which are `chemistry::bottle`.

use jiff::Timestamp;

use super::product_age::{days_between, days_since};
use crate::{
    bath::{Bottle, Powder as LabelledPowder},
    chemistry::{
        StrengthError,
        bottle::{self, BottleStrength, EvidenceKind, StorageConditions, StrengthEvidence},
        decay::DecayExtrapolation,
        percarbonate::PercarbonatePowder,
    },
    journal::{Product, ProductKind, StrengthMethod},
    quantity::{Basis, ComputedEstimate, Estimate, MassConcentration, in_share},
};

impl Product {
    /// Strength of a hypochlorite bottle at `now`, by the best evidence there is. A strength
    /// that was found before the bottle was opened decays as in a closed bottle up to that
    /// day, and as in an open one from there.
    ///
    /// # Errors
    /// A label or a test that is impossible; a date more than a day ahead of `now`; a storage
    /// temperature outside 0-100 °C; [`StrengthError::Missing`] for any other product than
    /// hypochlorite.
    pub fn strength_now(&self, now: Timestamp) -> Result<BottleStrength, StrengthError> {
        if self.kind != ProductKind::Hypochlorite {
            return Err(StrengthError::Missing { field: crate::chemistry::decay::STRENGTH });
        }
        let evidence = self.evidence(now)?;
        let keeping = self.keeping();
        let opened = self.opened.map(|day| days_since(day, now)).filter(|days| *days >= 0.0);
        let best = bottle::best(&evidence).copied();
        let (Some(best), Some(opened)) = (best, opened) else {
            return bottle::strength_now(&evidence, &keeping);
        };
        if opened >= best.days_ago {
            return bottle::strength_now(&evidence, &keeping);
        }
        let closed = StorageConditions { opened: false, ..keeping };
        let before = StrengthEvidence { days_ago: best.days_ago - opened, ..best };
        let before = bottle::strength_now(&[before], &closed)?;
        let since = StrengthEvidence {
            strength: before.available_chlorine,
            days_ago: opened,
            kind: best.kind,
        };
        let since = bottle::strength_now(&[since], &keeping)?;
        Ok(BottleStrength {
            left: times(before.left, since.left),
            extrapolation: either(before.extrapolation, since.extrapolation),
            ..since
        })
    }

    /// Evidence of a hypochlorite bottle's strength: tests, newest first, then the label.
    ///
    /// # Errors
    /// A label or a test whose strength is impossible.
    pub fn evidence(&self, now: Timestamp) -> Result<Vec<StrengthEvidence>, StrengthError> {
        let mut evidence = Vec::with_capacity(self.found.len() + 1);
        for (at, found) in self.found.iter().rev() {
            let Some(bottle) = found.strength.bottle() else { continue };
            let kind = match found.method {
                StrengthMethod::IodometricTitration | StrengthMethod::PermanganateTitration => {
                    EvidenceKind::Titration
                }
                // An unnamed method is trusted no more than a strip.
                StrengthMethod::Strip | StrengthMethod::Other => EvidenceKind::Strip,
            };
            let strength = chlorine(&bottle)?;
            evidence.push(StrengthEvidence {
                kind,
                strength,
                days_ago: days_between(*at, now).max(0.0),
            });
        }
        let label = self.label.and_then(|label| label.bottle()).unwrap_or_else(Bottle::unknown);
        let strength = chlorine(&label)?;
        let (_, days_ago) = self.age_days(now);
        evidence.push(StrengthEvidence { kind: EvidenceKind::Label, strength, days_ago });
        Ok(evidence)
    }

    /// Storage conditions, as far as they were noted. A noted temperature is taken as ±3 °C;
    /// without one, 20 °C with a range of 10 to 28 °C. A bottle that nobody said to stand in
    /// the light is opaque, as retail bottles are. (All common practice, no source.)
    pub fn keeping(&self) -> StorageConditions {
        let celsius = match self.storage.celsius {
            Some(value) => Estimate {
                value,
                low: (value - 3.0).max(0.0_f64.min(value)),
                high: (value + 3.0).min(100.0_f64.max(value)),
                basis: Basis::OwnRecord,
            },
            None => Estimate { value: 20.0, low: 10.0, high: 28.0, basis: Basis::Assumed },
        };
        StorageConditions {
            celsius,
            opened: self.opened.is_some() || self.storage.closed == Some(false),
            lit: self.storage.dark == Some(false),
        }
    }

    /// Content of a percarbonate powder, by its last test, else its label, else a wide
    /// assumption.
    ///
    /// # Errors
    /// More than pure percarbonate holds; [`StrengthError::Missing`] for any other product than
    /// percarbonate.
    pub fn powder(&self) -> Result<PercarbonatePowder, StrengthError> {
        if self.kind != ProductKind::Percarbonate {
            return Err(StrengthError::Missing { field: crate::bath::POWDER_STRENGTH });
        }
        let stated = self.strength().and_then(|(strength, _)| strength.powder());
        let powder = stated.unwrap_or_else(LabelledPowder::unknown);
        let peroxide = powder.peroxide()?.map(in_share);
        Ok(PercarbonatePowder::from_peroxide(with_basis(peroxide, powder.figure.basis))?)
    }
}

fn chlorine(bottle: &Bottle) -> Result<Estimate<MassConcentration>, StrengthError> {
    Ok(with_basis(bottle.liquid()?.available_chlorine, bottle.figure.basis))
}

/// A figure calculated from one stated value keeps the basis of that value.
fn with_basis<Q>(figure: ComputedEstimate<Q>, basis: Basis) -> Estimate<Q> {
    Estimate { value: figure.value, low: figure.low, high: figure.high, basis }
}

fn times(a: Estimate<f64>, b: Estimate<f64>) -> Estimate<f64> {
    Estimate {
        value: a.value * b.value,
        low: a.low * b.low,
        high: a.high * b.high,
        basis: a.basis.max(b.basis),
    }
}

fn either(a: DecayExtrapolation, b: DecayExtrapolation) -> DecayExtrapolation {
    DecayExtrapolation {
        dilute: a.dilute || b.dilute,
        cold: a.cold || b.cold,
        hot: a.hot || b.hot,
        low_in_lye: a.low_in_lye || b.low_in_lye,
        long_exposed: a.long_exposed || b.long_exposed,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use jiff::civil::Date;

    use super::*;
    use crate::{
        derive::{
            AgeReference,
            sample::{bottle, now},
        },
        journal::{Storage, Strength as Stated, StrengthBasis, StrengthFound},
        quantity::in_grams_per_litre,
    };

    fn found(method: StrengthMethod, g_per_l: f64) -> StrengthFound {
        StrengthFound {
            method,
            strength: Stated {
                figure: Estimate::exact(g_per_l, Basis::Measured),
                stated_as: StrengthBasis::AvailableChlorineGPerL,
                density_g_per_ml: None,
            },
            runs: Vec::new(),
            dilution: None,
            strip_mg_per_l: None,
            note: String::new(),
        }
    }

    fn grams(strength: &BottleStrength) -> f64 {
        in_grams_per_litre(strength.available_chlorine.value)
    }

    #[test]
    fn a_label_is_aged_from_the_day_it_was_made() {
        let young = Product { made: Some(Date::constant(2026, 5, 4)), ..bottle() };
        let fresh = young.strength_now(now()).unwrap();
        assert!((grams(&fresh) - 50.0).abs() < 0.1);
        let old = bottle().strength_now(now()).unwrap();
        assert_eq!(old.rests_on, EvidenceKind::Label);
        assert!(grams(&old) < 49.0 && !old.widened);
        let warm =
            Product { storage: Storage { celsius: Some(35.0), ..bottle().storage }, ..bottle() };
        assert!(grams(&warm.strength_now(now()).unwrap()) < grams(&old));
    }

    #[test]
    fn a_test_outranks_the_label_and_a_titration_a_strip() {
        let day = |days: i64| now() - jiff::SignedDuration::from_hours(24 * days);
        let mut product = bottle();
        product.found.push((day(30), found(StrengthMethod::IodometricTitration, 40.0)));
        product.found.push((day(1), found(StrengthMethod::Strip, 30.0)));
        let strength = product.strength_now(now()).unwrap();
        assert_eq!(strength.rests_on, EvidenceKind::Titration);
        assert!((35.0..40.0).contains(&grams(&strength)));
    }

    #[test]
    fn opening_counts_from_its_day() {
        let opened = |day| Product { opened: Some(day), ..bottle() }.strength_now(now()).unwrap();
        let just = opened(Date::constant(2026, 5, 3));
        let long = opened(Date::constant(2026, 1, 10));
        let closed = bottle().strength_now(now()).unwrap();
        assert!(just.widened && long.widened);
        assert!(just.left.low > long.left.low + 0.1, "{just:?} {long:?}");
        assert!((grams(&just) - grams(&closed)).abs() < 1.0);
        assert!(just.left.high <= 1.0 && just.left.low < just.left.value);
    }

    #[test]
    fn a_bottle_without_label_is_assumed_with_a_wide_range() {
        let silent = Product { label: None, storage: Storage::default(), ..bottle() };
        let strength = silent.strength_now(now()).unwrap().available_chlorine;
        assert_eq!(strength.basis, Basis::Assumed);
        assert!(in_grams_per_litre(strength.high) > 2.0 * in_grams_per_litre(strength.low));
    }

    #[test]
    fn the_date_of_making_counts_else_the_oldest_date() {
        let from =
            |made, bought, opened| Product { made, bought, opened, ..bottle() }.age_days(now());
        let (april, march) = (Date::constant(2026, 4, 4), Date::constant(2026, 3, 4));
        assert_eq!(from(Some(april), Some(march), None), (AgeReference::Made, 30.0));
        assert_eq!(from(None, Some(april), Some(march)), (AgeReference::Opened, 61.0));
        assert_eq!(from(None, Some(march), None), (AgeReference::Bought, 61.0));
        assert_eq!(from(None, None, None), (AgeReference::Added, 0.0));
        // The calendar of another zone is a day ahead at most.
        assert_eq!(from(Some(Date::constant(2026, 5, 5)), None, None).1, 0.0);
        assert!(from(Some(Date::constant(2026, 5, 9)), None, None).1 < -1.0);
    }

    #[test]
    fn a_date_ahead_of_the_clock_gives_no_strength() {
        let product = Product { made: Some(Date::constant(2027, 5, 4)), ..bottle() };
        let refused = product.strength_now(now()).unwrap_err();
        assert_eq!(refused.message().field, Some(crate::chemistry::decay::AGE));
    }

    #[test]
    fn a_powder_has_the_strength_last_stated() {
        let tub =
            |strength| Product { kind: ProductKind::Percarbonate, label: strength, ..bottle() };
        let stated = Stated {
            figure: Estimate::exact(13.5, Basis::Label),
            stated_as: StrengthBasis::ActiveOxygenPercentByMass,
            density_g_per_ml: None,
        };
        let powder = tub(Some(stated)).powder().unwrap();
        assert!((powder.active_oxygen().value - 0.135).abs() < 1e-9);
        assert_eq!(tub(None).powder().unwrap().share.basis, Basis::Assumed);
        assert!(bottle().powder().is_err());
        assert!(tub(None).strength_now(now()).is_err());
    }
}
