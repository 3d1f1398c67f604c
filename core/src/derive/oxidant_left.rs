//! Which oxidant may still be in a batch's pulp, from its log.
//! Not here: whether the batch may be signed off, which is `sign_off`.

use crate::{
    chemistry::{Oxidant, Residual},
    journal::{Additive, Antichlor, Batch, Body},
    pulp::sign_off::{EndTestKind, EndTestVerdict},
};

use super::sign_off::test_results;

/// What may be left in the pulp: each kind of oxidant that was in it, until its own strip passed
/// or the batch was signed off as clean. [`Residual::Unknown`] where it may be either: an addition
/// outside a bath that only its note names may be any.
pub fn oxidant_left(batch: &Batch) -> Residual {
    let hypochlorite = may_be_left(batch, Oxidant::Hypochlorite, EndTestKind::ChlorineStrip);
    let peroxide = may_be_left(batch, Oxidant::Peroxide, EndTestKind::PeroxideStrip);
    match (hypochlorite, peroxide) {
        (true, true) => Residual::Unknown,
        (true, false) => Residual::Hypochlorite,
        (false, true) => Residual::Peroxide,
        (false, false) => Residual::None,
    }
}

fn may_be_left(batch: &Batch, kind: Oxidant, strip: EndTestKind) -> bool {
    let is_kind = |oxidant: Oxidant| oxidant.may_meet(kind);
    let of_bath = |id| {
        let bath = batch.baths.iter().find(|bath| bath.id == id);
        bath.is_some_and(|bath| is_kind(bath.oxidant.into()))
    };
    let results = test_results(batch);
    let tested = |entry| {
        let mut of_strip =
            results.iter().filter(|(id, result)| *id == entry && result.test == strip);
        of_strip.next().map(|(_, result)| result.verdict)
    };
    batch.visible_entries().fold(false, |left, entry| match &entry.body {
        Body::BathStarted(started) => left || is_kind(started.oxidant.into()),
        // A strip that was dipped while the bath ran proves nothing of its end.
        Body::BathStopped(stopped) => left || of_bath(stopped.bath),
        Body::Added(added) => {
            left || match added.what {
                Additive::Hypochlorite => is_kind(Oxidant::Hypochlorite),
                Additive::Percarbonate | Additive::Peroxide => is_kind(Oxidant::Peroxide),
                Additive::Other => added.bath.is_none(),
                _ => false,
            }
        }
        Body::Antichlored(done) => {
            left || done.reagent == Antichlor::Peroxide && is_kind(Oxidant::Peroxide)
        }
        Body::EndTest(_) | Body::Rinsed(_) | Body::Reading(_) => match tested(entry.entry.id) {
            Some(EndTestVerdict::Pass) => false,
            Some(EndTestVerdict::Fail) => true,
            Some(EndTestVerdict::Inconclusive) | None => left,
        },
        Body::SignedOff(signed) => left && !signed.complete,
        _ => left,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use ulid::Ulid;

    use super::*;
    use crate::{
        derive::sample::{book, exact, rinse},
        journal::{
            self, Added, Amount, BathStopped, EndTest, EndTestOf, Outcome, SignedOff, StopReason,
            sample::bath_started,
        },
    };

    fn left(bodies: Vec<Body>) -> Residual {
        oxidant_left(book(bodies).batches.values().next().unwrap())
    }

    fn bath(n: u128, oxidant: journal::Oxidant) -> Vec<Body> {
        let stopped = BathStopped { bath: Ulid(n), why: StopReason::TimeUp, note: String::new() };
        vec![
            Body::BathStarted(bath_started(Ulid(n), oxidant)),
            Body::BathStopped(stopped),
            rinse(5.0, None, None),
        ]
    }

    fn strip(test: EndTestOf, outcome: Outcome) -> Body {
        Body::EndTest(EndTest { test, outcome, figure: None, note: String::new() })
    }

    fn added(what: Additive, bath: Option<Ulid>) -> Body {
        let amount = Amount::MassG(exact(1.0));
        Body::Added(Added { bath, what, product: None, amount, note: String::new() })
    }

    #[test]
    fn each_kind_is_left_until_its_own_strip_passes() {
        use EndTestOf::{ChlorineStrip, PeroxideStrip, StarchIodide};
        let chlorine = || bath(1, journal::Oxidant::Hypochlorite);
        let passed = |test| vec![strip(test, Outcome::Passed)];
        assert_eq!(left(vec![rinse(5.0, None, None)]), Residual::None);
        assert_eq!(left(chlorine()), Residual::Hypochlorite);
        assert_eq!(left([chlorine(), passed(ChlorineStrip)].concat()), Residual::None);
        for other in [PeroxideStrip, StarchIodide] {
            assert_eq!(left([chlorine(), passed(other)].concat()), Residual::Hypochlorite);
        }
        let unclear = vec![strip(ChlorineStrip, Outcome::Unclear)];
        assert_eq!(left([chlorine(), unclear].concat()), Residual::Hypochlorite);
        assert_eq!(left(vec![strip(ChlorineStrip, Outcome::Failed)]), Residual::Hypochlorite);
        // Before its end the bath was at zero; it may have been fed since.
        let mut during = chlorine();
        during.insert(1, strip(ChlorineStrip, Outcome::Passed));
        assert_eq!(left(during), Residual::Hypochlorite);
    }

    #[test]
    fn a_later_bath_of_another_kind_leaves_its_own() {
        let (first, second) =
            (bath(1, journal::Oxidant::Hypochlorite), bath(2, journal::Oxidant::Percarbonate));
        let clean = Body::SignedOff(SignedOff { complete: true, reason: String::new() });
        let after_clean = [first.clone(), vec![clean], second.clone()].concat();
        assert_eq!(left(after_clean), Residual::Peroxide);
        let unproven = Body::SignedOff(SignedOff { complete: false, reason: "no strips".into() });
        assert_eq!(left([first, vec![unproven], second].concat()), Residual::Unknown);
    }

    #[test]
    fn additions_count_by_what_they_are() {
        assert_eq!(left(vec![added(Additive::Peroxide, None)]), Residual::Peroxide);
        assert_eq!(left(vec![added(Additive::SodaAsh, None)]), Residual::None);
        assert_eq!(left(vec![added(Additive::Other, None)]), Residual::Unknown);
        assert_eq!(left(vec![added(Additive::Other, Some(Ulid(1)))]), Residual::None);
    }
}
