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
    let is_number = words.parse::<f64>().is_ok_and(f64::is_finite);
    let words = words.replace('\0', "");
    let safe = if words.starts_with(STARTS) && !is_number { format!("'{words}") } else { words };
    if safe.contains([',', '"', '\r', '\n']) { format!("\"{}\"", safe.replace('"', "\"\"")) } else { safe }
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
}
