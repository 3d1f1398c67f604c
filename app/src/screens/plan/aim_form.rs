//! The aim of a bath: charge or strength, size, temperature, time, vessel.

use bleachfield_core::{
    bath::{
        AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, BATH_TEMPERATURE, BathAim, BathSize,
        BathVessel, CAPACITY, MINUTES, Oxidant, RecommendedRange, Remedy, VesselKind, customary,
        guide,
    },
    journal::{Aim, PlanRecord},
    message::{Field, Message, Value},
    quantity::{
        Celsius, QuantityKind, Unit, grams_per_litre, in_grams_per_litre, in_millilitres, in_share,
        millilitres, share,
    },
};
use leptos::prelude::*;

use super::presets::{PresetChoice, PresetInput, USUAL};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, Term},
    i18n::{format_number, format_value, key, t, t_with},
    route::PlanStart,
};

/// The form. Copied freely; all copies share the same answers.
#[derive(Clone, Copy)]
pub struct AimForm {
    /// Where the starting values come from.
    pub(super) preset: RwSignal<PresetChoice>,
    /// The choice above was changed by the form itself.
    pub(super) preset_by_form: StoredValue<bool>,
    aim_basis: RwSignal<AimBasis>,
    pub(super) charge: PresetInput,
    strength: NumberInput,
    size_basis: RwSignal<SizeBasis>,
    pub(super) consistency: PresetInput,
    volume: NumberInput,
    pub(super) temperature: PresetInput,
    pub(super) minutes: PresetInput,
    capacity: NumberInput,
    vessel: RwSignal<VesselKind>,
}

#[derive(Clone, Copy, PartialEq)]
enum AimBasis {
    Charge,
    Strength,
}

#[derive(Clone, Copy, PartialEq)]
enum SizeBasis {
    Consistency,
    Volume,
}

pub struct AimAnswers {
    pub aim: BathAim,
    pub size: BathSize,
    pub temperature: Celsius,
    pub vessel: Option<BathVessel>,
    pub minutes: f64,
}

impl AimForm {
    /// Filled with what is usual for a bath with this oxidant.
    pub fn new(oxidant: Oxidant) -> Self {
        let input = |field, kind, low, high| NumberInput::new(field, kind).between(low, high);
        let volume = |field, low| input(field, QuantityKind::Volume, low, 2e6).unit(Unit::Litre);
        let form = Self {
            preset: RwSignal::new(USUAL),
            preset_by_form: StoredValue::new(false),
            aim_basis: RwSignal::new(AimBasis::Charge),
            charge: PresetInput::new(input(AIM_CHARGE, QuantityKind::Share, 1e-5, 1.0)),
            strength: input(AIM_STRENGTH, QuantityKind::Concentration, 1e-3, 200.0),
            size_basis: RwSignal::new(SizeBasis::Consistency),
            consistency: PresetInput::new(input(AIM_CONSISTENCY, QuantityKind::Share, 1e-3, 0.5)),
            volume: volume(AIM_VOLUME, 1.0),
            temperature: PresetInput::new(input(
                BATH_TEMPERATURE,
                QuantityKind::Temperature,
                0.0,
                95.0,
            )),
            minutes: PresetInput::new(input(MINUTES, QuantityKind::Duration, 1.0, 2880.0)),
            capacity: volume(CAPACITY, 50.0).optional(),
            vessel: RwSignal::new(VesselKind::Pot),
        };
        form.choose(USUAL, oxidant);
        form
    }

    /// Fills in the answers of a stored plan. Its vessel is not stored.
    pub fn fill(self, record: &PlanRecord) {
        self.fill_with(record, PresetInput::set);
    }

    /// Fills in the values of an earlier bath, as a start.
    pub fn fill_as_before(self, record: &PlanRecord) {
        self.fill_with(record, PresetInput::fill);
    }

    /// Fills in proposed values, as a start.
    pub fn begin_with(self, start: &PlanStart) {
        self.aim_basis.set(AimBasis::Charge);
        self.size_basis.set(SizeBasis::Consistency);
        self.charge.fill(f64::from(start.charge) / 100.0);
        self.consistency.fill(f64::from(start.consistency) / 100.0);
        self.temperature.fill(f64::from(start.celsius) / 10.0);
        self.minutes.fill(f64::from(start.minutes));
    }

