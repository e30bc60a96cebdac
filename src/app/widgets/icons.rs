//! Small drawings for buttons: a few strokes on a square of 24, so that they need no font and stay crisp.

use egui::{Color32, Painter, Pos2, Rect, Shape, Stroke, pos2};

/// What is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Icon {
    Undo,
    Redo,
    Turn,
    Larger,
    Smaller,
    Raise,
    Locked,
    Free,
    Copy,
    Lift,
    Remove,
    Sketch,
    Price,
    Colour,
    Screen,
    Help,
    Well,
    Note,
    Light,
    Letters,
    Whole,
    House,
    Shop,
    More,
    Less,
    Back,
    On,
    Month,
    Before,
    After,
    Stock,
    Star,
    Hidden,
    Photo,
}

/// One stroke: points on the square of 24, closed or not.
type Line = (Vec<[f32; 2]>, bool);

/// Draws `icon` in the middle of `rect`, `size` points large.
pub(crate) fn paint_icon(painter: &Painter, icon: Icon, rect: Rect, size: f32, colour: Color32) {
    let scale = size / 24.0;
    let from = rect.center() - egui::vec2(size, size) / 2.0;
    let place = |p: [f32; 2]| -> Pos2 { pos2(from.x + p[0] * scale, from.y + p[1] * scale) };
    let stroke = Stroke::new((1.9 * scale).max(1.4), colour);
    for (points, closed) in lines(icon) {
        let points: Vec<Pos2> = points.into_iter().map(place).collect();
        painter.add(if closed { Shape::closed_line(points, stroke) } else { Shape::line(points, stroke) });
    }
}

