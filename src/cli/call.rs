//! What was called for: the words on the command line, read and checked.

use std::ffi::OsString;
use std::path::PathBuf;

use lexopt::{Arg, Parser, ValueExt};

/// How the stem list is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StemsAs {
    /// For people.
    Text,
    /// For machines.
    Json,
    /// For a spreadsheet.
    Csv,
}

/// What to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Call {
    /// Open the window, on a file when one is named.
    Window(Option<PathBuf>),
    /// Look a piece over.
    OnceOver {
        /// The order.
        file: PathBuf,
        /// For machines.
        json: bool,
    },
    /// Reckon stems and price.
    Stems {
        /// The order.
        file: PathBuf,
        /// For whom.
        form: StemsAs,
    },
    /// Say what it costs the client.
    Quote {
        /// The order.
        file: PathBuf,
        /// For machines.
        json: bool,
    },
    /// Make the picture.
    Picture {
        /// The order.
        file: PathBuf,
        /// Where it goes.
        to: PathBuf,
        /// Its width, pixels.
        width_px: u32,
    },
    /// Make all papers.
    Papers {
        /// The order.
        file: PathBuf,
        /// The folder they go into.
        into: PathBuf,
    },
    /// Help, for all or for one command.
    Help(Option<String>),
    /// Name and version.
    Version,
}

/// Width of a picture when none is asked for, pixels.
pub(super) const USUAL_WIDTH_PX: u32 = 1200;
/// Widths that a picture may have, pixels.
const WIDTHS_PX: std::ops::RangeInclusive<u32> = 16..=12_000;

/// Reads the words after the program's name. The second value is the shop folder, when one is named. The failure is a
/// sentence.
pub fn read_call(words: impl IntoIterator<Item = OsString>) -> Result<(Call, Option<PathBuf>), String> {
    let mut read = Read::default();
    let mut parser = Parser::from_args(words);
    while let Some(arg) = parser.next().map_err(|e| format!("{e}."))? {
        match arg {
            Arg::Long("json") => read.json = true,
            Arg::Long("csv") => read.csv = true,
            Arg::Long("help") | Arg::Short('h') => read.help = true,
            Arg::Long("version") | Arg::Short('V') => read.version = true,
            Arg::Long("to") => read.to = Some(path_after(&mut parser, "--to")?),
            Arg::Long("into") => read.into = Some(path_after(&mut parser, "--into")?),
            Arg::Long("shop") => read.shop = Some(path_after(&mut parser, "--shop")?),
            Arg::Long("width-px") => read.width_px = Some(width_after(&mut parser)?),
            Arg::Value(word) => read.words.push(word),
            Arg::Long(name) => return Err(format!("There is no option --{name}.")),
            Arg::Short(letter) => return Err(format!("There is no option -{letter}.")),
        }
    }
    let shop = read.shop.take();
    Ok((read.call()?, shop))
}

#[derive(Default)]
struct Read {
    words: Vec<OsString>,
    json: bool,
    csv: bool,
    help: bool,
    version: bool,
    to: Option<PathBuf>,
    into: Option<PathBuf>,
    shop: Option<PathBuf>,
    width_px: Option<u32>,
}

const COMMANDS: [&str; 6] = ["once-over", "stems", "quote", "picture", "papers", "help"];

impl Read {
    fn call(self) -> Result<Call, String> {
        let first = self.words.first().and_then(|w| w.to_str()).unwrap_or_default().to_owned();
        if self.version {
            return Ok(Call::Version);
        }
        if self.help || first == "help" {
            let topic = self.words.iter().filter_map(|w| w.to_str()).find(|w| COMMANDS.contains(w) && *w != "help");
            return Ok(Call::Help(topic.map(str::to_owned)));
        }
        if !COMMANDS.contains(&first.as_str()) {
            return self.window();
        }
        let file = self.one_file(&first)?;
        self.no_strangers(&first)?;
        match first.as_str() {
            "once-over" => Ok(Call::OnceOver { file, json: self.json }),
            "stems" => Ok(Call::Stems { file, form: self.stems_as()? }),
            "quote" => Ok(Call::Quote { file, json: self.json }),
            "picture" => {
                let to = self.to.ok_or("The picture needs a place to go: add --to OUT.png.")?;
                let ending = to.extension().map(|e| e.to_string_lossy().to_lowercase());
                if ending.as_deref() != Some("png") {
                    return Err("A picture is a PNG: let the name after --to end in .png.".to_owned());
                }
                Ok(Call::Picture { file, to, width_px: self.width_px.unwrap_or(USUAL_WIDTH_PX) })
            }
            _ => {
                let into = self.into.ok_or("The papers need a folder to go into: add --into DIR.")?;
                Ok(Call::Papers { file, into })
            }
        }
    }

