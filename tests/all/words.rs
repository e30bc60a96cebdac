//! Guards the words that people read, in the sources that hold them: no message over 90 characters, no label over 24, no button
//! over three words, and none of the words that a florist slowed down at. What may be longer stands here with its reason.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Files and folders whose literals are read on screen or on paper.
const READ_BY_PEOPLE: [&str; 18] = [
    "app",
    "book/suggestions.rs",
    "book/stopped.rs",
    "book/missing_details.rs",
    "book/words.rs",
    "book/changes_since.rs",
    "book/change.rs",
    "colour/harmony.rs",
    "colour/warnings.rs",
    "export/pdf/making_words.rs",
    "export/pdf/words.rs",
    "once_over/words.rs",
    "paperwork/agree.rs",
    "paperwork/price_words.rs",
    "piece/edit.rs",
    "piece/question.rs",
    "set_out/words.rs",
    "stock/caution.rs",
];

const LONGEST_MESSAGE: usize = 90;
const LONGEST_LABEL: usize = 24;
const MOST_WORDS_ON_A_BUTTON: usize = 3;

/// Sentences that may be longer than a message, by how they begin: paragraphs on paper and cautions that must be whole.
const LONGER_MESSAGES: &[&str] = &[
    // The standing line of every caution: it must be whole wherever it stands.
    "General caution, not medical advice.",
    // Steps and notes on paper, where a second line costs nothing.
    "Cold glue: dry flowers",
    // How it is pinned: each of the two ways is one movement, and is told whole.
    "From behind the lapel push a pin",
    "Hold one magnet behind the lapel",
    "Too large for one sheet:",
    "Too large to print:",
];

/// Words and phrases that were read as odd or said two things; none comes back. Matched as whole words, in small letters.
const FORBIDDEN: [&str; 36] = [
    "in all",
    "when it is fetched",
    "fetched",
    "to find out",
    "kept as",
    "not kept",
    "is kept",
    "keep a copy",
    "does not agree",
    "shall",
    "otherwise",
    "purse",
    "girth",
    "piece in front",
    "set aside",
    "ask again",
    "client's side",
    "my side",
    "yes to this",
    "take the yes back",
    "take it up",
    "taken up",
    "throw it away",
    "leave it so",
    "to be careful of",
    "bare paper",
    "in the hand",
    "on the sheet",
    "house asks",
    "house likes",
    "house style",
    "the house",
    "rub out",
    "why so much",
    "to ring",
    "spend on it",
];

/// A literal of a source, and where it stands.
struct Literal {
    place: String,
    /// The code before it on its line.
    before: String,
    text: String,
}

fn sources_of(path: &Path) -> Vec<PathBuf> {
    if path.is_file() {
        return vec![path.to_owned()];
    }
    let mut found: Vec<PathBuf> = fs::read_dir(path)
        .unwrap_or_else(|why| panic!("{}: {why}", path.display()))
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.file_name().is_none_or(|name| name != "tests"))
        .flat_map(|path| sources_of(&path))
        .collect();
    found.sort();
    found
}

/// The literals of a source without its comments and tests.
fn literals_in(name: &str, source: &str) -> Vec<Literal> {
    let code = source.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let letters: Vec<char> = code.chars().collect();
    let (mut found, mut at) = (Vec::new(), 0);
    let mut line = 1;
    let mut begin_of_line = 0;
    while at < letters.len() {
        match letters[at] {
            '\n' => {
                line += 1;
                at += 1;
                begin_of_line = at;
            }
            '/' if letters.get(at + 1) == Some(&'/') => {
                while at < letters.len() && letters[at] != '\n' {
                    at += 1;
                }
            }
            '\'' => at += length_of_char(&letters[at..]),
            '"' => {
                let before: String = letters[begin_of_line..at].iter().collect();
                let first_line = line;
                let (text, length) = string_at(&letters[at..]);
                line += letters[at..at + length].iter().filter(|c| **c == '\n').count();
                at += length;
                found.push(Literal { place: format!("{name}:{first_line}"), before, text });
            }
            _ => at += 1,
        }
    }
    found
}

/// How many letters a char literal takes; one where it is a lifetime.
fn length_of_char(letters: &[char]) -> usize {
    match letters {
        ['\'', '\\', rest @ ..] => rest.iter().position(|c| *c == '\'').map_or(1, |end| end + 3),
        ['\'', _, '\'', ..] => 3,
        _ => 1,
    }
}

/// The text of a string literal, and how many letters it takes in the source.
fn string_at(letters: &[char]) -> (String, usize) {
    let (mut text, mut at) = (String::new(), 1);
    while at < letters.len() && letters[at] != '"' {
        if letters[at] != '\\' {
            text.push(letters[at]);
            at += 1;
            continue;
        }
        match letters.get(at + 1) {
            Some('u') => {
                let end = letters[at..].iter().position(|c| *c == '}').unwrap_or(0);
                let hex: String = letters[at + 3..at + end].iter().collect();
                text.extend(u32::from_str_radix(&hex, 16).ok().and_then(char::from_u32));
                at += end + 1;
            }
            // A line that goes on: its indentation is no part of it.
            Some('\n') => {
                at += 2;
                while letters.get(at).is_some_and(|c| c.is_whitespace()) {
                    at += 1;
                }
            }
            Some(escaped) => {
                text.push(if *escaped == 'n' { '\n' } else { *escaped });
                at += 2;
            }
            None => break,
        }
    }
    (text, at + 1)
}

