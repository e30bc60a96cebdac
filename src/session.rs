//! The open order: its history, what is derived from it, and whether it is kept.
//!
//! Everything derived (once-over, stem list, price) is a pure function of order, stock and style, and is calculated once a
//! revision. Knows no window and no egui.

use std::borrow::Cow;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::book::{Change, Order, WearerStops};
use crate::command::{Command, Outcome};
use crate::history::{History, Revision};
use crate::once_over::{OnceOver, Remedy, Subject, look_over_at_once};
use crate::paperwork::{Price, Quote, SizeOffer, StemList, quote, sizes_side_by_side, stem_list};
use crate::piece::{Edit, EditRefusal, HouseStyle, Piece, PieceSize, Wrist};
use crate::set_out;
use crate::stock::Stock;
use crate::store::{self, FileStamp};
use crate::units::LengthUnit;

/// Which piece of an order is on the sheet. View state: never saved, never undone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ActivePiece {
    /// The wearer's own.
    #[default]
    Wrist,
    /// The boutonniere that goes with it.
    Boutonniere,
}

/// What follows from an order.
#[derive(Clone, Debug)]
pub struct Derived {
    /// The once-over.
    pub over: OnceOver,
    /// The stem list.
    pub stems: StemList,
    /// The price of it.
    pub price: Price,
}

impl Derived {
    /// Reckons everything from an order.
    pub fn of(order: &Order, stock: &Stock, style: &HouseStyle) -> Self {
        let stock = &*WearerStops::of(order, stock).stock_to_propose();
        let size = order.size.as_ref().and_then(|name| style.size(name));
        Self::of_piece(Subject { piece: &order.piece, stock, style, wrist: &order.wrist }, size)
    }

    /// Reckons everything from one piece and what its size promises.
    fn of_piece(subject: Subject<'_>, size: Option<&PieceSize>) -> Self {
        let Subject { piece, stock, style, .. } = subject;
        let stems = stem_list(piece, size, stock, style);
        let price = stems.price(&style.prices);
        Self { over: look_over_at_once(subject), stems, price }
    }
}

/// One order on the bench.
#[derive(Debug)]
pub struct Session {
    stock: Arc<Stock>,
    style: Arc<HouseStyle>,
    path: Option<PathBuf>,
    on_disk: Option<FileStamp>,
    history: History<Order>,
    active: ActivePiece,
    lengths: Option<LengthUnit>,
    /// Counts what changes what is derived, but not the order: other rules, another unit.
    generation: u32,
    saved: Option<Revision>,
    derived: Option<((Revision, ActivePiece), Arc<Derived>)>,
    quoted: Option<(Revision, Arc<Quote>)>,
}

/// An order to be saved, apart from its session.
#[derive(Clone, Debug)]
pub struct OrderToSave {
    order: Arc<Order>,
    revision: Revision,
    path: Option<PathBuf>,
    on_disk: Option<FileStamp>,
}

/// Where an order was saved, and as what.
#[derive(Clone, Debug)]
pub struct SaveReceipt {
    path: PathBuf,
    stamp: FileStamp,
    revision: Revision,
    /// The number that it was saved under.
    number: Option<u32>,
}

impl OrderToSave {
    /// The order.
    pub fn order(&self) -> &Order {
        &self.order
    }

    /// The same order under this number.
    #[must_use]
    pub fn numbered(self, number: u32) -> Self {
        Self { order: Arc::new(Order { number: Some(number), ..Order::clone(&self.order) }), ..self }
    }

    /// The file it is saved in; none before it has one.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// The file it was read from or last saved in, and how that looked then.
    pub fn origin(&self) -> (Option<&Path>, Option<FileStamp>) {
        (self.path(), self.on_disk)
    }

