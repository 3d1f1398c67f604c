//! Twenty-two plans: all oxidants, aims and sizes; inputs measured, stated and assumed.

use bleachfield_core::{
    bath::{
        BathAim, BathSize, Bleach, Bottle, ExpressedWater, LabelBasis, PeroxideBasis,
        PeroxideBottle, PlanRequest, Powder, PowderBasis, ResidualAlkali,
    },
    chemistry::{Residual, alkali::strip_ph},
    pulp::{ASSUMED_DRYNESS, WetPulp},
    quantity::{
        Basis, Celsius, Estimate, grams, grams_per_litre, grams_per_millilitre, millilitres, share,
        weighed,
    },
};

/// The plans with their names.
pub fn all() -> Vec<(&'static str, PlanRequest)> {
    use LabelBasis::{ChlorineByMass, ChlorineByVolume, NaoclByMass, NaoclByVolume};
    use ResidualAlkali::{Lye, Soda, Unknown};
    let five = bottle(5.25, NaoclByMass);
    let pure = powder(0.325, PowderBasis::Peroxide);
    vec![
        ("labelled bottle, untested pulp", made(known(1000.0), five, charge(2.0), part(5.0), 25.0)),
        (
            "labelled bottle, assumed dryness",
            made(assumed(1000.0), five, charge(2.0), part(5.0), 38.0),
        ),
        (
            "labelled bottle, soda pulp at pH 8",
            rinsed(made(known(1000.0), five, charge(3.0), part(5.0), 38.0), 8.0, Soda),
        ),
        (
            "labelled bottle, lye pulp at pH 9.5",
            rinsed(made(known(1000.0), five, charge(3.0), part(4.0), 45.0), 9.5, Lye),
        ),
        (
            "labelled bottle, pulp at pH 10.5",
            rinsed(made(known(600.0), five, charge(2.0), part(3.0), 20.0), 10.5, Unknown),
        ),
        (
            "over-rinsed pulp at pH 7",
            rinsed(made(known(2500.0), five, charge(1.0), part(8.0), 30.0), 7.0, Soda),
        ),
        (
            "by strength and volume",
            made(known(1000.0), bottle(6.0, NaoclByVolume), strength(2.0), volume(5000.0), 25.0),
        ),
        (
            "by strength, assumed dryness",
            made(
                assumed(1500.0),
                bottle(4.0, ChlorineByVolume),
                strength(3.0),
                volume(8000.0),
                30.0,
            ),
        ),
        (
            "trade bottle, hot, small bath",
            made(known(300.0), bottle(12.5, ChlorineByMass), charge(5.0), part(2.0), 55.0),
        ),
        (
            "titrated bottle, density weighed",
            rinsed(made(dried(800.0), titrated(41.0), charge(4.0), part(6.0), 35.0), 8.5, Soda),
        ),
        (
            "aged bottle, range of 2.5",
            made(dried(800.0), aged(20.0, 50.0), charge(3.0), part(4.0), 25.0),
        ),
        (
            "by charge and volume, large",
            made(known(12_000.0), five, charge(2.0), volume(60_000.0), 40.0),
        ),
        ("pure percarbonate, 50 °C", made(known(1000.0), pure, charge(3.0), part(5.0), 50.0)),
        (
            "pure percarbonate, assumed dryness",
            made(assumed(1000.0), pure, charge(2.0), part(6.0), 40.0),
        ),
        (
            "pure percarbonate, acid pulp at pH 4.5",
            rinsed(made(known(1000.0), pure, charge(3.0), part(5.0), 45.0), 4.5, Unknown),
        ),
        (
            "booster powder, soda pulp at pH 10",
            rinsed(
                made(
                    known(1000.0),
                    powder(0.4, PowderBasis::Percarbonate),
                    charge(2.0),
                    part(5.0),
                    40.0,
                ),
                10.0,
                Soda,
            ),
        ),
        (
            "booster powder by strength",
            made(
                dried(900.0),
                powder(0.05, PowderBasis::ActiveOxygen),
                strength(3.0),
                volume(4000.0),
                60.0,
            ),
        ),
        (
            "percarbonate, lye pulp at pH 11",
            rinsed(made(known(700.0), pure, charge(4.0), part(10.0), 70.0), 11.0, Lye),
        ),
        (
            "percarbonate, cold, dilute",
            made(
                known(200.0),
                powder(0.9, PowderBasis::Percarbonate),
                charge(2.0),
                part(1.0),
                12.0,
            ),
        ),
        (
            "peroxide of 3 %, 45 °C",
            made(known(1000.0), peroxide(3.0), charge(2.0), part(4.0), 45.0),
        ),
        (
            "peroxide of 12 %, lye pulp at pH 10",
            rinsed(made(dried(900.0), peroxide(12.0), charge(3.0), part(6.0), 55.0), 10.0, Lye),
        ),
        (
            "wide powder, range of 2.5",
            made(known(1000.0), wide_powder(), charge(2.0), part(5.0), 40.0),
        ),
    ]
}