    fn fill_with(self, record: &PlanRecord, set: impl Fn(PresetInput, f64)) {
        match record.aim {
            Aim::Charge { share, .. } => {
                self.aim_basis.set(AimBasis::Charge);
                set(self.charge, share * 100.0);
            }
            Aim::LiquorStrength { g_per_l, .. } => {
                self.aim_basis.set(AimBasis::Strength);
                self.strength.fill(g_per_l);
            }
        }
        self.size_basis.set(SizeBasis::Consistency);
        set(self.consistency, record.consistency.value * 100.0);
        set(self.temperature, record.celsius);
        set(self.minutes, record.minutes);
    }

    /// Tracked; `None` while an answer is missing or cannot be read.
    pub fn read(self) -> Option<AimAnswers> {
        let aim = match self.aim_basis.get() {
            AimBasis::Charge => BathAim::Charge(share(self.charge.input.base()?)),
            AimBasis::Strength => BathAim::Strength(grams_per_litre(self.strength.base()?)),
        };
        let size = match self.size_basis.get() {
            SizeBasis::Consistency => BathSize::Consistency(share(self.consistency.input.base()?)),
            SizeBasis::Volume => BathSize::TotalVolume(millilitres(self.volume.base()?)),
        };
        if self.capacity.wrong().is_some() {
            return None;
        }
        Some(AimAnswers {
            aim,
            size,
            temperature: Celsius::new(self.temperature.input.base()?).ok()?,
            vessel: self.capacity.base().map(|capacity| BathVessel {
                capacity: millilitres(capacity),
                kind: self.vessel.get(),
            }),
            minutes: self.minutes.input.base()?,
        })
    }

    /// Changes the answers as a remedy says. Remedies outside this form change nothing.
    pub fn apply(self, remedy: Remedy) {
        let set = |input: NumberInput, value| input.fill(value);
        match remedy {
            Remedy::Consistency(consistency) => {
                self.size_basis.set(SizeBasis::Consistency);
                self.consistency.set(in_share(consistency) * 100.0);
            }
            Remedy::Volume(volume) => {
                self.size_basis.set(SizeBasis::Volume);
                set(self.volume, in_millilitres(volume) / 1000.0);
            }
            Remedy::LessBleach { charge, .. } => {
                self.aim_basis.set(AimBasis::Charge);
                self.charge.set(in_share(charge) * 100.0);
            }
            Remedy::Strength(strength) => {
                self.aim_basis.set(AimBasis::Strength);
                set(self.strength, in_grams_per_litre(strength));
            }
            Remedy::Warm(temperature) => self.temperature.set(temperature.get()),
            Remedy::Press(_)
            | Remedy::StrongerBottle(_)
            | Remedy::WashFirst
            | Remedy::LeaveOut(_)
            | Remedy::RinsePulp
            | Remedy::SoakInSoda
            | Remedy::MeasureStrength(_)
            | Remedy::NewBleach
            | Remedy::WeakerPeroxide => {}
        }
    }

    /// The first field that is empty or refused. Tracked.
    pub fn missing(self) -> Option<Field> {
        let unread = |input: NumberInput| input.base().is_none();
        let fields =
            [self.aim_field(), self.temperature.input, self.minutes.input, self.size_field()];
        let field = fields.into_iter().find(|input| unread(*input));
        field.or_else(|| self.capacity.wrong().map(|_| self.capacity)).map(NumberInput::field)
    }

    /// Marks missing fields.
    pub fn try_now(self) {
        for input in
            [self.aim_field(), self.temperature.input, self.minutes.input, self.size_field()]
        {
            untrack(|| input.try_now());
        }
    }

    /// Tracks the basis.
    fn aim_field(self) -> NumberInput {
        match self.aim_basis.get() {
            AimBasis::Charge => self.charge.input,
            AimBasis::Strength => self.strength,
        }
    }

    /// Tracks the basis.
    fn size_field(self) -> NumberInput {
        match self.size_basis.get() {
            SizeBasis::Consistency => self.consistency.input,
            SizeBasis::Volume => self.volume,
        }
    }

