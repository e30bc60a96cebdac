//! The pages that can take the middle of the window. Each is a folder: it owns what is open or typed on it, reads the
//! [`Context`] while it paints, and asks for what is to be done. A new page is such a folder and one line in
//! [`crate::app::page_list`].

pub(crate) mod colour;
pub(crate) mod order;
pub(crate) mod orders;
pub(crate) mod papers;
pub(crate) mod photograph;
pub(crate) mod price;
pub(crate) mod shop;
pub(crate) mod sizes;
pub(crate) mod stock;
pub(crate) mod style;
pub(crate) mod variations;
pub(crate) mod weekend;

use egui::{Key, Ui};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::page_list::{PageId, page_list};
use crate::app::widgets::icons::Icon;

/// How a page is reached.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PageInfo {
    /// What it is called on the rail, and its drawing there; none for a page that is reached from elsewhere.
    pub(crate) on_rail: Option<(&'static str, Icon)>,
    /// The key that opens it, and closes it again.
    pub(crate) key: Key,
    /// Whether it is for the designer alone.
    pub(crate) is_for_shop: bool,
}

/// What a page is.
pub(crate) trait Page: Default {
    /// What can be asked of it.
    type Action;

    /// How it is reached.
    const INFO: PageInfo;

    /// Whether it takes the room of the side too.
    const IS_WIDE: bool = false;

    /// Before it is painted: what it shows is brought up to date.
    fn prepare(&mut self, _inputs: &mut Inputs<'_>) {}

    /// Paints it; nothing changes meanwhile.
    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<Self::Action>);

