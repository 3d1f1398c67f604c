//! Division of a bath into equal loads, one for each filling of the vessel.

use super::request::{BathVessel, BleachAmount};
use crate::quantity::{Mass, Resolution, Volume, grams, in_grams, in_millilitres, millilitres};

/// Equal loads that add up to the bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loads {
    pub count: u32,
    /// The sum of all loads.
    pub total: VesselLoad,
    /// One load, before rounding.
    pub each: VesselLoad,
}

/// The contents of one vessel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VesselLoad {
    pub pulp: Mass,
    pub dose: BleachAmount,
    pub soda_ash: Option<Mass>,
    pub water: Volume,
    pub volume: Volume,
}

impl Loads {
    pub(super) fn split(total: VesselLoad, vessel: Option<&BathVessel>) -> Self {
        let count = vessel.map_or(1, |vessel| {
            // An excess of a millionth is rounding, not a further load.
            let loads = in_millilitres(total.volume) / in_millilitres(vessel.working());
            (loads - 1e-6).ceil().clamp(1.0, 1e6) as u32
        });
        let part = 1.0 / f64::from(count);
        let each = VesselLoad {
            pulp: total.pulp * part,
            dose: match total.dose {
                BleachAmount::Bottle(volume) => BleachAmount::Bottle(volume * part),
                BleachAmount::Powder(mass) => BleachAmount::Powder(mass * part),
            },
            soda_ash: total.soda_ash.map(|mass| mass * part),
            water: total.water * part,
            volume: total.volume * part,
        };
        Self { count, total, each }
    }

    /// The loads rounded to the resolution of scale and jug; their sum is exactly
    /// the bath's rounded amounts. At most the first 100 loads.
    pub fn measurable(&self) -> Vec<VesselLoad> {
        let n = self.count.min(100);
        let share = f64::from(n) / f64::from(self.count);
        let total = self.total;
        let pulp = Resolution::scale(self.each.pulp).portions(in_grams(total.pulp) * share, n);
        let water =
            Resolution::jug(self.each.water).portions(in_millilitres(total.water) * share, n);
        let soda_ash = self
            .each
            .soda_ash
            .zip(total.soda_ash)
            .map(|(each, all)| Resolution::scale(each).portions(in_grams(all) * share, n));
        let dose = match (self.each.dose, total.dose) {
            (BleachAmount::Bottle(each), BleachAmount::Bottle(all)) => {
                Resolution::jug(each).portions(in_millilitres(all) * share, n)
            }
            (BleachAmount::Powder(each), BleachAmount::Powder(all)) => {
                Resolution::scale(each).portions(in_grams(all) * share, n)
            }
            // Unreachable: `split` derives one from the other.
            _ => return Vec::new(),
        };
        (0..n as usize)
            .map(|i| VesselLoad {
                pulp: grams(pulp[i]),
                dose: match total.dose {
                    BleachAmount::Bottle(_) => BleachAmount::Bottle(millilitres(dose[i])),
                    BleachAmount::Powder(_) => BleachAmount::Powder(grams(dose[i])),
                },
                soda_ash: soda_ash.as_ref().map(|soda_ash| grams(soda_ash[i])),
                water: millilitres(water[i]),
                volume: self.each.volume,
            })
            .collect()
    }
}
