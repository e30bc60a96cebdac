//! A command line as it was typed: its words in their order, and the options that were given. Knows which option goes with which
//! command, and nothing of what the commands do.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::ops::RangeInclusive;
use std::path::PathBuf;
use std::str::FromStr;

use lexopt::{Arg, Parser};

/// An option that the program knows.
struct KnownFlag {
    name: &'static str,
    /// What has to follow it; nothing for a flag.
    wants: Option<&'static str>,
    /// The commands that have a use for it.
    goes_with: &'static [&'static str],
}

const fn alone(name: &'static str, goes_with: &'static [&'static str]) -> KnownFlag {
    KnownFlag { name, wants: None, goes_with }
}

const fn with(name: &'static str, wants: &'static str, goes_with: &'static [&'static str]) -> KnownFlag {
    KnownFlag { name, wants: Some(wants), goes_with }
}

/// Options that every command takes, the window's too.
const EVERYWHERE: [&str; 3] = ["shop", "help", "version"];

const KNOWN: &[KnownFlag] = &[
    alone("help", &[]),
    alone("version", &[]),
    with("shop", "a folder", &[]),
    with("photo", "the file of a photo", &[""]),
    alone("json", &["once-over", "stems", "quote", "market", "bench", "party-bill", "set-out", "match", "dress"]),
    alone("csv", &["stems", "market"]),
    with("occasion", "an occasion", &["market", "bench", "labels"]),
    with("makers", "a whole number", &["bench"]),
    with("hours", "a whole number", &["bench"]),
    alone("bows-ahead", &["bench"]),
    with("to", "a file name", &["picture", "photograph", "forms", "party-bill", "set-out"]),
    with("width-px", "a number", &["picture", "photograph", "forms"]),
    with("dpi", "a number", &["picture", "forms"]),
    with("view", "a word", &["picture", "photograph"]),
    with("skin", "a word", &["picture", "photograph"]),
    with("dress", "a colour", &["picture", "photograph"]),
    with("finish", "a word", &["photograph"]),
    alone("clear", &["picture"]),
    with("caption", "words", &["picture"]),
    alone("coin", &["picture"]),
    alone("limit", &["picture"]),
    with("into", "a folder", &["papers", "labels"]),
    with("sheet", "a sheet of labels", &["labels"]),
    with("first", "a whole number", &["labels"]),
    alone("frame", &["labels"]),
    alone("no-balance", &["labels"]),
    with("paper", "a4 or letter", &["papers", "party-bill"]),
    with("only", "the name of a paper", &["papers"]),
    with("stock", "a file", &["match"]),
    with("at", "a place such as 620,900", &["dress"]),
    with("seed", "a whole number", &["set-out"]),
    with("for", "milliseconds", &["set-out"]),
];

/// What was typed.
#[derive(Debug, Default)]
pub(super) struct Args {
    /// What is not an option: the command, then files.
    pub(super) words: Vec<OsString>,
    given: BTreeMap<&'static str, Vec<OsString>>,
}

impl Args {
    /// Reads the words after the program's name. The failure is a sentence.
    pub(super) fn read(words: impl IntoIterator<Item = OsString>) -> Result<Self, String> {
        let mut args = Self::default();
        let mut parser = Parser::from_args(words);
        while let Some(arg) = parser.next().map_err(|e| format!("{e}."))? {
            let name = match arg {
                Arg::Value(word) => {
                    args.words.push(word);
                    continue;
                }
                Arg::Long(name) => name.to_owned(),
                Arg::Short('h') => "help".to_owned(),
                Arg::Short('V') => "version".to_owned(),
                Arg::Short(letter) => return Err(format!("No option -{letter}. See posywright --help.")),
            };
            let known = KNOWN
                .iter()
                .find(|k| k.name == name)
                .ok_or_else(|| format!("No option --{name}. See posywright --help."))?;
            let value = match known.wants {
                Some(what) => parser.value().map_err(|_missing| format!("--{name} needs {what} after it."))?,
                None => OsString::new(),
            };
            args.given.entry(known.name).or_default().push(value);
        }
        Ok(args)
    }

    /// The first word.
    pub(super) fn first(&self) -> &str {
        self.words.first().and_then(|w| w.to_str()).unwrap_or_default()
    }

    /// Whether the option was given.
    pub(super) fn has(&self, option: &str) -> bool {
        self.given.contains_key(option)
    }

    /// What follows the option, as a place on disk; where it was given several times, the last.
    pub(super) fn place(&self, option: &str) -> Option<PathBuf> {
        self.given.get(option).and_then(|words| words.last()).map(PathBuf::from)
    }

    /// What follows the option, as text; where it was given several times, the last.
    pub(super) fn text(&self, option: &str) -> Option<String> {
        self.texts(option).pop()
    }

    /// What follows the option, each time that it was given.
    pub(super) fn texts(&self, option: &str) -> Vec<String> {
        let words = self.given.get(option).into_iter().flatten();
        words.map(|word| word.to_string_lossy().into_owned()).collect()
    }

    /// What follows the option, as a whole number within `range`.
    pub(super) fn number<T>(&self, option: &str, range: RangeInclusive<T>) -> Result<Option<T>, String>
    where
        T: FromStr + PartialOrd + std::fmt::Display,
    {
        let Some(text) = self.text(option) else { return Ok(None) };
        text.parse()
            .ok()
            .filter(|n| range.contains(n))
            .map(Some)
            .ok_or_else(|| format!("--{option} needs a whole number from {} to {}.", range.start(), range.end()))
    }

    /// Refuses an option that `command` has no use for.
    pub(super) fn reject_unknown_flags(&self, command: &str) -> Result<(), String> {
        let goes = |k: &&KnownFlag| EVERYWHERE.contains(&k.name) || k.goes_with.contains(&command);
        match KNOWN.iter().filter(|k| self.has(k.name)).find(|k| !goes(k)) {
            Some(unknown) if unknown.goes_with == [""] => Err(format!("--{} is for the window.", unknown.name)),
            Some(unknown) => Err(format!("--{} is for {}.", unknown.name, unknown.goes_with.join(" and "))),
            None => Ok(()),
        }
    }

    /// The one file that `command` is about.
    pub(super) fn one_file(&self, command: &str) -> Result<PathBuf, String> {
        match &self.words[1..] {
            [file] => Ok(PathBuf::from(file)),
            [] => Err(format!("{command} needs the file of an order.")),
            _ => Err(format!("{command} takes one file.")),
        }
    }

    /// The one photo that a command is about.
    pub(super) fn one_photo(&self) -> Result<PathBuf, String> {
        match &self.words[1..] {
            [file] => Ok(PathBuf::from(file)),
            [] => Err(format!("{} needs the file of a photo.", self.first())),
            _ => Err(format!("{} takes one photo.", self.first())),
        }
    }

    /// The files that `command` is about: one, or as many as `most`.
    pub(super) fn some_files(&self, command: &str, most: usize) -> Result<Vec<PathBuf>, String> {
        match &self.words[1..] {
            [] => Err(format!("{command} needs the file of one order or more.")),
            files if files.len() <= most => Ok(files.iter().map(PathBuf::from).collect()),
            _ => Err(format!("{command} takes at most {most} files.")),
        }
    }
}
