//! The command line, parsed into a command and checked.

use std::ffi::{OsStr, OsString};
use std::ops::RangeInclusive;
use std::path::PathBuf;

use super::args::Args;
use super::cli_error::CliError;
use super::colours::{colour_typed, place_typed};
use super::labels::{LabelArgs, label_args};
use super::occasion::{BenchArgs, MarketArgs, bench_args, market_args};
use super::party_bill::PartyBillArgs;
use super::photograph::{PhotographArgs, photograph_args};
use super::picture_args::{PictureArgs, picture_args};
use crate::colour::Rgb;
use crate::export::pdf::PaperSize;
use crate::export::{PAPERS, PaperKind};

/// The format of the stem list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StemsFormat {
    /// For people.
    Text,
    /// For machines.
    Json,
    /// For a spreadsheet.
    Csv,
}

/// What to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CliCommand {
    /// Open the window.
    Window {
        /// On this order, when one is named.
        file: Option<PathBuf>,
        /// With this photo of the dress, to be read.
        photo: Option<PathBuf>,
    },
    /// Check a piece.
    OnceOver {
        /// The order.
        file: PathBuf,
        /// For machines.
        json: bool,
    },
    /// Compute stems and price.
    Stems {
        /// The order.
        file: PathBuf,
        /// For whom.
        form: StemsFormat,
    },
    /// Show what the client pays.
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
        /// How it is drawn and written.
        options: PictureArgs,
    },
    /// Photograph the piece in the round.
    Photograph(PhotographArgs),
    /// Make the chart of all forms that can be drawn.
    Forms(PictureArgs),
    /// Make all papers.
    Papers {
        /// The orders.
        files: Vec<PathBuf>,
        /// The folder they go into.
        into: PathBuf,
        /// What they are printed on.
        paper: PaperSize,
        /// Which of them; all there are where none is named.
        only: Vec<&'static PaperKind>,
    },
    /// Bill orders together.
    PartyBill(PartyBillArgs),
    /// What to buy for an occasion.
    Market(MarketArgs),
    /// Who makes what when for an occasion.
    Bench(BenchArgs),
    /// Print labels for boxes.
    Labels(LabelArgs),
    /// Arrange the parts of a piece anew.
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
/// How many orders get their papers in one command; more than any one event has.
const MOST_PAPERS: usize = 10_000;

/// Time for setting out when none is asked for, milliseconds.
const USUAL_FOR_MS: u32 = 1000;
/// Times for setting out, milliseconds: at once, up to a quarter of an hour.
const FOR_MS: RangeInclusive<u32> = 1..=900_000;

const COMMANDS: &[&str] = &[
    "once-over",
    "stems",
    "quote",
    "picture",
    "photograph",
    "forms",
    "papers",
    "market",
    "bench",
    "labels",
    "party-bill",
    "set-out",
    "match",
    "dress",
    "help",
];

/// Parses the words after the program's name. The second value is the shop folder, when one is named. The failure is a
/// sentence.
pub fn parse_args(words: impl IntoIterator<Item = OsString>) -> Result<(CliCommand, Option<PathBuf>), CliError> {
    let args = Args::read(words).map_err(CliError::Usage)?;
    Ok((command(&args).map_err(CliError::Usage)?, args.place("shop")))
}

fn command(args: &Args) -> Result<CliCommand, String> {
    let command = args.first();
    if args.has("version") {
        return Ok(CliCommand::Version);
    }
    if args.has("help") || command == "help" {
        let topic = args.words.iter().filter_map(|w| w.to_str()).find(|w| COMMANDS.contains(w) && *w != "help");
        return Ok(CliCommand::Help(topic.map(str::to_owned)));
    }
    if !COMMANDS.contains(&command) {
        return window(args);
    }
    args.reject_unknown_flags(command)?;
    match command {
        "once-over" => Ok(CliCommand::OnceOver { file: args.one_file(command)?, json: args.has("json") }),
        "stems" => Ok(CliCommand::Stems { file: args.one_file(command)?, form: stems_format(args)? }),
        "quote" => Ok(CliCommand::Quote { file: args.one_file(command)?, json: args.has("json") }),
        "picture" => {
            let files = args.some_files(command, MOST_SIDE_BY_SIDE)?;
            Ok(CliCommand::Picture { files, options: picture_args(args, "picture")? })
        }
        "photograph" => Ok(CliCommand::Photograph(photograph_args(args)?)),
        "forms" if args.words.len() > 1 => Err("forms takes no file: it shows every form.".to_owned()),
        "forms" => Ok(CliCommand::Forms(picture_args(args, "chart")?)),
        "market" => market_args(args).map(CliCommand::Market),
        "bench" => bench_args(args).map(CliCommand::Bench),
        "labels" => label_args(args).map(CliCommand::Labels),
        "party-bill" => party_bill(args),
        "set-out" => set_out(args),
        "match" => Ok(CliCommand::Match {
            colour: colour_typed(&args.words[1..])?,
            stock: args.place("stock"),
            json: args.has("json"),
        }),
        "dress" => Ok(CliCommand::Dress { file: args.one_photo()?, at: photo_place(args)?, json: args.has("json") }),
        _ => papers(args),
    }
}

