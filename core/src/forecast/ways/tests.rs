//! Odds, kinds and refusals of a search.

#![allow(clippy::unwrap_used)]

use super::*;
use crate::bath::{Bleach, Bottle, LabelBasis, Powder, PowderBasis, plan};
use crate::chemistry::{Oxidant, Residual};
use crate::pulp::WetPulp;
use crate::quantity::{Basis, Estimate, grams, in_share, share, weighed};

fn bottle() -> Bleach {
    Bleach::Hypochlorite(Bottle::labelled(5.0, LabelBasis::NaoclByMass))
}

fn powder() -> Bleach {
    Bleach::Percarbonate(Powder::labelled(share(0.3), PowderBasis::Peroxide))
}

fn request(target: f64, bleaches: Vec<Bleach>) -> WayRequest {
    let dryness = Estimate { value: 0.2, low: 0.18, high: 0.22, basis: Basis::OwnRecord };
    WayRequest {
        pulp: WetPulp::new(weighed(grams(1000.0)), dryness.map(share)).unwrap(),
        bleaches,
        lightness: Estimate { value: 66.0, low: 64.0, high: 68.0, basis: Basis::Measured },
        target,
        most_chain_loss: 0.5,
        residual: Residual::None,
        expressed_water: None,
    }
}

fn searched(request: WayRequest) -> WaySearch {
    let mut search = WaySearch::new(request, 7).unwrap();
    search.advance_to(40);
    search
}

#[test]
fn there_is_a_way_of_every_kind_and_each_can_be_planned() {
    let search = searched(request(78.0, vec![bottle(), powder()]));
    assert!(search.state().tried >= 15, "{:?}", search.state());
    let options = search.options();
    let mut kinds: Vec<WayKind> = options.iter().map(|option| option.kind).collect();
    kinds.sort_unstable();
    assert_eq!(kinds.len(), 5, "{kinds:?}");
    assert!(options.windows(2).all(|pair| pair[0].odds >= pair[1].odds));
    for option in &options {
        assert!((0.0..=1.0).contains(&option.odds) && option.odds_of_damage <= 0.1);
        assert!(option.lightness[0] <= option.lightness[1]);
        assert!(option.chain_loss.iter().all(|loss| (0.0..1.0).contains(loss)));
        assert!(option.water_l.unwrap() > 5.0 && option.minutes.unwrap() > 20.0);
        for (bath, minutes) in option.baths.iter().zip(&option.lengths) {
            assert!(plan(&bath.request(search.request(), *minutes).unwrap()).is_ok());
            assert!((in_share(bath.plan.charge.value) - bath.bath.charge).abs() < 1e-3);
        }
        let has_chlorine = option.baths.iter().any(|b| b.bath.oxidant == Oxidant::Hypochlorite);
        assert_eq!(option.chlorine_g.value > 0.0, has_chlorine);
    }
}

#[test]
fn a_lighter_target_has_no_better_odds() {
    let best = |target| searched(request(target, vec![bottle()])).options()[0].odds;
    let (easy, hard) = (best(72.0), best(90.0));
    assert!(easy > hard + 0.2, "{easy} {hard}");
    // Wide priors: neither certain nor hopeless in between.
    let middle = best(74.0);
    assert!((0.05..0.95).contains(&middle), "{middle}");
}

#[test]
fn only_what_is_on_the_shelf_is_used_and_never_peroxide_before_hypochlorite() {
    let search = searched(request(78.0, vec![powder()]));
    for option in search.options() {
        assert!(option.baths.iter().all(|bath| bath.bath.oxidant == Oxidant::Percarbonate));
        assert!(option.chlorine_g.high == 0.0);
    }
    for option in searched(request(78.0, vec![powder(), bottle()])).options() {
        let order: Vec<bool> =
            option.baths.iter().map(|bath| bath.bath.oxidant.is_peroxide()).collect();
        assert_ne!(order, [true, false]);
    }
    let none = searched(request(78.0, Vec::new()));
    assert!(none.options().is_empty());
    assert_eq!(way_advice(none.request(), &[]), WayAdvice::NoWay);
}

#[test]
fn pulp_with_peroxide_in_it_gets_no_hypochlorite() {
    let left = WayRequest { residual: Residual::Peroxide, ..request(78.0, vec![bottle()]) };
    let search = searched(left);
    assert!(search.options().is_empty());
    assert!(search.state().refused + search.state().dangerous > 0);
}

#[test]
fn a_tighter_limit_on_damage_never_damages_more() {
    let loss = |most| {
        let request = WayRequest { most_chain_loss: most, ..request(84.0, vec![bottle()]) };
        let options = searched(request).options();
        options.iter().map(|option| option.chain_loss[2]).fold(0.0, f64::max)
    };
    let (tight, loose) = (loss(0.25), loss(0.6));
    assert!(tight <= loose + 1e-9, "{tight} {loose}");
    assert!(tight < 0.35, "{tight}");
}

#[test]
fn pulp_that_is_light_enough_is_left_as_it_is() {
    let request = request(62.0, vec![bottle()]);
    let search = WaySearch::new(request, 7).unwrap();
    assert_eq!(way_advice(search.request(), &[]), WayAdvice::LeaveNatural);
}

#[test]
fn a_second_bath_makes_it_lighter_and_costs_more_chain() {
    let search = searched(request(78.0, vec![bottle()]));
    let single = search.ways.iter().find(|way| {
        way.baths.len() == 1
            && way.baths[0].bath.charge == 0.02
            && way.baths[0].bath.celsius == 30.0
    });
    let double =
        search.ways.iter().find(|way| way.baths.len() == 2 && way.baths[0].bath.charge == 0.02);
    let (single, double) = (single.unwrap(), double.unwrap());
    // The first of two is stopped at the third time; draw by draw the second only adds.
    for (one, two) in single.results.iter().zip(&double.results) {
        assert!(two[3].lightness >= one[3].lightness - 1e-6);
        assert!(two[3].chain_loss >= one[3].chain_loss - 1e-9);
        assert!((two[0].lightness - one[3].lightness).abs() < 0.2, "{two:?} {one:?}");
    }
}

#[test]
fn a_search_is_the_same_in_any_parts() {
    let whole = searched(request(78.0, vec![bottle(), powder()]));
    let mut parts = WaySearch::new(request(78.0, vec![bottle(), powder()]), 7).unwrap();
    for draws in [3, 4, 19, 40] {
        parts.advance_to(draws);
    }
    assert_eq!(whole.options()[0].odds.to_bits(), parts.options()[0].odds.to_bits());
}

#[test]
fn a_colour_that_is_impossible_is_refused() {
    assert!(WaySearch::new(request(120.0, vec![bottle()]), 7).is_err());
}
