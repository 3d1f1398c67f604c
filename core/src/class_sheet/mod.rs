//! The sheet for a workshop: amounts for each person, each table and all, times that do not
//! collide, what each station needs, and the cautions where they belong. Nothing is recorded.
//! Not here: the plan of one bath, which is `bath::plan`, and the places of the job, which are
//! `derive::Station`.

mod cautions;
mod error;
mod portion;
mod pots;
mod request;
mod schedule;
#[cfg(test)]
mod tests;

pub use error::ClassError;
pub use portion::{ClassItem, ClassShare, Portion};
pub use pots::{BathPots, TableBath};
pub use request::{
    CLASS_DRY, CLASS_MINUTES, CLASS_PEOPLE, CLASS_PLACES, CLASS_RINSES, CLASS_START, CLASS_TABLE,
    ClassBath, ClassRequest, MOST_PEOPLE, MOST_TABLES, PotFor, STATIONS, StationSetting,
    USUAL_COOK_RINSES, USUAL_WASH_RINSES,
};
pub use schedule::{ClassSchedule, Pace, ScheduledStation};

use self::{portion::portions, pots::Pots, schedule::schedule};
use crate::{
    caution::Caution,
    derive::Station,
    journal::PlanRecord,
    message::{Message, Value},
    pulp::cook::CookPlan,
    quantity::{Mass, grams, in_grams, in_share},
};

/// The sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassSheet {
    /// People at each table, the larger tables first.
    pub tables: Vec<u32>,
    /// The different ones of `tables`, the larger first: one or two.
    pub table_sizes: Vec<u32>,
    pub stations: Vec<ClassStation>,
    pub schedule: ClassSchedule,
    /// Oven-dry fibre of all.
    pub dry_fibre: Mass,
    /// Wet pulp of all.
    pub wet_pulp: Mass,
    /// The baths, where there is one.
    pub bath: Option<BathPots>,
    /// Wet pulp that is missing in stock.
    pub short: Option<Mass>,
    /// That labels come first: once for the whole sheet.
    pub label_first: Option<Caution>,
}

/// One station.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassStation {
    pub station: Station,
    pub portions: Vec<Portion>,
    pub remarks: Vec<Message>,
    /// Of what is done here, the gravest first; none of them is on another station too.
    pub cautions: Vec<Caution>,
}

/// The sheet of a class.
///
/// # Errors
/// [`ClassError`]: a value outside its limits, a bath, cook or wash that is refused, or a day
/// that is too short.
pub fn class_sheet(request: &ClassRequest) -> Result<ClassSheet, ClassError> {
    request.check()?;
    let tables = request.tables();
    let mut table_sizes = tables.clone();
    table_sizes.dedup();
    let pots = Pots::of(request, &table_sizes)?;
    let schedule = schedule(request, &pots, tables.len())?;
    let mut cautions = cautions::by_station(request, &pots);
    let stations = request.stations.iter().map(|setting| {
        let station = setting.station;
        ClassStation {
            station,
            portions: portions(request, &pots, station, &tables),
            remarks: remarks(request, &pots, station),
            cautions: cautions.take(station),
        }
    });
    let stations = stations.collect();
    let wet_pulp = pots.wet_pulp(&tables);
    let dryness = in_share(request.dryness.value);
    let short = request.wet_in_stock.map(|stock| in_grams(wet_pulp) - in_grams(stock));
    Ok(ClassSheet {
        table_sizes,
        stations,
        schedule,
        dry_fibre: grams(in_grams(wet_pulp) * dryness),
        wet_pulp,
        bath: pots.bath,
        short: short.filter(|short| *short > 0.0).map(grams),
        label_first: cautions.label_first,
        tables,
    })
}

impl ClassSheet {
    /// The bath of the whole class as one plan, for a record; `None` without a bath.
    ///
    /// # Errors
    /// A refusal of the plan of all the pulp.
    pub fn plan_of_all(&self, request: &ClassRequest) -> Result<Option<PlanRecord>, ClassError> {
        let Some(bath) = &request.bath else { return Ok(None) };
        Ok(Some(TableBath::of(request, bath, request.people)?.record))
    }
}

fn remarks(request: &ClassRequest, pots: &Pots, station: Station) -> Vec<Message> {
    match station {
        Station::Cook => {
            let cook = |plan: &CookPlan| {
                Message::new("class-cook_values")
                    .with("celsius", Value::Celsius(request.cook_celsius))
                    .with("minutes", Value::Minutes(request.cook_minutes))
                    .with("charge", Value::Share(in_share(request.cook_charge.value)))
                    .with("strength", Value::Concentration(plan.strength))
            };
            pots.cook.first().map(|(_, plan)| cook(plan)).into_iter().collect()
        }
        Station::Rinse => {
            vec![
                Message::new("class-rinse_values")
                    .with("rinses", Value::Count(request.cook_rinses.into())),
            ]
        }
        Station::Wash => {
            let rinses = Value::Count(request.wash_rinses.into());
            let mut all = vec![Message::new("class-wash_values").with("rinses", rinses)];
            all.extend(pots.rinses_of_all_bleach.map(|most| {
                Message::new("class-wash_most").with("rinses", Value::Count(most.into()))
            }));
            all
        }
        _ => Vec::new(),
    }
}
