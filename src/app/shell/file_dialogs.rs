//! The system's file dialogs: each waits on a thread of its own, so that no frame does.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use crate::app::workers::worker::start_thread;
use crate::piece::HouseStyle;

/// What a file dialog was asked for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum FileQuestion {
    /// An order to open.
    Order,
    /// A photo to read.
    Photo,
    /// A picture to be the logo.
    Logo,
    /// Where a copy of the order goes.
    CopyTo,
    /// Where this style goes, for somebody else.
    StyleTo(Box<HouseStyle>),
    /// A style to look at.
    Style,
    /// A supplier's price list.
    PriceList,
    /// Where the stock list goes as a table.
    StockTo,
}

/// The dialog that waits for an answer.
#[derive(Default)]
pub(crate) struct FileDialogs {
    waiting: Option<(FileQuestion, Receiver<Option<PathBuf>>)>,
}

impl FileDialogs {
    /// Opens a dialog. One that never answers holds up no other.
    pub(crate) fn ask(
        &mut self,
        question: FileQuestion,
        answer: impl Future<Output = Option<rfd::FileHandle>> + Send + 'static,
        ctx: &egui::Context,
    ) {
        let (tell, heard) = channel();
        let ctx = ctx.clone();
        // Without a thread, or when it breaks off, the way back ends, which is as if nothing had been chosen.
        drop(start_thread("file dialog", move || {
            let chosen = pollster::block_on(answer).map(|handle| handle.path().to_owned());
            tell.send(chosen).ok(); // the window may be gone by now
            ctx.request_repaint();
        }));
        self.waiting = Some((question, heard));
    }

    /// Waits for an answer that has come already.
    #[cfg(test)]
    pub(crate) fn answer(&mut self, question: FileQuestion, path: Option<&std::path::Path>) {
        let (tell, heard) = channel();
        tell.send(path.map(std::path::Path::to_owned)).ok();
        self.waiting = Some((question, heard));
    }

    /// What was answered since it was last asked: the question, and the file, where one was chosen.
    pub(crate) fn poll(&mut self) -> Option<(FileQuestion, Option<PathBuf>)> {
        let (_, heard) = self.waiting.as_ref()?;
        let answer = match heard.try_recv() {
            Err(TryRecvError::Empty) => return None,
            Err(TryRecvError::Disconnected) => None,
            Ok(answer) => answer,
        };
        self.waiting.take().map(|(question, _)| (question, answer))
    }
}
