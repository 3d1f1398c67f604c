//! What an advice on a running bath means in grams or millilitres of the person's own product.
//! Not here: the advice itself, which is `forecast`.

use jiff::Timestamp;
use ulid::Ulid;

use super::{BathForecast, forecast_of_bath::substance, plan_of_bath};
use crate::{
    bath::{self, Bleach, Dose, MeasuredOut, measure_out, soda_ash_per_peroxide},
    chemistry::{
        EquilibriumError,
        alkali::{AlkaliReagent, PhWindow, WINDOW_CELSIUS},
        equilibrium::Mix,
        substance::{in_moles_per_litre, moles_per_litre},
    },
    forecast::Band,
    journal::{Additive, Amount, Book, PlanRecord, Product, ProductKind},
    quantity::{ComputedEstimate, grams, in_grams_per_litre, in_share, millilitres},
};

/// An amount to add to a bath, as scale or jug show it.
#[derive(Clone, Debug, PartialEq)]
pub struct AdvisedDose {
    pub what: Additive,
    /// The shelf product that it is of, and its name; empty if it has none.
    pub product: Option<Ulid>,
    pub name: String,
    /// The whole bath's; `soda_ash` goes with peroxide.
    pub measured: MeasuredOut,
    /// Equal vessels that it is divided over.
    pub vessels: u32,
    /// pH that soda brings a cooled sample to, at most.
    pub ph: Option<f64>,
}

/// How much below a limit an amount is aimed at, so that rounding stays within it.
const BELOW: f64 = 0.95;
const LEAST: f64 = 0.85;

/// The product that brings `oxidant`, mol/L, into all of the bath: never more than half of what
/// was measured out first. `None` where size or product are not known.
pub fn advised_redose(
    book: &Book,
    bath: Ulid,
    forecast: &BathForecast,
    oxidant: f64,
    now: Timestamp,
) -> Option<AdvisedDose> {
    let view = book.bath(bath)?;
    let plan = plan_of_bath(book, view);
    let kind = bath::Oxidant::from(view.oxidant);
    let shelf = view.product.and_then(|id| book.products.get(&id));
    let in_use = shelf.filter(|product| product.finished.is_none());
    let bleach = in_use.and_then(|product| Bleach::of(product, now)).or_else(|| stated(plan?))?;
    let litres = forecast.liquor_ml?.value / 1000.0;
    let active_g = oxidant * substance(kind).grams_per_mole * litres;
    let half = plan.filter(|plan| plan.product.shelf == view.product).map(first_half);
    let (what, dose) = match bleach {
        Bleach::Hypochlorite(bottle) => {
            let strength = in_grams_per_litre(bottle.liquid().ok()?.available_chlorine.value);
            (Additive::Hypochlorite, by_volume(active_g / strength * 1000.0, half)?)
        }
        Bleach::Peroxide(bottle) => {
            let strength = in_grams_per_litre(bottle.peroxide().ok()?.value);
            (Additive::Peroxide, by_volume(active_g / strength * 1000.0, half)?)
        }
        Bleach::Percarbonate(powder) => {
            let share = in_share(powder.peroxide().ok()?.value);
            (Additive::Percarbonate, Dose::Powder(need(active_g / share, half)?.map(grams)))
        }
    };
    let soda = (kind == bath::Oxidant::Peroxide)
        .then(|| exact(active_g * BELOW * soda_ash_per_peroxide()).map(grams));
    let none = exact(0.0).map(millilitres);
    let (product, name) = named(in_use.or(shelf));
    Some(AdvisedDose {
        what,
        product,
        name,
        measured: measure_out(&dose, soda, &none, 1),
        vessels: vessels(plan),
        ph: None,
    })
}

