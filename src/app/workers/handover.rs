//! Files handed to programs of the system: its viewer, its print command, its file manager, its mail program. On a thread of its
//! own, as a program may take its time. Knows no order and no page.
//!
//! A file is always an argument of its own and never part of a shell's line. `open` finds what opens a file (`xdg-open` and its
//! like on Linux, `open` on macOS, the shell of Windows). Printing is `lp` of CUPS, as the Single UNIX Specification has it;
//! a letter with its file is `xdg-email` of the portable desktop tools. Where these are not there, it says so.

use std::ffi::OsStr;
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::{Duration, Instant};

use egui::Context;

use crate::app::widgets::paper_words::Papers;
use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};

/// A program that opens something is given so long to refuse; after that it is at work.
const TIME_TO_REFUSE: Duration = Duration::from_secs(3);
/// The print command is given so long to take a file; our choice, far more than a queue takes.
const TIME_TO_PRINT: Duration = Duration::from_secs(20);
/// How often a program is asked whether it has ended.
const LOOK: Duration = Duration::from_millis(20);

/// Files to be handed over, and to what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct HandOver {
    /// At least one; those of one paper, or its folder alone.
    pub(crate) files: Vec<PathBuf>,
    pub(crate) to: Taker,
    /// What the file is called in what is said, and on the printer's list: `Quote for Mina`.
    pub(crate) title: String,
    /// What a letter says besides its file.
    pub(crate) letter: String,
}

/// Who takes a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Taker {
    /// The viewer for such files.
    Viewer,
    /// The printer.
    Printer,
    /// The file manager, which shows the folder it lies in.
    Folder,
    /// The mail program.
    Mail,
}

/// How it went, as a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum HandedOver {
    Taken(String),
    Refused(String),
}

/// Hands files over, one after the other.
pub(crate) struct HandOverWorker(Worker<HandOver, HandedOver>);

impl HandOverWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("handing over", ctx, WorkerPolicy::InTurn, || {
            |request: HandOver, reporter: &JobReporter<HandedOver>| reporter.report(hand_over(&request))
        }))
    }

    pub(crate) fn request(&mut self, request: HandOver) {
        self.0.request(request);
    }

    /// How those went that have ended since.
    pub(crate) fn poll(&mut self) -> Vec<HandedOver> {
        self.0.poll().into_iter().filter_map(ended).collect()
    }

    /// How the next one went; none when nothing more is to come.
    #[cfg(test)]
    pub(crate) fn wait(&mut self) -> Option<HandedOver> {
        self.0.wait(crate::app::workers::worker::PATIENCE).and_then(ended)
    }
}

fn ended(event: WorkerEvent<HandedOver>) -> Option<HandedOver> {
    match event {
        WorkerEvent::Reported(_, event) => Some(event),
        WorkerEvent::Failed(_) => Some(HandedOver::Refused(Papers::BROKE_OFF.to_owned())),
        WorkerEvent::Progress(..) => None,
    }
}

fn hand_over(request: &HandOver) -> HandedOver {
    let HandOver { files, to, title, letter } = request;
    match to {
        Taker::Viewer => open_all(files, Papers::opened(title), Papers::NO_VIEWER),
        Taker::Folder => open_all(&folder_of(files), Papers::FOLDER_SHOWN.to_owned(), Papers::NO_FILE_MANAGER),
        Taker::Printer => print(files, title),
        Taker::Mail => send(files, title, letter),
    }
}

/// The folder that the files lie in.
fn folder_of(files: &[PathBuf]) -> Vec<PathBuf> {
    files.iter().filter_map(|file| file.parent()).take(1).map(Path::to_owned).collect()
}

fn open(what: impl AsRef<OsStr>) -> io::Result<()> {
    open::that_detached_with_timeout(what, TIME_TO_REFUSE)
}

/// Opens each of them; says where the first lies that nothing opens.
fn open_all(what: &[PathBuf], done: String, refusal: &str) -> HandedOver {
    match what.iter().find(|file| open(file).is_err()) {
        None => HandedOver::Taken(done),
        Some(file) => HandedOver::Refused(format!("{refusal} {}", file.display())),
    }
}

/// At the size it has, not fitted to the paper: a template must come out 1:1.
fn print(files: &[PathBuf], title: &str) -> HandedOver {
    let mut lp = Command::new("lp");
    lp.args(["-t", title, "-o", "print-scaling=none"]).args(files);
    match ended_within(lp, TIME_TO_PRINT) {
        Ok(Ended { status: Some(status), .. }) if status.success() => HandedOver::Taken(Papers::printed(title)),
        Ok(Ended { status: None, .. }) => HandedOver::Refused(Papers::NO_ANSWER.to_owned()),
        Ok(Ended { said, .. }) => HandedOver::Refused(Papers::not_printed(&first_line(&said))),
        Err(_) => open_all(files, Papers::NO_PRINT_COMMAND.to_owned(), Papers::NO_PRINTER),
    }
}