fn window(args: &Args) -> Result<CliCommand, String> {
    args.reject_unknown_flags("")?;
    let photo = args.place("photo");
    match &args.words[..] {
        [] => Ok(CliCommand::Window { file: None, photo }),
        [one] => Ok(CliCommand::Window { file: Some(PathBuf::from(one)), photo }),
        [first, ..] => Err(format!("No command {}. See posywright --help.", first.display())),
    }
}

fn stems_format(args: &Args) -> Result<StemsFormat, String> {
    match (args.has("json"), args.has("csv")) {
        (true, true) => Err("Choose one of --json and --csv.".to_owned()),
        (true, false) => Ok(StemsFormat::Json),
        (false, true) => Ok(StemsFormat::Csv),
        (false, false) => Ok(StemsFormat::Text),
    }
}

fn photo_place(args: &Args) -> Result<Option<(u32, u32)>, String> {
    args.text("at").map(|typed| place_typed(Some(OsStr::new(&typed)))).transpose()
}

fn set_out(args: &Args) -> Result<CliCommand, String> {
    let to = args.place("to").ok_or("set-out needs a file to save to: add --to OUT.ron.")?;
    if to.extension().is_none_or(|ending| ending != "ron") {
        return Err("set-out saves an order: end the name after --to in .ron.".to_owned());
    }
    Ok(CliCommand::SetOut {
        file: args.one_file("set-out")?,
        to,
        seed: args.number("seed", 0..=u64::MAX)?.unwrap_or(1),
        for_ms: args.number("for", FOR_MS)?.unwrap_or(USUAL_FOR_MS),
        json: args.has("json"),
    })
}

fn papers(args: &Args) -> Result<CliCommand, String> {
    let files = args.some_files("papers", MOST_PAPERS)?;
    let into = args.place("into").ok_or("papers needs a folder to save in: add --into DIR.")?;
    let only = args.texts("only").iter().map(|word| kind_of(word)).collect::<Result<_, _>>()?;
    Ok(CliCommand::Papers { files, into, paper: paper_size(args)?, only })
}

fn party_bill(args: &Args) -> Result<CliCommand, String> {
    let files = args.some_files("party-bill", MOST_PAPERS)?;
    let to = args.place("to");
    if to.as_ref().is_some_and(|to| to.extension().is_none_or(|ending| ending != "pdf")) {
        return Err("party-bill saves a PDF: end the name after --to in .pdf.".to_owned());
    }
    Ok(CliCommand::PartyBill(PartyBillArgs { files, to, paper: paper_size(args)?, json: args.has("json") }))
}

fn paper_size(args: &Args) -> Result<PaperSize, String> {
    match args.text("paper").map(|word| word.to_lowercase()).as_deref() {
        None => Ok(PaperSize::default()),
        Some("a4") => Ok(PaperSize::A4),
        Some("letter") => Ok(PaperSize::Letter),
        Some(_) => Err("--paper is a4 or letter.".to_owned()),
    }
}

fn kind_of(word: &str) -> Result<&'static PaperKind, String> {
    let known = || PAPERS.map(|kind| kind.id).join(", ");
    PaperKind::of_id(word).ok_or_else(|| format!("--only is one of {}.", known()))
}

#[cfg(test)]
mod tests {
    use super::super::picture_args::{PictureFormat, PictureView, Resolution};
    use super::*;
    use crate::colour::Rgb;
    use crate::scene::Skin;

    fn read(words: &str) -> Result<CliCommand, String> {
        parse_args(words.split_whitespace().map(OsString::from)).map(|c| c.0).map_err(|refusal| refusal.to_string())
    }

