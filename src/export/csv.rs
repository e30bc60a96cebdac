//! Rows as CSV (RFC 4180), safe to open in a spreadsheet.

/// A table as CSV with CR LF line ends. Cells that are not numbers and begin like a formula get an apostrophe before
/// them, as OWASP ("CSV Injection") advises.
pub fn csv_of(head: &[&str], rows: &[Vec<String>]) -> String {
    let line = |cells: Vec<String>| cells.join(",") + "\r\n";
    let mut text = line(head.iter().map(|c| cell(c)).collect());
    text.extend(rows.iter().map(|row| line(row.iter().map(|c| cell(c)).collect())));
    text
}

fn cell(words: &str) -> String {
    /// What a spreadsheet takes for the start of a formula, full-width forms included.
    const STARTS: [char; 11] = ['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];
    /// What parts cells: a spreadsheet takes the one its language has, or what the person who opens the file picks.
    const PARTS: [char; 3] = [',', ';', '\t'];
    let words = words.replace('\0', "");
    // Spaces and marks that are not seen are passed over by a spreadsheet.
    let seen = words.trim_matches(|c: char| c.is_whitespace() || matches!(c, '\u{feff}' | '\u{200b}'..='\u{200f}'));
    let is_number = seen.parse::<f64>().is_ok_and(f64::is_finite);
    let is_formula = seen.starts_with(STARTS) || words.starts_with(STARTS);
    let safe = if is_formula && !is_number { format!("'{words}") } else { words };
    if safe.contains(PARTS) || safe.contains(['"', '\r', '\n']) {
        format!("\"{}\"", safe.replace('"', "\"\""))
    } else {
        safe
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_are_defused_and_numbers_stay_numbers() {
        let row = ["=HYPERLINK(\"x\")", "@cmd", "-12.5", "+1+1", "plain", "a,b", "say \"hi\""].map(str::to_owned);
        let text = csv_of(&["a"], &[row.to_vec()]);
        assert_eq!(text, "a\r\n\"'=HYPERLINK(\"\"x\"\")\",'@cmd,-12.5,'+1+1,plain,\"a,b\",\"say \"\"hi\"\"\"\r\n");
    }

    #[test]
    fn a_formula_is_found_behind_what_is_not_seen_and_behind_any_mark_that_parts_cells() {
        let told = [
            ("Ory;=2", "\"Ory;=2\""),
            ("Ory\t=2", "\"Ory\t=2\""),
            (" =1+1", "' =1+1"),
            ("\u{feff}=1+1", "'\u{feff}=1+1"),
            ("\u{a0}\u{200b}@x", "'\u{a0}\u{200b}@x"),
            ("\t=1", "\"'\t=1\""),
            (" -12.5", " -12.5"),
            ("Anne-Marie", "Anne-Marie"),
        ];
        for (words, wanted) in told {
            assert_eq!(cell(words), wanted);
        }
    }
}