/// A letter with its file where the system can; else one without, and the folder to take the file from.
fn send(files: &[PathBuf], title: &str, letter: &str) -> HandedOver {
    let mut with_file = Command::new("xdg-email");
    with_file.args(["--utf8", "--subject", title, "--body", letter]);
    for file in files {
        with_file.arg("--attach").arg(file);
    }
    // One that has not ended by now is a mail program with the letter in it.
    let is_taken = |ended: Ended| ended.status.is_none_or(|status| status.success());
    if begun(with_file, TIME_TO_REFUSE).is_ok_and(is_taken) {
        return HandedOver::Taken(Papers::letter(title));
    }
    let is_begun = open(mailto(title, letter)).is_ok();
    let shows_folder = folder_of(files).iter().all(|folder| open(folder).is_ok());
    let lies_in = || files.first().map(|file| file.display().to_string()).unwrap_or_default();
    match (is_begun, shows_folder) {
        (true, true) => HandedOver::Taken(Papers::ATTACH_IT.to_owned()),
        (true, false) => HandedOver::Taken(format!("{} {}", Papers::ATTACH_BY_HAND, lies_in())),
        (false, _) => HandedOver::Refused(format!("{} {}", Papers::NO_MAIL, lies_in())),
    }
}

/// A link that begins a letter to nobody yet (RFC 6068).
fn mailto(subject: &str, body: &str) -> String {
    format!("mailto:?subject={}&body={}", in_link(subject), in_link(body))
}

/// Words as part of a link: all but the unreserved letters of RFC 3986 as their bytes, a line's end as `%0D%0A` (RFC 6068, section 5).
fn in_link(words: &str) -> String {
    use std::fmt::Write as _;
    let mut link = String::new();
    for byte in words.replace('\n', "\r\n").bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            link.push(char::from(byte));
        } else {
            // Writing to a String cannot fail.
            _ = write!(link, "%{byte:02X}");
        }
    }
    link
}

/// How a program ended, and what it complained of; no status where it has not ended in its time.
struct Ended {
    status: Option<ExitStatus>,
    said: String,
}

/// Runs a program and ends it when its time is over.
fn ended_within(mut program: Command, time: Duration) -> io::Result<Ended> {
    program.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::piped());
    let mut child = program.spawn()?;
    let status = status_within(&mut child, time)?;
    let mut said = Vec::new();
    if status.is_none() {
        child.kill()?;
        child.wait()?;
    } else if let Some(errors) = child.stderr.take() {
        // It has ended: what it wrote is there, and a few lines are enough.
        errors.take(4096).read_to_end(&mut said)?;
    }
    Ok(Ended { status, said: String::from_utf8_lossy(&said).into_owned() })
}

/// Starts a program and leaves it at work when it does not end in this time.
fn begun(mut program: Command, time: Duration) -> io::Result<Ended> {
    program.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let mut child = program.spawn()?;
    Ok(Ended { status: status_within(&mut child, time)?, said: String::new() })
}

fn status_within(child: &mut Child, time: Duration) -> io::Result<Option<ExitStatus>> {
    let end = Instant::now() + time;
    loop {
        let status = child.try_wait()?;
        if status.is_some() || Instant::now() >= end {
            return Ok(status);
        }
        std::thread::sleep(LOOK);
    }
}

