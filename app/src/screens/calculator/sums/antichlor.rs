//! Removal of the last oxidant: reagent, dose, and what it leaves.

use bleachfield_core::{
    bath::Oxidant,
    caution::{Act, BleachInUse, Caution, CautionId, Residual, Situation, cautions},
    chemistry::{
        alkali::{meter_ph, strip_ph},
        dechlorination::{
            AntichlorDose, AntichlorError, AntichlorReagent, AntichlorRequest, LIQUOR_PH, PURITY,
            PeroxidePlan, PeroxideRemoval, RESIDUAL, ResidualEvidence, SODA_ADDED, THIOSULFATE_TOP,
            UNMEASURED_PH, VOLUME, VesselClosure, antichlor_dose, peroxide_removal,
            thiosulfate_overdosed,
        },
    },
    derive::{SignOffEvidence, WashRecord},
    journal::{self, Batch, Book},
    message::{Message, Value},
    quantity::{
        Estimate, Interval, MassConcentration, QuantityKind, Unit, Volume, grams, grams_per_litre,
        in_bucket, in_grams, in_grams_per_litre, in_millilitres, millilitres, share,
    },
};
use leptos::prelude::*;

use super::view::{fact_rows, fields, range, refusal, remarks, weigh_out};
use crate::{
    components::{Explain, Fact, NumberField, NumberInput, RadioGroup, RecordedInput, Term},
    i18n::{format_number, format_value, key, render, sentence_case, t, t_with},
    route::Sum,
    screens::calculator::session::{keep, keep_choice, keep_inputs, optional},
};

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct AntichlorSum {
    /// Whether the oxidant is peroxide, not chlorine.
    peroxide: RwSignal<bool>,
    /// Chosen by the person, as the next.
    reagent: RwSignal<Option<AntichlorReagent>>,
    removal: RwSignal<Option<PeroxideRemoval>>,
    /// Of a residual that was typed; one from the record has its own.
    method: RwSignal<ResidualMethod>,
    /// Not said counts as closed.
    vessel: RwSignal<Option<VesselClosure>>,
    residual: RecordedInput<Estimate<MassConcentration>>,
    volume: RecordedInput<Estimate<Volume>>,
    purity: NumberInput,
    liquor_ph: NumberInput,
    ph_by_meter: RwSignal<bool>,
    soda_added: NumberInput,
}

/// How the residual oxidant was found.
#[derive(Clone, Copy, PartialEq)]
enum ResidualMethod {
    Strip,
    Titration,
    WashModel,
}

#[derive(Clone, PartialEq)]
enum Answer {
    Chlorine(AntichlorDose),
    Peroxide(PeroxidePlan),
}

impl AntichlorSum {
    /// A form filled with the batch's oxidant, its last strip reading, and the water in its pulp.
    pub fn new(book: &Book, batch: Option<&Batch>) -> Self {
        let record = batch.map(|batch| WashRecord::of(book, batch));
        let used = batch.map(|batch| SignOffEvidence::of(batch).used).unwrap_or_default();
        let strip = record.and_then(|record| record.readings.oxidant);
        let water = record.and_then(|record| record.pulp).map(|pulp| pulp.held());
        // 1 g of water is 1 mL.
        let water = water.map(|water| water.map(|mass| millilitres(in_grams(mass))));
        let residual = NumberInput::new(RESIDUAL, QuantityKind::Concentration)
            .unit(Unit::MilligramsPerLitre)
            .between(0.0, 50.0);
        let volume = NumberInput::new(VOLUME, QuantityKind::Volume).unit(Unit::Litre);
        Self {
            peroxide: RwSignal::new(used.peroxide && !used.hypochlorite),
            reagent: RwSignal::new(None),
            removal: RwSignal::new(None),
            method: RwSignal::new(ResidualMethod::Strip),
            vessel: RwSignal::new(None),
            residual: RecordedInput::new(residual, strip, |known| {
                in_grams_per_litre(known.value) * 1000.0
            }),
            volume: RecordedInput::new(volume, water, |water| in_millilitres(water.value) / 1000.0),
            purity: NumberInput::new(PURITY, QuantityKind::Share).optional(),
            liquor_ph: NumberInput::new(LIQUOR_PH, QuantityKind::Ph).optional(),
            ph_by_meter: RwSignal::new(false),
            soda_added: NumberInput::new(SODA_ADDED, QuantityKind::Mass).optional(),
        }
    }

