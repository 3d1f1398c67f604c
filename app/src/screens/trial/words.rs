//! Words for pots: what was done to them, and what goes in.

use bleachfield_core::{
    derive::PotStatus,
    journal::{Oxidant, PlanRecord},
    message::Value,
    quantity::{Volume, in_millilitres},
    trial::{Factor, PotDose, SmallDose},
};

use crate::i18n::{format_number, format_value, t, t_with};

/// "2 % · 38 °C · 60 min".
pub fn treatment(record: &PlanRecord) -> String {
    treatment_of(record.charge.value, record.celsius, record.minutes)
}

pub fn treatment_of(charge: f64, celsius: f64, minutes: f64) -> String {
    let charge = format_value(&Value::Share((charge * 1e4).round() / 1e4));
    let celsius = format_value(&Value::Celsius(celsius));
    format!("{charge} · {celsius} · {}", format_value(&Value::Minutes(minutes.round())))
}

/// The bleach of a record: its product, or what it is.
pub fn bleach_name(name: &str, oxidant: Oxidant) -> String {
    if name.trim().is_empty() { oxidant_name(oxidant) } else { name.to_owned() }
}

pub fn oxidant_name(oxidant: Oxidant) -> String {
    match oxidant {
        Oxidant::Hypochlorite => t!("trial-oxidant-hypochlorite"),
        Oxidant::Percarbonate => t!("trial-oxidant-percarbonate"),
        Oxidant::Peroxide => t!("trial-oxidant-peroxide"),
    }
}

pub fn pot_title(number: u32) -> String {
    t_with!("trial-pot", &[("n", &number.to_string())])
}

/// What a dose says to measure.
pub fn dose_text(dose: SmallDose, what: &str) -> String {
    match dose {
        SmallDose::Direct(amount) => t_with!(
            "trial-dose_direct",
            &[("amount", &format_value(&amount.value())), ("what", what)]
        ),
        SmallDose::Stock(volume) => {
            t_with!("trial-dose_stock", &[("amount", &millilitres(volume)), ("what", what)])
        }
    }
}

/// All that goes into a pot, one line each.
pub fn dose_lines(pot: &PotStatus, dose: &PotDose) -> Vec<String> {
    let bleach = bleach_name(&pot.record.product.name, pot.record.oxidant);
    let water = t_with!("trial-dose_water", &[("amount", &millilitres(dose.water))]);
    let soda = dose.soda_ash.map(|soda| dose_text(soda, &t!("trial-soda_ash")));
    [Some(water), soda, Some(dose_text(dose.bleach, &bleach))].into_iter().flatten().collect()
}

/// Millilitres to the marks of a syringe.
pub fn millilitres(volume: Volume) -> String {
    format!("{}\u{a0}mL", format_number(in_millilitres(volume), 4))
}

pub fn factor_name(factor: Factor) -> String {
    match factor {
        Factor::Bleach => t!("trial-factor-bleach"),
        Factor::Charge => t!("trial-factor-charge"),
        Factor::Temperature => t!("trial-factor-temperature"),
        Factor::Time => t!("trial-factor-time"),
    }
}
