//! Names near to a mistyped one, for "did you mean".

use crate::units::steps_between;

/// How many near names are worth showing; our choice, as many as fit in one line.
const SHOWN: usize = 3;

/// The names of `known` nearest to `typed`, best first: at most three, and none that is far off.
pub(super) fn nearest<'a>(typed: &str, known: impl Iterator<Item = &'a str>) -> Vec<String> {
    let typed = typed.to_lowercase();
    let bound = typed.chars().count() / 3 + 1;
    let mut near: Vec<(usize, &str)> = known.map(|name| (steps_between(&typed, name), name)).collect();
    near.retain(|&(steps, name)| steps <= bound || holds(name, &typed));
    near.sort_unstable();
    near.into_iter().take(SHOWN).map(|(_, name)| name.to_owned()).collect()
}

fn holds(name: &str, typed: &str) -> bool {
    typed.len() >= 3 && (name.contains(typed) || typed.contains(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_finger_finds_the_name() {
        let known = ["spray-rose", "rose", "waxflower", "italian-ruscus", "israeli-ruscus"];
        assert_eq!(nearest("spay-rose", known.into_iter())[0], "spray-rose");
        assert_eq!(nearest("wxaflower", known.into_iter()), ["waxflower"]);
        assert!(nearest("ruscus", known.into_iter()).contains(&"italian-ruscus".to_owned()));
        assert!(nearest("zebra", known.into_iter()).is_empty());
        assert!(nearest("", known.into_iter()).is_empty());
    }
}