    fn window(self) -> Result<Call, String> {
        self.no_strangers("")?;
        match &self.words[..] {
            [] => Ok(Call::Window(None)),
            [one] => Ok(Call::Window(Some(PathBuf::from(one)))),
            [first, ..] => Err(format!("There is no command {}.", first.display())),
        }
    }

    fn one_file(&self, command: &str) -> Result<PathBuf, String> {
        match &self.words[1..] {
            [file] => Ok(PathBuf::from(file)),
            [] => Err(format!("{command} needs the file of an order.")),
            _ => Err(format!("{command} takes one file at a time.")),
        }
    }

    fn stems_as(&self) -> Result<StemsAs, String> {
        match (self.json, self.csv) {
            (true, true) => Err("Choose one of --json and --csv.".to_owned()),
            (true, false) => Ok(StemsAs::Json),
            (false, true) => Ok(StemsAs::Csv),
            (false, false) => Ok(StemsAs::Text),
        }
    }

    /// Options that the command has no use for are told, not passed over.
    fn no_strangers(&self, command: &str) -> Result<(), String> {
        let given = [
            ("--json", self.json, &["once-over", "stems", "quote"][..]),
            ("--csv", self.csv, &["stems"]),
            ("--to", self.to.is_some(), &["picture"]),
            ("--width-px", self.width_px.is_some(), &["picture"]),
            ("--into", self.into.is_some(), &["papers"]),
        ];
        match given.iter().find(|(_, set, commands)| *set && !commands.contains(&command)) {
            Some((option, _, commands)) => Err(format!("{option} goes with {}.", commands.join(" and "))),
            None => Ok(()),
        }
    }
}

fn path_after(parser: &mut Parser, option: &str) -> Result<PathBuf, String> {
    match parser.value() {
        Ok(value) => Ok(PathBuf::from(value)),
        Err(why) => Err(format!("{option} needs a place after it ({why}).")),
    }
}

fn width_after(parser: &mut Parser) -> Result<u32, String> {
    let read: Option<u32> = parser.value().ok().and_then(|v| v.parse().ok());
    read.filter(|px| WIDTHS_PX.contains(px)).ok_or_else(|| {
        format!("--width-px needs a whole number of {} to {} after it.", WIDTHS_PX.start(), WIDTHS_PX.end())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(words: &str) -> Result<Call, String> {
        read_call(words.split_whitespace().map(OsString::from)).map(|c| c.0)
    }

    #[test]
    fn every_command_reads_with_its_options_in_any_order() {
        let file = PathBuf::from("a.ron");
        assert_eq!(read(""), Ok(Call::Window(None)));
        assert_eq!(read("a.ron"), Ok(Call::Window(Some(file.clone()))));
        assert_eq!(read("once-over --json a.ron"), Ok(Call::OnceOver { file: file.clone(), json: true }));
        assert_eq!(read("stems a.ron --csv"), Ok(Call::Stems { file: file.clone(), form: StemsAs::Csv }));
        assert_eq!(read("quote a.ron --json"), Ok(Call::Quote { file: file.clone(), json: true }));
        let to = PathBuf::from("o.png");
        assert_eq!(
            read("picture a.ron --to o.png --width-px 900"),
            Ok(Call::Picture { file: file.clone(), to, width_px: 900 })
        );
        assert_eq!(read("papers a.ron --into out"), Ok(Call::Papers { file, into: PathBuf::from("out") }));
        assert_eq!(read("stems --help"), Ok(Call::Help(Some("stems".to_owned()))));
        assert_eq!(read("-V"), Ok(Call::Version));
    }

    #[test]
    fn wrong_calls_are_answered_with_a_sentence() {
        for words in [
            "once-over",
            "once-over a b",
            "once-over a --csv",
            "stems a --csv --json",
            "quote",
            "quote a --csv",
            "picture a",
            "picture a --to",
            "picture a --to a.ron",
            "picture a --to a.jpg",
            "picture a --to o.png --width-px 0",
            "picture a --to o.png --width-px x",
            "papers a",
            "papers a --into d --to x",
            "a b",
            "--frob",
            "-z",
        ] {
            let said = read(words).unwrap_err();
            assert!(said.ends_with('.') && said.len() > 10, "{words}: {said}");
        }
    }
}
