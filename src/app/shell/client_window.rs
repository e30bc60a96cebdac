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

use crate::app::parts::price_shown::PriceShown;
use crate::app::picture::canvas::{Canvas, PictureSubject};
use crate::app::picture::pencil::area_of;
use crate::app::view::{ClientView, Tone};
use crate::app::view_options::ClientWindowState;
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{Colours, GRID, Light, colour_of, title, words};
use crate::colour::Rgb;
use crate::history::Revision;
use crate::scene::Skin;
use crate::session::ActivePiece;
use crate::sheet::{LIFE_SIZE, View};

/// The second window as the first one knows it.
pub(crate) struct ClientWindow {
    pub(crate) state: ClientWindowState,
    shared: Arc<Mutex<SharedPage>>,
    /// Where it stood last time.
    place: Option<Rect>,
    /// Of what the present page was made.
    made_of: Option<PageKey>,
}

/// What its page is made of: another seed is another page.
#[derive(Clone, Copy, Debug, PartialEq)]
struct PageKey {
    state: ClientWindowState,
    revision: Revision,
    active: ActivePiece,
    skin: Skin,
    dress: Option<Rgb>,
    light: Light,
}

/// What both windows see.
struct SharedPage {
    shop: String,
    colours: Colours,
    page: Option<ShownPiece>,
    canvas: Canvas,
    closed: bool,
    place: Option<Rect>,
}

/// What is shown: the client's view, as it was when everything had settled.
struct ShownPiece {
    client: Arc<ClientView>,
    tone: Tone,
    price: PriceShown,
}

/// Its size when it is opened for the first time, points.
const SIZE: Vec2 = vec2(1024.0, 720.0);
/// Width of its words, points.
const WORDS: f32 = 330.0;
/// Said when there can be no second window.
pub(crate) const NONE_HERE: &str = "No second window is possible here. Client view (F2) shows the same.";

impl ClientWindow {
    /// As it was left: open again, but paused, since nobody has said whose piece may be seen.
    pub(crate) fn restored(setting: impl Fn(&str) -> Option<String>) -> Self {
        let open = setting("second").is_some_and(|word| word == "open");
        let shared = SharedPage {
            shop: String::new(),
            colours: Colours::of(Light::Day),
            page: None,
            canvas: Canvas::patient(),
            closed: false,
            place: None,
        };
        Self {
            state: if open { ClientWindowState::Paused } else { ClientWindowState::Closed },
            shared: Arc::new(Mutex::new(shared)),
            place: setting("second_place").and_then(|text| place_of(&text)),
            made_of: None,
        }
    }

    /// Writes what is to be remembered of it.
    pub(crate) fn store(&self, storage: &mut dyn eframe::Storage) {
        let is_closed = self.state == ClientWindowState::Closed;
        storage.set_string("second", if is_closed { "shut" } else { "open" }.to_owned());
        if let Some(place) = self.lock().place.filter(|_| !is_closed) {
            storage.set_string("second_place", place_text(place));
        }
    }

    /// Another order is open.
    pub(crate) fn pause(&mut self) {
        if self.state == ClientWindowState::Showing {
            self.state = ClientWindowState::Paused;
        }
    }

    /// Opens it, lets it show the piece, or closes it: whatever comes next. `false` where there can be none.
    pub(crate) fn switch(&mut self, ctx: &Context) -> bool {
        if ctx.embed_viewports() {
            self.state = ClientWindowState::Closed;
            return false;
        }
        self.state = match self.state {
            // Whose side this window shows is for a person alone to say: there may be one screen for both.
            ClientWindowState::Closed | ClientWindowState::Paused => ClientWindowState::Showing,
            ClientWindowState::Showing => {
                self.place = None;
                ClientWindowState::Closed
            }
        };
        true
    }

    /// After each frame: what it shows is brought up to date; `client` is none while something is dragged.
    pub(crate) fn sync(&mut self, ctx: &Context, shop: &str, light: Light, client: Option<&Arc<ClientView>>) {
        if self.state == ClientWindowState::Closed || ctx.embed_viewports() {
            self.state = ClientWindowState::Closed;
            return;
        }
        if std::mem::take(&mut self.lock().closed) {
            self.state = ClientWindowState::Closed;
            self.place = None;
            self.made_of = None;
            return;
        }
        if let Some(client) = client {
            self.renew(ctx, shop, light, client);
        }
        let mut builder = ViewportBuilder::default()
            .with_title(format!("{shop} \u{2013} your piece"))
            .with_app_id(crate::app::opening::APP_ID)
            .with_inner_size(self.place.map_or(SIZE, |p| p.size()))
            .with_min_inner_size([420.0, 360.0]);
        if let Some(place) = self.place {
            builder = builder.with_position(place.min);
        }
        let shared = Arc::clone(&self.shared);
        ctx.show_viewport_deferred(viewport(), builder, move |ui, _class| {
            window_ui(ui, &mut shared.lock().unwrap_or_else(PoisonError::into_inner));
        });
    }

