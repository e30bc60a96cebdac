//! From a file to a value, with every way of going wrong turned into a sentence that names the file and the line.
//!
//! The order matters: what it is, how big it is, whether it is text, which version, and only then what it says.

use std::fs::{self, File};
use std::io::Read;
use std::path::Path;

use ron::extensions::Extensions;
use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::store_error::{Cause, FileLine, StoreError};

/// The most that is read of any file. Our choice: a piece of a thousand parts takes about 0.2 MB.
const MOST_BYTES: u64 = 16 * 1024 * 1024;

/// How deep brackets may nest (each counts twice in RON); the deepest file of ours goes to 6.
const DEEPEST: usize = 64;

/// Letters of a line that are shown.
const LINE_SHOWN: usize = 100;

/// All of a file, after looking at what it is.
pub(super) fn bytes_of(path: &Path) -> Result<Vec<u8>, StoreError> {
    bytes_up_to(path, MOST_BYTES, Cause::TooBig)
}

/// All of a file of at most so many bytes; `too_big` is why more are not read.
pub(super) fn bytes_up_to(path: &Path, most: u64, too_big: Cause) -> Result<Vec<u8>, StoreError> {
    super::thread_guard::touch_disk();
    let refuse = |cause| StoreError::new(&name_of(path), cause);
    let trouble = |e| refuse(Cause::of_reading(&e));
    let what = fs::metadata(path).map_err(trouble)?;
    if what.is_dir() {
        return Err(refuse(Cause::Folder));
    }
    if !what.is_file() {
        return Err(refuse(Cause::NotAFile));
    }
    let mut bytes = Vec::new();
    File::open(path).and_then(|file| file.take(most + 1).read_to_end(&mut bytes)).map_err(trouble)?;
    if bytes.len() as u64 > most { Err(refuse(too_big)) } else { Ok(bytes) }
}

/// The name under which a file is spoken of.
pub(super) fn name_of(path: &Path) -> String {
    path.display().to_string()
}

/// The text in these bytes, without a byte order mark.
pub(super) fn text_of<'a>(bytes: &'a [u8], name: &str) -> Result<&'a str, StoreError> {
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(StoreError::new(name, Cause::WideText));
    }
    std::str::from_utf8(bytes).map(without_bom).map_err(|e| {
        let number = bytes[..e.valid_up_to()].split(|&b| b == b'\n').count();
        StoreError::at(name, Some(FileLine { number, text: String::new() }), Cause::NotText)
    })
}