fn made(pulp: WetPulp, bleach: Bleach, aim: BathAim, size: BathSize, celsius: f64) -> PlanRequest {
    let at = Celsius::new(celsius).unwrap();
    PlanRequest { residual: Residual::None, ..PlanRequest::new(pulp, bleach, aim, size, at) }
}

fn rinsed(request: PlanRequest, ph: f64, alkali: ResidualAlkali) -> PlanRequest {
    let expressed_water = Some(ExpressedWater { ph: strip_ph(ph), alkali });
    PlanRequest { expressed_water, ..request }
}

/// 20 % dry by this studio's own figure, ±10 %.
fn known(wet: f64) -> WetPulp {
    let dryness = Estimate::within(share(0.2), 0.1, Basis::OwnRecord);
    WetPulp::new(weighed(grams(wet)), dryness).unwrap()
}

/// 24 % dry by a dried sample, ±2 %.
fn dried(wet: f64) -> WetPulp {
    let dryness = Estimate::within(share(0.24), 0.02, Basis::Measured);
    WetPulp::new(weighed(grams(wet)), dryness).unwrap()
}

fn assumed(wet: f64) -> WetPulp {
    WetPulp::new(weighed(grams(wet)), ASSUMED_DRYNESS.map(share)).unwrap()
}

fn bottle(figure: f64, basis: LabelBasis) -> Bleach {
    Bleach::Hypochlorite(Bottle::labelled(figure, basis))
}

fn titrated(grams: f64) -> Bleach {
    let figure = Estimate::within(grams, 0.03, Basis::Measured);
    let density = Estimate::within(grams_per_millilitre(1.06), 0.005, Basis::Measured);
    let basis = LabelBasis::ChlorineGramsPerLitre;
    Bleach::Hypochlorite(Bottle { figure, basis, density: Some(density) })
}

fn aged(low: f64, high: f64) -> Bleach {
    let figure = Estimate { value: 35.0, low, high, basis: Basis::Computed };
    Bleach::Hypochlorite(Bottle::titrated(figure.map(grams_per_litre)))
}

fn peroxide(percent: f64) -> Bleach {
    Bleach::Peroxide(PeroxideBottle::labelled(percent, PeroxideBasis::ByMass))
}

fn powder(figure: f64, basis: PowderBasis) -> Bleach {
    Bleach::Percarbonate(Powder::labelled(share(figure), basis))
}

fn wide_powder() -> Bleach {
    let figure = Estimate { value: 0.22, low: 0.12, high: 0.30, basis: Basis::Assumed };
    Bleach::Percarbonate(Powder { figure: figure.map(share), basis: PowderBasis::Percarbonate })
}

fn charge(percent: f64) -> BathAim {
    BathAim::Charge(share(percent / 100.0))
}

fn strength(grams: f64) -> BathAim {
    BathAim::Strength(grams_per_litre(grams))
}

fn part(percent: f64) -> BathSize {
    BathSize::Consistency(share(percent / 100.0))
}

fn volume(ml: f64) -> BathSize {
    BathSize::TotalVolume(millilitres(ml))
}
