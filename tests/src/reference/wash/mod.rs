//! Cook, wash, antichlor, neutral finish, reserve, sheets.

mod after;
mod before;

use super::{ReferenceTable, RowInputs, given, refused};
use bleachfield_core::{
    pulp::wash::{
        Efficiency, PulpLiquor, RinseTiming, SqueezedPulp, TapWater, Targets, Wash, compare, norden,
    },
    quantity::{Basis, Estimate, grams, grams_per_litre, in_grams, millilitres, share},
};

pub const TABLE: ReferenceTable = ReferenceTable {
    name: "wash",
    checks: &[
        ("left", left),
        ("rinses", rinses),
        ("counter_current", counter_current),
        ("norden", norden_of_stages),
        ("washer_y_out", |i| given(washer(i)?.y_out())),
        ("washer_dilution", |i| Ok(washer(i)?.dilution_factor())),
        ("washer_yield", |i| given(washer(i)?.wash_yield())),
        ("washer_norden", |i| given(washer(i)?.norden())),
        ("washer_e10", |i| given(washer(i)?.e10())),
        ("washer_displacement", |i| given(washer(i)?.displacement_ratio())),
        ("antichlor", after::antichlor),
        ("c651", after::c651),
        ("usual", after::usual),
        ("thiosulfate_top", after::thiosulfate_top),
        ("dose_chlorine", |i| Ok(in_grams(after::dose(i)?.chlorine.value))),
        ("dose_default", |i| Ok(in_grams(after::dose(i)?.dose.value))),
        ("oxygen", after::oxygen),
        ("peroxide_removal", after::peroxide_removal),
        ("vinegar", after::vinegar),
        ("citric", after::citric),
        ("citric_hydrate_ratio", after::citric_hydrate_ratio),
        ("reserve_acid", after::reserve_acid),
        ("reserve_retained", |i| Ok(in_grams(after::reserve(i)?.retained.value))),
        ("reserve_dose", |i| Ok(in_grams(after::reserve(i)?.dose.value))),
        ("relative_rate", before::relative_rate),
        ("rate_ratio", before::rate_ratio),
        ("hold", before::hold),
        ("ramp", before::ramp),
        ("boiling", before::boiling),
        ("charge", before::charge),
        ("equivalent", before::equivalent),
        ("na2o", before::na2o),
        ("sheet_mass", |i| Ok(in_grams(after::sheet(i)?.sheet))),
        ("sheet_dry", |i| Ok(in_grams(after::sheet(i)?.sheet_dry))),
        ("sheets", |i| Ok(after::sheet(i)?.sheets.value as f64)),
        ("vat_fibre", after::vat_fibre),
        ("depth", after::depth),
        ("format_area", after::format_area),
    ],
};

fn pulp(inputs: &RowInputs) -> Result<SqueezedPulp, String> {
    let (dry, dryness) = (inputs.number("dry")?, inputs.number("dryness")?);
    Ok(SqueezedPulp {
        wet_mass: Estimate::exact(grams(dry / dryness), Basis::Measured),
        dryness: Estimate::exact(share(dryness), Basis::Measured),
    })
}

fn left(inputs: &RowInputs) -> Result<f64, String> {
    let total = millilitres(1000.0 * inputs.number("total")?);
    let rinses = inputs.number("rinses")? as u32;
    let rows = compare(&pulp(inputs)?, total, rinses, Efficiency::ideal()).map_err(refused)?;
    given(rows.last().map(|row| row.left.value))
}

fn rinses(inputs: &RowInputs) -> Result<f64, String> {
    let exponent = Estimate::exact(inputs.number("exponent")?, Basis::Computed);
    let wash = Wash {
        pulp: pulp(inputs)?,
        liquor: PulpLiquor {
            salt: Some(Estimate::exact(grams_per_litre(1.0), Basis::Measured)),
            ..PulpLiquor::default()
        },
        targets: Targets {
            salt: Some(grams_per_litre(inputs.number("share")?)),
            ..Targets::default()
        },
        tap: TapWater::default(),
        efficiency: Efficiency { exponent, pairs: 0 },
        timing: RinseTiming::default(),
    };
    let each = millilitres(1000.0 * inputs.number("each")?);
    Ok(wash.rinses_of(each).map_err(refused)?.rinses.into())
}

fn counter_current(inputs: &RowInputs) -> Result<f64, String> {
    let (liquor, wash) = (inputs.number("liquor")?, inputs.number("wash")?);
    Ok(norden::counter_current(liquor, wash, inputs.number("stages")? as u32))
}

/// The Norden number of a row of stages that are solved one by one, by
/// repetition, without Kremser's equation.
fn norden_of_stages(inputs: &RowInputs) -> Result<f64, String> {
    let (liquor, wash) = (inputs.number("liquor_in")?, inputs.number("wash")?);
    let (x_in, y_in) = (inputs.number("x_in")?, inputs.number("y_in")?);
    let stages = inputs.number("stages")? as usize;
    let mut x = vec![0.0; stages];
    for _ in 0..10_000 {
        for stage in 0..stages {
            let from_fibre = if stage == 0 { x_in } else { x[stage - 1] };
            let from_wash = if stage + 1 == stages { y_in } else { x[stage + 1] };
            x[stage] = (liquor * from_fibre + wash * from_wash) / (liquor + wash);
        }
    }
    let washer = norden::Washer {
        liquor_in: liquor,
        liquor_out: inputs.number("liquor_out")?,
        wash,
        x_in,
        x_out: x[stages - 1],
        y_in,
    };
    given(washer.norden())
}

fn washer(inputs: &RowInputs) -> Result<norden::Washer, String> {
    Ok(norden::Washer {
        liquor_in: inputs.number("liquor_in")?,
        liquor_out: inputs.number("liquor_out")?,
        wash: inputs.number("wash")?,
        x_in: inputs.number("x_in")?,
        x_out: inputs.number("x_out")?,
        y_in: inputs.number("y_in")?,
    })
}
