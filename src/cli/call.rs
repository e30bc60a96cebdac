//! What was called for: the words on the command line, read and checked.

use std::ffi::{OsStr, OsString};
use std::ops::RangeInclusive;
use std::path::PathBuf;

use super::colours::{colour_typed, place_typed};
use super::picture_wish::{PictureWish, picture_wish};
use super::said::Said;
use crate::colour::Rgb;
use crate::export::PaperKind;
use crate::export::pdf::Paper;

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
    /// Open the window.
    Window {
        /// On this order, when one is named.
        file: Option<PathBuf>,
        /// With this photo of the dress, to be read.
        photo: Option<PathBuf>,
    },
    /// PictureOptions a piece over.
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
        /// The orders: one, or a few side by side.
        files: Vec<PathBuf>,
        /// How it is wanted.
        wish: PictureWish,
    },
    /// Make the chart of all forms that can be drawn.
    Forms(PictureWish),
    /// Make all papers.
    Papers {
        /// The orders.
        files: Vec<PathBuf>,
        /// The folder they go into.
        into: PathBuf,
        /// What they are printed on.
        paper: Paper,
        /// Which of them; all there are where none is named.
        only: Vec<PaperKind>,
    },
    /// Set a piece out anew.
    SetOut {
        /// The order.
        file: PathBuf,
        /// Where the order goes with its new layout.
        to: PathBuf,
        /// Where chance begins.
        seed: u64,
        /// For how long, milliseconds; turned into a fixed number of tries.
        for_ms: u32,
        /// For machines.
        json: bool,
    },
    /// Rank what is in stock against a dress.
    Match {
        /// The dress.
        colour: Rgb,
        /// The list that is ranked, instead of the shop's.
        stock: Option<PathBuf>,
        /// For machines.
        json: bool,
    },
    /// Name the colour of a dress in a photo.
    Dress {
        /// The photo.
        file: PathBuf,
        /// Where the dress is: pixels from the left and the top of the photo as it is kept.
        at: Option<(u32, u32)>,
        /// For machines.
        json: bool,
    },
    /// Help, for all or for one command.
    Help(Option<String>),
    /// Name and version.
    Version,
}

/// How many pieces one picture shows.
const MOST_SIDE_BY_SIDE: usize = 6;
/// How many orders get their papers in one call; more than any one dance has.
const MOST_PAPERS: usize = 10_000;

/// Time for setting out when none is asked for, milliseconds.
const USUAL_FOR_MS: u32 = 1000;
/// Times for setting out, milliseconds: at once, up to a quarter of an hour.
const FOR_MS: RangeInclusive<u32> = 1..=900_000;

const COMMANDS: &[&str] =
    &["once-over", "stems", "quote", "picture", "forms", "papers", "set-out", "match", "dress", "help"];

/// Reads the words after the program's name. The second value is the shop folder, when one is named. The failure is a
/// sentence.
pub fn read_call(words: impl IntoIterator<Item = OsString>) -> Result<(Call, Option<PathBuf>), String> {
    let said = Said::read(words)?;
    Ok((call(&said)?, said.place("shop")))
}

fn call(said: &Said) -> Result<Call, String> {
    let command = said.first();
    if said.has("version") {
        return Ok(Call::Version);
    }
    if said.has("help") || command == "help" {
        let topic = said.words.iter().filter_map(|w| w.to_str()).find(|w| COMMANDS.contains(w) && *w != "help");
        return Ok(Call::Help(topic.map(str::to_owned)));
    }
    if !COMMANDS.contains(&command) {
        return window(said);
    }
    said.no_strangers(command)?;
    match command {
        "once-over" => Ok(Call::OnceOver { file: said.one_file(command)?, json: said.has("json") }),
        "stems" => Ok(Call::Stems { file: said.one_file(command)?, form: stems_as(said)? }),
        "quote" => Ok(Call::Quote { file: said.one_file(command)?, json: said.has("json") }),
        "picture" => {
            let files = said.some_files(command, MOST_SIDE_BY_SIDE)?;
            Ok(Call::Picture { files, wish: picture_wish(said, "picture")? })
        }
        "forms" if said.words.len() > 1 => Err("forms needs no file: it shows all that can be drawn.".to_owned()),
        "forms" => Ok(Call::Forms(picture_wish(said, "chart")?)),
        "set-out" => set_out(said),
        "match" => Ok(Call::Match {
            colour: colour_typed(&said.words[1..])?,
            stock: said.place("stock"),
            json: said.has("json"),
        }),
        "dress" => Ok(Call::Dress { file: said.one_photo()?, at: place_at(said)?, json: said.has("json") }),
        _ => papers(said),
    }
}

fn window(said: &Said) -> Result<Call, String> {
    said.no_strangers("")?;
    let photo = said.place("photo");
    match &said.words[..] {
        [] => Ok(Call::Window { file: None, photo }),
        [one] => Ok(Call::Window { file: Some(PathBuf::from(one)), photo }),
        [first, ..] => Err(format!("There is no command {}.", first.display())),
    }
}

fn stems_as(said: &Said) -> Result<StemsAs, String> {
    match (said.has("json"), said.has("csv")) {
        (true, true) => Err("Choose one of --json and --csv.".to_owned()),
        (true, false) => Ok(StemsAs::Json),
        (false, true) => Ok(StemsAs::Csv),
        (false, false) => Ok(StemsAs::Text),
    }
}

fn place_at(said: &Said) -> Result<Option<(u32, u32)>, String> {
    said.text("at").map(|typed| place_typed(Some(OsStr::new(&typed)))).transpose()
}

