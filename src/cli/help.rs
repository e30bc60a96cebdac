//! Help for the commands, with an example each.

use crate::export::PAPERS;

/// What the program is and what each command does; or one command alone.
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
      Opens the window: on the order in FILE, with a photo of the dress.
      Without a display it saves the papers of a sample order in the folder papers.
      posywright samples/orders/02-classic.ron
";

const TAIL: &str = "
Options for every command:
  --shop DIR   the shop's folder (its stock and shop rules) instead of the one around FILE
  --help       this text; after a command, that command alone
  --version    the version

Exit codes: 0 done, 1 failed, 2 wrong command.
";

const ABOUT: &[(&str, &str, &str, &str)] = &[
    (
        "once-over",
        "FILE [--json]",
        "Checks the piece (outline, width on the wrist, odd counts, spacing, gaps) and gives a score.",
        "posywright once-over samples/orders/05-bare-spots.ron",
    ),
    (
        "stems",
        "FILE [--json|--csv]",
        "Stems, ribbon, minutes and price.",
        "posywright stems samples/orders/02-classic.ron --csv",
    ),
    (
        "quote",
        "FILE [--json]",
        "What the client pays: lines, tax, deposit and balance; for the shop, the price before rounding.",
        "posywright quote samples/orders/11-teal-gown.ron",
    ),
    (
        "picture",
        "FILE... --to OUT.png|OUT.svg|OUT.pdf [--width-px N|--dpi N] [--view above|side|flat] [--skin TONE] [--dress '#rrggbb'|--clear] [--caption WORDS] [--coin] [--limit]",
        "Saves a picture that prints life-size. Skin tones: plain, fair, warm, olive, brown, deep.
      --dress sets the colour behind it (usually the order's); --clear leaves the background out.
      --coin adds a coin of 24 mm and a ruler; --limit shows the height limit on the side view.
      --caption adds words below. Several files stand side by side at one scale; give --skin and
      --dress once for each.",
        "posywright picture samples/orders/03-full.ron --to full.png --width-px 1600",
    ),
    (
        "photograph",
        "FILE --to OUT.png [--view VIEW] [--finish FINISH] [--width-px N]",
        "Saves a photograph of the piece in the round, on an arm in the light of a window.
      Views: above, three-quarter, wearer, side. Finishes: quick, fine, finest; each takes some
      three times as long as the one before. --skin TONE and --dress '#rrggbb' as for picture.",
        "posywright photograph samples/orders/03-full.ron --to photograph.png --view above",
    ),
    (
        "forms",
        "--to OUT.png|OUT.svg|OUT.pdf [--width-px N|--dpi N]",
        "Saves a chart of every form that can be drawn.",
        "posywright forms --to forms.png --width-px 1400",
    ),
    (
        "papers",
        "FILE... --into DIR [--paper a4|letter] [--only KIND]",
        "Saves the papers of each order in a folder, and lists their files. --only saves one kind
      and may be repeated:
      {papers}",
        "posywright papers samples/orders/01-petite.ron --into papers --paper letter",
    ),
    (
        "market",
        "SHOP --occasion ID [--json|--csv]",
        "What to buy for a dance, a wedding or a span of days, supplier by supplier, at the least cost.
      ID is the name of the event, its id, a day, or days such as 2026-05-08..2026-05-10.",
        "posywright market samples/quayside --occasion 'Quayside Prom'",
    ),
    (
        "bench",
        "SHOP --occasion ID --makers N [--hours H] [--bows-ahead] [--json]",
        "Minutes promised against minutes there are, and who makes what when. H is how long each maker
      works, usually 8 hours; --bows-ahead has the bows made on a day before.",
        "posywright bench samples/quayside --occasion 'Quayside Prom' --makers 2",
    ),
    (
        "labels",
        "FILE...|SHOP --occasion ID --into D [--sheet S] [--first N] [--no-balance] [--frame]",
        "Saves labels for the boxes of orders, boutonnieres too, in the folder D. S is letter-30, a4-24
      or your own in mm, such as 'a4 3x8 63.5x33.9 gap 2.5x0'; N is the first free label. --frame
      saves a test print that shows the frame of every label.",
        "posywright labels samples/orders/11-teal-gown.ron --into labels --sheet a4-24 --first 5",
    ),
    (
        "party-bill",
        "FILE... [--to OUT.pdf] [--paper a4|letter] [--json]",
        "One bill for the orders of a party: what each comes to, what is paid, and their sums.",
        "posywright party-bill samples/orders/01-petite.ron samples/orders/03-full.ron --to bill.pdf",
    ),
    (
        "set-out",
        "FILE --to OUT.ron [--seed N] [--for MS] [--json]",
        "Arranges the piece: what its size includes and what is on it; locked parts stay. MS is the time,
      1 to 900000, turned into a fixed number of tries: the same command writes the same file.",
        "posywright set-out samples/orders/05-bare-spots.ron --to laid-out.ron",
    ),
    (
        "match",
        "'#RRGGBB' [--stock FILE] [--json]",
        "Ranks the stock by how close it is to a dress colour; a swatch name such as navy will do.",
        "posywright match '#8b1427'",
    ),
    (
        "dress",
        "PHOTO [--at X,Y] [--json]",
        "Names the colour of the dress in a photo: in its middle, or at the pixel given by --at.",
        "posywright dress dress.jpg --at 620,900",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    /// A terminal shows 80 to 100 letters in a line; the usage of a command is one line, however long.
    #[test]
    fn lines_of_help_are_short_but_for_the_usage() {
        let whole = help(None);
        let long: Vec<&str> = whole.lines().filter(|line| line.chars().count() > 104).collect();
        assert!(long.iter().all(|line| line.starts_with("  posywright picture FILE")), "{long:#?}");
    }
}
