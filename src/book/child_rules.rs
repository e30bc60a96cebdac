//! What a child must not be given: small parts, pins and cords below three years, poisonous plants below six. Each limit with
//! its source.

use super::Needs;
use crate::piece::Piece;
use crate::stock::{Botanical, Caution, Role, Stock};

/// Below this age small parts, pins, cords and sharp ends are kept away (16 CFR 1501.1 and EN 71-1: articles for children
/// under 3 years).
pub const SMALL_PARTS_BELOW_YEARS: u32 = 3;

/// The test cylinder for small parts, mm: across, and its depth where it is least and most, for its floor is slanted (16
/// CFR 1501.4, figure 1: 1.25 in across, 1 to 2.25 in deep; the inches hold). What fits into it wholly, any way round, is a
/// small part.
pub const SMALL_PARTS_CYLINDER_MM: (f64, [f64; 2]) = (31.75, [25.4, 57.15]);

/// Below this age what is poisonous by mouth is stopped; from it on it is asked about. About eight in ten reported cases of
/// eaten plants are children under six (Goldfrank's Toxicologic Emergencies, 11th ed., Plants; California Poison Control
/// System). Where the line is drawn is our choice.
pub const POISON_BELOW_YEARS: u32 = 6;

/// Below this age no magnets: those that are swallowed hold together in the gut (16 CFR 1262; that toys with such magnets are
/// kept from children below 14 is from memory).
const MAGNETS_BELOW_YEARS: u32 = 14;

/// Whether the wearer is below the age for magnets.
pub(super) fn is_too_young_for_magnets(needs: &Needs) -> bool {
    needs.child_years().is_some_and(|years| years < MAGNETS_BELOW_YEARS)
}

/// Whether the wearer is below the age for small parts.
pub(super) fn is_under_three(needs: &Needs) -> bool {
    needs.child_years().is_some_and(|years| years < SMALL_PARTS_BELOW_YEARS)
}

/// Whether this plant is kept from this wearer because it is poisonous by mouth.
pub(super) fn is_poison_for(botanical: &Botanical, needs: &Needs) -> bool {
    let is_small = needs.child_years().is_some_and(|years| years < POISON_BELOW_YEARS);
    is_small && botanical.cautions.contains(&Caution::PoisonByMouth)
}

/// Pearls, stones, hard berries and the like that fit into the test cylinder. Soft blooms and leaves are not counted, as the
/// test itself leaves out paper, fabric and fuzz (16 CFR 1501.4(b)(2)); that they are like these is our choice. Their own
/// cautions are counted.
pub(super) fn is_small_part(botanical: &Botanical) -> bool {
    let is_hard = botanical.role == Role::Trim || botanical.form.is_bead() || botanical.form.is_hard();
    let sides = [botanical.usual_mm(), botanical.usual_mm() * botanical.breadth, botanical.height_mm];
    botanical.cautions.contains(&Caution::SmallParts) || (is_hard && fits_the_cylinder(sides))
}

/// Whether a body with these three sides fits wholly into the test cylinder: lengthwise down its axis, where it is deepest.
/// Corners are not counted, so that too much fits rather than too little.
pub fn fits_the_cylinder(sides_mm: [f64; 3]) -> bool {
    let mut sides = sides_mm;
    sides.sort_by(f64::total_cmp);
    let (across, [_, deepest]) = SMALL_PARTS_CYLINDER_MM;
    sides[1] <= across && sides[2] <= deepest
}

/// How many parts of a piece would fit into the test cylinder for small parts.
pub fn small_parts(piece: &Piece, stock: &Stock) -> usize {
    let parts = piece.parts().iter().filter_map(|p| stock.botanical(&p.stock));
    parts.filter(|b| is_small_part(b)).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1.25 in is 31.75 mm, 2.25 in is 57.15 mm; the regulation's own figure says 31.7 and 57.1 as approximations.
    #[test]
    fn the_cylinder_takes_what_is_small_any_way_round_and_nothing_larger() {
        let inch = crate::units::MM_PER_INCH;
        assert_eq!(SMALL_PARTS_CYLINDER_MM, (1.25 * inch, [inch, 2.25 * inch]));
        for (sides, fits) in [
            ([6.0, 6.0, 6.0], true),
            ([31.75, 31.75, 57.15], true),
            ([57.0, 10.0, 20.0], true),
            ([10.0, 57.0, 20.0], true),
            ([58.0, 5.0, 5.0], false),
            ([32.0, 32.0, 10.0], false),
            ([40.0, 10.0, 10.0], true),
        ] {
            assert_eq!(fits_the_cylinder(sides), fits, "{sides:?}");
        }
    }
}