    fn answer(self) -> Option<Result<Answer, AntichlorError>> {
        let residual = self.residual_evidence()?;
        let volume = self.volume.get(|ml| in_bucket(millilitres(ml)))?;
        // Pure where nobody said; a strip afterwards decides.
        let purity = share(left_out_or(self.purity)?.unwrap_or(1.0));
        if self.peroxide.get() {
            let plan = peroxide_removal(self.removal.get()?, residual, volume, purity);
            return Some(plan.map(Answer::Peroxide));
        }
        let request = AntichlorRequest {
            vessel: self.vessel.get(),
            liquor_ph: self.ph_reading()?,
            soda_added: grams(left_out_or(self.soda_added)?.unwrap_or(0.0)),
            ..AntichlorRequest::new(self.reagent.get()?, residual, volume, purity)
        };
        Some(antichlor_dose(&request).map(Answer::Chlorine))
    }

    /// The residual as recorded, or as typed and found.
    fn residual_evidence(self) -> Option<ResidualEvidence> {
        if let Some(recorded) = self.residual.known() {
            return Some(ResidualEvidence::Recorded(recorded));
        }
        let typed = grams_per_litre(self.residual.input.base()?);
        Some(match self.method.get() {
            ResidualMethod::Strip => ResidualEvidence::Strip(typed),
            ResidualMethod::Titration => ResidualEvidence::titrated(typed),
            ResidualMethod::WashModel => ResidualEvidence::from_wash_model(typed),
        })
    }

    /// The pH with its range, `Some(None)` if left out.
    fn ph_reading(self) -> Option<Option<Estimate<f64>>> {
        let by_meter = self.ph_by_meter.get();
        let with_range = |ph| if by_meter { meter_ph(ph) } else { strip_ph(ph) };
        Some(left_out_or(self.liquor_ph)?.map(with_range))
    }

    /// Whether it may release sulfur dioxide; one that was not chosen may.
    pub fn is_sulfite(self) -> bool {
        if self.peroxide.get() {
            return self.removal.get().is_none_or(|one| one.grams_per_gram().is_some());
        }
        !matches!(
            self.reagent.get(),
            Some(
                AntichlorReagent::AscorbicAcid
                    | AntichlorReagent::SodiumAscorbate
                    | AntichlorReagent::Peroxide
            )
        )
    }

    /// Whether it is an acid itself.
    pub fn is_acid(self) -> bool {
        !self.peroxide.get() && self.reagent.get() == Some(AntichlorReagent::AscorbicAcid)
    }

    /// Whether something is added: waiting needs nothing.
    pub fn adds_reagent(self) -> bool {
        !self.peroxide.get() || self.removal.get() != Some(PeroxideRemoval::WaitWarm)
    }

    /// Whether what to add was chosen.
    pub fn is_chosen(self) -> bool {
        if self.peroxide.get() {
            self.removal.get().is_some()
        } else {
            self.reagent.get().is_some()
        }
    }

