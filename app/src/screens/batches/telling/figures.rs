//! The figures that an entry holds: for telling them, and for correcting them.

use bleachfield_core::{
    journal::{Amount, Body, Cook, EndTestOf, Figure, Reading, ReadingOf},
    quantity::{QuantityKind, Unit},
};

/// A figure within an entry.
pub struct EntryFigure<'a> {
    /// Locale key of its name, under `figure`.
    pub key: &'static str,
    pub kind: QuantityKind,
    /// The unit that it is told and asked for in.
    pub unit: Unit,
    /// Base units of `kind` in one of the entry's own unit.
    pub base: f64,
    pub figure: &'a mut Figure,
}

/// The unit of a figure as an entry keeps it.
#[derive(Clone, Copy)]
struct FigureUnit(QuantityKind, Unit, f64);

const GRAMS: FigureUnit = FigureUnit(QuantityKind::Mass, Unit::Gram, 1.0);
const MILLILITRES: FigureUnit = FigureUnit(QuantityKind::Volume, Unit::Millilitre, 1.0);
const LITRES: FigureUnit = FigureUnit(QuantityKind::Volume, Unit::Litre, 1000.0);
const SHARE: FigureUnit = FigureUnit(QuantityKind::Share, Unit::Percent, 1.0);
const CELSIUS: FigureUnit = FigureUnit(QuantityKind::Temperature, Unit::Celsius, 1.0);
const MINUTES: FigureUnit = FigureUnit(QuantityKind::Duration, Unit::Minute, 1.0);
const HOURS: FigureUnit = FigureUnit(QuantityKind::Duration, Unit::Hour, 60.0);
const PH: FigureUnit = FigureUnit(QuantityKind::Ph, Unit::Ph, 1.0);
const MG_PER_L: FigureUnit =
    FigureUnit(QuantityKind::Concentration, Unit::MilligramsPerLitre, 1e-3);
const G_PER_L: FigureUnit = FigureUnit(QuantityKind::Concentration, Unit::GramsPerLitre, 1.0);
const NUMBER: FigureUnit = FigureUnit(QuantityKind::Number, Unit::One, 1.0);

