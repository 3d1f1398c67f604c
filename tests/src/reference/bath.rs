//! Quantities, wet pulp, strength, dilution, charge, plan, heat.

use super::{ReferenceTable, RowInputs, refused};
use bleachfield_core::{
    bath::{
        BathAim, BathSize, Bleach, Bottle, Cooling, Dose, LabelBasis, Plan, PlanRequest, Powder,
        PowderBasis, bottle_for, dilute, hot_and_cold, mixed, plan, strength_after, water_for_rest,
    },
    caution::Residual,
    message::Field,
    pulp::{DryingMethod, DrynessSource, WetPulp, readings, slurry_mass},
    quantity::{
        Basis, Celsius, Estimate, Mass, Measures, NumberSpec, QuantityKind, Unit, grams,
        grams_per_litre, grams_per_millilitre, in_grams, in_grams_per_litre,
        in_grams_per_millilitre, in_millilitres, in_share, millilitres, share, spoon_powder,
        spooned,
    },
};

pub const TABLE: ReferenceTable = ReferenceTable {
    name: "bath",
    checks: &[
        ("kitchen_unit_ml", |i| kitchen_unit(i, QuantityKind::Volume)),
        ("kitchen_unit_g", |i| kitchen_unit(i, QuantityKind::Mass)),
        ("spoon_g", spoon_g),
        ("carbonate_crystals", carbonate_crystals),
        ("oven_dry_g", |i| Ok(in_grams(lump(i)?.oven_dry().value))),
        ("pulp_water_g", |i| Ok(in_grams(lump(i)?.water().value))),
        ("air_dry_g", |i| Ok(in_grams(lump(i)?.air_dry().value))),
        ("sample_dryness_percent", sample_dryness),
        ("wet_for_oven_dry_g", wet_for_oven_dry),
        ("consistency_percent", consistency_percent),
        ("consistency_if_dry_percent", |i| Ok(100.0 * in_share(pulp_readings(i)?.if_dry))),
        ("pulp_to_liquor_percent", |i| Ok(100.0 * in_share(pulp_readings(i)?.pulp_to_liquor))),
        ("label_chlorine_gpl", label_chlorine),
        ("label_density", label_density),
        ("label_chlorine_by_mass_percent", label_chlorine_by_mass),
        ("powder_peroxide_percent", powder_peroxide),
        ("dilution_bottle_ml", dilution_bottle),
        ("dilution_water_for_rest_ml", dilution_rest),
        ("dilution_strength", dilution_strength),
        ("peroxide_bottle_ml", peroxide_bottle),
        ("plan_bottle_ml", |i| dose(&worked_out(i)?)),
        ("plan_powder_g", |i| dose(&worked_out(i)?)),
        ("plan_active_g", |i| Ok(in_grams(worked_out(i)?.active.value))),
        ("plan_pulp_water_g", |i| Ok(in_grams(worked_out(i)?.pulp_water.value))),
        ("percarbonate_limit_gpl", percarbonate_limit),
        ("mixed_celsius", mixed_celsius),
        ("hot_water_g", hot_water),
        ("cooled_celsius", cooled),
        ("cooling_tau_hours", tau),
    ],
};

fn exact<Q: Copy>(value: Q) -> Estimate<Q> {
    Estimate::exact(value, Basis::Measured)
}

fn celsius(i: &RowInputs, key: &str) -> Result<Celsius, String> {
    Celsius::new(i.number(key)?).map_err(refused)
}

fn kitchen_unit(i: &RowInputs, kind: QuantityKind) -> Result<f64, String> {
    let measures = match i.text("measures")? {
        "us" => Measures::Us,
        "imperial" => Measures::Imperial,
        "metric" => Measures::Metric,
        other => return Err(format!("no measures are called {other}")),
    };
    let asked = NumberSpec::new(Field("any"), kind).reader(measures, '.');
    asked.parse(i.text("typed")?).map(|typed| typed.base).map_err(refused)
}

fn spoon_g(i: &RowInputs) -> Result<f64, String> {
    let powder = spoon_powder(i.text("powder")?).ok_or("no such powder")?;
    let unit = match i.text("unit")? {
        "tsp" => Unit::Teaspoon,
        "tbsp" => Unit::Tablespoon,
        "cup" => Unit::Cup,
        other => return Err(format!("no spoon is called {other}")),
    };
    let mass = spooned(powder, i.number("count")?, unit, Measures::Us, None).map_err(refused)?;
    match i.text("end")? {
        "low" => Ok(in_grams(mass.low)),
        "high" => Ok(in_grams(mass.high)),
        _ => Ok(in_grams(mass.value)),
    }
}

