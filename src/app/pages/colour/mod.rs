//! Colours: which colour the dress has, by words, by a plain swatch or from a photo; and what goes with it.
//!
//! Nothing here tells a cost, a score or a supplier, so both views show the same page. Figures of difference and sentences
//! that warn are for the designer; the client reads them as invitations.

pub(crate) mod photo;
mod rows;

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{Align2, Key, Modifiers, Rect, RichText, Role, Sense, Stroke, Ui, WidgetInfo, vec2};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::colour_vision::choices_ui;
use crate::app::parts::field::field_ui;
use crate::app::parts::page_head::head_ui;
use crate::app::picture::canvas::PictureSubject;
use crate::app::picture::colour_vision::{frame, seen};
use crate::app::picture::pencil::area_of;
use crate::app::typing::field::Field;
use crate::app::view::Tone;
use crate::app::widgets::controls::{Weight, button, swatch};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::keys::take_key;
use crate::app::widgets::naming::in_text;
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, ROUND, colour_of, strong, title, words};
use crate::app::workers::photo_worker::PhotoSource;
use crate::book::{Change, DressColour};
use crate::colour::{CAVEAT, ColourWarning, Rgb, everyday_name, swatches};
use crate::paperwork::{PieceColour, palette_sentence, piece_colours};
use crate::piece::{Bow, Edit};
use crate::sheet::{LIFE_SIZE, View};
use crate::stock::StockId;
use photo::{DressPhoto, PhotoAction, photo_ui};
use rows::{Ranking, rows_ui};

/// What is open on the page.
#[derive(Default)]
pub(crate) struct ColourPage {
    ranking: Ranking,
    photo: DressPhoto,
    /// Whether the photo stands where the swatches and the piece would.
    on_photo: bool,
    /// The colours of the piece, and what is said of them together.
    colours: Vec<PieceColour>,
    palette: Option<String>,
}

/// Something asked of the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ColourAction {
    /// Only goods of this kind are listed, or all.
    List(Option<&'static str>),
    /// The photo, or the swatches.
    ShowPhoto(bool),
    /// Something about the photo.
    Photo(PhotoAction),
    /// What was read from the photo is the colour of the dress.
    TakeReading,
    /// Tie the bow with this ribbon.
    Tie(StockId, Arc<str>),
}

impl Page for ColourPage {
    type Action = ColourAction;

    const INFO: PageInfo = PageInfo { on_rail: Some(("Colours", Icon::Colour)), key: Key::D, is_for_shop: false };

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        self.photo.poll(inputs.ctx);
        let (order, stock) = (inputs.session.order(), inputs.session.stock());
        let dress = order.taste.dress.hex;
        self.colours = piece_colours(&order.piece, stock, dress);
        self.palette = palette_sentence(&self.colours, dress);
        self.ranking.prepare(dress, order, stock);
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<ColourAction>) {
        head_ui(ui, cx, "Colours", "The dress, and what goes with it", &mut requests.shared);
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0 * GRID;
            ui.vertical(|ui| {
                ui.set_width(DRESS_HALF);
                ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
                self.dress_ui(ui, cx, requests);
            });
            ui.vertical(|ui| {
                ui.set_width(ui.available_width());
                ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
                self.together_ui(ui, cx);
                rows_ui(ui, cx, &self.ranking, requests);
            });
        });
    }

    fn read_keys(&self, ui: &Ui, _cx: &Context<'_>, requests: &mut Requests<ColourAction>) {
        if take_key(ui, Modifiers::NONE, Key::T) {
            requests.shared.push(Action::Focus(Field::Dress));
        }
        if take_key(ui, Modifiers::NONE, Key::P) {
            requests.own.push(ColourAction::ShowPhoto(!self.on_photo));
        }
    }

    fn run(&mut self, action: ColourAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
        match action {
            ColourAction::List(kind) => self.ranking.kind = kind,
            ColourAction::ShowPhoto(shown) => self.on_photo = shown,
            ColourAction::Photo(action) => self.photo.run(inputs.ctx, action),
            ColourAction::TakeReading => return self.take_reading(inputs).into_iter().collect(),
            ColourAction::Tie(ribbon, colour) => {
                let bow = inputs.session.order().piece.bow.clone();
                let tied = bow.map(|bow| Change::Piece(Edit::Tie(Some(Bow { ribbon, colour, ..bow }))));
                return tied.map(Action::change).into_iter().collect();
            }
        }
        Vec::new()
    }

    fn keeps_notice(action: &ColourAction) -> bool {
        !matches!(action, ColourAction::TakeReading | ColourAction::Tie(..))
    }
}

impl ColourPage {
    /// A photo of the dress, to be read.
    pub(crate) fn read_photo(&mut self, ctx: &egui::Context, source: PhotoSource) {
        self.on_photo = true;
        self.photo.run(ctx, PhotoAction::Unpack(source));
    }

    /// What was read from the photo.
    #[cfg(test)]
    pub(crate) fn reading(&self) -> Option<crate::colour::Reading> {
        self.photo.reading()
    }

    /// One step; words by which the dress was known before it was seen stay.
    fn take_reading(&self, inputs: &Inputs<'_>) -> Option<Action> {
        let reading = self.photo.reading()?;
        let before = &inputs.session.order().taste.dress;
        let said = before.hex.is_none() && !before.words.trim().is_empty();
        let words = if said { before.words.clone() } else { everyday_name(reading.rgb).to_owned() };
        Some(Action::change(Change::Dress(DressColour { hex: Some(reading.rgb), words })))
    }

