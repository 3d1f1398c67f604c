//! The answers from which a class sheet is made.

use bleachfield_core::{
    bath::{BathVessel, CAPACITY, VesselKind},
    class_sheet::{
        CLASS_DRY, CLASS_MINUTES, CLASS_PEOPLE, CLASS_PLACES, CLASS_RINSES, CLASS_TABLE, ClassBath,
        ClassError, ClassRequest, ClassSheet, MOST_PEOPLE, PotFor, STATIONS, StationSetting,
        USUAL_COOK_RINSES, USUAL_WASH_RINSES, class_sheet,
    },
    derive::{KeptPlan, Station, own_cooks, table_yield},
    journal::{Batch, OwnFigureOf},
    pulp::{
        ASSUMED_DRYNESS, DRYNESS, WetPulp,
        cook::{
            ASSUMED_YIELD, CookAlkali, USUAL_CELSIUS, USUAL_CHARGE, USUAL_MINUTES, expected_yield,
        },
        sheet::{
            SheetFormat, SheetRequest, USUAL_GRAMMAGE, USUAL_MOISTURE, USUAL_RETENTION,
            USUAL_SHRINKAGE, assumed_retention,
        },
        wash::{own_dryness, recorded_dryness},
    },
    quantity::{
        Basis, Estimate, Mass, QuantityKind, Ratio, Unit, grams, in_grams, in_share, millilitres,
        share, weighed,
    },
};
use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    components::{NumberInput, RadioGroup, RecordedInput, keep_text},
    i18n::{t, t_with},
    platform::{clock, draft::DraftScope},
    screens::{calculator::inputs::MissingLabel, plan::PlanForm},
    state::app_state,
};

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct ClassForm {
    pub batch: Option<Ulid>,
    name: StoredValue<String>,
    pub people: NumberInput,
    pub per_table: NumberInput,
    pub dry_each: NumberInput,
    pub pot: NumberInput,
    pot_for: RwSignal<PotFor>,
    pub dryness: RecordedInput<Estimate<Ratio>>,
    pub wash_rinses: NumberInput,
    /// "09:30".
    pub start: RwSignal<String>,
    pub stations: StoredValue<[StationForm; STATIONS.len()]>,
    pub format: RwSignal<SheetFormatChoice>,
    /// Bleach and bath.
    pub plan: PlanForm,
    cook_yield: Estimate<Ratio>,
    wet_in_stock: Option<Mass>,
}

/// One station of the list. Copies share their signals.
#[derive(Clone, Copy)]
pub struct StationForm {
    pub station: Station,
    pub chosen: RwSignal<bool>,
    pub minutes: NumberInput,
    pub places: NumberInput,
}

/// A size of sheet.
#[derive(Clone, Copy, PartialEq)]
pub enum SheetFormatChoice {
    A4,
    A5,
    A6,
    Letter,
}

impl SheetFormatChoice {
    fn format(self) -> SheetFormat {
        match self {
            Self::A4 => SheetFormat::A(4),
            Self::A5 => SheetFormat::A(5),
            Self::A6 => SheetFormat::A(6),
            Self::Letter => SheetFormat::Letter,
        }
    }
}

pub fn formats() -> Vec<(SheetFormatChoice, String)> {
    let named = |choice, name: &str| (choice, name.to_owned());
    vec![
        named(SheetFormatChoice::A4, "A4"),
        named(SheetFormatChoice::A5, "A5"),
        named(SheetFormatChoice::A6, "A6"),
        (SheetFormatChoice::Letter, t!("class-letter")),
    ]
}

/// A class that nobody described yet.
const PEOPLE: f64 = 12.0;
const PER_TABLE: f64 = 4.0;
const DRY_EACH_G: f64 = 25.0;
const POT_L: f64 = 10.0;
const START: &str = "09:00";

