//! Between what the journal keeps and what the sums take: a bottle on the
//! shelf becomes a bleach to reckon with, and a plan becomes a record.

use std::collections::BTreeMap;

use jiff::Timestamp;

use super::{
    Active, Aim as AimKept, Amount, Load as LoadKept, Oxidant as OxidantKept, PlanRecord, Product,
    ProductKind, ProductUsed, Strength, StrengthBasis,
};
use crate::{
    bath::{
        Aim, Bleach, Bottle, CueKind as Asked, Dose, LabelBasis, OnHand, Oxidant, Plan, Powder,
        PowderBasis, Request, Schedule as Suggested,
    },
    cue::Schedule,
    message::Field,
    quantity::{
        Figure, Known, grams_per_millilitre, in_grams, in_grams_per_litre, in_grams_per_millilitre,
        in_millilitres, in_share, share,
    },
};

/// The record of a plan, with `product` as the bleach it was made for.
pub fn plan_record(request: &Request, plan: &Plan, product: ProductUsed) -> PlanRecord {
    let counted_as = match request.bleach.oxidant() {
        Oxidant::Hypochlorite => Active::AvailableChlorine,
        Oxidant::Percarbonate | Oxidant::Peroxide => Active::HydrogenPeroxide,
    };
    let mut dominant = BTreeMap::new();
    let mut blame = |what: &str, by: Option<Field>| {
        if let Some(Field(by)) = by {
            dominant.insert(what.to_owned(), by.to_owned());
        }
    };
    let dose = match &plan.dose {
        Dose::Bottle(volume) => volume.dominant,
        Dose::Powder(mass) => mass.dominant,
    };
    blame("product_amount", dose);
    blame("water_to_add_ml", plan.water_volume.dominant);
    blame("dry_fibre_g", plan.oven_dry.dominant);
    blame("consistency", plan.consistency.dominant);
    blame("charge", plan.charge.dominant);
    blame("liquor_strength_g_per_l", plan.strength.dominant);
    blame("ph", plan.ph.ok().and_then(|foreseen| foreseen.ph.dominant));
    PlanRecord {
        oxidant: request.bleach.oxidant().into(),
        product,
        aim: match request.aim {
            Aim::Strength(c) => {
                AimKept::LiquorStrength { g_per_l: in_grams_per_litre(c), counted_as }
            }
            Aim::Charge(c) => AimKept::Charge { share: in_share(c), counted_as },
        },
        wet_mass_g: request.pulp.wet.map(in_grams),
        dryness: request.pulp.dryness.map(in_share),
        dry_fibre_g: plan.oven_dry.map(in_grams).known(),
        celsius: request.temperature.get(),
        minutes: plan.schedule.minutes,
        schedule: (&plan.schedule).into(),
        product_amount: match &plan.dose {
            Dose::Bottle(volume) => Amount::VolumeMl(volume.map(in_millilitres).known()),
            Dose::Powder(mass) => Amount::MassG(mass.map(in_grams).known()),
        },
        water_to_add_ml: plan.water_volume.map(in_millilitres).known(),
        liquor_ml: liquor(plan).known(),
        consistency: plan.consistency.map(in_share).known(),
        charge: plan.charge.map(in_share).known(),
        liquor_strength_g_per_l: plan.strength.map(in_grams_per_litre).known(),
        counted_as,
        ph: plan.ph.ok().map(|foreseen| foreseen.ph.known()),
        loads: loads(plan),
        dominant,
        cautions: plan.cautions.iter().map(|c| c.id.stored_name().to_owned()).collect(),
        note: String::new(),
    }
}

/// All the liquor in millilitres: the volume that the strength counts on.
fn liquor(plan: &Plan) -> Figure<f64> {
    let part = in_grams_per_litre(plan.strength.value);
    let active = plan.active.map(in_grams);
    if part > 0.0 {
        active.map(|grams| grams / part * 1000.0)
    } else {
        plan.total_volume.map(in_millilitres)
    }
}

fn loads(plan: &Plan) -> Vec<LoadKept> {
    if plan.loads.count < 2 {
        return Vec::new();
    }
    let kept = |load: crate::bath::Load| LoadKept {
        wet_pulp_g: in_grams(load.pulp),
        product_amount: match load.dose {
            OnHand::Bottle(volume) => Amount::VolumeMl(exact(in_millilitres(volume))),
            OnHand::Powder(mass) => Amount::MassG(exact(in_grams(mass))),
        },
        water_to_add_ml: in_millilitres(load.water),
    };
    plan.loads.measurable().into_iter().map(kept).collect()
}