/// Soda for all of the bath, before its pH is too low: what brings the pH that is expected at
/// `then` to the aim of its window, and what is there now to the window's end at most. Soda ash,
/// or washing soda if only that is on the shelf. `None` where the size of the bath is not known, or
/// no soda is needed.
pub fn advised_soda(
    book: &Book,
    bath: Ulid,
    forecast: &BathForecast,
    at: [SodaPoint; 2],
) -> Option<AdvisedDose> {
    let view = book.bath(bath)?;
    let window = PhWindow::of(view.oxidant.into());
    let shelf = book.shelf();
    let of_kind = |kind| shelf.iter().copied().find(|product| product.kind == kind);
    let (what, alkali, product) = match of_kind(ProductKind::SodaAsh) {
        Some(ash) => (Additive::SodaAsh, AlkaliReagent::SodaAsh, Some(ash)),
        None => match of_kind(ProductKind::WashingSoda) {
            Some(soda) => (Additive::WashingSoda, AlkaliReagent::WashingSoda, Some(soda)),
            None => (Additive::SodaAsh, AlkaliReagent::SodaAsh, None),
        },
    };
    let litres = forecast.liquor_ml?.value / 1000.0;
    let [now, then] = at;
    let dose = |point: &SodaPoint, ph: f64, to: f64| -> Option<f64> {
        soda_dose(forecast, point, ph, alkali, to).ok()
    };
    let wanted = |ph: f64| dose(&then, ph, window.aim);
    let value = wanted(then.ph.median)?;
    // Whatever the pH is now within its band, it stays within the window.
    let most = dose(&now, now.ph.high_80, window.high).unwrap_or(0.0);
    let value = value.min(BELOW * most);
    if value <= 0.0 {
        return None;
    }
    let gram = alkali.substance().grams_per_mole * litres;
    let range = ComputedEstimate {
        low: wanted(then.ph.high_80).unwrap_or(0.0).clamp(0.5 * value, value) * gram,
        high: wanted(then.ph.low_80).unwrap_or(value).clamp(value, most.max(value)) * gram,
        ..exact(value * gram)
    };
    let (product, name) = named(product);
    let none = exact(0.0).map(millilitres);
    Some(AdvisedDose {
        what,
        product,
        name,
        measured: measure_out(&Dose::Powder(range.map(grams)), None, &none, 1),
        vessels: vessels(plan_of_bath(book, view)),
        ph: Some(window.high),
    })
}

/// The bath at one time, for a dose of soda: bands of the pH of a cooled sample and of the oxidant
/// left, mol/L.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SodaPoint {
    pub ph: Band,
    pub oxidant: Band,
}

/// Soda, mol/L, that brings a cooled sample of the bath from `ph` to `to`; 0 if it is there.
fn soda_dose(
    forecast: &BathForecast,
    point: &SodaPoint,
    ph: f64,
    alkali: AlkaliReagent,
    to: f64,
) -> Result<f64, EquilibriumError> {
    if ph >= to {
        return Ok(0.0);
    }
    let request = &forecast.request;
    let left = point.oxidant.median.max(0.0);
    let spent = (request.strength.value - left).max(0.0);
    let salts = match request.oxidant {
        bath::Oxidant::Hypochlorite => request.mix.with_salt(moles_per_litre(2.0 * spent)),
        bath::Oxidant::Percarbonate => {
            request.mix.with_soda_ash(moles_per_litre(request.strength.value / 1.5))
        }
        bath::Oxidant::Peroxide => request.mix,
    };
    let mixed = request
        .events
        .iter()
        .fold(salts, |mix, event| mix.made_up_with(event.share, &event.added.without_oxidant()));
    // The oxidant left is that of the forecast.
    let now = if request.oxidant.is_peroxide() {
        mixed.with_peroxide(moles_per_litre(left))
    } else {
        mixed.with_bleach(moles_per_litre(left))
    };
    let cooled = now.brought_to(WINDOW_CELSIUS)?;
    let base = in_moles_per_litre(cooled.hidden_base(ph)?);
    let read: Mix = cooled.with_strong_acid(moles_per_litre(-base));
    Ok(in_moles_per_litre(read.dose(alkali.reagent(), to)?))
}

/// Half of the first amount, mL or g.
fn first_half(plan: &PlanRecord) -> f64 {
    match plan.product_amount {
        Amount::VolumeMl(amount) | Amount::MassG(amount) => 0.5 * amount.value,
    }
}

fn stated(plan: &PlanRecord) -> Option<Bleach> {
    let strength = &plan.product.strength;
    let bottle = strength.bottle().map(Bleach::Hypochlorite);
    bottle
        .or_else(|| strength.powder().map(Bleach::Percarbonate))
        .or_else(|| strength.peroxide_bottle().map(Bleach::Peroxide))
}

fn by_volume(ml: f64, half: Option<f64>) -> Option<Dose> {
    Some(Dose::Bottle(need(ml, half)?.map(millilitres)))
}

/// An amount that rounding keeps below `most` of it, and below half of the first.
fn need(most: f64, half: Option<f64>) -> Option<ComputedEstimate<f64>> {
    let most = half.map_or(most, |half| most.min(half));
    (most > 0.0 && most.is_finite()).then(|| ComputedEstimate {
        low: LEAST * most,
        high: most,
        ..exact(BELOW * most)
    })
}

fn exact(value: f64) -> ComputedEstimate<f64> {
    ComputedEstimate::exact(value)
}

fn named(product: Option<&Product>) -> (Option<Ulid>, String) {
    product.map_or((None, String::new()), |product| (Some(product.id), product.name.clone()))
}

fn vessels(plan: Option<&PlanRecord>) -> u32 {
    plan.map_or(1, |plan| u32::try_from(plan.loads.len().max(1)).unwrap_or(1))
}
