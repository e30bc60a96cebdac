//! The second window: the client's side on another screen, while this one stays on my side.
//!
//! It shows what stands in front once it has settled: the piece, large, what is in it, and the price. It has no switch: it is
//! always the client's. When another order is taken up it rests, so that no one is shown somebody else's piece; it shows that
//! one when it is told to. It can be closed at any time, by its own frame too.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use egui::{
    Align, Align2, CentralPanel, Context, Frame, Id, Key, Layout, Modifiers, Rect, RichText, Role, Sense, Ui,
    UiBuilder, Vec2, ViewportBuilder, ViewportCommand, ViewportId, WidgetInfo, pos2, vec2,
};

use crate::app::sheet::canvas::{Canvas, Subject};
use crate::app::sheet::overlay::area_of;
use crate::app::sheet::wrist_sheet::{Tone, frame_to_fit, scene_of};
use crate::app::shell::side_panel::{WhatItCosts, client_lines};
use crate::app::shell::window::Window;
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{Colours, GRID, Light, colour_of, title, words};
use crate::book::Order;
use crate::colour::Rgb;
use crate::history::Revision;
use crate::piece::Piece;
use crate::scene::Skin;
use crate::session::Front;
use crate::sheet::{LIFE_SIZE, View};
use crate::stock::Stock;

/// How the second window stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Stand {
    /// It is not there.
    #[default]
    Shut,
    /// It shows the shop's name alone.
    Rests,
    /// It shows the piece.
    Shows,
}

/// The second window as the first one knows it.
pub(crate) struct Second {
    pub(crate) stand: Stand,
    shared: Arc<Mutex<Shared>>,
    /// Where it stood last time.
    place: Option<Rect>,
    /// Of what the present page was made.
    made_of: Option<Seed>,
}

/// What its page is made of: another seed is another page.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Seed {
    stand: Stand,
    revision: Revision,
    front: Front,
    skin: Skin,
    dress: Option<Rgb>,
    light: Light,
}

/// What both windows see.
struct Shared {
    shop: String,
    colours: Colours,
    page: Option<Page>,
    canvas: Canvas,
    closed: bool,
    place: Option<Rect>,
}

/// What is shown: all in words that are the client's to read.
struct Page {
    order: Arc<Order>,
    piece: Piece,
    stock: Arc<Stock>,
    revision: Revision,
    tone: Tone,
    told: WhatItCosts,
    lines: Vec<String>,
}

/// Its size when it is opened for the first time, points.
const SIZE: Vec2 = vec2(1024.0, 720.0);
/// Width of its words, points.
const WORDS: f32 = 330.0;
/// Said when there can be no second window.
pub(crate) const NONE_HERE: &str = "A second window cannot be opened on this computer. \
Client\u{2019}s side (F2) shows the same in this one.";

impl Second {
    /// As it was kept: open again, but resting, since nobody has said whose piece may be seen.
    pub(crate) fn kept(kept: impl Fn(&str) -> Option<String>) -> Self {
        let open = kept("second").is_some_and(|word| word == "open");
        let shared = Shared {
            shop: String::new(),
            colours: Colours::of(Light::Day),
            page: None,
            canvas: Canvas::patient(),
            closed: false,
            place: None,
        };
        Self {
            stand: if open { Stand::Rests } else { Stand::Shut },
            shared: Arc::new(Mutex::new(shared)),
            place: kept("second_place").and_then(|text| place_of(&text)),
            made_of: None,
        }
    }

    /// What is to be kept of it.
    pub(crate) fn keep(&self, storage: &mut dyn eframe::Storage) {
        storage.set_string("second", if self.stand == Stand::Shut { "shut" } else { "open" }.to_owned());
        if let Some(place) = self.lock().place.filter(|_| self.stand != Stand::Shut) {
            storage.set_string("second_place", place_text(place));
        }
    }

    /// Another order is in front.
    pub(crate) fn rest(&mut self) {
        if self.stand == Stand::Shows {
            self.stand = Stand::Rests;
        }
    }

