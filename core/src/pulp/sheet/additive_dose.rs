//! The dose of a sizing agent or filler for some pulp.
//! Not here: the alkaline reserve as a treatment of pulp, which is `chemistry::alkaline_reserve`.

use super::{SheetAdditive, SheetError};
use crate::message::{Message, Value};
use crate::pulp::{consistency::check_positive, storage::SourceQuality};
use crate::quantity::{Basis, Estimate, Mass, Ratio, grams, in_grams, in_share, share};

/// A dose to weigh.
#[derive(Clone, Debug, PartialEq)]
pub struct AdditiveDose {
    pub additive: SheetAdditive,
    /// Product to weigh.
    pub product: Estimate<Mass>,
    /// The usual range, as active substance on dry fibre.
    pub usual: (Ratio, Ratio),
    pub source: SourceQuality,
    pub remarks: Vec<Message>,
}

/// Product for `pulp` (oven-dry) at `dose` of active substance on dry fibre,
/// from a product with `active` share of it.
///
/// # Errors
/// [`SheetError`] for no pulp, or a dose more than ten times off the usual range.
pub fn additive_dose(
    additive: SheetAdditive,
    pulp: Estimate<Mass>,
    dose: Ratio,
    active: Ratio,
) -> Result<AdditiveDose, SheetError> {
    check_positive(pulp).map_err(|given| SheetError::NoPulp { given })?;
    let (low, high) = additive.usual();
    let asked = in_share(dose);
    let share_active = in_share(active);
    if !(asked >= low / 10.0 && asked <= high * 10.0 && share_active > 0.0 && share_active <= 1.0) {
        return Err(SheetError::BadDose { additive, given: dose });
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
        product: Estimate { basis: Basis::Computed, ..pulp.map(product) },
        usual: (share(low), share(high)),
        source: SourceQuality::Memory,
        remarks,
    })
}
