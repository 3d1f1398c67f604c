//! The label on the tub, as data: what it says, which hazards it states, and a
//! QR code that opens the batch. The app draws and prints it.
//!
//! A batch that was not signed off clean may be labelled; its label says
//! UNTESTED and states what unproven residue can do.

mod hazard;
mod qr;
mod tub;

pub use hazard::{Hazard, Held, Precaution, hazards, precautions, signal_word};
pub use qr::{Qr, QrRefusal};
pub use tub::Holds;

use jiff::civil::Date;

use crate::journal::StoredForm;
use crate::message::{Field, Message, Value};
use crate::pulp::sign_off::{Gap, SignOff};

pub const NAME: Field = Field("label-name");
pub const LINK: Field = Field("label-link");

/// Longest name that a tub label has room for, characters.
pub const LONGEST_NAME: usize = 60;

/// What is known of the tub.
#[derive(Clone, Debug, PartialEq)]
pub struct Tub {
    pub name: String,
    pub made: Date,
    pub fibre: String,
    /// What was done to it, each a locale key: cooked, bleached, buffered….
    pub treatment: Vec<&'static str>,
    pub form: StoredForm,
    pub keep_by: Option<Date>,
    /// How it was signed off, if it was.
    pub sign_off: Option<SignOff>,
    /// What may be in it.
    pub held: Held,
    /// What the QR code opens: the app's address with the batch's id.
    pub link: String,
}

/// The label's content.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    pub name: String,
    pub made: Date,
    pub fibre: String,
    pub treatment: Vec<&'static str>,
    pub form: StoredForm,
    pub keep_by: Option<Date>,
    /// Not signed off clean: the label says so in capitals.
    pub untested: bool,
    /// Tests that were failing or missing when it was signed all the same.
    pub gaps: Vec<Gap>,
    /// Why it was signed all the same; empty otherwise.
    pub reason: String,
    /// Locale key of "danger" or "warning", where a hazard calls for one.
    pub signal: Option<&'static str>,
    pub hazards: Vec<Hazard>,
    pub precautions: Vec<Precaution>,
    pub link: String,
    pub qr: Qr,
}

/// Why there is no label.
#[derive(Clone, Debug, PartialEq)]
pub enum LabelRefusal {
    NoName,
    NameTooLong { given: u64 },
    Qr(QrRefusal),
}

impl LabelRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        match self {
            Self::NoName => Message::new("label-refusal-no_name").beside(NAME),
            Self::NameTooLong { given } => Message::new("label-refusal-name_too_long")
                .beside(NAME)
                .with("given", Value::Count(*given))
                .with("max", Value::Count(LONGEST_NAME as u64)),
            Self::Qr(refusal) => refusal.message(),
        }
    }
}

impl Tub {
    /// The label for it.
    ///
    /// # Errors
    /// [`LabelRefusal`]: a name missing or too long for the label, a link too
    /// long for its code.
    pub fn label(&self) -> Result<Label, LabelRefusal> {
        let name = self.name.trim();
        let length = name.chars().count();
        if length == 0 {
            return Err(LabelRefusal::NoName);
        }
        if length > LONGEST_NAME {
            return Err(LabelRefusal::NameTooLong { given: length as u64 });
        }
        let untested = !self.sign_off.as_ref().is_some_and(|signed| signed.clean);
        let hazards = hazards(self.held, untested);
        Ok(Label {
            name: name.to_owned(),
            made: self.made,
            fibre: self.fibre.trim().to_owned(),
            treatment: self.treatment.clone(),
            form: self.form,
            keep_by: self.keep_by,
            untested,
            gaps: self.sign_off.as_ref().map(|signed| signed.gaps.clone()).unwrap_or_default(),
            reason: self.sign_off.as_ref().map(|s| s.reason.clone()).unwrap_or_default(),
            signal: signal_word(&hazards),
            precautions: precautions(self.held, untested),
            hazards,
            link: self.link.clone(),
            qr: Qr::of(&self.link).map_err(LabelRefusal::Qr)?,
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::pulp::sign_off::{Standing, Test};

    fn tub() -> Tub {
        Tub {
            name: "Spring nettle".to_owned(),
            made: jiff::civil::date(2026, 3, 1),
            fibre: "nettle".to_owned(),
            treatment: vec![],
            form: StoredForm::WetCold,
            keep_by: None,
            sign_off: Some(SignOff { clean: true, gaps: vec![], reason: String::new() }),
            held: Held { hypochlorite: true, peroxide: false, alkaline: false },
            link: "https://example.test/#/batch/01ARZ3NDEKTSV4RRFFQ69G5FAV".to_owned(),
        }
    }

    #[test]
    fn clean_pulp_carries_no_hazard() {
        let label = tub().label().unwrap();
        assert!(!label.untested && label.hazards.is_empty() && label.precautions.is_empty());
        assert_eq!(label.signal, None);
    }

    #[test]
    fn an_unsigned_batch_is_labelled_untested_with_its_hazards() {
        let label = Tub { sign_off: None, ..tub() }.label().unwrap();
        assert!(label.untested);
        assert_eq!(label.hazards, [Hazard::H315, Hazard::H319, Hazard::Euh031]);
        assert!(label.precautions.contains(&Precaution::NoAcid));
        assert_eq!(label.signal, Some("label-signal-warning"));
    }

    #[test]
    fn signed_with_a_reason_is_still_untested() {
        let gap = Gap { test: Test::Feel, standing: Standing::Missing };
        let signed = SignOff { clean: false, gaps: vec![gap], reason: "in a hurry".to_owned() };
        let label = Tub { sign_off: Some(signed), ..tub() }.label().unwrap();
        assert!(label.untested);
        assert_eq!((label.gaps.len(), label.reason.as_str()), (1, "in a hurry"));
    }

    #[test]
    fn untested_peroxide_must_breathe_and_alkali_is_a_danger() {
        let held = Held { hypochlorite: false, peroxide: true, alkaline: true };
        let label = Tub { sign_off: None, held, ..tub() }.label().unwrap();
        assert!(label.precautions.contains(&Precaution::Vent));
        assert_eq!(label.signal, Some("label-signal-danger"));
    }

    #[test]
    fn names_are_asked_for() {
        assert_eq!(Tub { name: "  ".into(), ..tub() }.label(), Err(LabelRefusal::NoName));
        assert!(Tub { name: "n".repeat(61), ..tub() }.label().is_err());
    }
}
