//! A piece on the arm beside others, all at one scale.

use egui::{Rect, Ui, pos2};

use crate::app::context::Context;
use crate::app::picture::canvas::PictureSubject;
use crate::app::picture::pencil::area_of;
use crate::app::view::ClientView;
use crate::app::widgets::theme::colour_of;
use crate::piece::Piece;
use crate::sheet::{LIFE_SIZE, View};

/// A piece and where its picture goes. One name always stands for the same piece at one revision of the order.
pub(crate) struct Framed<'a> {
    pub(crate) name: &'a str,
    pub(crate) piece: &'a Piece,
    pub(crate) rect: Rect,
    pub(crate) view: View,
}

/// One scale for all: that of the largest.
pub(crate) fn common_view<'a>(pieces: impl Iterator<Item = &'a Piece>, client: &ClientView, size: egui::Vec2) -> View {
    let frames = pieces.map(|piece| client.frame_to_fit(piece));
    let all = frames.reduce(|a, b| a.union(b)).unwrap_or(kurbo::Rect::new(-60.0, -60.0, 60.0, 60.0));
    let mut view = View { area: area_of(Rect::from_min_size(pos2(0.0, 0.0), size)), ..View::new() };
    view.fit(all, LIFE_SIZE * 1.35);
    view
}

/// The picture of a piece, on the arm and the cloth of the sheet.
pub(crate) fn picture_ui(ui: &Ui, cx: &Context<'_>, framed: &Framed<'_>) {
    let rect = framed.rect.round();
    let painter = ui.painter_at(rect);
    let view = View { area: area_of(rect), ..framed.view };
    let tone = cx.tone();
    if let Some(rgb) = tone.dress {
        painter.rect_filled(rect, 0.0, colour_of(rgb));
    }
    let subject = PictureSubject {
        revision: cx.client.revision,
        lifted: Vec::new(),
        skin: tone.skin,
        dress: tone.dress,
        eyes: None,
    };
    let mut boards = cx.images.boards.borrow_mut();
    let canvas = boards.of(framed.name);
    canvas.paint(&painter, subject, view, kurbo::Vec2::ZERO, || {
        cx.client.scene(framed.piece.clone(), tone, view.seen_and_more())
    });
}
