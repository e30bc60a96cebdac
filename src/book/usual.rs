//! The girth that stands in until somebody has measured, and the span in which most wrists lie.

use super::WearerKind;
use crate::piece::Wrist;
use crate::units::Length;

/// Standard deviations on either side of the mean that hold nine tenths of a normal distribution.
const NINE_TENTHS: f64 = 1.645;

/// Girls' mean wrist circumference and its standard deviation at 6 and at 17 years, mm, about linear between (Ozturk et
/// al., J Clin Res Pediatr Endocrinol 9:329-336, 2017; n = 4330).
const AT_6: (f64, f64) = (124.8, 9.3);
const AT_17: (f64, f64) = (155.8, 8.6);
/// Girls' mean at 3 years, mm (Khadilkar et al., J Pediatr Endocrinol Metab, 2018); no spread read, that of 6 years taken.
const AT_3: (f64, f64) = (100.0, 9.3);

/// The 5th and 95th percentile of women, mm (ANSUR II, Gordon et al., Natick TR-15/007, 2014; n = 1986).
const WOMEN: [f64; 2] = [142.0, 168.0];

/// The girth that stands in, whole millimetres.
pub fn usual_girth(kind: Option<WearerKind>) -> Length {
    match kind {
        Some(WearerKind::Child { years }) => Length::from_mm(child(years).0.round()),
        Some(WearerKind::Adult) | None => Length::from_mm(Wrist::USUAL_GIRTH_MM),
    }
}

/// Between which girths nine of ten such wrists lie, mm. Girls and women, as most who wear a wrist piece.
pub fn usual_span_mm(kind: Option<WearerKind>) -> [f64; 2] {
    match kind {
        Some(WearerKind::Child { years }) => {
            let (mean, spread) = child(years);
            [mean - NINE_TENTHS * spread, mean + NINE_TENTHS * spread].map(f64::round)
        }
        Some(WearerKind::Adult) | None => WOMEN,
    }
}

/// Mean and spread at an age; below 3 and above 17 years as at those.
fn child(years: u32) -> (f64, f64) {
    let years = f64::from(years.clamp(3, 17));
    let between = |(from, a): (f64, (f64, f64)), (to, b): (f64, (f64, f64))| {
        let t = (years - from) / (to - from);
        (a.0 + (b.0 - a.0) * t, a.1 + (b.1 - a.1) * t)
    };
    if years < 6.0 { between((3.0, AT_3), (6.0, AT_6)) } else { between((6.0, AT_6), (17.0, AT_17)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn children_are_reckoned_from_published_means() {
        let child = |years| usual_girth(Some(WearerKind::Child { years })).mm();
        assert_eq!((child(6), child(17), child(3), child(0)), (125.0, 156.0, 100.0, 100.0));
        assert_eq!(usual_girth(None).mm(), 154.0);
        assert_eq!(usual_span_mm(Some(WearerKind::Child { years: 6 })), [110.0, 140.0]);
        assert_eq!(usual_span_mm(Some(WearerKind::Adult)), [142.0, 168.0]);
    }
}
