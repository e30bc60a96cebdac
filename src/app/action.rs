//! What a person did in a frame. Collected while painting, carried out afterwards by the shell.
//!
//! What changes the order is a [`Command`] in [`Action::Order`], wherever it comes from; everything else is about what is
//! shown, and about files. What concerns one page alone is an action of that page.

use std::path::PathBuf;
use std::sync::Arc;

use crate::app::page_list::PageId;
use crate::app::typing::field::Field;
use crate::app::typing::taps::TapKey;
use crate::app::workers::handover::Taker;
use crate::app::workers::search_worker::LayoutStep;
use crate::book::{Change, Day, Hour, PayWay};
use crate::colour::Vision;
use crate::command::Command;
use crate::export::PaperKind;
use crate::once_over::Remedy;
use crate::piece::{Edit, HouseStyle, Question};
use crate::session::ActivePiece;
use crate::set_out::Offer;
use crate::sheet::SheetInput;
use crate::stock::{Lost, OwnStock, Role, Stock, StockId};
use crate::units::{Currency, LengthUnit};

/// One thing done.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Action {
    /// Change the order, or take a change back.
    Order(Command),
    /// Change the order and, where that could be done, say something.
    OrderAndSay(Command, Notice),
    /// Something done on the wrist sheet.
    Sheet(SheetInput),
    /// Other words stand in a field.
    Write(Field, String),
    /// A field was left: what was written in it stands for itself.
    LeaveField(Field),
    /// What was typed as the wrist size is given up.
    GiveUpWristSize,
    /// The wrist size as typed.
    WristSize(String),
    /// Give a field the keyboard.
    Focus(Field),
    /// Something tapped on the keys on the screen.
    Taps(TapKey),
    /// Another page in the middle of the window.
    Show(PageId),
    /// Put the wearer's piece or the boutonniere on the sheet.
    ShowPiece(ActivePiece),
    /// Make a boutonniere that goes with the wrist piece.
    AddBoutonniere,
    /// The extra that was written is charged for.
    AddExtra,
    /// What is written was paid, or went back; without a way, in the way that is written.
    AddPayment { way: Option<PayWay>, is_refund: bool },
    /// Look at another tray.
    Tray(Role),
    /// Take one from a tray into the hand.
    Pick(StockId),
    /// Take one into the hand in this colour, on the sheet.
    PickIn(StockId, Arc<str>),
    /// A bloom is being dragged out of its tray.
    DragFromTray(StockId),
    /// It was let go at this place on the piece, mm; none beside the sheet.
    DropFromTray(Option<kurbo::Point>),
    /// Another colour for what is in the hand or selected.
    Colour(Arc<str>),
    /// Esc.
    Cancel,
    /// Show what a check found, or no longer.
    PointAt(Option<Question>),
    /// The pointer or the focus rests on what a check found.
    HoverOver(Option<Question>),
    /// Ask why a check is to be ignored, or no longer.
    AskWhy(Option<Question>),
    /// The client asked what could be added, or has seen it.
    AskForMore,
    /// Show or fold away the checks that passed.
    ShowPassed,
    /// One step back: of the order, or of the shop's rules on their page.
    Undo,
    /// One step forward.
    Redo,
    /// Save the order.
    Save,
    /// Save the order as a copy, where its own file cannot be written.
    SaveCopy,
    /// Save the picture.
    SavePicture,
    /// Save a photograph of the piece: the bytes of its file.
    SavePhotograph(Arc<Vec<u8>>),
    /// Make all papers of the order.
    MakePapers,
    /// Stop making them.
    StopPapers,
    /// Hand a paper of the order to a program of the system; it is made first where need be.
    HandOver(&'static PaperKind, Taker),
    /// Make the quote, today.
    MakeQuote,
    /// The client agreed, today.
    Agree,
    /// What is agreed or told counts so many days later: for what was agreed yesterday on the telephone.
    ShiftDay(i64),
    /// A new order; asks first when this one is not saved.
    New,
    /// Show the orders.
    ShowOrders,
    /// Change an order of the list, or take that back.
    ChangeListed(Box<ListedStep>, StepWay),
    /// Make one bill for the orders of a party: its name, and their files.
    BillParty(String, Vec<PathBuf>),
    /// Begin a new order from one of the list; asks first when this one is not saved.
    CopyListed(PathBuf, CopyFor),
    /// Show what this order and others come to when they are bought together.
    ShowSharedStems,
    /// Join an order to those, or leave it out again.
    Join(PathBuf),
    /// Ask for the file of an order.
    AskForOrder,
    /// Ask for the file of a photo.
    AskForPhoto,
    /// Save what the shop says of itself.
    SaveShop,
    /// Take what the shop's file says in the place of what stands here.
    ReadShopAgain,
    /// Ask for the file of a logo.
    AskForLogo,
    /// Ask for the file of a style.
    AskForStyle,
    /// Save the shop's style, and then say this.
    SaveOwnStyle(Option<String>),
    /// Put a style among those to choose from.
    AddStyle(Box<HouseStyle>),
    /// Ask where a style is to be written for somebody else.
    AskWhereToShare(Box<HouseStyle>),
    /// Open an order; asks first when this one is not saved.
    Open(PathBuf),
    /// Show the help.
    ShowHelp,
    /// Close what is open over the page.
    CloseDialog,
    /// Client view or shop view.
    SwitchView,
    /// Open the client's window, let it show this piece, or close it.
    SwitchClientWindow,
    /// Open or close the view options.
    ShowOptions,
    /// Show lengths in this unit, or as they were typed.
    Lengths(Option<LengthUnit>),
    /// Through which eyes the piece is seen.
    Eyes(Option<Vision>),
    /// The next light.
    Light,
    /// Show the whole piece.
    FitView,
    /// Something asked of the layouts that are offered.
    Layouts(LayoutsAction),
    /// Something about the orders that were not saved last time.
    Recovered(RecoveredAction),
    /// Something asked of the month to tap.
    Month(MonthAction),
    /// Begin with the sample shop, or with an empty one.
    Begin(FirstShop),
    /// What was told of a shop that begins, so far.
    TellFirst(FirstDetails),
    /// That is all: it is taken.
    TakeFirst,
    /// Something about the stock list.
    Stock(StockRequest),
    /// The shop's rules have changed: what was worked out by the old ones is worked out anew.
    RulesChanged,
    /// Leave what is open without saving it, and go on.
    LeaveUnsaved,
    /// Save, and go on.
    SaveAndGoOn,
    /// Say something.
    Say(Notice),
    /// Close what was said.
    CloseNotice,
}