fn exact(value: f64) -> Known<f64> {
    Known::exact(value, crate::quantity::Basis::Computed)
}

impl From<Oxidant> for OxidantKept {
    fn from(oxidant: Oxidant) -> Self {
        match oxidant {
            Oxidant::Hypochlorite => Self::Hypochlorite,
            Oxidant::Percarbonate => Self::Percarbonate,
            Oxidant::Peroxide => Self::Peroxide,
        }
    }
}

impl From<OxidantKept> for Oxidant {
    fn from(oxidant: OxidantKept) -> Self {
        match oxidant {
            OxidantKept::Hypochlorite => Self::Hypochlorite,
            OxidantKept::Percarbonate => Self::Percarbonate,
            OxidantKept::Peroxide => Self::Peroxide,
        }
    }
}

impl From<&Suggested> for Schedule {
    /// The suggestion as rhythms and instants. A check means a strip, the pH
    /// and a photo.
    fn from(suggested: &Suggested) -> Self {
        let at = |kind: Asked| {
            suggested.cues.iter().filter(move |cue| cue.kind == kind).map(|cue| cue.minute)
        };
        Schedule {
            stir_every_min: at(Asked::Stir).next(),
            reheat_every_min: at(Asked::Reheat).next(),
            ph_at_min: at(Asked::Check).collect(),
            strip_at_min: at(Asked::Check).collect(),
            photo_at_min: at(Asked::Check).collect(),
            stop_at_min: Some(suggested.minutes),
        }
    }
}

impl Bleach {
    /// The bleach that a shelf product is at `now`: a bottle as strong as it
    /// is by then ([`Product::strength_now`]), a powder by its last test or
    /// label; by a wide assumption where nothing says. Where a bottle's age
    /// cannot be reckoned (a date ahead of the clock), its strength as stated
    /// stands. `None` for anything that this house plans no baths with.
    pub fn of(product: &Product, now: Timestamp) -> Option<Self> {
        let stated = product.strength().map(|(strength, _)| strength);
        match product.kind {
            ProductKind::Hypochlorite => {
                let stated = stated.and_then(Strength::bottle).unwrap_or_else(Bottle::unknown);
                let bottle = match product.strength_now(now) {
                    Ok(today) => {
                        let density = stated.density;
                        Bottle { density, ..Bottle::titrated(today.available_chlorine) }
                    }
                    Err(_) => stated,
                };
                Some(Bleach::Hypochlorite(bottle))
            }
            ProductKind::Percarbonate => {
                let powder = stated.and_then(Strength::powder).unwrap_or_else(Powder::unknown);
                Some(Bleach::Percarbonate(powder))
            }
            _ => None,
        }
    }

    /// Its strength as the journal keeps it.
    pub fn strength(&self) -> Strength {
        match self {
            Bleach::Hypochlorite(bottle) => Strength {
                figure: bottle.figure,
                stated_as: bottle.basis.into(),
                density_g_per_ml: bottle.density.map(|d| d.map(in_grams_per_millilitre)),
            },
            Bleach::Percarbonate(powder) => Strength {
                figure: powder.figure.map(|share| in_share(share) * 100.0),
                stated_as: powder.basis.into(),
                density_g_per_ml: None,
            },
        }
    }
}

impl Strength {
    /// As a bottle of hypochlorite, if that is what it states.
    pub fn bottle(&self) -> Option<Bottle> {
        let basis = match self.stated_as {
            StrengthBasis::NaoclPercentByMass => LabelBasis::NaoclByMass,
            StrengthBasis::NaoclPercentByVolume => LabelBasis::NaoclByVolume,
            StrengthBasis::AvailableChlorinePercentByMass => LabelBasis::ChlorineByMass,
            StrengthBasis::AvailableChlorinePercentByVolume => LabelBasis::ChlorineByVolume,
            StrengthBasis::AvailableChlorineGPerL => LabelBasis::ChlorineGramsPerLitre,
            _ => return None,
        };
        let density = self.density_g_per_ml.map(|d| d.map(grams_per_millilitre));
        Some(Bottle { figure: self.figure, basis, density })
    }

    /// As a percarbonate powder, if that is what it states.
    pub fn powder(&self) -> Option<Powder> {
        let basis = match self.stated_as {
            StrengthBasis::PercarbonatePercentByMass => PowderBasis::Percarbonate,
            StrengthBasis::HydrogenPeroxidePercentByMass => PowderBasis::Peroxide,
            StrengthBasis::ActiveOxygenPercentByMass => PowderBasis::ActiveOxygen,
            _ => return None,
        };
        Some(Powder { figure: self.figure.map(|percent| share(percent / 100.0)), basis })
    }
}