/// Tables that can work at a station at the same time: sinks and hobs are few, tables are not.
fn usual_places(station: Station) -> f64 {
    match station {
        Station::Cook | Station::Rinse | Station::Wash => 2.0,
        _ => 4.0,
    }
}

/// What is made, with what it was made from.
pub type Outcome = Option<(ClassRequest, Result<ClassSheet, ClassError>)>;

impl ClassForm {
    /// Of a batch: its pulp, its kept plan, and the stations that are still to come.
    pub fn of(batch: &Batch) -> Self {
        let plan = PlanForm::of(batch);
        let (kept, next, yielded) = app_state().book_now(|book| {
            let yielded = expected_yield(
                &own_cooks(book, &batch.fibre),
                table_yield(book, &batch.fibre, batch.fibre_key.as_deref()),
            );
            (KeptPlan::of(book, batch, clock::now()), Station::of(book, batch), yielded)
        });
        if let Some(kept) = kept {
            plan.fill(&kept.record);
        }
        let next = next.unwrap_or(Station::Plan);
        let weighed = batch.weighed.as_ref();
        Self::new(
            Some(batch.id),
            batch.name.clone(),
            plan,
            weighed.map(|weighed| weighed.dryness.map(share)),
            // Pulp that was bleached is taken through its bath again only if the teacher says so.
            next.min(Station::Sheets),
            yielded,
            weighed.map(|weighed| grams(weighed.wet_mass_g.value)),
        )
    }

    /// Of pulp that has no batch.
    pub fn without_batch() -> Self {
        let plan = PlanForm::without_batch();
        Self::new(None, String::new(), plan, None, Station::Plan, None, None)
    }

    fn new(
        batch: Option<Ulid>,
        name: String,
        plan: PlanForm,
        dryness: Option<Estimate<Ratio>>,
        from: Station,
        cook_yield: Option<Estimate<Ratio>>,
        wet_in_stock: Option<Mass>,
    ) -> Self {
        let count = |field, most: f64, value| {
            NumberInput::new(field, QuantityKind::Count).between(1.0, most).filled(value)
        };
        let most = f64::from(MOST_PEOPLE);
        let own = app_state().book_now(|book| {
            let own = book.studio.figures.get(&OwnFigureOf::SqueezeDryness);
            own.map(|(figure, _)| recorded_dryness(*figure))
        });
        let dryness = dryness.or(own).unwrap_or_else(|| ASSUMED_DRYNESS.map(share));
        let station = |station| StationForm {
            station,
            chosen: kept_flag(station, station >= from),
            minutes: NumberInput::new(CLASS_MINUTES, QuantityKind::Duration)
                .between(1.0, 1440.0)
                .optional(),
            places: count(CLASS_PLACES, most, usual_places(station)),
        };
        let start = RwSignal::new(START.to_owned());
        keep_text("class_start", start);
        Self {
            batch,
            name: StoredValue::new(name),
            people: count(CLASS_PEOPLE, most, PEOPLE),
            per_table: count(CLASS_TABLE, most, PER_TABLE),
            dry_each: NumberInput::new(CLASS_DRY, QuantityKind::Mass)
                .between(1.0, 2000.0)
                .filled(DRY_EACH_G),
            pot: NumberInput::new(CAPACITY, QuantityKind::Volume)
                .between(50.0, 5e6)
                .unit(Unit::Litre)
                .filled(POT_L),
            pot_for: RwSignal::new(PotFor::Table),
            dryness: RecordedInput::new(
                NumberInput::new(DRYNESS, QuantityKind::Share).between(0.01, 0.95),
                Some(dryness),
                |dryness| in_share(dryness.value) * 100.0,
            ),
            wash_rinses: count(CLASS_RINSES, 24.0, f64::from(USUAL_WASH_RINSES)),
            start,
            stations: StoredValue::new(STATIONS.map(station)),
            format: RwSignal::new(SheetFormatChoice::A5),
            plan,
            cook_yield: cook_yield
                .unwrap_or_else(|| Estimate::exact(share(ASSUMED_YIELD), Basis::Assumed)),
            wet_in_stock,
        }
    }

