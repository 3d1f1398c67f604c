//! The last oxidant: what takes it out, how much of that, and what it leaves.

use bleachfield_core::{
    chemistry::dechlorination::{
        AntichlorDose, AntichlorError, AntichlorReagent, PURITY, PeroxidePlan, PeroxideRemoval,
        RESIDUAL, ResidualEvidence, THIOSULFATE_TOP, VOLUME, VesselClosure, antichlor_dose,
        peroxide_removal, thiosulfate_overdosed,
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

use super::{fields, refusal, remarks, weigh_out};
use crate::{
    components::{Fact, NumberInput, RadioGroup},
    i18n::{format_number, format_value, key, t, t_with},
};

/// A strength that was titrated in a kitchen, or comes of the wash model, may be
/// off by this part (own estimates, no source).
const TITRATED_OFF: f64 = 0.05;
const MODEL_OFF: f64 = 0.5;

/// What takes the oxidant out. Copied freely.
#[derive(Clone, Copy)]
pub struct AntichlorSum {
    /// 0: chlorine, 1: peroxide.
    oxidant: RwSignal<usize>,
    chlorine_by: RwSignal<usize>,
    peroxide_by: RwSignal<usize>,
    /// 0: strip, 1: titration, 2: the wash sum.
    found: RwSignal<usize>,
    closed: RwSignal<bool>,
    residual: NumberInput,
    volume: NumberInput,
    purity: NumberInput,
}

/// What came of it.
enum Answer {
    Chlorine(AntichlorDose),
    Peroxide(PeroxidePlan),
}

impl AntichlorSum {
    /// What the book knows is filled in: the last strip, and the water that the
    /// lump holds.
    pub fn new(book: &Book, batch: Option<&Batch>) -> Self {
        let record = batch.map(|batch| WashRecord::of(book, batch));
        let used = batch.map(|batch| SignOffEvidence::of(batch).used).unwrap_or_default();
        let strip = record.and_then(|record| record.readings.oxidant);
        let water = record.and_then(|record| record.pulp).map(|pulp| pulp.held());
        let text = |value: Option<f64>| value.map(|v| format_number(v, 3)).unwrap_or_default();
        Self {
            oxidant: RwSignal::new(usize::from(used.peroxide && !used.hypochlorite)),
            chlorine_by: RwSignal::new(0),
            peroxide_by: RwSignal::new(0),
            found: RwSignal::new(0),
            closed: RwSignal::new(false),
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

    fn chlorine(self) -> bool {
        self.oxidant.get() == 0
    }

    fn answer(self) -> Option<Result<Answer, AntichlorError>> {
        let residual = grams_per_litre(self.residual.base()?);
        let found = match self.found.get() {
            0 => ResidualEvidence::Strip(residual),
            1 => ResidualEvidence::Titration(Estimate::within(
                residual,
                TITRATED_OFF,
                Basis::Measured,
            )),
            _ => {
                ResidualEvidence::WashModel(Estimate::within(residual, MODEL_OFF, Basis::Computed))
            }
        };
        let volume = Estimate::within(millilitres(self.volume.base()?), 0.1, Basis::Measured);
        let purity = share(self.purity.base()?);
        let vessel = if self.closed.get() { VesselClosure::Closed } else { VesselClosure::Open };
        Some(if self.chlorine() {
            let by = self.reagent();
            antichlor_dose(by, found, volume, purity, vessel).map(Answer::Chlorine)
        } else {
            let way = self.removal();
            peroxide_removal(way, found, volume, purity).map(Answer::Peroxide)
        })
    }

    fn reagent(self) -> AntichlorReagent {
        AntichlorReagent::ALL[self.chlorine_by.get().min(AntichlorReagent::ALL.len() - 1)]
    }

    fn removal(self) -> PeroxideRemoval {
        PeroxideRemoval::ALL[self.peroxide_by.get().min(PeroxideRemoval::ALL.len() - 1)]
    }

    /// Sulfur dioxide may come off it.
    pub fn is_sulfite(self) -> bool {
        if self.chlorine() {
            !matches!(
                self.reagent(),
                AntichlorReagent::AscorbicAcid
                    | AntichlorReagent::SodiumAscorbate
                    | AntichlorReagent::Peroxide
            )
        } else {
            self.removal().grams_per_gram().is_some()
        }
    }

    /// It is an acid itself.
    pub fn is_acid(self) -> bool {
        self.chlorine() && self.reagent() == AntichlorReagent::AscorbicAcid
    }

    /// There is something to weigh: waiting is done without.
    pub fn weighs(self) -> bool {
        self.chlorine() || self.removal() != PeroxideRemoval::WaitWarm
    }

    /// What the entry calls it; what it has no name for is named in the note.
    pub fn entry_reagent(self) -> (journal::Antichlor, Option<&'static str>) {
        use journal::Antichlor as Entry;
        if !self.chlorine() {
            return match self.removal() {
                PeroxideRemoval::Sulfite => (Entry::Sulfite, None),
                PeroxideRemoval::Bisulfite => (Entry::Bisulfite, None),
                PeroxideRemoval::Metabisulfite => (Entry::Metabisulfite, None),
                way => (Entry::Other, Some(way.word())),
            };
        }
        match self.reagent() {
            AntichlorReagent::ThiosulfatePentahydrate => (Entry::ThiosulfatePentahydrate, None),
            AntichlorReagent::ThiosulfateAnhydrous => (Entry::ThiosulfateAnhydrous, None),
            AntichlorReagent::Sulfite => (Entry::Sulfite, None),
            AntichlorReagent::Bisulfite => (Entry::Bisulfite, None),
            AntichlorReagent::Metabisulfite => (Entry::Metabisulfite, None),
            AntichlorReagent::AscorbicAcid => (Entry::AscorbicAcid, None),
            AntichlorReagent::Peroxide => (Entry::Peroxide, None),
            by @ AntichlorReagent::SodiumAscorbate => (Entry::Other, Some(by.word())),
        }
    }

    /// What to say of so many grams really weighed out: more thiosulfate than
    /// any of its reactions can use.
    pub fn too_much(self, weighed_out: f64) -> Option<Message> {
        let Some(Ok(Answer::Chlorine(dose))) = self.answer() else { return None };
        let crystals = dose.reagent == AntichlorReagent::ThiosulfatePentahydrate;
        let over = crystals && thiosulfate_overdosed(grams(weighed_out), dose.chlorine.high);
        over.then(|| {
            Message::new(key!("antichlor-overdosed")).with("most", Value::Number(THIOSULFATE_TOP))
        })
    }

    /// Questions and answer.
    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || match self.answer() {
            Some(Err(why)) => Some(why.message()),
            _ => None,
        });
        let options = |keys: [&str; 2]| keys.map(t).into_iter().enumerate().collect::<Vec<_>>();
        let found =
            [key!("antichlor-by-strip"), key!("antichlor-by-titration"), key!("antichlor-by-wash")];
        view! {
            <RadioGroup label=t!("antichlor-oxidant") value=self.oxidant
                options=options([key!("antichlor-chlorine"), key!("antichlor-peroxide_left")]) />
            {move || {
                let (value, names) = if self.chlorine() {
                    (self.chlorine_by, AntichlorReagent::ALL.iter().map(|a| t(a.word())).collect())
                } else {
                    let ways: Vec<String> =
                        PeroxideRemoval::ALL.iter().map(|way| t(way.word())).collect();
                    (self.peroxide_by, ways)
                };
                let options = names.into_iter().map(crate::i18n::sentence_case).enumerate().collect();
                view! { <RadioGroup label=t!("form-antichlor-reagent") value options /> }
            }}
            {fields(&[self.residual], refused)}
            <RadioGroup label=t!("antichlor-by-which") value=self.found
                options=found.map(t).into_iter().enumerate().collect() />
            {fields(&[self.volume, self.purity], refused)}
            {move || (self.chlorine() && self.reagent() == AntichlorReagent::Peroxide).then(|| view! {
                <RadioGroup label=t!("field-antichlor-vessel") value=self.closed options=vec![
                    (false, t!("antichlor-open")), (true, t!("antichlor-closed")),
                ] />
            })}
            <div class="stack" aria-live="polite">
                {move || match self.answer() {
                    None => view! { <p class="soft">{t!("antichlor-waiting")}</p> }.into_any(),
                    Some(Err(why)) => refusal(&why.message()),
                    Some(Ok(Answer::Chlorine(dose))) => chlorine(&dose),
                    Some(Ok(Answer::Peroxide(plan))) => peroxide(&plan),
                }}
            </div>
        }
        .into_any()
    }
}

fn chlorine(dose: &AntichlorDose) -> AnyView {
    if in_grams(dose.chlorine.value) == 0.0 {
        return view! { <p class="good">{t!("antichlor-none_left")}</p> }.into_any();
    }
    let facts = [
        (key!("antichlor-to_take_out"), format_value(&Value::Mass(dose.chlorine.value))),
        (key!("antichlor-ph_way"), t(dose.reagent.ph_shift().word())),
    ];
    view! {
        {weigh_out(t!("antichlor-weigh"), dose.dose)}
        <dl class="facts">
            {facts.map(|(name, value)| view! { <Fact name=t(name) value /> }).collect_view()}
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
