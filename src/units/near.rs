//! How far one word is from another, in slips of the finger. Ours, because one table of steps is not worth a package.

/// Letters to change, add, drop or swap with a neighbour to turn one name into the other (Damerau's distance,
/// restricted form). Only the first 60 letters count: a name is never longer.
pub fn steps_between(a: &str, b: &str) -> usize {
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
    fn steps_count_changes_additions_and_swaps() {
        for (a, b, steps) in
            [("", "", 0), ("abc", "abc", 0), ("abc", "acb", 1), ("abc", "ab", 1), ("kitten", "sitting", 3)]
        {
            assert_eq!((steps_between(a, b), steps_between(b, a)), (steps, steps), "{a} {b}");
        }
    }
}
