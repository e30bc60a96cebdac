//! Every message about a file, side by side: what could not be done, why, what to do.
//!
//! No message blames, and none speaks of types or bytes. Sentences are complete; who shows them adds nothing.

use std::fmt;
use std::io;

use super::photo_fault::PhotoFault;
use crate::units::mm_text;

/// A line of a file, to show where it stopped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileLine {
    /// Its number, from 1.
    pub number: usize,
    /// What it says, cut to a readable length.
    pub text: String,
}

/// Why a file could not be opened or saved, with its name and line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StoreError {
    /// The file, as it was named.
    pub file: String,
    /// The line, where there is one.
    pub line: Option<Box<FileLine>>,
    /// Why.
    pub cause: Cause,
}

/// The reason that a file could not be opened or saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Nothing of that name.
    NotThere,
    /// A folder is there.
    Folder,
    /// Neither file nor folder.
    NotAFile,
    /// The system does not allow reading it.
    NotAllowed,
    /// The disk answered something else, under the system's own number.
    Disk(Option<i32>),
    /// It cannot be read as a photo.
    Photo(PhotoFault),
    /// It cannot be taken as a logo.
    Logo(PhotoFault),
    /// More than is read.
    TooBig,
    /// Not UTF-8 text.
    NotText,
    /// Text in another encoding.
    WideText,
    /// Nothing in it.
    Empty,
    /// No version is given.
    NoVersion,
    /// Saved by a newer program.
    Newer {
        /// Order, style, stock list, shop.
        kind: &'static str,
        /// The version that the file names.
        version: u64,
    },
    /// A version that does not exist.
    NoSuchVersion(u64),
    /// Brackets within brackets beyond any real file.
    Nested,
    /// The writing itself does not hold together.
    Form(String),
    /// A field that does not exist here.
    UnknownField {
        /// What was found.
        found: String,
        /// What is allowed there.
        known: Vec<String>,
    },
    /// A field that is needed.
    MissingField(String),
    /// A field given twice.
    FieldTwice(String),
    /// A value that cannot be meant; the sentence says which and what belongs there.
    Value(String),
    /// A name that is not in stock.
    NotInStock {
        /// Flower, ribbon, band.
        what: &'static str,
        /// What was found.
        found: String,
        /// Near names.
        near: Vec<String>,
    },
    /// A colour that this does not come in.
    NoSuchColour {
        /// Of what.
        of: String,
        /// What was found.
        found: String,
        /// What it comes in.
        known: Vec<String>,
    },
    /// Two things of one name or number.
    Twice {
        /// Part, flower, size.
        what: &'static str,
        /// Name or number.
        name: String,
    },
    /// More parts than a piece can hold.
    TooManyParts(usize),
    /// A new line of stock without all it needs.
    Incomplete {
        /// Its id.
        id: String,
        /// What is missing.
        missing: Vec<&'static str>,
    },
    /// There is no shop in this folder.
    NoShop,
    /// No folder to save it in.
    NoPlace,
    /// The file may only be read.
    ReadOnly,
    /// A folder has the name.
    FolderInTheWay,
    /// The disk answered something else while writing, under the system's own number.
    DiskOnSaving(Option<i32>),
    /// The folder takes no new files.
    ReadOnlyFolder,
    /// The disk may only be read.
    ReadOnlyDisk,
    /// The disk is full.
    Full,
    /// The folder is gone.
    FolderGone,
    /// Someone else wrote the file since it was opened.
    Changed,
    /// A file of that name exists.
    AlreadyThere,
    /// A link that leads nowhere.
    LinkToNothing,
    /// What was about to be written does not read back the same.
    NotTheSame(String),
}

impl StoreError {
    pub(super) fn new(file: &str, cause: Cause) -> Self {
        Self { file: file.to_owned(), line: None, cause }
    }

    pub(super) fn at(file: &str, line: Option<FileLine>, cause: Cause) -> Self {
        Self { file: file.to_owned(), line: line.map(Box::new), cause }
    }

    /// What could not be done.
    pub fn what(&self) -> String {
        let what = if self.cause.is_of_saving() { "Not saved" } else { "Not opened" };
        format!("{what}: \u{201c}{}\u{201d}", self.file)
    }

