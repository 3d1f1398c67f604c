//! Checks of what follows the bath: antichlor, neutral finish, reserve, sheets.

use super::{RowInputs, refused};
use bleachfield_core::{
    chemistry::{
        acid_dose::{AcidAmount, AlkaliEvidence, NeutralisingAcid, Residue, acid_dose},
        alkaline_reserve::{ReserveDose, acid_per_kilogram, reserve_dose},
        dechlorination::{
            AntichlorDose, AntichlorReagent, AntichlorRequest, OXYGEN_PER_GRAM, PeroxideRemoval,
            ResidualEvidence, THIOSULFATE_TOP, antichlor_dose,
        },
    },
    pulp::{
        sheet::{SheetFormat, SheetPlan, SheetRequest, Vat},
        sign_off::{EndTestReading, EndTestResult, OxidantsUsed, ZeroChlorine},
        wash::Alkali,
    },
    quantity::{
        Basis, Estimate, grams, grams_per_litre, in_grams, in_millilitres, millilitres, share,
    },
};

/// Pounds in a gram, and litres in a US gallon.
const POUND: f64 = 453.592_37;
const GALLON: f64 = 3.785_411_784;

pub(super) fn antichlor(inputs: &RowInputs) -> Result<f64, String> {
    Ok(inputs.number("chlorine")? * per_gram(inputs.text("reagent")?)?)
}

/// Pounds of reagent for 100,000 US gallons, by stoichiometry.
pub(super) fn c651(inputs: &RowInputs) -> Result<f64, String> {
    let chlorine = inputs.number("mg_per_l")? / 1000.0 * 100_000.0 * GALLON / POUND;
    Ok(chlorine * per_gram(inputs.text("reagent")?)?)
}

pub(super) fn usual(inputs: &RowInputs) -> Result<f64, String> {
    Ok(match inputs.text("reagent")? {
        "thiosulfate" => AntichlorReagent::ThiosulfatePentahydrate,
        "ascorbate" => AntichlorReagent::SodiumAscorbate,
        other => reagent(other)?.0,
    }
    .usual())
}

pub(super) fn thiosulfate_top(_: &RowInputs) -> Result<f64, String> {
    Ok(THIOSULFATE_TOP)
}

pub(super) fn dose(inputs: &RowInputs) -> Result<AntichlorDose, String> {
    let strength = grams_per_litre(inputs.number("mg_per_l")? / 1000.0);
    let litres = inputs.number("litres")?;
    // Enough soda that the dose is not refused.
    let soda_added = grams(litres);
    let request = AntichlorRequest::new(
        AntichlorReagent::ThiosulfatePentahydrate,
        ResidualEvidence::Strip(strength),
        Estimate::exact(millilitres(1000.0 * litres), Basis::Measured),
        share(1.0),
    );
    antichlor_dose(&AntichlorRequest { soda_added, ..request }).map_err(refused)
}

pub(super) fn oxygen(_: &RowInputs) -> Result<f64, String> {
    Ok(OXYGEN_PER_GRAM)
}

pub(super) fn peroxide_removal(inputs: &RowInputs) -> Result<f64, String> {
    super::given(
        match inputs.text("reagent")? {
            "sulfite" => PeroxideRemoval::Sulfite,
            "bisulfite" => PeroxideRemoval::Bisulfite,
            "metabisulfite" => PeroxideRemoval::Metabisulfite,
            other => return Err(format!("no way is called {other}")),
        }
        .grams_per_gram(),
    )
}

pub(super) fn vinegar(inputs: &RowInputs) -> Result<f64, String> {
    match acid(inputs, NeutralisingAcid::Vinegar { grams_per_100_ml: 5.0 })? {
        AcidAmount::Pour(volume) => Ok(in_millilitres(volume.value)),
        AcidAmount::Weigh(_) => Err("vinegar is poured".to_owned()),
    }
}

pub(super) fn citric(inputs: &RowInputs) -> Result<f64, String> {
    let hydrate = inputs.text("hydrate")? == "yes";
    weighed(acid(
        inputs,
        if hydrate {
            NeutralisingAcid::CitricMonohydrate
        } else {
            NeutralisingAcid::CitricAnhydrous
        },
    )?)
}

pub(super) fn citric_hydrate_ratio(_: &RowInputs) -> Result<f64, String> {
    let of = |acid| finish(acid, Alkali::SodaAsh, 1.0, 7.5).map(|dose| dose.0).and_then(weighed);
    Ok(of(NeutralisingAcid::CitricMonohydrate)? / of(NeutralisingAcid::CitricAnhydrous)?)
}

pub(super) fn reserve_acid(inputs: &RowInputs) -> Result<f64, String> {
    Ok(acid_per_kilogram(inputs.number("share")?))
}

pub(super) fn reserve(inputs: &RowInputs) -> Result<ReserveDose, String> {
    reserve_dose(
        Estimate::exact(grams(inputs.number("fibre")?), Basis::Measured),
        share(inputs.number("share")?),
        Estimate::exact(share(inputs.number("retention")?), Basis::OwnRecord),
    )
    .map_err(refused)
}

