//! Pictures beside the sheet: boards with a piece on the arm, each drawn on a thread of its own and shown when it is done.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{Rect, Ui, pos2};

use crate::app::sheet::canvas::{Canvas, Subject};
use crate::app::sheet::overlay::area_of;
use crate::app::sheet::wrist_sheet::{Tone, frame_to_fit, scene_of};
use crate::app::shell::window::Window;
use crate::app::widgets::theme::colour_of;
use crate::piece::Piece;
use crate::sheet::{LIFE_SIZE, View};
use crate::stock::Stock;

/// Pictures kept at once; our choice, more than any page shows.
const MOST: usize = 12;

/// The pictures, by a name of their own.
#[derive(Default)]
pub(crate) struct Pictures {
    canvases: BTreeMap<String, Canvas>,
}

impl Pictures {
    /// Whether one of them could not be drawn since this was last asked.
    pub(crate) fn take_failure(&mut self) -> bool {
        // All are asked, so that one sentence stands for all.
        self.canvases.values_mut().fold(false, |failed, canvas| canvas.take_failure() || failed)
    }
}

/// A piece and where its picture goes. One name always stands for the same piece at one revision of the order.
pub(crate) struct Framed<'a> {
    pub(crate) name: &'a str,
    pub(crate) piece: &'a Piece,
    pub(crate) rect: Rect,
    pub(crate) view: View,
}

/// One scale for all: that of the largest.
pub(crate) fn common_view<'a>(pieces: impl Iterator<Item = &'a Piece>, stock: &Stock, size: egui::Vec2) -> View {
    let frames = pieces.map(|piece| frame_to_fit(piece, stock));
    let all = frames.reduce(|a, b| a.union(b)).unwrap_or(kurbo::Rect::new(-60.0, -60.0, 60.0, 60.0));
    let mut view = View { area: area_of(Rect::from_min_size(pos2(0.0, 0.0), size)), ..View::new() };
    view.fit(all, LIFE_SIZE * 1.35);
    view
}

/// The picture of a piece, on the arm and the cloth of the sheet.
pub(crate) fn picture_ui(ui: &Ui, w: &mut Window, framed: &Framed<'_>) {
    let rect = framed.rect.round();
    let painter = ui.painter_at(rect);
    let view = View { area: area_of(rect), ..framed.view };
    let tone = Tone { skin: w.looks.skin, dress: w.cloth() };
    if let Some(rgb) = tone.dress {
        painter.rect_filled(rect, 0.0, colour_of(rgb));
    }
    let subject =
        Subject { revision: w.session.revision(), lifted: Vec::new(), skin: tone.skin, dress: tone.dress, eyes: None };
    let kept = &mut w.pictures.canvases;
    if kept.len() >= MOST && !kept.contains_key(framed.name) {
        kept.clear();
    }
    let canvas = kept.entry(framed.name.to_owned()).or_insert_with(Canvas::patient);
    let (order, stock) = (w.session.order(), w.session.stock());
    canvas.paint(&painter, subject, view, kurbo::Vec2::ZERO, || {
        scene_of(framed.piece.clone(), order, Arc::clone(stock), tone, &view)
    });
}
