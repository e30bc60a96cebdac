//! Two or three pictures beside each other at one scale, over one ruler. Words are not drawn here: room is left for them.

use kurbo::{Affine, Point, Rect, Shape as _, Vec2};

use super::picture::BLEED_MM;
use super::scale::{RulerDirection, ruler};
use super::{Group, Key, Primitive, Scene};
use crate::colour::Rgb;

/// Between two pictures, mm.
const BETWEEN_MM: f64 = 6.0;
/// Left about all, mm.
const MARGIN_MM: f64 = 8.0;
/// Under each picture for its words, mm.
const WORDS_MM: f64 = 14.0;
/// For the ruler at the bottom, mm.
const RULER_MM: f64 = 14.0;

/// Pictures beside each other.
#[derive(Clone, Debug, PartialEq)]
pub struct SideBySide {
    /// The whole.
    pub scene: Scene,
    /// For each picture the box in which its words belong, in the space of the scene, mm.
    pub words: Vec<Rect>,
}

/// Sets pictures beside each other, left to right, all at the scale of the scene, their pieces' centres at one height. A
/// picture that shows nothing is passed over, and so are all its words.
pub fn side_by_side(pictures: &[Scene]) -> SideBySide {
    let sound: Vec<&Scene> = pictures.iter().filter(|s| s.frame.is_finite() && s.frame.area() > 0.0).collect();
    let high = sound.iter().map(|s| s.frame.x1).fold(0.0, f64::max);
    let low = sound.iter().map(|s| s.frame.x0).fold(0.0, f64::min);
    let wide: f64 = sound.iter().map(|s| s.frame.height() + BETWEEN_MM).sum::<f64>() - BETWEEN_MM;
    let wide = wide.max(60.0);
    let frame = Rect::new(low - WORDS_MM - RULER_MM - MARGIN_MM, -MARGIN_MM, high + MARGIN_MM, wide + MARGIN_MM);
    let mut groups = vec![paper(frame)];
    let mut words = Vec::new();
    let mut left = 0.0;
    for scene in sound {
        let mut card = Group::new(Key::Inner, Affine::translate(Vec2::new(0.0, left - scene.frame.y0)));
        card.items.extend(scene.groups.iter().cloned().map(Primitive::Group));
        groups.push(card);
        hide_around(&mut groups, scene.frame, left, [low, high]);
        words.push(Rect::new(low - WORDS_MM, left, low - 2.0, left + scene.frame.height()));
        left += scene.frame.height() + BETWEEN_MM;
    }
    let length = (wide / 10.0).floor() * 10.0;
    groups.push(ruler(Point::new(low - WORDS_MM - 3.0, 0.0), length, RulerDirection::Right));
    SideBySide { scene: Scene { frame, groups }, words }
}

const PAPER: Rgb = Rgb::hex(0xf8f2eb);

fn paper(frame: Rect) -> Group {
    let mut group = Group::new(Key::Ground, Affine::IDENTITY);
    group.fill(frame.inflate(BLEED_MM, BLEED_MM).to_path(0.1), PAPER.paint(1.0));
    group
}

/// What of a picture's shadows and ribbon runs past its frame is covered with paper, as the scene knows no clipping.
fn hide_around(groups: &mut Vec<Group>, frame: Rect, left: f64, heights: [f64; 2]) {
    const FAR_MM: f64 = 400.0;
    let right = left + frame.height();
    let mut group = Group::new(Key::Ground, Affine::IDENTITY);
    let strips = [
        Rect::new(heights[0] - FAR_MM, left - BETWEEN_MM, heights[1] + FAR_MM, left),
        Rect::new(frame.x1, left - BETWEEN_MM, frame.x1 + FAR_MM, right + BETWEEN_MM),
        Rect::new(frame.x0 - FAR_MM, left - BETWEEN_MM, frame.x0, right + BETWEEN_MM),
        Rect::new(heights[0] - FAR_MM, right, heights[1] + FAR_MM, right + FAR_MM),
    ];
    for strip in strips {
        group.fill(strip.to_path(0.1), PAPER.paint(1.0));
    }
    groups.push(group);
}
