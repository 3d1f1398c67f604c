//! JSON of the enums that records and worker messages contain.

use super::error::ColourError;
use super::reference::Light;
use super::reversion::Ageing;
use super::role::PatchRole;
use super::target::PaperWhite;
use super::uncertainty::UncertaintySource;
use crate::{choice, words};

words!(PatchRole {
    White = "white",
    SecondWhite = "second_white",
    Grey = "grey",
    Pulp = "pulp",
});

words!(UncertaintySource {
    Pulp = "pulp",
    White = "white",
    WhiteValue = "white_value",
    Tone = "tone",
    Light = "light",
    Camera = "camera",
});

words!(Light {
    Daylight = "daylight",
    Bulb = "bulb",
    GoodLamp = "good_lamp",
    OtherLamp = "other_lamp",
});

words!(Ageing { Window = "window", WarmOven = "warm_oven", Dark = "dark" });

words!(PaperWhite {
    Raw = "raw",
    Straw = "straw",
    Oat = "oat",
    Cream = "cream",
    Natural = "natural",
    Bright = "bright",
});

choice!(ColourError {
    NoReference = "no_reference",
    ImpossibleReference { place } = "impossible_reference",
    OutsidePhoto { place } = "outside_photo",
    Overlapping { place } = "overlapping",
    TooSmall { place, side, least } = "too_small",
    Clipped { place, share } = "clipped",
    TooDark { code, least } = "too_dark",
    TooBright { code, most } = "too_bright",
    Blurred { edge, most } = "blurred",
    UnevenPatch { place, difference, most } = "uneven_patch",
    UnevenLight { difference, most } = "uneven_light",
    MixedLight { difference, most } = "mixed_light",
    GreyOff { lightness, chroma } = "grey_off",
    ColouredLight { ratio, most } = "coloured_light",
    PoorLamp = "poor_lamp",
});
