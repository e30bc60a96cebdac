//! What the care slip says, side by side. Where no source stands beside a line it is common practice, no source.

use super::words::how_to_pin;
use crate::book::Order;
use crate::paperwork::Care;
use crate::piece::Worn;

pub(super) const UNTIL_THEN: &str = "Until you wear it";
pub(super) const PUT_IT_ON: &str = "Putting it on";
pub(super) const LASTS: &str = "How long it lasts";
pub(super) const IF_SKIN: &str = "If the skin reddens";

/// After "Poisonous Plants: Symptoms and First Aid", NIOSH, cdc.gov: rinse with soap and much water, help at once for swelling or
/// trouble with breathing.
pub(super) const IF_SKIN_REDDENS: [&str; 3] = [
    "Take it off at once if the skin reddens, itches or burns. Wash the skin with soap and plenty of water.",
    "Swelling of face or mouth, or trouble breathing: call the emergency number now.",
    "A rash that stays or spreads: ask a doctor, and tell us, so that the next piece is made without what caused it.",
];

/// Fridge, box, fruit, water.
pub(super) fn keeping(care: &Care) -> Vec<String> {
    let place = if care.too_cold.is_empty() {
        "Keep it in its closed box at the front of the fridge, where it is least cold; never in the freezer.".to_owned()
    } else {
        let warmest = care.too_cold.iter().map(|(_, limit)| *limit).fold(0.0, f64::max);
        let names: Vec<&str> = care.too_cold.iter().map(|(name, _)| name.as_str()).collect();
        format!(
            "Not in the fridge: {} suffers below {warmest:.0} \u{b0}C ({:.0} \u{b0}F). Keep it in its closed box in a cool, dark room.",
            crate::book::listed(&names),
            warmest * 1.8 + 32.0
        )
    };
    let spray = if care.spotted.is_empty() {
        "No water on the petals: drops leave stains, and wet ribbon runs.".to_owned()
    } else {
        let names: Vec<&str> = care.spotted.iter().map(String::as_str).collect();
        format!("No water on it, and hands off the petals: {} spots.", crate::book::listed(&names))
    };
    // Fruit gives off ethylene, which ages flowers (hunker.com, "How to make your corsage last longer"; the produce facts of UC
    // Davis name it for each flower).
    let fruit =
        "Not beside fruit or vegetables: the gas they give off makes flowers wilt. No sun, no hot car.".to_owned();
    vec![place, fruit, spray]
}

/// When and how it is put on.
pub(super) fn putting_on(order: &Order) -> Vec<String> {
    let last = "Put it on last: after dressing, hair spray and perfume, just before you leave.".to_owned();
    let how = match order.piece.worn {
        Worn::Lapel => how_to_pin(order),
        Worn::Wrist => vec![
            "Hold it by its band, not by the flowers. One finger must fit under the band; wear it looser if the skin swells or pinches."
                .to_owned(),
        ],
    };
    std::iter::once(last).chain(how).collect()
}

/// Hours by the weakest flower.
pub(super) fn lasting(care: &Care) -> Vec<String> {
    match &care.weakest {
        None => vec!["Nothing in it wilts.".to_owned()],
        Some((name, hours)) => vec![format!(
            "About {hours} hours once it is out of its cool place, by its weakest flower: {name}. \
             The hours are our estimate, from memory; heat and touch make them fewer."
        )],
    }
}
