//! The page Colour: which colour the dress has, by words, by a plain swatch or from a photo; and what goes with it.
//!
//! Nothing here tells a cost, a mark or a supplier, so both sides of the counter see the same page. Figures of difference and
//! sentences that warn are for the designer; the client reads them as invitations.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use egui::{Align2, Key, Modifiers, Rect, RichText, Role, Sense, Stroke, Ui, WidgetInfo, vec2};

use crate::app::action::Action;
use crate::app::pages::colour_rows::{Ranking, rows_ui};
use crate::app::pages::dress_photo::{About, PhotoPlace, photo_ui};
use crate::app::pages::order_fields::Blank;
use crate::app::pages::order_form::blank_ui;
use crate::app::pages::page::{Page, head_ui};
use crate::app::sheet::canvas::{Canvas, Subject};
use crate::app::sheet::colour_vision::{self, seen};
use crate::app::sheet::overlay::area_of;
use crate::app::sheet::wrist_sheet::{Tone, frame_to_fit, scene_of, take_key};
use crate::app::shell::view_options::swatch;
use crate::app::shell::window::{Dialog, Window};
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, ROUND, colour_of, strong, title, words};
use crate::app::workers::photo_worker::PhotoSource;
use crate::book::{Change, DressColour};
use crate::colour::{CAVEAT, ColourWarning, Rgb, Vision, everyday_name, swatch_named, swatches};
use crate::paperwork::{PieceColour, palette_sentence, piece_colours};
use crate::sheet::{LIFE_SIZE, View};

/// What lives as long as an order is open.
pub(crate) struct ColourRoom {
    pub(crate) ranking: Ranking,
    pub(crate) photo: PhotoPlace,
    /// Whether the photo stands where the swatches and the piece would.
    pub(crate) on_photo: bool,
    /// Whether the field for the colour is to get the keyboard.
    type_next: bool,
    preview: Canvas,
}

impl Default for ColourRoom {
    fn default() -> Self {
        Self {
            ranking: Ranking::default(),
            photo: PhotoPlace::default(),
            on_photo: false,
            type_next: false,
            preview: Canvas::patient(),
        }
    }
}

/// Something asked of the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Wish {
    /// Only goods of this kind are listed, or all.
    Kind(Option<&'static str>),
    /// Take this into the hand, in this colour.
    Take(crate::stock::StockId, Arc<str>),
    /// Through which eyes the piece is seen.
    Eyes(Option<Vision>),
    /// Give the field for the colour the keyboard.
    Type,
    /// The photo, or the swatches.
    ShowPhoto(bool),
    /// Ask for the file of a photo.
    AskForPhoto,
    /// Something about the photo.
    Photo(About),
    /// Where the keys point on the photo.
    Point((u32, u32)),
    /// What was read from the photo is the colour of the dress.
    TakeReading,
    /// Tie the bow with this ribbon.
    Tie(crate::stock::StockId, Arc<str>),
}

/// Width of the half that tells the dress, points.
const DRESS_HALF: f32 = 436.0;

pub(crate) fn colour_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    head_ui(ui, w, "Colour", "of the dress, and what goes with it", actions);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0 * GRID;
        ui.vertical(|ui| {
            ui.set_width(DRESS_HALF);
            ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
            dress_ui(ui, w, actions);
        });
        ui.vertical(|ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
            beside_ui(ui, w);
            rows_ui(ui, w, actions);
        });
    });
}

/// Keys of this page alone.
pub(crate) fn read_keys(ui: &Ui, w: &Window, actions: &mut Vec<Action>) {
    for (key, wish) in [(Key::T, Wish::Type), (Key::P, Wish::ShowPhoto(!w.colour_room.on_photo))] {
        if take_key(ui, Modifiers::NONE, key) {
            actions.push(Action::Colours(wish));
        }
    }
}

fn dress_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    named_ui(ui, w, actions);
    let c = w.colours();
    ui.horizontal(|ui| {
        for (label, photo) in [("Swatches", false), ("From a photo", true)] {
            let weight = if w.colour_room.on_photo == photo { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, label, weight).clicked() {
                actions.push(Action::Colours(Wish::ShowPhoto(photo)));
            }
        }
    });
    caveat_ui(ui, w);
    if w.colour_room.on_photo {
        photo_ui(ui, w, actions);
    } else {
        swatches_ui(ui, w, actions);
        preview_ui(ui, w, actions);
    }
}

