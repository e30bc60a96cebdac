//! The wrist sheet as it is painted: the picture, what is pencilled over it, the pointer, and a line that says what the next
//! tap does.

use std::sync::Arc;

use egui::{Align2, Rect, Response, Role, Sense, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use crate::app::action::{Action, Notice};
use crate::app::context::Context;
use crate::app::parts::colour_vision::mark_ui;
use crate::app::parts::pair;
use crate::app::parts::said::free_of_card;
use crate::app::picture::canvas::{Made, PictureSubject};
use crate::app::picture::colour_vision::seen;
use crate::app::picture::heads::{screen_turn, with_margin};
use crate::app::picture::pencil::Pencil;
use crate::app::sheet::HINT_HIGH;
use crate::app::sheet::layouts_panel::{arrange_button_ui, gap_mark};
use crate::app::sheet::part_actions::ring_ui;
use crate::app::sheet::room::{SheetRoom, view_at_first};
use crate::app::sheet::trays::{colours_ui, what_is_coloured};
use crate::app::view::{ClientView, Tone, scene_of};
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::keys::ARROWS;
use crate::app::widgets::points::{f32_of, point, pos};
use crate::app::widgets::theme::{GRID, strong, words};
use crate::app::workers::picture_worker::SceneMaker;
use crate::book::{Beside, Coin};
use crate::piece::{Part, PartId, Piece};
use crate::session::Session;
use crate::sheet::{Hand, Held, SheetInput};
use crate::units::counted;

/// What of the room in the middle is the sheet itself. Layouts on offer take the line's place, so that the sheet stays as
/// it is.
pub(crate) fn sheet_rect(all: Rect, layouts_open: bool) -> Rect {
    let hint_height = if layouts_open { 0.0 } else { HINT_HIGH };
    Rect::from_min_max(all.min, pos2(all.max.x, all.max.y - hint_height))
}

/// Paints the sheet; returns whether it, or a part on it, has the keyboard.
pub(crate) fn sheet_ui(ui: &mut Ui, cx: &Context<'_>, room: &SheetRoom, actions: &mut Vec<Action>) -> bool {
    let all = ui.available_rect_before_wrap();
    let is_open = room.layouts.is_some();
    let rect = sheet_rect(all, is_open);
    let sheet = ui.allocate_rect(rect, Sense::click_and_drag());
    sheet.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, "Wrist"));
    keep_focus(ui, room, &sheet);
    read_pointer(ui, room, &sheet, actions);
    read_zoom(ui, &sheet, actions);
    let painter = ui.painter_at(rect);
    paint_picture(&painter, cx, room);
    paint_pencil(&painter, cx, room);
    paint_hand(&painter, cx, room);
    let part_in_focus = parts_ui(ui, cx, room, &sheet, actions);
    ring_ui(ui, cx, room, free_of_card(ui, cx, rect), actions);
    mark_ui(ui, cx, rect, actions);
    corner_ui(ui, cx, rect, actions);
    arrange_button_ui(ui, cx, rect, is_open, actions);
    pair::card_ui(ui, cx, rect, is_open, actions);
    if !is_open {
        hint_ui(ui, cx, room, Rect::from_min_max(pos2(all.min.x, rect.max.y), all.max), actions);
    }
    sheet.has_focus() || part_in_focus
}

/// While the sheet has the keyboard, arrows move blooms and not the focus.
fn keep_focus(ui: &Ui, room: &SheetRoom, sheet: &Response) {
    if room.wants_focus {
        sheet.request_focus();
    }
    if sheet.has_focus() {
        ui.memory_mut(|m| m.set_focus_lock_filter(sheet.id, ARROWS));
    }
}