fn lines(icon: Icon) -> Vec<Line> {
    match icon {
        Icon::Photo => camera(),
        Icon::Back => vec![(vec![[15.0, 5.0], [8.0, 12.0], [15.0, 19.0]], false)],
        Icon::On => vec![(vec![[9.0, 5.0], [16.0, 12.0], [9.0, 19.0]], false)],
        Icon::Undo => vec![(arc(12.0, 13.0, 7.0, -150.0, 100.0), false), open(&[[5.0, 4.5], [5.6, 9.6], [10.6, 9.0]])],
        Icon::Redo => {
            vec![(arc(12.0, 13.0, 7.0, -30.0, -280.0), false), open(&[[19.0, 4.5], [18.4, 9.6], [13.4, 9.0]])]
        }
        Icon::Turn => {
            vec![(arc(12.0, 12.0, 7.5, -60.0, 210.0), false), open(&[[10.5, 4.0], [15.8, 5.4], [14.4, 10.4]])]
        }
        Icon::Larger => {
            vec![circle(12.0, 12.0, 8.0), open(&[[12.0, 8.0], [12.0, 16.0]]), open(&[[8.0, 12.0], [16.0, 12.0]])]
        }
        Icon::Smaller => vec![circle(12.0, 12.0, 8.0), open(&[[8.0, 12.0], [16.0, 12.0]])],
        Icon::Raise => vec![
            open(&[[12.0, 16.0], [12.0, 4.5]]),
            open(&[[7.0, 9.5], [12.0, 4.5], [17.0, 9.5]]),
            open(&[[5.0, 20.0], [19.0, 20.0]]),
        ],
        Icon::Locked => vec![
            closed(&[[6.0, 11.0], [18.0, 11.0], [18.0, 20.0], [6.0, 20.0]]),
            (arc(12.0, 10.5, 4.0, 180.0, 360.0), false),
        ],
        Icon::Free => vec![
            closed(&[[6.0, 11.0], [18.0, 11.0], [18.0, 20.0], [6.0, 20.0]]),
            (arc(15.8, 9.5, 4.0, 170.0, 330.0), false),
        ],
        Icon::Copy => vec![circle(9.5, 9.5, 5.5), (arc(14.5, 14.5, 5.5, -60.0, 150.0), false)],
        Icon::Lift => vec![
            open(&[[12.0, 3.5], [12.0, 20.5]]),
            open(&[[3.5, 12.0], [20.5, 12.0]]),
            open(&[[9.5, 6.0], [12.0, 3.5], [14.5, 6.0]]),
            open(&[[9.5, 18.0], [12.0, 20.5], [14.5, 18.0]]),
            open(&[[6.0, 9.5], [3.5, 12.0], [6.0, 14.5]]),
            open(&[[18.0, 9.5], [20.5, 12.0], [18.0, 14.5]]),
        ],
        Icon::Remove => vec![open(&[[6.0, 6.0], [18.0, 18.0]]), open(&[[18.0, 6.0], [6.0, 18.0]])],
        Icon::Sketch => flower(),
        Icon::Price => {
            vec![closed(&[[3.5, 12.5], [12.5, 3.5], [20.5, 3.5], [20.5, 11.5], [11.5, 20.5]]), circle(16.8, 7.2, 1.5)]
        }
        Icon::Colour => vec![circle(9.0, 9.0, 5.6), circle(15.0, 9.0, 5.6), circle(12.0, 14.6, 5.6)],
        Icon::Screen => vec![
            closed(&[[3.5, 5.0], [20.5, 5.0], [20.5, 16.0], [3.5, 16.0]]),
            open(&[[12.0, 16.0], [12.0, 20.0]]),
            open(&[[7.5, 20.0], [16.5, 20.0]]),
        ],
        Icon::Help => vec![
            (arc(12.0, 8.5, 4.2, -180.0, 60.0), false),
            open(&[[14.1, 12.1], [12.0, 14.0], [12.0, 16.0]]),
            circle(12.0, 19.8, 0.7),
        ],
        Icon::Well => vec![open(&[[4.5, 12.5], [10.0, 18.0], [19.5, 6.5]])],
        Icon::Note => vec![circle(12.0, 12.0, 8.5), open(&[[12.0, 7.0], [12.0, 13.5]]), circle(12.0, 16.8, 0.7)],
        Icon::Month => month(),
        Icon::Before => vec![open(&[[14.5, 5.5], [8.5, 12.0], [14.5, 18.5]])],
        Icon::After => vec![open(&[[9.5, 5.5], [15.5, 12.0], [9.5, 18.5]])],
        Icon::Light => sun(),
        Icon::Letters => keyboard(),
        Icon::Whole => vec![
            open(&[[4.0, 9.0], [4.0, 4.0], [9.0, 4.0]]),
            open(&[[15.0, 4.0], [20.0, 4.0], [20.0, 9.0]]),
            open(&[[20.0, 15.0], [20.0, 20.0], [15.0, 20.0]]),
            open(&[[9.0, 20.0], [4.0, 20.0], [4.0, 15.0]]),
        ],
        // A little shop: its roof, its walls, its door.
        Icon::House => vec![
            open(&[[3.0, 11.5], [12.0, 4.0], [21.0, 11.5]]),
            open(&[[5.5, 9.8], [5.5, 20.0], [18.5, 20.0], [18.5, 9.8]]),
            open(&[[10.0, 20.0], [10.0, 14.0], [14.0, 14.0], [14.0, 20.0]]),
        ],
        Icon::Shop => shop_front(),
        Icon::More => vec![open(&[[12.0, 6.0], [12.0, 18.0]]), open(&[[6.0, 12.0], [18.0, 12.0]])],
        Icon::Less => vec![open(&[[6.0, 12.0], [18.0, 12.0]])],
        Icon::Stock => bucket(),
        Icon::Star => vec![star()],
        Icon::Hidden => struck_eye(),
    }
}

/// An awning over a counter.
fn shop_front() -> Vec<Line> {
    vec![
        (vec![[5.0, 4.5], [19.0, 4.5], [21.5, 10.0], [2.5, 10.0]], true),
        open(&[[8.8, 10.0], [9.6, 4.5]]),
        open(&[[15.2, 10.0], [14.4, 4.5]]),
        open(&[[4.5, 10.0], [4.5, 20.0], [19.5, 20.0], [19.5, 10.0]]),
        open(&[[4.5, 15.0], [19.5, 15.0]]),
    ]
}

fn flower() -> Vec<Line> {
    let petal = |k: f32| {
        let a = k * 72.0_f32.to_radians();
        circle(12.0 + 5.6 * a.sin(), 11.0 - 5.6 * a.cos(), 3.4)
    };
    let petals = (0..5).map(|k| petal(k as f32));
    petals.chain([circle(12.0, 11.0, 2.2)]).collect()
}

/// A board with keys and a long one under them.
fn keyboard() -> Vec<Line> {
    vec![
        closed(&[[2.5, 6.0], [21.5, 6.0], [21.5, 18.0], [2.5, 18.0]]),
        open(&[[6.0, 9.5], [7.5, 9.5]]),
        open(&[[11.2, 9.5], [12.8, 9.5]]),
        open(&[[16.5, 9.5], [18.0, 9.5]]),
        open(&[[7.5, 14.2], [16.5, 14.2]]),
    ]
}