    /// How much bleach, how warm, how long, how thick. `refused` shows beside the field that it
    /// names.
    pub fn main_fields(self, oxidant: Memo<Oxidant>, refused: Signal<Option<Message>>) -> AnyView {
        let range = move |low: f64, high: f64| {
            t_with!(
                "plan-usual_range",
                &[("low", &format_number(low, 3)), ("high", &format_number(high, 3)),]
            )
        };
        let charge = Signal::derive(move || {
            let usual = customary(oxidant.get());
            range(usual.low * 100.0, usual.high * 100.0)
        });
        let practice = move |of: fn(Oxidant) -> RecommendedRange, input: NumberInput| {
            Signal::derive(move || {
                let (low, high) = of(oxidant.get()).practice;
                range(input.in_chosen_unit(low), input.in_chosen_unit(high))
            })
        };
        let stirs = Signal::derive(|| t!("plan-consistency_short"));
        view! {
            <div class="plan-grid">
                {move || match self.aim_basis.get() {
                    AimBasis::Charge => {
                        let term = Some(Term::Charge);
                        self.charge.field(t!("plan-field_charge"), charge, refused, term)
                    }
                    AimBasis::Strength => view! { <NumberField ask=self.strength refused term=Term::Liquor /> }.into_any(),
                }}
                {self.temperature.field(
                    t!("plan-field_temperature"),
                    practice(|oxidant| guide(oxidant).temperature, self.temperature.input),
                    refused,
                    None,
                )}
                {self.minutes.field(
                    t!("plan-field_minutes"),
                    practice(|oxidant| guide(oxidant).minutes, self.minutes.input),
                    refused,
                    None,
                )}
                {move || match self.size_basis.get() {
                    SizeBasis::Consistency => {
                        let (label, term) = (t!("plan-field_consistency"), Some(Term::Consistency));
                        self.consistency.field(label, stirs, refused, term)
                    }
                    SizeBasis::Volume => view! {
                        <NumberField ask=self.volume hint=t!("plan-volume_hint") refused />
                    }
                    .into_any(),
                }}
            </div>
        }
        .into_any()
    }

    /// What seldom changes: by what the bath is measured, and the vessel.
    pub fn more_fields(self, oxidant: Memo<Oxidant>, refused: Signal<Option<Message>>) -> AnyView {
        view! {
            <RadioGroup label=t!("plan-aim_by") value=self.aim_basis options=vec![
                (AimBasis::Charge, t!("plan-by_charge")),
                (AimBasis::Strength, t!("plan-by_strength")),
            ] />
            <p class="small soft">{move || aim_hint(self.aim_basis.get(), oxidant.get())}</p>
            <RadioGroup label=t!("plan-size_by") value=self.size_basis options=vec![
                (SizeBasis::Consistency, t!("plan-by_consistency")),
                (SizeBasis::Volume, t!("plan-by_volume")),
            ] />
            <p class="small soft">{t!("plan-consistency_hint")}</p>
            <p class="small soft">{move || guide_hints(oxidant.get())}</p>
            <NumberField ask=self.capacity hint=t!("plan-capacity_hint") refused />
            <RadioGroup label=t!("plan-vessel") value=self.vessel options=vec![
                (VesselKind::Pot, t!("plan-pot")),
                (VesselKind::Blender, t!("plan-blender")),
            ] />
        }
        .into_any()
    }
}

fn aim_hint(basis: AimBasis, oxidant: Oxidant) -> String {
    let active = t(match oxidant {
        Oxidant::Hypochlorite => key!("plan-active_chlorine"),
        _ => key!("plan-active_peroxide"),
    });
    match basis {
        AimBasis::Charge => {
            let usual = customary(oxidant);
            t_with!(
                "plan-charge_hint",
                &[
                    ("active", &active),
                    ("low", &format_number(usual.low * 100.0, 2)),
                    ("high", &format_number(usual.high * 100.0, 2)),
                ]
            )
        }
        AimBasis::Strength => t_with!("plan-strength_hint", &[("active", &active)]),
    }
}

/// What practice and literature have of temperature and time.
fn guide_hints(oxidant: Oxidant) -> String {
    let guide = guide(oxidant);
    let hint = |key: &str, range: RecommendedRange, write: &dyn Fn(f64) -> String| {
        t_with(
            key,
            &[
                ("low", &write(range.practice.0)),
                ("high", &write(range.practice.1)),
                ("book_low", &write(range.literature.0)),
                ("book_high", &write(range.literature.1)),
            ],
        )
    };
    let degrees = |celsius: f64| format_value(&Value::Celsius(celsius));
    let temperature = hint(key!("plan-temperature_hint"), guide.temperature, &degrees);
    let plain = |minutes: f64| format_number(minutes, 3);
    format!("{temperature} {}", hint(key!("plan-minutes_hint"), guide.minutes, &plain))
}
