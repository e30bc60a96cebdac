//! The wrist sheet: the picture, what is pencilled over it, the pointer, and a line that says what the next tap does.

use std::sync::Arc;

use egui::{Align2, EventFilter, Key, Modifiers, Rect, Response, Role, Sense, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::sheet::canvas::{Made, Subject};
use crate::app::sheet::colour_vision::{mark_ui, seen};
use crate::app::sheet::layouts_panel;
use crate::app::sheet::overlay::{Pencil, area_of};
use crate::app::sheet::pair;
use crate::app::sheet::part_actions;
use crate::app::shell::view_options::{Beside, Coin, Looks};
use crate::app::shell::window::{Said, Window};
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::naming::in_text;
use crate::app::widgets::points::{f32_of, point, pos};
use crate::app::widgets::theme::{GRID, strong, words};
use crate::app::widgets::thumbs::{screen_turn, with_margin};
use crate::app::workers::picture_worker::SceneMaker;
use crate::book::Order;
use crate::colour::Rgb;
use crate::piece::{Part, PartId, Piece};
use crate::scene::{Ground, PictureOptions, Skin, picture};
use crate::session::Session;
use crate::sheet::{Hand, Held, LIFE_SIZE, View};
use crate::stock::Stock;

/// No piece is shown larger than this when it comes onto the sheet, points in a millimetre.
const SCALE_AT_FIRST: f64 = LIFE_SIZE * 1.35;
/// Height of the line under the sheet.
const HINT_HEIGHT: f32 = 34.0;

pub(crate) fn sheet_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let all = ui.available_rect_before_wrap();
    // Layouts on offer take the line's place, so that the sheet stays as it is.
    let hint_height = if w.offers_layouts() { 0.0 } else { HINT_HEIGHT };
    let rect = Rect::from_min_max(all.min, pos2(all.max.x, all.max.y - hint_height));
    let sheet = ui.allocate_rect(rect, Sense::click_and_drag());
    sheet.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, "Wrist sheet"));
    keep_focus(ui, w, &sheet);
    settle_view(w, rect);
    read_pointer(ui, w, &sheet, actions);
    read_zoom(ui, w, &sheet);
    let painter = ui.painter_at(rect);
    paint_picture(&painter, w);
    paint_pencil(&painter, w);
    paint_hand(&painter, w);
    parts_ui(ui, w, &sheet, actions);
    part_actions::ring_ui(ui, w, rect, actions);
    mark_ui(ui, w, rect, actions);
    corner_ui(ui, w, rect, actions);
    layouts_panel::set_out_button_ui(ui, w, rect, actions);
    pair::card_ui(ui, w, rect, actions);
    if hint_height > 0.0 {
        hint_ui(ui, w, Rect::from_min_max(pos2(all.min.x, rect.max.y), all.max));
    }
}

/// While the sheet has the keyboard, arrows move blooms and not the focus.
fn keep_focus(ui: &Ui, w: &mut Window, sheet: &Response) {
    if std::mem::take(&mut w.focus_sheet) {
        sheet.request_focus();
    }
    w.sheet_in_focus = sheet.has_focus();
    if sheet.has_focus() {
        ui.memory_mut(|m| m.set_focus_lock_filter(sheet.id, ARROWS));
    }
}

/// Arrows belong to whoever has the focus.
const ARROWS: EventFilter = EventFilter { tab: false, horizontal_arrows: true, vertical_arrows: true, escape: false };

fn settle_view(w: &mut Window, rect: Rect) {
    let area = area_of(rect);
    if w.sheet.view.area != area {
        w.sheet.view.area = area;
    }
    if !w.fitted {
        w.sheet.view.fit(frame_to_fit(w.session.piece(), w.session.stock()), SCALE_AT_FIRST);
        w.fitted = true;
    }
}