/// The colour as it stands: seen, named in plain words, and as it is written; with the field to write it in.
fn named_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let dress = w.session.order().taste.dress.clone();
    ui.horizontal(|ui| {
        let (rect, patch) = ui.allocate_exact_size(vec2(92.0, 92.0), Sense::hover());
        let seen =
            dress.hex.map_or("Dress colour not known yet".to_owned(), |rgb| format!("Dress colour, {}", told(rgb)));
        patch.widget_info(|| WidgetInfo::labeled(Role::Image, true, &seen));
        plate(ui.painter(), rect, dress.hex.map_or(c.card, colour_of), Stroke::new(1.0, c.soft));
        if dress.hex.is_none() {
            ui.painter().text(rect.center(), Align2::CENTER_CENTER, "?", title(34.0), c.soft);
        }
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 4.0;
            let (name, figures) = match dress.hex {
                Some(rgb) => (capital(everyday_name(rgb)), rgb.text()),
                None => ("Not known yet".to_owned(), String::new()),
            };
            ui.horizontal(|ui| {
                ui.spacing_mut().interact_size.y = 36.0;
                ui.label(RichText::new(name).font(title(23.0)).color(c.ink));
                ui.label(RichText::new(figures).font(words(16.0)).color(c.soft));
            });
            let width = ui.available_width();
            let field = blank_ui(ui, w, Blank::Dress, width, actions);
            if std::mem::take(&mut w.colour_room.type_next) {
                field.request_focus();
            }
        });
    });
}

/// `dark red #8b1427`.
pub(crate) fn told(rgb: Rgb) -> String {
    format!("{} {}", everyday_name(rgb), rgb.text())
}

/// All plain swatches; the chosen one is taken back by another tap.
fn swatches_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let now = w.session.order().taste.dress.hex;
    for row in swatches().chunks(9) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            for plain in row {
                let chosen = now == Some(plain.rgb);
                if swatch(ui, &c, plain.rgb, plain.name, chosen).clicked() {
                    let dress = DressColour { hex: Some(plain.rgb), words: plain.name.to_owned() };
                    let dress = if chosen { DressColour::default() } else { dress };
                    actions.push(Action::change(Change::Dress(dress)));
                }
            }
        });
    }
}

fn caveat_ui(ui: &mut Ui, w: &Window) {
    ui.label(RichText::new(CAVEAT).font(words(14.0)).color(w.colours().soft));
}

/// The piece before the dress, small; in what is left of the half.
fn preview_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0;
        colour_vision::choices_ui(ui, &c, w.looks.eyes, actions);
    });
    let size = ui.available_size() - vec2(0.0, 2.0);
    if size.y < 80.0 {
        return;
    }
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, "The piece before the dress"));
    let rect = rect.round();
    let painter = ui.painter_at(rect);
    let tone = Tone { skin: w.looks.skin, dress: w.session.order().taste.dress.hex };
    painter.rect_filled(rect, ROUND, tone.dress.map_or(c.card, |rgb| seen(rgb, w.looks.eyes)));
    let (order, stock) = (w.session.order(), w.session.stock());
    let mut view = View { area: area_of(rect), ..View::new() };
    view.fit(frame_to_fit(&order.piece, stock), LIFE_SIZE);
    let eyes = w.looks.eyes;
    let revision = w.session.revision();
    let subject = Subject { revision, lifted: Vec::new(), skin: tone.skin, dress: tone.dress, eyes };
    w.colour_room.preview.paint(&painter, subject, view, kurbo::Vec2::ZERO, || {
        scene_of(order.piece.clone(), order, Arc::clone(stock), tone, &view)
    });
    if let Some(vision) = eyes {
        colour_vision::frame(&painter, rect, &c);
        let says = format!("as {} see it", vision.whose());
        let at = rect.center_bottom() - vec2(0.0, 14.0);
        let ground = Rect::from_center_size(at - vec2(0.0, 8.0), vec2(260.0, 24.0));
        painter.rect_filled(ground, ROUND, c.card);
        painter.text(ground.center(), Align2::CENTER_CENTER, says, strong(14.0), c.rose);
    }
}

/// What the piece in front has of colours, and how they lie to the dress.
fn beside_ui(ui: &mut Ui, w: &Window) {
    let c = w.colours();
    let order = w.session.order();
    let dress = order.taste.dress.hex;
    let colours = piece_colours(&order.piece, w.session.stock(), dress);
    let Some(sentence) = palette_sentence(&colours, dress) else { return };
    ui.label(RichText::new(sentence).font(strong(17.0)).color(c.ink));
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0;
        for colour in &colours {
            let (rect, spot) = ui.allocate_exact_size(vec2(26.0, 26.0), Sense::hover());
            let name = format!("{}, {}", colour.of, colour.name);
            spot.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
            ui.painter().circle(rect.center(), 11.0, colour_of(colour.rgb), Stroke::new(1.0, c.soft));
            spot.on_hover_text(name);
        }
    });
    for says in said_of(&colours, w.client_side) {
        ui.label(RichText::new(says).font(words(15.0)).color(if w.client_side { c.soft } else { c.ink }));
    }
}

