//! Help for the commands, with an example each.

use crate::export::PAPERS;

/// What the program is and what it can be told to do; or one command alone.
pub fn help(topic: Option<&str>) -> String {
    text(topic).replace(LIST_OF_PAPERS, &list_of_papers())
}

/// Stands in the help for the papers there are.
const LIST_OF_PAPERS: &str = "{papers}";

/// The ids of all papers, over as many lines as they take.
fn list_of_papers() -> String {
    const WIDTH: usize = 88;
    let mut lines = vec![String::new()];
    for (i, paper) in PAPERS.iter().enumerate() {
        let word = format!("{}{}", paper.id, if i + 1 == PAPERS.len() { "." } else { "," });
        match lines.last_mut() {
            Some(line) if line.is_empty() => line.push_str(&word),
            Some(line) if line.len() + 1 + word.len() <= WIDTH => {
                line.push(' ');
                line.push_str(&word);
            }
            Some(_) | None => lines.push(word),
        }
    }
    lines.join("\n      ")
}

fn text(topic: Option<&str>) -> String {
    let about = |name: &str| ABOUT.iter().find(|(n, ..)| *n == name);
    if let Some((name, usage, what, example)) = topic.and_then(about) {
        return format!("posywright {name} {usage}\n\n  {what}\n\nExample:\n  {example}\n");
    }
    let one = |(n, u, w, e): &(&str, &str, &str, &str)| format!("  posywright {n} {u}\n      {w}\n      {e}\n");
    let list: Vec<String> = ABOUT.iter().map(one).collect();
    format!("{HEAD}{}{TAIL}", list.concat())
}

const HEAD: &str = "\
Posywright: sketch a wrist corsage with the client; get the picture, the stem list and the price.

  posywright [FILE] [--photo PHOTO]
      Opens the window, on the order in FILE when one is named, with a photo of the dress to be read.
      Without a display it makes the papers of a sample order into the folder papers.
      posywright samples/orders/02-classic.ron
";

const TAIL: &str = "
Options for all:
  --shop DIR   the shop's folder (its stock, its house style) instead of the one the file lies in
  --help       this text; after a command, that command alone
  --version    the version

Exit codes: 0 done, 1 could not be done, 2 the call was not understood.
";

const ABOUT: &[(&str, &str, &str, &str)] = &[
    (
        "once-over",
        "FILE [--json]",
        "Looks the piece over: outline, width on the wrist, odd counts, even spread, room.",
        "posywright once-over samples/orders/05-bare-spots.ron",
    ),
    (
        "stems",
        "FILE [--json|--csv]",
        "Reckons stems, ribbon, minutes and the price.",
        "posywright stems samples/orders/02-classic.ron --csv",
    ),
    (
        "quote",
        "FILE [--json]",
        "Says what the client pays: lines, tax, deposit and balance; and, on your side, the worked price.",
        "posywright quote samples/orders/11-teal-gown.ron",
    ),
    (
        "picture",
        "FILE... --to OUT.png|OUT.svg|OUT.pdf [--width-px N|--dpi N] [--view above|side|flat] [--skin TONE] [--dress '#rrggbb'|--clear] [--caption WORDS] [--coin] [--limit]",
        "Makes the picture; it prints life-size. Skins: plain, fair, warm, olive, brown, deep. --coin lays a
      coin of 24 mm and a ruler beside it; --limit dashes the house's height on the side view. Several
      files stand side by side at one scale; --skin and --dress may be said once for each. Without --dress
      it stands before the dress that the order names; --clear leaves out what lies behind. --caption
      writes words below it.",
        "posywright picture samples/orders/03-full.ron --to full.png --width-px 1600",
    ),
    (
        "forms",
        "--to OUT.png|OUT.svg|OUT.pdf [--width-px N|--dpi N]",
        "Makes the chart of all forms that can be drawn.",
        "posywright forms --to forms.png --width-px 1400",
    ),
    (
        "papers",
        "FILE... --into DIR [--paper a4|letter] [--only KIND]",
        "Makes all papers of each order into a folder, and lists their files. --only makes one kind, and may be said
      several times:
      {papers}",
        "posywright papers samples/orders/01-petite.ron --into papers --paper letter",
    ),
    (
        "set-out",
        "FILE --to OUT.ron [--seed N] [--for MS] [--json]",
        "Sets the piece out: what its size promises and what is on it, locked parts in their places. MS: for
      how long about, 1 to 900000; it becomes a number of tries, so the same call writes the same file.",
        "posywright set-out samples/orders/05-bare-spots.ron --to laid-out.ron",
    ),
    (
        "match",
        "'#RRGGBB' [--stock FILE] [--json]",
        "Ranks what is in stock against the colour of a dress (or the name of a swatch, as navy).",
        "posywright match '#8b1427'",
    ),
    (
        "dress",
        "PHOTO [--at X,Y] [--json]",
        "Names the colour of the dress in a photo: of its middle, or where --at points (pixels).",
        "posywright dress dress.jpg --at 620,900",
    ),
];