/// What can be asked of the month to tap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum MonthAction {
    /// Show it for a field.
    Open(Field),
    /// So many months later.
    Turn(i32),
    /// This day is meant.
    Choose(Day),
    /// This hour is meant.
    ChooseHour(Hour),
    /// No day is known after all.
    Clear,
}

/// Something said to the person at the window.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Notice {
    /// Done: a few words in the line under the sheet, gone with the next step.
    Done(String),
    /// Could not be done, or must be answered: a card over the page, with a thing to do about it.
    Card { words: String, offer: Option<(String, Box<Action>)> },
    /// A layout was chosen in which the blooms have little room: a card with what would help, each an edit.
    Crowded { words: String, ways: Vec<Offer> },
}

impl Notice {
    /// A card without a thing to do.
    pub(crate) fn card(words: impl Into<String>) -> Self {
        Self::Card { words: words.into(), offer: None }
    }

    /// What was done, in a few words.
    pub(crate) fn done(&self) -> Option<&str> {
        match self {
            Self::Done(words) => Some(words),
            Self::Card { .. } | Self::Crowded { .. } => None,
        }
    }
}

/// Something asked of the layouts that are offered.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum LayoutsAction {
    /// Open the panel, or close it.
    Toggle,
    /// Close it.
    Close,
    /// End the long search.
    Stop,
    /// Take one of the layouts, or of what could go next.
    Take(usize),
    /// Put the still better one in the place of the better one.
    ShowBetter,
    /// Show another list.
    Turn(LayoutList),
    /// Find something small and do it.
    Do(LayoutStep),
    /// Another place for the next piece.
    Another,
}