fn read_pointer(ui: &Ui, w: &mut Window, sheet: &Response, actions: &mut Vec<Action>) {
    let (pos, pressed, released, down, shift, fingers) = ui.input(|i| {
        let p = &i.pointer;
        let shift = i.modifiers.shift || i.modifiers.command;
        (
            p.interact_pos(),
            p.primary_pressed(),
            p.primary_released(),
            p.primary_down(),
            shift,
            i.multi_touch().is_some(),
        )
    });
    if fingers && w.sheet.hand != Hand::Idle {
        actions.extend(w.sheet.cancel().into_iter().map(Action::Order));
        return;
    }
    let Some(pos) = pos else { return };
    let at = point(pos);
    // A quick tap may go down and up within one frame.
    let tapped = pressed && released && sheet.clicked();
    if tapped || (pressed && sheet.is_pointer_button_down_on()) {
        sheet.request_focus();
        let settled = w.session.settled_piece().clone();
        w.sheet.press(at, shift, &settled, w.session.stock());
    } else if down && w.sheet.hand != Hand::Idle {
        // A drag has been followed before anything was painted.
    } else if w.dragging_from_tray || (sheet.hovered() && ui.input(|i| i.pointer.delta() != egui::Vec2::ZERO)) {
        // A pointer at rest leaves a bloom where the keys have put it.
        w.sheet.hover(at);
    }
    if released {
        let settled = w.session.settled_piece().clone();
        if std::mem::take(&mut w.dragging_from_tray) {
            if sheet.rect.contains(pos) {
                let place = w.sheet.view.to_piece(at);
                actions.extend(w.sheet.put_down(place, &settled).into_iter().map(Action::Order));
            }
        } else if w.sheet.hand != Hand::Idle {
            actions.extend(w.sheet.release(at, &settled).into_iter().map(Action::Order));
        }
    }
}

/// Lets what is dragged follow the pointer before the frame is laid out, so that a move of the pointer is one frame.
pub(crate) fn follow_pointer(ctx: &egui::Context, w: &mut Window) {
    let (pos, moved, down, fingers) = ctx.input(|i| {
        let p = &i.pointer;
        (p.interact_pos(), p.delta() != egui::Vec2::ZERO, p.primary_down(), i.multi_touch().is_some())
    });
    let Some(pos) = pos.filter(|_| moved && down && !fingers && w.sheet.hand != Hand::Idle) else { return };
    let commands = w.sheet.drag(point(pos));
    w.run_commands(&commands);
}

fn read_zoom(ui: &Ui, w: &mut Window, sheet: &Response) {
    if !sheet.contains_pointer() {
        return;
    }
    let (zoom, scroll, pos) = ui.input(|i| (i.zoom_delta(), i.smooth_scroll_delta(), i.pointer.latest_pos()));
    let wheel = (f64::from(scroll.y) / 400.0).exp();
    let by = f64::from(zoom) * wheel;
    if (by - 1.0).abs() > 1e-6
        && let Some(pos) = pos
    {
        w.sheet.view.zoom(point(pos), by);
    }
}

/// The picture of an order in a window of the usual size, that no one has touched yet.
pub(crate) fn at_first(session: &Session) -> (Made, SceneMaker) {
    /// Where the sheet lies in it, points.
    const AREA: kurbo::Rect = kurbo::Rect::new(83.5, 64.0, 1034.0, 528.0);
    let looks = Looks::new();
    let mut view = View { area: AREA, ..View::new() };
    view.fit(frame_to_fit(session.piece(), session.stock()), SCALE_AT_FIRST);
    let tone = Tone { skin: looks.skin, dress: session.order().taste.dress.hex.filter(|_| looks.cloth) };
    let subject = Subject {
        revision: session.revision(),
        lifted: Vec::new(),
        skin: tone.skin,
        dress: tone.dress,
        eyes: looks.eyes,
    };
    let scene = scene_of(session.piece().clone(), session.order(), Arc::clone(session.stock()), tone, &view);
    (Made { subject, view, pixels_per_point: 1.0 }, scene)
}

