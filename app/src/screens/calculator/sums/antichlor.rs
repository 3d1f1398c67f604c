//! Removal of the last oxidant: reagent, dose, and what it leaves.

use bleachfield_core::{
    chemistry::dechlorination::{
        AntichlorDose, AntichlorReagent, PURITY, PeroxidePlan, PeroxideRemoval, RESIDUAL,
        ResidualEvidence, THIOSULFATE_TOP, VOLUME, VesselClosure, antichlor_dose, peroxide_removal,
        thiosulfate_overdosed,
    },
    derive::{SignOffEvidence, WashRecord},
    journal::{self, Batch, Book},
    message::{Message, Value},
    quantity::{
        Basis, Estimate, QuantityKind, Unit, grams, grams_per_litre, in_grams, in_grams_per_litre,
        in_millilitres, millilitres, share,
    },
};
use leptos::prelude::*;

use super::view::{answer_view, fact_rows, fields, remarks, weigh_out};
use crate::{
    components::{Fact, NumberInput, RadioGroup},
    i18n::{format_number, format_value, key, sentence_case, t, t_with},
};

/// Accuracy of a strength titrated in a kitchen, and of one from the wash model, as a share of
/// it (own estimates, no source).
const TITRATION_ACCURACY: f64 = 0.05;
const MODEL_ACCURACY: f64 = 0.5;

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct AntichlorSum {
    /// Whether the oxidant is peroxide, not chlorine.
    peroxide: RwSignal<bool>,
    reagent: RwSignal<AntichlorReagent>,
    removal: RwSignal<PeroxideRemoval>,
    method: RwSignal<ResidualMethod>,
    vessel: RwSignal<VesselClosure>,
    residual: NumberInput,
    volume: NumberInput,
    purity: NumberInput,
}

