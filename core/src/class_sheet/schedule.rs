//! Times of each table at each station, so that no more tables are at a station than it has
//! places, and none waits for one.
//!
//! Every table goes through the stations without a pause, and each begins the same time after
//! the one before it. A station where a table takes `d` minutes holds `ceil(d / gap)` tables at
//! once, so a gap of `d / places` at least keeps to its places (an identity of flow lines: the
//! slowest station sets the pace). What the teacher does for all at once begins when the last
//! table has come, and the tables go on from its end in the same order.

use super::{ClassError, ClassRequest, StationSetting, pots::Pots};
use crate::{derive::Station, pulp::wash::RinseTiming};

/// The times of a class, minutes after midnight.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassSchedule {
    pub stations: Vec<ScheduledStation>,
    /// From one table to the next, minutes; 0 where all begin together.
    pub gap: f64,
    pub ends: f64,
    /// The station that sets the gap.
    pub pace: Option<Pace>,
}

/// When each table begins at a station.
#[derive(Clone, Debug, PartialEq)]
pub struct ScheduledStation {
    pub station: Station,
    /// In the order of the tables.
    pub begins: Vec<f64>,
    pub minutes: f64,
    /// The teacher does it for all at once.
    pub together: bool,
}

/// The station with the least places for its time, and what one more would change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    pub station: Station,
    pub places: u32,
    /// When the class would end with one more place there.
    pub ends_with_one_more: f64,
}

/// Times are whole steps of so many minutes.
const STEP: f64 = 5.0;

/// Time to make up a bath besides its own length, and of stations that have no length of their
/// own; minutes (common practice, no source).
const MAKE_UP: f64 = 15.0;
const HEAT_UP: f64 = 30.0;
const PLAN: f64 = 15.0;
const PROVE: f64 = 15.0;
const SHEETS: f64 = 60.0;

pub(super) fn schedule(
    request: &ClassRequest,
    pots: &Pots,
    tables: usize,
) -> Result<ClassSchedule, ClassError> {
    let stations: Vec<(StationSetting, f64)> = request
        .stations
        .iter()
        .map(|setting| Ok((*setting, minutes(request, pots, setting)?)))
        .collect::<Result<_, ClassError>>()?;
    let lay = |stations: &[(StationSetting, f64)]| lay_out(request, stations, tables);
    let mut made = lay(&stations);
    if made.ends > MIDNIGHT {
        return Err(ClassError::PastMidnight { minutes: made.ends - MIDNIGHT });
    }
    let slowest = slowest(request, &stations, tables);
    made.pace = slowest.map(|nth| {
        let mut more = stations.clone();
        more[nth].0.places += 1;
        let StationSetting { station, places, .. } = stations[nth].0;
        Pace { station, places, ends_with_one_more: lay(&more).ends }
    });
    Ok(made)
}

const MIDNIGHT: f64 = 24.0 * 60.0;

/// The time of one table at a station, in whole steps.
fn minutes(
    request: &ClassRequest,
    pots: &Pots,
    setting: &StationSetting,
) -> Result<f64, ClassError> {
    let rinses = |count| RinseTiming::default().minutes(count, pots.largest_rinse());
    let bath = pots.bath.as_ref().map_or(0.0, |bath| bath.minutes());
    let usual = match setting.station {
        Station::Cook => request.cook_minutes + HEAT_UP,
        Station::Rinse => rinses(request.cook_rinses),
        Station::Plan => PLAN,
        Station::Bath => bath + MAKE_UP,
        Station::Wash => rinses(request.wash_rinses),
        Station::Prove => PROVE,
        Station::Sheets => SHEETS,
        Station::Store => 0.0,
    };
    let least = match setting.station {
        Station::Cook => request.cook_minutes,
        Station::Bath => bath,
        _ => 0.0,
    };
    match setting.minutes {
        Some(given) if given < least => {
            Err(ClassError::TooShort { station: setting.station, given, least })
        }
        given => Ok((given.unwrap_or(usual) / STEP - 1e-9).ceil() * STEP),
    }
}

/// The gap that a station needs.
fn gap_of(setting: &StationSetting, minutes: f64, tables: usize) -> f64 {
    if setting.places as usize >= tables {
        return 0.0;
    }
    (minutes / f64::from(setting.places) / STEP - 1e-9).ceil() * STEP
}

/// The place of the station with the largest gap.
fn slowest(
    request: &ClassRequest,
    stations: &[(StationSetting, f64)],
    tables: usize,
) -> Option<usize> {
    let gaps = stations.iter().enumerate().filter_map(|(nth, (setting, minutes))| {
        let gap = gap_of(setting, *minutes, tables);
        (gap > 0.0 && !request.is_together(setting.station)).then_some((nth, gap))
    });
    gaps.max_by(|one, other| one.1.total_cmp(&other.1)).map(|(nth, _)| nth)
}

fn lay_out(
    request: &ClassRequest,
    stations: &[(StationSetting, f64)],
    tables: usize,
) -> ClassSchedule {
    let gap = slowest(request, stations, tables)
        .map_or(0.0, |nth| gap_of(&stations[nth].0, stations[nth].1, tables));
    let in_turn = |start: f64| (0..tables).map(|table| start + gap * table as f64).collect();
    let mut all = Vec::new();
    // When each table is free.
    let mut free: Vec<f64> = vec![request.start; tables];
    let mut before_together = true;
    for (setting, minutes) in stations {
        let together = request.is_together(setting.station);
        let last = free.iter().copied().fold(request.start, f64::max);
        let begins: Vec<f64> = if together {
            vec![last; tables]
        } else if before_together {
            in_turn(last)
        } else {
            free.clone()
        };
        before_together = together;
        free = begins.iter().map(|begin| begin + minutes).collect();
        all.push(ScheduledStation {
            station: setting.station,
            begins,
            minutes: *minutes,
            together,
        });
    }
    let ends = free.iter().copied().fold(request.start, f64::max);
    ClassSchedule { stations: all, gap, ends, pace: None }
}