fn paint_picture(painter: &egui::Painter, w: &mut Window) {
    let lifted = lifted(w);
    let by = if matches!(w.sheet.hand, Hand::Moving { .. }) { moved_by(w, &lifted) } else { kurbo::Vec2::ZERO };
    let revision = if lifted.is_empty() { w.session.revision() } else { w.session.settled_revision() };
    let view = w.sheet.view;
    let (skin, dress) = (w.looks.skin, w.cloth());
    let eyes = w.looks.eyes;
    let subject = Subject { revision, lifted, skin, dress, eyes };
    let session = &w.session;
    let on_its_own = !subject.lifted.is_empty();
    if let Some(rgb) = dress {
        painter.rect_filled(painter.clip_rect(), 0.0, seen(rgb, eyes));
    }
    w.canvas.paint(painter, subject, view, by, || {
        let order = Arc::clone(session.order());
        let piece = if on_its_own { session.settled_piece().clone() } else { session.piece().clone() };
        let stock = Arc::clone(session.stock());
        scene_of(piece, &order, stock, Tone { skin, dress }, &view)
    });
}

/// What the picture stands on: arm and cloth.
#[derive(Clone, Copy)]
pub(crate) struct Tone {
    pub(crate) skin: Skin,
    pub(crate) dress: Option<Rgb>,
}

/// The scene of a piece on the wrist of an order, to be made elsewhere.
pub(crate) fn scene_of(piece: Piece, order: &Arc<Order>, stock: Arc<Stock>, tone: Tone, view: &View) -> SceneMaker {
    let Tone { skin, dress } = tone;
    let frame = if dress.is_some() { CLOTH } else { view.seen_and_more() };
    let ground = dress.map_or(Ground::Clear, Ground::Dress);
    let look = PictureOptions { skin, ground, frame: Some(frame), ..PictureOptions::default() };
    let order = Arc::clone(order);
    Box::new(move || picture(&piece, &stock, &order.wrist, &look))
}

/// How far cloth is laid about the centre, mm: one piece of cloth, whatever is seen of it, so that its folds stay.
const CLOTH: kurbo::Rect = kurbo::Rect::new(-260.0, -260.0, 260.0, 260.0);

/// What is being dragged, or would be if the pointer that is down moved on; locked parts do not move with the others.
fn lifted(w: &Window) -> Vec<PartId> {
    let ids = match &w.sheet.hand {
        Hand::Moving { ids, .. } => ids.clone(),
        Hand::Down { on: Some(id), .. } if w.sheet.held == Held::Nothing => {
            if w.sheet.selected.contains(id) {
                w.sheet.selected.clone()
            } else {
                vec![*id]
            }
        }
        Hand::Idle | Hand::Down { .. } | Hand::Panning { .. } => Vec::new(),
    };
    let settled = w.session.settled_piece();
    ids.into_iter().filter(|id| settled.part(*id).is_some_and(|p| !p.locked)).collect()
}

/// The oval, the parts and the loops; tails may reach farther.
pub(crate) fn frame_to_fit(piece: &Piece, stock: &Stock) -> kurbo::Rect {
    /// Loops longer than this, mm, may reach out of the window.
    const LONGEST_MM: f64 = 120.0;
    /// Room about the oval, mm.
    const MARGIN_MM: f64 = 16.0;
    let oval = piece.oval();
    let shapes: Vec<_> = piece.parts().iter().map(|p| p.shape_in(stock)).collect();
    let mut all = kurbo::Rect::new(-oval.a, -oval.b, oval.a, oval.b);
    if let Some(parts) = crate::geometry::extents(&shapes) {
        all = all.union(parts);
    }
    if let Some(bow) = &piece.bow {
        let reach = bow.loop_length_mm.min(LONGEST_MM);
        all = all.union(kurbo::Rect::new(-reach / 2.0, -reach, reach / 2.0, reach));
    }
    all.inflate(MARGIN_MM, MARGIN_MM)
}

fn moved_by(w: &Window, ids: &[PartId]) -> kurbo::Vec2 {
    let (now, settled) = (w.session.piece(), w.session.settled_piece());
    let moved = ids.iter().filter_map(|id| Some((now.part(*id)?, settled.part(*id)?)));
    let mut ways = moved.filter(|(n, _)| !n.locked).map(|(n, s)| n.centre - s.centre);
    ways.next().unwrap_or(kurbo::Vec2::ZERO)
}

