//! Rate forms of a bleach bath, evaporation, losses and cooling of vessels.

use super::{ReferenceTable, RowInputs, refused};
use bleachfield_core::{
    bath::{
        BathCover, HeatVessel, RoomAir, cooled, evaporation_by_humidity, evaporation_by_mercury,
        humidity_ratio,
        kinetics::{
            arrhenius, available_chlorine_molar, hypochlorous_decay, peeling_relative_to_ph_11,
            peroxide_colour_factor, polymerization_after, polymerization_linear,
            polymerization_scan, scissions_between,
        },
        latent_heat, open_surface, saturation_pressure,
    },
    chemistry::{
        equilibrium::Constants,
        substance::{SODIUM_PERCARBONATE, in_moles_per_litre},
    },
    quantity::grams_per_litre,
};

pub const TABLE: ReferenceTable = ReferenceTable {
    name: "kinetics",
    checks: &[
        ("arrhenius_factor", |i| {
            Ok(arrhenius(1000.0 * i.number("kj")?, i.number("from")?, i.number("to")?))
        }),
        ("hypochlorous_share", |i| Ok(1.0 - dissociated(i, |c| c.hypochlorous)?)),
        ("perhydroxyl_share", |i| dissociated(i, |c| c.peroxide)),
        ("liquor_chlorine_gpl", liquor_chlorine),
        ("hypochlorous_decay", |i| Ok(hypochlorous_decay(i.number("celsius")?))),
        ("scissions", |i| Ok(scissions_between(i.number("from")?, i.number("to")?))),
        ("polymerization", |i| Ok(polymerization_after(i.number("from")?, i.number("scissions")?))),
        ("dp_scan", |i| Ok(polymerization_scan(i.number("viscosity")?))),
        ("dp_linear", |i| Ok(polymerization_linear(i.number("viscosity")?))),
        ("peeling", |i| Ok(peeling_relative_to_ph_11(i.number("ph")?))),
        ("percarbonate_peroxide_molar", |i| Ok(1.5 * percarbonate(i)?)),
        ("percarbonate_carbonate_molar", percarbonate),
        ("peroxide_colour_factor", |i| Ok(peroxide_colour_factor(i.number("celsius")?))),
        ("evaporation", evaporation),
        ("pool_evaporation_kg_s", pool),
        ("vapour_pressure", |i| Ok(saturation_pressure(i.number("celsius")?))),
        ("latent_heat", |i| Ok(latent_heat(i.number("celsius")?))),
        ("wall_loss", |i| Ok(tank(0.0, 1.0).loss(i.number("celsius")?, &room(i)?).total())),
        ("surface_loss", |i| Ok(tank(1.0, 0.0).loss(i.number("celsius")?, &room(i)?).total())),
        ("surface_evaporation", |i| {
            Ok(tank(1.0, 0.0).loss(i.number("celsius")?, &room(i)?).evaporation)
        }),
        ("tank_table_course", tank_table_course),
    ],
};

/// Share of an acid that is dissociated, by its constant alone.
fn dissociated(i: &RowInputs, of: fn(&Constants) -> f64) -> Result<f64, String> {
    let constant = of(&Constants::at(i.number("celsius")?).map_err(refused)?);
    Ok(constant / (constant + 10_f64.powf(-i.number("ph")?)))
}

fn liquor_chlorine(i: &RowInputs) -> Result<f64, String> {
    let share = |key| Ok::<f64, String>(i.number(key)? / 100.0);
    Ok(70.906 * available_chlorine_molar(share("charge_percent")?, share("consistency_percent")?))
}

fn percarbonate(i: &RowInputs) -> Result<f64, String> {
    Ok(in_moles_per_litre(SODIUM_PERCARBONATE.molar(grams_per_litre(i.number("gpl")?))))
}

fn evaporation(i: &RowInputs) -> Result<f64, String> {
    const PER_MERCURY: f64 = 1.333_224;
    let celsius = i.number("celsius")?;
    let air = RoomAir {
        celsius: i.number("room")?,
        relative_humidity: i.number("humidity")?,
        speed: 0.0,
    };
    let (at_surface, in_air) = (saturation_pressure(celsius), air.vapour_pressure());
    let latent = latent_heat(celsius);
    let per_hour = match i.text("form")? {
        "ponds" => return Ok(open_surface(celsius, &air).evaporation),
        "humidity" => {
            evaporation_by_humidity(0.0, humidity_ratio(at_surface), humidity_ratio(in_air))
        }
        "mercury" => {
            evaporation_by_mercury(0.0, at_surface / PER_MERCURY, in_air / PER_MERCURY, latent)
        }
        other => return Err(format!("no form is called {other}")),
    };
    Ok(per_hour * latent / 3.6)
}

fn pool(i: &RowInputs) -> Result<f64, String> {
    let (surface, air) = (i.number("at_surface")?, i.number("in_air")?);
    Ok(i.number("area")? * evaporation_by_humidity(i.number("speed")?, surface, air) / 3600.0)
}

fn room(i: &RowInputs) -> Result<RoomAir, String> {
    Ok(RoomAir::still(i.number("room")?))
}

/// A square metre of surface or of bare wall.
fn tank(top: f64, wall: f64) -> HeatVessel {
    HeatVessel { top, wall, depth: 0.33, wall_resistance: 0.0, cover: BathCover::Open }
}

/// °F, loss of the open surface and of the bare wall, W/m².
const TANK_TABLE: [(f64, f64, f64); 8] = [
    (90.0, 410.0, 158.0),
    (100.0, 726.0, 221.0),
    (110.0, 1041.0, 284.0),
    (120.0, 1483.0, 347.0),
    (130.0, 1940.0, 426.0),
    (140.0, 2587.0, 505.0),
    (150.0, 3281.0, 568.0),
    (160.0, 4133.0, 662.0),
];

/// The integrator of the core on the published losses.
fn tank_table_course(i: &RowInputs) -> Result<f64, String> {
    let open = match i.text("cover")? {
        "open" => true,
        "lid" => false,
        other => return Err(format!("no cover is called {other}")),
    };
    let watts = |celsius: f64| {
        let fahrenheit = 1.8 * celsius + 32.0;
        let next = TANK_TABLE.partition_point(|row| row.0 < fahrenheit).clamp(1, 7);
        let (low, high) = (TANK_TABLE[next - 1], TANK_TABLE[next]);
        let share = (fahrenheit - low.0) / (high.0 - low.0);
        let wall = low.2 + share * (high.2 - low.2);
        let top = if open { low.1 + share * (high.1 - low.1) } else { wall };
        0.0616 * top + 0.286 * wall
    };
    let capacity = 0.020 * 985.0 * 4185.0;
    Ok(cooled(capacity, i.number("start")?, 60.0 * i.number("minutes")?, watts))
}
