//! Vessels: size, material, cover, and the heat that a warm bath loses through each.

use super::evaporation::{RoomAir, open_surface};
use crate::quantity::{Basis, Estimate, Volume, in_millilitres};
use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantArray};

/// Emissivity of water, enamel and plastics (handbooks, from memory).
const EMISSIVITY: f64 = 0.95;
/// W/(m²·K⁴).
const STEFAN_BOLTZMANN: f64 = 5.670_374e-8;

/// What covers the bath.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr, VariantArray,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum BathCover {
    Open,
    /// A lid or a tight film.
    Lid,
    /// A lid, and blankets or foam all round.
    Insulated,
}

/// What the vessel is made of.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr, VariantArray,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum VesselMaterial {
    Plastic,
    /// Enamelled or stainless steel.
    Steel,
    /// Glass, stoneware.
    Ceramic,
    Wood,
}

impl VesselMaterial {
    /// Thermal resistance of the wall, m²·K/W: thickness over conductivity, 2 to 4 mm at 0.2,
    /// 1 mm at 15 or more, 5 to 15 mm at 1, 10 to 25 mm at 0.13 W/(m·K) (handbook conductivities
    /// from memory, thicknesses own estimates).
    pub fn resistance(self) -> Estimate<f64> {
        let (value, low, high) = match self {
            Self::Plastic => (0.015, 0.01, 0.02),
            Self::Steel => (0.0, 0.0, 0.001),
            Self::Ceramic => (0.008, 0.005, 0.015),
            Self::Wood => (0.12, 0.08, 0.19),
        };
        Estimate { value, low, high, basis: Basis::Assumed }
    }
}

/// Thermal resistance of blankets or foam, m²·K/W: 1 to 4 cm at 0.035 to 0.05 W/(m·K), gaps
/// included (own estimate).
pub const WRAPPING: Estimate<f64> =
    Estimate { value: 0.4, low: 0.15, high: 0.8, basis: Basis::Assumed };

/// Part of the open surface's evaporation that still escapes under a lid (own estimate).
const LID_LEAK: f64 = 0.03;

/// A vessel with a bath in it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct HeatVessel {
    /// Surface of the bath, m².
    pub top: f64,
    /// Wetted side, m². The bottom stands on something and is left out; it is part of
    /// [`LossFactors::dry`].
    pub wall: f64,
    /// Depth of the bath, m.
    pub depth: f64,
    /// Of the wall without wrapping, m²·K/W.
    pub wall_resistance: f64,
    pub cover: BathCover,
}

/// Shape of a vessel.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr, VariantArray,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum VesselShape {
    /// As deep as wide, or deeper.
    Bucket,
    /// A tub or vat: three times as wide as deep.
    Tub,
}

impl HeatVessel {
    /// A bath of this volume in a vessel of this shape, as a cylinder: depth 1.16 times the
    /// width in a bucket (20 L in one of 28 cm), a third of it in a tub (own estimates).
    pub fn preset(
        volume: Volume,
        shape: VesselShape,
        material: VesselMaterial,
        cover: BathCover,
    ) -> Self {
        let cubic_metres = in_millilitres(volume).max(1.0) * 1e-6;
        let depth_per_width = match shape {
            VesselShape::Bucket => 1.16,
            VesselShape::Tub => 1.0 / 3.0,
        };
        let pi = std::f64::consts::PI;
        let width = (4.0 * cubic_metres / (pi * depth_per_width)).cbrt();
        let depth = depth_per_width * width;
        Self {
            top: 0.25 * pi * width * width,
            wall: pi * width * depth,
            depth,
            wall_resistance: material.resistance().value,
            cover,
        }
    }

    /// Heat lost at a temperature of the bath.
    pub fn loss(&self, celsius: f64, air: &RoomAir) -> HeatLoss {
        let wrapping = if self.cover == BathCover::Insulated { WRAPPING.value } else { 0.0 };
        let wall = covered(celsius, air.celsius, self.wall_resistance + wrapping, |warmer| {
            1.42 * (warmer / self.depth).sqrt().sqrt()
        });
        let open = open_surface(celsius, air);
        let top = match self.cover {
            BathCover::Open => {
                Flux { convection: open.convection, radiation: radiation(celsius, air.celsius) }
            }
            BathCover::Lid | BathCover::Insulated => {
                let width = (4.0 * self.top / std::f64::consts::PI).sqrt();
                covered(celsius, air.celsius, wrapping, |warmer| {
                    1.32 * (warmer / width).sqrt().sqrt()
                })
            }
        };
        let escapes = match self.cover {
            BathCover::Open => 1.0,
            BathCover::Lid => LID_LEAK,
            BathCover::Insulated => 0.3 * LID_LEAK,
        };
        HeatLoss {
            evaporation: self.top * escapes * open.evaporation,
            convection: self.top * top.convection + self.wall * wall.convection,
            radiation: self.top * top.radiation + self.wall * wall.radiation,
        }
    }
}

/// W/m².
#[derive(Clone, Copy)]
struct Flux {
    convection: f64,
    radiation: f64,
}

/// Heat that a bath loses, W.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatLoss {
    pub evaporation: f64,
    pub convection: f64,
    pub radiation: f64,
}

