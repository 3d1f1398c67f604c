//! The dissolved species of the model.

/// A dissolved molecule or ion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[repr(usize)]
pub enum Species {
    Hydrogen,
    Hydroxide,
    CarbonDioxide,
    Bicarbonate,
    Carbonate,
    Chlorine,
    HypochlorousAcid,
    Hypochlorite,
    Chloride,
    HydrogenPeroxide,
    Perhydroxyl,
    AceticAcid,
    Acetate,
    CitricAcid,
    DihydrogenCitrate,
    HydrogenCitrate,
    Citrate,
}

impl Species {
    pub const COUNT: usize = 17;

    /// All, in order of their discriminants.
    pub const ALL: [Self; Self::COUNT] = [
        Self::Hydrogen,
        Self::Hydroxide,
        Self::CarbonDioxide,
        Self::Bicarbonate,
        Self::Carbonate,
        Self::Chlorine,
        Self::HypochlorousAcid,
        Self::Hypochlorite,
        Self::Chloride,
        Self::HydrogenPeroxide,
        Self::Perhydroxyl,
        Self::AceticAcid,
        Self::Acetate,
        Self::CitricAcid,
        Self::DihydrogenCitrate,
        Self::HydrogenCitrate,
        Self::Citrate,
    ];

    /// Charge number.
    pub fn charge(self) -> i32 {
        match self {
            Self::Hydrogen => 1,
            Self::CarbonDioxide
            | Self::Chlorine
            | Self::HypochlorousAcid
            | Self::HydrogenPeroxide
            | Self::AceticAcid
            | Self::CitricAcid => 0,
            Self::Hydroxide
            | Self::Bicarbonate
            | Self::Hypochlorite
            | Self::Chloride
            | Self::Perhydroxyl
            | Self::Acetate
            | Self::DihydrogenCitrate => -1,
            Self::Carbonate | Self::HydrogenCitrate => -2,
            Self::Citrate => -3,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn discriminants_follow_the_order_of_all() {
        for (number, species) in Species::ALL.into_iter().enumerate() {
            assert_eq!(species as usize, number);
        }
    }
}
