//! The figures of an entry, to be shown or corrected.

use bleachfield_core::{
    journal::{Amount, Body, Cook, EndTestOf, Figure, Reading, ReadingOf},
    quantity::{QuantityKind, Unit},
};

use crate::i18n::t;

/// A figure of an entry.
pub struct EntryFigure<'a> {
    /// The part of its locale key after `figure-`.
    pub key: &'static str,
    pub kind: QuantityKind,
    /// The unit in which it is shown and typed.
    pub unit: Unit,
    /// Base units of `kind` in one unit of `figure`.
    pub base: f64,
    pub figure: &'a mut Figure,
}

impl EntryFigure<'_> {
    pub fn name(&self) -> String {
        t(&format!("figure-{}", self.key))
    }
}

/// Kind, unit on screen, and base units of the kind in one unit of the record.
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

/// The figures that have a value, in the order in which to show them.
pub fn figures_mut(body: &mut Body) -> Vec<EntryFigure<'_>> {
    let mut list = FigureList(Vec::new());
    match body {
        Body::BatchStarted(b) => {
            list.add("raw_dry", GRAMS, &mut b.raw_dry_g);
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
            list.add("soda_ash", GRAMS, &mut p.soda_ash_g);
            list.add("water_to_add", MILLILITRES, &mut p.water_to_add_ml);
            list.add("dry_fibre", GRAMS, &mut p.dry_fibre_g);
            list.add("consistency", SHARE, &mut p.consistency);
            list.add("charge", SHARE, &mut p.charge);
            list.add("liquor_strength", G_PER_L, &mut p.liquor_strength_g_per_l);
            list.add("ph_foreseen", PH, &mut p.ph);
        }
        Body::BathStarted(b) => {
            if let Some(amount) = &mut b.product_amount {
                list.amount("product_amount", amount);
            }
            list.add("water_added", MILLILITRES, &mut b.water_added_ml);
            list.add("celsius", CELSIUS, &mut b.celsius);
        }
        Body::Reheated(r) => {
            list.add("from_celsius", CELSIUS, &mut r.from_celsius);
            list.add("to_celsius", CELSIUS, &mut r.to_celsius);
        }
        Body::VesselDescribed(v) => list.add("room_celsius", CELSIUS, &mut v.room_celsius),
        Body::Added(a) => list.amount("amount", &mut a.amount),
        Body::Reading(r) => list.reading(r),
        Body::ColourReading(c) => {
            list.add("lightness", NUMBER, &mut c.lightness);
            list.add("a_star", NUMBER, &mut c.a);
            list.add("b_star", NUMBER, &mut c.b);
            list.add("yellowness", NUMBER, &mut c.yellowness);
            list.add("blue_index", NUMBER, &mut c.blue_index);
        }
        Body::Rinsed(r) => {
            list.add("rinse_water", LITRES, &mut r.water_l);
            list.add("soaked", MINUTES, &mut r.minutes);
            list.add("dryness_after", SHARE, &mut r.dryness_after);
            list.add("ph", PH, &mut r.ph);
            list.add("strip", MG_PER_L, &mut r.strip_mg_per_l);
        }
        Body::Antichlored(a) => {
            list.add("amount", GRAMS, &mut a.grams);
            list.add("soaked", MINUTES, &mut a.minutes);
            list.add("strip", MG_PER_L, &mut a.strip_mg_per_l);
        }
        Body::EndTest(t) => match t.test {
            EndTestOf::ChlorineStrip | EndTestOf::PeroxideStrip => {
                list.add("strip", MG_PER_L, &mut t.figure);
            }
            EndTestOf::LastRinsePh => list.add("ph", PH, &mut t.figure),
            EndTestOf::StarchIodide | EndTestOf::Feel | EndTestOf::Smell => {}
        },
        Body::AcidFinished(a) => {
            list.amount("amount", &mut a.amount);
            list.add("ph_before", PH, &mut a.ph_before);
            list.add("ph_after", PH, &mut a.ph_after);
        }
        Body::ReserveAdded(r) => {
            list.add("calcium_carbonate", GRAMS, &mut r.calcium_carbonate_g);
            list.add("retention", SHARE, &mut r.retention_share);
        }
        Body::Stored(s) => {
            list.add("wet_mass", GRAMS, &mut s.wet_mass_g);
            list.add("dryness", SHARE, &mut s.dryness);
        }
        Body::Sheets(s) => {
            list.add("grammage", NUMBER, &mut s.grammage_g_per_m2);
            list.add("dry_pulp", GRAMS, &mut s.dry_g);
        }
        _ => {}
    }
    list.0
}

struct FigureList<'a>(Vec<EntryFigure<'a>>);

impl<'a> FigureList<'a> {
    /// Adds a figure, or an optional one if there is one.
    fn add(
        &mut self,
        key: &'static str,
        FigureUnit(kind, unit, base): FigureUnit,
        figure: impl Into<Option<&'a mut Figure>>,
    ) {
        self.0.extend(figure.into().map(|figure| EntryFigure { key, kind, unit, base, figure }));
    }

    fn amount(&mut self, key: &'static str, amount: &'a mut Amount) {
        match amount {
            Amount::MassG(figure) => self.add(key, GRAMS, figure),
            Amount::VolumeMl(figure) => self.add(key, MILLILITRES, figure),
        }
    }

    fn cook(&mut self, cook: &'a mut Cook) {
        self.add("alkali_mass", GRAMS, &mut cook.alkali_g);
        self.add("alkali_charge", SHARE, &mut cook.charge_share);
        self.add("cook_liquor", LITRES, &mut cook.liquor_l);
        self.add("celsius", CELSIUS, &mut cook.celsius);
        self.add("cooked_for", HOURS, &mut cook.hours);
        self.add("ph_after_rinse", PH, &mut cook.ph_after_rinse);
    }

    fn reading(&mut self, reading: &'a mut Reading) {
        let unit = match reading.what {
            ReadingOf::Ph | ReadingOf::TapPh => PH,
            ReadingOf::AvailableChlorineMgPerL
            | ReadingOf::PeroxideMgPerL
            | ReadingOf::HardnessMgPerL => MG_PER_L,
            ReadingOf::Celsius => CELSIUS,
            ReadingOf::Other => NUMBER,
            // Described in words instead.
            ReadingOf::StarchIodide => return,
        };
        self.add("reading", unit, &mut reading.figure);
    }
}