fn carbonate_crystals(i: &RowInputs) -> Result<f64, String> {
    use bleachfield_core::quantity::{DECAHYDRATE_PER_CARBONATE, MONOHYDRATE_PER_CARBONATE};
    let per = match i.text("form")? {
        "decahydrate" => DECAHYDRATE_PER_CARBONATE,
        "monohydrate" => MONOHYDRATE_PER_CARBONATE,
        other => return Err(format!("no form is called {other}")),
    };
    Ok(i.number("carbonate_g")? * per)
}

fn lump(i: &RowInputs) -> Result<WetPulp, String> {
    let dryness = share(i.number("dryness_percent")? / 100.0);
    WetPulp::new(exact(grams(i.number("wet_g")?)), exact(dryness)).map_err(refused)
}

fn sample_dryness(i: &RowInputs) -> Result<f64, String> {
    let how = match i.text("how")? {
        "oven" => DryingMethod::Oven,
        "air" => DryingMethod::Air,
        other => return Err(format!("no drying is called {other}")),
    };
    let mass = |key| -> Result<Estimate<Mass>, String> { Ok(exact(grams(i.number(key)?))) };
    let from =
        DrynessSource::Sample { wet: mass("wet_g")?, dried: mass("dried_g")?, how: Some(how) };
    from.estimate().map(|dryness| 100.0 * in_share(dryness.value)).map_err(refused)
}

fn wet_for_oven_dry(i: &RowInputs) -> Result<f64, String> {
    let dryness = share(i.number("dryness_percent")? / 100.0);
    Ok(in_grams(slurry_mass(grams(i.number("oven_dry_g")?), dryness)))
}

fn pulp_readings(i: &RowInputs) -> Result<bleachfield_core::pulp::ConsistencyReadings, String> {
    let dryness = share(i.number("dryness_percent")? / 100.0);
    readings(grams(i.number("wet_g")?), dryness, grams(i.number("liquor_g")?)).map_err(refused)
}

fn consistency_percent(i: &RowInputs) -> Result<f64, String> {
    Ok(100.0 * in_share(pulp_readings(i)?.standard))
}

fn bottle(i: &RowInputs) -> Result<Bottle, String> {
    let basis = match i.text("basis")? {
        "naocl_w/w" => LabelBasis::NaoclByMass,
        "naocl_w/v" => LabelBasis::NaoclByVolume,
        "chlorine_w/w" => LabelBasis::ChlorineByMass,
        "chlorine_w/v" => LabelBasis::ChlorineByVolume,
        "g/l" => LabelBasis::ChlorineGramsPerLitre,
        other => return Err(format!("no basis is called {other}")),
    };
    let density = match i.number_or("density", 0.0)? {
        0.0 => None,
        given => Some(exact(grams_per_millilitre(given))),
    };
    Ok(Bottle { figure: exact(i.number("figure")?), basis, density })
}

fn label_chlorine(i: &RowInputs) -> Result<f64, String> {
    let liquid = bottle(i)?.liquid().map_err(refused)?;
    Ok(in_grams_per_litre(liquid.available_chlorine.value))
}

fn label_density(i: &RowInputs) -> Result<f64, String> {
    Ok(in_grams_per_millilitre(bottle(i)?.liquid().map_err(refused)?.density.value))
}

fn label_chlorine_by_mass(i: &RowInputs) -> Result<f64, String> {
    let liquid = bottle(i)?.liquid().map_err(refused)?;
    let chlorine = in_grams_per_litre(liquid.available_chlorine.value);
    Ok(chlorine / 10.0 / in_grams_per_millilitre(liquid.density.value))
}

fn powder(i: &RowInputs) -> Result<Powder, String> {
    let basis = match i.text("powder_basis")? {
        "percarbonate" => PowderBasis::Percarbonate,
        "peroxide" => PowderBasis::Peroxide,
        "active_oxygen" => PowderBasis::ActiveOxygen,
        other => return Err(format!("no basis is called {other}")),
    };
    Ok(Powder { figure: exact(share(i.number("powder_percent")? / 100.0)), basis })
}