    fn renew(&mut self, ctx: &Context, shop: &str, light: Light, client: &Arc<ClientView>) {
        let tone = client.tone();
        let (state, revision) = (self.state, client.revision);
        let key = PageKey { state, revision, active: client.active, skin: tone.skin, dress: tone.dress, light };
        if self.made_of == Some(key) {
            return;
        }
        let page = (state == ClientWindowState::Showing).then(|| ShownPiece {
            client: Arc::clone(client),
            tone,
            price: PriceShown::of(client),
        });
        let mut shared = self.lock();
        if page.is_none() {
            shared.canvas.clear();
        }
        shared.page = page;
        shared.colours = Colours::of(light);
        shop.clone_into(&mut shared.shop);
        drop(shared);
        self.made_of = Some(key);
        ctx.request_repaint_of(viewport());
    }

    /// A thread that ended in the middle leaves a page that is painted anew.
    fn lock(&self) -> MutexGuard<'_, SharedPage> {
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

fn window_ui(ui: &mut Ui, shared: &mut SharedPage) {
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
            turned |= icon_button(ui, &c, Icon::Whole, "Full screen (F11)", true).clicked();
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
fn page_ui(ui: &mut Ui, c: &Colours, page: &ShownPiece, canvas: &mut Canvas, all: Rect) {
    let beside = all.width() > 2.4 * WORDS;
    let (picture, words_area) = if beside {
        let edge = all.max.x - WORDS;
        (Rect::from_min_max(all.min, pos2(edge, all.max.y)), Rect::from_min_max(pos2(edge, all.min.y), all.max))
    } else {
        let edge = all.min.y + 0.56 * all.height();
        (Rect::from_min_max(all.min, pos2(all.max.x, edge)), Rect::from_min_max(pos2(all.min.x, edge), all.max))
    };
    picture_ui(ui, page, canvas, picture.round());
    let words_area = words_area.shrink2(vec2(3.0 * GRID, 2.0 * GRID));
    let builder = UiBuilder::new().id_salt("told").max_rect(words_area).layout(Layout::top_down(Align::Min));
    ui.scope_builder(builder, |ui| {
        ui.spacing_mut().item_spacing.y = GRID;
        ui.label(RichText::new(&page.price.name).font(title(32.0)).color(c.ink));
        for line in &page.price.lines {
            ui.label(RichText::new(line).font(words(18.0)).color(c.soft));
        }
        ui.label(RichText::new(&page.price.total).font(title(50.0)).color(c.ink));
        for line in &page.client.contents {
            ui.label(RichText::new(line).font(words(20.0)).color(c.ink));
        }
        ui.add_space(GRID);
        let screen = "Colours on a screen are a guide; hold the real ribbon against the dress.";
        ui.label(RichText::new(screen).font(words(15.0)).color(c.soft));
    });
}

fn picture_ui(ui: &mut Ui, page: &ShownPiece, canvas: &mut Canvas, rect: Rect) {
    let seen = ui.allocate_rect(rect, Sense::hover());
    seen.widget_info(|| WidgetInfo::labeled(Role::Image, true, "Your piece"));
    let painter = ui.painter_at(rect);
    if let Some(rgb) = page.tone.dress {
        painter.rect_filled(rect, 0.0, colour_of(rgb));
    }
    let mut view = View { area: area_of(rect), ..View::new() };
    let client = &page.client;
    view.fit(client.frame_to_fit(client.piece()), LIFE_SIZE * 3.0);
    let Tone { skin, dress } = page.tone;
    let subject = PictureSubject { revision: client.revision, lifted: Vec::new(), skin, dress, eyes: None };
    canvas.paint(&painter, subject, view, kurbo::Vec2::ZERO, || {
        client.scene(client.piece().clone(), page.tone, view.seen_and_more())
    });
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
