//! The calibration of `calibration_report` on few studios, so that it cannot rot: no figure of it is
//! one of the table, and its limits are as wide as so few baths need.

mod evaluation;
mod other_law;
mod random;
mod stop;
mod studio;
mod tally;

use tally::{Row, table, tally};

const STUDIOS: u64 = 4;

#[test]
fn learning_narrows_bands_that_hold_and_stops_are_in_time() {
    let rows = tally(STUDIOS, &[0, 5]);
    let stops = rows.iter().flat_map(|row| &row.stops).map(|stop| format!("{stop}\n"));
    let seen = format!("{}{}", table(&rows), stops.collect::<String>());
    for pair in rows.chunks(2) {
        let [first, sixth] = pair else { panic!("two rows of each law") };
        assert_eq!(first.found.baths, STUDIOS as u32, "{seen}");
        assert!(sixth.median_width() < 0.7 * first.median_width(), "{seen}");
    }
    let mean = |of: fn(&Row) -> f64| rows.iter().map(of).sum::<f64>() / rows.len() as f64;
    let coverage = mean(Row::coverage);
    assert!((0.65..=0.95).contains(&coverage), "{coverage}\n{seen}");
    assert!(mean(Row::later_coverage) > 0.6, "{seen}");
    assert!(mean(Row::near) >= 0.6, "{seen}");
    assert!(mean(Row::damaged) <= 0.13, "{seen}");
}