fn powder_peroxide(i: &RowInputs) -> Result<f64, String> {
    Ok(100.0 * in_share(powder(i)?.peroxide().map_err(refused)?.value))
}

fn dilution_bottle(i: &RowInputs) -> Result<f64, String> {
    let total = millilitres(i.number("total_ml")?);
    let made = dilute(exact(i.number("bottle")?), i.number("target")?, total).map_err(refused)?;
    Ok(in_millilitres(made.bottle.value))
}

fn dilution_rest(i: &RowInputs) -> Result<f64, String> {
    let rest = millilitres(i.number("rest_ml")?);
    let made =
        water_for_rest(exact(i.number("bottle")?), rest, i.number("target")?).map_err(refused)?;
    Ok(in_millilitres(made.water.value))
}

fn dilution_strength(i: &RowInputs) -> Result<f64, String> {
    let ml = |key| -> Result<_, String> { Ok(millilitres(i.number(key)?)) };
    let made = strength_after(exact(i.number("bottle")?), ml("poured_ml")?, ml("water_ml")?);
    Ok(made.map_err(refused)?.value)
}

fn peroxide_bottle(i: &RowInputs) -> Result<f64, String> {
    let active = grams(i.number("oven_dry_g")? * i.number("charge_percent")? / 100.0);
    let strength = i.number("peroxide_percent")? * 10.0 * i.number("density")?;
    Ok(in_millilitres(bottle_for(active, grams_per_litre(strength))))
}

/// A plan by charge at a consistency, from the lump in the row.
fn worked_out(i: &RowInputs) -> Result<Plan, String> {
    let bleach = match i.text("bleach")? {
        "hypochlorite" => Bleach::Hypochlorite(bottle(i)?),
        "percarbonate" => Bleach::Percarbonate(powder(i)?),
        other => return Err(format!("no bleach is called {other}")),
    };
    let request = PlanRequest {
        pulp: lump(i)?,
        bleach,
        aim: BathAim::Charge(share(i.number("charge_percent")? / 100.0)),
        size: BathSize::Consistency(share(i.number("consistency_percent")? / 100.0)),
        temperature: Celsius::new(40.0).map_err(refused)?,
        residual: Residual::None,
        expressed_water: None,
        other_ingredients: Vec::new(),
        on_hand: None,
        vessel: None,
        minutes: None,
        cooling: None,
    };
    plan(&request).map_err(refused)
}

fn dose(plan: &Plan) -> Result<f64, String> {
    Ok(match plan.dose {
        Dose::Bottle(volume) => in_millilitres(volume.value),
        Dose::Powder(mass) => in_grams(mass.value),
    })
}

fn percarbonate_limit(i: &RowInputs) -> Result<f64, String> {
    let at = celsius(i, "celsius")?;
    Ok(in_grams_per_litre(bleachfield_core::bath::percarbonate_limit(at)))
}

fn mixed_celsius(i: &RowInputs) -> Result<f64, String> {
    let water =
        |mass, at| -> Result<_, String> { Ok((grams(i.number(mass)? * 1000.0), celsius(i, at)?)) };
    let waters = [water("a_kg", "a_celsius")?, water("b_kg", "b_celsius")?];
    mixed(&waters).map(Celsius::get).ok_or_else(|| "no water".into())
}

fn hot_water(i: &RowInputs) -> Result<f64, String> {
    let (target, hot, cold) =
        (celsius(i, "target_celsius")?, celsius(i, "hot_celsius")?, celsius(i, "cold_celsius")?);
    let made =
        hot_and_cold(grams(i.number("water_g")?), None, target, hot, cold).map_err(refused)?;
    Ok(in_grams(made.hot))
}

fn cooled(i: &RowInputs) -> Result<f64, String> {
    let cooling =
        Cooling { room: celsius(i, "room_celsius")?, tau_hours: exact(i.number("tau_hours")?) };
    Ok(cooling.after(celsius(i, "start_celsius")?, i.number("hours")?).get())
}

fn tau(i: &RowInputs) -> Result<f64, String> {
    let (room, start, end) =
        (celsius(i, "room_celsius")?, celsius(i, "start_celsius")?, celsius(i, "end_celsius")?);
    let cooling = Cooling::measured(room, start, end, i.number("hours")?).map_err(refused)?;
    Ok(cooling.tau_hours.value)
}
