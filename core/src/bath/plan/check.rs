//! A request whose values are within their limits, as bare numbers.

use super::{
    balance::{self, ActiveTarget, Amounts, PerActive, SizeTarget},
    carry_over::CARRY_OVER_PH,
    request::{
        AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, BathAim, BathSize, Bleach,
        BleachAmount, CAPACITY, MINUTES, PlanRequest,
    },
};
use crate::{
    bath::{
        heat::{BATH_TEMPERATURE, water_density},
        strength::POWDER_STRENGTH,
    },
    pulp::{DRYNESS, WET_MASS},
    quantity::{
        Basis, Celsius, Estimate, OutOfRange, QuantityKind, UncertainInput, grams, in_grams,
        in_grams_per_litre, in_grams_per_millilitre, in_millilitres, in_share, millilitres,
    },
};

/// A checked request in bare numbers: g, mL, g/mL, shares.
pub(super) struct CheckedRequest<'a> {
    pub(super) request: &'a PlanRequest,
    /// Wet mass, dryness, strength of the bleach on its label's basis, its density or the
    /// error of that ([`Bottle::inputs`](crate::bath::strength::Bottle)).
    pub(super) inputs: [UncertainInput; 4],
    pub(super) target: ActiveTarget,
    pub(super) size: SizeTarget,
    /// g/mL
    pub(super) water_density: f64,
}

impl<'a> CheckedRequest<'a> {
    /// # Errors
    /// [`OutOfRange`] for the first value outside its limits.
    pub(super) fn new(request: &'a PlanRequest) -> Result<Self, OutOfRange> {
        let inputs = inputs(request)?;
        let target = target(&request.aim)?;
        let size = size(&request.size)?;
        check_conditions(request)?;
        let water_density = in_grams_per_millilitre(water_density(request.temperature));
        Ok(Self { request, inputs, target, size, water_density })
    }

    pub(super) fn is_powder(&self) -> bool {
        matches!(self.request.bleach, Bleach::Percarbonate(_))
    }

    /// The inputs' values, without their ranges.
    pub(super) fn nominal(&self) -> [f64; 4] {
        self.inputs.map(|input| input.value)
    }

    /// The bleach for values of its two inputs.
    pub(super) fn bleach(&self, strength: f64, density: f64) -> PerActive {
        let [strength, density] = self.strength_and_density(strength, density);
        match self.request.bleach {
            Bleach::Hypochlorite(_) => PerActive::of_bottle(strength, density),
            Bleach::Percarbonate(_) => PerActive::of_powder(strength),
            Bleach::Peroxide(_) => PerActive::of_peroxide(strength, density),
        }
    }

    /// Active chemical (g/mL of a bottle, g/g of a powder) and density (g/mL; 1 for a powder)
    /// for values of the bleach's two inputs.
    pub(super) fn strength_and_density(&self, strength: f64, density: f64) -> [f64; 2] {
        match &self.request.bleach {
            Bleach::Hypochlorite(bottle) => {
                let [chlorine, density] = bottle.composition(strength, density);
                [chlorine / 1000.0, density]
            }
            Bleach::Percarbonate(powder) => [powder.content(strength), density],
            Bleach::Peroxide(bottle) => bottle.composition(strength, density),
        }
    }

    /// [`Self::strength_and_density`] at the inputs' values.
    pub(super) fn nominal_bleach(&self) -> [f64; 2] {
        let [_, _, strength, density] = self.nominal();
        self.strength_and_density(strength, density)
    }

    pub(super) fn amounts(&self, [wet, dryness, strength, density]: [f64; 4]) -> Amounts {
        let bleach = self.bleach(strength, density);
        balance::amounts(wet, dryness, bleach, self.target, self.size, self.water_density)
    }

    /// A dose in mL or g as an amount of this bleach.
    pub(super) fn bleach_amount(&self, dose: f64) -> BleachAmount {
        if self.is_powder() {
            BleachAmount::Powder(grams(dose))
        } else {
            BleachAmount::Bottle(millilitres(dose))
        }
    }
}

fn inputs(request: &PlanRequest) -> Result<[UncertainInput; 4], OutOfRange> {
    request.pulp.check()?;
    let wet = request.pulp.wet.map(in_grams);
    let dryness = request.pulp.dryness.map(in_share);
    let [strength, density] = match &request.bleach {
        Bleach::Hypochlorite(bottle) => bottle.inputs()?,
        Bleach::Percarbonate(powder) => {
            // Not used for a powder.
            let density = Estimate::exact(1.0, Basis::Computed);
            [powder.input()?, UncertainInput::of(POWDER_STRENGTH, density)]
        }
        Bleach::Peroxide(bottle) => bottle.inputs()?,
    };
    Ok([UncertainInput::of(WET_MASS, wet), UncertainInput::of(DRYNESS, dryness), strength, density])
}

fn target(aim: &BathAim) -> Result<ActiveTarget, OutOfRange> {
    Ok(match *aim {
        BathAim::Strength(aim) => {
            let (kind, aim) = (QuantityKind::Concentration, in_grams_per_litre(aim));
            let aim = OutOfRange::check(AIM_STRENGTH, kind, aim, 1e-3, 200.0)?;
            ActiveTarget::Strength(aim / 1000.0)
        }
        BathAim::Charge(aim) => {
            let (kind, aim) = (QuantityKind::Share, in_share(aim));
            ActiveTarget::Charge(OutOfRange::check(AIM_CHARGE, kind, aim, 1e-5, 1.0)?)
        }
    })
}

fn size(size: &BathSize) -> Result<SizeTarget, OutOfRange> {
    Ok(match *size {
        BathSize::Consistency(aim) => {
            let (kind, aim) = (QuantityKind::Share, in_share(aim));
            SizeTarget::Consistency(OutOfRange::check(AIM_CONSISTENCY, kind, aim, 1e-4, 0.5)?)
        }
        BathSize::TotalVolume(aim) => {
            let (kind, aim) = (QuantityKind::Volume, in_millilitres(aim));
            SizeTarget::Volume(OutOfRange::check(AIM_VOLUME, kind, aim, 1.0, 5e6)?)
        }
    })
}

fn check_conditions(request: &PlanRequest) -> Result<(), OutOfRange> {
    Celsius::of_bath(BATH_TEMPERATURE, request.temperature.get())?;
    if let Some(minutes) = request.minutes {
        OutOfRange::check(MINUTES, QuantityKind::Duration, minutes, 1.0, 2880.0)?;
    }
    if let Some(vessel) = &request.vessel {
        let capacity = in_millilitres(vessel.capacity);
        OutOfRange::check(CAPACITY, QuantityKind::Volume, capacity, 50.0, 5e6)?;
    }
    if let Some(water) = &request.expressed_water {
        water.ph.check(CARRY_OVER_PH, QuantityKind::Ph, 0.0, 14.0)?;
    }
    Ok(())
}