impl From<LabelBasis> for StrengthBasis {
    fn from(basis: LabelBasis) -> Self {
        match basis {
            LabelBasis::NaoclByMass => Self::NaoclPercentByMass,
            LabelBasis::NaoclByVolume => Self::NaoclPercentByVolume,
            LabelBasis::ChlorineByMass => Self::AvailableChlorinePercentByMass,
            LabelBasis::ChlorineByVolume => Self::AvailableChlorinePercentByVolume,
            LabelBasis::ChlorineGramsPerLitre => Self::AvailableChlorineGPerL,
        }
    }
}

impl From<PowderBasis> for StrengthBasis {
    fn from(basis: PowderBasis) -> Self {
        match basis {
            PowderBasis::Percarbonate => Self::PercarbonatePercentByMass,
            PowderBasis::Peroxide => Self::HydrogenPeroxidePercentByMass,
            PowderBasis::ActiveOxygen => Self::ActiveOxygenPercentByMass,
        }
    }
}

impl ProductUsed {
    /// A shelf product with the strength that [`Bleach::of`] reckons with.
    pub fn from_shelf(product: &Product, now: Timestamp) -> Option<Self> {
        let strength = Bleach::of(product, now)?.strength();
        Some(Self { shelf: Some(product.id), name: product.name.clone(), strength })
    }

    /// A bleach that was typed off a label.
    pub fn typed(bleach: &Bleach) -> Self {
        Self { shelf: None, name: String::new(), strength: bleach.strength() }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::{
        bath::{Size, plan},
        caution::Residual,
        pulp::WetPulp,
        quantity::{Basis, Celsius, grams, weighed},
    };

    fn request() -> Request {
        let dryness = Known { value: 0.2, low: 0.15, high: 0.25, basis: Basis::Assumed };
        Request {
            pulp: WetPulp::new(weighed(grams(1000.0)), dryness.map(share)).unwrap(),
            bleach: Bleach::Hypochlorite(Bottle::labelled(6.0, LabelBasis::NaoclByMass)),
            aim: Aim::Charge(share(0.02)),
            size: Size::Consistency(share(0.05)),
            temperature: Celsius::new(38.0).unwrap(),
            carried: Residual::None,
            squeezed: None,
            company: Vec::new(),
            on_hand: None,
            vessel: None,
            minutes: Some(60.0),
            cooling: None,
        }
    }

    #[test]
    fn a_plan_is_kept_with_its_numbers_and_what_they_rest_on() {
        let request = request();
        let plan = plan(&request).unwrap();
        let kept = plan_record(&request, &plan, ProductUsed::typed(&request.bleach));
        let Amount::VolumeMl(dose) = kept.product_amount else { panic!("a bottle is poured") };
        // 4.00 g of available chlorine at 61.7 g/L.
        assert!((dose.value - 64.8).abs() < 0.5, "{}", dose.value);
        assert!((kept.dry_fibre_g.value - 200.0).abs() < 1e-9);
        assert_eq!(kept.dry_fibre_g.basis, Basis::Assumed);
        assert_eq!(kept.dominant["dry_fibre_g"], "dryness");
        let active = kept.liquor_ml.value / 1000.0 * kept.liquor_strength_g_per_l.value;
        assert!((active - 4.0).abs() < 1e-6);
        assert_eq!(kept.schedule.stop_at_min, Some(60.0));
        assert_eq!(kept.schedule.stir_every_min, Some(10.0));
    }

    #[test]
    fn a_strength_comes_back_as_the_bleach_that_it_was() {
        for basis in LabelBasis::ALL {
            let bottle = Bottle::labelled(5.0, basis);
            let kept = Bleach::Hypochlorite(bottle).strength();
            assert_eq!(kept.bottle(), Some(bottle));
            assert_eq!(kept.powder(), None);
        }
        for basis in PowderBasis::ALL {
            let powder = Powder::labelled(share(0.12), basis);
            let kept = Bleach::Percarbonate(powder).strength();
            let back = kept.powder().unwrap();
            assert_eq!(back.basis, basis);
            assert!((in_share(back.figure.value) - 0.12).abs() < 1e-12);
            assert_eq!(kept.bottle(), None);
        }
    }
}