    /// Why it could not be done.
    pub fn why(&self) -> String {
        self.cause.why()
    }

    /// What to do about it.
    pub fn remedy(&self) -> String {
        self.cause.remedy()
    }
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.what())?;
        if let Some(line) = &self.line {
            write!(f, ", line {}", line.number)?;
        }
        write!(f, ". {}. {}", capitalised(&self.why()), self.remedy())?;
        match &self.line {
            Some(line) if !line.text.is_empty() => write!(f, " Line {} reads: {}", line.number, line.text),
            _ => Ok(()),
        }
    }
}

impl std::error::Error for StoreError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&self.cause)
    }
}

impl fmt::Display for Cause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.why())
    }
}

impl std::error::Error for Cause {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Photo(fault) | Self::Logo(fault) => Some(fault),
            _ => None,
        }
    }
}

impl Cause {
    /// Its name in the code, without what it holds: for the log.
    pub(super) fn name(&self) -> String {
        format!("{self:?}").chars().take_while(|letter| letter.is_alphanumeric()).collect()
    }

    /// What reading ran into, from the kind of trouble and never from the system's own words.
    pub(super) fn of_reading(trouble: &io::Error) -> Self {
        match trouble.kind() {
            io::ErrorKind::NotFound => Self::NotThere,
            io::ErrorKind::IsADirectory => Self::Folder,
            io::ErrorKind::PermissionDenied => Self::NotAllowed,
            _ => Self::Disk(trouble.raw_os_error()),
        }
    }

