//! A neutral finish with acid: only once the log proves that no chlorine is left.

use bleachfield_core::{
    caution::Act,
    chemistry::{
        acid_dose::{
            AcidAmount, AcidDose, AlkaliEvidence, NeutralisingAcid, Residue, STRENGTH, TARGET_PH,
            VOLUME, acid_dose,
        },
        alkali::strip_ph,
        water::TAP_CELSIUS,
    },
    derive::{SignOffEvidence, WashRecord},
    journal::{self, AcidFinished, Amount, Body},
    message::{Field, Message},
    pulp::{
        sign_off::{UnmetTest, ZeroChlorine},
        wash::Alkali,
    },
    quantity::{
        Basis, Estimate, QuantityKind, Unit, Volume, in_bucket, in_grams, in_millilitres,
        millilitres,
    },
};
use leptos::prelude::*;

use super::{
    BatchWriter, Cautions, SaveButton, all_valid, figure, inputs, ph_figure, trimmed,
    weighed_figure,
};
use crate::{
    components::{
        ChoiceError, NumberField, NumberInput, RadioGroup, RecordedInput, TextField, icon,
    },
    i18n::{key, render, sentence_case, t},
    route::BatchForm,
    screens::calculator::sums::{fields, pour_out, refusal, remarks, too_little, weigh_out},
};

const RESIDUE_PH: Field = Field("acid-residue_ph");
const POURED: Field = Field("acid-poured");

/// The choices; the strength of vinegar is typed.
const ACIDS: [NeutralisingAcid; 3] = [
    NeutralisingAcid::CitricAnhydrous,
    NeutralisingAcid::CitricMonohydrate,
    NeutralisingAcid::Vinegar { grams_per_100_ml: 5.0 },
];

#[component]
pub fn AcidForm(writer: BatchWriter) -> impl IntoView {
    let evidence = writer.read(|_, batch| SignOffEvidence::of(batch)).unwrap_or_default();
    match evidence.acid_proof() {
        Ok(proof) => dose_form(writer, proof),
        Err(gap) => refused_form(writer, gap),
    }
}

/// Why no acid may be added, and the ways to the proof.
fn refused_form(writer: BatchWriter, gap: UnmetTest) -> AnyView {
    view! {
        <div class="stack">
            <div class="caution danger" role="alert">
                <span class="severity"><icon::Hand />{t!("caution-severity-danger")}</span>
                <p>{render(&gap.no_acid())}</p>
            </div>
            <p>{render(&gap.message())}</p>
            <button class="button touch" on:click=move |_| writer.open(BatchForm::EndTest)>
                {t!("next-end_tests")}
            </button>
            <button class="button touch soft" on:click=move |_| writer.open(BatchForm::Antichlor)>
                {t!("form-antichlor-short")}
            </button>
        </div>
    }
    .into_any()
}

/// The inputs of a dose. Copied freely.
#[derive(Clone, Copy)]
struct DoseInputs {
    proof: ZeroChlorine,
    /// Chosen by the person.
    acid: RwSignal<Option<NeutralisingAcid>>,
    alkali: Alkali,
    ph: RecordedInput<Estimate<f64>>,
    volume: RecordedInput<Estimate<Volume>>,
    target: NumberInput,
    strength: NumberInput,
}

impl DoseInputs {
    /// pH, volume and alkali are filled in from the record of the wash.
    fn new(proof: ZeroChlorine, record: Option<WashRecord>) -> Self {
        let ph = NumberInput::new(RESIDUE_PH, QuantityKind::Ph);
        let volume = NumberInput::new(VOLUME, QuantityKind::Volume).unit(Unit::Litre);
        let held = record.and_then(|record| record.pulp).map(|pulp| pulp.held());
        // 1 g of water is 1 mL.
        let held = held.map(|water| water.map(|mass| millilitres(in_grams(mass))));
        Self {
            proof,
            acid: RwSignal::new(None),
            alkali: record.map_or(Alkali::SodaAsh, |record| record.readings.alkali),
            ph: RecordedInput::new(ph, record.and_then(|record| record.readings.ph), |ph| ph.value),
            volume: RecordedInput::new(volume, held, |water| in_millilitres(water.value) / 1000.0),
            target: NumberInput::new(TARGET_PH, QuantityKind::Ph).filled(7.5),
            strength: NumberInput::new(STRENGTH, QuantityKind::Number),
        }
    }

    fn is_vinegar(self) -> bool {
        matches!(self.acid.get(), Some(NeutralisingAcid::Vinegar { .. }))
    }