fn read_pointer(ui: &Ui, room: &SheetRoom, sheet: &Response, actions: &mut Vec<Action>) {
    let (pos, pressed, released, down, adds, fingers) = ui.input(|i| {
        let p = &i.pointer;
        let adds = i.modifiers.shift || i.modifiers.command;
        let fingers = i.multi_touch().is_some();
        (p.interact_pos(), p.primary_pressed(), p.primary_released(), p.primary_down(), adds, fingers)
    });
    let mut send = |input| actions.push(Action::Sheet(input));
    let is_busy = room.hand.hand != Hand::Idle;
    if fingers && is_busy {
        return send(SheetInput::Cancel);
    }
    let Some(pos) = pos else { return };
    let at = point(pos);
    // A quick tap may go down and up within one frame.
    let tapped = pressed && released && sheet.clicked();
    let goes_down = tapped || (pressed && sheet.is_pointer_button_down_on());
    if goes_down {
        sheet.request_focus();
        send(SheetInput::Press { at, adds });
    } else if down && is_busy {
        // A drag has been followed before anything was painted.
    } else if room.dragging_from_tray || (sheet.hovered() && ui.input(|i| i.pointer.delta() != egui::Vec2::ZERO)) {
        // A pointer at rest leaves a bloom where the keys have put it.
        send(SheetInput::Hover(at));
    }
    if released && room.dragging_from_tray {
        let place = sheet.rect.contains(pos).then(|| room.hand.view.to_piece(at));
        actions.push(Action::DropFromTray(place));
    } else if released && (is_busy || goes_down) {
        send(SheetInput::Release(at));
    }
}

/// Lets what is dragged follow the pointer before the frame is laid out, so that a move of the pointer is one frame.
pub(crate) fn drag_of(ctx: &egui::Context, room: &SheetRoom) -> Option<SheetInput> {
    let (pos, moved, down, fingers) = ctx.input(|i| {
        let p = &i.pointer;
        (p.interact_pos(), p.delta() != egui::Vec2::ZERO, p.primary_down(), i.multi_touch().is_some())
    });
    let pos = pos.filter(|_| moved && down && !fingers && room.hand.hand != Hand::Idle)?;
    Some(SheetInput::Drag(point(pos)))
}

fn read_zoom(ui: &Ui, sheet: &Response, actions: &mut Vec<Action>) {
    if !sheet.contains_pointer() {
        return;
    }
    let (zoom, scroll, pos) = ui.input(|i| (i.zoom_delta(), i.smooth_scroll_delta(), i.pointer.latest_pos()));
    let wheel = (f64::from(scroll.y) / 400.0).exp();
    let by = f64::from(zoom) * wheel;
    if (by - 1.0).abs() > 1e-6
        && let Some(pos) = pos
    {
        actions.push(Action::Sheet(SheetInput::ZoomAt(point(pos), by)));
    }
}

/// The picture of an order in a window of the usual size, that no one has touched yet.
pub(crate) fn at_first(session: &Session) -> (Made, SceneMaker) {
    let view = view_at_first(session);
    let tone = Tone::of(session.order().shown, &session.order().taste);
    let subject = PictureSubject {
        revision: session.revision(),
        lifted: Vec::new(),
        skin: tone.skin,
        dress: tone.dress,
        eyes: None,
    };
    let (piece, stock) = (session.piece().clone(), Arc::clone(session.stock()));
    let scene = scene_of(piece, session.order(), stock, tone, view.seen_and_more());
    (Made { subject, view, pixels_per_point: 1.0 }, scene)
}

fn paint_picture(painter: &egui::Painter, cx: &Context<'_>, room: &SheetRoom) {
    let client = cx.client;
    let lifted = lifted(client, room);
    let is_moving = matches!(room.hand.hand, Hand::Moving { .. });
    let by = if is_moving { moved_by(client, &lifted) } else { kurbo::Vec2::ZERO };
    let revision = if lifted.is_empty() { client.revision } else { client.settled_revision };
    let (view, tone, eyes) = (room.hand.view, cx.tone(), cx.options.eyes);
    let on_its_own = !lifted.is_empty();
    let subject = PictureSubject { revision, lifted, skin: tone.skin, dress: tone.dress, eyes };
    if let Some(rgb) = tone.dress {
        painter.rect_filled(painter.clip_rect(), 0.0, seen(rgb, eyes));
    }
    cx.images.sheet.borrow_mut().paint(painter, subject, view, by, || {
        let piece = if on_its_own { &client.settled_piece } else { client.piece() };
        client.scene(piece.clone(), tone, view.seen_and_more())
    });
}

/// What is being dragged, or would be if the pointer that is down moved on; locked parts do not move with the others.
fn lifted(client: &ClientView, room: &SheetRoom) -> Vec<PartId> {
    let ids = match &room.hand.hand {
        Hand::Moving { ids, .. } => ids.clone(),
        Hand::Down { on: Some(id), .. } if room.hand.held == Held::Nothing => {
            if room.hand.selected.contains(id) {
                room.hand.selected.clone()
            } else {
                vec![*id]
            }
        }
        Hand::Idle | Hand::Down { .. } | Hand::Panning { .. } => Vec::new(),
    };
    let settled = &client.settled_piece;
    ids.into_iter().filter(|id| settled.part(*id).is_some_and(|p| !p.locked)).collect()
}

