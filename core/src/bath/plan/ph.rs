//! The pH that the made-up bath will have, and what brings it into its window.
//!
//! What decides it is seldom measured: the lye in the bottle or the soda that fills the powder,
//! the cook's alkali that the pulp still carries, and the bicarbonate of tap water, which
//! swallows lye. Each enters with its range, so that the answer says which to measure.

use super::{Bleach, Request};
use crate::{
    chemistry::{
        Refusal,
        alkali::{self, Alkali, BICARBONATE, WATER_BICARBONATE, Window},
        equilibrium::{Constants, Mix, Reagent},
        substance::{
            CHLORINE, HYDROGEN_PEROXIDE, SODIUM_CARBONATE, SODIUM_PERCARBONATE, in_moles_per_litre,
            moles_per_litre,
        },
    },
    message::{Field, Message, Value},
    quantity::{
        Basis, Figure, Input, Kind, Known, Mass, MassConcentration, OutOfRange, Volume, grams,
        grams_per_litre, in_grams_per_litre, in_millilitres, spread,
    },
};

/// The cook's alkali that rinsed pulp still holds, by the liquor squeezed out of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Squeezed {
    /// What a strip or meter shows of it, at room temperature.
    pub ph: Known<f64>,
    pub cooked_in: CookedIn,
}

/// What the alkali in the pulp is made of. At one pH soda carries far more of it than lye.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CookedIn {
    /// Soda ash, washing soda, wood ash.
    Soda,
    /// Lye or lime; air turns some of it to soda while the pulp stands.
    Lye,
    Unknown,
}

impl Squeezed {
    /// Pulp of which nobody tested the squeezed-out liquor: rinsed until it no longer feels
    /// slippery, 8.5, 7 to 10 (common practice, no source).
    pub fn unknown() -> Self {
        let ph = Known { value: 8.5, low: 7.0, high: 10.0, basis: Basis::Assumed };
        Self { ph, cooked_in: CookedIn::Unknown }
    }

    pub(super) fn check(&self) -> Result<(), OutOfRange> {
        self.ph.check(CARRY_OVER_PH, Kind::Ph, 0.0, 14.0).map(|_| ())
    }
}

/// The field that the pH of squeezed-out liquor is asked in.
pub const CARRY_OVER_PH: Field = Field("carry_over_ph");
/// What the carried alkali is made of, where that decides a range.
pub const CARRIED_ALKALI: Field = Field("carried_alkali");
/// Free lye in the bottle.
pub const BOTTLE_LYE: Field = Field("bottle_lye");
/// Soda ash in what is no percarbonate.
pub const POWDER_FILLER: Field = Field("powder_filler");

/// The pH that the bath is made up to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foreseen {
    pub ph: Figure<f64>,
    /// Where it should be.
    pub window: Window,
    /// The pulp brings alkali along; over-rinsed pulp brings none.
    pub pulp_brings_alkali: bool,
    /// All the liquor.
    liquor: Volume,
    mix: Mix,
}

/// What to do about it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PhHelp {
    /// It is in its window.
    Leave,
    /// Below: dissolve this much in water and stir it in, the low end first.
    Add { alkali: Alkali, mass: Known<Mass> },
    /// Above: rinse the pulp better, or make the bath larger. Never acid.
    TooHigh,
}

impl Foreseen {
    /// What to add to the whole bath, of this alkali.
    ///
    /// # Errors
    /// A window that this alkali does not reach.
    pub fn help(&self, alkali: Alkali) -> Result<PhHelp, Refusal> {
        let litres = in_millilitres(self.liquor) / 1000.0;
        let advice = alkali::from_reading(&self.mix, self.ph.known(), self.window, alkali)?;
        Ok(match advice {
            alkali::Advice::Leave { .. } => PhHelp::Leave,
            alkali::Advice::TooHigh { .. } => PhHelp::TooHigh,
            alkali::Advice::Add { alkali, dose, .. } => {
                let mass = dose.map(|dose| grams(in_grams_per_litre(dose) * litres));
                PhHelp::Add { alkali, mass }
            }
        })
    }

