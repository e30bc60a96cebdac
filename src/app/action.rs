//! What a person did in a frame. Collected while painting, done afterwards by [`crate::app::shell::window::Window`].

use std::path::PathBuf;
use std::sync::Arc;

use crate::book::Change;
use crate::command::Command;
use crate::once_over::Remedy;
use crate::piece::{Edit, Side};
use crate::stock::{Role, StockId};

/// One thing done.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Action {
    /// Change the order, or take a change back.
    Order(Command),
    /// Who wears it, as it is being typed.
    Wearer(String),
    /// What was written in a blank of the order's first page, as it is being typed.
    Write(crate::app::pages::order_fields::Blank, String),
    /// Something asked of the page Colour.
    Colours(crate::app::pages::colour::Wish),
    /// Show a size among those side by side, or no longer.
    Compare(String),
    /// The wearer's piece or the boutonniere that goes with it: put it on the sheet.
    OnSheet(crate::session::Front),
    /// Something asked of the page on which the piece is made another way.
    Ways(crate::app::pages::variants::Wish),
    /// Something asked of the price page.
    Price(crate::app::pages::price::Wish),
    /// Something asked of the tap board.
    Taps(crate::app::widgets::tap_board::Wish),
    /// A proposal was left for now.
    NotNow(String),
    /// Another page in the middle of the window.
    Turn(crate::app::pages::page::Page),
    /// A field was left: what was written in it stands for itself.
    LeaveBlank,
    /// Give a field of the strip the keyboard.
    Type(crate::app::shell::top_bar::Field),
    /// The girth as typed.
    Girth(String),
    /// The other wrist.
    Side(Side),
    /// Look at another tray.
    Tray(Role),
    /// Take one from a tray into the hand.
    Pick(StockId),
    /// Another colour for what is in the hand or selected.
    Colour(Arc<str>),
    /// Put what is in the hand down where it hovers.
    PutDown,
    /// Lift what is selected.
    Lift,
    /// Esc.
    Cancel,
    /// A finding was tapped.
    Point(Option<crate::piece::Question>),
    /// The client asked what could be added, or has seen it.
    AskForMore,
    /// Show or fold away what is well.
    ShowWell,
    /// One step back.
    Undo,
    /// One step forward.
    Redo,
    /// Keep the order.
    Keep,
    /// Keep the order as a copy, where its own file cannot be written.
    KeepCopy,
    /// Keep the picture.
    KeepPicture,
    /// Make all papers of the order in front.
    MakePapers,
    /// A new order; asks first when this one is not kept.
    New,
    /// Show the orders.
    ShowOrders,
    /// Show what the order in front and others come to when they are bought together.
    ShowTogether,
    /// Join an order to those, or leave it out again.
    Join(PathBuf),
    /// Show the orders that wait for an answer, or all.
    Ring(bool),
    /// Ask for a file.
    AskForFile,
    /// Open an order; asks first when this one is not kept.
    Open(PathBuf),
    /// Show the help.
    ShowHelp,
    /// Close what is open over the sheet.
    CloseDialog,
    /// Client's side or my side.
    TurnScreen,
    /// Open the second window, let it show this piece, or shut it.
    TurnSecond,
    /// Open or close the fold with the looks of the sheet.
    ShowLooks,
    /// Another tone of the arm.
    Skin(crate::scene::Skin),
    /// What stands beside the piece for its size.
    Beside(crate::app::shell::view_options::Beside),
    /// Tell lengths in this unit, or as they were typed.
    Lengths(Option<crate::units::LengthUnit>),
    /// Whether the cloth of the dress lies under the piece.
    Cloth(bool),
    /// The next light.
    Light,
    /// Show the whole piece.
    Whole,
    /// Zoom about the middle.
    Zoom(f64),
    /// Something asked of the layouts that are offered.
    Layouts(crate::app::sheet::layouts::Wish),
    /// Select a part.
    Select(crate::piece::PartId),
    /// Select all parts.
    SelectAll,
    /// The next part, or the one before.
    SelectNext(bool),
    /// Leave what is open without keeping it, and go on.
    LeaveUnkept,
    /// Something done about the house style.
    House(crate::app::pages::style::Wish),
    /// Begin with the sample shop, or with an empty one.
    Begin(crate::app::shell::first_start::Choice),
    /// Ask why a question is to be set aside, or no longer.
    AskWhy(Option<crate::piece::Question>),
    /// Something about the orders that were not kept last time.
    LeftOver(crate::app::shell::recovered::Wish),
    /// Keep, and go on.
    KeepAndGoOn,
    /// Close what was said.
    Heard,
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
    pub(crate) fn goes_on(&self) -> bool {
        match self {
            Self::Order(command) => !matches!(command, Command::Preview(_) | Command::Revert | Command::EndRun),
            // Leaving a field is what brings up why its words could not be taken.
            Self::House(wish) => *wish != crate::app::pages::style::Wish::Leave,
            Self::Wearer(_)
            | Self::Write(..)
            | Self::Girth(_)
            | Self::Side(_)
            | Self::Pick(_)
            | Self::Colour(_)
            | Self::PutDown
            | Self::Layouts(_)
            | Self::Price(_)
            | Self::Taps(_)
            | Self::Ways(_)
            | Self::Begin(_)
            | Self::Undo
            | Self::Redo
            | Self::TurnScreen => true,
            Self::Type(_)
            | Self::ShowTogether
            | Self::Join(_)
            | Self::Lengths(_)
            | Self::Colours(_)
            | Self::TurnSecond
            | Self::Turn(_)
            | Self::OnSheet(_)
            | Self::NotNow(_)
            | Self::Compare(_)
            | Self::LeaveBlank
            | Self::Tray(_)
            | Self::Lift
            | Self::Cancel
            | Self::Point(_)
            | Self::AskForMore
            | Self::AskWhy(_)
            | Self::ShowWell
            | Self::Keep
            | Self::KeepCopy
            | Self::KeepPicture
            | Self::MakePapers
            | Self::New
            | Self::ShowOrders
            | Self::Ring(_)
            | Self::AskForFile
            | Self::Open(_)
            | Self::ShowHelp
            | Self::CloseDialog
            | Self::ShowLooks
            | Self::Skin(_)
            | Self::Beside(_)
            | Self::Cloth(_)
            | Self::Light
            | Self::Whole
            | Self::Zoom(_)
            | Self::Select(_)
            | Self::SelectAll
            | Self::SelectNext(_)
            | Self::LeaveUnkept
            | Self::KeepAndGoOn
            | Self::LeftOver(_)
            | Self::Heard => false,
        }
    }
}
