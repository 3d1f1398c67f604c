//! Sizing agents and fillers, and their usual doses.
//! Not here: a dose for some pulp, which is `additive_dose`.

/// An additive of the vat or the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SheetAdditive {
    /// Calcium carbonate, as filler and alkaline reserve.
    CalciumCarbonate,
    /// Alkyl ketene dimer, an internal size, counted as active size.
    Akd,
    /// Cooked starch, for dry strength.
    Starch,
    /// Methyl cellulose, an internal or surface size.
    MethylCellulose,
    /// Gelatine, a surface size, counted on the sheet.
    Gelatine,
}

impl SheetAdditive {
    /// Every additive.
    pub const ALL: [Self; 5] =
        [Self::CalciumCarbonate, Self::Akd, Self::Starch, Self::MethylCellulose, Self::Gelatine];

    /// Usual dose as active substance on oven-dry fibre, low and high.
    ///
    /// Carbonate 3–6 % dosed, for 2–5 % in the sheet; AKD 0.05–0.3 % in mills;
    /// starch 0.5–2 %; methyl cellulose 0.5–2 %; gelatine 2–6 % picked up by
    /// the sheet. All from memory: no print seen.
    pub fn usual(self) -> (f64, f64) {
        match self {
            Self::CalciumCarbonate => (0.03, 0.06),
            Self::Akd => (0.0005, 0.003),
            Self::Starch | Self::MethylCellulose => (0.005, 0.02),
            Self::Gelatine => (0.02, 0.06),
        }
    }

    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::CalciumCarbonate => "sheet-additive-calcium_carbonate",
            Self::Akd => "sheet-additive-akd",
            Self::Starch => "sheet-additive-starch",
            Self::MethylCellulose => "sheet-additive-methyl_cellulose",
            Self::Gelatine => "sheet-additive-gelatine",
        }
    }

    /// Locale key of the note on it.
    pub fn note(self) -> &'static str {
        match self {
            Self::CalciumCarbonate => "sheet-note-calcium_carbonate",
            Self::Akd => "sheet-note-akd",
            Self::Starch => "sheet-note-starch",
            Self::MethylCellulose => "sheet-note-methyl_cellulose",
            Self::Gelatine => "sheet-note-gelatine",
        }
    }
}