    /// What the range says beyond its middle.
    pub(super) fn remarks(&self) -> Vec<Message> {
        let Window { low, high, .. } = self.window;
        let ph = |key, value| Message::new(key).with("ph", Value::Ph(value));
        let mut remarks = Vec::new();
        if self.ph.low < low && !self.pulp_brings_alkali {
            remarks.push(Message::new("remark-over_rinsed"));
        }
        if self.ph.value >= low && self.ph.low < low {
            remarks.push(ph("remark-ph_may_be_low", self.ph.low));
        }
        if self.ph.value <= high && self.ph.high > high {
            remarks.push(ph("remark-ph_may_be_high", self.ph.high));
        }
        remarks
    }
}

/// What is measured out, as far as the pH asks.
pub(super) struct MadeUp {
    /// Available chlorine or H2O2 in all the liquor.
    pub(super) strength: MassConcentration,
    /// mL of a bottle, g of a powder.
    pub(super) dose: f64,
    pub(super) pulp_water: Volume,
    pub(super) liquor: Volume,
}

/// The pH of what `request` comes to once it is `made` up.
///
/// # Errors
/// Outside 5-80 °C, or too much salt for the activity model.
pub(super) fn foresee(request: &Request, made: &MadeUp) -> Result<Foreseen, Refusal> {
    let squeezed = request.squeezed.unwrap_or_else(Squeezed::unknown);
    let bath = Constants::at(request.temperature.get())?;
    let carried = Carried { room: Mix::new(SQUEEZED_AT)? };
    let share = |part: f64| part / in_millilitres(made.liquor);
    let (dose, pulp) = (share(made.dose), share(in_millilitres(made.pulp_water)).min(1.0));
    let (own, bleach, window) = match request.bleach {
        Bleach::Hypochlorite(_) => {
            let bleach = Mix::at(bath).with_bleach(CHLORINE.molar(made.strength));
            (
                Input::of(BOTTLE_LYE, lye(in_grams_per_litre(made.strength) / dose)),
                bleach,
                Window::HYPOCHLORITE,
            )
        }
        Bleach::Percarbonate(_) => {
            let peroxide = in_moles_per_litre(HYDROGEN_PEROXIDE.molar(made.strength));
            let bleach = Mix::at(bath).with_percarbonate(moles_per_litre(peroxide / 1.5));
            (Input::of(POWDER_FILLER, FILLER), bleach, Window::PEROXIDE)
        }
    };
    let powder = matches!(request.bleach, Bleach::Percarbonate(_));
    let water = if powder { 1.0 } else { 1.0 - dose };
    let filled = |mix: Mix, own: f64| match powder {
        false => mix.with_lye(moles_per_litre(own * dose)),
        true => {
            let pure = in_grams_per_litre(made.strength) / HYDROGEN_PEROXIDE.grams_per_mole / 1.5
                * SODIUM_PERCARBONATE.grams_per_mole;
            let rest = (1000.0 * dose - pure).max(0.0);
            mix.with_soda_ash(SODIUM_CARBONATE.molar(grams_per_litre(own * rest)))
        }
    };
    let middle = carried.at(squeezed.ph.value, BICARBONATE.value)?;
    let mix_of = |&[ph, soda, own, bicarbonate]: &[f64; 4]| -> Result<Mix, Refusal> {
        // Only two of the four inputs move what is carried, and it costs the most.
        let here = ph == squeezed.ph.value && bicarbonate == BICARBONATE.value;
        let alkali = if here { middle } else { carried.at(ph, bicarbonate)? };
        let (lye, ash) = alkali.shared(soda);
        Ok(filled(bleach, own)
            .with_baking_soda(moles_per_litre(bicarbonate * water))
            .with_lye(moles_per_litre(lye * pulp))
            .with_soda_ash(moles_per_litre(ash * pulp)))
    };
    let inputs = [
        Input::of(CARRY_OVER_PH, squeezed.ph),
        Input::of(CARRIED_ALKALI, squeezed.cooked_in.soda()),
        own,
        Input::of(WATER_BICARBONATE, BICARBONATE),
    ];
    let mix = mix_of(&inputs.map(|input| input.value))?;
    let alone = mix.solve()?;
    let ph = |x: &[f64; 4]| [mix_of(x).and_then(|mix| mix.solve()).map_or(f64::NAN, |s| s.ph())];
    let ph = match spread(&inputs, ph) {
        Some([ph]) => ph,
        // An end of a range is beyond the model: the middle stands, with no honest range.
        None => return Err(too_wide(&alone)),
    };
    let pulp_brings_alkali = middle.as_lye > 0.0;
    Ok(Foreseen { ph, window, pulp_brings_alkali, liquor: made.liquor, mix })
}

