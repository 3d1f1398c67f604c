//! Sizing and fillers.

use super::SheetRefusal;
use crate::message::{Message, Value};
use crate::pulp::store::Evidence;
use crate::quantity::{Basis, Known, Mass, Ratio, grams, in_grams, in_share};

/// Something that goes into the vat or onto the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Additive {
    /// Calcium carbonate, as filler and alkaline reserve.
    CalciumCarbonate,
    /// Alkyl ketene dimer, an internal size, counted as active size.
    Akd,
    /// Cooked starch, for dry strength.
    Starch,
    /// Methyl cellulose, an internal or surface size.
    MethylCellulose,
    /// Gelatine, a surface size, counted on the sheet.
    Gelatine,
}

/// What to weigh.
#[derive(Clone, Debug, PartialEq)]
pub struct AdditiveDose {
    pub additive: Additive,
    /// Product to weigh for the pulp.
    pub product: Known<Mass>,
    /// The usual range, as active substance on dry fibre.
    pub usual: (Ratio, Ratio),
    pub evidence: Evidence,
    pub remarks: Vec<Message>,
}

impl Additive {
    /// Every additive.
    pub const ALL: [Self; 5] =
        [Self::CalciumCarbonate, Self::Akd, Self::Starch, Self::MethylCellulose, Self::Gelatine];

    /// Usual dose as active substance on oven-dry fibre, low and high.
    ///
    /// Carbonate 3–6 % dosed, for 2–5 % in the sheet; AKD 0.05–0.3 % in mills;
    /// starch 0.5–2 %; methyl cellulose 0.5–2 %; gelatine 2–6 % picked up by
    /// the sheet. All from memory: no print seen.
    pub fn usual(self) -> (f64, f64) {
        match self {
            Self::CalciumCarbonate => (0.03, 0.06),
            Self::Akd => (0.0005, 0.003),
            Self::Starch | Self::MethylCellulose => (0.005, 0.02),
            Self::Gelatine => (0.02, 0.06),
        }
    }

    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::CalciumCarbonate => "sheet-additive-calcium_carbonate",
            Self::Akd => "sheet-additive-akd",
            Self::Starch => "sheet-additive-starch",
            Self::MethylCellulose => "sheet-additive-methyl_cellulose",
            Self::Gelatine => "sheet-additive-gelatine",
        }
    }

    /// Locale key of what to know about it.
    pub fn note(self) -> &'static str {
        match self {
            Self::CalciumCarbonate => "sheet-note-calcium_carbonate",
            Self::Akd => "sheet-note-akd",
            Self::Starch => "sheet-note-starch",
            Self::MethylCellulose => "sheet-note-methyl_cellulose",
            Self::Gelatine => "sheet-note-gelatine",
        }
    }
}

/// Product for `pulp` (oven-dry) at `dose` of active substance on dry fibre,
/// from a product with `active` share of it.
///
/// # Errors
/// [`SheetRefusal`] for no pulp, or a dose more than ten times off the usual range.
pub fn additive_dose(
    additive: Additive,
    pulp: Known<Mass>,
    dose: Ratio,
    active: Ratio,
) -> Result<AdditiveDose, SheetRefusal> {
    for given in [pulp.low, pulp.value, pulp.high] {
        if !(in_grams(given).is_finite() && in_grams(given) > 0.0) {
            return Err(SheetRefusal::NoPulp { given });
        }
    }
    let (low, high) = additive.usual();
    let asked = in_share(dose);
    let share_active = in_share(active);
    if !(asked >= low / 10.0 && asked <= high * 10.0 && share_active > 0.0 && share_active <= 1.0) {
        return Err(SheetRefusal::BadDose { additive, given: dose });
    }
    let mut remarks = vec![Message::new(additive.note())];
    if asked < low || asked > high {
        remarks.push(
            Message::new("sheet-remark-unusual_dose")
                .with("low", Value::Share(low))
                .with("high", Value::Share(high)),
        );
    }
    let product = |pulp: Mass| grams(in_grams(pulp) * asked / share_active);
    Ok(AdditiveDose {
        additive,
        product: Known { basis: Basis::Computed, ..pulp.map(product) },
        usual: (crate::quantity::share(low), crate::quantity::share(high)),
        evidence: Evidence::Memory,
        remarks,
    })
}
