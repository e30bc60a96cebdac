//! What is pencilled over the picture: the oval, marks of the once-over, rulers, what is selected, what is in the hand.

use egui::emath::GuiRounding as _;
use egui::{Align2, Color32, Painter, Pos2, Shape, Stroke, pos2};
use kurbo::{Affine, Point, Rect};

use crate::app::widgets::points::{f32_of, pos};
use crate::app::widgets::theme::{Colours, words};
use crate::geometry::{Oval, Shape as Outline};
use crate::once_over::Annotation;
use crate::sheet::{RulerAxis, RulerTick, View, ruler_ticks};
use crate::units::{inches_text, mm_text};

/// A pencil for one sheet.
pub(crate) struct Pencil<'a> {
    pub(crate) painter: &'a Painter,
    pub(crate) view: &'a View,
    pub(crate) colours: Colours,
    /// Whether lengths are shown in inches.
    pub(crate) inches: bool,
}

impl Pencil<'_> {
    fn at(&self, p: Point) -> Pos2 {
        pos(self.view.to_screen(p))
    }

    /// The oval, in fine dots: each is a disc that lies ready beside the letters, a dash would be cut anew in every frame.
    pub(crate) fn oval(&self, oval: Oval) {
        let ink = self.colours.soft.gamma_multiply(0.8);
        self.painter.extend(Shape::dotted_line(&self.ring_points(oval, 1.0), ink, 5.5, 1.0));
    }

    /// A mark of the once-over.
    pub(crate) fn mark(&self, mark: &Annotation, oval: Oval) {
        let rose = Stroke::new(2.4, self.colours.rose);
        match *mark {
            Annotation::Ring { centre, radius } => {
                let ring: Vec<Pos2> = (0..=64)
                    .map(|k| {
                        self.at(centre + kurbo::Vec2::from_angle(f64::from(k) / 64.0 * std::f64::consts::TAU) * radius)
                    })
                    .collect();
                self.painter.extend(Shape::dotted_line(&ring, self.colours.rose, 7.0, 1.9));
            }
            Annotation::Axis { from, to } => {
                let (a, b) = (self.at(from), self.at(to));
                self.painter.extend(Shape::dashed_line(&[a, b], rose, 9.0, 4.0));
                let way = (b - a).normalized() * 11.0;
                for turn in [2.6_f32, -2.6] {
                    let barb = egui::emath::Rot2::from_angle(turn) * way;
                    self.painter.line_segment([b, b + barb], rose);
                }
            }
            Annotation::Wedge { from_rad, to_rad } => self.wedge(oval, from_rad, to_rad),
            Annotation::Ruler { from, to } => {
                let (a, b) = (self.at(from), self.at(to));
                self.painter.line_segment([a, b], rose);
                let across = (b - a).normalized().rot90() * 7.0;
                for end in [a, b] {
                    self.painter.line_segment([end - across, end + across], rose);
                }
                let long = from.distance(to);
                let told =
                    if self.inches { format!("{} in", inches_text(long)) } else { format!("{} mm", mm_text(long)) };
                self.tag(a + (b - a) * 0.5 + across * 2.4, &told);
            }
        }
    }

    fn wedge(&self, oval: Oval, from: f64, to: f64) {
        const STEPS: u32 = 24;
        let rim = |k: u32| {
            let a = from + (to - from) * f64::from(k) / f64::from(STEPS);
            self.at(Point::new(oval.a * a.cos(), oval.b * a.sin()))
        };
        let mut points = vec![self.at(Point::ZERO)];
        points.extend((0..=STEPS).map(rim));
        let fill = self.colours.rose.gamma_multiply(0.16);
        // A wedge under half a turn is convex; a wider one is drawn in two halves.
        if to - from < std::f64::consts::PI {
            self.painter.add(Shape::convex_polygon(points.clone(), fill, Stroke::NONE));
        }
        points.push(points[0]);
        self.painter.extend(Shape::dashed_line(&points, Stroke::new(2.0, self.colours.rose), 8.0, 4.0));
        let middle = f64::midpoint(from, to);
        let label = self.at(Point::new(0.6 * oval.a * middle.cos(), 0.6 * oval.b * middle.sin()));
        self.tag(label, &format!("{:.0}\u{b0}", (to - from).to_degrees()));
    }

    /// The outline of a selected part.
    pub(crate) fn selected(&self, shape: &Outline) {
        let points = self.outline_points(shape);
        self.painter.add(Shape::closed_line(points.clone(), Stroke::new(4.5, self.colours.card.gamma_multiply(0.85))));
        self.painter.add(Shape::closed_line(points, Stroke::new(2.2, self.colours.rose)));
    }

    /// The outline of what is in the hand.
    pub(crate) fn held(&self, shape: &Outline) {
        let mut points = self.outline_points(shape);
        points.push(points[0]);
        self.painter.extend(Shape::dashed_line(&points, Stroke::new(2.2, self.colours.rose), 6.0, 5.0));
    }

    /// Paper along the left and the lower edge, so that a ruler can be read over any cloth.
    pub(crate) fn edges(&self) {
        let area = self.view.area;
        let paper = self.colours.paper.gamma_multiply(0.88);
        let (corner, end) = (pos(area.origin()), pos(Point::new(area.x1, area.y1)));
        let (wide, high) = (42.0, 32.0);
        self.painter.rect_filled(egui::Rect::from_min_max(corner, pos2(corner.x + wide, end.y)), 0.0, paper);
        self.painter.rect_filled(egui::Rect::from_min_max(pos2(corner.x + wide, end.y - high), end), 0.0, paper);
    }

    /// Rulers along the left and the lower edge, counted from the centre point.
    pub(crate) fn rulers(&self) {
        let area = self.view.area;
        let (left, top) = (f32_of(area.x0), f32_of(area.y0));
        let (right, bottom) = (f32_of(area.x1), f32_of(area.y1));
        let ink = self.colours.soft;
        let per_point = self.painter.pixels_per_point();
        let mut marks = egui::Mesh::default();
        let mut tick = |at: Pos2, size: egui::Vec2| {
            marks.add_colored_rect(egui::Rect::from_min_size(at, size).round_to_pixels(per_point), ink);
        };
        let length = |long| if long { 10.0 } else { 5.0 };
        for RulerTick { mm, at, is_long } in ruler_ticks(self.view, RulerAxis::AlongTheArm, self.inches) {
            let y = f32_of(at);
            tick(pos2(left, y - 0.5), egui::vec2(length(is_long), 1.0));
            if is_long && y < bottom - 30.0 && y > top + 8.0 {
                self.figure(pos2(left + 13.0, y), Align2::LEFT_CENTER, mm, ink);
            }
        }
        for RulerTick { mm, at, is_long } in ruler_ticks(self.view, RulerAxis::AcrossTheArm, self.inches) {
            let x = f32_of(at);
            tick(pos2(x - 0.5, bottom - length(is_long)), egui::vec2(1.0, length(is_long)));
            if is_long && x > left + 14.0 && x < right - 14.0 {
                self.figure(pos2(x, bottom - 12.0), Align2::CENTER_BOTTOM, mm, ink);
            }
        }
        self.painter.add(marks);
    }

    /// The outline of a coin at the scale of the piece, in the lower left corner of the sheet.
    pub(crate) fn coin(&self, diameter_mm: f64, name: &str) {
        let area = self.view.area;
        let radius = diameter_mm / 2.0 * self.view.scale;
        let centre = pos(Point::new(area.x0 + radius + 26.0, area.y1 - radius - 40.0));
        self.painter.circle(centre, f32_of(radius), self.colours.card, Stroke::new(1.6, self.colours.soft));
        self.painter.circle_stroke(centre, f32_of(radius * 0.9), Stroke::new(0.8, self.colours.line));
        self.tag(centre + egui::vec2(0.0, f32_of(radius) + 18.0), name);
    }

    fn figure(&self, at: Pos2, align: Align2, mm: f64, ink: Color32) {
        let told = if self.inches { inches_text(mm.abs()) } else { mm_text(mm.abs()) };
        self.painter.text(at, align, told, words(13.0), ink);
    }

    /// Words on a small card, so that they can be read over flowers.
    fn tag(&self, at: Pos2, label: &str) {
        let galley = self.painter.layout_no_wrap(label.to_owned(), words(15.0), self.colours.ink);
        let rect = Align2::CENTER_CENTER.anchor_size(at, galley.size()).expand2(egui::vec2(7.0, 3.0));
        self.painter.rect_filled(rect, 6.0, self.colours.card);
        self.painter.galley(rect.min + egui::vec2(7.0, 3.0), galley, self.colours.ink);
    }

    fn ring_points(&self, oval: Oval, times: f64) -> Vec<Pos2> {
        const STEPS: u32 = 120;
        let at = |k: u32| {
            let a = f64::from(k) / f64::from(STEPS) * std::f64::consts::TAU;
            self.at(Point::new(times * oval.a * a.cos(), times * oval.b * a.sin()))
        };
        (0..=STEPS).map(at).collect()
    }

    fn outline_points(&self, shape: &Outline) -> Vec<Pos2> {
        const STEPS: u32 = 48;
        let turn = |k: u32| f64::from(k) / f64::from(STEPS) * std::f64::consts::TAU;
        match shape {
            Outline::Disc(d) => {
                (0..STEPS).map(|k| self.at(d.centre + kurbo::Vec2::from_angle(turn(k)) * d.radius)).collect()
            }
            Outline::Lens(l) => {
                let frame = Affine::translate(l.centre.to_vec2()) * Affine::rotate(l.turn);
                let side = |u: f64| l.width / 2.0 * (1.0 - (2.0 * u / l.length).powi(2)).max(0.0);
                let along = |k: u32| l.length * (f64::from(k) / f64::from(STEPS / 2) - 0.5);
                let there = (0..=STEPS / 2).map(|k| Point::new(along(k), side(along(k))));
                let back = (1..STEPS / 2).rev().map(|k| Point::new(along(k), -side(along(k))));
                there.chain(back).map(|p| self.at(frame * p)).collect()
            }
        }
    }
}

/// A screen rectangle as kurbo has it.
pub(crate) fn area_of(rect: egui::Rect) -> Rect {
    Rect::new(f64::from(rect.min.x), f64::from(rect.min.y), f64::from(rect.max.x), f64::from(rect.max.y))
}
