//! What a product on the shelf is worth today: its label, its tests and its keeping, handed
//! to the chemistry as evidence.

use jiff::{Timestamp, civil::Date, tz::Offset};

use super::{Product, ProductAdded, ProductKind, StrengthMethod};
use crate::{
    bath::{Bottle, Powder as LabelledPowder},
    chemistry::{
        Refusal,
        bottle::{self, Evidence, EvidenceKind, Keeping, Strength},
        decay::Beyond,
        percarbonate::Powder,
    },
    message::{Field, Message, Value},
    quantity::{Basis, Figure, Known, MassConcentration, in_share},
};

/// The fields that a refusal about a date belongs beside.
pub const BOUGHT: Field = Field("bought");
pub const MADE: Field = Field("made");
pub const OPENED: Field = Field("opened");

/// Which date a product's age is counted from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AgeFrom {
    Made,
    Bought,
    Opened,
    /// No date was noted: from its entry on the shelf.
    Added,
}

impl Product {
    /// How strong a hypochlorite bottle is at `now`, by the best evidence there is. What was
    /// found before the bottle was opened is carried to that day as of a closed bottle, and
    /// from there as of an open one.
    ///
    /// # Errors
    /// A label or a test that cannot be; a date more than a day ahead of `now`; a storage
    /// temperature outside 0-100 °C. Nothing is known of the strength of anything but
    /// hypochlorite here: [`Refusal::Missing`].
    pub fn strength_now(&self, now: Timestamp) -> Result<Strength, Refusal> {
        if self.kind != ProductKind::Hypochlorite {
            return Err(Refusal::Missing { field: crate::chemistry::decay::STRENGTH });
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
        let closed = Keeping { opened: false, ..keeping };
        let before = Evidence { days_ago: best.days_ago - opened, ..best };
        let before = bottle::strength_now(&[before], &closed)?;
        let since =
            Evidence { strength: before.available_chlorine, days_ago: opened, kind: best.kind };
        let since = bottle::strength_now(&[since], &keeping)?;
        Ok(Strength {
            left: times(before.left, since.left),
            beyond: either(before.beyond, since.beyond),
            ..since
        })
    }

    /// What is known of a hypochlorite bottle's strength, newest test first, the label last.
    ///
    /// # Errors
    /// A label or a test whose strength cannot be.
    pub fn evidence(&self, now: Timestamp) -> Result<Vec<Evidence>, Refusal> {
        let mut evidence = Vec::with_capacity(self.found.len() + 1);
        for (at, found) in self.found.iter().rev() {
            let Some(bottle) = found.strength.bottle() else { continue };
            let kind = match found.method {
                StrengthMethod::IodometricTitration | StrengthMethod::PermanganateTitration => {
                    EvidenceKind::Titration
                }
                // A word that says no more is trusted no more than a strip.
                StrengthMethod::Strip | StrengthMethod::Other => EvidenceKind::Strip,
            };
            let strength = chlorine(&bottle)?;
            evidence.push(Evidence { kind, strength, days_ago: days(*at, now).max(0.0) });
        }
        let label = self.label.and_then(|label| label.bottle()).unwrap_or_else(Bottle::unknown);
        let strength = chlorine(&label)?;
        let (_, days_ago) = self.age_days(now);
        evidence.push(Evidence { kind: EvidenceKind::Label, strength, days_ago });
        Ok(evidence)
    }

    /// How it was kept, as far as was noted. A shelf is taken to stray 3 °C either way; where
    /// no temperature was noted it is a room of 20 °C that saw 10 to 28. A bottle of which
    /// nobody said that it stands in the light is opaque, as retail bottles are. (All common
    /// practice, no source.)
    pub fn keeping(&self) -> Keeping {
        let celsius = match self.storage.celsius {
            Some(value) => Known {
                value,
                low: (value - 3.0).max(0.0_f64.min(value)),
                high: (value + 3.0).min(100.0_f64.max(value)),
                basis: Basis::OwnRecord,
            },
            None => Known { value: 20.0, low: 10.0, high: 28.0, basis: Basis::Assumed },
        };
        Keeping {
            celsius,
            opened: self.opened.is_some() || self.storage.closed == Some(false),
            lit: self.storage.dark == Some(false),
        }
    }

    /// Days since its label held, and from which date that is counted: when it was made if
    /// that is known, else the earliest day on which somebody had it. Below zero for a date
    /// in the future.
    pub fn age_days(&self, now: Timestamp) -> (AgeFrom, f64) {
        if let Some(made) = self.made {
            return (AgeFrom::Made, days_since(made, now));
        }
        let noted = [(AgeFrom::Bought, self.bought), (AgeFrom::Opened, self.opened)];
        let noted = noted.into_iter().filter_map(|(from, day)| Some((from, days_since(day?, now))));
        let added = (AgeFrom::Added, days(self.added, now).max(0.0));
        noted.chain([added]).fold(added, |oldest, one| if one.1 > oldest.1 { one } else { oldest })
    }

    /// How rich a percarbonate powder is, by its last test, else its label, else a wide
    /// assumption.
    ///
    /// # Errors
    /// More than pure percarbonate holds; [`Refusal::Missing`] for anything but percarbonate.
    pub fn powder(&self) -> Result<Powder, Refusal> {
        if self.kind != ProductKind::Percarbonate {
            return Err(Refusal::Missing { field: crate::bath::POWDER_STRENGTH });
        }
        let stated = self.strength().and_then(|(strength, _)| strength.powder());
        let powder = stated.unwrap_or_else(LabelledPowder::unknown);
        let peroxide = powder.peroxide()?.map(in_share);
        Powder::from_peroxide(with_basis(peroxide, powder.figure.basis))
    }
}

impl ProductAdded {
    /// Refuses dates that cannot be: later than `today`, or opened or bought before it was made.
    ///
    /// # Errors
    /// A message beside the date, for the first that cannot be.
    pub fn refuse_dates(&self, today: Date) -> Result<(), Message> {
        let dates = [(MADE, self.made), (BOUGHT, self.bought), (OPENED, self.opened)];
        for (field, date) in dates {
            let Some(date) = date else { continue };
            if date > today {
                let ahead = days_between(today, date);
                return Err(Message::new("refusal-date_in_future")
                    .beside(field)
                    .with("ahead", Value::Days(ahead)));
            }
            if self.made.is_some_and(|made| date < made) {
                return Err(Message::new("refusal-date_before_made").beside(field));
            }
            if days_between(date, today) > OLDEST_DAYS {
                return Err(Message::new("refusal-date_too_old").beside(field));
            }
        }
        Ok(())
    }
}

/// An older date is a slip of the pen: fifty years.
const OLDEST_DAYS: f64 = 50.0 * 365.25;

fn chlorine(bottle: &Bottle) -> Result<Known<MassConcentration>, Refusal> {
    Ok(with_basis(bottle.liquid()?.available_chlorine, bottle.figure.basis))
}

/// A figure worked out of one stated value rests on what that value rests on.
fn with_basis<Q>(figure: Figure<Q>, basis: Basis) -> Known<Q> {
    Known { value: figure.value, low: figure.low, high: figure.high, basis }
}

fn days(at: Timestamp, now: Timestamp) -> f64 {
    now.duration_since(at).as_secs_f64() / 86_400.0
}

/// Days from noon UTC of a calendar day. The first zones begin a day 14 hours before UTC does,
/// 26 hours before its noon: up to there a day may be somebody's today, and counts as now.
fn days_since(day: Date, now: Timestamp) -> f64 {
    let noon = Offset::UTC.to_timestamp(day.at(12, 0, 0, 0)).unwrap_or(Timestamp::UNIX_EPOCH);
    let days = days(noon, now);
    if days >= -26.0 / 24.0 { days.max(0.0) } else { days }
}

fn days_between(from: Date, to: Date) -> f64 {
    to.duration_since(from).as_secs_f64() / 86_400.0
}

fn times(a: Known<f64>, b: Known<f64>) -> Known<f64> {
    Known {
        value: a.value * b.value,
        low: a.low * b.low,
        high: a.high * b.high,
        basis: a.basis.max(b.basis),
    }
}

fn either(a: Beyond, b: Beyond) -> Beyond {
    Beyond {
        dilute: a.dilute || b.dilute,
        cold: a.cold || b.cold,
        hot: a.hot || b.hot,
        low_in_lye: a.low_in_lye || b.low_in_lye,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::{
        bath::{Bleach, LabelBasis},
        journal::{Storage, Strength as Stated, StrengthBasis, StrengthFound},
        quantity::in_grams_per_litre,
    };

    /// 4 May 2026, noon.
    fn now() -> Timestamp {
        Timestamp::from_second(1_777_896_000).unwrap()
    }

    fn bottle() -> Product {
        Product {
            id: ulid::Ulid(1),
            name: "bleach".into(),
            kind: ProductKind::Hypochlorite,
            label: Some(
                Bleach::Hypochlorite(Bottle::labelled(5.0, LabelBasis::ChlorineByVolume))
                    .strength(),
            ),
            size: None,
            bought: None,
            made: Some(Date::constant(2026, 1, 4)),
            opened: None,
            storage: Storage { celsius: Some(20.0), dark: Some(true), closed: Some(true) },
            found: Vec::new(),
            added: now(),
            finished: None,
            timeline: Vec::new(),
        }
    }

    fn found(method: StrengthMethod, g_per_l: f64) -> StrengthFound {
        StrengthFound {
            method,
            strength: Stated {
                figure: Known::exact(g_per_l, Basis::Measured),
                stated_as: StrengthBasis::AvailableChlorineGPerL,
                density_g_per_ml: None,
            },
            runs: Vec::new(),
            dilution: None,
            strip_mg_per_l: None,
            note: String::new(),
        }
    }

    fn grams(strength: &Strength) -> f64 {
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
    fn a_test_beats_the_label_and_a_titration_the_strip() {
        let day = |days: i64| now() - jiff::SignedDuration::from_hours(24 * days);
        let mut product = bottle();
        product.found.push((day(30), found(StrengthMethod::IodometricTitration, 40.0)));
        product.found.push((day(1), found(StrengthMethod::Strip, 30.0)));
        let strength = product.strength_now(now()).unwrap();
        assert_eq!(strength.rests_on, EvidenceKind::Titration);
        assert!((35.0..40.0).contains(&grams(&strength)));
    }

    #[test]
    fn opening_counts_from_its_day_only() {
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
    fn an_unmarked_bottle_is_assumed_and_wide() {
        let silent = Product { label: None, storage: Storage::default(), ..bottle() };
        let strength = silent.strength_now(now()).unwrap().available_chlorine;
        assert_eq!(strength.basis, Basis::Assumed);
        assert!(in_grams_per_litre(strength.high) > 2.0 * in_grams_per_litre(strength.low));
    }

    #[test]
    fn the_oldest_date_counts_and_made_above_all() {
        let from =
            |made, bought, opened| Product { made, bought, opened, ..bottle() }.age_days(now());
        let (april, march) = (Date::constant(2026, 4, 4), Date::constant(2026, 3, 4));
        assert_eq!(from(Some(april), Some(march), None), (AgeFrom::Made, 30.0));
        assert_eq!(from(None, Some(april), Some(march)), (AgeFrom::Opened, 61.0));
        assert_eq!(from(None, Some(march), None), (AgeFrom::Bought, 61.0));
        assert_eq!(from(None, None, None), (AgeFrom::Added, 0.0));
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
    fn dates_that_cannot_be_are_refused_beside_them() {
        let today = Date::constant(2026, 5, 4);
        let added = |made, bought, opened| ProductAdded {
            name: String::new(),
            product: ProductKind::Hypochlorite,
            strength: None,
            size: None,
            bought,
            made,
            opened,
            storage: Storage::default(),
            note: String::new(),
        };
        let tomorrow = Some(Date::constant(2026, 5, 5));
        let refused = |a: ProductAdded| a.refuse_dates(today).unwrap_err();
        let future = refused(added(None, tomorrow, None));
        assert_eq!((future.key, future.field), ("refusal-date_in_future", Some(BOUGHT)));
        let early = refused(added(Some(today), None, Some(Date::constant(2026, 5, 1))));
        assert_eq!((early.key, early.field), ("refusal-date_before_made", Some(OPENED)));
        let slip = refused(added(Some(Date::constant(1026, 5, 4)), None, None));
        assert_eq!((slip.key, slip.field), ("refusal-date_too_old", Some(MADE)));
        assert!(added(Some(today), Some(today), Some(today)).refuse_dates(today).is_ok());
        assert!(added(None, None, None).refuse_dates(today).is_ok());
    }

    #[test]
    fn a_powder_is_as_rich_as_its_last_word() {
        let tub =
            |strength| Product { kind: ProductKind::Percarbonate, label: strength, ..bottle() };
        let stated = Stated {
            figure: Known::exact(13.5, Basis::Label),
            stated_as: StrengthBasis::ActiveOxygenPercentByMass,
            density_g_per_ml: None,
        };
        let powder = tub(Some(stated)).powder().unwrap();
        assert!((powder.active_oxygen().value - 0.135).abs() < 1e-9);
        assert_eq!(tub(None).powder().unwrap().share.basis, Basis::Assumed);
        assert!(bottle().powder().is_err());
        assert!(tub(None).strength_now(now()).is_err());
    }

    #[test]
    fn a_bath_is_planned_with_the_strength_of_today() {
        let Some(Bleach::Hypochlorite(now_in)) = Bleach::of(&bottle(), now()) else { panic!() };
        let today = bottle().strength_now(now()).unwrap();
        assert_eq!(now_in.basis, LabelBasis::ChlorineGramsPerLitre);
        assert!((now_in.figure.value - grams(&today)).abs() < 1e-9);
        assert_eq!(now_in.figure.basis, today.available_chlorine.basis);
        assert!(now_in.liquid().is_ok());
        // A clock that is wrong takes nobody's bleach away: then the label stands as printed.
        let ahead = Product { made: Some(Date::constant(2027, 5, 4)), ..bottle() };
        let Some(Bleach::Hypochlorite(printed)) = Bleach::of(&ahead, now()) else { panic!() };
        assert_eq!(printed.figure.value, 5.0);
    }
}
