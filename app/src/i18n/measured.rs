//! Amounts as they are measured out: to what a scale or jug shows.

use bleachfield_core::{
    bath::{BleachAmount, DoseSolution, MeasuredDose},
    quantity::{in_grams, in_millilitres},
};

use super::{format_number, key, t_with};

/// A measured amount: four figures, because a scale or jug shows them.
pub fn amount(amount: BleachAmount) -> String {
    match amount {
        BleachAmount::Bottle(volume) => volume_text(in_millilitres(volume)),
        BleachAmount::Powder(mass) => mass_text(in_grams(mass)),
    }
}

/// A measured volume, mL.
pub fn volume_text(ml: f64) -> String {
    if ml >= 1000.0 {
        format!("{} L", format_number(ml / 1000.0, 4))
    } else {
        format!("{} mL", format_number(ml, 4))
    }
}

/// A measured mass, g.
pub fn mass_text(g: f64) -> String {
    if g >= 1000.0 {
        format!("{} kg", format_number(g / 1000.0, 4))
    } else {
        format!("{} g", format_number(g, 4))
    }
}

/// How a dose that is too small to measure is measured all the same; `None` for any other.
pub fn solution_text(dose: &MeasuredDose) -> Option<String> {
    let MeasuredDose::Solution(DoseSolution { bleach, water, take, holds }) = *dose else {
        return None;
    };
    let values = [
        ("bleach", amount(bleach)),
        ("water", volume_text(in_millilitres(water))),
        ("take", volume_text(in_millilitres(take))),
        ("holds", amount(holds)),
    ];
    let values: Vec<(&str, &str)> = values.iter().map(|(name, text)| (*name, &**text)).collect();
    let key = match bleach {
        BleachAmount::Bottle(_) => key!("plan-solution"),
        BleachAmount::Powder(_) => key!("plan-solution_powder"),
    };
    Some(t_with(key, &values))
}