    /// The batch's, or empty.
    pub fn name(self) -> String {
        self.name.get_value()
    }

    /// Who shares a pot.
    pub fn pot_choice(self) -> AnyView {
        view! {
            <RadioGroup label=t!("class-pot_for") value=self.pot_for options=vec![
                (PotFor::Person, t!("class-pot_for_person")),
                (PotFor::Table, t!("class-pot_for_table")),
                (PotFor::Class, t!("class-pot_for_class")),
            ] />
        }
        .into_any()
    }

    /// Whether a station is chosen. Tracked.
    pub fn has(self, station: Station) -> bool {
        self.stations
            .with_value(|all| all.iter().any(|one| one.station == station && one.chosen.get()))
    }

    /// Whether a station needs the bath. Tracked.
    pub fn needs_bath(self) -> bool {
        [Station::Bath, Station::Wash, Station::Prove].into_iter().any(|station| self.has(station))
    }

    /// Whether something of the bath is missing, so that its fields must be seen. Tracked.
    pub fn bath_is_open(self) -> bool {
        self.needs_bath() && self.plan.bath_missing().is_some()
    }

    /// Whether the pH of the pulp's water must be read before a bath.
    pub fn needs_ph(self) -> bool {
        self.plan.squeezed_ph_is_needed
    }

    /// The bleach in one line. Tracked.
    pub fn bath_summary(self) -> String {
        let name = self.plan.bleach.chosen().map(|chosen| chosen.used.name);
        let oxidant = match self.plan.bleach.oxidant() {
            bleachfield_core::bath::Oxidant::Hypochlorite => t!("oxidant-hypochlorite"),
            bleachfield_core::bath::Oxidant::Percarbonate => t!("oxidant-percarbonate"),
            bleachfield_core::bath::Oxidant::Peroxide => t!("oxidant-peroxide"),
        };
        let name = name.filter(|name| !name.trim().is_empty()).unwrap_or(oxidant);
        t_with!("class-bath", &[("bleach", &name)])
    }

    /// The size of sheets, as it is called.
    pub fn format_name(self) -> String {
        let chosen = self.format.get();
        let named = formats().into_iter().find(|(format, _)| *format == chosen);
        named.map(|(_, name)| name).unwrap_or_default()
    }

    /// The first answer that is missing or refused. Tracked.
    pub fn missing(self) -> Option<MissingLabel> {
        let inputs = [self.people, self.per_table, self.dry_each, self.pot, self.wash_rinses];
        let unread = inputs.into_iter().chain([self.dryness.input]);
        let own = unread.into_iter().find(|input| input.base().is_none());
        let of_station = || {
            self.stations.with_value(|all| {
                let chosen = all.iter().filter(|one| one.chosen.get());
                let inputs = chosen.flat_map(|one| {
                    let minutes = one.minutes.wrong().map(|_| one.minutes);
                    minutes.into_iter().chain(one.places.base().is_none().then_some(one.places))
                });
                inputs.into_iter().next()
            })
        };
        own.or_else(of_station)
            .map(|input| MissingLabel::Field(input.field()))
            .or_else(|| self.needs_bath().then(|| self.plan.bath_missing()).flatten())
    }

    /// Tracked; `None` while an answer is missing or cannot be read.
    pub fn outcome(self) -> Outcome {
        let request = self.request()?;
        let sheet = class_sheet(&request);
        Some((request, sheet))
    }

