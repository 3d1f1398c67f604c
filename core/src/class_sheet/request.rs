//! What a teacher says of a class, and its limits. No calculation.

use super::ClassError;
use crate::{
    bath::{BathVessel, PlanRequest},
    derive::Station,
    journal::ProductUsed,
    message::Field,
    pulp::cook::CookAlkali,
    quantity::{Estimate, Mass, OutOfRange, QuantityKind, Ratio, in_grams},
};

pub const CLASS_PEOPLE: Field = Field("class_people");
pub const CLASS_TABLE: Field = Field("class_table");
pub const CLASS_DRY: Field = Field("class_dry");
pub const CLASS_START: Field = Field("class_start");
pub const CLASS_MINUTES: Field = Field("class_minutes");
pub const CLASS_PLACES: Field = Field("class_places");
pub const CLASS_RINSES: Field = Field("class_rinses");

/// More do not fit on one page, nor around one teacher (own estimate, no source).
pub const MOST_PEOPLE: u32 = 48;
pub const MOST_TABLES: usize = 12;

/// Rinses after a cook and after a bath until readings say otherwise (common practice, no
/// source).
pub const USUAL_COOK_RINSES: u32 = 3;
pub const USUAL_WASH_RINSES: u32 = 5;

/// The stations that a class may have, in their order.
pub const STATIONS: [Station; 7] = [
    Station::Cook,
    Station::Rinse,
    Station::Plan,
    Station::Bath,
    Station::Wash,
    Station::Prove,
    Station::Sheets,
];

/// Who shares a pot, at the cook, the bath and the wash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, strum::IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum PotFor {
    Person,
    Table,
    /// One for all, which the teacher runs.
    Class,
}

/// A class.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassRequest {
    pub people: u32,
    /// Most people at one table.
    pub per_table: u32,
    pub pot_for: PotFor,
    /// Oven-dry fibre for each person.
    pub dry_each: Mass,
    /// Oven-dry mass over wet mass of the pulp that is weighed out.
    pub dryness: Estimate<Ratio>,
    /// The vessel of a cook, of a bath, and of a rinse. A larger amount is divided.
    pub vessel: BathVessel,
    /// The bath; `None` where no station needs one.
    pub bath: Option<ClassBath>,
    /// Pulp from raw fibre.
    pub cook_yield: Estimate<Ratio>,
    pub cook_alkali: CookAlkali,
    /// Pure alkali on raw fibre.
    pub cook_charge: Estimate<Ratio>,
    pub cook_celsius: f64,
    pub cook_minutes: f64,
    pub cook_rinses: u32,
    pub wash_rinses: u32,
    /// Sheets of each person; 0 if that is not planned.
    pub sheets_each: u64,
    /// The stations, in the order of [`STATIONS`].
    pub stations: Vec<StationSetting>,
    /// Minutes after midnight.
    pub start: f64,
    /// Wet pulp that is there.
    pub wet_in_stock: Option<Mass>,
}

/// The bath of a class: of any amount of pulp, which is replaced by that of each pot.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassBath {
    pub request: PlanRequest,
    pub product: ProductUsed,
}

/// A station of a class.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StationSetting {
    pub station: Station,
    /// Time of one table; `None` for what is usual, which for a bath is its own length and the
    /// time to make it up.
    pub minutes: Option<f64>,
    /// Tables that can work there at the same time.
    pub places: u32,
}

impl ClassRequest {
    /// People at each table: as even as they can be, the larger tables first.
    pub fn tables(&self) -> Vec<u32> {
        let count = self.people.div_ceil(self.per_table.max(1)).max(1);
        let (least, more) = (self.people / count, self.people % count);
        (0..count).map(|table| least + u32::from(table < more)).collect()
    }

    pub fn has(&self, station: Station) -> bool {
        self.stations.iter().any(|setting| setting.station == station)
    }

    /// Whether the teacher does a station for all at once.
    pub fn is_together(&self, station: Station) -> bool {
        self.pot_for == PotFor::Class && station != Station::Sheets
    }

    pub(super) fn check(&self) -> Result<(), ClassError> {
        let count = QuantityKind::Count;
        let most = f64::from(MOST_PEOPLE);
        OutOfRange::check(CLASS_PEOPLE, count, self.people.into(), 1.0, most)?;
        OutOfRange::check(CLASS_TABLE, count, self.per_table.into(), 1.0, most)?;
        if self.tables().len() > MOST_TABLES {
            // So many at a table that the tables are few enough.
            let least = f64::from(self.people.div_ceil(MOST_TABLES as u32));
            OutOfRange::check(CLASS_TABLE, count, self.per_table.into(), least, most)?;
        }
        OutOfRange::check(CLASS_DRY, QuantityKind::Mass, in_grams(self.dry_each), 1.0, 2000.0)?;
        OutOfRange::check(CLASS_START, QuantityKind::Duration, self.start, 0.0, 1439.0)?;
        for rinses in [self.cook_rinses, self.wash_rinses] {
            OutOfRange::check(CLASS_RINSES, count, rinses.into(), 1.0, 24.0)?;
        }
        if self.stations.is_empty() {
            return Err(ClassError::NoStation);
        }
        for setting in &self.stations {
            OutOfRange::check(CLASS_PLACES, count, setting.places.into(), 1.0, most)?;
            if let Some(minutes) = setting.minutes {
                OutOfRange::check(CLASS_MINUTES, QuantityKind::Duration, minutes, 1.0, 1440.0)?;
            }
        }
        let needs_bath = [Station::Bath, Station::Wash, Station::Prove];
        if self.bath.is_none() && needs_bath.into_iter().any(|station| self.has(station)) {
            return Err(ClassError::NoBath);
        }
        Ok(())
    }
}