    fn dress_ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<ColourAction>) {
        named_ui(ui, cx, &mut requests.shared);
        ui.horizontal(|ui| {
            for (label, tip, photo) in
                [("Swatches", "Plain colours (P)", false), ("From a photo", "A photo of the dress (P)", true)]
            {
                let weight = if self.on_photo == photo { Weight::Chosen } else { Weight::Plain };
                if button(ui, &cx.colours, label, weight).on_hover_text(tip).clicked() {
                    requests.own.push(ColourAction::ShowPhoto(photo));
                }
            }
        });
        ui.label(RichText::new(CAVEAT).font(words(14.0)).color(cx.colours.soft));
        if self.on_photo {
            photo_ui(ui, cx, &self.photo, requests);
        } else {
            swatches_ui(ui, cx, &mut requests.shared);
            preview_ui(ui, cx, &mut requests.shared);
        }
    }

    /// What the piece has of colours, and how they lie to the dress.
    fn together_ui(&self, ui: &mut Ui, cx: &Context<'_>) {
        let c = cx.colours;
        let Some(palette) = &self.palette else { return };
        ui.label(RichText::new(palette).font(strong(17.0)).color(c.ink));
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 3.0;
            for colour in &self.colours {
                let (rect, spot) = ui.allocate_exact_size(vec2(26.0, 26.0), Sense::hover());
                let name = format!("{}, {}", colour.of, colour.name);
                spot.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
                ui.painter().circle(rect.center(), 11.0, colour_of(colour.rgb), Stroke::new(1.0, c.soft));
                spot.on_hover_text(name);
            }
        });
        for says in said_of(&self.colours, cx.is_client()) {
            ui.label(RichText::new(says).font(words(15.0)).color(if cx.is_client() { c.soft } else { c.ink }));
        }
    }
}

/// Width of the half that tells the dress, points.
const DRESS_HALF: f32 = 436.0;

/// The colour as it stands: seen, named in plain words, and as it is written; with the field to write it in.
fn named_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let dress = &cx.client.order.taste.dress;
    ui.horizontal(|ui| {
        let (rect, patch) = ui.allocate_exact_size(vec2(92.0, 92.0), Sense::hover());
        let seen =
            dress.hex.map_or("Dress colour missing".to_owned(), |rgb| format!("Dress colour, {}", named_with_hex(rgb)));
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
            field_ui(ui, cx, Field::Dress, width, actions);
        });
    });
}

/// `dark red #8b1427`.
pub(crate) fn named_with_hex(rgb: Rgb) -> String {
    format!("{} {}", everyday_name(rgb), rgb.text())
}

/// All plain swatches; the chosen one is taken back by another tap.
fn swatches_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let now = cx.client.order.taste.dress.hex;
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

/// The piece before the dress, small; in what is left of the half.
fn preview_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0;
        choices_ui(ui, &c, cx.options.eyes, actions);
    });
    let size = ui.available_size() - vec2(0.0, 2.0);
    if size.y < 80.0 {
        return;
    }
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, "The piece before the dress"));
    let rect = rect.round();
    let painter = ui.painter_at(rect);
    let eyes = cx.options.eyes;
    let tone = Tone { skin: cx.client.order.shown.skin, dress: cx.client.order.taste.dress.hex };
    painter.rect_filled(rect, ROUND, tone.dress.map_or(c.card, |rgb| seen(rgb, eyes)));
    let piece = &cx.client.order.piece;
    let mut view = View { area: area_of(rect), ..View::new() };
    view.fit(cx.client.frame_to_fit(piece), LIFE_SIZE);
    let revision = cx.client.revision;
    let subject = PictureSubject { revision, lifted: Vec::new(), skin: tone.skin, dress: tone.dress, eyes };
    cx.images.preview.borrow_mut().paint(&painter, subject, view, kurbo::Vec2::ZERO, || {
        cx.client.scene(piece.clone(), tone, view.seen_and_more())
    });
    if let Some(vision) = eyes {
        frame(&painter, rect, &c);
        let says = format!("as {} see it", vision.whose());
        let at = rect.center_bottom() - vec2(0.0, 14.0);
        let ground = Rect::from_center_size(at - vec2(0.0, 8.0), vec2(260.0, 24.0));
        painter.rect_filled(ground, ROUND, c.card);
        painter.text(ground.center(), Align2::CENTER_CENTER, says, strong(14.0), c.rose);
    }
}

/// One line for each thing to look out for, with all the colours that it is said of. The client reads invitations, one of
/// them at most.
pub(crate) fn said_of(colours: &[PieceColour], client_view: bool) -> Vec<String> {
    let mut found: BTreeMap<ColourWarning, Vec<String>> = BTreeMap::new();
    for colour in colours {
        for warning in &colour.warnings {
            let name = format!("{} in {}", in_text(&colour.of), colour.name);
            found.entry(*warning).or_default().push(name);
        }
    }
    if client_view {
        let whole = |w: &ColourWarning| found.get(w).map_or(0, Vec::len) == colours.len();
        let invites = found.keys().filter(|w| whole(w)).find_map(|w| w.invites());
        return invites.into_iter().map(str::to_owned).collect();
    }
    found.into_iter().map(|(warning, names)| format!("{}: {}.", capital(warning.short()), names.join(", "))).collect()
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