fn paint_pencil(painter: &egui::Painter, w: &mut Window) {
    let derived = w.session.derived();
    let inches = w.session.wrist_as_shown().girth.unit().is_inch();
    let pencil = Pencil { painter, view: &w.sheet.view, colours: w.colours(), inches };
    let piece = w.session.piece();
    let oval = piece.oval();
    if !w.client_side {
        pencil.oval(oval);
    }
    match w.looks.beside {
        Beside::Ruler => {
            if w.cloth().is_some() {
                pencil.edges();
            }
            pencil.rulers();
        }
        Beside::Coin => {
            let coin = Coin::of(&w.session.style().prices.currency);
            pencil.coin(coin.diameter_mm, coin.name);
        }
        Beside::Nothing => {}
    }
    let shown = derived.over.findings.iter().find(|f| Some(f.question) == w.hovered.or(w.pointed_at));
    for mark in shown.iter().flat_map(|f| &f.annotations) {
        pencil.mark(mark, oval);
    }
    if let Some(mark) = layouts_panel::gap_mark(w) {
        pencil.mark(&mark, oval);
    }
    for part in w.sheet.selected.iter().filter_map(|id| piece.part(*id)) {
        pencil.selected(&part.shape_in(w.session.stock()));
    }
}

fn paint_hand(painter: &egui::Painter, w: &mut Window) {
    let stock = Arc::clone(w.session.stock());
    let colours = w.colours();
    let Held::FromTray { new, .. } = &w.sheet.held else { return };
    let part = Part {
        id: PartId(0),
        stock: new.stock.clone(),
        colour: Arc::clone(&new.colour),
        role: new.role,
        centre: new.centre,
        turn_rad: new.turn_rad,
        size_mm: new.size_mm,
        level: new.level,
        locked: false,
    };
    let Some(botanical) = stock.botanical(&part.stock) else { return };
    let points = with_margin(f32_of(part.size_in(&stock) * w.sheet.view.scale));
    let texture = w.thumbs.of(painter.ctx(), botanical, &part.colour, points.min(400.0));
    let rect = Rect::from_center_size(pos(w.sheet.view.to_screen(part.centre)), vec2(points, points));
    let tint = egui::Color32::WHITE.gamma_multiply(0.85);
    let mut mesh = egui::Mesh::with_texture(texture.id());
    mesh.add_rect_with_uv(rect, Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0)), tint);
    mesh.rotate(egui::emath::Rot2::from_angle(screen_turn(part.turn_rad)), rect.center());
    painter.add(mesh);
    Pencil { painter, view: &w.sheet.view, colours, inches: false }.held(&part.shape_in(&stock));
}

/// Every part is a node of its own: it has a name, takes the focus, and can be chosen by a screen reader.
fn parts_ui(ui: &mut Ui, w: &mut Window, sheet: &Response, actions: &mut Vec<Action>) {
    let piece = w.session.piece().clone();
    let stock = Arc::clone(w.session.stock());
    let builder = UiBuilder::new().id_salt("parts").max_rect(sheet.rect).accessibility_parent(sheet.id);
    ui.scope_builder(builder, |ui| {
        for part in piece.parts() {
            part_node(ui, w, &piece, part, &stock, actions);
        }
    });
}

fn part_node(ui: &Ui, w: &mut Window, piece: &Piece, part: &Part, stock: &Stock, actions: &mut Vec<Action>) {
    let id = ui.scope_id().with(("part", part.id.0));
    let centre = pos(w.sheet.view.to_screen(part.centre));
    let reach = f32_of(part.shape_in(stock).reach() * w.sheet.view.scale);
    let rect = Rect::from_center_size(centre, egui::Vec2::splat(2.0 * reach));
    let node = ui.interact(rect, id, Sense::focusable_noninteractive());
    let chosen = w.sheet.selected.contains(&part.id);
    node.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, chosen, part_name(piece, part, stock)));
    ui.ctx().accesskit_node_builder(id, |n| {
        n.add_action(egui::accesskit::Action::Click);
        n.set_description(format!(
            "{:.0} mm toward the elbow, {:.0} mm to the right, {:.0} mm across",
            part.centre.x,
            part.centre.y,
            part.size_in(stock)
        ));
    });
    let asked = ui.input(|i| i.has_accesskit_action_request(id, egui::accesskit::Action::Click));
    if (node.gained_focus() || asked) && !chosen {
        actions.push(Action::Select(part.id));
    }
    if node.has_focus() {
        w.sheet_in_focus = true;
        ui.memory_mut(|m| m.set_focus_lock_filter(id, ARROWS));
    }
}

