//! A rectangle with round corners and an edge, of few triangles.
//!
//! Cards, buttons and tiles are most of what a window shows, and each is painted anew in every frame. egui cuts the round
//! corners of one into some 200 triangles. Beside its letters it keeps discs, though: two of them make a corner, two
//! triangles each, and the rest is plain. A plate takes 30, which is felt on a machine without a graphics card while a bloom
//! is dragged.

use egui::emath::GuiRounding as _;
use egui::{Color32, Mesh, Painter, Rect, Shape, Stroke, StrokeKind, pos2, vec2};

use crate::app::widgets::theme::ROUND;

/// The largest disc beside the letters, pixels; a larger one would be cut like any circle.
const LARGEST_DISC: f32 = 6.7;

/// Paints a plate; its edge lies inside, whole pixels wide.
pub(crate) fn plate(painter: &Painter, rect: Rect, fill: Color32, edge: Stroke) {
    paint(painter, rect, fill, edge, true);
}

/// Paints the edge of a plate that is of the ground it lies on: nothing is painted where nothing would be seen.
pub(crate) fn edge_on(painter: &Painter, rect: Rect, ground: Color32, edge: Stroke) {
    paint(painter, rect, ground, edge, false);
}

fn paint(painter: &Painter, rect: Rect, fill: Color32, edge: Stroke, filled: bool) {
    let per_point = painter.pixels_per_point();
    let radius = f32::from(ROUND.nw);
    let wide = (edge.width * per_point).round().max(1.0) / per_point;
    let fits = radius * per_point <= LARGEST_DISC && wide < radius && rect.size().min_elem() >= 2.0 * radius;
    if !fits || !fill.is_opaque() || !edge.color.is_opaque() {
        painter.rect(rect, ROUND, fill, edge, StrokeKind::Inside);
        return;
    }
    let rect = rect.round_to_pixels(per_point);
    let ends = rect.shrink(radius);
    let corners = [ends.left_top(), ends.right_top(), ends.left_bottom(), ends.right_bottom()];
    let disc = |radius, colour| corners.map(|at| Shape::circle_filled(at, radius, colour));
    painter.extend(disc(radius, edge.color));
    let mut between = edges(rect, radius, wide, edge.color);
    if filled {
        add_fill(&mut between, rect, radius, wide, fill);
    } else {
        hide_discs(&mut between, rect, radius, wide, fill);
    }
    painter.add(Shape::mesh(between));
    painter.extend(disc(radius - wide, fill));
}

/// The four strips of the edge, from corner to corner.
fn edges(rect: Rect, radius: f32, wide: f32, colour: Color32) -> Mesh {
    let (outer, inner, ends) = (rect, rect.shrink(wide), rect.shrink(radius));
    let mut mesh = Mesh::default();
    let mut strip = |x0, y0, x1, y1| mesh.add_colored_rect(Rect::from_min_max(pos2(x0, y0), pos2(x1, y1)), colour);
    strip(ends.min.x, outer.min.y, ends.max.x, inner.min.y);
    strip(ends.min.x, inner.max.y, ends.max.x, outer.max.y);
    strip(outer.min.x, ends.min.y, inner.min.x, ends.max.y);
    strip(inner.max.x, ends.min.y, outer.max.x, ends.max.y);
    mesh
}

/// What lies within the edge, all but the corners.
fn add_fill(mesh: &mut Mesh, rect: Rect, radius: f32, wide: f32, colour: Color32) {
    let (inner, ends) = (rect.shrink(wide), rect.shrink(radius));
    let side = vec2(radius - wide, ends.height());
    mesh.add_colored_rect(Rect::from_x_y_ranges(ends.x_range(), inner.y_range()), colour);
    mesh.add_colored_rect(Rect::from_min_size(pos2(inner.min.x, ends.min.y), side), colour);
    mesh.add_colored_rect(Rect::from_min_size(pos2(ends.max.x, ends.min.y), side), colour);
}

/// Covers what the corners' discs show within the edge, where nothing fills the plate.
fn hide_discs(mesh: &mut Mesh, rect: Rect, radius: f32, wide: f32, ground: Color32) {
    let (inner, ends) = (rect.shrink(wide), rect.shrink(radius));
    for (x, inwards) in [(ends.min.x, 1.0), (ends.max.x, -1.0)] {
        for (y, edge, downwards) in [(ends.min.y, inner.min.y, 1.0), (ends.max.y, inner.max.y, -1.0)] {
            let beyond = pos2(x + inwards * (radius + 1.0), y + downwards * (radius + 1.0));
            mesh.add_colored_rect(Rect::from_two_pos(pos2(x, edge), beyond), ground);
            mesh.add_colored_rect(
                Rect::from_two_pos(pos2(x - inwards * (radius - wide), y), pos2(x, beyond.y)),
                ground,
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a plate of this size becomes on a screen of `per_point` pixels to a point.
    fn triangles(size: egui::Vec2, per_point: f32, fill: Color32) -> usize {
        let ctx = egui::Context::default();
        let rect = Rect::from_min_size(pos2(20.0, 30.0), size);
        let mut input = egui::RawInput { screen_rect: Some(rect.expand(40.0)), ..Default::default() };
        input.viewports.entry(egui::ViewportId::ROOT).or_default().native_pixels_per_point = Some(per_point);
        let mut out = ctx.run_ui(input, |ui| plate(ui.painter(), rect, fill, Stroke::new(1.0, Color32::BLACK)));
        out.textures_delta.clear();
        let cut = ctx.tessellate(out.shapes, out.pixels_per_point);
        let of = |part: egui::ClippedPrimitive| match part.primitive {
            egui::epaint::Primitive::Mesh(mesh) => mesh.indices.len() / 3,
            egui::epaint::Primitive::Callback(_) => 0,
        };
        cut.into_iter().map(of).sum()
    }

    #[test]
    fn a_plate_is_thirty_triangles() {
        assert_eq!(triangles(vec2(200.0, 60.0), 1.0, Color32::WHITE), 30);
    }

    #[test]
    fn what_the_discs_cannot_paint_is_cut_as_usual() {
        let usual = triangles(vec2(200.0, 60.0), 1.0, Color32::from_white_alpha(90));
        assert!(usual > 100, "clear ones: {usual}");
        assert!(triangles(vec2(200.0, 60.0), 2.0, Color32::WHITE) > 100, "fine screens");
        assert!(triangles(vec2(200.0, 8.0), 1.0, Color32::WHITE) > 30, "thin ones");
    }

    #[test]
    fn the_parts_fill_the_plate_once() {
        let rect = Rect::from_min_size(pos2(10.0, 20.0), vec2(90.0, 40.0));
        let mut mesh = edges(rect, 6.0, 2.0, Color32::BLACK);
        add_fill(&mut mesh, rect, 6.0, 2.0, Color32::WHITE);
        let area = |corner: &[egui::epaint::Vertex]| {
            let (a, b) = (corner[0].pos, corner[3].pos);
            (b - a).x * (b - a).y
        };
        let painted: f32 = mesh.vertices.chunks(4).map(area).sum();
        // The four corners, 6 by 6 each, are the discs'.
        assert!((painted - (90.0 * 40.0 - 4.0 * 36.0)).abs() < 1e-3, "{painted}");
    }
}
