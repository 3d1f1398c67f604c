//! A neutral finish with acid: only once the log proves that no chlorine is left.

use bleachfield_core::{
    caution::Act,
    chemistry::acid_dose::{
        AcidAmount, AcidDose, AlkaliEvidence, NeutralisingAcid, Residue, STRENGTH, TARGET_PH,
        VOLUME, acid_dose,
    },
    derive::{SignOffEvidence, WashRecord},
    journal::{self, AcidFinished, Amount, Body},
    message::{Field, Message},
    pulp::{sign_off::ZeroChlorine, wash::Alkali},
    quantity::{Basis, Estimate, QuantityKind, Unit, in_grams, in_millilitres, millilitres},
};
use leptos::prelude::*;

use super::{BatchWriter, Cautions, Save, asks};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, TextField, icon},
    i18n::{format_number, key, render, sentence_case, t},
    route::BatchForm,
    screens::calculator::sums::{fields, pour_out, refusal, remarks, too_little, weigh_out},
};

const RESIDUE_PH: Field = Field("acid-residue_ph");
const POURED: Field = Field("acid-poured");

/// The water in the bucket where nobody has measured it, °C (common practice, no source).
const WATER_CELSIUS: f64 = 15.0;

#[component]
pub fn AcidForm(writing: BatchWriter) -> impl IntoView {
    let proof = writing.studio.book_now(|book| {
        let evidence =
            book.batches.get(&writing.batch).map(SignOffEvidence::of).unwrap_or_default();
        ZeroChlorine::from_log(&evidence.log, evidence.last_oxidant)
    });
    match proof {
        Ok(proof) => finish(writing, proof),
        Err(gap) => {
            let why = gap.no_acid();
            view! {
                <div class="stack">
                    <div class="caution danger" role="alert">
                        <span class="severity"><icon::Hand />{t!("caution-severity-danger")}</span>
                        <p>{render(&why)}</p>
                    </div>
                    <p>{render(&gap.message())}</p>
                    <button class="button touch" on:click=move |_| writing.show(BatchForm::EndTest)>
                        {t!("next-end_tests")}
                    </button>
                    <button class="button touch soft" on:click=move |_| writing.show(BatchForm::Antichlor)>
                        {t!("form-antichlor-short")}
                    </button>
                </div>
            }
            .into_any()
        }
    }
}

/// What a dose asks. Copied freely.
#[derive(Clone, Copy)]
struct Asked {
    proof: ZeroChlorine,
    acid: RwSignal<usize>,
    alkali: Alkali,
    ph: NumberInput,
    volume: NumberInput,
    target: NumberInput,
    strength: NumberInput,
}

impl Asked {
    fn acid(self) -> Option<NeutralisingAcid> {
        Some(match self.acid.get() {
            0 => NeutralisingAcid::CitricAnhydrous,
            1 => NeutralisingAcid::CitricMonohydrate,
            _ => NeutralisingAcid::Vinegar { grams_per_100_ml: self.strength.base()? },
        })
    }

    fn dose(self) -> Option<Result<AcidDose, Message>> {
        let (ph, volume, target) = (self.ph.base()?, self.volume.base()?, self.target.base()?);
        let acid = self.acid()?;
        Some(self.dose_of(acid, ph, volume, target))
    }

    fn dose_of(
        self,
        acid: NeutralisingAcid,
        ph: f64,
        volume: f64,
        target: f64,
    ) -> Result<AcidDose, Message> {
        let residue = Residue {
            alkali: self.alkali,
            evidence: AlkaliEvidence::Strip { ph },
            volume: Estimate::within(millilitres(volume), 0.1, Basis::Measured),
            celsius: WATER_CELSIUS,
        };
        acid_dose(self.proof, acid, &residue, target).map_err(|why| why.message())
    }
}