    /// A thread that ended in the middle leaves a page that is painted anew.
    fn lock(&self) -> MutexGuard<'_, Shared> {
        self.shared.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// `-1280 0 1280 720`: left, top, width and height, points.
fn place_text(place: Rect) -> String {
    format!("{} {} {} {}", place.min.x, place.min.y, place.width(), place.height())
}

/// A place that a window can have; nothing else is believed.
fn place_of(text: &str) -> Option<Rect> {
    let figures: Vec<f32> = text.split_whitespace().map(str::parse).collect::<Result<_, _>>().ok()?;
    let [x, y, width, height] = figures[..] else { return None };
    let sound =
        [x, y].iter().all(|at| at.abs() < 20_000.0) && [width, height].iter().all(|s| (200.0..9000.0).contains(s));
    sound.then(|| Rect::from_min_size(pos2(x, y), vec2(width, height)))
}

pub(crate) fn viewport() -> ViewportId {
    ViewportId(Id::unique("second window"))
}

impl Window {
    /// Opens it, lets it show the piece, or shuts it: whatever comes next.
    pub(crate) fn turn_second(&mut self, ctx: &Context) {
        if ctx.embed_viewports() {
            self.second.stand = Stand::Shut;
            self.say(NONE_HERE);
            return;
        }
        self.second.stand = match self.second.stand {
            // Whose side this window shows is for a person alone to say: there may be one screen for both.
            Stand::Shut | Stand::Rests => Stand::Shows,
            Stand::Shows => {
                self.second.place = None;
                Stand::Shut
            }
        };
    }

    /// After each frame: what it shows is brought up to date. While something is dragged it waits.
    pub(crate) fn show_second(&mut self, ctx: &Context) {
        if self.second.stand == Stand::Shut || ctx.embed_viewports() {
            self.second.stand = Stand::Shut;
            return;
        }
        if std::mem::take(&mut self.second.lock().closed) {
            self.second.stand = Stand::Shut;
            self.second.place = None;
            self.second.made_of = None;
            return;
        }
        if !self.session.in_gesture() {
            self.renew_second(ctx);
        }
        let place = self.second.place;
        let mut builder = ViewportBuilder::default()
            .with_title(format!("{} \u{2013} your piece", self.shop.name()))
            .with_app_id(crate::app::APP_ID)
            .with_inner_size(place.map_or(SIZE, |p| p.size()))
            .with_min_inner_size([420.0, 360.0]);
        if let Some(place) = place {
            builder = builder.with_position(place.min);
        }
        let shared = Arc::clone(&self.second.shared);
        ctx.show_viewport_deferred(viewport(), builder, move |ui, _class| {
            second_ui(ui, &mut shared.lock().unwrap_or_else(PoisonError::into_inner));
        });
    }

