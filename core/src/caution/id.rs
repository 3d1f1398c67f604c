//! The known hazards: id, severity, message keys.
//! Where each applies is in `rule`.

use crate::message::Message;
use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantArray};

/// One hazard in the present situation.
#[derive(Clone, Debug, PartialEq)]
pub struct Caution {
    pub id: CautionId,
    pub severity: Severity,
    /// Key `caution-<id>-say`, with values.
    pub message: Message,
    /// The source that describes the hazard.
    pub source: &'static str,
}

impl Caution {
    /// Whether a person may dismiss it for good: neither danger nor the
    /// precedence of labels, codes and licensed practice.
    pub fn dismissable(&self) -> bool {
        self.severity != Severity::Danger && self.id != CautionId::LabelFirst
    }
}

/// How grave a hazard is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// For information.
    Note,
    /// Fibre, surfaces or skin may be hurt.
    Care,
    /// People may be hurt. Never dismissable.
    Danger,
}

/// Every known hazard, in the order of the list in Help. New ones are appended.
#[derive(
    Clone,
    Copy,
    Debug,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    IntoStaticStr,
    VariantArray,
)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "caution-", suffix = "-say", serialize_all = "snake_case")]
pub enum CautionId {
    /// Hypochlorite and acid: chlorine.
    BleachWithAcid,
    /// The pH is, or will be, where the liquor releases chlorine.
    ChlorineFromLiquor,
    /// Acid is next, and the residual is unknown.
    ResidualUnknown,
    /// Hypochlorite and ammonia or amines: chloramines.
    BleachWithAmmonia,
    /// Hypochlorite and peroxide in one vessel: oxygen, heat, splashes.
    BleachWithPeroxide,
    /// Hypochlorite and alcohol or acetone: chloroform and related compounds.
    BleachWithSolvent,
    /// Percarbonate liquor or wet powder in a closed vessel.
    PeroxideClosed,
    /// Percarbonate above 50 °C.
    PeroxideHot,
    /// Spilt powder returned to the container.
    PowderReturned,
    /// Hypochlorite above 40 °C.
    HypochloriteHot,
    /// Hypochlorite bath below its pH window.
    HypochloritePhLow,
    /// Hot pulp or liquor in a blender or a closed beater.
    BlendingHot,
    /// Pulp with active peroxide in a blender.
    BlendingPeroxide,
    /// Pulp with active hypochlorite in a blender.
    BlendingBleach,
    /// Peroxide as antichlor on too strong a hypochlorite, or in a closed vessel.
    PeroxideAsAntichlor,
    /// Sulfite or thiosulfate with acid: sulfur dioxide.
    SulfiteWithAcid,
    /// Aluminium with anything alkaline: hydrogen.
    AluminiumWithAlkali,
    /// Metals that hypochlorite corrodes or that catalyse decomposition.
    MetalWithBleach,
    /// Bleach heated on a flame or a hob.
    HeatingBleach,
    /// Hot water or liquor: scalds.
    Scald,
    /// Stronger than household bleach.
    StrongBottle,
    /// A charge above the customary range.
    HighCharge,
    /// Eye and hand protection.
    EyesAndHands,
    /// Ventilation.
    Air,
    /// Add powder, acid and alkali to water, never water to them.
    IntoWater,
    /// Cool, dark, vented, apart from acids.
    StoringBleach,
    /// Pulp stored with bleach left in it.
    StoringPulp,
    /// Drain one bath at a time.
    DrainOneAtATime,
    /// Strong liquor is diluted or used up before draining.
    DrainStrong,
    /// Equipment is not used for food again.
    NotForFood,
    /// Product label, local codes and licensed practice come first.
    LabelFirst,
    /// A stronger bath than practice has.
    StrongBath,
    /// Hypochlorite for many hours.
    LongBath,
    /// pH above 12: skin and eyes.
    AlkaliBurns,
    /// pH above 12: fibre.
    AlkaliSwellsFibre,
    /// Peroxide and acetone or alcohol: explosive peroxides and mixtures.
    PeroxideWithSolvent,
    /// Peroxide and acid: peracetic acid; percarbonate foams.
    PeroxideWithAcid,
    /// Rust catalyses the decomposition of peroxide.
    PeroxideWithRust,
    /// The pH matters and is unknown; so with the next four.
    PhUnknown,
    TemperatureUnknown,
    /// Strength or charge.
    DoseUnknown,
    TimeUnknown,
    /// Strength of the bottle.
    BottleUnknown,
}

/// A measured fact that cautions rest on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fact {
    Ph,
    Temperature,
    /// Strength or charge.
    Dose,
    Time,
    /// Strength of the bottle.
    Bottle,
}

impl CautionId {
    pub const ALL: &[CautionId] = <CautionId as VariantArray>::VARIANTS;

    /// The measured fact that decides whether the hazard is there. Where that fact is unknown,
    /// the caution that says so stands for all others that rest on it.
    pub fn fact(self) -> Option<Fact> {
        Some(match self {
            Self::ChlorineFromLiquor
            | Self::HypochloritePhLow
            | Self::AlkaliBurns
            | Self::AlkaliSwellsFibre
            | Self::PhUnknown => Fact::Ph,
            Self::PeroxideHot
            | Self::HypochloriteHot
            | Self::BlendingHot
            | Self::Scald
            | Self::TemperatureUnknown => Fact::Temperature,
            Self::HighCharge | Self::StrongBath | Self::DrainStrong | Self::DoseUnknown => {
                Fact::Dose
            }
            Self::LongBath | Self::TimeUnknown => Fact::Time,
            Self::StrongBottle | Self::BottleUnknown => Fact::Bottle,
            _ => return None,
        })
    }

    /// Whether this bath's own figures make the hazard. Others stand for every bath of its kind,
    /// whatever its figures.
    pub fn is_of_this_bath(self) -> bool {
        let of_figures = self.fact().is_some() && self != Self::Scald;
        of_figures
            || matches!(
                self,
                Self::BleachWithPeroxide | Self::BlendingPeroxide | Self::BlendingBleach
            )
    }

    /// Whether this says that a fact is unknown.
    pub fn is_of_unknown(self) -> bool {
        matches!(
            self,
            Self::PhUnknown
                | Self::TemperatureUnknown
                | Self::DoseUnknown
                | Self::TimeUnknown
                | Self::BottleUnknown
        )
    }

    /// Locale key of the heading.
    pub fn title(self) -> String {
        self.say().replace("-say", "-title")
    }

    /// The name in stored plans, the same since format 1.
    pub fn stored_name(self) -> String {
        self.say().replace('-', ".")
    }

    /// Locale key of the sentences.
    pub fn say(self) -> &'static str {
        self.into_str()
    }
}