fn moved_by(client: &ClientView, ids: &[PartId]) -> kurbo::Vec2 {
    let (now, settled) = (client.piece(), &client.settled_piece);
    let moved = ids.iter().filter_map(|id| Some((now.part(*id)?, settled.part(*id)?)));
    let mut ways = moved.filter(|(n, _)| !n.locked).map(|(n, s)| n.centre - s.centre);
    ways.next().unwrap_or(kurbo::Vec2::ZERO)
}

fn paint_pencil(painter: &egui::Painter, cx: &Context<'_>, room: &SheetRoom) {
    let (client, colours) = (cx.client, cx.colours);
    let pencil = Pencil { painter, view: &room.hand.view, colours, inches: client.in_inches() };
    let piece = client.piece();
    let oval = piece.oval();
    if cx.shop.is_some() {
        pencil.oval(oval);
    }
    match client.order.shown.beside {
        Beside::Ruler => {
            if cx.tone().dress.is_some() {
                pencil.edges();
            }
            pencil.rulers();
        }
        Beside::Coin => {
            let coin = Coin::of(&client.currency.sign);
            pencil.coin(coin.diameter_mm, coin.name);
        }
        Beside::Nothing => {}
    }
    let pointed = room.checks.hovered.or(room.checks.pointed_at);
    if let Some(shop) = cx.shop {
        let shown = shop.derived.over.findings.iter().find(|f| Some(f.question) == pointed);
        let gap = room.layouts.as_ref().and_then(|layouts| gap_mark(layouts, shop));
        for mark in shown.iter().flat_map(|f| &f.annotations).chain(&gap) {
            pencil.mark(mark, oval);
        }
    } else {
        let invitation = client.invitation.iter().filter(|i| Some(i.question) == pointed);
        invitation.flat_map(|i| &i.marks).for_each(|mark| pencil.mark(mark, oval));
    }
    for part in room.hand.selected.iter().filter_map(|id| piece.part(*id)) {
        pencil.selected(&client.shape(part));
    }
}

fn paint_hand(painter: &egui::Painter, cx: &Context<'_>, room: &SheetRoom) {
    let Held::FromTray { new, .. } = &room.hand.held else { return };
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
    let Some(good) = cx.client.goods.get(&part.stock) else { return };
    let view = &room.hand.view;
    let points = with_margin(f32_of(cx.client.size_mm(&part) * view.scale));
    let texture = cx.images.heads.borrow_mut().of(painter.ctx(), good, &part.colour, points.min(400.0));
    let rect = Rect::from_center_size(pos(view.to_screen(part.centre)), vec2(points, points));
    let tint = egui::Color32::WHITE.gamma_multiply(0.85);
    let mut mesh = egui::Mesh::with_texture(texture.id());
    mesh.add_rect_with_uv(rect, Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0)), tint);
    mesh.rotate(egui::emath::Rot2::from_angle(screen_turn(part.turn_rad)), rect.center());
    painter.add(mesh);
    Pencil { painter, view, colours: cx.colours, inches: false }.held(&cx.client.shape(&part));
}

/// Every part is a node of its own: it has a name, takes the focus, and can be chosen by a screen reader. Returns whether
/// one of them has the keyboard.
fn parts_ui(ui: &mut Ui, cx: &Context<'_>, room: &SheetRoom, sheet: &Response, actions: &mut Vec<Action>) -> bool {
    let piece = cx.client.piece();
    let builder = UiBuilder::new().id_salt("parts").max_rect(sheet.rect).accessibility_parent(sheet.id);
    let mut in_focus = false;
    ui.scope_builder(builder, |ui| {
        for part in piece.parts() {
            in_focus |= part_node(ui, cx, room, part, actions);
        }
    });
    in_focus
}