/// Every figure of an entry that has a value, in the order in which to tell them.
pub fn figures(body: &mut Body) -> Vec<EntryFigure<'_>> {
    let mut list = FigureList(Vec::new());
    match body {
        Body::BatchStarted(b) => {
            list.maybe("raw_dry", GRAMS, &mut b.raw_dry_g);
            if let Some(cook) = &mut b.cook {
                list.cook(cook);
            }
        }
        Body::Cooked(cook) => list.cook(cook),
        Body::Weighed(w) => {
            list.add("wet_mass", GRAMS, &mut w.wet_mass_g);
            list.add("dryness", SHARE, &mut w.dryness);
        }
        Body::Planned(p) => {
            list.amount("product_amount", &mut p.product_amount);
            list.add("water_to_add", MILLILITRES, &mut p.water_to_add_ml);
            list.add("dry_fibre", GRAMS, &mut p.dry_fibre_g);
            list.add("consistency", SHARE, &mut p.consistency);
            list.add("charge", SHARE, &mut p.charge);
            list.add("liquor_strength", G_PER_L, &mut p.liquor_strength_g_per_l);
            list.maybe("ph_foreseen", PH, &mut p.ph);
        }
        Body::BathStarted(b) => {
            if let Some(amount) = &mut b.product_amount {
                list.amount("product_amount", amount);
            }
            list.maybe("water_added", MILLILITRES, &mut b.water_added_ml);
            list.maybe("celsius", CELSIUS, &mut b.celsius);
        }
        Body::Reheated(r) => {
            list.maybe("from_celsius", CELSIUS, &mut r.from_celsius);
            list.maybe("to_celsius", CELSIUS, &mut r.to_celsius);
        }
        Body::Added(a) => list.amount("amount", &mut a.amount),
        Body::Reading(r) => list.reading(r),
        Body::ColourReading(c) => {
            list.add("lightness", NUMBER, &mut c.lightness);
            list.add("a_star", NUMBER, &mut c.a);
            list.add("b_star", NUMBER, &mut c.b);
            list.maybe("yellowness", NUMBER, &mut c.yellowness);
            list.maybe("blue_index", NUMBER, &mut c.blue_index);
        }
        Body::Rinsed(r) => {
            list.add("rinse_water", LITRES, &mut r.water_l);
            list.maybe("soaked", MINUTES, &mut r.minutes);
            list.maybe("dryness_after", SHARE, &mut r.dryness_after);
            list.maybe("ph", PH, &mut r.ph);
            list.maybe("strip", MG_PER_L, &mut r.strip_mg_per_l);
        }
        Body::Antichlored(a) => {
            list.add("amount", GRAMS, &mut a.grams);
            list.maybe("soaked", MINUTES, &mut a.minutes);
            list.maybe("strip", MG_PER_L, &mut a.strip_mg_per_l);
        }
        Body::EndTest(t) => match t.test {
            EndTestOf::ChlorineStrip | EndTestOf::PeroxideStrip => {
                list.maybe("strip", MG_PER_L, &mut t.figure);
            }
            EndTestOf::LastRinsePh => list.maybe("ph", PH, &mut t.figure),
            EndTestOf::StarchIodide | EndTestOf::Feel | EndTestOf::Smell => {}
        },
        Body::AcidFinished(a) => {
            list.amount("amount", &mut a.amount);
            list.maybe("ph_before", PH, &mut a.ph_before);
            list.maybe("ph_after", PH, &mut a.ph_after);
        }
        Body::ReserveAdded(r) => {
            list.add("calcium_carbonate", GRAMS, &mut r.calcium_carbonate_g);
            list.maybe("retention", SHARE, &mut r.retention_share);
        }
        Body::Stored(s) => {
            list.add("wet_mass", GRAMS, &mut s.wet_mass_g);
            list.add("dryness", SHARE, &mut s.dryness);
        }
        Body::Sheets(s) => {
            list.maybe("grammage", NUMBER, &mut s.grammage_g_per_m2);
            list.maybe("dry_pulp", GRAMS, &mut s.dry_g);
        }
        _ => {}
    }
    list.0
}

struct FigureList<'a>(Vec<EntryFigure<'a>>);

impl<'a> FigureList<'a> {
    fn add(
        &mut self,
        key: &'static str,
        FigureUnit(kind, unit, base): FigureUnit,
        figure: &'a mut Figure,
    ) {
        self.0.push(EntryFigure { key, kind, unit, base, figure });
    }

    fn maybe(&mut self, key: &'static str, of: FigureUnit, figure: &'a mut Option<Figure>) {
        if let Some(figure) = figure {
            self.add(key, of, figure);
        }
    }

    fn amount(&mut self, key: &'static str, amount: &'a mut Amount) {
        match amount {
            Amount::MassG(figure) => self.add(key, GRAMS, figure),
            Amount::VolumeMl(figure) => self.add(key, MILLILITRES, figure),
        }
    }

    fn cook(&mut self, cook: &'a mut Cook) {
        self.maybe("alkali_mass", GRAMS, &mut cook.alkali_g);
        self.maybe("alkali_charge", SHARE, &mut cook.charge_share);
        self.maybe("cook_liquor", LITRES, &mut cook.liquor_l);
        self.maybe("celsius", CELSIUS, &mut cook.celsius);
        self.maybe("cooked_for", HOURS, &mut cook.hours);
        self.maybe("ph_after_rinse", PH, &mut cook.ph_after_rinse);
    }

    fn reading(&mut self, reading: &'a mut Reading) {
        let of = match reading.what {
            ReadingOf::Ph | ReadingOf::TapPh => PH,
            ReadingOf::AvailableChlorineMgPerL
            | ReadingOf::PeroxideMgPerL
            | ReadingOf::HardnessMgPerL => MG_PER_L,
            ReadingOf::Celsius => CELSIUS,
            ReadingOf::Other => NUMBER,
            // Told in words: it turned, or it did not.
            ReadingOf::StarchIodide => return,
        };
        self.maybe("reading", of, &mut reading.figure);
    }
}
