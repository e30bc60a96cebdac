//! Words below a picture, for the client. The scene knows no letters, so in pixels and
//! paths they are outlines in a strip of paper; in a PDF they are text.

use std::sync::Arc;

use kurbo::{Affine, Point, Rect, Shape as _};

use super::lettering::{Face, Run, wrapped};
use crate::book::Letterhead;
use crate::colour::Rgb;
use crate::scene::{Group, Key, Paint, Primitive, Scene, Tint};

/// Size of the letters, as a share of the picture's width; our choice.
const SIZE_SHARE: f64 = 0.05;
/// The same where the shop signs its picture: small, so that the flowers are looked at; our choice.
const SIGNED_SHARE: f64 = 0.026;
/// Room above and below the words, and beside them, in sizes.
const ROOM: f64 = 0.7;
/// From one line to the next, in sizes.
const LEADING: f64 = 1.25;
/// More lines than these are cut.
const MOST_LINES: usize = 4;
/// How far the paper runs past the frame, mm, so that its last row of pixels is covered whole.
const BLEED_MM: f64 = 2.0;
const INK: Rgb = Rgb::hex(0x2b1b26);
const PAPER: Rgb = Rgb::hex(0xf6efe8);

/// Words laid out for the strip below a picture, all of it upright: mm from the picture's upper left corner, y downward.
#[derive(Clone, Debug)]
pub(super) struct Caption {
    /// A line each, with the start of its baseline.
    pub(super) lines: Vec<(Run, Point)>,
    /// Size of the letters.
    pub(super) size_mm: f64,
    /// The strip of paper that they stand on.
    pub(super) strip: Rect,
}

impl Caption {
    pub(super) const INK: Rgb = INK;
    pub(super) const PAPER: Rgb = PAPER;

    /// The words below a picture that shows `frame`; none where there are no words or no picture.
    pub(super) fn below(frame: Rect, words: &str) -> Option<Self> {
        Self::sized(frame, words, SIZE_SHARE)
    }

    fn sized(frame: Rect, words: &str, share: f64) -> Option<Self> {
        if words.trim().is_empty() || !frame.is_finite() || frame.area() <= 0.0 {
            return None;
        }
        // Upright, the frame's height is the width.
        let (wide, top) = (frame.height(), frame.width());
        let size = wide * share;
        let room = wide - 2.0 * ROOM * size;
        let mut lines = wrapped(words, Face::Title, size, room);
        if lines.len() > MOST_LINES {
            let rest: Vec<&str> = lines[MOST_LINES - 1..].iter().map(|line| line.text.as_str()).collect();
            let last = Run::cut(&format!("{} \u{2026}", rest.join(" ")), Face::Title, size, room);
            lines.truncate(MOST_LINES - 1);
            lines.push(last);
        }
        let high = (lines.len() as f64 * LEADING + 2.0 * ROOM) * size;
        let place = |(i, line): (usize, Run)| {
            let x = (wide - line.width_mm(size)) / 2.0;
            (line, Point::new(x, top + (ROOM + 0.9 + i as f64 * LEADING) * size))
        };
        let lines = lines.into_iter().enumerate().map(place).collect();
        Some(Self { lines, size_mm: size, strip: Rect::new(0.0, top, wide, top + high) })
    }
}

/// The picture with words below it; it grows downward by the room that they need.
pub fn captioned(scene: Scene, words: &str) -> Scene {
    let caption = Caption::below(scene.frame, words);
    with_strip(scene, caption)
}

/// The picture signed by the shop: its name below it, small, where it wants that.
pub fn signed(scene: Scene, shop: &Letterhead) -> Scene {
    let caption = Caption::sized(scene.frame, &shop.name, SIGNED_SHARE).filter(|_| shop.on_picture);
    with_strip(scene, caption)
}

fn with_strip(mut scene: Scene, caption: Option<Caption>) -> Scene {
    let frame = scene.frame;
    let Some(caption) = caption else { return scene };
    let Caption { lines, size_mm, strip: paper } = caption;
    let high = paper.height();
    let mut strip = Group::new(Key::Ground, Affine::IDENTITY);
    let paper = Rect::new(frame.x0 - high - BLEED_MM, frame.y0 - BLEED_MM, frame.x0, frame.y1 + BLEED_MM);
    strip.fill(paper.to_path(0.1), solid(PAPER));
    // From the picture's upper left corner, x to the right and y downward, to the space of the piece.
    let place = Affine::new([0.0, 1.0, -1.0, 0.0, frame.x1, frame.y0]);
    for (line, at) in lines {
        let path = place * Affine::translate(at.to_vec2()) * line.outline(size_mm);
        strip.items.push(Primitive::Fill { path: Arc::new(path), paint: solid(INK) });
    }
    scene.groups.push(strip);
    scene.frame = Rect { x0: frame.x0 - high, ..frame };
    scene
}

fn solid(rgb: Rgb) -> Paint {
    Paint::Solid(Tint { rgb, alpha: 1.0 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_is_signed_small_where_the_shop_wants_it() {
        let scene = || Scene { frame: Rect::new(-50.0, -40.0, 60.0, 40.0), groups: Vec::new() };
        let shop = |name: &str, on_picture| Letterhead { on_picture, ..Letterhead::named(name) };
        for unsigned in [shop("Quillfern", false), shop(" ", true)] {
            assert_eq!(signed(scene(), &unsigned), scene());
        }
        let strip = |scene: Scene| scene.frame.width() - 110.0;
        let small = strip(signed(scene(), &shop("Quillfern", true)));
        assert!(small > 0.0 && small < 0.6 * strip(captioned(scene(), "Quillfern")), "{small}");
    }

    #[test]
    fn words_stand_below_the_picture_and_within_its_width() {
        let scene = || Scene { frame: Rect::new(-50.0, -40.0, 60.0, 40.0), groups: Vec::new() };
        assert_eq!(captioned(scene(), "  "), scene());
        let long = "Nguy\u{1ec5}n ".repeat(60);
        for words in ["Mina, Harbour Hall", long.as_str()] {
            let with = captioned(scene(), words);
            assert!(with.frame.x0 < -50.0 && with.frame.x1 == 60.0 && with.frame.height() == 80.0);
            let [strip] = &with.groups[..] else { panic!("one strip") };
            let letters = &strip.items[1..];
            assert!((1..=MOST_LINES).contains(&letters.len()));
            for line in letters {
                let around = line.bounds(Affine::IDENTITY).unwrap();
                assert!(around.x0 > with.frame.x0 && around.x1 < -50.0, "{around:?}");
                assert!(around.y0 > -40.0 && around.y1 < 40.0, "{around:?}");
            }
        }
    }
}