fn too_wide(at: &crate::chemistry::equilibrium::Solution) -> Refusal {
    Refusal::TooConcentrated { ionic_strength: at.ionic_strength(), highest: 1.0 }
}

/// What the pulp's own water carries.
struct Carried {
    /// Pure water at [`SQUEEZED_AT`].
    room: Mix,
}

/// mol/L in the pulp's water: all lye, or all soda ash, where soda can read so high.
#[derive(Clone, Copy)]
struct Alkalinity {
    as_lye: f64,
    as_soda: Option<f64>,
}

impl Carried {
    /// Tap water of so much bicarbonate that reads `ph` by what it carries besides.
    fn at(&self, ph: f64, bicarbonate: f64) -> Result<Alkalinity, Refusal> {
        let tap = self.room.with_baking_soda(moles_per_litre(bicarbonate));
        let dose = |reagent| match tap.dose(reagent, ph) {
            Ok(dose) => Ok(Some(in_moles_per_litre(dose))),
            Err(Refusal::Unreachable { .. } | Refusal::TooConcentrated { .. }) => Ok(None),
            Err(refusal) => Err(refusal),
        };
        if ph <= tap.solve()?.ph() {
            return Ok(Alkalinity { as_lye: 0.0, as_soda: Some(0.0) });
        }
        match dose(Reagent::Lye)? {
            Some(as_lye) => Ok(Alkalinity { as_lye, as_soda: dose(Reagent::SodaAsh)? }),
            None => Err(Refusal::Unreachable { target_ph: ph }),
        }
    }
}

impl Alkalinity {
    /// Lye and soda ash, mol/L, where `soda` of the alkali is soda.
    fn shared(self, soda: f64) -> (f64, f64) {
        match self.as_soda {
            Some(ash) => ((1.0 - soda) * self.as_lye, soda * ash),
            None => (self.as_lye, 0.0),
        }
    }
}

impl CookedIn {
    /// How much of it is soda (common practice, no source).
    fn soda(self) -> Known<f64> {
        let (value, low, high) = match self {
            Self::Soda => (1.0, 0.7, 1.0),
            Self::Lye => (0.2, 0.0, 0.5),
            Self::Unknown => (0.5, 0.0, 1.0),
        };
        Known { value, low, high, basis: Basis::Assumed }
    }
}

/// °C at which a strip is held to squeezed-out liquor (common practice, no source).
const SQUEEZED_AT: f64 = 20.0;

/// Free lye in a bottle of so much available chlorine, mol/L. Household bleach reads pH 11.5 to
/// 13 (safety data sheets, from memory); trade liquors, stronger than 8.25 % NaOCl, are made
/// with 0.2 to 0.73 % NaOH by mass (Powell Fabrication, specific gravity tables; read).
fn lye(bottle_grams_per_litre: f64) -> Known<f64> {
    let (value, low, high) =
        if bottle_grams_per_litre > 88.0 { (0.1, 0.05, 0.2) } else { (0.03, 0.005, 0.1) };
    Known { value, low, high, basis: Basis::Assumed }
}

