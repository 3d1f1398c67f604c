//! Splitting a bath into pots or blenders.

use super::BleachAmount;
use crate::{
    message::Field,
    quantity::{
        Mass, OutOfRange, QuantityKind, Resolution, Volume, grams, in_grams, in_millilitres,
        millilitres,
    },
};

/// What a bath is made up in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    /// To the brim.
    pub capacity: Volume,
    pub filled: VesselKind,
}

/// How full a vessel is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VesselKind {
    /// Stirred by hand: four fifths full (common practice, no source).
    Pot,
    /// Blended: half full, never more (common practice, no source).
    Blender,
}

impl Vessel {
    /// Volume that it is worked at.
    pub fn working(&self) -> Volume {
        self.capacity
            * match self.filled {
                VesselKind::Pot => 0.8,
                VesselKind::Blender => 0.5,
            }
    }

    pub(super) fn check(&self) -> Result<(), OutOfRange> {
        OutOfRange::check(
            CAPACITY,
            QuantityKind::Volume,
            in_millilitres(self.capacity),
            50.0,
            5e6,
        )?;
        Ok(())
    }
}

pub const CAPACITY: Field = Field("capacity");

/// Equal loads that together are the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loads {
    pub count: u32,
    /// All of them together.
    pub total: Load,
    /// One of them, before rounding.
    pub each: Load,
}

/// One vessel's fill.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    pub pulp: Mass,
    pub dose: BleachAmount,
    pub water: Volume,
    pub volume: Volume,
}

impl Loads {
    pub(super) fn split(total: Load, vessel: Option<&Vessel>) -> Self {
        let count = vessel.map_or(1, |vessel| {
            // A load over by a millionth part is rounding, not a reason for another.
            let loads = in_millilitres(total.volume) / in_millilitres(vessel.working());
            (loads - 1e-6).ceil().clamp(1.0, 1e6) as u32
        });
        let part = 1.0 / f64::from(count);
        let each = Load {
            pulp: total.pulp * part,
            dose: match total.dose {
                BleachAmount::Bottle(volume) => BleachAmount::Bottle(volume * part),
                BleachAmount::Powder(mass) => BleachAmount::Powder(mass * part),
            },
            water: total.water * part,
            volume: total.volume * part,
        };
        Self { count, total, each }
    }

    /// The loads as they can be measured: each amount on the step of a scale or
    /// jug, and together exactly the plan's rounded amounts. At most the first
    /// 100 loads.
    pub fn measurable(&self) -> Vec<Load> {
        let n = self.count.min(100);
        let share = f64::from(n) / f64::from(self.count);
        let total = self.total;
        let pulp = Resolution::scale(self.each.pulp).portions(in_grams(total.pulp) * share, n);
        let water =
            Resolution::jug(self.each.water).portions(in_millilitres(total.water) * share, n);
        let dose = match (self.each.dose, total.dose) {
            (BleachAmount::Bottle(each), BleachAmount::Bottle(all)) => {
                Resolution::jug(each).portions(in_millilitres(all) * share, n)
            }
            (BleachAmount::Powder(each), BleachAmount::Powder(all)) => {
                Resolution::scale(each).portions(in_grams(all) * share, n)
            }
            // `split` made the one from the other.
            _ => return Vec::new(),
        };
        (0..n as usize)
            .map(|i| Load {
                pulp: grams(pulp[i]),
                dose: match total.dose {
                    BleachAmount::Bottle(_) => BleachAmount::Bottle(millilitres(dose[i])),
                    BleachAmount::Powder(_) => BleachAmount::Powder(grams(dose[i])),
                },
                water: millilitres(water[i]),
                volume: self.each.volume,
            })
            .collect()
    }
}