/// `Spray rose 3`: the name of a part, counted among its kind.
pub(crate) fn part_name(piece: &Piece, part: &Part, stock: &Stock) -> String {
    let name = stock.botanical(&part.stock).map_or_else(|| part.stock.to_string(), |b| b.name.clone());
    let n = piece.parts().iter().filter(|p| p.stock == part.stock && p.id <= part.id).count();
    format!("{name} {n}")
}

/// Zoom, and the whole piece again.
fn corner_ui(ui: &mut Ui, w: &Window, rect: Rect, actions: &mut Vec<Action>) {
    let c = w.colours();
    let area = Rect::from_min_size(pos2(rect.max.x - 54.0, rect.min.y + GRID), vec2(46.0, 3.0 * 52.0));
    ui.scope_builder(UiBuilder::new().max_rect(area), |ui| {
        if icon_button(ui, &c, Icon::Larger, "Zoom in", true).clicked() {
            actions.push(Action::Zoom(1.25));
        }
        if icon_button(ui, &c, Icon::Smaller, "Zoom out", true).clicked() {
            actions.push(Action::Zoom(0.8));
        }
        if icon_button(ui, &c, Icon::Whole, "Show the whole piece", true).clicked() {
            actions.push(Action::Whole);
        }
    });
}

fn hint_ui(ui: &Ui, w: &Window, rect: Rect) {
    let c = w.colours();
    let right = match &w.said {
        Some(Said::Done(done)) => (done.as_str(), c.leaf),
        Some(Said::Wants { .. } | Said::Crowded { .. }) | None if w.client_side => ("", c.soft),
        Some(Said::Wants { .. } | Said::Crowded { .. }) | None => ("F1 shows all keys", c.soft),
    };
    let drawn =
        ui.painter().text(rect.right_center() - vec2(14.0, 0.0), Align2::RIGHT_CENTER, right.0, words(14.0), right.1);
    let mut job = egui::text::LayoutJob::simple(hint(w), strong(15.0), c.ink, drawn.min.x - rect.min.x - 28.0);
    job.wrap.max_rows = 1;
    let galley = ui.painter().layout_job(job);
    let at = pos2(rect.min.x + 14.0, rect.center().y - galley.size().y / 2.0);
    ui.painter().galley(at, galley, c.ink);
}

/// What the next tap does, and what Esc does.
fn hint(w: &Window) -> String {
    let stock = w.session.stock();
    match (&w.sheet.held, &w.sheet.selected[..]) {
        (Held::FromTray { new, .. }, _) => {
            let name = stock.botanical(&new.stock).map_or("bloom".to_owned(), |b| in_text(&b.name));
            format!("In the hand: {name}, {}. Tap the sheet to put it there, or Enter. Esc puts it back.", new.colour)
        }
        (Held::Lifted(ids), _) => {
            format!(
                "Lifted: {}. Tap where it should go. Esc leaves it.",
                crate::units::counted(ids.len(), "part", "parts")
            )
        }
        (Held::Nothing, []) => "Tap a tray to take a bloom, or a bloom on the sheet to choose it.".to_owned(),
        (Held::Nothing, [one]) => {
            let piece = w.session.piece();
            let name = piece.part(*one).map_or_else(String::new, |p| part_name(piece, p, stock));
            format!("{name}: drag it, or use the ring or the arrow keys (Shift: 5 mm). Esc lets go.")
        }
        (Held::Nothing, many) => format!("{} parts chosen: drag one, or use the arrow keys. Esc lets go.", many.len()),
    }
}

/// Consumes a key that the sheet uses and no text field wants.
pub(crate) fn take_key(ui: &Ui, modifiers: Modifiers, key: Key) -> bool {
    ui.input_mut(|i| i.consume_key(modifiers, key))
}