fn finish(writing: BatchWriter, proof: ZeroChlorine) -> AnyView {
    let record = writing
        .studio
        .book_now(|book| book.batches.get(&writing.batch).map(|batch| WashRecord::of(book, batch)));
    let ph = record.and_then(|record| record.readings.ph).map(|ph| ph.value);
    let held = record.and_then(|record| record.pulp).map(|pulp| in_grams(pulp.held().value));
    let filled =
        |value: Option<f64>| value.map(|value| format_number(value, 3)).unwrap_or_default();
    let asked = Asked {
        proof,
        acid: RwSignal::new(0),
        alkali: record.map_or(Alkali::SodaAsh, |record| record.readings.alkali),
        ph: NumberInput::new(RESIDUE_PH, QuantityKind::Ph).filled(filled(ph)),
        volume: NumberInput::new(VOLUME, QuantityKind::Volume)
            .unit(Unit::Litre)
            .filled(filled(held.map(|grams| grams / 1000.0))),
        target: NumberInput::new(TARGET_PH, QuantityKind::Ph).filled("7.5"),
        strength: NumberInput::new(STRENGTH, QuantityKind::Number).filled("5"),
    };
    let weighed = NumberInput::new(asks::GRAMS, QuantityKind::Mass);
    let poured = NumberInput::new(POURED, QuantityKind::Volume).unit(Unit::Millilitre);
    let ph_after = NumberInput::new(asks::PH_SQUEEZED, QuantityKind::Ph).optional();
    let note = RwSignal::new(String::new());
    let situation = Signal::stored(writing.situation());
    let refused = Signal::derive(move || asked.dose().and_then(Result::err));
    let vinegar = move || asked.acid.get() == 2;
    let run = Callback::new(move |()| {
        let amount = if vinegar() { poured } else { weighed };
        if !asks::all_well(&[amount, ph_after, asked.ph]) {
            return;
        }
        let Some(measured) = asks::figure(amount, 1.0, Basis::Measured) else { return };
        let (acid, amount) = if vinegar() {
            (journal::Acid::Acetic, Amount::VolumeMl(measured))
        } else {
            (journal::Acid::Citric, Amount::MassG(measured))
        };
        writing.save(Body::AcidFinished(AcidFinished {
            acid,
            product: None,
            amount,
            ph_before: asks::figure(asked.ph, 1.0, Basis::Strip),
            ph_after: asks::figure(ph_after, 1.0, Basis::Strip),
            note: note.get_untracked().trim().to_owned(),
        }));
    });
    let kinds = [NeutralisingAcid::CitricAnhydrous, NeutralisingAcid::CitricMonohydrate, VINEGAR];
    let kinds = kinds.map(|acid| sentence_case(t(acid.word())));
    view! {
        <div class="stack">
            <p class="good">{t!("form-acid-proven")}</p>
            <Cautions act=Act::AddingAcid situation />
            <RadioGroup label=t!("form-acid-which") value=asked.acid
                options=kinds.into_iter().enumerate().collect() />
            {move || vinegar().then(|| view! { <NumberField ask=asked.strength refused /> })}
            {fields(&[asked.ph, asked.volume, asked.target], refused)}
            <div class="stack" aria-live="polite">
                {move || match asked.dose() {
                    None => view! { <p class="soft">{t!("form-acid-waiting")}</p> }.into_any(),
                    Some(Err(why)) => refusal(&why),
                    Some(Ok(dose)) => view! {
                        {measured(key!("form-acid-first"), dose.first)}
                        {(!no_scale_shows(dose.carbon_dioxide_gone)).then(|| view! {
                            {measured(key!("form-acid-closed"), dose.closed)}
                            {measured(key!("form-acid-gone"), dose.carbon_dioxide_gone)}
                        })}
                        {remarks(&dose.remarks)}
                    }
                    .into_any(),
                }}
            </div>
            <h3>{t!("form-as_done")}</h3>
            {move || if vinegar() {
                view! { <NumberField ask=poured /> }
            } else {
                view! { <NumberField ask=weighed /> }
            }}
            <NumberField ask=ph_after hint=t!("form-rinse-ph_hint") />
            <TextField label=t!("form-note-optional") text=note />
            <Save writing run />
        </div>
    }
    .into_any()
}

/// Vinegar of the usual strength, for its name alone.
const VINEGAR: NeutralisingAcid = NeutralisingAcid::Vinegar { grams_per_100_ml: 5.0 };

/// Even all of it is less than a scale shows: it is said once.
fn no_scale_shows(measure: AcidAmount) -> bool {
    matches!(measure, AcidAmount::Weigh(mass) if too_little(mass))
}

fn measured(name: &str, measure: AcidAmount) -> AnyView {
    match measure {
        AcidAmount::Weigh(mass) => weigh_out(t(name), mass),
        AcidAmount::Pour(volume) if in_millilitres(volume.value) > 0.0 => pour_out(t(name), volume),
        AcidAmount::Pour(_) => ().into_any(),
    }
}
