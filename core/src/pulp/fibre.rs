//! Typical properties of plant fibres, to fill in a form until the studio has its own.
//! Not here: the studio's own yields, which `derive::cook_history` collects.
//!
//! Length and lignin of rows marked [`FibreDataSource::Wood`] are from I. M. Wood's
//! table (CSIRO), of [`FibreDataSource::Materials`] from Materials 2022, 15, 4542, length
//! of [`FibreDataSource::Tahir`] from BioResources 2011, 6(4):5260 (as quoted; read). The
//! rest is from memory (Atchison and Hurter's fibre tables, Barrett, Bell) and has a
//! low quality. All of it depends on the part, age and retting of the plant.

use {DataQuality::*, FibreDataSource::*, PlantPart::*};

/// A fibre and its typical properties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fibre {
    /// Stable name for files, and the locale key after `fibre-`.
    pub id: &'static str,
    pub part: PlantPart,
    /// Length of the ultimate fibre, mm.
    pub length_mm: TypicalRange,
    /// Lignin as a share of the raw fibre.
    pub lignin: Option<TypicalRange>,
    /// Cellulose as a share of the raw fibre.
    pub cellulose: Option<TypicalRange>,
    /// Oven-dry pulp over oven-dry raw fibre after a mild cook at the boil.
    pub cook_yield: TypicalRange,
    /// How reliable the row is.
    pub quality: DataQuality,
    /// Source of the length, the column with the best sources.
    pub source: FibreDataSource,
}

/// Lowest and highest usual value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypicalRange {
    pub low: f64,
    pub high: f64,
}

impl TypicalRange {
    /// The arithmetic mean of both ends.
    pub fn middle(self) -> f64 {
        f64::midpoint(self.low, self.high)
    }
}

/// The part of the plant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlantPart {
    Bast,
    Leaf,
    Stem,
    Seed,
    Husk,
    Core,
}

/// How reliable a row is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum DataQuality {
    VeryLow,
    Low,
    Medium,
}

/// Source of a row's length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FibreDataSource {
    Wood,
    Materials,
    Tahir,
    Memory,
}

/// The fibre with this id.
pub fn fibre(id: &str) -> Option<&'static Fibre> {
    FIBRES.iter().find(|fibre| fibre.id == id)
}

/// Every fibre of the table, bast first.
pub const FIBRES: &[Fibre] = &[
    row("kozo", Bast, (6.0, 20.0), (3.0, 8.0), (55.0, 65.0), (45.0, 60.0), (Low, Memory)),
    row("mitsumata", Bast, (3.0, 5.0), (3.0, 6.0), (50.0, 60.0), (40.0, 55.0), (Low, Memory)),
    row("gampi", Bast, (3.0, 5.0), (3.0, 6.0), (50.0, 50.0), (40.0, 55.0), (Low, Memory)),
    row(
        "flax_line",
        Bast,
        (10.0, 50.0),
        (1.0, 4.0),
        (65.0, 85.0),
        (60.0, 80.0),
        (Medium, Materials),
    ),
    row(
        "flax_tow",
        Bast,
        (10.0, 50.0),
        (1.0, 4.0),
        (65.0, 85.0),
        (40.0, 60.0),
        (Medium, Materials),
    ),
    row("hemp_bast", Bast, (5.0, 40.0), (3.0, 12.4), (60.0, 68.0), (50.0, 70.0), (Medium, Wood)),
    row("kenaf_bast", Bast, (2.0, 6.0), (5.9, 9.3), (53.0, 57.0), (50.0, 60.0), (Medium, Tahir)),
    row("abaca", Leaf, (3.5, 6.0), (8.8, 10.5), (56.0, 63.0), (45.0, 60.0), (Medium, Wood)),
    // Cellulose: 71.5 %, and 65.8 % with a tenth of moisture (73 % of dry fibre; two textile
    // handbooks' pages, read); the ends are from memory. Single fibres of 1 to 5 mm occur
    // (read); Wood has means.
    row("sisal", Leaf, (2.9, 3.2), (7.6, 11.0), (66.0, 78.0), (45.0, 60.0), (Medium, Wood)),
    row("phormium", Leaf, (5.0, 6.0), (8.0, 12.0), (45.0, 60.0), (30.0, 50.0), (Low, Memory)),
    row("iris", Leaf, (1.0, 3.0), (8.0, 15.0), (30.0, 40.0), (15.0, 25.0), (VeryLow, Memory)),
    row("daylily", Leaf, (1.0, 3.0), (6.0, 12.0), (30.0, 40.0), (10.0, 25.0), (VeryLow, Memory)),
    row("cattail", Leaf, (0.8, 1.5), (12.0, 20.0), (35.0, 45.0), (20.0, 35.0), (Low, Memory)),
    row("banana", Stem, (1.5, 4.0), (5.0, 13.0), (40.0, 60.0), (25.0, 45.0), (Low, Memory)),
    row("wheat_straw", Stem, (1.1, 1.5), (18.0, 18.0), (43.0, 54.0), (40.0, 50.0), (Medium, Wood)),
    row("bagasse", Stem, (0.3, 3.4), (18.0, 22.0), (48.0, 58.0), (45.0, 52.0), (Medium, Wood)),
    row("bamboo", Stem, (1.5, 4.0), (20.0, 30.0), (40.0, 50.0), (40.0, 50.0), (Medium, Memory)),
    row("esparto", Leaf, (1.1, 1.5), (17.0, 20.0), (45.0, 55.0), (42.0, 48.0), (Medium, Memory)),
    row("corn_husk", Husk, (0.7, 1.5), (5.0, 12.0), (38.0, 45.0), (25.0, 40.0), (Low, Memory)),
    row(
        "cotton_linter",
        Seed,
        (2.0, 6.0),
        (0.0, 1.0),
        (90.0, 97.0),
        (85.0, 95.0),
        (Medium, Memory),
    ),
    Fibre {
        id: "hemp_hurd",
        part: Core,
        length_mm: TypicalRange { low: 0.55, high: 0.55 },
        lignin: None,
        cellulose: None,
        // USDA Bulletin 404: a pressure soda cook, not one at the boil.
        cook_yield: TypicalRange { low: 0.33, high: 0.35 },
        quality: Medium,
        source: Wood,
    },
];

/// A row with lignin, cellulose and yield in percent.
const fn row(
    id: &'static str,
    part: PlantPart,
    length_mm: (f64, f64),
    lignin: (f64, f64),
    cellulose: (f64, f64),
    cook_yield: (f64, f64),
    (quality, source): (DataQuality, FibreDataSource),
) -> Fibre {
    Fibre {
        id,
        part,
        length_mm: TypicalRange { low: length_mm.0, high: length_mm.1 },
        lignin: Some(percent(lignin)),
        cellulose: Some(percent(cellulose)),
        cook_yield: percent(cook_yield),
        quality,
        source,
    }
}

const fn percent(range: (f64, f64)) -> TypicalRange {
    TypicalRange { low: range.0 / 100.0, high: range.1 / 100.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_complete_and_found_by_its_id() {
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