/// Which list the panel of layouts shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum LayoutList {
    /// Layouts.
    #[default]
    Layouts,
    /// What could go next.
    Next,
    /// Halves to copy.
    Mirror,
}

/// Something about the orders that were not saved last time, by place in their list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RecoveredAction {
    /// See what there is.
    Look,
    /// Open it as it was.
    Restore(usize),
    /// Throw it away; asked once more.
    Discard(usize),
    /// Throw it away.
    DiscardForGood(usize),
}

/// A change of an order of the list, and what takes it back.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ListedStep {
    pub(crate) path: PathBuf,
    pub(crate) change: Change,
    pub(crate) back: Change,
}

/// How a step of the list is gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum StepWay {
    /// For the first time.
    New,
    /// Taken back.
    Back,
    /// Done once more.
    Again,
}

/// For whom an order is copied.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CopyFor {
    SameWearer,
    AnotherWearer,
}

/// Something about the stock list that the window does for its page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum StockRequest {
    /// Other things can be bought, or at other prices.
    Changed,
    /// Save the shop's own lines over the list that comes with the program.
    Save(Arc<OwnStock>, Arc<Stock>),
    /// Another program has changed the file: take in what it wrote, and save this over it line by line.
    Merge(Arc<Stock>),
    /// Ask for the file of a supplier's price list.
    AskForPrices,
    /// Read a supplier's price list, to be looked at.
    ReadPrices(PathBuf),
    /// Ask where the list is to be written as a table.
    AskWhereToExport,
    /// Write the list as a table.
    Export(PathBuf),
    /// Take a step that takes these off the list, unless an order holds one of them.
    TakeUnlessHeld(Box<StockStep>, Vec<Lost>),
}

/// A step on the stock page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum StockStep {
    /// To these lines.
    To(OwnStock),
    /// One back.
    Undo,
    /// One forward.
    Redo,
}

/// With which shop to begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum FirstShop {
    /// The demo shop.
    Sample,
    /// One without orders.
    Empty,
}

/// What is asked of a shop that begins.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct FirstDetails {
    pub(crate) name: String,
    pub(crate) phone: String,
    /// None until one is chosen.
    pub(crate) currency: Option<Currency>,
}

impl Action {
    /// An edit of the active piece, one step.
    pub(crate) fn edit(edit: Edit) -> Self {
        Self::Order(Command::Edit(edit))
    }

    /// A change of the order, one step.
    pub(crate) fn change(change: Change) -> Self {
        Self::Order(Command::Change(change))
    }

    /// A remedy of the once-over, one step.
    pub(crate) fn fix(remedy: Remedy) -> Self {
        Self::Order(Command::Fix(remedy))
    }

    /// Whether the person has gone on to something else, so that what was said steps aside.
    pub(crate) fn dismisses_notice(&self) -> bool {
        match self {
            Self::Order(command) => !matches!(command, Command::Preview(_) | Command::Revert | Command::EndRun),
            // The board goes by itself when somebody types.
            Self::Taps(key) => *key != TapKey::Away,
            Self::Write(field, _) => *field != Field::WristSize,
            Self::WristSize(_)
            | Self::Pick(_)
            | Self::PickIn(..)
            | Self::OrderAndSay(..)
            | Self::DragFromTray(_)
            | Self::DropFromTray(Some(_))
            | Self::Colour(_)
            | Self::Layouts(_)
            | Self::AddBoutonniere
            | Self::AddExtra
            | Self::AddPayment { .. }
            | Self::MakeQuote
            | Self::Agree
            | Self::Begin(_)
            | Self::Undo
            | Self::Redo
            | Self::SwitchView => true,
            Self::Sheet(input) => matches!(input, SheetInput::PutDown(_) | SheetInput::PutDownHere),
            _ => false,
        }
    }
}