    fn dose(self) -> Option<Result<AcidDose, Message>> {
        let (ph, target) = (self.ph.get(strip_ph)?, self.target.base()?);
        let acid = match self.acid.get()? {
            NeutralisingAcid::Vinegar { .. } => {
                NeutralisingAcid::Vinegar { grams_per_100_ml: self.strength.base()? }
            }
            citric => citric,
        };
        let residue = Residue {
            alkali: self.alkali,
            evidence: AlkaliEvidence::Ph(ph),
            volume: self.volume.get(|ml| in_bucket(millilitres(ml)))?,
            celsius: TAP_CELSIUS,
        };
        Some(acid_dose(self.proof, acid, &residue, target).map_err(|error| error.message()))
    }

    fn view(self, tried: RwSignal<bool>) -> impl IntoView {
        let refused = Signal::derive(move || self.dose().and_then(Result::err));
        let acids = ACIDS.map(|acid| (Some(acid), sentence_case(t(acid.word())))).to_vec();
        view! {
            <RadioGroup label=t!("form-acid-which") value=self.acid options=acids />
            <ChoiceError problem=Signal::derive(move || {
                let missing = tried.get() && self.acid.get().is_none();
                missing.then(|| Message::new(key!("refusal-not_chosen")))
            }) />
            {move || self.is_vinegar().then(|| view! { <NumberField ask=self.strength refused /> })}
            {fields(&[self.ph.input, self.volume.input, self.target], refused)}
            <div class="stack" aria-live="polite">
                {move || match self.dose() {
                    None => view! { <p class="soft">{t!("form-acid-waiting")}</p> }.into_any(),
                    Some(Err(why)) => refusal(&why),
                    Some(Ok(dose)) => dose_view(&dose),
                }}
            </div>
        }
    }
}

fn dose_form(writer: BatchWriter, proof: ZeroChlorine) -> AnyView {
    let dose = DoseInputs::new(proof, writer.read(WashRecord::of));
    let weighed = NumberInput::new(inputs::GRAMS, QuantityKind::Mass);
    let poured = NumberInput::new(POURED, QuantityKind::Volume).unit(Unit::Millilitre);
    let ph_after = NumberInput::new(inputs::PH_SQUEEZED, QuantityKind::Ph).optional();
    let note = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    let run = Callback::new(move |()| {
        tried.set(true);
        let amount = if dose.is_vinegar() { poured } else { weighed };
        if !all_valid(&[amount, ph_after, dose.ph.input]) {
            return;
        }
        let amount = match dose.acid.get_untracked() {
            None => return,
            Some(NeutralisingAcid::Vinegar { .. }) => figure(poured, Basis::Measured)
                .map(|ml| (journal::Acid::Acetic, Amount::VolumeMl(ml))),
            Some(NeutralisingAcid::CitricAnhydrous | NeutralisingAcid::CitricMonohydrate) => {
                weighed_figure(weighed).map(|g| (journal::Acid::Citric, Amount::MassG(g)))
            }
        };
        let Some((acid, amount)) = amount else { return };
        writer.save(Body::AcidFinished(AcidFinished {
            acid,
            product: None,
            amount,
            ph_before: dose.ph.get(strip_ph),
            ph_after: ph_figure(ph_after, true),
            note: trimmed(note),
        }));
    });
    view! {
        <div class="stack">
            {proof.tested().map(|_| view! { <p class="good">{t!("form-acid-proven")}</p> })}
            <Cautions act=Act::AddingAcid situation=writer.situation() />
            {dose.view(tried)}
            <h3>{t!("form-as_done")}</h3>
            {move || {
                let amount = if dose.is_vinegar() { poured } else { weighed };
                view! { <NumberField ask=amount /> }
            }}
            <NumberField ask=ph_after hint=t!("form-rinse-ph_hint") />
            <TextField label=t!("form-note-optional") text=note />
            <SaveButton writer run />
        </div>
    }
    .into_any()
}

fn dose_view(dose: &AcidDose) -> AnyView {
    // Where even the largest amount is less than a scale shows, one line says so.
    let largest = dose.carbon_dioxide_gone;
    let negligible = matches!(largest, AcidAmount::Weigh(mass) if too_little(mass));
    view! {
        {amount_view(key!("form-acid-first"), dose.first)}
        {(!negligible).then(|| view! {
            {amount_view(key!("form-acid-closed"), dose.closed)}
            {amount_view(key!("form-acid-gone"), largest)}
        })}
        {remarks(&dose.remarks)}
    }
    .into_any()
}

fn amount_view(name: &str, amount: AcidAmount) -> AnyView {
    match amount {
        AcidAmount::Weigh(mass) => weigh_out(t(name), mass),
        AcidAmount::Pour(volume) if in_millilitres(volume.value) > 0.0 => pour_out(t(name), volume),
        AcidAmount::Pour(_) => ().into_any(),
    }
}
