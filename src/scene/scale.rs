//! What gives a picture its scale: a ruler in millimetres and a plain disc the size of a coin. Scene space, mm.

use kurbo::{Affine, BezPath, Point, Rect, Shape as _, Vec2};

use super::brush::{circle, linear, radial};
use super::draft::{Draft, LIGHT};
use super::hues::PLUM;
use super::picture::BLEED_MM;
use super::{Group, Key, Scene, digits};
use crate::colour::Rgb;

/// A coin about as large as those that most purses hold, mm; from memory. The disc shows nobody's money.
pub const COIN_MM: f64 = 24.0;

/// Ink of rulers and marks.
pub(super) const INK: Rgb = Rgb::hex(0x4a3440);
/// Height of the figures on a ruler, mm.
const FIGURE_MM: f64 = 2.6;
/// Longest ruler, mm.
const LONGEST_MM: f64 = 1000.0;

/// Which way a ruler runs on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RulerDirection {
    /// Upward.
    Up,
    /// To the right.
    Right,
}

/// A plain metal disc of this diameter about `centre`.
pub fn coin(centre: Point, diameter_mm: f64) -> Group {
    let r = if diameter_mm.is_finite() { (diameter_mm / 2.0).clamp(0.5, 60.0) } else { COIN_MM / 2.0 };
    let mut draft = Draft::new(24, LIGHT);
    let metal = Rgb::hex(0xc9b98c);
    draft.cast(r, 0.4);
    let up = draft.lightward() * r;
    draft.group.fill(
        circle(Point::ZERO, r),
        linear(
            up.to_point(),
            (-up).to_point(),
            &[(0.0, metal.lighter(0.12).solid()), (0.5, metal.solid()), (1.0, metal.lighter(-0.2).solid())],
        ),
    );
    let face =
        [(0.0, metal.lighter(0.1).solid()), (0.6, metal.lighter(0.02).solid()), (1.0, metal.lighter(-0.06).solid())];
    draft.group.fill(circle(Point::ZERO, r * 0.9), radial((up * 0.35).to_point(), r * 1.35, &face));
    draft.group.stroke(circle(Point::ZERO, r * 0.8), r * 0.02, metal.lighter(-0.14).paint(0.6));
    draft.group.key = Key::Annotations;
    draft.group.transform = Affine::translate(if centre.is_finite() { centre.to_vec2() } else { Vec2::ZERO });
    draft.group
}

/// A ruler from `from`: a tick to the millimetre, longer ones at five and ten, a figure to each centimetre. Ticks stand to
/// the left of a ruler that runs up, and under one that runs to the right.
pub fn ruler(from: Point, length_mm: f64, run: RulerDirection) -> Group {
    let length = if length_mm.is_finite() { length_mm.clamp(1.0, LONGEST_MM) } else { 1.0 };
    let mut group = Group::new(Key::Annotations, Affine::IDENTITY);
    if !from.is_finite() {
        return group;
    }
    let (along, aside) = match run {
        RulerDirection::Up => (Vec2::new(1.0, 0.0), Vec2::new(0.0, -1.0)),
        RulerDirection::Right => (Vec2::new(0.0, 1.0), Vec2::new(-1.0, 0.0)),
    };
    let mut ticks = BezPath::new();
    ticks.move_to(from);
    ticks.line_to(from + along * length);
    for mm in (0..=1000_u32).take_while(|&mm| f64::from(mm) <= length + 1e-9) {
        let start = from + along * f64::from(mm);
        let long = if mm.is_multiple_of(10) {
            3.0
        } else if mm.is_multiple_of(5) {
            2.1
        } else {
            1.2
        };
        ticks.move_to(start);
        ticks.line_to(start + aside * long);
        if mm.is_multiple_of(10) {
            let room = match run {
                RulerDirection::Up => digits::width_of(mm, FIGURE_MM) / 2.0 + 4.0,
                RulerDirection::Right => FIGURE_MM / 2.0 + 4.0,
            };
            digits::write(&mut group, mm, start + aside * room, FIGURE_MM, INK.paint(0.9));
        }
    }
    group.stroke(ticks, 0.18, INK.paint(0.85));
    group
}