/// Soda ash in what is no percarbonate of a powder: laundry powders are filled with it, pure
/// powder is hardly filled at all (from memory).
const FILLER: Known<f64> = Known { value: 0.5, low: 0.0, high: 1.0, basis: Basis::Assumed };

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::{
        bath::{Aim, Bottle, LabelBasis, Plan, Powder, PowderBasis, Reason, Size, Way, plan},
        caution::Residual,
        chemistry::compatibility::Ingredient,
        pulp::WetPulp,
        quantity::{Celsius, in_grams, share, weighed},
    };

    fn request(bleach: Bleach) -> Request {
        let dryness = Known::within(share(0.2), 0.1, Basis::Measured);
        Request {
            pulp: WetPulp::new(weighed(grams(1000.0)), dryness).unwrap(),
            bleach,
            aim: Aim::Charge(share(0.03)),
            size: Size::Consistency(share(0.05)),
            temperature: Celsius::new(25.0).unwrap(),
            carried: Residual::None,
            squeezed: None,
            company: Vec::new(),
            on_hand: None,
            vessel: None,
            minutes: None,
            cooling: None,
        }
    }

    fn bleach() -> Bleach {
        Bleach::Hypochlorite(Bottle::labelled(5.25, LabelBasis::NaoclByMass))
    }

    fn squeezed(ph: f64) -> Plan {
        let ph = Known { value: ph, low: ph - 0.5, high: ph + 0.5, basis: Basis::Strip };
        let squeezed = Some(Squeezed { ph, cooked_in: CookedIn::Soda });
        plan(&Request { squeezed, ..request(bleach()) }).unwrap()
    }

    fn keys(plan: &Plan) -> Vec<&'static str> {
        plan.remarks.iter().map(|remark| remark.key).collect()
    }

    #[test]
    fn rinsing_too_well_and_too_little_is_seen_in_the_number() {
        let ph = |squeezed_ph| squeezed(squeezed_ph).ph.unwrap().ph;
        let (over, well, under) = (ph(7.0), ph(10.5), ph(11.5));
        assert!(over.value + 0.1 < well.value && well.value + 0.1 < under.value);
        assert!(over.low < Window::HYPOCHLORITE.low);
        assert!(under.value > Window::HYPOCHLORITE.high);
        assert!(keys(&squeezed(7.0)).contains(&"remark-over_rinsed"));
        assert!(!keys(&squeezed(10.0)).contains(&"remark-over_rinsed"));
        assert_eq!(squeezed(11.4).ph.unwrap().help(Alkali::SodaAsh), Ok(PhHelp::TooHigh));
    }

    #[test]
    fn pulp_that_nobody_tested_is_assumed_and_wide() {
        let unknown = plan(&request(bleach())).unwrap().ph.unwrap().ph;
        assert!(unknown.assumed && unknown.high - unknown.low > 1.0);
        assert!(unknown.dominant.is_some());
        let sour = Squeezed { ph: Known::exact(15.0, Basis::Strip), ..Squeezed::unknown() };
        let refused = plan(&Request { squeezed: Some(sour), ..request(bleach()) }).unwrap_err();
        assert_eq!(refused.message().field, Some(CARRY_OVER_PH));
    }

    #[test]
    fn the_help_brings_the_whole_bath_to_its_aim() {
        // Little lye, no alkali and soft water: a slack bath.
        let foreseen = squeezed(7.0).ph.unwrap();
        let slack =
            Foreseen { ph: Figure { value: 8.6, low: 8.3, high: 9.0, ..foreseen.ph }, ..foreseen };
        let PhHelp::Add { mass, .. } = slack.help(Alkali::SodaAsh).unwrap() else { panic!() };
        assert!(mass.low < mass.value && mass.value < mass.high);
        let litres = in_millilitres(slack.liquor) / 1000.0;
        let ash = SODIUM_CARBONATE.molar(grams_per_litre(in_grams(mass.value) / litres));
        let slack_mix = slack.mix.with_strong_acid(-slack.mix.hidden_base(8.6).unwrap());
        let made = slack_mix.with_soda_ash(ash).solve().unwrap().ph();
        assert!((made - Window::HYPOCHLORITE.aim).abs() < 1e-3, "{made}");
        assert!(slack.help(Alkali::BakingSoda).is_err());
    }

    #[test]
    fn pure_percarbonate_makes_its_own_ph() {
        let powder = Bleach::Percarbonate(Powder::labelled(share(0.325), PowderBasis::Peroxide));
        let ph = plan(&request(powder)).unwrap().ph.unwrap();
        assert!((10.3..10.9).contains(&ph.ph.value), "{ph:?}");
        assert_eq!(ph.window, Window::PEROXIDE);
        assert_eq!(ph.help(Alkali::SodaAsh), Ok(PhHelp::Leave));
    }

    #[test]
    fn no_ph_is_told_where_the_model_ends() {
        let hot = Request { temperature: Celsius::new(90.0).unwrap(), ..request(bleach()) };
        let plan = plan(&hot).unwrap();
        assert!(matches!(plan.ph, Err(Refusal::OutOfRange(_))));
    }

    #[test]
    fn what_must_not_meet_is_refused_as_a_plan() {
        use Ingredient::*;
        for what in [Peroxide, Percarbonate, Acid, Ammonia, Alcohol, LightMetal, HeavyMetal] {
            let with = Request { company: vec![StainlessSteel, what], ..request(bleach()) };
            let refused = plan(&with).unwrap_err();
            assert!(matches!(refused.reason, Reason::Clash(c) if c.second == what), "{what:?}");
            assert_eq!(refused.ways, [Way::LeaveOut(what)]);
            let left_out = plan(&refused.ways[0].apply(&with)).unwrap();
            assert!(keys(&left_out).contains(&"note-clash"), "stainless is only noted");
        }
    }
}
