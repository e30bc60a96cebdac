//! A supplier's price list from a file: text of whatever encoding with whatever mark between its cells, as a table.
//!
//! Quotes and line ends are read by the crate `csv` (RFC 4180 and what spreadsheets make of it), letters by `encoding_rs`
//! (WHATWG Encoding Standard): a byte order mark decides; else UTF-8 where it is valid; else Windows-1252, in which every byte means
//! something.

use std::path::Path;

use encoding_rs::{Encoding, UTF_8, WINDOWS_1252};

use super::reading::{bytes_of, name_of};
use super::store_error::{Cause, StoreError};
use crate::paperwork::{PriceColumns, PriceRow, PriceTable};

/// Most lines that are read; our choice, several times the longest list of a wholesaler.
const MOST_ROWS: usize = 20_000;
/// Most columns; our choice.
const MOST_COLUMNS: usize = 60;
/// Rows in which the names of the columns are looked for: above them stand letterheads.
const HEAD_WITHIN: usize = 12;

/// The table in a file.
pub fn read_price_list(path: &Path) -> Result<PriceTable, StoreError> {
    let (bytes, name) = (bytes_of(path)?, name_of(path));
    price_table(&bytes).map_err(|cause| StoreError::new(&name, cause))
}

/// The table in the bytes of a file.
pub fn price_table(bytes: &[u8]) -> Result<PriceTable, Cause> {
    let text = decoded(bytes)?;
    if text.trim().is_empty() {
        return Err(Cause::Empty);
    }
    let (said, text) = said_separator(&text);
    let separator = said.unwrap_or_else(|| likely_separator(text));
    let first_line = if said.is_some() { 2 } else { 1 };
    let rows = rows_of(text, separator, first_line, MOST_ROWS + 1);
    if rows.len() > MOST_ROWS {
        return Err(Cause::Value(format!("it has more than {MOST_ROWS} lines")));
    }
    if rows.iter().all(|row| row.cells.len() < 2) {
        return Err(Cause::Value("it has one column only; a name and a cost are needed".to_owned()));
    }
    Ok(with_head(rows))
}

fn decoded(bytes: &[u8]) -> Result<String, Cause> {
    // A workbook is a packed folder, an old one a compound file.
    if bytes.starts_with(b"PK\x03\x04") || bytes.starts_with(&[0xd0, 0xcf, 0x11, 0xe0]) {
        return Err(Cause::Value("it is a workbook; save it as CSV first".to_owned()));
    }
    let marked = Encoding::for_bom(bytes).map(|(encoding, _)| encoding);
    let is_plain = std::str::from_utf8(bytes).is_ok();
    let encoding = marked.unwrap_or(if is_plain { UTF_8 } else { WINDOWS_1252 });
    let (text, _, _) = encoding.decode(bytes);
    // Zero bytes stand in no list of prices; a file full of them is something else.
    if text.contains('\0') { Err(Cause::NotText) } else { Ok(text.into_owned()) }
}

/// The mark that a first line `sep=;` names, as some spreadsheets write it, and the text below that line.
fn said_separator(text: &str) -> (Option<u8>, &str) {
    let (first, rest) = text.split_once('\n').unwrap_or((text, ""));
    match first.trim_end().strip_prefix("sep=").map(str::as_bytes) {
        Some(&[mark]) => (Some(mark), rest),
        _ => (None, text),
    }
}

/// The mark by which most lines fall into as many cells, and of several the one that makes most cells.
fn likely_separator(text: &str) -> u8 {
    const LOOKED_AT: usize = 40;
    let score = |mark: u8| {
        let counts: Vec<usize> = rows_of(text, mark, 1, LOOKED_AT).iter().map(|row| row.cells.len()).collect();
        let usual = counts.iter().copied().filter(|n| *n > 1).max_by_key(|n| counts.iter().filter(|m| *m == n).count());
        usual.map_or((0, 0), |usual| (counts.iter().filter(|n| **n == usual).count(), usual))
    };
    // Of two that are as good the first stands.
    let mut best = (b';', score(b';'));
    for mark in [b'\t', b',', b'|'] {
        let this = score(mark);
        if this > best.1 {
            best = (mark, this);
        }
    }
    best.0
}

/// The first rows of a text; empty ones are left out. A quote that is never closed ends with the file, as in a spreadsheet.
fn rows_of(text: &str, separator: u8, first_line: u64, most: usize) -> Vec<PriceRow> {
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(separator).from_reader(text.as_bytes());
    let records = reader.records().filter_map(Result::ok);
    let (mut line, mut counted_to) = (first_line, 0);
    let rows = records.map(|record| {
        // The reader says where the record before ended; empty lines and the end of that line may still lie between.
        let ended = record.position().map_or(0, |at| usize::try_from(at.byte()).unwrap_or(usize::MAX));
        let between =
            text.as_bytes()[ended.min(text.len())..].iter().take_while(|b| matches!(b, b'\r' | b'\n')).count();
        let begin = ended.saturating_add(between).min(text.len()).max(counted_to);
        line += text.get(counted_to..begin).map_or(0, |passed| passed.matches('\n').count()) as u64;
        counted_to = begin;
        PriceRow { line, cells: record.iter().take(MOST_COLUMNS).map(plain).collect() }
    });
    rows.filter(|row| row.cells.iter().any(|cell| !cell.is_empty())).take(most).collect()
}

