//! Washing by hand: stir the pulp into clean water, let it soak, squeeze, repeat.
//! Not here: what a book says of a batch to be washed, which is `derive::wash_record`.
//!
//! Squeezed pulp holds `L` litres of water; `W` litres of clean water dilute a
//! solute in it to `L / (L + W)` if mixing is perfect. Real mixing is not:
//! liquor inside the fibre walls needs time to diffuse out, and alkali is bound
//! to the fibre. So one rinse is taken to leave `(L / (L + W))^e`, where `e` is
//! fitted to this studio's own readings ([`efficiency`]), and each solute falls
//! towards the concentration in the tap water, never below it.
//!
//! * [`Wash::rinses_of`] counts rinses of a given volume;
//! * [`compare`] lists the same water in one, two, three… rinses;
//! * [`Wash::least_water`] and [`Wash::least_time`] choose number and volume;
//! * [`norden`] has the figures of merit of mill washers.

mod alkali;
mod balance;
pub mod efficiency;
mod error;
mod job;
pub mod norden;
mod plan;
mod readings;
mod request;
mod solute;
mod squeezed_pulp;

pub use crate::chemistry::alkali::{Alkali, STRIP_PH, strip_ph};
pub use efficiency::{Efficiency, RinsePair};
pub use error::{
    ALKALI, BUCKET, DRYNESS, ORGANICS, OXIDANT, SALT, TARGET, TIMING, WATER, WET_MASS, WashError,
};
pub use job::{RinsePlan, RinseStep};
pub use plan::{RinseSplit, compare, least_rinse};
pub(crate) use readings::USUAL_TAP_PH;
pub use readings::{OwnTargets, WashReadings, worked_out};
pub use request::{MOST_RINSES, RinseTiming, STIRRABLE, Wash};
pub use solute::{PerSolute, PulpLiquor, Solute, TapWater, Targets};
pub use squeezed_pulp::{DRIEST_SQUEEZE, SqueezedPulp, own_dryness, recorded_dryness};

#[cfg(test)]
mod tests;