fn part_node(ui: &Ui, cx: &Context<'_>, room: &SheetRoom, part: &Part, actions: &mut Vec<Action>) -> bool {
    let id = ui.scope_id().with(("part", part.id.0));
    let view = &room.hand.view;
    let centre = pos(view.to_screen(part.centre));
    let reach = f32_of(cx.client.shape(part).reach() * view.scale);
    let rect = Rect::from_center_size(centre, egui::Vec2::splat(2.0 * reach));
    let node = ui.interact(rect, id, Sense::focusable_noninteractive());
    let chosen = room.hand.selected.contains(&part.id);
    let name = part_name(cx.client.piece(), part, cx.client);
    node.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, chosen, &name));
    ui.ctx().accesskit_node_builder(id, |n| {
        n.add_action(egui::accesskit::Action::Click);
        n.set_description(format!(
            "{:.0} mm toward the elbow, {:.0} mm to the right, {:.0} mm across",
            part.centre.x,
            part.centre.y,
            cx.client.size_mm(part)
        ));
    });
    let asked = ui.input(|i| i.has_accesskit_action_request(id, egui::accesskit::Action::Click));
    if (node.gained_focus() || asked) && !chosen {
        actions.push(Action::Sheet(SheetInput::Select(vec![part.id])));
    }
    if node.has_focus() {
        ui.memory_mut(|m| m.set_focus_lock_filter(id, ARROWS));
    }
    node.has_focus()
}

/// `Spray rose 3`: the name of a part, counted among its kind.
pub(crate) fn part_name(piece: &Piece, part: &Part, client: &ClientView) -> String {
    let n = piece.parts().iter().filter(|p| p.stock == part.stock && p.id <= part.id).count();
    format!("{} {n}", client.goods.name(&part.stock))
}

/// Zoom, and the whole piece again.
fn corner_ui(ui: &mut Ui, cx: &Context<'_>, rect: Rect, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let area = Rect::from_min_size(pos2(rect.max.x - 54.0, rect.min.y + GRID), vec2(46.0, 3.0 * 52.0));
    ui.scope_builder(UiBuilder::new().max_rect(area), |ui| {
        if icon_button(ui, &c, Icon::Larger, "Zoom in", true).clicked() {
            actions.push(Action::Sheet(SheetInput::Zoom(1.25)));
        }
        if icon_button(ui, &c, Icon::Smaller, "Zoom out", true).clicked() {
            actions.push(Action::Sheet(SheetInput::Zoom(0.8)));
        }
        if icon_button(ui, &c, Icon::Whole, "Show the whole piece", true).clicked() {
            actions.push(Action::FitView);
        }
    });
}

/// What the next tap does; at the right the colours of what was picked or selected, else what was done.
fn hint_ui(ui: &mut Ui, cx: &Context<'_>, room: &SheetRoom, rect: Rect, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let done = cx.notice.and_then(Notice::done);
    let (hint, ink, right) = match (what_is_coloured(cx, room), done) {
        (Some((good, now)), done) => {
            let colours = colours_ui(ui, cx, (good, &now), rect, actions);
            (done.map_or_else(|| hint(cx.client, room), str::to_owned), done.map_or(c.ink, |_| c.leaf), colours)
        }
        (None, done) => {
            let help = if cx.is_client() { "" } else { "F1 shows all keys" };
            let (right, ink) = done.map_or((help, c.soft), |done| (done, c.leaf));
            let at = rect.right_center() - vec2(14.0, 0.0);
            let drawn = ui.painter().text(at, Align2::RIGHT_CENTER, right, words(14.0), ink);
            (hint(cx.client, room), c.ink, drawn.min.x)
        }
    };
    let mut job = egui::text::LayoutJob::simple(hint, strong(15.0), ink, right - rect.min.x - 28.0);
    job.wrap.max_rows = 1;
    let galley = ui.painter().layout_job(job);
    let at = pos2(rect.min.x + 14.0, rect.center().y - galley.size().y / 2.0);
    ui.painter().galley(at, galley, ink);
}

/// What the next tap does, and what Esc does.
fn hint(client: &ClientView, room: &SheetRoom) -> String {
    match (&room.hand.held, &room.hand.selected[..]) {
        (Held::FromTray { new, .. }, _) => {
            let name = client.goods.get(&new.stock).map_or("Bloom".to_owned(), |good| good.name.clone());
            format!("{name}, {}. Tap the wrist to place it (Esc to cancel).", new.colour)
        }
        (Held::Lifted(ids), _) => {
            format!("Moving {}. Tap the new place (Esc to cancel).", counted(ids.len(), "part", "parts"))
        }
        (Held::Nothing, []) => "Tap a flower below, then tap the wrist.".to_owned(),
        (Held::Nothing, [one]) => {
            let piece = client.piece();
            let name = piece.part(*one).map_or_else(String::new, |part| part_name(piece, part, client));
            format!("{name} selected. Drag it, or use the arrow keys (Shift: 5 mm).")
        }
        (Held::Nothing, many) => format!("{} parts selected. Drag one, or use the arrow keys.", many.len()),
    }
}