    fn request(self) -> Option<ClassRequest> {
        let dryness = self.dryness.get(|dryness| own_dryness(share(dryness)))?;
        let dry_each = grams(self.dry_each.base()?);
        let stations = self.stations.with_value(|all| {
            let chosen = all.iter().filter(|one| one.chosen.get());
            chosen.map(StationForm::setting).collect::<Option<Vec<_>>>()
        })?;
        let bath = if self.needs_bath() {
            let wet = grams(in_grams(dry_each) / in_share(dryness.value));
            let pulp = WetPulp::new(weighed(wet), dryness).ok()?;
            let (request, chosen) = self.plan.request_for(pulp)?;
            Some(ClassBath { request, product: chosen.used })
        } else {
            None
        };
        Some(ClassRequest {
            people: whole(self.people)?,
            per_table: whole(self.per_table)?,
            pot_for: self.pot_for.get(),
            dry_each,
            dryness,
            vessel: BathVessel { capacity: millilitres(self.pot.base()?), kind: VesselKind::Pot },
            bath,
            cook_yield: self.cook_yield,
            cook_alkali: CookAlkali::SodaAsh,
            cook_charge: Estimate::exact(share(USUAL_CHARGE), Basis::Assumed),
            cook_celsius: USUAL_CELSIUS,
            cook_minutes: USUAL_MINUTES,
            cook_rinses: USUAL_COOK_RINSES,
            wash_rinses: whole(self.wash_rinses)?,
            sheets_each: sheets(dry_each, self.format.get()),
            stations,
            start: minutes_of_day(&self.start.get())?,
            wet_in_stock: self.wet_in_stock,
        })
    }
}

impl StationForm {
    /// Tracked.
    fn setting(&self) -> Option<StationSetting> {
        if self.minutes.wrong().is_some() {
            return None;
        }
        Some(StationSetting {
            station: self.station,
            minutes: self.minutes.base(),
            places: whole(self.places)?,
        })
    }
}

/// A count. Tracked.
fn whole(input: NumberInput) -> Option<u32> {
    input.base().map(|count| count.round() as u32)
}

/// Whole sheets of usual paper that so much dry pulp surely makes.
fn sheets(dry: Mass, format: SheetFormatChoice) -> u64 {
    let request = SheetRequest {
        format: format.format(),
        grammage: USUAL_GRAMMAGE,
        moisture: share(USUAL_MOISTURE),
        retention: assumed_retention(USUAL_RETENTION).map(share),
        shrinkage: share(USUAL_SHRINKAGE),
    };
    let plan = request.plan(Estimate::exact(dry, Basis::Computed));
    plan.map_or(0, |plan| plan.sheets.low)
}

/// "09:30" in minutes after midnight.
fn minutes_of_day(text: &str) -> Option<f64> {
    let (hours, minutes) = text.split_once(':')?;
    let (hours, minutes) = (hours.parse::<u32>().ok()?, minutes.get(..2)?.parse::<u32>().ok()?);
    (hours < 24 && minutes < 60).then(|| f64::from(60 * hours + minutes))
}

/// A choice that is kept with the draft of the form.
fn kept_flag(station: Station, usual: bool) -> RwSignal<bool> {
    let chosen = RwSignal::new(usual);
    let Some(draft) = DraftScope::current() else { return chosen };
    let name = format!("class_station-{}", <&str>::from(station));
    if let Some(kept) = draft.restore_once(&name) {
        chosen.set(kept == "true");
    }
    Effect::new(move |earlier: Option<()>| {
        let now = chosen.get();
        if earlier.is_some() {
            draft.keep(&name, (now != usual).then(|| now.to_string()));
        }
    });
    chosen
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_of_day_is_read_and_nonsense_is_not() {
        assert_eq!(minutes_of_day("09:30"), Some(570.0));
        assert_eq!(minutes_of_day("23:59:30"), Some(1439.0));
        for wrong in ["", "9", "24:00", "10:75", "ab:cd"] {
            assert_eq!(minutes_of_day(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn so_much_pulp_makes_so_many_sheets() {
        // A5 at 100 g/m² is 3.1 g, 2.89 g dry; 87.4 % of 25 g stays on the mould.
        assert_eq!(sheets(grams(25.0), SheetFormatChoice::A5), 7);
        assert_eq!(sheets(grams(1.0), SheetFormatChoice::A4), 0);
    }
}