    /// What writing ran into.
    pub(super) fn of_saving(trouble: &io::Error) -> Self {
        match trouble.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded | io::ErrorKind::WriteZero => Self::Full,
            io::ErrorKind::PermissionDenied => Self::ReadOnlyFolder,
            io::ErrorKind::ReadOnlyFilesystem => Self::ReadOnlyDisk,
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Self::FolderGone,
            io::ErrorKind::IsADirectory => Self::FolderInTheWay,
            io::ErrorKind::AlreadyExists => Self::AlreadyThere,
            _ => Self::DiskOnSaving(trouble.raw_os_error()),
        }
    }

    fn is_of_saving(&self) -> bool {
        matches!(
            self,
            Self::NoPlace
                | Self::ReadOnly
                | Self::FolderInTheWay
                | Self::DiskOnSaving(_)
                | Self::ReadOnlyFolder
                | Self::ReadOnlyDisk
                | Self::Full
                | Self::FolderGone
                | Self::Changed
                | Self::AlreadyThere
                | Self::LinkToNothing
                | Self::NotTheSame(_)
        )
    }

    pub(super) fn why(&self) -> String {
        match self {
            Self::NotThere => "there is no such file".into(),
            Self::Folder => "it is a folder".into(),
            Self::NotAFile => "it is not an ordinary file".into(),
            Self::NotAllowed => "this computer does not allow reading it".into(),
            Self::Disk(code) => format!("the disk did not answer{}", system(*code)),
            Self::DiskOnSaving(code) => format!("the disk refused it{}", system(*code)),
            Self::FolderInTheWay => "a folder has that name".into(),
            Self::NoShop => "there is no shop in that folder".into(),
            Self::Photo(fault) | Self::Logo(fault) => fault.why(),
            Self::TooBig => "it is larger than 16 MB".into(),
            Self::NotText => "it is not plain text".into(),
            Self::WideText => "its text is not UTF-8".into(),
            Self::Empty => "it is empty".into(),
            Self::NoVersion => "it has no version".into(),
            Self::Newer { kind, .. } => format!("this {kind} was saved by a newer Posywright"),
            Self::NoSuchVersion(version) => format!("there is no version {version}"),
            Self::Nested => "its brackets are nested too deep".into(),
            Self::Form(why) | Self::Value(why) => why.clone(),
            Self::UnknownField { found, .. } => format!("\u{201c}{found}\u{201d} is not a field here"),
            Self::MissingField(name) => format!("\u{201c}{name}\u{201d} is missing"),
            Self::FieldTwice(name) => format!("\u{201c}{name}\u{201d} is given twice"),
            Self::NotInStock { what, found, .. } => format!("{what} \u{201c}{found}\u{201d} is not in stock"),
            Self::NoSuchColour { of, found, .. } => {
                format!("\u{201c}{of}\u{201d} does not come in \u{201c}{found}\u{201d}")
            }
            Self::Twice { what, name } => format!("two have the {what} \u{201c}{name}\u{201d}"),
            Self::TooManyParts(n) => format!("it holds {n} parts; the most is 5000"),
            Self::Incomplete { id, missing } => {
                format!("\u{201c}{id}\u{201d} is new and lacks its {}", listed(missing.iter().copied()))
            }
            Self::NoPlace => "there is no shop folder".into(),
            Self::ReadOnly => "the file is read-only".into(),
            Self::ReadOnlyFolder => "this computer does not allow saving in that folder".into(),
            Self::ReadOnlyDisk => "that disk is read-only".into(),
            Self::Full => "the disk is full".into(),
            Self::FolderGone => "its folder is gone".into(),
            Self::Changed => "another program has changed the file".into(),
            Self::AlreadyThere => "a file has that name already".into(),
            Self::LinkToNothing => "it is a link to a missing file".into(),
            Self::NotTheSame(why) => format!("it would not read back the same ({why})"),
        }
    }

    fn remedy(&self) -> String {
        match self {
            Self::Photo(fault) => fault.remedy().into(),
            Self::Logo(fault) => fault.remedy_for_logo().into(),
            Self::NotThere => "Check the name, or choose the file again.".into(),
            Self::Folder => "Choose a file in it.".into(),
            Self::NotAFile | Self::TooBig => "Choose a file saved by Posywright.".into(),
            Self::NotAllowed => "Allow it, or copy the file to your own folder.".into(),
            Self::Disk(_) => "Check that the disk is connected, then try again.".into(),
            Self::DiskOnSaving(_) => "Save to another disk. The last saved version is safe.".into(),
            Self::FolderInTheWay | Self::AlreadyThere => "Choose another name.".into(),
            Self::NoShop => "Choose the shop\u{2019}s folder, or start a new shop.".into(),
            Self::NotText | Self::WideText => "Save it as UTF-8 text, or open an earlier copy.".into(),
            Self::Empty => "Open an earlier copy, or delete it.".into(),
            Self::NoVersion | Self::NoSuchVersion(_) => "Write \u{201c}version: 1,\u{201d} at its beginning.".into(),
            Self::Newer { .. } => "Update Posywright to open it.".into(),
            Self::Nested => "Open an earlier copy.".into(),
            Self::Form(_) | Self::Value(_) => "Correct it, or open an earlier copy.".into(),
            Self::UnknownField { found, known } => one_of("", found, known),
            Self::MissingField(_) => "Add it.".into(),
            Self::FieldTwice(_) => "Remove one of the two.".into(),
            Self::NotInStock { near, .. } if near.is_empty() => "Change the name, or add it to the stock list.".into(),
            Self::NotInStock { near, .. } => {
                format!("Did you mean {}? Or add it to the stock list.", either(near))
            }
            Self::NoSuchColour { known, .. } => format!("It comes in {}.", listed(known.iter())),
            Self::Twice { .. } => "Give one of them another.".into(),
            Self::TooManyParts(_) => "Remove parts, or open an earlier copy.".into(),
            Self::Incomplete { .. } => "Add them, or use a built-in id.".into(),
            Self::NoPlace => "Start Posywright with --shop and a folder.".into(),
            Self::ReadOnly => "Save a copy under another name.".into(),
            Self::ReadOnlyFolder | Self::ReadOnlyDisk => "Save a copy elsewhere.".into(),
            Self::Full => "Free some space, or save elsewhere. The last saved version is safe.".into(),
            Self::FolderGone => "Choose another folder, or reconnect the disk.".into(),
            Self::Changed => "Save yours under another name, then compare.".into(),
            Self::LinkToNothing => "Choose another name, or reconnect its disk.".into(),
            Self::NotTheSame(_) => "The last saved version is safe. Undo the last step and save again.".into(),
        }
    }
}