/// How the residual oxidant was found.
#[derive(Clone, Copy, PartialEq)]
enum ResidualMethod {
    Strip,
    Titration,
    WashModel,
}

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
        let text = |value: Option<f64>| value.map(|v| format_number(v, 3)).unwrap_or_default();
        Self {
            peroxide: RwSignal::new(used.peroxide && !used.hypochlorite),
            reagent: RwSignal::new(AntichlorReagent::ALL[0]),
            removal: RwSignal::new(PeroxideRemoval::ALL[0]),
            method: RwSignal::new(ResidualMethod::Strip),
            vessel: RwSignal::new(VesselClosure::Open),
            residual: NumberInput::new(RESIDUAL, QuantityKind::Concentration)
                .unit(Unit::MilligramsPerLitre)
                .between(0.0, 50.0)
                .filled(text(strip.map(|known| in_grams_per_litre(known.value) * 1000.0))),
            volume: NumberInput::new(VOLUME, QuantityKind::Volume)
                .unit(Unit::Litre)
                .filled(text(water.map(|mass| in_grams(mass.value) / 1000.0))),
            purity: NumberInput::new(PURITY, QuantityKind::Share).filled("100"),
        }
    }

    fn answer(self) -> Option<Result<Answer, Message>> {
        let residual = grams_per_litre(self.residual.base()?);
        let within = |accuracy, basis| Estimate::within(residual, accuracy, basis);
        let evidence = match self.method.get() {
            ResidualMethod::Strip => ResidualEvidence::Strip(residual),
            ResidualMethod::Titration => {
                ResidualEvidence::Titration(within(TITRATION_ACCURACY, Basis::Measured))
            }
            ResidualMethod::WashModel => {
                ResidualEvidence::WashModel(within(MODEL_ACCURACY, Basis::Computed))
            }
        };
        let volume = Estimate::within(millilitres(self.volume.base()?), 0.1, Basis::Measured);
        let purity = share(self.purity.base()?);
        let answer = if self.peroxide.get() {
            peroxide_removal(self.removal.get(), evidence, volume, purity).map(Answer::Peroxide)
        } else {
            antichlor_dose(self.reagent.get(), evidence, volume, purity, self.vessel.get())
                .map(Answer::Chlorine)
        };
        Some(answer.map_err(|error| error.message()))
    }

    /// Whether it may release sulfur dioxide.
    pub fn is_sulfite(self) -> bool {
        if self.peroxide.get() {
            return self.removal.get().grams_per_gram().is_some();
        }
        !matches!(
            self.reagent.get(),
            AntichlorReagent::AscorbicAcid
                | AntichlorReagent::SodiumAscorbate
                | AntichlorReagent::Peroxide
        )
    }

    /// Whether it is an acid itself.
    pub fn is_acid(self) -> bool {
        !self.peroxide.get() && self.reagent.get() == AntichlorReagent::AscorbicAcid
    }

    /// Whether something is added: waiting needs nothing.
    pub fn adds_reagent(self) -> bool {
        !self.peroxide.get() || self.removal.get() != PeroxideRemoval::WaitWarm
    }

    /// The reagent of the journal entry; one that the journal cannot name also by its key.
    pub fn entry_reagent(self) -> (journal::Antichlor, Option<&'static str>) {
        use journal::Antichlor as Entry;
        if self.peroxide.get() {
            return match self.removal.get() {
                PeroxideRemoval::Sulfite => (Entry::Sulfite, None),
                PeroxideRemoval::Bisulfite => (Entry::Bisulfite, None),
                PeroxideRemoval::Metabisulfite => (Entry::Metabisulfite, None),
                other => (Entry::Other, Some(other.word())),
            };
        }
        match self.reagent.get() {
            AntichlorReagent::ThiosulfatePentahydrate => (Entry::ThiosulfatePentahydrate, None),
            AntichlorReagent::ThiosulfateAnhydrous => (Entry::ThiosulfateAnhydrous, None),
            AntichlorReagent::Sulfite => (Entry::Sulfite, None),
            AntichlorReagent::Bisulfite => (Entry::Bisulfite, None),
            AntichlorReagent::Metabisulfite => (Entry::Metabisulfite, None),
            AntichlorReagent::AscorbicAcid => (Entry::AscorbicAcid, None),
            AntichlorReagent::Peroxide => (Entry::Peroxide, None),
            other @ AntichlorReagent::SodiumAscorbate => (Entry::Other, Some(other.word())),
        }
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
        let refused = Signal::derive(move || self.answer().and_then(Result::err));
        view! {
            <RadioGroup label=t!("antichlor-oxidant") value=self.peroxide options=vec![
                (false, t!("antichlor-chlorine")), (true, t!("antichlor-peroxide_left")),
            ] />
            {move || {
                let label = t!("form-antichlor-reagent");
                if self.peroxide.get() {
                    let options = PeroxideRemoval::ALL.map(|one| (one, sentence_case(t(one.word()))));
                    view! { <RadioGroup label value=self.removal options=options.to_vec() /> }.into_any()
                } else {
                    let options = AntichlorReagent::ALL.map(|one| (one, sentence_case(t(one.word()))));
                    view! { <RadioGroup label value=self.reagent options=options.to_vec() /> }.into_any()
                }
            }}
            {fields(&[self.residual], refused)}
            <RadioGroup label=t!("antichlor-by-which") value=self.method options=vec![
                (ResidualMethod::Strip, t!("antichlor-by-strip")),
                (ResidualMethod::Titration, t!("antichlor-by-titration")),
                (ResidualMethod::WashModel, t!("antichlor-by-wash")),
            ] />
            {fields(&[self.volume, self.purity], refused)}
            {move || {
                let peroxide_added =
                    !self.peroxide.get() && self.reagent.get() == AntichlorReagent::Peroxide;
                peroxide_added.then(|| view! {
                    <RadioGroup label=t!("field-antichlor-vessel") value=self.vessel options=vec![
                        (VesselClosure::Open, t!("antichlor-open")),
                        (VesselClosure::Closed, t!("antichlor-closed")),
                    ] />
                })
            }}
            <div class="stack" aria-live="polite">
                {move || answer_view(self.answer(), key!("antichlor-waiting"), |answer| match answer {
                    Answer::Chlorine(dose) => chlorine(dose),
                    Answer::Peroxide(plan) => peroxide(plan),
                })}
            </div>
        }
        .into_any()
    }
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
                (key!("antichlor-ph_way"), t(dose.reagent.ph_shift().word())),
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
