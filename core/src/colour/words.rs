//! Colours of pulp in plain words, and changes in shades.
//!
//! The names and their regions in CIELAB are Bleachfield's own; no standard defines them. Along
//! the way that pulp takes from raw to white they follow the steps of
//! [`PaperWhite`](super::target::PaperWhite).

use super::difference::ColourDifference;
use super::space::Lab;
use crate::message::{Message, Value};
use strum::IntoStaticStr;

/// The name of a pulp's colour, from dark to white.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, IntoStaticStr)]
#[strum(const_into_str, prefix = "colour-name-", serialize_all = "snake_case")]
pub enum ColourName {
    DarkBrown,
    Brown,
    LightBrown,
    Tan,
    Straw,
    Oat,
    Cream,
    NaturalWhite,
    BrightWhite,
    DarkGrey,
    Grey,
    LightGrey,
}

/// What a colour has beside the usual pulp of its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(const_into_str, prefix = "colour-tint-", serialize_all = "snake_case")]
pub enum Tint {
    Greenish,
    Reddish,
    Yellowish,
    Greyish,
}

impl ColourName {
    /// Names by the lowest L* of their region.
    const BY_LIGHTNESS: [(f64, Self); 9] = [
        (94.0, Self::BrightWhite),
        (91.0, Self::NaturalWhite),
        (86.0, Self::Cream),
        (78.5, Self::Oat),
        (70.0, Self::Straw),
        (60.0, Self::Tan),
        (48.0, Self::LightBrown),
        (34.0, Self::Brown),
        (f64::MIN, Self::DarkBrown),
    ];

    /// The region that a colour is in.
    pub fn of(lab: Lab) -> Self {
        if lab.chroma() < GREY_CHROMA && lab.l < 86.0 {
            return match lab.l {
                ..40.0 => Self::DarkGrey,
                ..65.0 => Self::Grey,
                _ => Self::LightGrey,
            };
        }
        let by_lightness = Self::BY_LIGHTNESS.into_iter().find(|(least, _)| lab.l >= *least);
        by_lightness.map_or(Self::DarkBrown, |(_, name)| name)
    }

    /// Locale key.
    pub fn key(self) -> &'static str {
        self.into_str()
    }
}

/// Chroma below which a colour darker than cream is a grey.
const GREY_CHROMA: f64 = 5.0;

impl Tint {
    /// The tint of a colour: hue beyond that of pulps (50 to 105 degrees), or chroma by more than
    /// a third from the usual at this lightness. `None` for usual and grey colours.
    pub fn of(lab: Lab) -> Option<Self> {
        let (chroma, usual) = (lab.chroma(), usual_chroma(lab.l));
        if chroma < GREY_CHROMA {
            return None;
        }
        match lab.hue_degrees() {
            105.0..250.0 => Some(Self::Greenish),
            250.0.. | ..50.0 => Some(Self::Reddish),
            _ if chroma > 1.4 * usual + 3.0 => Some(Self::Yellowish),
            _ if chroma < 0.6 * usual - 1.0 => Some(Self::Greyish),
            _ => None,
        }
    }

    /// Locale key.
    pub fn key(self) -> &'static str {
        self.into_str()
    }
}

/// Chroma of the steps of `PaperWhite`, and on from the darkest.
fn usual_chroma(lightness: f64) -> f64 {
    ((95.0 - lightness) * 0.75 + 2.5).clamp(2.5, 22.0)
}

/// A colour in words: "greenish straw".
pub fn named(lab: Lab) -> Message {
    let name = ColourName::of(lab).key();
    match Tint::of(lab) {
        Some(tint) => Message::new("colour-words-tinted")
            .with("tint", Value::Word(tint.key()))
            .with("name", Value::Word(name)),
        None => Message::new(name),
    }
}

/// L* of one shade: about the least step between the named colours. Own definition.
pub const SHADE: f64 = 4.0;

/// A change of lightness in words: "two shades lighter". Within its ± it is none; less than
/// half a shade is "a little".
pub fn change(difference: &ColourDifference) -> Message {
    let lightness = difference.lightness;
    if lightness.low <= 0.0 && lightness.high >= 0.0 {
        return Message::new("colour-words-same");
    }
    let shades = (lightness.value.abs() / SHADE).round() as u64;
    let lighter = lightness.value > 0.0;
    match (shades, lighter) {
        (0, true) => Message::new("colour-words-a_little_lighter"),
        (0, false) => Message::new("colour-words-a_little_darker"),
        (_, true) => Message::new("colour-words-lighter").with("shades", Value::Count(shades)),
        (_, false) => Message::new("colour-words-darker").with("shades", Value::Count(shades)),
    }
}

/// The same with the figure: "lighter by 6.2 ± 0.8", as the direction and the size.
pub fn by_lightness(difference: &ColourDifference) -> (bool, f64, f64) {
    let lightness = difference.lightness;
    (lightness.value >= 0.0, lightness.value.abs(), 0.5 * (lightness.high - lightness.low))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::difference::unrelated;
    use crate::colour::target::PaperWhite;
    use crate::quantity::{Basis, Estimate};

    #[test]
    fn steps_of_paper_have_their_names_and_no_tint() {
        let names = PaperWhite::ALL.map(|step| (ColourName::of(step.lab()), Tint::of(step.lab())));
        let wanted = [
            ColourName::Tan,
            ColourName::Straw,
            ColourName::Oat,
            ColourName::Cream,
            ColourName::NaturalWhite,
            ColourName::BrightWhite,
        ];
        assert_eq!(names, wanted.map(|name| (name, None)));
    }

    #[test]
    fn colours_off_the_way_have_a_tint() {
        let tint = |l, a, b| Tint::of(Lab { l, a, b });
        assert_eq!(tint(74.0, -8.0, 18.0), Some(Tint::Greenish));
        assert_eq!(tint(65.0, 17.0, 15.0), Some(Tint::Reddish));
        assert_eq!(tint(89.0, 0.0, 16.0), Some(Tint::Yellowish));
        assert_eq!(tint(60.0, 2.0, 8.0), Some(Tint::Greyish));
        assert_eq!(ColourName::of(Lab { l: 70.0, a: 0.0, b: 2.0 }), ColourName::LightGrey);
    }

    #[test]
    fn a_change_is_counted_in_shades_beyond_its_range() {
        let lab = |l: f64, half: f64| {
            [l, 1.0, 15.0].map(|value| Estimate {
                value,
                low: value - half,
                high: value + half,
                basis: Basis::Measured,
            })
        };
        let change = |from, to, half| change(&unrelated(lab(from, half), lab(to, half))).key;
        assert_eq!(change(60.0, 61.0, 1.0), "colour-words-same");
        assert_eq!(change(60.0, 61.5, 0.5), "colour-words-a_little_lighter");
        assert_eq!(change(60.0, 68.0, 0.5), "colour-words-lighter");
        assert_eq!(change(68.0, 60.0, 0.5), "colour-words-darker");
    }
}
