//! The direction of a place as a share of a full turn, by arithmetic alone: the same on every computer.

/// Where (x, y) lies round the origin, from 0 at +x through 0.25 at +y to 1. A polynomial by C. Hastings stands for the
/// arctangent: off by less than 1e-5 radians (Abramowitz and Stegun 1964, 4.4.49).
pub(super) fn share_of_turn(x: f64, y: f64) -> f64 {
    let (long, short) = if x.abs() >= y.abs() { (x.abs(), y.abs()) } else { (y.abs(), x.abs()) };
    if long == 0.0 {
        return 0.0;
    }
    let z = short / long;
    let q = z * z;
    let angle = z * (0.999_866_0 + q * (-0.330_299_5 + q * (0.180_141_0 + q * (-0.085_133_0 + q * 0.020_835_1))));
    let eighth = angle / std::f64::consts::TAU;
    let quarter = if x.abs() >= y.abs() { eighth } else { 0.25 - eighth };
    match (x >= 0.0, y >= 0.0) {
        (true, true) => quarter,
        (false, true) => 0.5 - quarter,
        (false, false) => 0.5 + quarter,
        (true, false) => 1.0 - quarter,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_the_arctangent_to_a_hundred_thousandth() {
        for k in 0..360 {
            let angle = f64::from(k).to_radians();
            let wanted = f64::from(k) / 360.0;
            let found = share_of_turn(3.0 * angle.cos(), 3.0 * angle.sin());
            let off = (found - wanted).abs();
            assert!(off.min(1.0 - off) < 2e-6, "{k}: {found}");
        }
    }
}
