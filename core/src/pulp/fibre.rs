//! What is known of the plants, to fill in a form before the studio has
//! figures of its own.
//!
//! Length and lignin rows marked [`Source::Wood`] are from I. M. Wood's table
//! (CSIRO); [`Source::Materials`] is Materials 2022, 15, 4542. The rest is from
//! memory (Atchison and Hurter's fibre tables, Barrett, Bell) and carries a low
//! grade. All of it depends on the part, age and retting of the plant: it
//! pre-fills, and the studio's own yield replaces it.

/// A fibre and what to expect of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fibre {
    /// Stable name for files, and the locale key after `fibre-`.
    pub id: &'static str,
    pub part: Part,
    /// Length of the ultimate fibre, mm.
    pub length_mm: Range,
    /// Lignin as a share of the raw fibre.
    pub lignin: Option<Range>,
    /// Cellulose as a share of the raw fibre.
    pub cellulose: Option<Range>,
    /// Oven-dry pulp over oven-dry raw fibre after a mild cook at the boil.
    pub cook_yield: Range,
    /// How far to trust the row.
    pub grade: Grade,
    /// Where the length comes from, the best-sourced column of a row.
    pub source: Source,
}

/// Least and greatest usual value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    pub low: f64,
    pub high: f64,
}

impl Range {
    pub fn middle(self) -> f64 {
        (self.low + self.high) / 2.0
    }
}

/// The part of the plant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    Bast,
    Leaf,
    Stem,
    Seed,
    Husk,
    Core,
}

/// How far a row can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    VeryLow,
    Low,
    Medium,
}

/// Where a row's length comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    Wood,
    Materials,
    Memory,
}

/// The fibre with this id.
pub fn fibre(id: &str) -> Option<&'static Fibre> {
    FIBRES.iter().find(|fibre| fibre.id == id)
}

/// Every fibre known here, bast first.
pub const FIBRES: &[Fibre] = &[
    row("kozo", Part::Bast, (6.0, 20.0), (3.0, 8.0), (55.0, 65.0), (45.0, 60.0), Grade::Low),
    row("mitsumata", Part::Bast, (3.0, 5.0), (3.0, 6.0), (50.0, 60.0), (40.0, 55.0), Grade::Low),
    row("gampi", Part::Bast, (3.0, 5.0), (3.0, 6.0), (50.0, 50.0), (40.0, 55.0), Grade::Low),
    row(
        "flax_line",
        Part::Bast,
        (10.0, 50.0),
        (1.0, 4.0),
        (65.0, 85.0),
        (60.0, 80.0),
        Grade::Medium,
    )
    .from(Source::Materials),
    row(
        "flax_tow",
        Part::Bast,
        (10.0, 50.0),
        (1.0, 4.0),
        (65.0, 85.0),
        (40.0, 60.0),
        Grade::Medium,
    )
    .from(Source::Materials),
    row(
        "hemp_bast",
        Part::Bast,
        (5.0, 40.0),
        (3.0, 12.4),
        (60.0, 68.0),
        (50.0, 70.0),
        Grade::Medium,
    )
    .from(Source::Wood),
    row(
        "kenaf_bast",
        Part::Bast,
        (3.0, 4.0),
        (5.9, 9.3),
        (53.0, 57.0),
        (50.0, 60.0),
        Grade::Medium,
    )
    .from(Source::Wood),
    row("abaca", Part::Leaf, (3.5, 6.0), (8.8, 10.5), (56.0, 63.0), (45.0, 60.0), Grade::Medium)
        .from(Source::Wood),
    row("sisal", Part::Leaf, (2.9, 3.2), (7.6, 11.0), (72.0, 72.0), (45.0, 60.0), Grade::Medium)
        .from(Source::Wood),
    row("phormium", Part::Leaf, (5.0, 6.0), (8.0, 12.0), (45.0, 60.0), (30.0, 50.0), Grade::Low),
    row("iris", Part::Leaf, (1.0, 3.0), (8.0, 15.0), (30.0, 40.0), (15.0, 25.0), Grade::VeryLow),
    row("daylily", Part::Leaf, (1.0, 3.0), (6.0, 12.0), (30.0, 40.0), (10.0, 25.0), Grade::VeryLow),
    row("cattail", Part::Leaf, (0.8, 1.5), (12.0, 20.0), (35.0, 45.0), (20.0, 35.0), Grade::Low),
    row("banana", Part::Stem, (1.5, 4.0), (5.0, 13.0), (40.0, 60.0), (25.0, 45.0), Grade::Low),
    row(
        "wheat_straw",
        Part::Stem,
        (1.1, 1.5),
        (18.0, 18.0),
        (43.0, 54.0),
        (40.0, 50.0),
        Grade::Medium,
    )
    .from(Source::Wood),
    row("bagasse", Part::Stem, (0.3, 3.4), (18.0, 22.0), (48.0, 58.0), (45.0, 52.0), Grade::Medium)
        .from(Source::Wood),
    row("bamboo", Part::Stem, (1.5, 4.0), (20.0, 30.0), (40.0, 50.0), (40.0, 50.0), Grade::Medium),
    row("esparto", Part::Leaf, (1.1, 1.5), (17.0, 20.0), (45.0, 55.0), (42.0, 48.0), Grade::Medium),
    row("corn_husk", Part::Husk, (0.7, 1.5), (5.0, 12.0), (38.0, 45.0), (25.0, 40.0), Grade::Low),
    row(
        "cotton_linter",
        Part::Seed,
        (2.0, 6.0),
        (0.0, 1.0),
        (90.0, 97.0),
        (85.0, 95.0),
        Grade::Medium,
    ),
    Fibre {
        id: "hemp_hurd",
        part: Part::Core,
        length_mm: Range { low: 0.55, high: 0.55 },
        lignin: None,
        cellulose: None,
        // USDA Bulletin 404: a pressure soda cook, not one at the boil.
        cook_yield: Range { low: 0.33, high: 0.35 },
        grade: Grade::Medium,
        source: Source::Wood,
    },
];

const fn row(
    id: &'static str,
    part: Part,
    length_mm: (f64, f64),
    lignin: (f64, f64),
    cellulose: (f64, f64),
    cook_yield: (f64, f64),
    grade: Grade,
) -> Fibre {
    Fibre {
        id,
        part,
        length_mm: Range { low: length_mm.0, high: length_mm.1 },
        lignin: Some(percent(lignin)),
        cellulose: Some(percent(cellulose)),
        cook_yield: percent(cook_yield),
        grade,
        source: Source::Memory,
    }
}

const fn percent(range: (f64, f64)) -> Range {
    Range { low: range.0 / 100.0, high: range.1 / 100.0 }
}

impl Fibre {
    const fn from(self, source: Source) -> Self {
        Self { source, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_whole_and_found_by_its_id() {
        for row in FIBRES {
            assert_eq!(fibre(row.id), Some(row));
            let shares = [row.lignin, row.cellulose, Some(row.cook_yield)];
            for range in shares.into_iter().flatten() {
                assert!(range.low <= range.high && (0.0..=1.0).contains(&range.high), "{row:?}");
            }
            assert!(row.length_mm.low > 0.0 && row.length_mm.low <= row.length_mm.high);
            assert!(row.cook_yield.low > 0.0);
        }
        assert_eq!(fibre("cattail").map(|f| f.cook_yield.middle()), Some(0.275));
        assert_eq!(fibre("moss"), None);
    }
}