    #[test]
    fn every_command_reads_with_its_options_in_any_order() {
        let file = PathBuf::from("a.ron");
        assert_eq!(read(""), Ok(CliCommand::Window { file: None, photo: None }));
        assert_eq!(read("a.ron"), Ok(CliCommand::Window { file: Some(file.clone()), photo: None }));
        let photo = Some(PathBuf::from("d.jpg"));
        assert_eq!(read("a.ron --photo d.jpg"), Ok(CliCommand::Window { file: Some(file.clone()), photo }));
        assert_eq!(read("once-over --json a.ron"), Ok(CliCommand::OnceOver { file: file.clone(), json: true }));
        assert_eq!(read("stems a.ron --csv"), Ok(CliCommand::Stems { file: file.clone(), form: StemsFormat::Csv }));
        assert_eq!(read("quote a.ron --json"), Ok(CliCommand::Quote { file: file.clone(), json: true }));
        let Ok(CliCommand::Picture { files: of, options }) = read("picture a.ron --to o.png --width-px 900") else {
            panic!()
        };
        assert_eq!((of, options.to.clone()), (vec![file.clone()], PathBuf::from("o.png")));
        assert_eq!(
            (options.kind, options.resolution, options.view),
            (PictureFormat::Png, Resolution::WidthPx(900), PictureView::Above)
        );
        let other = "picture --view flat --dpi 300 --skin brown --dress #1b2a4a a.ron --to o.SVG";
        let Ok(CliCommand::Picture { options, .. }) = read(other) else { panic!() };
        assert_eq!(
            (options.kind, options.resolution, options.view),
            (PictureFormat::Svg, Resolution::Dpi(300), PictureView::Flat)
        );
        assert_eq!((options.skins, options.dresses), (vec![Skin::Brown], vec![Rgb::hex(0x1b2a4a)]));
        let Ok(CliCommand::Picture { files, .. }) = read("picture a.ron b.ron --to o.png") else { panic!() };
        assert_eq!(files, [file.clone(), PathBuf::from("b.ron")]);
        assert!(matches!(read("forms --to c.png"), Ok(CliCommand::Forms(_))));
        let into = PathBuf::from("out");
        assert_eq!(
            read("papers a.ron --into out"),
            Ok(CliCommand::Papers {
                files: vec![file.clone()],
                into: into.clone(),
                paper: PaperSize::A4,
                only: vec![]
            })
        );
        let files = vec![file.clone(), PathBuf::from("b.ron")];
        assert_eq!(
            read("papers --paper Letter a.ron b.ron --into out"),
            Ok(CliCommand::Papers { files, into: into.clone(), paper: PaperSize::Letter, only: vec![] })
        );
        let only = ["client", "quote-slip"].map(|id| PaperKind::of_id(id).unwrap()).to_vec();
        assert_eq!(
            read("papers a.ron --only client --into out --only quote-slip"),
            Ok(CliCommand::Papers { files: vec![file.clone()], into, paper: PaperSize::A4, only })
        );
        let to = PathBuf::from("b.ron");
        assert_eq!(
            read("set-out a.ron --to b.ron --seed 7 --for 50 --json"),
            Ok(CliCommand::SetOut { file: file.clone(), to: to.clone(), seed: 7, for_ms: 50, json: true })
        );
        let usual = CliCommand::SetOut { file, to, seed: 1, for_ms: USUAL_FOR_MS, json: false };
        assert_eq!(read("set-out a.ron --to b.ron"), Ok(usual));
        let colour = Rgb::hex(0x800020);
        assert_eq!(read("match #800020"), Ok(CliCommand::Match { colour, stock: None, json: false }));
        assert_eq!(
            read("match --json --stock s.ron 800020"),
            Ok(CliCommand::Match { colour, stock: Some(PathBuf::from("s.ron")), json: true })
        );
        assert_eq!(
            read("dress p.jpg --at 10,20"),
            Ok(CliCommand::Dress { file: PathBuf::from("p.jpg"), at: Some((10, 20)), json: false })
        );
        assert_eq!(read("stems --help"), Ok(CliCommand::Help(Some("stems".to_owned()))));
        assert_eq!(read("-V"), Ok(CliCommand::Version));
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
            let sentence = read(words).unwrap_err();
            assert!(sentence.ends_with('.') && sentence.len() > 10, "{words}: {sentence}");
            // The kinds of paper are listed, however many there are.
            let is_list = sentence.starts_with("--only is one of ");
            assert!(is_list || sentence.chars().count() <= 90, "{words}: {sentence}");
        }
    }
}
