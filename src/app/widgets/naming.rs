//! Names of goods within a sentence: `3 spray roses`, `2 sprigs of waxflower`, `4 leaves of Italian ruscus`.

use crate::stock::Role;
use crate::units::plural;

/// First words of trade names that keep their capital.
const PROPER: [&str; 12] = [
    "African",
    "Asiatic",
    "Dutch",
    "English",
    "Italian",
    "Israeli",
    "Japanese",
    "Mexican",
    "Oregon",
    "Peruvian",
    "Queen",
    "Singapore",
];

/// A trade name within a sentence.
pub(crate) fn in_text(name: &str) -> String {
    let first = name.split_whitespace().next().unwrap_or_default();
    if PROPER.contains(&first) { name.to_owned() } else { name.to_lowercase() }
}

/// So many of a kind.
pub(crate) fn so_many(n: u32, role: Role, name: &str) -> String {
    let name = in_text(name);
    let of = |one: &str, many: &str| format!("{n} {} of {name}", if n == 1 { one } else { many });
    match role {
        Role::Filler => of("sprig", "sprigs"),
        Role::Leaf => of("leaf", "leaves"),
        Role::Bloom | Role::Accent | Role::Trim if n == 1 => format!("1 {name}"),
        Role::Bloom | Role::Accent | Role::Trim => format!("{n} {}", plural(&name)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_read_as_a_florist_says_them() {
        for (n, role, name, says) in [
            (3, Role::Bloom, "Spray rose", "3 spray roses"),
            (1, Role::Bloom, "Spray rose", "1 spray rose"),
            (2, Role::Bloom, "Ranunculus", "2 ranunculus"),
            (2, Role::Accent, "Hypericum berry", "2 hypericum berries"),
            (2, Role::Filler, "Waxflower", "2 sprigs of waxflower"),
            (1, Role::Filler, "Waxflower", "1 sprig of waxflower"),
            (4, Role::Leaf, "Italian ruscus", "4 leaves of Italian ruscus"),
            (5, Role::Trim, "Pearl, 6 mm", "5 pearls, 6 mm"),
        ] {
            assert_eq!(so_many(n, role, name), says);
        }
    }
}