    /// The same order, to be saved after another save of it whose receipt nobody had seen yet.
    #[must_use]
    pub fn after(self, earlier: &SaveReceipt) -> Self {
        let order = match earlier.number {
            Some(number) if self.order.number != Some(number) => self.numbered(number),
            Some(_) | None => self,
        };
        Self { path: Some(earlier.path.clone()), on_disk: Some(earlier.stamp), ..order }
    }

    /// Saves it in its file, or in the one that `place` finds for an order without one.
    pub fn save(
        self,
        place: impl FnOnce(&Order) -> Result<PathBuf, store::StoreError>,
    ) -> Result<SaveReceipt, store::StoreError> {
        match &self.path {
            Some(path) => self.save_to(path, self.on_disk),
            None => place(&self.order).and_then(|path| self.save_to(&path, None)),
        }
    }

    /// Saves it in another file.
    pub fn save_as(&self, path: &Path) -> Result<SaveReceipt, store::StoreError> {
        self.save_to(path, None)
    }

    fn save_to(&self, path: &Path, on_disk: Option<FileStamp>) -> Result<SaveReceipt, store::StoreError> {
        let stamp = store::save_order(path, &self.order, on_disk.as_ref())?;
        Ok(SaveReceipt { path: path.to_owned(), stamp, revision: self.revision, number: self.order.number })
    }
}

impl Session {
    /// A new order, not saved anywhere yet; an untouched one is not asked about.
    pub fn fresh(stock: Arc<Stock>, style: Arc<HouseStyle>) -> Self {
        let order = Order::blank(style.sizes.first(), &stock);
        Self::with(order, stock, style)
    }

    /// An order that has no file of its own.
    pub fn with(order: Order, stock: Arc<Stock>, style: Arc<HouseStyle>) -> Self {
        let history = History::new(order);
        let saved = Some(history.revision());
        Self {
            stock,
            style,
            path: None,
            on_disk: None,
            history,
            active: ActivePiece::default(),
            lengths: None,
            generation: 0,
            saved,
            derived: None,
            quoted: None,
        }
    }

    /// The order in a file, and what is to be said about it.
    pub fn open(
        path: &Path,
        stock: Arc<Stock>,
        style: Arc<HouseStyle>,
    ) -> Result<(Self, Vec<String>), store::StoreError> {
        let read = store::read_order(path, &stock)?;
        let history = History::new(read.order);
        let saved = Some(history.revision());
        let (path, on_disk, active) = (Some(path.to_owned()), Some(read.stamp), ActivePiece::default());
        let (lengths, generation, derived, quoted) = (None, 0, None, None);
        let session =
            Self { stock, style, path, on_disk, history, active, lengths, generation, saved, derived, quoted };
        Ok((session, read.warnings))
    }

    /// An order that was never saved as it is: a step after what its file holds, so that undo leads back there. Without a
    /// file that can be read it is an order that has none yet.
    pub fn unsaved(order: Order, of: Option<&Path>, stock: Arc<Stock>, style: Arc<HouseStyle>) -> Self {
        match of.and_then(|of| Self::open(of, Arc::clone(&stock), Arc::clone(&style)).ok()) {
            Some((mut session, _)) => {
                if order != **session.order() {
                    session.history.step(order);
                }
                session
            }
            None => Self { saved: None, ..Self::with(order, stock, style) },
        }
    }

