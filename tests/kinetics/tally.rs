//! Studios together, as a table.

use super::evaluation::{Found, StudioFigures, evaluate};
use super::stop::Stop;
use super::studio::Law;
use std::fmt::Write;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};

/// All studios of one law at one number of batches seen.
#[derive(Clone, Debug)]
pub struct Row {
    pub law: Law,
    pub seen: usize,
    pub found: Found,
    widths: Vec<f64>,
    /// Of each studio.
    pub stops: Vec<Stop>,
}

impl Row {
    pub fn coverage(&self) -> f64 {
        share(self.found.held)
    }

    pub fn later_coverage(&self) -> f64 {
        share(self.found.held_later)
    }

    pub fn near(&self) -> f64 {
        share([self.found.stops_near, self.found.baths])
    }

    pub fn exact(&self) -> f64 {
        share([self.found.stops_exact, self.found.baths])
    }

    pub fn damaged(&self) -> f64 {
        share([self.found.damaged, self.found.baths])
    }

    pub fn median_width(&self) -> f64 {
        let mut widths = self.widths.clone();
        widths.sort_by(f64::total_cmp);
        widths.get(widths.len() / 2).copied().unwrap_or(f64::NAN)
    }
}

fn share([part, all]: [u32; 2]) -> f64 {
    f64::from(part) / f64::from(all)
}

/// Runs studios of both laws on all cores; a row for each law and number of batches seen.
pub fn tally(studios: u64, after: &[usize]) -> Vec<Row> {
    let of_law = |law| rows(law, &figures(studios, law, after), after);
    [Law::Same, Law::Other].into_iter().flat_map(of_law).collect()
}

/// In the order of the studios' numbers, whatever thread was first.
fn figures(studios: u64, law: Law, after: &[usize]) -> Vec<StudioFigures> {
    let next = AtomicU64::new(0);
    let all = Mutex::new(Vec::new());
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed >= studios {
                        break;
                    }
                    let figures = evaluate(1000 + seed, law, after);
                    all.lock().unwrap_or_else(PoisonError::into_inner).push((seed, figures));
                }
            });
        }
    });
    let mut all = all.into_inner().unwrap_or_else(PoisonError::into_inner);
    all.sort_by_key(|(seed, _)| *seed);
    all.into_iter().filter_map(|(_, figures)| figures).collect()
}

fn rows(law: Law, figures: &[StudioFigures], after: &[usize]) -> Vec<Row> {
    let row = |(place, &seen): (usize, &usize)| {
        let mut found = Found::default();
        let mut widths = Vec::new();
        let mut stops = Vec::new();
        for at in figures.iter().filter_map(|studio| studio.get(place)) {
            found.add(&at.found);
            widths.push(at.width);
            stops.push(at.stop.clone());
        }
        Row { law, seen, found, widths, stops }
    };
    after.iter().enumerate().map(row).collect()
}

impl Found {
    fn add(&mut self, other: &Self) {
        self.baths += other.baths;
        for nth in 0..2 {
            self.held[nth] += other.held[nth];
            self.held_later[nth] += other.held_later[nth];
        }
        self.untold += other.untold;
        self.stops_near += other.stops_near;
        self.stops_exact += other.stops_exact;
        self.damaged += other.damaged;
        self.regret += other.regret;
    }
}

/// The table as text.
pub fn table(rows: &[Row]) -> String {
    let mut text = String::from(
        "law    seen  held before  held later  untold  width L*  stop ±10 min  of the minute  off, min  damaged\n",
    );
    for row in rows {
        let law = if row.law == Law::Same { "same" } else { "other" };
        let baths = f64::from(row.found.baths);
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "{law:5} {:5} {:11.1}% {:10.1}% {:6.1}% {:9.1} {:12.1}% {:13.1}% {:9.1} {:7.1}%",
            row.seen,
            100.0 * row.coverage(),
            100.0 * row.later_coverage(),
            100.0 * f64::from(row.found.untold) / baths,
            row.median_width(),
            100.0 * row.near(),
            100.0 * row.exact(),
            row.found.regret / baths,
            100.0 * row.damaged(),
        );
    }
    text
}