/// A cell in one line, without what is not seen, and without the apostrophe that keeps a spreadsheet from reckoning.
fn plain(cell: &str) -> String {
    let seen = cell.split_whitespace().collect::<Vec<_>>().join(" ");
    let formula = seen.strip_prefix('\'').filter(|rest| rest.starts_with(['=', '+', '-', '@']));
    formula.map_or_else(|| seen.chars().filter(|c| !c.is_control()).collect(), str::to_owned)
}

/// The rows below the names of the columns; columns without a name are numbered.
fn with_head(rows: Vec<PriceRow>) -> PriceTable {
    let has_digit = |row: &PriceRow| row.cells.iter().any(|cell| cell.contains(|c: char| c.is_ascii_digit()));
    let named = rows.iter().take(HEAD_WITHIN).position(|row| PriceColumns::is_head(&row.cells));
    let head = named.or_else(|| rows.first().filter(|row| !has_digit(row)).map(|_| 0));
    let n_columns = rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
    let names = head.map(|n| rows[n].cells.clone()).unwrap_or_default();
    let name = |n: usize| match names.get(n).map(String::as_str) {
        None | Some("") => format!("Column {}", n + 1),
        Some(name) => name.to_owned(),
    };
    let below = head.map_or(0, |n| n + 1);
    PriceTable { head: (0..n_columns).map(name).collect(), rows: rows.into_iter().skip(below).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(bytes: &[u8]) -> (Vec<String>, Vec<(u64, Vec<String>)>) {
        let table = price_table(bytes).unwrap();
        (table.head, table.rows.into_iter().map(|row| (row.line, row.cells)).collect())
    }

    fn row(line: u64, cells: &[&str]) -> (u64, Vec<String>) {
        (line, cells.iter().map(|c| (*c).to_owned()).collect())
    }

    #[test]
    fn every_separator_and_encoding_gives_the_same_table() {
        // The bytes of the euro sign and of e with acute in Windows-1252: WHATWG Encoding Standard, index windows-1252.
        let western: &[u8] = b"Produit;Prix\r\nC\xe9anothe;12,50 \x80\r\n";
        let utf8 = "Produit;Prix\r\nC\u{e9}anothe;12,50 \u{20ac}\r\n";
        let wide: Vec<u8> = [0xff, 0xfe].into_iter().chain(utf8.encode_utf16().flat_map(u16::to_le_bytes)).collect();
        let marked: Vec<u8> = [0xef, 0xbb, 0xbf].into_iter().chain(utf8.bytes()).collect();
        let tabs = utf8.replace(';', "\t");
        let said = format!("sep=;\r\n{utf8}");
        for (what, bytes) in [
            ("western", western),
            ("utf8", utf8.as_bytes()),
            ("wide", &wide),
            ("marked", &marked),
            ("tabs", tabs.as_bytes()),
        ] {
            let (head, rows) = cells(bytes);
            assert_eq!(head, ["Produit", "Prix"], "{what}");
            assert_eq!(rows, [row(2, &["C\u{e9}anothe", "12,50 \u{20ac}"])], "{what}");
        }
        assert_eq!(cells(said.as_bytes()).1[0].0, 3, "lines are counted in the file");
    }

    /// RFC 4180, section 2, items 5 to 7: quoted cells hold line ends, commas and doubled quotes.
    #[test]
    fn quoted_cells_hold_what_parts_others() {
        let text = "aaa,\"b\r\nbb\",ccc\r\nzzz,\"y,y\",\"say \"\"x\"\"\"\r\n";
        let (_, rows) = cells(text.as_bytes());
        assert_eq!(rows, [row(3, &["zzz", "y,y", "say \"x\""])]);
    }

    #[test]
    fn the_head_is_found_below_a_letterhead_and_lines_keep_their_numbers() {
        let text = "Week 12\n\nHollin Growers,,\nItem,Price,Stems\n\nRose,12.00,10\nshort\n";
        let (head, rows) = cells(text.as_bytes());
        assert_eq!(head, ["Item", "Price", "Stems"]);
        assert_eq!(rows, [row(6, &["Rose", "12.00", "10"]), row(7, &["short"])]);
        let (head, rows) = cells(b"Rose,12.00\nFreesia,8.00\n");
        assert_eq!((head, rows.len()), (vec!["Column 1".to_owned(), "Column 2".to_owned()], 2));
    }

    #[test]
    fn what_is_no_list_is_refused_with_a_sentence() {
        for bytes in
            [&b""[..], b"  \n\n", b"PK\x03\x04rest", b"\xd0\xcf\x11\xe0rest", b"a\0b\0c", b"only one column\nhere"]
        {
            assert!(price_table(bytes).is_err(), "{bytes:?}");
        }
        let many = "a,1\n".repeat(MOST_ROWS + 1);
        assert!(price_table(many.as_bytes()).is_err());
    }

    #[test]
    fn bytes_without_sense_never_end_the_program() {
        let mut random = fastrand::Rng::with_seed(7);
        for _ in 0..300 {
            let bytes: Vec<u8> = (0..random.usize(0..400)).map(|_| random.u8(..)).collect();
            let mixed: Vec<u8> =
                bytes.iter().map(|b| if b % 5 == 0 { b";,\n\"\r"[(b / 5 % 5) as usize] } else { *b }).collect();
            drop((price_table(&bytes), price_table(&mixed)));
        }
    }
}
