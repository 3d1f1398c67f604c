//! Amounts for a person, a table and all. The amount of a pot is what is measured; the others
//! are its parts and sums.

use super::{ClassRequest, PotFor, pots::Pots};
use crate::{
    bath::{BleachAmount, Oxidant},
    derive::Station,
    message::Value,
    quantity::{grams, in_grams, in_millilitres, millilitres},
};

/// What there is an amount of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, strum::IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum ClassItem {
    RawFibre,
    CookAlkali,
    CookWater,
    RinseWater,
    WetPulp,
    Bleach,
    Powder,
    SodaAsh,
    BathWater,
    WashWater,
    PhStrips,
    ChlorineStrips,
    PeroxideStrips,
    Sheets,
}

impl ClassItem {
    /// A bare number of the item as a message value: g, mL or pieces.
    pub fn value(self, number: f64) -> Value {
        match self {
            Self::RawFibre | Self::CookAlkali | Self::WetPulp | Self::Powder | Self::SodaAsh => {
                Value::Mass(grams(number))
            }
            Self::CookWater
            | Self::RinseWater
            | Self::Bleach
            | Self::BathWater
            | Self::WashWater => Value::Volume(millilitres(number)),
            Self::PhStrips | Self::ChlorineStrips | Self::PeroxideStrips | Self::Sheets => {
                Value::Count(number.round() as u64)
            }
        }
    }

    pub fn is_count(self) -> bool {
        matches!(self.value(0.0), Value::Count(_))
    }
}

/// How an amount is divided, as bare numbers: g, mL or pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassShare {
    /// Of one person. Where a pot is shared, its part of the largest table.
    pub person: f64,
    /// Of a table, for each of the sheet's sizes of table.
    pub tables: Vec<f64>,
    pub all: f64,
}

/// The amount of one item at a station.
#[derive(Clone, Debug, PartialEq)]
pub struct Portion {
    pub item: ClassItem,
    pub share: ClassShare,
    /// Who shares what is measured: the amount of the others is calculated from it.
    pub measured: PotFor,
}

/// The portions at a station.
pub(super) fn portions(
    request: &ClassRequest,
    pots: &Pots,
    station: Station,
    tables: &[u32],
) -> Vec<Portion> {
    let shared = |item, of: &dyn Fn(u32) -> f64| {
        Some(Portion {
            item,
            share: divide(request.pot_for, tables, of),
            measured: request.pot_for,
        })
    };
    let counted = |item, each: f64| {
        Some(each).filter(|each| *each > 0.0).and_then(|each| shared(item, &|_| each))
    };
    let strips = match pots.oxidant() {
        Some(Oxidant::Hypochlorite) => ClassItem::ChlorineStrips,
        _ => ClassItem::PeroxideStrips,
    };
    let all = match station {
        Station::Cook => vec![
            shared(ClassItem::RawFibre, &|people| in_grams(pots.cook_of(people).raw)),
            shared(ClassItem::CookAlkali, &|people| in_grams(pots.cook_of(people).alkali)),
            shared(ClassItem::CookWater, &|people| in_millilitres(pots.cook_of(people).water)),
        ],
        Station::Rinse => vec![shared(ClassItem::RinseWater, &|people| {
            in_millilitres(pots.rinse_of(people)) * f64::from(request.cook_rinses)
        })],
        Station::Plan => vec![counted(ClassItem::PhStrips, 1.0)],
        Station::Bath => {
            let Some(bath) = &pots.bath else { return Vec::new() };
            let checks = f64::from(bath.checks());
            let of = |people: u32| bath.of(people);
            let whole = |people: u32| of(people).map_or(0.0, |bath| f64::from(bath.measure.loads));
            let dose = |people: u32| {
                let each = of(people).map_or(0.0, |bath| match bath.measure.each.dose.amount() {
                    BleachAmount::Bottle(volume) => in_millilitres(volume),
                    BleachAmount::Powder(mass) => in_grams(mass),
                });
                each * whole(people)
            };
            let water = |people: u32| {
                // Without that of a solution, which is mixed apart.
                of(people).map_or(0.0, |bath| in_millilitres(bath.measure.each.water))
                    * whole(people)
            };
            let soda = |people: u32| {
                let soda = of(people).and_then(|bath| bath.measure.each.soda_ash);
                soda.map_or(0.0, in_grams) * whole(people)
            };
            let has_soda = bath.all.iter().any(|bath| bath.measure.each.soda_ash.is_some());
            let bleach = match pots.oxidant() {
                Some(Oxidant::Percarbonate) => ClassItem::Powder,
                _ => ClassItem::Bleach,
            };
            vec![
                shared(ClassItem::WetPulp, &|people| {
                    of(people).map_or(0.0, |bath| in_grams(bath.measure.pulp))
                }),
                shared(bleach, &dose),
                has_soda.then(|| shared(ClassItem::SodaAsh, &soda)).flatten(),
                shared(ClassItem::BathWater, &water),
                shared(ClassItem::PhStrips, &|people| checks * whole(people)),
                shared(strips, &|people| checks * whole(people)),
            ]
        }
        Station::Wash => vec![
            shared(ClassItem::WashWater, &|people| {
                in_millilitres(pots.rinse_of(people)) * f64::from(request.wash_rinses)
            }),
            counted(strips, 1.0),
        ],
        Station::Prove => vec![counted(ClassItem::PhStrips, 1.0), counted(strips, 1.0)],
        Station::Sheets => {
            let each = request.sheets_each as f64;
            let share = divide(PotFor::Person, tables, &|_| each);
            let sheets = Portion { item: ClassItem::Sheets, share, measured: PotFor::Person };
            vec![(each > 0.0).then_some(sheets)]
        }
        Station::Store => Vec::new(),
    };
    all.into_iter().flatten().collect()
}

/// Divides what `of` gives for the people of one pot.
pub(super) fn divide(pot_for: PotFor, tables: &[u32], of: &dyn Fn(u32) -> f64) -> ClassShare {
    let mut sizes = tables.to_vec();
    sizes.dedup();
    let people: u32 = tables.iter().sum();
    let of_table = |size: u32| match pot_for {
        PotFor::Person => f64::from(size) * of(1),
        PotFor::Table => of(size),
        PotFor::Class => of(people) * f64::from(size) / f64::from(people.max(1)),
    };
    let all = match pot_for {
        PotFor::Person => f64::from(people) * of(1),
        PotFor::Table => tables.iter().map(|size| of(*size)).sum(),
        PotFor::Class => of(people),
    };
    let largest = sizes.first().copied().unwrap_or(1);
    ClassShare {
        person: of_table(largest) / f64::from(largest.max(1)),
        tables: sizes.into_iter().map(of_table).collect(),
        all,
    }
}