/// One line for each thing to look out for, with all the colours that it is said of. The client reads invitations, one of
/// them at most.
pub(crate) fn said_of(colours: &[PieceColour], client_side: bool) -> Vec<String> {
    let mut found: BTreeMap<ColourWarning, Vec<String>> = BTreeMap::new();
    for colour in colours {
        for warning in &colour.warnings {
            let name = format!("{} in {}", crate::app::widgets::naming::in_text(&colour.of), colour.name);
            found.entry(*warning).or_default().push(name);
        }
    }
    if client_side {
        let whole = |w: &ColourWarning| found.get(w).map_or(0, Vec::len) == colours.len();
        let invites = found.keys().filter(|w| whole(w)).find_map(|w| w.invites());
        return invites.into_iter().map(str::to_owned).collect();
    }
    found.into_iter().map(|(warning, names)| format!("{}: {}.", capital(warning.short()), names.join(", "))).collect()
}

pub(crate) fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

impl Window {
    pub(crate) fn do_about_colour(&mut self, ctx: &egui::Context, wish: Wish) {
        match wish {
            Wish::Kind(kind) => self.colour_room.ranking.kind = kind,
            Wish::Take(id, colour) => {
                self.run(ctx, Action::Turn(Page::Sheet));
                self.colours_chosen.insert(id.clone(), colour);
                self.run(ctx, Action::Pick(id));
            }
            Wish::Tie(ribbon, colour) => self.tie(ribbon, colour),
            Wish::Eyes(eyes) => self.looks.eyes = eyes,
            Wish::Type => self.colour_room.type_next = true,
            Wish::ShowPhoto(shown) => self.colour_room.on_photo = shown,
            Wish::AskForPhoto => self.ask_for_photo(ctx),
            Wish::Photo(about) => self.colour_room.photo.run(ctx, about),
            Wish::Point(at) => self.colour_room.photo.point(at),
            Wish::TakeReading => self.take_reading(),
        }
    }

    /// A photo to be read, on the page that reads it.
    pub(crate) fn read_photo(&mut self, ctx: &egui::Context, source: PhotoSource) {
        if self.page != Page::Colour {
            self.run(ctx, Action::Turn(Page::Colour));
        }
        self.said = None;
        self.colour_room.on_photo = true;
        self.colour_room.photo.run(ctx, About::Unpack(source));
    }

    /// What was dropped on the window or pasted: a photo, an order, or a colour in words.
    pub(crate) fn hear_of_gifts(&mut self, ctx: &egui::Context) {
        if self.dialog != Dialog::None {
            return;
        }
        let dropped = ctx.input(|i| i.raw.dropped_files.first().map(|file| file.path().to_owned()));
        let is_order = |path: &Path| path.extension().is_some_and(|e| e.eq_ignore_ascii_case("ron"));
        match dropped {
            // Other orders are not for this client's eyes.
            Some(path) if is_order(&path) && self.client_side => {}
            Some(path) if is_order(&path) => self.run(ctx, Action::Open(path)),
            Some(path) => self.read_photo(ctx, PhotoSource::File(path)),
            None => {}
        }
        let typing = ctx.text_edit_focused();
        let pasted = ctx.input(|i| i.events.iter().find_map(gift_of));
        match pasted {
            Some(Gift::Photo(image)) => self.read_photo(ctx, PhotoSource::Pasted(image)),
            Some(Gift::Words(words)) if self.page == Page::Colour && !typing => self.take_pasted(ctx, &words),
            Some(Gift::Words(_)) | None => {}
        }
    }

    /// Words that were pasted beside any field: a colour, or where a photo lies.
    fn take_pasted(&mut self, ctx: &egui::Context, words: &str) {
        let words = words.trim();
        if let Some(rgb) = Rgb::parse(words) {
            self.change(&Change::Dress(DressColour { hex: Some(rgb), words: String::new() }));
        } else if let Some(plain) = swatch_named(words) {
            self.change(&Change::Dress(DressColour { hex: Some(plain.rgb), words: plain.name.to_owned() }));
        } else if let Some(path) = words.strip_prefix("file://").or_else(|| words.starts_with('/').then_some(words)) {
            self.read_photo(ctx, PhotoSource::File(path.into()));
        }
    }

    /// One step; words by which the dress was known before it was seen stay.
    fn take_reading(&mut self) {
        let Some(reading) = self.colour_room.photo.reading() else { return };
        let before = &self.session.order().taste.dress;
        let said = before.hex.is_none() && !before.words.trim().is_empty();
        let words = if said { before.words.clone() } else { everyday_name(reading.rgb).to_owned() };
        self.change(&Change::Dress(DressColour { hex: Some(reading.rgb), words }));
    }

    fn tie(&mut self, ribbon: crate::stock::StockId, colour: Arc<str>) {
        let Some(bow) = self.session.order().piece.bow.clone() else { return };
        let tied = crate::piece::Bow { ribbon, colour, ..bow };
        self.change(&Change::Piece(crate::piece::Edit::Tie(Some(tied))));
    }
}

/// What may be pasted beside a field.
enum Gift {
    Photo(Arc<egui::ColorImage>),
    Words(String),
}

fn gift_of(event: &egui::Event) -> Option<Gift> {
    match event {
        egui::Event::PasteImage(image) => Some(Gift::Photo(Arc::clone(image))),
        egui::Event::Paste(words) => Some(Gift::Words(words.clone())),
        _ => None,
    }
}