/// A bucket with stems in it.
fn bucket() -> Vec<Line> {
    vec![
        closed(&[[5.5, 12.0], [18.5, 12.0], [16.8, 21.0], [7.2, 21.0]]),
        open(&[[9.5, 12.0], [8.2, 7.0]]),
        open(&[[12.0, 12.0], [12.0, 6.0]]),
        open(&[[14.5, 12.0], [15.8, 7.0]]),
        circle(7.6, 5.0, 1.8),
        circle(12.0, 4.0, 1.8),
        circle(16.4, 5.0, 1.8),
    ]
}

fn struck_eye() -> Vec<Line> {
    vec![
        closed(&[
            [2.5, 12.0],
            [7.0, 7.5],
            [12.0, 6.0],
            [17.0, 7.5],
            [21.5, 12.0],
            [17.0, 16.5],
            [12.0, 18.0],
            [7.0, 16.5],
        ]),
        circle(12.0, 12.0, 2.6),
        open(&[[5.0, 20.0], [19.0, 4.0]]),
    ]
}

fn camera() -> Vec<Line> {
    let body = [[3.0, 7.0], [8.0, 7.0], [9.5, 4.5], [14.5, 4.5], [16.0, 7.0], [21.0, 7.0], [21.0, 19.5], [3.0, 19.5]];
    vec![closed(&body), circle(12.0, 13.0, 3.8)]
}

/// Five points; the inner corners lie where the sides of a pentagram cross.
fn star() -> Line {
    const INNER: f32 = 0.382;
    let corner = |k: u8| {
        let r = if k.is_multiple_of(2) { 9.0 } else { 9.0 * INNER };
        let (s, c) = (f32::from(k) * 36.0_f32.to_radians()).sin_cos();
        [12.0 + r * s, 12.5 - r * c]
    };
    ((0..10).map(corner).collect(), true)
}

fn sun() -> Vec<Line> {
    let ray = |k: f32| {
        let (s, c) = (k * 45.0_f32.to_radians()).sin_cos();
        open(&[[12.0 + 6.5 * c, 12.0 + 6.5 * s], [12.0 + 9.5 * c, 12.0 + 9.5 * s]])
    };
    let rays = (0..8).map(|k| ray(k as f32));
    rays.chain([circle(12.0, 12.0, 3.8)]).collect()
}

/// A sheet of days with two rings.
fn month() -> Vec<Line> {
    let sheet = closed(&[[3.5, 5.5], [20.5, 5.5], [20.5, 20.0], [3.5, 20.0]]);
    let rings = [8.0, 16.0].map(|x| open(&[[x, 3.0], [x, 7.5]]));
    let days = [7.0, 11.0, 15.0].map(|x| open(&[[x, 15.0], [x + 2.0, 15.0]]));
    let head = open(&[[3.5, 10.0], [20.5, 10.0]]);
    [sheet, head].into_iter().chain(rings).chain(days).collect()
}

fn open(points: &[[f32; 2]]) -> Line {
    (points.to_vec(), false)
}

fn closed(points: &[[f32; 2]]) -> Line {
    (points.to_vec(), true)
}

fn circle(x: f32, y: f32, r: f32) -> Line {
    let corners = corners(r);
    (arc(x, y, r, 0.0, 360.0 * (1.0 - 1.0 / f32::from(corners))), true)
}

/// Points of an arc, degrees clockwise from the right.
fn arc(x: f32, y: f32, r: f32, from: f32, to: f32) -> Vec<[f32; 2]> {
    let turn = (to - from) / 360.0;
    let steps = (f32::from(corners(r)) * turn.abs()).round().max(3.0);
    let at = |k: u8| {
        let a = (from + (to - from) * f32::from(k) / steps).to_radians();
        [x + r * a.cos(), y + r * a.sin()]
    };
    (0..=corners(r)).take_while(|&k| f32::from(k) <= steps).map(at).collect()
}

/// How many corners make a circle of this radius look round, at the size of a button.
fn corners(r: f32) -> u8 {
    match r {
        r if r < 1.5 => 6,
        r if r < 3.0 => 9,
        r if r < 5.0 => 11,
        _ => 15,
    }
}