    /// What can be bought.
    pub fn stock(&self) -> &Arc<Stock> {
        &self.stock
    }
    /// The house style.
    pub fn style(&self) -> &Arc<HouseStyle> {
        &self.style
    }
    /// The file it is saved in.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }
    /// The order as it stands, a running gesture included.
    pub fn order(&self) -> &Arc<Order> {
        self.history.now()
    }
    /// Which piece is on the sheet: the boutonniere only while there is one.
    pub fn active_piece(&self) -> ActivePiece {
        if self.order().partner_piece.is_some() { self.active } else { ActivePiece::Wrist }
    }
    /// The order as the wearer of the piece on the sheet sees it: with the needs of the boutonniere's wearer while that is on
    /// the sheet.
    pub fn wearers_order(&self) -> Cow<'_, Order> {
        let theirs = match self.active_piece() {
            ActivePiece::Boutonniere => self.order().boutonniere(),
            ActivePiece::Wrist => None,
        };
        theirs.map_or(Cow::Borrowed(self.order()), Cow::Owned)
    }
    /// The piece on the sheet, a running gesture included.
    pub fn piece(&self) -> &Piece {
        self.piece_of(self.history.now())
    }
    /// The piece on the sheet without a running gesture.
    pub fn settled_piece(&self) -> &Piece {
        self.piece_of(self.history.settled())
    }
    /// The size that promises something of the piece on the sheet.
    pub fn size(&self) -> Option<&PieceSize> {
        let name = self.order().size.as_ref().filter(|_| self.active_piece() == ActivePiece::Wrist)?;
        self.style.size(name)
    }
    /// The revision of the order as it stands.
    pub fn revision(&self) -> Revision {
        self.history.revision()
    }
    /// The revision of the order without a running gesture.
    pub fn settled_revision(&self) -> Revision {
        self.history.settled_revision()
    }
    /// A number that changes with what is derived where the order stays: other rules, another unit of lengths.
    pub fn generation(&self) -> u32 {
        self.generation
    }
    /// Whether there is something to undo.
    pub fn can_undo(&self) -> bool {
        self.history.can_undo()
    }
    /// Whether there is something to redo.
    pub fn can_redo(&self) -> bool {
        self.history.can_redo()
    }
    /// Whether a gesture goes on.
    pub fn in_gesture(&self) -> bool {
        self.history.in_gesture()
    }
    /// Whether the order on disk is the order as it stands.
    pub fn is_saved(&self) -> bool {
        self.saved == Some(self.history.revision())
    }

    /// Puts the other piece on the sheet; a running gesture is abandoned.
    pub fn make_active(&mut self, active: ActivePiece) {
        self.history.abandon();
        self.history.end_run();
        self.active = active;
    }

    /// Tells lengths in this unit from now on; `None` tells them as they were typed. View state: never saved in an order.
    pub fn show_lengths_in(&mut self, unit: Option<LengthUnit>) {
        self.lengths = unit;
        self.generation += 1;
        self.derived = None;
    }

    /// The wrist of the order, its girth in the unit that is shown.
    pub fn wrist_as_shown(&self) -> Wrist {
        self.history.now().wrist.shown_in(self.lengths)
    }

    /// What follows from the piece on the sheet as it stands.
    pub fn derived(&mut self) -> Arc<Derived> {
        let key = (self.history.revision(), self.active_piece());
        match &self.derived {
            Some((of, derived)) if *of == key => Arc::clone(derived),
            _ => {
                let wrist = &self.wrist_as_shown();
                let stock = &*WearerStops::of(&self.wearers_order(), &self.stock).stock_to_propose();
                let subject = Subject { piece: self.piece(), stock, style: &self.style, wrist };
                let derived = Arc::new(Derived::of_piece(subject, self.size()));
                self.derived = Some((key, Arc::clone(&derived)));
                derived
            }
        }
    }

    /// What the order costs the client, as it stands.
    pub fn quote(&mut self) -> Arc<Quote> {
        let revision = self.history.revision();
        match &self.quoted {
            Some((of, quote)) if *of == revision => Arc::clone(quote),
            _ => {
                let calculated = Arc::new(quote(self.history.now(), &self.style, &self.stock));
                self.quoted = Some((revision, Arc::clone(&calculated)));
                calculated
            }
        }
    }

    /// The sizes of the house side by side for this order; calculated anew each time.
    pub fn sizes_side_by_side(&self) -> Vec<SizeOffer> {
        sizes_side_by_side(self.history.now(), &self.style, &self.stock)
    }

    /// Carries out a command. Nothing changes when it is refused.
    pub fn run(&mut self, command: &Command) -> Result<Outcome, EditRefusal> {
        let before = self.history.revision();
        match command {
            Command::Edit(edit) => self.step(&self.change_of(edit), None)?,
            Command::EditInRun(edit, run) => self.step(&self.change_of(edit), Some(run))?,
            Command::Change(change) => self.step(change, None)?,
            Command::ChangeInRun(change, run) => self.step(change, Some(run))?,
            Command::Fix(remedy) => {
                if let Some(edit) = self.fix(remedy) {
                    self.step(&self.change_of(&edit), None)?;
                }
            }
            Command::EndRun => self.history.end_run(),
            Command::Preview(edit) => {
                let after = self.history.settled().apply(&self.change_of(edit), &self.stock)?;
                self.history.preview(after);
            }
            Command::Commit => self.history.settle(),
            Command::Revert => self.history.abandon(),
            Command::Undo => {
                self.history.undo();
            }
            Command::Redo => {
                self.history.redo();
            }
        }
        Ok(Outcome::of(self.history.revision() != before))
    }

    /// The house has another style: everything that follows from the order is calculated anew, the order stays.
    pub fn restyle(&mut self, style: Arc<HouseStyle>) {
        self.style = style;
        self.generation += 1;
        self.derived = None;
        self.quoted = None;
    }

    /// The shop can buy other things, or at other prices: everything that follows from the order is calculated anew, the order
    /// stays.
    pub fn restock(&mut self, stock: Arc<Stock>) {
        self.stock = stock;
        self.generation += 1;
        self.derived = None;
        self.quoted = None;
    }

    /// Keeps the order in another file, which becomes its own.
    pub fn save_as(&mut self, path: &Path) -> Result<(), store::StoreError> {
        self.to_save().save_as(path).map(|saved| self.was_saved(saved))
    }

    /// The order as it is now, to be saved wherever that does not keep anybody waiting.
    pub fn to_save(&self) -> OrderToSave {
        let order = Arc::clone(self.history.now());
        OrderToSave { order, revision: self.history.revision(), path: self.path.clone(), on_disk: self.on_disk }
    }

    /// What [`Self::to_save`] gave is saved. The number that it got then is no step: undo does not take it back.
    pub fn was_saved(&mut self, saved: SaveReceipt) {
        if saved.number != self.order().number {
            self.history.amend(|order| order.number = saved.number);
            self.generation += 1;
        }
        self.path = Some(saved.path);
        self.on_disk = Some(saved.stamp);
        self.saved = Some(saved.revision);
    }

    /// Makes a change a step, unless nothing would be different.
    fn step(&mut self, change: &Change, run: Option<&str>) -> Result<(), EditRefusal> {
        let after = self.history.settled().apply(change, &self.stock)?;
        if after != **self.history.settled() {
            match run {
                Some(run) => self.history.step_in_run(after, run),
                None => self.history.step(after),
            }
        }
        Ok(())
    }

    /// The change that an edit of the active piece makes.
    fn change_of(&self, edit: &Edit) -> Change {
        match self.active_piece() {
            ActivePiece::Wrist => Change::Piece(edit.clone()),
            ActivePiece::Boutonniere => Change::PartnerEdit(edit.clone()),
        }
    }

    /// The edit that follows a remedy, where there is one.
    fn fix(&self, remedy: &Remedy) -> Option<Edit> {
        let order = self.history.settled();
        let piece = self.piece_of(order);
        let stock = &*WearerStops::of(&self.wearers_order(), &self.stock).stock_to_propose();
        let subject = Subject { piece, stock, style: &self.style, wrist: &order.wrist };
        set_out::fix(subject, remedy)
    }

    fn piece_of<'a>(&self, order: &'a Order) -> &'a Piece {
        match (self.active, &order.partner_piece) {
            (ActivePiece::Boutonniere, Some(piece)) => piece,
            (ActivePiece::Boutonniere, None) | (ActivePiece::Wrist, _) => &order.piece,
        }
    }
}