fn system(code: Option<i32>) -> String {
    code.map_or_else(String::new, |code| format!(" (code {code})"))
}

/// Why a length was not taken.
pub(super) fn no_length(found: &str, least_mm: f64, most_mm: f64) -> String {
    format!(
        "a length from {} to {} mm is needed (155, \u{201c}15.5 cm\u{201d}, \u{201c}6 1/4\u{201d}), not {found}",
        mm_text(least_mm),
        mm_text(most_mm)
    )
}

/// Why a girth was not taken that may have been meant in another unit.
pub(super) fn girth_in_doubt(found: &str, meant_mm: f64) -> String {
    format!("no wrist measures {found} mm; {} may be meant", mm_text(meant_mm))
}

/// Why a number was not taken.
pub(super) fn no_number(found: &str, what: &str, least: f64, most: f64) -> String {
    format!("{what} from {least} to {most} is needed, not {found}")
}

/// Why an amount of money was not taken.
pub(super) fn no_money(found: &str) -> String {
    format!("an amount such as 18 or 18.50 is needed, not {found}")
}

/// Why a colour was not taken.
pub(super) fn no_colour(found: &str) -> String {
    format!("a colour such as \u{201c}#f2cfc8\u{201d} is needed, not \u{201c}{found}\u{201d}")
}

/// Why a day was not taken.
pub(super) fn no_day(found: &str) -> String {
    format!("a day such as \u{201c}2026-05-09\u{201d} is needed, not \u{201c}{found}\u{201d}")
}

/// Why an hour was not taken.
pub(super) fn no_hour(found: &str) -> String {
    format!("an hour such as \u{201c}14:00\u{201d} is needed, not \u{201c}{found}\u{201d}")
}

/// Why a quote or an agreement within a quote or an agreement was not taken.
pub(super) fn order_within_order(field: &str) -> String {
    format!("the {field} order holds a quote or an agreement of its own")
}

/// Why a list of months was not taken.
pub(super) fn no_months(found: &str) -> String {
    format!(
        "months are needed (\u{201c}all\u{201d}, \u{201c}2-6\u{201d}, \u{201c}10-4\u{201d}), not \u{201c}{found}\u{201d}"
    )
}

/// Why a word was not taken.
pub(super) fn no_such_word(what: &str, found: &str, known: &[String]) -> String {
    format!("\u{201c}{found}\u{201d} is not a {what}{}", ended(&one_of("; ", found, known)))
}

/// Why a text was not taken.
pub(super) fn too_long(found: usize, most: usize) -> String {
    format!("a text of {found} letters is too long; the most is {most}")
}

/// A list as people write it: `a, b and c`.
pub(super) fn listed<T: AsRef<str>>(names: impl Iterator<Item = T>) -> String {
    let names: Vec<T> = names.collect();
    match names.split_last() {
        None => String::new(),
        Some((only, [])) => only.as_ref().to_owned(),
        Some((last, before)) => {
            let before: Vec<&str> = before.iter().map(|n| n.as_ref()).collect();
            format!("{} and {}", before.join(", "), last.as_ref())
        }
    }
}

/// The near ones of many known names, or all of a few.
fn one_of(before: &str, found: &str, known: &[String]) -> String {
    let near = super::nearest::nearest(found, known.iter().map(String::as_str));
    match near.first() {
        Some(best) => format!("{before}Did you mean \u{201c}{best}\u{201d}? Known: {}.", listed(known.iter())),
        None => format!("{before}Known: {}.", listed(known.iter())),
    }
}

/// Names to choose from: `a, b or c`.
fn either(names: &[String]) -> String {
    match names.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} or {last}", before.join(", ")),
        _ => names.concat(),
    }
}

