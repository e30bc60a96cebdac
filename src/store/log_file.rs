//! The log: what the program did and what failed, in `posywright.log` in the shop's folder, for whoever helps later.
//!
//! It never holds a client's name or phone: what the program reports is a [`LogEvent`], which has no room for text from an
//! order, and of what other libraries report only the place in their code is written. Plain text of bounded size: a full
//! file becomes `posywright.old.log`, over the one before.

use std::fmt;
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use log::{Level, LevelFilter, Log, Metadata, Record};

/// The file that is written.
const LOG_FILE: &str = "posywright.log";
/// The file before it.
const OLD_LOG_FILE: &str = "posywright.old.log";
/// Most bytes of each of the two files; our choice, some three thousand lines.
const MOST_LOG_BYTES: u64 = 256 * 1024;
/// Most lines that wait until the shop's folder is known; our choice.
const MOST_EARLY_LINES: usize = 50;
/// The target of our own events, which tells them from other libraries' records.
const OWN_TARGET: &str = "posywright-event";

/// Something worth a line. No variant holds text that a person typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum LogEvent {
    /// The program began.
    Started,
    /// A shop was opened.
    ShopOpened {
        /// Files in `orders/`.
        orders: usize,
        /// Files that the built-in list or style replaces.
        warnings: usize,
    },
    /// An order was saved.
    OrderSaved,
    /// An order was not saved; the name of the cause.
    OrderNotSaved(String),
    /// An order was not opened; the name of the cause.
    OrderNotOpened(String),
    /// The colour profile of a photo was not used; the name of the cause.
    ProfileNotUsed(String),
    /// The recovery copy was not written; the name of the cause.
    CopyNotWritten(String),
    /// The program panicked.
    Panicked(String),
    /// What was open when it panicked: how many copies were written, of how many.
    CopiesWritten {
        /// Written.
        written: usize,
        /// Asked to.
        of: usize,
    },
}

impl LogEvent {
    /// A colour profile that was not used; of the reason its name alone.
    pub(super) fn profile_not_used(why: &dyn fmt::Debug) -> Self {
        Self::ProfileNotUsed(format!("{why:?}").chars().take_while(|letter| letter.is_alphanumeric()).collect())
    }

    fn level(&self) -> Level {
        match self {
            Self::Started | Self::ShopOpened { warnings: 0, .. } | Self::OrderSaved | Self::CopiesWritten { .. } => {
                Level::Info
            }
            Self::ShopOpened { .. } | Self::OrderNotOpened(_) | Self::ProfileNotUsed(_) => Level::Warn,
            Self::OrderNotSaved(_) | Self::CopyNotWritten(_) | Self::Panicked(_) => Level::Error,
        }
    }
}

impl fmt::Display for LogEvent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Started => write!(f, "started, version {} on {}", env!("CARGO_PKG_VERSION"), std::env::consts::OS),
            Self::ShopOpened { orders, warnings } => write!(f, "shop opened: {orders} orders, {warnings} warnings"),
            Self::OrderSaved => write!(f, "order saved"),
            Self::OrderNotSaved(cause) => write!(f, "order not saved: {cause}"),
            Self::OrderNotOpened(cause) => write!(f, "order not opened: {cause}"),
            Self::ProfileNotUsed(cause) => write!(f, "colour profile not used: {cause}"),
            Self::CopyNotWritten(cause) => write!(f, "recovery copy not written: {cause}"),
            Self::Panicked(place) => write!(f, "panic {place}"),
            Self::CopiesWritten { written, of } => write!(f, "recovery copies written: {written} of {of}"),
        }
    }
}

/// Reports an event to the log, if there is one.
pub(super) fn log_event(event: &LogEvent) {
    log::log!(target: OWN_TARGET, event.level(), "{event}");
}

/// Begins the log of this program; it goes into the folder of each shop that is opened from now on. Does nothing the second
/// time.
pub fn start_log() {
    if log::set_logger(&LOG).is_ok() {
        log::set_max_level(LevelFilter::Info);
        log_event(&LogEvent::Started);
    }
}

/// Lines go into this folder from now on, those that waited first.
pub(super) fn log_into(folder: &Path) {
    LOG.move_to(folder);
}

static LOG: LogFile = LogFile { state: Mutex::new(LogState { folder: None, early: Vec::new() }) };

struct LogFile {
    state: Mutex<LogState>,
}

struct LogState {
    folder: Option<PathBuf>,
    /// Lines from before a folder was known.
    early: Vec<String>,
}

