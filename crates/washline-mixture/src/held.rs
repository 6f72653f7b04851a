//! Numbers kept where a formula means something.

/// `x` held within `low..=high`; not-a-number is the low end.
pub(crate) fn held(x: f64, low: f64, high: f64) -> f64 {
    if x.is_nan() { low } else { x.clamp(low, high) }
}

/// `part` of `whole`; 0 of nothing.
pub(crate) fn share(part: f64, whole: f64) -> f64 {
    if whole > 1e-12 { part / whole } else { 0.0 }
}
