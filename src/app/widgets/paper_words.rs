//! What is said of papers: that they are made, and how they are looked at, opened, printed, shown in their folder and sent. For the
//! designer alone.

use crate::units::counted;

/// What is said of papers.
pub(crate) struct Papers;

impl Papers {
    pub(crate) const TITLE: &'static str = "Papers";
    pub(crate) const LINE: &'static str = "As they would be printed now";
    pub(crate) const TIP: &'static str = "See, print and send the papers of this order (F9)";
    pub(crate) const MAKE_ALL: &'static str = "Make all papers";
    pub(crate) const MAKE_ALL_TIP: &'static str = "Writes every paper into the order\u{2019}s folder (Ctrl+Shift+P)";
    pub(crate) const STOP: &'static str = "Stop";
    pub(crate) const STOPPED: &'static str = "Stopped. No paper was written.";
    pub(crate) const BEGUN: &'static str = "Making the papers\u{2026}";
    pub(crate) const BUSY: &'static str = "Papers are being made. Try again when they are ready.";
    pub(crate) const BROKEN: &'static str = "Making the papers broke off. The order is saved; try again.";
    pub(crate) const NONE_MADE: &'static str = "Not written yet";
    pub(crate) const DRAWING: &'static str = "Drawing\u{2026}";

    pub(crate) const OPEN: &'static str = "Open";
    pub(crate) const OPEN_TIP: &'static str = "In this computer\u{2019}s viewer (O)";
    pub(crate) const PRINT: &'static str = "Print";
    pub(crate) const PRINT_TIP: &'static str = "On the usual printer, at its own size (P)";
    pub(crate) const SEND: &'static str = "Send";
    pub(crate) const SEND_TIP: &'static str = "Begins a letter in the mail program (E)";
    pub(crate) const FOLDER: &'static str = "Show folder";
    pub(crate) const FOLDER_TIP: &'static str = "Where the papers of this order lie (F)";
    pub(crate) const LARGER: &'static str = "Larger";
    pub(crate) const WHOLE: &'static str = "Whole page";
    pub(crate) const SIZE_TIP: &'static str = "Read it, or see it whole (L)";
    pub(crate) const BEFORE: &'static str = "Previous page";
    pub(crate) const AFTER: &'static str = "Next page";

    pub(crate) const FOLDER_SHOWN: &'static str = "The folder is open in the file manager.";
    pub(crate) const NO_VIEWER: &'static str = "No program here opens this paper. Open it by hand:";
    pub(crate) const NO_FILE_MANAGER: &'static str = "No file manager was found. Go there by hand:";
    pub(crate) const NO_PRINTER: &'static str = "No print command and no viewer here. Print it elsewhere:";
    pub(crate) const NO_PRINT_COMMAND: &'static str = "No print command here. Print from the viewer that opens.";
    pub(crate) const NO_ANSWER: &'static str = "The printer does not answer. See that it is on, or open the paper.";
    pub(crate) const ATTACH_IT: &'static str = "A letter is begun. Drag the paper into it from the folder.";
    pub(crate) const ATTACH_BY_HAND: &'static str = "A letter is begun. Attach the paper by hand:";
    pub(crate) const NO_MAIL: &'static str = "No mail program was found. Attach the paper by hand:";
    pub(crate) const BROKE_OFF: &'static str = "This could not be done. The paper is in the order\u{2019}s folder.";

    pub(crate) fn made(n: usize, all: usize) -> String {
        format!("Making the papers: {n} of {all}")
    }

    pub(crate) fn ready_in(n: usize, folder: &str) -> String {
        format!("{} ready in papers/{folder}", counted(n, "paper", "papers"))
    }

    /// Under the title, after papers were written.
    pub(crate) fn written(n: usize, folder: &str, is_current: bool) -> String {
        let since = if is_current { "" } else { "; the order has changed since" };
        format!("{} written: papers/{folder}{since}", counted(n, "file", "files"))
    }

    /// Why an order has no such paper, as a sentence.
    pub(crate) fn no_such(why: &str) -> String {
        let mut letters = why.chars();
        let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
        format!("{first}{}.", letters.as_str())
    }

    pub(crate) fn page(n: usize, of: usize) -> String {
        format!("Page {n} of {of}")
    }

    pub(crate) fn opened(title: &str) -> String {
        format!("Opened: {title}")
    }

    pub(crate) fn printed(title: &str) -> String {
        format!("Sent to the printer: {title}")
    }

    pub(crate) fn not_printed(why: &str) -> String {
        let why = if why.is_empty() { "no reason given" } else { why };
        format!("Not printed: {why}. Check the printer, or open the paper.")
    }

    pub(crate) fn letter(title: &str) -> String {
        format!("A letter is begun, with its file: {title}")
    }

    /// What a letter says besides its file; the client reads it.
    pub(crate) fn letter_says(title: &str, shop: &str) -> String {
        format!("{title} is attached.\n\n{shop}\n").trim_end().to_owned()
    }

    pub(crate) fn for_whom(paper: &str, wearer: &str) -> String {
        if wearer.trim().is_empty() { paper.to_owned() } else { format!("{paper} for {}", wearer.trim()) }
    }
}
