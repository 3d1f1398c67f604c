//! Ways to a target colour: one bath, two mild ones with a wash between, a peroxide after a
//! hypochlorite; or none. Each with the odds of reaching the colour, and what it costs in fibre,
//! time and water. Only baths that the planner accepts and that raise no danger.
//!
//! * `request`: what is known; `bath`: one bath of a way, planned; `stage`: its course for one
//!   draw, after the baths before it; `search`: all ways over all draws; `option`: the best of
//!   each kind; `water`: rinses; `advice`: which to take, or none.

mod advice;
mod bath;
mod option;
mod request;
mod search;
mod stage;
#[cfg(test)]
mod tests;
mod water;

pub use advice::{WayAdvice, way_advice};
pub use bath::{BathOfWay, PlannedBath};
pub use option::{WayKind, WayOption};
pub use request::WayRequest;
pub use search::{WaySearch, WaySearchState};