fn read_by_people() -> Vec<Literal> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    for name in READ_BY_PEOPLE {
        for path in sources_of(&root.join(name)) {
            let inside = path.strip_prefix(&root).unwrap().display().to_string();
            found.extend(literals_in(&inside, &fs::read_to_string(&path).unwrap()));
        }
    }
    assert!(found.len() > 500, "the words were not found");
    found
}

/// Letters that are shown, where each thing put into the text counts as six.
fn shown_length(text: &str) -> usize {
    let mut length = 0;
    let mut in_braces = false;
    for letter in text.chars() {
        match letter {
            '{' => in_braces = true,
            '}' => {
                in_braces = false;
                length += 6;
            }
            _ if in_braces => {}
            _ => length += 1,
        }
    }
    length
}

/// Whether a text holds a phrase as whole words.
fn holds(text: &str, phrase: &str) -> bool {
    let text = format!(" {} ", without_braces(text).to_lowercase().replace('\u{2019}', "'"));
    let is_word = |c: char| c.is_alphanumeric() || c == '\'';
    text.match_indices(phrase).any(|(at, _)| {
        let before = text[..at].chars().next_back().is_none_or(|c| !is_word(c));
        let after = text[at + phrase.len()..].chars().next().is_none_or(|c| !is_word(c));
        before && after
    })
}

/// A text without the names of what is put into it.
fn without_braces(text: &str) -> String {
    let mut outside = text.split('{').map(|piece| piece.split_once('}').map_or(piece, |(_, rest)| rest));
    let first = outside.next().unwrap_or_default().to_owned();
    outside.fold(first, |all, piece| all + "#" + piece)
}

/// Whether a text is a message: several words that end a sentence.
fn is_message(text: &str) -> bool {
    text.contains(' ') && text.ends_with(['.', '!', '?', '\u{2026}'])
}

#[test]
fn what_may_be_longer_is_still_there() {
    let found = read_by_people();
    for begin in LONGER_MESSAGES {
        assert!(found.iter().any(|l| l.text.starts_with(begin)), "no longer said, so take it off the list: {begin}");
    }
}

#[test]
fn no_message_is_longer_than_one_reads_at_a_glance() {
    let longer = |text: &str| LONGER_MESSAGES.iter().any(|begin| text.starts_with(begin));
    let long: Vec<String> = read_by_people()
        .iter()
        .filter(|l| is_message(&l.text) && shown_length(&l.text) > LONGEST_MESSAGE && !longer(&l.text))
        .map(|l| format!("{} ({}): {}", l.place, shown_length(&l.text), l.text))
        .collect();
    assert!(long.is_empty(), "messages over {LONGEST_MESSAGE} characters:\n{}", long.join("\n"));
}

#[test]
fn no_button_has_more_than_three_words_and_no_label_is_long() {
    let is_button = |l: &Literal| {
        let call = l.before.rsplit("button").next().unwrap_or_default();
        let is_call = l.before.contains("button(ui") || l.before.contains("button_sized(ui");
        is_call && !l.before.contains("icon_button(") && !call.contains("on_hover_text(")
    };
    let wrong: Vec<String> = read_by_people()
        .iter()
        .filter(|l| is_button(l))
        .filter(|l| {
            let words = l.text.split_whitespace().count();
            words > MOST_WORDS_ON_A_BUTTON || shown_length(&l.text) > LONGEST_LABEL
        })
        .map(|l| format!("{}: {}", l.place, l.text))
        .collect();
    assert!(wrong.is_empty(), "buttons that say too much:\n{}", wrong.join("\n"));
}

#[test]
fn no_word_that_was_read_as_odd_comes_back() {
    let found: BTreeSet<String> = read_by_people()
        .iter()
        .flat_map(|l| FORBIDDEN.iter().filter(|phrase| holds(&l.text, phrase)).map(move |p| (l, p)))
        .map(|(l, phrase)| format!("{}: \u{201c}{phrase}\u{201d} in {:?}", l.place, l.text))
        .collect();
    assert!(found.is_empty(), "{}", found.into_iter().collect::<Vec<_>>().join("\n"));
}

#[test]
fn the_guard_of_words_reads_a_source_as_the_compiler_does() {
    let source = "/// \"a comment\"\nlet a = button(ui, &c, \"Yes, take it all back\", W);\nlet c = '\"';\nlet b = \"two \\\n        lines\u{2019}s\"; // \"x\"\nfn f<'a>() { \"\\u{2026} end\" }\n#[cfg(test)]\nmod tests { \"not read\" }";
    let texts: Vec<String> = literals_in("x", source).into_iter().map(|l| l.text).collect();
    assert_eq!(texts, ["Yes, take it all back", "two lines\u{2019}s", "\u{2026} end"]);
    assert_eq!(shown_length("{name} is {n:.1}!"), 6 + 4 + 6 + 1);
    assert!(
        holds("It is Kept.", "kept")
            && !holds("keptable", "kept")
            && holds("the client\u{2019}s side", "client's side")
    );
    assert!(is_message("Saved. Undo with Ctrl+Z.") && !is_message("Saved"));
}