/// With a capital at the beginning, for the start of a sentence.
fn capitalised(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Without the full stop, for the middle of a sentence.
fn ended(text: &str) -> &str {
    text.trim_end_matches('.')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn each() -> Vec<Cause> {
        let (found, known) = ("levle".to_owned(), vec!["level".to_owned(), "turn".to_owned()]);
        vec![
            Cause::NotThere,
            Cause::Folder,
            Cause::NotAFile,
            Cause::NotAllowed,
            Cause::Disk(Some(5)),
            Cause::Disk(None),
            Cause::Photo(PhotoFault::NotAPhoto),
            Cause::Photo(PhotoFault::Empty),
            Cause::Photo(PhotoFault::TooManyBytes),
            Cause::Photo(PhotoFault::TooManyPixels { width: 20_000, height: 20_000 }),
            Cause::Photo(PhotoFault::TooMuchMemory),
            Cause::Photo(PhotoFault::CutShort),
            Cause::Photo(PhotoFault::Damaged),
            Cause::Logo(PhotoFault::NotAPhoto),
            Cause::Logo(PhotoFault::TooManyBytes),
            Cause::Logo(PhotoFault::Damaged),
            Cause::TooBig,
            Cause::NotText,
            Cause::WideText,
            Cause::Empty,
            Cause::NoVersion,
            Cause::Newer { kind: "order", version: 9 },
            Cause::NoSuchVersion(0),
            Cause::Nested,
            Cause::Form("a list is not closed with ]".into()),
            Cause::UnknownField { found: found.clone(), known: known.clone() },
            Cause::MissingField("stock".into()),
            Cause::FieldTwice("at".into()),
            Cause::Value(no_length("\u{201c}wide\u{201d}", 1.0, 500.0)),
            Cause::NotInStock { what: "flower", found: found.clone(), near: known.clone() },
            Cause::NotInStock { what: "flower", found: found.clone(), near: vec![] },
            Cause::NoSuchColour { of: "rose".into(), found, known },
            Cause::Twice { what: "id", name: "3".into() },
            Cause::TooManyParts(5001),
            Cause::Incomplete { id: "tulip".into(), missing: vec!["role", "size"] },
            Cause::NoShop,
            Cause::ReadOnly,
            Cause::FolderInTheWay,
            Cause::DiskOnSaving(Some(5)),
            Cause::ReadOnlyFolder,
            Cause::ReadOnlyDisk,
            Cause::Full,
            Cause::FolderGone,
            Cause::Changed,
            Cause::AlreadyThere,
            Cause::LinkToNothing,
            Cause::NotTheSame("a figure would be lost".into()),
        ]
    }

    #[test]
    fn every_message_is_whole_sentences_and_short() {
        /// Longer than 90 letters after the file's name: they list what may be written, or tell a fault of the program.
        fn may_be_long(cause: &Cause) -> bool {
            matches!(cause, Cause::Value(_) | Cause::NotTheSame(_) | Cause::Photo(_))
        }
        for cause in each() {
            let is_exempt = may_be_long(&cause);
            let said = StoreError::new("orders/a.ron", cause).to_string();
            let rest = said.strip_prefix("Not opened: \u{201c}orders/a.ron\u{201d}. ");
            let rest = rest.or(said.strip_prefix("Not saved: \u{201c}orders/a.ron\u{201d}. ")).unwrap();
            assert!(rest.ends_with('.') && rest.starts_with(|c: char| !c.is_lowercase()), "{said}");
            assert!(is_exempt || rest.chars().count() <= 90, "{} letters: {rest}", rest.chars().count());
            for slip in ["error", "invalid", "user", "  ", "..", ",.", ":."] {
                assert!(!said.to_lowercase().contains(slip), "{slip}: {said}");
            }
        }
    }

    #[test]
    fn the_reasons_of_an_error_follow_one_another() {
        use std::error::Error as _;
        let fault = PhotoFault::CutShort;
        let refused = StoreError::new("dress.jpg", Cause::Photo(fault));
        let cause = refused.source().unwrap();
        assert_eq!(cause.to_string(), "part of the picture is missing");
        assert_eq!(cause.source().and_then(|reason| reason.downcast_ref()), Some(&fault));
        assert!(StoreError::new("a.ron", Cause::Full).source().unwrap().source().is_none());
    }

    #[test]
    fn lists_read_as_people_write_them() {
        for (names, text) in
            [(vec![], ""), (vec!["a"], "a"), (vec!["a", "b"], "a and b"), (vec!["a", "b", "c"], "a, b and c")]
        {
            assert_eq!(listed(names.into_iter()), text);
        }
    }
}