    fn renew_second(&mut self, ctx: &Context) {
        let order = Arc::clone(self.session.order());
        let tone = Tone { skin: self.looks.skin, dress: order.taste.dress.hex };
        let revision = self.session.revision();
        let stand = self.second.stand;
        let seed = Seed {
            stand,
            revision,
            front: self.session.front(),
            skin: tone.skin,
            dress: tone.dress,
            light: self.light,
        };
        if self.second.made_of == Some(seed) {
            return;
        }
        let page = (stand == Stand::Shows).then(|| {
            let (derived, quote) = (self.session.derived(), self.session.quote());
            let piece = self.session.piece().clone();
            Page {
                told: WhatItCosts::of(&quote, self.session.front()),
                lines: client_lines(&piece, &derived),
                piece,
                stock: Arc::clone(self.session.stock()),
                order,
                revision,
                tone,
            }
        });
        let mut shared = self.second.lock();
        if page.is_none() {
            shared.canvas.clear();
        }
        shared.page = page;
        shared.colours = Colours::of(self.light);
        self.shop.name().clone_into(&mut shared.shop);
        drop(shared);
        self.second.made_of = Some(seed);
        ctx.request_repaint_of(viewport());
    }
}

fn second_ui(ui: &mut Ui, shared: &mut Shared) {
    let ctx = ui.ctx().clone();
    let (closing, full, outer, inner) = ctx.input(|i| {
        let window = i.viewport();
        (window.close_requested(), window.fullscreen.unwrap_or(false), window.outer_rect, window.inner_rect)
    });
    if closing {
        shared.closed = true;
        ctx.request_repaint_of(ViewportId::ROOT);
    }
    if let (Some(outer), Some(inner), false) = (outer, inner, full) {
        shared.place = Some(Rect::from_min_size(outer.min, inner.size()));
    }
    let wants_full = ui.input_mut(|i| i.consume_key(Modifiers::NONE, Key::F11));
    let leaves_full = full && ui.input_mut(|i| i.consume_key(Modifiers::NONE, Key::Escape));
    let c = shared.colours;
    let mut turned = wants_full || leaves_full;
    CentralPanel::no_frame().frame(Frame::new().fill(c.paper)).show(ui, |ui| {
        let all = ui.available_rect_before_wrap();
        match &shared.page {
            None => rest_ui(ui, &c, &shared.shop, all),
            Some(page) => page_ui(ui, &c, page, &mut shared.canvas, all),
        }
        let corner = Rect::from_min_size(all.max - vec2(54.0, 54.0), vec2(48.0, 48.0));
        ui.scope_builder(UiBuilder::new().id_salt("full").max_rect(corner), |ui| {
            turned |= icon_button(ui, &c, Icon::Whole, "Fill this screen, or not (F11)", true).clicked();
        });
    });
    if turned {
        ctx.send_viewport_cmd(ViewportCommand::Fullscreen(!full));
    }
}

/// The shop's name alone.
fn rest_ui(ui: &mut Ui, c: &Colours, shop: &str, all: Rect) {
    let name = ui.allocate_rect(all, Sense::hover());
    name.widget_info(|| WidgetInfo::labeled(Role::Label, true, shop));
    let size = (all.width() / 14.0).clamp(24.0, 72.0);
    ui.painter().text(all.center(), Align2::CENTER_CENTER, shop, title(size), c.ink);
}

/// The piece on the cloth of the dress; beside it, or below where the window is narrow, what is in it and what it costs her.
fn page_ui(ui: &mut Ui, c: &Colours, page: &Page, canvas: &mut Canvas, all: Rect) {
    let beside = all.width() > 2.4 * WORDS;
    let (picture, told) = if beside {
        let edge = all.max.x - WORDS;
        (Rect::from_min_max(all.min, pos2(edge, all.max.y)), Rect::from_min_max(pos2(edge, all.min.y), all.max))
    } else {
        let edge = all.min.y + 0.56 * all.height();
        (Rect::from_min_max(all.min, pos2(all.max.x, edge)), Rect::from_min_max(pos2(all.min.x, edge), all.max))
    };
    picture_ui(ui, page, canvas, picture.round());
    let told = told.shrink2(vec2(3.0 * GRID, 2.0 * GRID));
    let builder = UiBuilder::new().id_salt("told").max_rect(told).layout(Layout::top_down(Align::Min));
    ui.scope_builder(builder, |ui| {
        ui.spacing_mut().item_spacing.y = GRID;
        ui.label(RichText::new(&page.told.name).font(title(32.0)).color(c.ink));
        for line in &page.told.lines {
            ui.label(RichText::new(line).font(words(18.0)).color(c.soft));
        }
        ui.label(RichText::new(&page.told.total).font(title(50.0)).color(c.ink));
        for line in &page.lines {
            ui.label(RichText::new(line).font(words(20.0)).color(c.ink));
        }
        ui.add_space(GRID);
        let screen = "Colours on a screen are a guide; hold the real ribbon to the dress.";
        ui.label(RichText::new(screen).font(words(15.0)).color(c.soft));
    });
}

fn picture_ui(ui: &mut Ui, page: &Page, canvas: &mut Canvas, rect: Rect) {
    let seen = ui.allocate_rect(rect, Sense::hover());
    seen.widget_info(|| WidgetInfo::labeled(Role::Image, true, "Your piece"));
    let painter = ui.painter_at(rect);
    if let Some(rgb) = page.tone.dress {
        painter.rect_filled(rect, 0.0, colour_of(rgb));
    }
    let mut view = View { area: area_of(rect), ..View::new() };
    view.fit(frame_to_fit(&page.piece, &page.stock), LIFE_SIZE * 3.0);
    let Tone { skin, dress } = page.tone;
    let subject = Subject { revision: page.revision, lifted: Vec::new(), skin, dress, eyes: None };
    canvas.paint(&painter, subject, view, kurbo::Vec2::ZERO, || {
        scene_of(page.piece.clone(), &page.order, Arc::clone(&page.stock), page.tone, &view)
    });
}

/// The button on the rail, and under it how the second window stands.
pub(crate) fn rail_button_ui(ui: &mut Ui, w: &Window) -> bool {
    let c = w.colours();
    let (name, stands) = match w.second.stand {
        Stand::Shut => ("A second window for the client (F4)", ""),
        Stand::Rests => ("Show this piece in the second window (F4)", "rests"),
        Stand::Shows => ("Shut the second window (F4)", "2nd is on"),
    };
    if !stands.is_empty() {
        ui.label(RichText::new(stands).font(words(14.0)).color(c.ink));
    }
    icon_button(ui, &c, Icon::Screen, name, true).clicked()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_kept_and_read_and_nonsense_is_not_believed() {
        let place = Rect::from_min_size(pos2(-1280.0, 24.5), vec2(1280.0, 700.0));
        assert_eq!(place_of(&place_text(place)), Some(place));
        for text in ["", "1 2 3", "a b c d", "0 0 NaN 700", "0 0 10 700", "99999 0 800 700", "0 0 1280 inf"] {
            assert_eq!(place_of(text), None, "{text}");
        }
    }
}
