//! Random numbers, for identifiers.

/// 128 random bits from the browser. Where it has none, weaker ones of `Math.random` and the
/// clock: an identifier must be unlikely to repeat, not unguessable.
pub fn bits() -> u128 {
    let mut bytes = [0; 16];
    match getrandom::fill(&mut bytes) {
        Ok(()) => u128::from_le_bytes(bytes),
        Err(_) => (js_sys::Math::random() * 1e18) as u128 ^ js_sys::Date::now() as u128,
    }
}