    /// The reagent of the journal entry; one that the journal cannot name also by its key.
    /// `None` while none is chosen.
    pub fn entry_reagent(self) -> Option<(journal::Antichlor, Option<&'static str>)> {
        use journal::Antichlor as Entry;
        if self.peroxide.get() {
            return Some(match self.removal.get()? {
                PeroxideRemoval::Sulfite => (Entry::Sulfite, None),
                PeroxideRemoval::Bisulfite => (Entry::Bisulfite, None),
                PeroxideRemoval::Metabisulfite => (Entry::Metabisulfite, None),
                other => (Entry::Other, Some(other.word())),
            });
        }
        Some(match self.reagent.get()? {
            AntichlorReagent::ThiosulfatePentahydrate => (Entry::ThiosulfatePentahydrate, None),
            AntichlorReagent::ThiosulfateAnhydrous => (Entry::ThiosulfateAnhydrous, None),
            AntichlorReagent::Sulfite => (Entry::Sulfite, None),
            AntichlorReagent::Bisulfite => (Entry::Bisulfite, None),
            AntichlorReagent::Metabisulfite => (Entry::Metabisulfite, None),
            AntichlorReagent::AscorbicAcid => (Entry::AscorbicAcid, None),
            AntichlorReagent::Peroxide => (Entry::Peroxide, None),
            other @ AntichlorReagent::SodiumAscorbate => (Entry::Other, Some(other.word())),
        })
    }

    /// The cautions of what is chosen and typed. Tracked.
    pub fn cautions(self) -> Vec<Caution> {
        let left = self.residual_evidence().map(|evidence| evidence.strength());
        let adds_peroxide =
            !self.peroxide.get() && self.reagent.get() == Some(AntichlorReagent::Peroxide);
        let situation = Situation {
            oxidant: if adds_peroxide { Oxidant::Peroxide.into() } else { BleachInUse::None },
            strength: left.map(Interval::from),
            closed: self.vessel.get().map(|vessel| vessel == VesselClosure::Closed),
            sulfite: self.is_sulfite(),
            ..any_residual(self.peroxide.get())
        };
        let mut all = cautions(Act::AddingAntichlor, &situation);
        if self.is_acid() {
            let acid = cautions(Act::AddingAcid, &situation);
            all.extend(acid.into_iter().filter(|one| one.id != CautionId::LabelFirst));
        }
        all
    }

    /// Those that hold before anything is chosen. Tracked.
    pub fn standing_cautions(self) -> Vec<Caution> {
        let situation = Situation { sulfite: true, ..any_residual(self.peroxide.get()) };
        cautions(Act::AddingAntichlor, &situation)
    }

    /// The caution if these grams of thiosulfate are more than any of its reactions can use.
    pub fn overdose(self, weighed_out: f64) -> Option<Message> {
        let Some(Ok(Answer::Chlorine(dose))) = self.answer() else { return None };
        let crystals = dose.reagent == AntichlorReagent::ThiosulfatePentahydrate;
        let over = crystals && thiosulfate_overdosed(grams(weighed_out), dose.chlorine.high);
        over.then(|| {
            Message::new(key!("antichlor-overdosed")).with("most", Value::Number(THIOSULFATE_TOP))
        })
    }

    /// Fields and answer.
    pub fn view(self) -> AnyView {
        let answer = Memo::new(move |_| self.answer());
        let full = move || answer.with(full_answer);
        view! { {self.fields_view()}<div class="stack" aria-live="polite">{full}</div> }.into_any()
    }

    /// The dose with its range, what it does and leaves; or what is missing.
    pub fn full_answer(self) -> AnyView {
        full_answer(&self.answer())
    }

    /// The dose alone; or what is missing.
    pub fn short_answer(self) -> AnyView {
        match self.answer() {
            Some(Ok(Answer::Chlorine(dose))) if in_grams(dose.chlorine.value) > 0.0 => {
                weigh_out(t!("antichlor-weigh"), dose.dose)
            }
            Some(Ok(Answer::Peroxide(PeroxidePlan { dose: Some(dose), peroxide, .. })))
                if in_grams(peroxide.value) > 0.0 =>
            {
                weigh_out(t!("antichlor-weigh"), dose)
            }
            other => full_answer(&other),
        }
    }

    /// Whether there is an answer.
    pub fn is_ready(self) -> bool {
        matches!(self.answer(), Some(Ok(_)))
    }

