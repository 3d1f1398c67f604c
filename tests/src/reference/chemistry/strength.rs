//! Decay, titration and percarbonate.

use crate::reference::RowInputs;
use bleachfield_core::chemistry::{
    bottle::{EvidenceKind, StorageConditions, StrengthEvidence, strength_now},
    decay::{self, StoredHypochlorite},
    household::{HouseholdProduct, calcium_hypochlorite_stock},
    percarbonate::{self, PercarbonatePowder},
    substance::{self, Substance, moles_per_litre},
    titration::{self, Analyte, Dilution, TitrationReadings},
};
use bleachfield_core::quantity::{
    Basis, Estimate, grams, grams_per_litre, in_grams_per_litre, in_millilitres, millilitres,
};

type Answer = Result<f64, String>;

fn say(refusal: impl std::fmt::Debug) -> String {
    format!("{refusal:?}")
}

/// k2 in M⁻¹s⁻¹, or with `per=day` M⁻¹d⁻¹; with `over_celsius`, the ratio to that temperature.
pub fn decay_rate(inputs: &RowInputs) -> Answer {
    let strength = inputs.number("strength")?;
    let rate = decay::rate_constant(inputs.number("celsius")?, strength);
    if inputs.text_or("per", "second") == "day" {
        return Ok(rate * 86_400.0);
    }
    match inputs.number_or("over_celsius", f64::NAN)? {
        cooler if cooler.is_nan() => Ok(rate),
        cooler => Ok(rate / decay::rate_constant(cooler, strength)),
    }
}

/// A liquor from `molar`, or `chlorine_g` g/L, with 0.1 mol/L lye.
fn stored(inputs: &RowInputs) -> Result<StoredHypochlorite, String> {
    let chlorine = inputs.number_or("chlorine_g", 0.0)? / substance::CHLORINE.grams_per_mole;
    let molar = inputs.number_or("molar", chlorine)?;
    let lye = moles_per_litre(inputs.number_or("lye", 0.1)?);
    StoredHypochlorite::new(moles_per_litre(molar), lye, inputs.number("celsius")?).map_err(say)
}

pub fn half_life(inputs: &RowInputs) -> Answer {
    Ok(stored(inputs)?.half_life_days())
}

/// Percent left after `days`, or after `half_lives`.
pub fn left(inputs: &RowInputs) -> Answer {
    let stored = stored(inputs)?;
    let days = match inputs.number_or("half_lives", f64::NAN)? {
        lives if lives.is_nan() => inputs.number("days")?,
        lives => lives * stored.half_life_days(),
    };
    Ok(100.0 * stored.left_after(days).map_err(say)?)
}

/// One end (`end=low` or `high`) of the percent left in a bottle.
pub fn bottle_left(inputs: &RowInputs) -> Answer {
    let strength = grams_per_litre(inputs.number("chlorine_g")?);
    let evidence = StrengthEvidence {
        kind: EvidenceKind::Label,
        strength: Estimate::exact(strength, Basis::Label),
        days_ago: inputs.number("days")?,
    };
    let exposed = inputs.text("kept")? == "open_and_lit";
    let celsius = Estimate::exact(inputs.number("celsius")?, Basis::Measured);
    let keeping = StorageConditions { celsius, opened: exposed, lit: exposed };
    let left = strength_now(&[evidence], &keeping).map_err(say)?.left;
    Ok(100.0 * if inputs.text("end")? == "low" { left.low } else { left.high })
}

pub fn molar_mass(inputs: &RowInputs) -> Answer {
    let substance: Substance = match inputs.text("of")? {
        "chlorine" => substance::CHLORINE,
        "sodium_hypochlorite" => substance::SODIUM_HYPOCHLORITE,
        "hydrogen_peroxide" => substance::HYDROGEN_PEROXIDE,
        "sodium_carbonate" => substance::SODIUM_CARBONATE,
        "citric_acid" => substance::CITRIC_ACID,
        "citric_acid_monohydrate" => substance::CITRIC_ACID_MONOHYDRATE,
        "sodium_percarbonate" => substance::SODIUM_PERCARBONATE,
        "sodium_thiosulfate_pentahydrate" => substance::SODIUM_THIOSULFATE_PENTAHYDRATE,
        "calcium_carbonate" => substance::CALCIUM_CARBONATE,
        other => return Err(format!("no substance is called {other}")),
    };
    Ok(substance.grams_per_mole)
}

fn analyte(inputs: &RowInputs) -> Result<Analyte, String> {
    Ok(match inputs.text("as")? {
        "available_chlorine" => Analyte::AvailableChlorine,
        "sodium_hypochlorite" => Analyte::SodiumHypochlorite,
        "hydrogen_peroxide" => Analyte::HydrogenPeroxide,
        "active_oxygen" => Analyte::ActiveOxygen,
        "percarbonate" => Analyte::Percarbonate,
        other => return Err(format!("no analyte is called {other}")),
    })
}

/// What a millilitre of thiosulfate stands for.
pub fn milligrams_per_millilitre(inputs: &RowInputs) -> Answer {
    Ok(analyte(inputs)?.grams_per_equivalent() * inputs.number("normality")?)
}

