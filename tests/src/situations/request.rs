//! Plans, liquors and pairs of ingredients, from a row.
//!
//! `plan`: `bleach`, `label` (% NaOCl by mass, or % percarbonate), `charge` (%) or `strength`
//! (g/L), and, with the usual values where they are left out, `wet_g`, `dryness` (%),
//! `consistency` (%), `celsius`, `minutes`, `residual`, `squeezed_ph`, `others`, `blender_ml`.
//! `mix`: `oxidant`, `active` (g/L), `soda` (g/L), `vinegar` (mL/L), `celsius`, `others`.
//! `pair`: `first`, `second`. `others` are joined by `+`.

use super::{
    Outcome,
    facts::{range, refused},
    word,
};
use crate::reference::RowInputs;
use bleachfield_core::{
    bath::{
        self, BathAim, BathSize, BathVessel, Bleach, Bottle, ExpressedWater, LabelBasis,
        PeroxideBasis, PeroxideBottle, PlanRequest, Powder, PowderBasis, ResidualAlkali,
        VesselKind,
    },
    caution::{Act, Residual, Situation, cautions},
    chemistry::{
        compatibility::{ClashSeverity, Ingredient, clash},
        liquor::Recipe,
    },
    pulp::WetPulp,
    quantity::{
        Basis, Celsius, Estimate, Interval, Ph, grams, grams_per_litre, millilitres, share,
    },
};

/// The cautions of a planned bath, or the refusal of its plan.
pub fn plan(row: &RowInputs) -> Result<Outcome, String> {
    let request = plan_request(row)?;
    Ok(match bath::plan(&request) {
        Ok(plan) => Outcome::Cautions(cautions(Act::Bath, &Situation::of_plan(&request, &plan))),
        Err(refused) => Outcome::Refused(refused.message().key),
    })
}

fn plan_request(row: &RowInputs) -> Result<PlanRequest, String> {
    let dryness = range(row, "dryness")?.unwrap_or(Interval { low: 19.0, high: 21.0 });
    let pulp = WetPulp {
        wet: Estimate::exact(grams(row.number_or("wet_g", 1000.0)?), Basis::Measured),
        dryness: estimate(dryness, Basis::Measured).map(|percent| share(percent / 100.0)),
    };
    let label = row.number("label")?;
    let bleach = match row.text("bleach")? {
        "hypochlorite" => Bleach::Hypochlorite(Bottle::labelled(label, LabelBasis::NaoclByMass)),
        "percarbonate" => {
            Bleach::Percarbonate(Powder::labelled(share(label / 100.0), PowderBasis::Percarbonate))
        }
        "peroxide" => Bleach::Peroxide(PeroxideBottle::labelled(label, PeroxideBasis::ByMass)),
        other => return Err(format!("no bleach is called {other}")),
    };
    let aim = match row.optional("strength") {
        Some(_) => BathAim::Strength(grams_per_litre(row.number("strength")?)),
        None => BathAim::Charge(share(row.number("charge")? / 100.0)),
    };
    let size = BathSize::Consistency(share(row.number_or("consistency", 5.0)? / 100.0));
    let celsius = Celsius::new(row.number_or("celsius", 38.0)?).map_err(refused)?;
    let vessel = row.optional("blender_ml").map(|_| row.number("blender_ml")).transpose()?;
    let expressed_water = range(row, "squeezed_ph")?
        .map(|ph| ExpressedWater { ph: estimate(ph, Basis::Strip), alkali: ResidualAlkali::Soda });
    Ok(PlanRequest {
        residual: row.optional("residual").map_or(Ok(Residual::None), word)?,
        expressed_water,
        other_ingredients: others(row)?,
        vessel: vessel.map(|capacity| BathVessel {
            capacity: millilitres(capacity),
            kind: VesselKind::Blender,
        }),
        minutes: Some(row.number_or("minutes", 60.0)?),
        ..PlanRequest::new(pulp, bleach, aim, size, celsius)
    })
}

/// The cautions of a liquor, or why it has no recipe.
pub fn mix(row: &RowInputs) -> Result<Outcome, String> {
    let celsius = row.number_or("celsius", 38.0)?;
    let recipe = Recipe {
        oxidant: word(row.text("oxidant")?)?,
        active: grams_per_litre(row.number("active")?),
        soda_ash: grams_per_litre(row.number_or("soda", 0.0)?),
        vinegar: row.number_or("vinegar", 0.0)?,
        celsius,
        co_solutes: others(row)?,
    };
    let ph = match recipe.solve() {
        Ok(liquor) => liquor.ph,
        Err(error) => return Ok(Outcome::Refused(error.message().key)),
    };
    if let Some(clash) =
        recipe.clashes().iter().find(|clash| clash.severity == ClashSeverity::Refused)
    {
        return Ok(Outcome::Refused(clash.message().key));
    }
    let situation = Situation {
        oxidant: recipe.oxidant.into(),
        residual: Residual::None,
        temperature: Some(Interval::exact(Celsius::new(celsius).map_err(refused)?)),
        ph: Some(Interval::exact(Ph::new(ph).map_err(refused)?)),
        strength: Some(Interval::exact(recipe.active)),
        ..Situation::default()
    };
    Ok(Outcome::Cautions(cautions(Act::Bath, &situation)))
}

/// Whether two ingredients clash.
pub fn pair(row: &RowInputs) -> Result<Outcome, String> {
    let (first, second) = (ingredient(row.text("first")?)?, ingredient(row.text("second")?)?);
    let key = clash(first, second).map_or("none", |clash| clash.message().key);
    Ok(Outcome::Refused(key))
}

fn others(row: &RowInputs) -> Result<Vec<Ingredient>, String> {
    row.optional("others").map_or(Ok(Vec::new()), |text| text.split('+').map(ingredient).collect())
}

fn ingredient(text: &str) -> Result<Ingredient, String> {
    let key = format!("ingredient-{}", text.trim());
    Ingredient::ALL
        .into_iter()
        .find(|one| one.key() == key)
        .ok_or_else(|| format!("no ingredient is called {text}"))
}

/// The middle of a range, with the range.
fn estimate(range: Interval<f64>, basis: Basis) -> Estimate<f64> {
    let Interval { low, high } = range;
    Estimate { value: 0.5 * (low + high), low, high, basis }
}
