//! What was called for: the words on the command line, read and checked.

use std::ffi::OsString;
use std::path::PathBuf;

use lexopt::{Arg, Parser};

use super::picture_wish::{PictureWish, Said};

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
    /// Make the picture.
    Picture {
        /// The orders: one, or a few side by side.
        files: Vec<PathBuf>,
        /// How it is wanted.
        wish: PictureWish,
    },
    /// Make the chart of all forms that can be drawn.
    Forms(PictureWish),
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
            Arg::Long("to") => read.picture.to = Some(path_after(&mut parser, "--to")?),
            Arg::Long("into") => read.into = Some(path_after(&mut parser, "--into")?),
            Arg::Long("shop") => read.shop = Some(path_after(&mut parser, "--shop")?),
            Arg::Long("width-px") => read.picture.width_px = Some(word_after(&mut parser, "--width-px")?),
            Arg::Long("dpi") => read.picture.dpi = Some(word_after(&mut parser, "--dpi")?),
            Arg::Long("view") => read.picture.view = Some(word_after(&mut parser, "--view")?),
            Arg::Long("skin") => read.picture.skins.push(word_after(&mut parser, "--skin")?),
            Arg::Long("dress") => read.picture.dresses.push(word_after(&mut parser, "--dress")?),
            Arg::Long("coin") => read.picture.coin = true,
            Arg::Long("limit") => read.picture.limit = true,
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
    into: Option<PathBuf>,
    shop: Option<PathBuf>,
    picture: Said,
}

/// How many pieces one picture shows.
const MOST_SIDE_BY_SIDE: usize = 6;

const COMMANDS: [&str; 6] = ["once-over", "stems", "picture", "forms", "papers", "help"];

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
        self.no_strangers(&first)?;
        if first == "forms" {
            return match &self.words[1..] {
                [] => Ok(Call::Forms(self.picture.wish("chart")?)),
                _ => Err("forms needs no file: it shows all that can be drawn.".to_owned()),
            };
        }
        if first == "picture" {
            return Ok(Call::Picture { files: self.some_files()?, wish: self.picture.wish("picture")? });
        }
        let file = self.one_file(&first)?;
        match first.as_str() {
            "once-over" => Ok(Call::OnceOver { file, json: self.json }),
            "stems" => Ok(Call::Stems { file, form: self.stems_as()? }),
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

    fn some_files(&self) -> Result<Vec<PathBuf>, String> {
        match &self.words[1..] {
            [] => Err("picture needs the file of an order.".to_owned()),
            files if files.len() <= MOST_SIDE_BY_SIDE => Ok(files.iter().map(PathBuf::from).collect()),
            _ => Err(format!("picture shows {MOST_SIDE_BY_SIDE} pieces side by side at most.")),
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
            ("--json", self.json, &["once-over", "stems"][..]),
            ("--csv", self.csv, &["stems"]),
            ("--to", self.picture.to.is_some(), &["picture", "forms"]),
            ("--width-px", self.picture.width_px.is_some(), &["picture", "forms"]),
            ("--dpi", self.picture.dpi.is_some(), &["picture", "forms"]),
            ("--view", self.picture.view.is_some(), &["picture"]),
            ("--skin", !self.picture.skins.is_empty(), &["picture"]),
            ("--dress", !self.picture.dresses.is_empty(), &["picture"]),
            ("--coin", self.picture.coin, &["picture"]),
            ("--limit", self.picture.limit, &["picture"]),
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

fn word_after(parser: &mut Parser, option: &str) -> Result<String, String> {
    let value = parser.value().map_err(|why| format!("{option} needs a word after it ({why})."))?;
    Ok(value.to_string_lossy().into_owned())
}

#[cfg(test)]
mod tests {
    use super::super::picture_wish::{Fineness, PictureAs, View};
    use super::*;
    use crate::colour::Rgb;
    use crate::scene::Skin;

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
        let Ok(Call::Picture { files: of, wish }) = read("picture a.ron --to o.png --width-px 900") else { panic!() };
        assert_eq!((of, wish.to.clone()), (vec![file.clone()], PathBuf::from("o.png")));
        assert_eq!((wish.kind, wish.fineness, wish.view), (PictureAs::Png, Fineness::WidthPx(900), View::Above));
        let other = "picture --view flat --dpi 300 --skin brown --dress #1b2a4a a.ron --to o.SVG";
        let Ok(Call::Picture { wish, .. }) = read(other) else { panic!() };
        assert_eq!((wish.kind, wish.fineness, wish.view), (PictureAs::Svg, Fineness::Dpi(300), View::Flat));
        assert_eq!((wish.skins, wish.dresses), (vec![Skin::Brown], vec![Rgb::hex(0x1b2a4a)]));
        let Ok(Call::Picture { files, .. }) = read("picture a.ron b.ron --to o.png") else { panic!() };
        assert_eq!(files, [file.clone(), PathBuf::from("b.ron")]);
        assert!(matches!(read("forms --to c.png"), Ok(Call::Forms(_))));
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
            "picture a",
            "picture a --to",
            "picture a --to a.ron",
            "picture a --to a.jpg",
            "picture a --to o.png --width-px 0",
            "picture a --to o.png --width-px x",
            "picture a --to o.png --width-px 90 --dpi 90",
            "picture a --to o.png --dpi 0",
            "picture a --to o.png --view under",
            "picture a --to o.png --skin blue",
            "picture a --to o.png --dress navy",
            "picture a --to o.png --limit",
            "picture a b c d e f g --to o.png",
            "forms",
            "forms a --to o.png",
            "forms --to o.png --skin plain",
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