/// g/L from `sample` mL (after `taken` in `to`), `normality` and `titre` mL.
pub fn titrate_liquid(inputs: &RowInputs) -> Answer {
    let titres = [millilitres(inputs.number("titre")?)];
    let readings = readings(inputs, &titres)?;
    let to = inputs.number_or("to", 0.0)?;
    let dilutions = if to > 0.0 {
        let taken = millilitres(inputs.number("taken")?);
        vec![Dilution { taken, diluted_to: millilitres(to) }]
    } else {
        Vec::new()
    };
    let sample = millilitres(inputs.number("sample")?);
    let found = titration::liquid(analyte(inputs)?, sample, &dilutions, &readings).map_err(say)?;
    Ok(in_grams_per_litre(found.strength.value))
}

/// Percent by mass from `grams` in `to` mL, `sample` mL of that, `normality` and `titre` mL.
pub fn titrate_powder(inputs: &RowInputs) -> Answer {
    let titres = [millilitres(inputs.number("titre")?)];
    let found = titration::powder(
        analyte(inputs)?,
        grams(inputs.number("grams")?),
        millilitres(inputs.number("to")?),
        millilitres(inputs.number("sample")?),
        &readings(inputs, &titres)?,
    )
    .map_err(say)?;
    Ok(100.0 * found.strength.value)
}

fn readings<'a>(
    inputs: &RowInputs,
    titres: &'a [bleachfield_core::quantity::Volume],
) -> Result<TitrationReadings<'a>, String> {
    let normality = inputs.number("normality")?;
    let reading_error = millilitres(0.05);
    Ok(TitrationReadings { normality, titres, blank: millilitres(0.0), reading_error })
}

fn a_powder(inputs: &RowInputs) -> Result<PercarbonatePowder, String> {
    let known = |percent: f64| Estimate::exact(percent / 100.0, Basis::Label);
    let percent = |key: &str| inputs.number_or(key, f64::NAN);
    let found = if percent("active_oxygen")?.is_finite() {
        PercarbonatePowder::from_active_oxygen(known(percent("active_oxygen")?))
    } else if percent("peroxide")?.is_finite() {
        PercarbonatePowder::from_peroxide(known(percent("peroxide")?))
    } else {
        PercarbonatePowder::of(known(percent("percarbonate")?))
    };
    found.map_err(say)
}

/// One percentage of a powder from another.
pub fn powder(inputs: &RowInputs) -> Answer {
    let powder = a_powder(inputs)?;
    Ok(100.0
        * match inputs.text("give")? {
            "percarbonate" => powder.share.value,
            "peroxide" => powder.peroxide().value,
            "active_oxygen" => powder.active_oxygen().value,
            other => return Err(format!("a powder has no {other}")),
        })
}

/// g/L that a dose of powder gives.
pub fn released(inputs: &RowInputs) -> Answer {
    let released = a_powder(inputs)?.released(grams_per_litre(inputs.number("powder_g")?));
    Ok(in_grams_per_litre(match inputs.text("give")? {
        "peroxide" => released.peroxide.value,
        "soda_ash" => released.soda_ash.value,
        other => return Err(format!("it does not release {other}")),
    }))
}

/// Litres of oxygen.
pub fn oxygen(inputs: &RowInputs) -> Answer {
    let volume =
        a_powder(inputs)?.oxygen(grams(inputs.number("grams")?), inputs.number("celsius")?);
    Ok(in_millilitres(volume.value) / 1000.0)
}

pub fn solubility(inputs: &RowInputs) -> Answer {
    percarbonate::solubility(inputs.number("celsius")?).map(in_grams_per_litre).map_err(say)
}

pub fn activation(inputs: &RowInputs) -> Answer {
    let energy = 1000.0 * inputs.number("kilojoules")?;
    Ok(percarbonate::activation(energy, inputs.number("from")?, inputs.number("to")?))
}

/// Percent of peroxide left after `minutes` in the liquor of the study.
pub fn peroxide_left(inputs: &RowInputs) -> Answer {
    let per_minute = match inputs.text("with")? {
        "iron" => percarbonate::LOSS_WITH_IRON,
        "metals_and_edta" => percarbonate::LOSS_WITH_METALS_AND_EDTA,
        other => return Err(format!("no rate is known with {other}")),
    };
    Ok(100.0 * (-per_minute * inputs.number("minutes")?).exp())
}

/// Percent available chlorine of an isocyanurate.
pub fn pool_chlorine(inputs: &RowInputs) -> Answer {
    let product = match inputs.text("of")? {
        "dichlor" => HouseholdProduct::Dichloroisocyanurate,
        "trichlor" => HouseholdProduct::Trichloroisocyanurate,
        other => return Err(format!("no isocyanurate is called {other}")),
    };
    let share = product.available_chlorine().ok_or("it holds no chlorine")?;
    Ok(100.0 * share.value)
}

/// g/L available chlorine of a stock solution of calcium hypochlorite.
pub fn chlorine_stock(inputs: &RowInputs) -> Answer {
    let share = Estimate::exact(inputs.number("percent")? / 100.0, Basis::Label);
    let litres = millilitres(1000.0 * inputs.number("litres")?);
    let powder = grams(inputs.number("grams")?);
    let stock = calcium_hypochlorite_stock(powder, litres, share).map_err(say)?;
    Ok(in_grams_per_litre(stock.available_chlorine.value))
}