fn set_out(said: &Said) -> Result<Call, String> {
    let to = said.place("to").ok_or("The new layout needs a place to go: add --to OUT.ron.")?;
    if to.extension().is_none_or(|ending| ending != "ron") {
        return Err("The new layout is an order: give --to a name that ends in .ron.".to_owned());
    }
    Ok(Call::SetOut {
        file: said.one_file("set-out")?,
        to,
        seed: said.number("seed", 0..=u64::MAX)?.unwrap_or(1),
        for_ms: said.number("for", FOR_MS)?.unwrap_or(USUAL_FOR_MS),
        json: said.has("json"),
    })
}

fn papers(said: &Said) -> Result<Call, String> {
    let files = said.some_files("papers", MOST_PAPERS)?;
    let into = said.place("into").ok_or("The papers need a folder to go into: add --into DIR.")?;
    let paper = match said.text("paper").map(|word| word.to_lowercase()).as_deref() {
        None => Paper::default(),
        Some("a4") => Paper::A4,
        Some("letter") => Paper::Letter,
        Some(_) => return Err("--paper needs a4 or letter after it.".to_owned()),
    };
    let only = said.texts("only").iter().map(|word| kind_of(word)).collect::<Result<_, _>>()?;
    Ok(Call::Papers { files, into, paper, only })
}

fn kind_of(word: &str) -> Result<PaperKind, String> {
    let known = || PaperKind::ALL.map(PaperKind::word).join(", ");
    PaperKind::of_word(word).ok_or_else(|| format!("--only is one of {}.", known()))
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
        assert_eq!(read(""), Ok(Call::Window { file: None, photo: None }));
        assert_eq!(read("a.ron"), Ok(Call::Window { file: Some(file.clone()), photo: None }));
        let photo = Some(PathBuf::from("d.jpg"));
        assert_eq!(read("a.ron --photo d.jpg"), Ok(Call::Window { file: Some(file.clone()), photo }));
        assert_eq!(read("once-over --json a.ron"), Ok(Call::OnceOver { file: file.clone(), json: true }));
        assert_eq!(read("stems a.ron --csv"), Ok(Call::Stems { file: file.clone(), form: StemsAs::Csv }));
        assert_eq!(read("quote a.ron --json"), Ok(Call::Quote { file: file.clone(), json: true }));
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
        let into = PathBuf::from("out");
        assert_eq!(
            read("papers a.ron --into out"),
            Ok(Call::Papers { files: vec![file.clone()], into: into.clone(), paper: Paper::A4, only: vec![] })
        );
        let files = vec![file.clone(), PathBuf::from("b.ron")];
        assert_eq!(
            read("papers --paper Letter a.ron b.ron --into out"),
            Ok(Call::Papers { files, into: into.clone(), paper: Paper::Letter, only: vec![] })
        );
        let only = vec![PaperKind::Client, PaperKind::QuoteSlip];
        assert_eq!(
            read("papers a.ron --only client --into out --only quote-slip"),
            Ok(Call::Papers { files: vec![file.clone()], into, paper: Paper::A4, only })
        );
        let to = PathBuf::from("b.ron");
        assert_eq!(
            read("set-out a.ron --to b.ron --seed 7 --for 50 --json"),
            Ok(Call::SetOut { file: file.clone(), to: to.clone(), seed: 7, for_ms: 50, json: true })
        );
        let usual = Call::SetOut { file, to, seed: 1, for_ms: USUAL_FOR_MS, json: false };
        assert_eq!(read("set-out a.ron --to b.ron"), Ok(usual));
        let colour = Rgb::hex(0x800020);
        assert_eq!(read("match #800020"), Ok(Call::Match { colour, stock: None, json: false }));
        assert_eq!(
            read("match --json --stock s.ron 800020"),
            Ok(Call::Match { colour, stock: Some(PathBuf::from("s.ron")), json: true })
        );
        assert_eq!(
            read("dress p.jpg --at 10,20"),
            Ok(Call::Dress { file: PathBuf::from("p.jpg"), at: Some((10, 20)), json: false })
        );
        assert_eq!(read("stems --help"), Ok(Call::Help(Some("stems".to_owned()))));
        assert_eq!(read("-V"), Ok(Call::Version));
    }

    #[test]
    fn wrong_calls_are_answered_with_a_sentence() {
        for words in [
            "once-over",
            "once-over a b",
            "once-over a --csv",
            "once-over a --photo d.jpg",
            "--photo",
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
            "picture a --to o.png --clear --dress #1b2a4a",
            "picture a b --to o.png --clear",
            "forms --to o.png --clear",
            "picture a b c d e f g --to o.png",
            "forms",
            "forms a --to o.png",
            "forms --to o.png --skin plain",
            "quote",
            "quote a --csv",
            "set-out a",
            "set-out a --to b",
            "set-out a --to b.ron --seed x",
            "set-out a --to b.ron --seed -1",
            "set-out a --to b.ron --for 0",
            "set-out a --to b.ron --for",
            "stems a --seed 3",
            "papers a",
            "papers a --into d --to x",
            "papers --into d",
            "papers a --into d --paper a3",
            "papers a --into d --paper",
            "papers a --into d --only",
            "papers a --into d --only invoice",
            "stems a --only client",
            "stems a --paper a4",
            "a b",
            "--frob",
            "-z",
        ] {
            let said = read(words).unwrap_err();
            assert!(said.ends_with('.') && said.len() > 10, "{words}: {said}");
        }
    }
}
