//! What every part of the window reads while it paints, and what a page may reach between two paintings.

use egui::Context as EguiContext;

use crate::app::action::{Action, Notice};
use crate::app::page_list::PageId;
use crate::app::picture::images::Images;
use crate::app::typing::typed::Typing;
use crate::app::view::{ClientView, ShopView, Tone};
use crate::app::view_options::{ClientWindowState, ViewOptions};
use crate::app::widgets::theme::{Colours, Light};
use crate::book::{Day, Written};
use crate::session::Session;
use crate::store::Shop;

/// What may be read while painting: made once a frame, and nothing of it changes meanwhile.
#[derive(Clone, Copy)]
pub(crate) struct Context<'a> {
    pub(crate) client: &'a ClientView,
    /// None in the client view.
    pub(crate) shop: Option<&'a ShopView>,
    pub(crate) colours: Colours,
    pub(crate) light: Light,
    pub(crate) options: &'a ViewOptions,
    pub(crate) typing: &'a Typing,
    pub(crate) notice: Option<&'a Notice>,
    pub(crate) images: &'a Images,
    pub(crate) page: PageId,
    /// Whether the page has just been opened, so that the keyboard goes to its head.
    pub(crate) page_opened: bool,
    pub(crate) today: Option<Day>,
    /// How the shop writes days and hours.
    pub(crate) written: Written,
    /// Whether there is a step to undo and one to redo where the person is.
    pub(crate) can_undo: [bool; 2],
    /// How many suggestions wait on the page of the order.
    pub(crate) n_suggestions: usize,
    pub(crate) client_window: ClientWindowState,
}

impl Context<'_> {
    /// Whether this is the client view.
    pub(crate) fn is_client(&self) -> bool {
        self.shop.is_none()
    }

    /// Arm and cloth as they are shown.
    pub(crate) fn tone(&self) -> Tone {
        self.client.tone()
    }
}

/// What a page may read and reach between two paintings.
pub(crate) struct Inputs<'a> {
    pub(crate) ctx: &'a EguiContext,
    pub(crate) session: &'a mut Session,
    pub(crate) shop: &'a mut Shop,
    pub(crate) client_view: bool,
    /// Whether somebody writes in a field.
    pub(crate) is_typing: bool,
}

/// What a page asks for in a frame: things that the window does, and its own.
#[derive(Debug)]
pub(crate) struct Requests<A> {
    pub(crate) shared: Vec<Action>,
    pub(crate) own: Vec<A>,
}

impl<A> Requests<A> {
    pub(crate) fn new() -> Self {
        Self { shared: Vec::new(), own: Vec::new() }
    }
}