pub(super) fn sheet(inputs: &RowInputs) -> Result<SheetPlan, String> {
    let job = SheetRequest {
        format: format(inputs)?,
        grammage: inputs.number("grammage")?,
        moisture: share(inputs.number("moisture")?),
        retention: Estimate::exact(share(inputs.number_or("retention", 1.0)?), Basis::OwnRecord),
        shrinkage: share(0.0),
    };
    job.plan(Estimate::exact(grams(inputs.number_or("fibre", 100.0)?), Basis::Measured))
        .map_err(refused)
}

pub(super) fn vat_fibre(inputs: &RowInputs) -> Result<f64, String> {
    Ok(in_grams(vat(inputs)?.fibre().map_err(refused)?))
}

pub(super) fn depth(inputs: &RowInputs) -> Result<f64, String> {
    vat(inputs)?.depth(inputs.number("grammage")?, share(1.0)).map_err(refused)
}

pub(super) fn format_area(inputs: &RowInputs) -> Result<f64, String> {
    Ok(format(inputs)?.size().map_err(refused)?.square_metres())
}

fn vat(inputs: &RowInputs) -> Result<Vat, String> {
    Ok(Vat {
        volume: millilitres(1000.0 * inputs.number("litres")?),
        consistency: share(inputs.number("share")?),
    })
}

fn format(inputs: &RowInputs) -> Result<SheetFormat, String> {
    match inputs.text("format")? {
        "letter" => Ok(SheetFormat::Letter),
        a => a
            .strip_prefix('a')
            .and_then(|n| n.parse().ok())
            .map(SheetFormat::A)
            .ok_or_else(|| format!("no format is called {a}")),
    }
}

/// Which end of a reagent's stoichiometry.
#[derive(Clone, Copy)]
enum End {
    Least,
    Most,
}

fn reagent(name: &str) -> Result<(AntichlorReagent, End), String> {
    Ok(match name {
        "thiosulfate_sulfate" => (AntichlorReagent::ThiosulfatePentahydrate, End::Least),
        "thiosulfate_tetrathionate" => (AntichlorReagent::ThiosulfatePentahydrate, End::Most),
        "anhydrous_sulfate" => (AntichlorReagent::ThiosulfateAnhydrous, End::Least),
        "anhydrous_tetrathionate" => (AntichlorReagent::ThiosulfateAnhydrous, End::Most),
        "sulfite" => (AntichlorReagent::Sulfite, End::Least),
        "bisulfite" => (AntichlorReagent::Bisulfite, End::Least),
        "metabisulfite" => (AntichlorReagent::Metabisulfite, End::Least),
        "ascorbic" => (AntichlorReagent::AscorbicAcid, End::Least),
        "ascorbate" => (AntichlorReagent::SodiumAscorbate, End::Least),
        "peroxide" => (AntichlorReagent::Peroxide, End::Least),
        other => return Err(format!("no reagent is called {other}")),
    })
}

fn per_gram(name: &str) -> Result<f64, String> {
    let (reagent, end) = reagent(name)?;
    let (least, most) = reagent.stoichiometry();
    Ok(match end {
        End::Least => least,
        End::Most => most,
    })
}

fn acid(inputs: &RowInputs, acid: NeutralisingAcid) -> Result<AcidAmount, String> {
    let alkali = match inputs.text("alkali")? {
        "soda" => Alkali::SodaAsh,
        "lye" => Alkali::Lye,
        other => return Err(format!("no alkali is called {other}")),
    };
    let (closed, gone) = finish(acid, alkali, inputs.number("grams_per_l")?, inputs.number("ph")?)?;
    match inputs.text("bound")? {
        "closed" => Ok(closed),
        "gone" => Ok(gone),
        other => Err(format!("no bound is called {other}")),
    }
}

/// Both bounds for a litre, after a chlorine strip read zero.
fn finish(
    acid: NeutralisingAcid,
    alkali: Alkali,
    grams_per_l: f64,
    ph: f64,
) -> Result<(AcidAmount, AcidAmount), String> {
    let zero = EndTestReading::ChlorineStrip { chlorine: grams_per_litre(0.0) };
    let log = [EndTestResult::of(zero, "2026-03-01T10:00:00Z".parse().map_err(refused)?)];
    let residue = Residue {
        alkali,
        evidence: AlkaliEvidence::Strength(Estimate::exact(
            grams_per_litre(grams_per_l),
            Basis::Measured,
        )),
        volume: Estimate::exact(millilitres(1000.0), Basis::Measured),
        celsius: 25.0,
    };
    let used = OxidantsUsed { hypochlorite: true, peroxide: false };
    let proof = ZeroChlorine::from_log(used, &log, None).map_err(refused)?;
    let dose = acid_dose(proof, acid, &residue, ph).map_err(refused)?;
    Ok((dose.closed, dose.carbon_dioxide_gone))
}

fn weighed(measure: AcidAmount) -> Result<f64, String> {
    match measure {
        AcidAmount::Weigh(mass) => Ok(in_grams(mass.value)),
        AcidAmount::Pour(_) => Err("a powder is weighed".to_owned()),
    }
}
