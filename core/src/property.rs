//! Property tests that count the cases in which the property was tested.
//! The properties themselves are in the tests of the module that they check.

use proptest::{
    strategy::Strategy,
    test_runner::{Config, TestCaseError, TestRunner},
};
use std::cell::Cell;

/// Checks `property` over `strategy`. The property returns `Ok(true)` for a
/// case that it tested and `Ok(false)` for one that it does not apply to.
///
/// # Panics
/// If a case fails, or if fewer than `least` of the cases were tested.
pub(crate) fn check<S: Strategy>(
    strategy: S,
    least: u32,
    property: impl Fn(S::Value) -> Result<bool, TestCaseError>,
) {
    check_cases(Config::default().cases, strategy, least, property);
}

/// [`check`] over this many cases.
pub(crate) fn check_cases<S: Strategy>(
    cases: u32,
    strategy: S,
    least: u32,
    property: impl Fn(S::Value) -> Result<bool, TestCaseError>,
) {
    let config = Config { failure_persistence: None, ..Config::with_cases(cases) };
    let tested = Cell::new(0);
    let result = TestRunner::new(config).run(&strategy, |case| {
        tested.set(tested.get() + u32::from(property(case)?));
        Ok(())
    });
    if let Err(failure) = result {
        panic!("{failure}");
    }
    let tested = tested.get();
    assert!(tested >= least, "{tested} of {cases} cases were tested, {least} are needed");
}

#[test]
#[should_panic = "0 of 256 cases were tested"]
fn a_property_that_refuses_every_case_fails() {
    check(0..10_u8, 1, |_| Ok(false));
}