/// The picture with a coin and a ruler in its lower corners; they take nothing away from what it shows, as the picture
/// grows downward by the room that they need.
pub fn with_scale(scene: Scene, coin_mm: f64) -> Scene {
    let frame = scene.frame;
    let mut scene = with_coin(scene, coin_mm);
    if frame.is_finite() {
        let start = frame.y0 + ROOM_MM + 10.0;
        let length = ((frame.y1 - 6.0 - start) / 10.0).floor().clamp(1.0, 10.0) * 10.0;
        let middle = frame.x0 - ROOM_MM / 2.0;
        scene.groups.push(ruler(Point::new(middle + 3.0, start), length, RulerDirection::Right));
    }
    scene
}

/// Height of the strip below a picture for what gives it its scale.
const ROOM_MM: f64 = 32.0;

/// The picture with a coin in its lower left corner, on a strip of its own below it.
pub fn with_coin(mut scene: Scene, coin_mm: f64) -> Scene {
    let frame = scene.frame;
    if !frame.is_finite() {
        return scene;
    }
    let floor = frame.x0 - ROOM_MM;
    let mut strip = Group::new(Key::Ground, Affine::IDENTITY);
    let paper = Rect::new(floor - BLEED_MM, frame.y0 - BLEED_MM, frame.x0, frame.y1 + BLEED_MM);
    strip.fill(paper.to_path(0.1), Rgb::hex(0xf6efe8).paint(1.0));
    strip.fill(
        Rect::new(frame.x0, frame.y0 - BLEED_MM, frame.x0 + 0.3, frame.y1 + BLEED_MM).to_path(0.1),
        PLUM.paint(0.14),
    );
    let middle = floor + ROOM_MM / 2.0;
    scene.groups.push(strip);
    scene.groups.push(coin(Point::new(middle, frame.y0 + ROOM_MM / 2.0 + 2.0), coin_mm));
    scene.frame = Rect::new(floor, frame.y0, frame.x1, frame.y1);
    scene
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::PathEl;

    /// Start and end of each straight stroke of the ticks.
    fn strokes(ruler: &Group) -> Vec<(Point, Point)> {
        let Some(super::super::Primitive::Stroke { path, .. }) = ruler.items.last() else { panic!("no ticks") };
        let ends: Vec<PathEl> = path.elements().to_vec();
        let stroke = |pair: &[PathEl]| match pair {
            [PathEl::MoveTo(from), PathEl::LineTo(to)] => (*from, *to),
            other => panic!("{other:?}"),
        };
        ends.chunks(2).map(stroke).collect()
    }

    /// By hand: a ruler of 25 mm has its edge and 26 ticks, a millimetre apart, 3 mm long at the centimetres, 2.1 halfway,
    /// 1.2 else.
    #[test]
    fn a_ruler_has_a_tick_to_the_millimetre() {
        let start = Point::new(3.0, -7.0);
        for (run, along, aside) in [
            (RulerDirection::Right, Vec2::new(0.0, 1.0), Vec2::new(-1.0, 0.0)),
            (RulerDirection::Up, Vec2::new(1.0, 0.0), Vec2::new(0.0, -1.0)),
        ] {
            let strokes = strokes(&ruler(start, 25.0, run));
            assert_eq!(strokes.len(), 27);
            assert_eq!(strokes[0], (start, start + along * 25.0));
            for (mm, (from, to)) in strokes[1..].iter().enumerate() {
                let long = [3.0, 1.2, 1.2, 1.2, 1.2, 2.1, 1.2, 1.2, 1.2, 1.2][mm % 10];
                let wanted = start + along * mm as f64;
                assert!(from.distance(wanted) < 1e-9, "{mm} mm: {from:?}");
                assert!(to.distance(wanted + aside * long) < 1e-9, "{mm} mm: {to:?}");
            }
        }
    }

    /// The figures 0, 10 and 20 stand beside their ticks, ten millimetres from one middle to the next.
    #[test]
    fn the_figures_of_a_ruler_stand_at_their_centimetres() {
        let ruler = ruler(Point::ORIGIN, 29.9, RulerDirection::Right);
        let figures = &ruler.items[..ruler.items.len() - 1];
        let middles: Vec<f64> = figures.iter().map(|item| item.bounds(Affine::IDENTITY).unwrap().center().y).collect();
        assert_eq!(middles.len(), 3);
        for (i, middle) in middles.iter().enumerate() {
            // A one is narrower than the box that it stands in.
            assert!((middle - 10.0 * i as f64).abs() < 0.35, "{middles:?}");
        }
    }
}
