//! What is printed on the label of a tub.

use super::{Hazard, Precaution, Qr, QrError, Residues, hazards, precautions, signal_word};
use crate::journal::StoredForm;
use crate::message::{Field, Message, Value};
use crate::pulp::sign_off::{SignOff, UnmetTest};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

pub const NAME: Field = Field("label-name");

/// Longest name that fits a label, characters.
pub const LONGEST_NAME: usize = 60;

/// A tub of pulp to be labelled.
#[derive(Clone, Debug, PartialEq)]
pub struct Tub {
    pub name: String,
    pub made: Date,
    pub fibre: String,
    /// Treatments, each a locale key: cooked, bleached, buffered….
    pub treatment: Vec<&'static str>,
    pub form: StoredForm,
    pub keep_by: Option<Date>,
    /// The sign-off, if there is one.
    pub sign_off: Option<SignOff>,
    pub residues: Residues,
    /// Target of the QR code: the app's address with the id of the batch.
    pub link: String,
}

/// The content of a label.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    pub name: String,
    pub made: Date,
    pub fibre: String,
    pub treatment: Vec<&'static str>,
    pub form: StoredForm,
    pub keep_by: Option<Date>,
    /// Not signed off clean.
    pub untested: bool,
    /// Tests that were failed or missing at the sign-off.
    pub gaps: Vec<UnmetTest>,
    /// Why it was signed off all the same; empty otherwise.
    pub reason: String,
    /// Locale key of "danger" or "warning", if there is a hazard.
    pub signal: Option<&'static str>,
    pub hazards: Vec<Hazard>,
    pub precautions: Vec<Precaution>,
    pub link: String,
    pub qr: Qr,
}

/// Why a tub cannot be labelled.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelError {
    #[error("no name")]
    NoName,
    #[error("a name of {given} characters; at most {LONGEST_NAME} are accepted")]
    NameTooLong { given: u64 },
    #[error(transparent)]
    Qr(#[from] QrError),
}

impl LabelError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        match self {
            Self::NoName => Message::new("label-refusal-no_name").beside(NAME),
            Self::NameTooLong { given } => Message::new("label-refusal-name_too_long")
                .beside(NAME)
                .with("given", Value::Count(*given))
                .with("max", Value::Count(LONGEST_NAME as u64)),
            Self::Qr(error) => error.message(),
        }
    }
}

impl Tub {
    /// The label of the tub.
    ///
    /// # Errors
    /// [`LabelError`] for a missing name, a name longer than [`LONGEST_NAME`],
    /// or a link that is empty or too long for the code.
    pub fn label(&self) -> Result<Label, LabelError> {
        let name = self.name.trim();
        let length = name.chars().count();
        if length == 0 {
            return Err(LabelError::NoName);
        }
        if length > LONGEST_NAME {
            return Err(LabelError::NameTooLong { given: length as u64 });
        }
        let untested = !self.sign_off.as_ref().is_some_and(|signed| signed.clean);
        let hazards = hazards(self.residues, untested);
        Ok(Label {
            name: name.to_owned(),
            made: self.made,
            fibre: self.fibre.trim().to_owned(),
            treatment: self.treatment.clone(),
            form: self.form,
            keep_by: self.keep_by,
            untested,
            gaps: self.sign_off.as_ref().map(|signed| signed.unmet.clone()).unwrap_or_default(),
            reason: self.sign_off.as_ref().map(|s| s.reason.clone()).unwrap_or_default(),
            signal: signal_word(&hazards),
            precautions: precautions(self.residues, untested),
            hazards,
            link: self.link.clone(),
            qr: Qr::of(&self.link)?,
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::pulp::sign_off::{EndTestKind, SignOffStatus};

    fn tub() -> Tub {
        Tub {
            name: "Spring nettle".to_owned(),
            made: jiff::civil::date(2026, 3, 1),
            fibre: "nettle".to_owned(),
            treatment: vec![],
            form: StoredForm::WetCold,
            keep_by: None,
            sign_off: Some(SignOff { clean: true, unmet: vec![], reason: String::new() }),
            residues: Residues { hypochlorite: true, peroxide: false, alkaline: false },
            link: "https://example.test/#/batch/01ARZ3NDEKTSV4RRFFQ69G5FAV".to_owned(),
        }
    }

    #[test]
    fn clean_pulp_has_no_hazard_statement() {
        let label = tub().label().unwrap();
        assert!(!label.untested && label.hazards.is_empty() && label.precautions.is_empty());
        assert_eq!(label.signal, None);
    }

    #[test]
    fn a_batch_without_sign_off_is_labelled_untested_with_its_hazards() {
        let label = Tub { sign_off: None, ..tub() }.label().unwrap();
        assert!(label.untested);
        assert_eq!(label.hazards, [Hazard::H315, Hazard::H319, Hazard::Euh031]);
        assert!(label.precautions.contains(&Precaution::NoAcid));
        assert_eq!(label.signal, Some("label-signal-warning"));
    }

    #[test]
    fn a_batch_signed_off_with_a_reason_is_labelled_untested() {
        let gap = UnmetTest { test: EndTestKind::Feel, status: SignOffStatus::Missing };
        let signed = SignOff { clean: false, unmet: vec![gap], reason: "in a hurry".to_owned() };
        let label = Tub { sign_off: Some(signed), ..tub() }.label().unwrap();
        assert!(label.untested);
        assert_eq!((label.gaps.len(), label.reason.as_str()), (1, "in a hurry"));
    }

    #[test]
    fn untested_peroxide_must_be_vented_and_alkali_is_a_danger() {
        let residues = Residues { hypochlorite: false, peroxide: true, alkaline: true };
        let label = Tub { sign_off: None, residues, ..tub() }.label().unwrap();
        assert!(label.precautions.contains(&Precaution::Vent));
        assert_eq!(label.signal, Some("label-signal-danger"));
    }

    #[test]
    fn a_missing_or_long_name_is_refused() {
        assert_eq!(Tub { name: "  ".into(), ..tub() }.label(), Err(LabelError::NoName));
        assert!(Tub { name: "n".repeat(61), ..tub() }.label().is_err());
    }
}