impl HeatLoss {
    pub fn total(&self) -> f64 {
        self.evaporation + self.convection + self.radiation
    }

    /// With each part multiplied by its factor.
    pub fn scaled(&self, factors: &LossFactors<f64>) -> f64 {
        factors.evaporation * self.evaporation + factors.dry * (self.convection + self.radiation)
    }
}

/// Factors on the parts of a [`HeatLoss`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct LossFactors<T> {
    pub evaporation: T,
    /// Convection and radiation.
    pub dry: T,
}

impl LossFactors<f64> {
    pub const ONE: Self = Self { evaporation: 1.0, dry: 1.0 };
}

impl LossFactors<Estimate<f64>> {
    /// Evaporation ±30 %: the spread of published forms. Convection and radiation -30 to +40 %:
    /// bottom, handles, shape, draught (own estimate); with wrapping -50 to +300 %, since its
    /// thickness and gaps decide ([`WRAPPING`]; two measured coolers lost 1.3 to 3.2 times as much
    /// as calculated).
    pub fn assumed(cover: BathCover) -> Self {
        let basis = Basis::Assumed;
        let (low, high) = if cover == BathCover::Insulated { (0.5, 4.0) } else { (0.7, 1.4) };
        Self {
            evaporation: Estimate { value: 1.0, low: 0.7, high: 1.3, basis },
            dry: Estimate { value: 1.0, low, high, basis },
        }
    }
}

/// Loss through a wall of this resistance (m²·K/W), whose outer face convects by `film`,
/// W/(m²·K) at a temperature difference, and radiates. Free convection of air,
/// `1.42 (dT/L)^¼` on upright and `1.32 (dT/L)^¼` on level faces (textbook, from memory);
/// against bare tank walls at 32 to 71 °C within 3 %.
fn covered(celsius: f64, room: f64, resistance: f64, film: impl Fn(f64) -> f64) -> Flux {
    let mut face = celsius;
    let mut flux = Flux { convection: 0.0, radiation: 0.0 };
    // The face settles within 0.01 °C: each round divides the error by four or more.
    for _ in 0..12 {
        let warmer = face - room;
        let out =
            Flux { convection: film(warmer.abs()) * warmer, radiation: radiation(face, room) };
        flux = out;
        if resistance <= 0.0 || warmer.abs() < 1e-9 {
            break;
        }
        let film = (out.convection + out.radiation) / warmer;
        face = room + (celsius - room) / (1.0 + resistance * film);
    }
    flux
}

/// Net radiation to the room, W/m².
fn radiation(celsius: f64, room: f64) -> f64 {
    let fourth = |celsius: f64| (celsius + 273.15).powi(4);
    EMISSIVITY * STEFAN_BOLTZMANN * (fourth(celsius) - fourth(room))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::millilitres;

    fn vessel(cover: BathCover) -> HeatVessel {
        let volume = millilitres(20_000.0);
        HeatVessel::preset(volume, VesselShape::Bucket, VesselMaterial::Plastic, cover)
    }

    #[test]
    fn the_preset_of_20_litres_is_the_bucket_of_28_cm() {
        let bucket = vessel(BathCover::Open);
        assert!((bucket.top - 0.0616).abs() < 0.001, "{bucket:?}");
        assert!((bucket.wall - 0.286).abs() < 0.002, "{bucket:?}");
        let tub = HeatVessel::preset(
            millilitres(20_000.0),
            VesselShape::Tub,
            VesselMaterial::Plastic,
            BathCover::Open,
        );
        let air = RoomAir::still(20.0);
        assert!(tub.loss(50.0, &air).total() > 1.3 * bucket.loss(50.0, &air).total());
    }

    #[test]
    fn a_cover_keeps_heat_and_more_of_it_keeps_more() {
        let air = RoomAir::still(20.0);
        for celsius in [30.0, 40.0, 60.0, 80.0] {
            let loss = |cover| vessel(cover).loss(celsius, &air);
            let (open, lid, wrapped) =
                (loss(BathCover::Open), loss(BathCover::Lid), loss(BathCover::Insulated));
            assert!(open.total() > 1.25 * lid.total(), "{celsius}");
            assert!(lid.total() > 2.0 * wrapped.total(), "{celsius}");
            assert!(lid.evaporation < 0.1 * open.evaporation);
        }
    }

    #[test]
    fn nothing_is_lost_at_the_temperature_of_a_damp_room_and_heat_comes_in_below() {
        let damp = RoomAir { relative_humidity: 1.0, ..RoomAir::still(20.0) };
        for cover in [BathCover::Open, BathCover::Lid, BathCover::Insulated] {
            assert!(vessel(cover).loss(20.0, &damp).total().abs() < 1e-9);
            assert!(vessel(cover).loss(10.0, &damp).total() < 0.0);
        }
    }

    #[test]
    fn the_top_coefficient_of_an_open_bucket_is_no_constant() {
        let bucket = HeatVessel { wall: 0.0, ..vessel(BathCover::Open) };
        let air = RoomAir::still(15.6);
        let per_degree = |celsius: f64| bucket.loss(celsius, &air).total() / (celsius - 15.6);
        let ratio = per_degree(71.1) / per_degree(32.2);
        assert!((2.4..3.6).contains(&ratio), "{ratio}");
    }
}
