//! Hazard rules: each a condition on the plan or the log, a severity, the words, a source.
//!
//! A caution shows where the act happens. What is not known counts as the worse
//! case: nobody is told that acid is safe because a test was not made.

mod rule;
mod situation;
#[cfg(test)]
mod tests;

pub use situation::{Act, Material, Residual, Situation};

use crate::message::Message;
use serde::{Deserialize, Serialize};

/// The cautions for `act` in this situation, the gravest first. The last is
/// always [`CautionId::LabelFirst`].
pub fn cautions(act: Act, situation: &Situation) -> Vec<Caution> {
    let mut found: Vec<Caution> =
        CautionId::ALL.iter().filter_map(|id| id.look(act, situation)).collect();
    found.sort_by_key(|caution| {
        (caution.id == CautionId::LabelFirst, std::cmp::Reverse(caution.severity))
    });
    found
}

/// One hazard, as it stands now.
#[derive(Clone, Debug, PartialEq)]
pub struct Caution {
    pub id: CautionId,
    pub severity: Severity,
    /// Key `caution-<id>-say`, with values.
    pub message: Message,
    /// Where the hazard is described.
    pub source: &'static str,
}

impl Caution {
    /// Whether a reader may put it away for good. Danger never, nor the line
    /// that labels, codes and licensed practice come first.
    pub fn dismissable(&self) -> bool {
        self.severity != Severity::Danger && self.id != CautionId::LabelFirst
    }
}

/// How grave a hazard is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Good to know.
    Note,
    /// Take care: fibre, surfaces or skin may be hurt.
    Care,
    /// People may be hurt. Never put away.
    Danger,
}

macro_rules! ids {
    ($($(#[$about:meta])* $name:ident = $key:literal;)*) => {
        /// Every hazard that Bleachfield knows.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum CautionId {
            $($(#[$about])* $name,)*
        }

        impl CautionId {
            /// All of them, in the order of the list in Help.
            pub const ALL: &[CautionId] = &[$(CautionId::$name,)*];

            /// Locale key of the heading.
            pub fn title(self) -> &'static str {
                match self {
                    $(CautionId::$name => concat!("caution-", $key, "-title"),)*
                }
            }

            /// The name that stored plans have recorded it under since format 1.
            pub fn stored_name(self) -> &'static str {
                match self {
                    $(CautionId::$name => concat!("caution.", $key, ".say"),)*
                }
            }

            /// Locale key of the sentences.
            pub fn say(self) -> &'static str {
                match self {
                    $(CautionId::$name => concat!("caution-", $key, "-say"),)*
                }
            }
        }
    };
}

ids! {
    /// Hypochlorite and acid: chlorine.
    BleachWithAcid = "bleach_with_acid";
    /// The pH is, or would come, where the liquor gives off chlorine.
    ChlorineFromLiquor = "chlorine_from_liquor";
    /// Acid next, and nobody tested for bleach left.
    ResidualUnknown = "residual_unknown";
    /// Hypochlorite and ammonia, or anything with it: chloramines.
    BleachWithAmmonia = "bleach_with_ammonia";
    /// Hypochlorite and peroxide in one vessel: oxygen, heat, splashes.
    BleachWithPeroxide = "bleach_with_peroxide";
    /// Hypochlorite and alcohol or acetone: chloroform and others.
    BleachWithSolvent = "bleach_with_solvent";
    /// Percarbonate liquor or wet powder in a closed vessel.
    PeroxideClosed = "peroxide_closed";
    /// Percarbonate above 50 °C, and further up.
    PeroxideHot = "peroxide_hot";
    /// Spilt powder back into the tub.
    PowderReturned = "powder_returned";
    /// Hypochlorite above 40 °C.
    HypochloriteHot = "hypochlorite_hot";
    /// Hypochlorite bath below pH 9.
    HypochloritePhLow = "hypochlorite_ph_low";
    /// Hot pulp or liquor in a blender or a closed beater.
    BlendingHot = "blending_hot";
    /// Pulp with live peroxide in a blender.
    BlendingPeroxide = "blending_peroxide";
    /// Pulp with live hypochlorite in a blender.
    BlendingBleach = "blending_bleach";
    /// Peroxide poured on hypochlorite as an antichlor, too strong or closed.
    PeroxideAsAntichlor = "peroxide_as_antichlor";
    /// Sulfite or thiosulfate with acid: sulfur dioxide.
    SulfiteWithAcid = "sulfite_with_acid";
    /// Aluminium with anything alkaline: hydrogen.
    AluminiumWithAlkali = "aluminium_with_alkali";
    /// Metals that hypochlorite eats or that make either bleach run away.
    MetalWithBleach = "metal_with_bleach";
    /// Bleach on a flame or a hob.
    HeatingBleach = "heating_bleach";
    /// Hot water by the bucket.
    Scald = "scald";
    /// Stronger than household bleach.
    StrongBottle = "strong_bottle";
    /// A charge beyond what is customary.
    HighCharge = "high_charge";
    /// Eyes and hands.
    EyesAndHands = "eyes_and_hands";
    /// Air.
    Air = "air";
    /// Powder, acid and alkali go into water, never water onto them.
    IntoWater = "into_water";
    /// Cool, dark, vented, apart from acids.
    StoringBleach = "storing_bleach";
    /// Pulp stored with bleach left in it.
    StoringPulp = "storing_pulp";
    /// One bath down the drain at a time.
    DrainOneAtATime = "drain_one_at_a_time";
    /// Strong liquor down the drain.
    DrainStrong = "drain_strong";
    /// Nothing that food will touch.
    NotForFood = "not_for_food";
    /// Product label, local codes and licensed practice come first.
    LabelFirst = "label_first";
}