fn without_bom(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

/// A kind of file. When fields are added its version is raised, so that an older program says that the file is newer and not
/// that a field is unknown.
pub(super) trait Versioned: DeserializeOwned {
    /// What it is, for messages.
    const KIND: &'static str;
    /// The newest version that this program knows; the first is 1.
    const NEWEST: u64 = 1;
}

/// The value that `text` says. Its version is checked first, so that a newer file is reported as such.
pub(super) fn parse<T: Versioned>(text: &str, name: &str) -> Result<T, StoreError> {
    let text = without_bom(text);
    if text.len() as u64 > MOST_BYTES {
        return Err(StoreError::new(name, Cause::TooBig));
    }
    if text.trim().is_empty() {
        return Err(StoreError::new(name, Cause::Empty));
    }
    let options =
        ron::Options::default().with_recursion_limit(DEEPEST).with_default_extension(Extensions::IMPLICIT_SOME);
    let head = options.from_str::<FileHead>(text);
    match &head {
        Ok(head) => check_version::<T>(head.version, text, name)?,
        Err(e) if e.code == ron::Error::ExceededRecursionLimit => return Err(refused(e, text, name)),
        // The whole has more to say about what is wrong than its head.
        Err(_) => {}
    }
    let value = options.from_str::<T>(text).map_err(|e| refused(&e, text, name))?;
    head.map(|_| value).map_err(|e| refused(&e, text, name))
}

/// What every file begins with; the rest is passed over.
#[derive(Deserialize)]
struct FileHead {
    version: Option<u64>,
}

fn check_version<T: Versioned>(version: Option<u64>, text: &str, name: &str) -> Result<(), StoreError> {
    let at_it = |cause| Err(StoreError::at(name, line_with(text, "version", ""), cause));
    match version {
        None => Err(StoreError::new(name, Cause::NoVersion)),
        Some(0) => at_it(Cause::NoSuchVersion(0)),
        Some(version) if version > T::NEWEST => at_it(Cause::Newer { kind: T::KIND, version }),
        Some(_) => Ok(()),
    }
}

/// The parser's answer in plain words, with the line it points at.
fn refused(e: &ron::error::SpannedError, text: &str, name: &str) -> StoreError {
    let owned = |names: &[&str]| names.iter().map(|&n| n.to_owned()).collect();
    let cause = match &e.code {
        ron::Error::ExceededRecursionLimit => Cause::Nested,
        ron::Error::NoSuchStructField { expected, found, .. } => {
            Cause::UnknownField { found: found.clone(), known: owned(expected) }
        }
        ron::Error::NoSuchEnumVariant { expected, found, .. } => {
            Cause::Value(super::store_error::no_such_word("known word here", found, &owned(expected)))
        }
        ron::Error::MissingStructField { field, .. } => Cause::MissingField((*field).to_owned()),
        ron::Error::DuplicateStructField { field, .. } => Cause::FieldTwice((*field).to_owned()),
        ron::Error::Message(sentence) => Cause::Value(sentence.clone()),
        code => Cause::Form(form(code)),
    };
    StoreError::at(name, line_at(text, e.span.end.line), cause)
}

/// What the writing lacks, in words.
fn form(code: &ron::Error) -> String {
    use ron::Error as E;
    match code {
        E::Eof => "the file ends too early".into(),
        E::ExpectedArray => "a list in [ ] is needed".into(),
        E::ExpectedArrayEnd => "a list is not closed with ]".into(),
        E::ExpectedBoolean => "true or false is needed".into(),
        E::ExpectedComma => "a comma is missing between two things".into(),
        E::ExpectedFloat | E::ExpectedInteger | E::FloatUnderscore | E::UnderscoreAtBeginning => {
            "a number is needed".into()
        }
        E::IntegerOutOfBounds => "a whole number from 0 up is needed, and not too large".into(),
        E::InvalidIntegerDigit { digit, .. } => format!("\u{201c}{digit}\u{201d} does not belong in a number"),
        E::ExpectedMapColon => "a colon is missing between a name and what it holds".into(),
        E::ExpectedStructLike | E::ExpectedNamedStructLike(_) | E::ExpectedDifferentStructName { .. } => {
            "something in ( ) is needed".into()
        }
        E::ExpectedStructLikeEnd | E::ExpectedOptionEnd => "a bracket is not closed with )".into(),
        E::ExpectedString => "a text in \" \" is needed".into(),
        E::ExpectedStringEnd => "a text is not closed with \"".into(),
        E::ExpectedIdentifier => "a plain word without quotes is needed".into(),
        E::InvalidEscape(_) => "a \\ in a text means nothing here".into(),
        E::UnclosedBlockComment => "a remark that begins with /* is not closed with */".into(),
        E::UnexpectedChar(c) => {
            format!("\u{201c}{}\u{201d} does not belong here", c.escape_debug())
        }
        E::TrailingCharacters => "something follows the end".into(),
        E::ExpectedDifferentLength { expected, found } => {
            format!("brackets with {found} values should hold {}", expected.trim_start_matches("a tuple of size "))
        }
        E::InvalidValueForType { expected, found } => {
            format!("{expected} is needed, not {}", plain(found))
        }
        _ => "this cannot be read".into(),
    }
}

/// The parser's words for what it found, without words of the trade that is not ours.
fn plain(found: &str) -> String {
    const FOR: [(&str, &str); 5] = [
        ("the boolean ", ""),
        ("the unsigned integer ", ""),
        ("the signed integer ", ""),
        ("the floating point number ", ""),
        ("the string ", ""),
    ];
    let known = FOR.iter().find_map(|(theirs, ours)| found.strip_prefix(theirs).map(|rest| format!("{ours}{rest}")));
    known.unwrap_or_else(|| "something else".to_owned()).replace('`', "")
}

/// Line `number` of a text, cut to a readable length.
pub(super) fn line_at(text: &str, number: usize) -> Option<FileLine> {
    let line = text.lines().nth(number.checked_sub(1)?).unwrap_or("").trim();
    let mut shown: String = line.chars().filter(|c| !c.is_control()).take(LINE_SHOWN).collect();
    if line.chars().count() > LINE_SHOWN {
        shown.push('\u{2026}');
    }
    Some(FileLine { number, text: shown })
}

/// The first line on which `field` holds `value` (any value when empty); remarks at the start of a line are passed over.
pub(super) fn line_with(text: &str, field: &str, value: &str) -> Option<FileLine> {
    nth_line_with(text, field, value, 0)
}

/// The line on which `field` holds `value` for the time after `passed` others.
pub(super) fn nth_line_with(text: &str, field: &str, value: &str, passed: usize) -> Option<FileLine> {
    let holds = |line: &str| {
        line.match_indices(field)
            .filter(|(at, _)| !line[..*at].ends_with(|c: char| c.is_alphanumeric() || c == '_'))
            .filter_map(|(at, _)| line[at + field.len()..].trim_start().strip_prefix(':'))
            .filter(|rest| {
                let after = rest.trim_start().strip_prefix(value);
                after.is_some_and(|a| value.is_empty() || !a.starts_with(|c: char| c.is_alphanumeric()))
            })
            .count()
    };
    let mut left = passed;
    for (i, line) in text.lines().enumerate().filter(|(_, l)| !l.trim_start().starts_with("//")) {
        let here = holds(line);
        if here > left {
            return line_at(text, i + 1);
        }
        left -= here;
    }
    None
}