    /// Keeps what is typed and chosen in this tab.
    pub fn keep(self) {
        const REAGENTS: [Option<AntichlorReagent>; AntichlorReagent::ALL.len() + 1] =
            optional(AntichlorReagent::ALL);
        const REMOVALS: [Option<PeroxideRemoval>; PeroxideRemoval::ALL.len() + 1] =
            optional(PeroxideRemoval::ALL);
        keep(Sum::Antichlor, "peroxide", self.peroxide);
        keep_choice(Sum::Antichlor, "reagent", self.reagent, &REAGENTS);
        keep_choice(Sum::Antichlor, "removal", self.removal, &REMOVALS);
        keep_inputs(Sum::Antichlor, &[self.residual.input, self.volume.input, self.purity]);
        keep_inputs(Sum::Antichlor, &[self.liquor_ph, self.soda_added]);
    }

    pub fn fields_view(self) -> AnyView {
        let answer = Memo::new(move |_| self.answer());
        let refused = Signal::derive(move || {
            answer.with(|answer| Some(answer.as_ref()?.as_ref().err()?.message()))
        });
        view! {
            <RadioGroup label=t!("antichlor-oxidant") value=self.peroxide options=vec![
                (false, t!("antichlor-chlorine")), (true, t!("antichlor-peroxide_left")),
            ] />
            {move || {
                let label = t!("form-antichlor-reagent");
                if self.peroxide.get() {
                    let options = PeroxideRemoval::ALL.map(|one| (Some(one), sentence_case(t(one.word()))));
                    view! { <RadioGroup label value=self.removal options=options.to_vec() /> }.into_any()
                } else {
                    let options = AntichlorReagent::ALL.map(|one| (Some(one), sentence_case(t(one.word()))));
                    view! { <RadioGroup label value=self.reagent options=options.to_vec() /> }.into_any()
                }
            }}
            <Explain term=Term::Antichlor />
            {fields(&[self.residual.input], refused)}
            {self.method_choice()}
            {fields(&[self.volume.input], refused)}
            <NumberField ask=self.purity hint=t!("antichlor-purity_hint") refused />
            {move || {
                let peroxide_added =
                    !self.peroxide.get() && self.reagent.get() == Some(AntichlorReagent::Peroxide);
                peroxide_added.then(|| view! {
                    <RadioGroup label=t!("field-antichlor-vessel") value=self.vessel options=vec![
                        (Some(VesselClosure::Open), t!("antichlor-open")),
                        (Some(VesselClosure::Closed), t!("antichlor-closed")),
                    ] />
                })
            }}
            {move || (!self.peroxide.get()).then(|| self.buffer_fields(refused))}
        }
        .into_any()
    }

    /// How a typed residual was found, or that it is the record's.
    fn method_choice(self) -> AnyView {
        let recorded = Memo::new(move |_| self.residual.known().is_some());
        (move || {
            if recorded.get() {
                return view! { <p class="soft small">{t!("antichlor-by-record")}</p> }.into_any();
            }
            view! {
                <RadioGroup label=t!("antichlor-by-which") value=self.method options=vec![
                    (ResidualMethod::Strip, t!("antichlor-by-strip")),
                    (ResidualMethod::Titration, t!("antichlor-by-titration")),
                    (ResidualMethod::WashModel, t!("antichlor-by-wash")),
                ] />
            }
            .into_any()
        })
        .into_any()
    }

    /// What holds the pH of the liquor up; all may be left out.
    fn buffer_fields(self, refused: Signal<Option<Message>>) -> AnyView {
        let lowest = format_number(UNMEASURED_PH.low, 2);
        view! {
            <NumberField ask=self.liquor_ph refused
                hint=t_with!("antichlor-liquor_ph_hint", &[("lowest", &lowest)]) />
            {move || (!self.liquor_ph.is_empty()).then(|| view! {
                <RadioGroup label=t!("antichlor-ph_by") value=self.ph_by_meter options=vec![
                    (false, t!("form-reading-by_strip")),
                    (true, t!("form-reading-by_meter")),
                ] />
            })}
            <NumberField ask=self.soda_added refused hint=t!("antichlor-soda_added_hint") />
        }
        .into_any()
    }
}

