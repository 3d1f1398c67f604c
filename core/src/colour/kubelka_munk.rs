//! Kubelka-Munk relation between reflectance and absorption over scattering.
//!
//! Valid for an opaque layer: a folded stack of swatches, not one translucent sheet.
//! Kubelka and Munk (1931), Z. tech. Physik 12.

/// K/S of an opaque pad of reflectance `r`, 0 < r <= 1. `None` outside.
pub fn k_over_s(r: f64) -> Option<f64> {
    (r > 0.0 && r <= 1.0).then(|| (1.0 - r).powi(2) / (2.0 * r))
}

/// Reflectance of an opaque pad. `None` for negative or non-finite K/S.
pub fn reflectance(k_over_s: f64) -> Option<f64> {
    (k_over_s >= 0.0 && k_over_s.is_finite())
        .then(|| 1.0 + k_over_s - (k_over_s * k_over_s + 2.0 * k_over_s).sqrt())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn k_over_s_and_its_inverse() {
        for (r, expected) in [(0.80, 0.0250), (0.50, 0.25), (0.40, 0.45), (0.65, 0.094_23)] {
            assert!((k_over_s(r).unwrap() - expected).abs() < 5e-5);
            assert!((reflectance(k_over_s(r).unwrap()).unwrap() - r).abs() < 1e-12);
        }
    }

    #[test]
    fn values_outside_the_domain_give_none() {
        for r in [0.0, -0.1, 1.01, f64::NAN] {
            assert_eq!(k_over_s(r), None);
        }
        for q in [-0.01, f64::NAN, f64::INFINITY] {
            assert_eq!(reflectance(q), None);
        }
    }
}