/// The first line of what a program complained of, without its own name, short enough for a sentence.
fn first_line(said: &str) -> String {
    const LONGEST: usize = 60;
    let line = said.lines().map(str::trim).find(|line| !line.is_empty()).unwrap_or_default();
    let line = line.strip_prefix("lp:").unwrap_or(line).trim();
    line.strip_prefix("Error - ").unwrap_or(line).trim_end_matches('.').chars().take(LONGEST).collect()
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::tests::stand_ins::again_with_stand_ins;

    /// What stand-in programs noted in a second run of the test of this name; none in that run itself.
    fn with_stand_ins(test: &str, programs: &[(&str, &str)]) -> Option<String> {
        again_with_stand_ins(&format!("app::workers::handover::tests::{test}"), programs)
    }

    /// A file whose name a shell would stumble over.
    const FILE: &str = "/shop/papers/m's $(touch x)/quote; slip.pdf";

    fn handed(to: Taker) -> HandedOver {
        let mut worker = HandOverWorker::new(&Context::default());
        let (title, letter) = ("Quote for Mina".to_owned(), "Here is the quote.\nQuillfern".to_owned());
        worker.request(HandOver { files: vec![PathBuf::from(FILE)], to, title, letter });
        worker.wait().unwrap()
    }

    #[test]
    fn the_viewer_and_the_file_manager_get_the_path_whole() {
        let Some(noted) = with_stand_ins("the_viewer_and_the_file_manager_get_the_path_whole", &[("xdg-open", "")])
        else {
            assert_eq!(handed(Taker::Viewer), HandedOver::Taken(Papers::opened("Quote for Mina")));
            assert_eq!(handed(Taker::Folder), HandedOver::Taken(Papers::FOLDER_SHOWN.to_owned()));
            return;
        };
        assert_eq!(noted, format!("xdg-open:\n{FILE}\nxdg-open:\n/shop/papers/m's $(touch x)\n"));
    }

    #[test]
    fn a_printer_gets_the_file_as_one_argument_and_at_its_own_size() {
        let Some(noted) = with_stand_ins("a_printer_gets_the_file_as_one_argument_and_at_its_own_size", &[("lp", "")])
        else {
            assert_eq!(handed(Taker::Printer), HandedOver::Taken(Papers::printed("Quote for Mina")));
            return;
        };
        assert_eq!(noted, format!("lp:\n-t\nQuote for Mina\n-o\nprint-scaling=none\n{FILE}\n"));
    }

    #[test]
    fn a_printer_that_refuses_is_quoted() {
        let refuses = ("lp", "echo 'lp: Error - No default destination.' >&2; exit 1");
        if with_stand_ins("a_printer_that_refuses_is_quoted", &[refuses]).is_none() {
            assert_eq!(handed(Taker::Printer), HandedOver::Refused(Papers::not_printed("No default destination")));
        }
    }

    #[test]
    fn without_a_print_command_the_viewer_opens() {
        let Some(noted) = with_stand_ins("without_a_print_command_the_viewer_opens", &[("xdg-open", "")]) else {
            assert_eq!(handed(Taker::Printer), HandedOver::Taken(Papers::NO_PRINT_COMMAND.to_owned()));
            return;
        };
        assert_eq!(noted, format!("xdg-open:\n{FILE}\n"));
    }

    #[test]
    fn where_the_system_has_nothing_it_says_where_the_file_lies() {
        if with_stand_ins("where_the_system_has_nothing_it_says_where_the_file_lies", &[]).is_none() {
            for to in [Taker::Viewer, Taker::Printer, Taker::Folder, Taker::Mail] {
                let HandedOver::Refused(why) = handed(to) else { panic!("{to:?} is there") };
                assert!(why.contains("/shop/papers/m's"), "{why}");
            }
        }
    }

    #[test]
    fn a_letter_goes_with_its_file_where_the_system_can() {
        let Some(noted) = with_stand_ins("a_letter_goes_with_its_file_where_the_system_can", &[("xdg-email", "")])
        else {
            assert_eq!(handed(Taker::Mail), HandedOver::Taken(Papers::letter("Quote for Mina")));
            return;
        };
        let letter = "--body\nHere is the quote.\nQuillfern";
        assert_eq!(noted, format!("xdg-email:\n--utf8\n--subject\nQuote for Mina\n{letter}\n--attach\n{FILE}\n"));
    }

    #[test]
    fn a_letter_without_its_file_comes_with_the_folder_to_take_it_from() {
        let name = "a_letter_without_its_file_comes_with_the_folder_to_take_it_from";
        let Some(noted) = with_stand_ins(name, &[("xdg-email", "exit 3"), ("xdg-open", "")]) else {
            assert_eq!(handed(Taker::Mail), HandedOver::Taken(Papers::ATTACH_IT.to_owned()));
            return;
        };
        let link = "mailto:?subject=Quote%20for%20Mina&body=Here%20is%20the%20quote.%0D%0AQuillfern";
        assert!(noted.ends_with(&format!("xdg-open:\n{link}\nxdg-open:\n/shop/papers/m's $(touch x)\n")), "{noted}");
    }

    /// The letters of RFC 3986, section 2.3, and an umlaut as its two bytes of UTF-8.
    #[test]
    fn words_in_a_link_are_their_bytes() {
        assert_eq!(in_link("Zo\u{eb} & co. 50 %"), "Zo%C3%AB%20%26%20co.%2050%20%25");
        assert_eq!(in_link("a-b._~"), "a-b._~");
    }
}