/// Oxidant left in the pulp or liquor.
fn any_residual(peroxide: bool) -> Situation {
    let residual = if peroxide { Residual::Peroxide } else { Residual::Hypochlorite };
    Situation { residual, ..Situation::without_bleach() }
}

fn full_answer(answer: &Option<Result<Answer, AntichlorError>>) -> AnyView {
    match answer {
        None => view! { <p class="soft">{t!("antichlor-waiting")}</p> }.into_any(),
        Some(Err(error)) => refused_dose(error),
        Some(Ok(Answer::Chlorine(dose))) => chlorine(dose),
        Some(Ok(Answer::Peroxide(plan))) => peroxide(plan),
    }
}

/// The value in its base unit, `Some(None)` if the optional field is empty, `None` if it is
/// wrong.
fn left_out_or(input: NumberInput) -> Option<Option<f64>> {
    if input.is_empty() { Some(None) } else { input.base().map(Some) }
}

/// Why there is no dose, and what makes it possible.
fn refused_dose(error: &AntichlorError) -> AnyView {
    let remedies =
        error.remedies().iter().map(|remedy| view! { <li>{render(&remedy.message())}</li> });
    let remedies = remedies.collect_view();
    if error.remedies().is_empty() {
        return refusal(&error.message());
    }
    view! {
        <p class="caution danger" role="alert">{render(&error.message())}</p>
        <ul>{remedies}</ul>
    }
    .into_any()
}

fn chlorine(dose: &AntichlorDose) -> AnyView {
    if in_grams(dose.chlorine.value) == 0.0 {
        return view! { <p class="good">{t!("antichlor-none_left")}</p> }.into_any();
    }
    view! {
        {weigh_out(t!("antichlor-weigh"), dose.dose)}
        <dl class="facts">
            {fact_rows([
                (key!("antichlor-to_take_out"), format_value(&Value::Mass(dose.chlorine.value))),
                (key!("antichlor-ph_way"), t(dose.course.shift().word())),
                (key!("antichlor-ph_end"), ph_end(dose)),
                (key!("antichlor-worst_air"), worst_air(dose)),
            ])}
            {dose.oxygen.map(|oxygen| view! {
                <Fact name=t!("antichlor-oxygen")
                    value=format!("{} L", format_number(in_millilitres(oxygen) / 1000.0, 2)) />
            })}
        </dl>
        <p>{t(dose.reagent.leaves())}</p>
        {remarks(&dose.remarks)}
    }
    .into_any()
}

fn ph_end(dose: &AntichlorDose) -> String {
    let Estimate { value, low, high, .. } = dose.course.end;
    format!("{} ({})", format_value(&Value::Ph(value)), range(low, high, Value::Ph))
}

fn worst_air(dose: &AntichlorDose) -> String {
    let worst = dose.course.worst;
    let ph = format_value(&Value::Ph(worst.ph));
    t_with!("antichlor-ppm_at", &[("ppm", &format_number(worst.chlorine_ppm, 2)), ("ph", &ph)])
}

fn peroxide(plan: &PeroxidePlan) -> AnyView {
    if in_grams(plan.peroxide.value) == 0.0 {
        return view! { <p class="good">{t!("antichlor-none_left")}</p> }.into_any();
    }
    let amount = format_value(&Value::Mass(plan.peroxide.value));
    view! {
        {plan.dose.map(|dose| weigh_out(t!("antichlor-weigh"), dose))}
        <p>{t_with!("antichlor-peroxide_to_take_out", &[("amount", &amount)])}</p>
        {remarks(&plan.remarks)}
    }
    .into_any()
}
