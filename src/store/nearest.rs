//! Names near to a mistyped one, for "did you mean". Ours, because one table of steps is not worth a package.

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

/// Letters to change, add, drop or swap with a neighbour to turn one name into the other (Damerau's distance,
/// restricted form). Only the first 60 letters count: a name is never longer.
fn steps_between(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().take(60).collect(), b.chars().take(60).collect());
    let mut rows: Vec<Vec<usize>> = vec![(0..=b.len()).collect()];
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let change = rows[i - 1][j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut least = change.min(rows[i - 1][j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                least = least.min(rows[i - 2][j - 2] + 1);
            }
            row.push(least);
        }
        rows.push(row);
    }
    rows[a.len()][b.len()]
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

    #[test]
    fn steps_count_changes_additions_and_swaps() {
        for (a, b, steps) in
            [("", "", 0), ("abc", "abc", 0), ("abc", "acb", 1), ("abc", "ab", 1), ("kitten", "sitting", 3)]
        {
            assert_eq!((steps_between(a, b), steps_between(b, a)), (steps, steps), "{a} {b}");
        }
    }
}