    /// Reads its own keys, after it was painted.
    fn read_keys(&self, _ui: &Ui, _cx: &Context<'_>, _requests: &mut Requests<Self::Action>) {}

    /// After painting: does what was asked of it; returns what the window is to do.
    fn run(&mut self, action: Self::Action, inputs: &mut Inputs<'_>) -> Vec<Action>;

    /// Whether an action leaves what was said on the screen.
    fn keeps_notice(_action: &Self::Action) -> bool {
        false
    }

    /// Whether an action comes of a field that is left by pressing something else: it may move what is pressed, and waits for the release.
    fn waits_for_release(_action: &Self::Action) -> bool {
        false
    }

    /// The keys on the screen have left the field that it keeps itself; returns what the window is to do.
    fn leave_field(&mut self, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        Vec::new()
    }

    /// It has been opened.
    fn opened(&mut self, _inputs: &mut Inputs<'_>) {}

    /// Whether there is a step to undo and one to redo on this page; none for a page whose steps are those of the order.
    fn undo_state(&self) -> Option<[bool; 2]> {
        None
    }

    /// One step back on this page, or forward; returns what the window is to do.
    fn undo(&mut self, _back: bool, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        Vec::new()
    }

    /// The shop's rules have changed: what was worked out by the old ones is worked out anew.
    fn rules_changed(&mut self) {}
}

macro_rules! pages {
    ($($name:ident: $folder:ident::$kind:ident,)*) => {
        /// Every page, with what is open on it.
        #[derive(Default)]
        #[expect(non_snake_case, reason = "the list names each page once")]
        pub(crate) struct Pages {
            $(pub(crate) $name: $folder::$kind,)*
        }

        /// Something asked of one of the pages.
        pub(crate) enum PageAction {
            $($name(<$folder::$kind as Page>::Action),)*
        }

        impl PageAction {
            /// Whether it leaves what was said on the screen.
            pub(crate) fn keeps_notice(&self) -> bool {
                match self {
                    $(Self::$name(action) => <$folder::$kind as Page>::keeps_notice(action),)*
                }
            }

            /// Whether it may move what is pressed, and waits for the release.
            pub(crate) fn waits_for_release(&self) -> bool {
                match self {
                    $(Self::$name(action) => <$folder::$kind as Page>::waits_for_release(action),)*
                }
            }
        }

        impl Pages {
            /// The pages of the list.
            pub(crate) const ALL: &[PageId] = &[$(PageId::$name,)*];

            /// How a page is reached; none for the wrist sheet.
            pub(crate) fn info(id: PageId) -> Option<PageInfo> {
                match id {
                    PageId::Sheet => None,
                    $(PageId::$name => Some(<$folder::$kind as Page>::INFO),)*
                }
            }

            /// Whether a page takes the room of the side too.
            pub(crate) fn is_wide(id: PageId) -> bool {
                match id {
                    PageId::Sheet => false,
                    $(PageId::$name => <$folder::$kind as Page>::IS_WIDE,)*
                }
            }

            /// Before the page is painted: what it shows is brought up to date.
            pub(crate) fn prepare(&mut self, id: PageId, inputs: &mut Inputs<'_>) {
                match id {
                    PageId::Sheet => {}
                    $(PageId::$name => self.$name.prepare(inputs),)*
                }
            }

            /// Paints a page; returns what it asks for.
            pub(crate) fn ui(&self, id: PageId, ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) -> Vec<PageAction> {
                self.ask(id, actions, |page| match page {
                    $(PageRef::$name(page, requests) => page.ui(ui, cx, requests),)*
                })
            }

            /// Reads the keys of a page; returns what it asks for.
            pub(crate) fn read_keys(&self, id: PageId, ui: &Ui, cx: &Context<'_>, actions: &mut Vec<Action>) -> Vec<PageAction> {
                self.ask(id, actions, |page| match page {
                    $(PageRef::$name(page, requests) => page.read_keys(ui, cx, requests),)*
                })
            }

            fn ask(&self, id: PageId, actions: &mut Vec<Action>, ask: impl FnOnce(PageRef<'_>)) -> Vec<PageAction> {
                match id {
                    PageId::Sheet => Vec::new(),
                    $(PageId::$name => {
                        let mut requests = Requests::new();
                        ask(PageRef::$name(&self.$name, &mut requests));
                        actions.append(&mut requests.shared);
                        requests.own.into_iter().map(PageAction::$name).collect()
                    })*
                }
            }

            /// Does what was asked of a page; returns what the window is to do.
            pub(crate) fn run(&mut self, action: PageAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
                match action {
                    $(PageAction::$name(action) => self.$name.run(action, inputs),)*
                }
            }

            /// Whether there is a step to undo and one to redo on a page with steps of its own.
            pub(crate) fn undo_state(&self, id: PageId) -> Option<[bool; 2]> {
                match id {
                    PageId::Sheet => None,
                    $(PageId::$name => self.$name.undo_state(),)*
                }
            }

            /// One step back on a page with steps of its own, or forward.
            pub(crate) fn undo(&mut self, id: PageId, back: bool, inputs: &mut Inputs<'_>) -> Vec<Action> {
                match id {
                    PageId::Sheet => Vec::new(),
                    $(PageId::$name => self.$name.undo(back, inputs),)*
                }
            }

            /// The keys on the screen have left a field that the page keeps itself.
            pub(crate) fn leave_field(&mut self, id: PageId, inputs: &mut Inputs<'_>) -> Vec<Action> {
                match id {
                    PageId::Sheet => Vec::new(),
                    $(PageId::$name => self.$name.leave_field(inputs),)*
                }
            }

            /// A page has been opened.
            pub(crate) fn opened(&mut self, id: PageId, inputs: &mut Inputs<'_>) {
                match id {
                    PageId::Sheet => {}
                    $(PageId::$name => self.$name.opened(inputs),)*
                }
            }

            /// The shop's rules have changed.
            pub(crate) fn rules_changed(&mut self) {
                $(self.$name.rules_changed();)*
            }
        }

        /// A page and where its requests go.
        enum PageRef<'a> {
            $($name(&'a $folder::$kind, &'a mut Requests<<$folder::$kind as Page>::Action>),)*
        }
    };
}
page_list!(pages);