impl LogFile {
    fn move_to(&self, folder: &Path) {
        let early = {
            let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
            state.folder = Some(folder.to_owned());
            std::mem::take(&mut state.early)
        };
        for line in early {
            append(folder, &line);
        }
    }

    fn put(&self, line: String) {
        let folder = {
            let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
            if state.folder.is_none() && state.early.len() < MOST_EARLY_LINES {
                state.early.push(line);
                return;
            }
            state.folder.clone()
        };
        // The lock is free again: a panic while writing may report itself.
        if let Some(folder) = folder {
            append(&folder, &line);
        }
    }
}

impl Log for LogFile {
    fn enabled(&self, about: &Metadata<'_>) -> bool {
        about.target() == OWN_TARGET || about.level() <= Level::Warn
    }

    fn log(&self, record: &Record<'_>) {
        if self.enabled(record.metadata()) {
            self.put(line_of(record));
        }
    }

    fn flush(&self) {}
}

/// `2026-05-09 14:03:22 +02:00 INFO order saved`. A record that is not an event of ours loses its words: they may hold a
/// title or a path, and so a name.
fn line_of(record: &Record<'_>) -> String {
    let at = jiff::ZonedDateTime::now().strftime("%Y-%m-%d %H:%M:%S %:z").to_string();
    let level = record.level();
    if record.target() == OWN_TARGET {
        return format!("{at} {level} {}\n", record.args());
    }
    let (target, line) = (record.target(), record.line().unwrap_or(0));
    format!("{at} {level} {target}, line {line}\n")
}

/// Adds a line to the file in `folder`. A log that cannot be written stops nobody.
fn append(folder: &Path, line: &str) {
    let path = folder.join(LOG_FILE);
    let length = fs::metadata(&path).map_or(0, |status| status.len());
    if length + line.len() as u64 > MOST_LOG_BYTES {
        fs::rename(&path, folder.join(OLD_LOG_FILE)).ok();
    }
    let opened = OpenOptions::new().create(true).append(true).open(&path);
    opened.and_then(|mut file| file.write_all(line.as_bytes())).ok();
}

#[cfg(test)]
mod tests {
    use super::*;

    fn log_file() -> LogFile {
        LogFile { state: Mutex::new(LogState { folder: None, early: Vec::new() }) }
    }

    fn report(log: &LogFile, target: &str, level: Level, words: &str) {
        log.log(&Record::builder().target(target).level(level).line(Some(7)).args(format_args!("{words}")).build());
    }

    #[test]
    fn lines_wait_for_a_folder_and_then_follow_it() {
        let (log, folder) = (log_file(), tempfile::tempdir().unwrap());
        report(&log, OWN_TARGET, Level::Info, "started");
        log.move_to(folder.path());
        report(&log, OWN_TARGET, Level::Error, "order not saved: Full");
        let text = fs::read_to_string(folder.path().join(LOG_FILE)).unwrap();
        let ends: Vec<&str> = text.lines().map(|line| line.splitn(4, ' ').nth(3).unwrap()).collect();
        assert_eq!(ends, ["INFO started", "ERROR order not saved: Full"]);
    }

    #[test]
    fn what_other_libraries_say_loses_its_words() {
        let (log, folder) = (log_file(), tempfile::tempdir().unwrap());
        log.move_to(folder.path());
        report(&log, "some_window", Level::Warn, "no title \"Mina Vale\", 555 0100");
        report(&log, "some_window", Level::Info, "Mina Vale again");
        let text = fs::read_to_string(folder.path().join(LOG_FILE)).unwrap();
        assert!(text.ends_with(" WARN some_window, line 7\n"), "{text}");
        assert_eq!(text.lines().count(), 1, "{text}");
    }

    /// 20,000 lines of about 50 bytes are a megabyte; two files of at most 256 KB stay.
    #[test]
    fn the_log_never_grows_beyond_two_files_of_a_quarter_of_a_megabyte() {
        let folder = tempfile::tempdir().unwrap();
        for n in 0..20_000 {
            append(folder.path(), &format!("2026-05-09 14:03:22 +02:00 INFO event number {n:6}\n"));
        }
        let length = |name: &str| fs::metadata(folder.path().join(name)).unwrap().len();
        assert!(length(LOG_FILE) <= MOST_LOG_BYTES && length(OLD_LOG_FILE) <= MOST_LOG_BYTES);
        assert!(length(LOG_FILE) + length(OLD_LOG_FILE) > MOST_LOG_BYTES, "and it is not thrown away too early");
        let last = fs::read_to_string(folder.path().join(LOG_FILE)).unwrap();
        assert!(last.ends_with(" 19999\n"));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2);
    }
}
