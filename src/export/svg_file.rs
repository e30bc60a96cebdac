//! Scenes to SVG text, one unit to the millimetre.
//!
//! Numbers are whole thousandths of a millimetre (millionths in placements), so the same scene is the same text on every
//! machine. Gradients lie in the space of what they fill.

use std::fmt::Write as _;

use kurbo::{Affine, BezPath, PathEl, Point};

use crate::scene::{Group, Paint, Primitive, Scene, Stop, Tint, upright};

/// The picture as an SVG file.
pub fn svg_of(scene: &Scene) -> String {
    let frame = scene.frame;
    let (width, height) = (number(frame.height(), 3), number(frame.width(), 3));
    let mut svg = Svg { text: String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"), gradients: 0 };
    svg.put(&format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\n"
    ));
    let view = Affine::translate((-frame.y0, frame.x1)) * upright();
    svg.put(&format!("<g transform=\"{}\">\n", matrix(view)));
    for group in &scene.groups {
        svg.group(group);
    }
    svg.put("</g>\n</svg>\n");
    svg.text
}

struct Svg {
    text: String,
    gradients: u32,
}

impl Svg {
    fn put(&mut self, text: &str) {
        self.text.push_str(text);
    }

    fn group(&mut self, group: &Group) {
        if group.transform == Affine::IDENTITY {
            self.put("<g>\n");
        } else {
            self.put(&format!("<g transform=\"{}\">\n", matrix(group.transform)));
        }
        for item in &group.items {
            match item {
                Primitive::Group(inner) => self.group(inner),
                Primitive::Fill { path, paint } => {
                    let fill = self.paint("fill", paint);
                    self.put(&format!("<path d=\"{}\" {fill}/>\n", outline(path)));
                }
                Primitive::Stroke { path, width, paint } => {
                    let stroke = self.paint("stroke", paint);
                    let round = "stroke-linecap=\"round\" stroke-linejoin=\"round\"";
                    let width = number(*width, 4);
                    self.put(&format!(
                        "<path d=\"{}\" fill=\"none\" stroke-width=\"{width}\" {round} {stroke}/>\n",
                        outline(path)
                    ));
                }
            }
        }
        self.put("</g>\n");
    }

    /// Writes the gradient, if it is one, and gives the attribute that uses it.
    fn paint(&mut self, attribute: &str, paint: &Paint) -> String {
        match paint {
            Paint::Solid(tint) => format!("{attribute}=\"{}\"{}", tint.rgb.text(), cover(attribute, *tint)),
            Paint::Linear { from, to, stops } => {
                let [x1, y1, x2, y2] = [from.x, from.y, to.x, to.y].map(|v| number(v, 4));
                let line = format!("x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\"");
                self.gradient(attribute, "linearGradient", &line, stops)
            }
            Paint::Radial { place, stops } => {
                let place = format!("cx=\"0\" cy=\"0\" r=\"1\" gradientTransform=\"{}\"", matrix(*place));
                self.gradient(attribute, "radialGradient", &place, stops)
            }
        }
    }

    fn gradient(&mut self, attribute: &str, kind: &str, place: &str, stops: &[Stop]) -> String {
        self.gradients += 1;
        let id = self.gradients;
        self.put(&format!("<{kind} id=\"p{id}\" gradientUnits=\"userSpaceOnUse\" {place}>"));
        for stop in stops {
            let (at, rgb, cover) = (number(stop.at, 4), stop.tint.rgb.text(), cover("stop", stop.tint));
            self.put(&format!("<stop offset=\"{at}\" stop-color=\"{rgb}\"{cover}/>"));
        }
        self.put(&format!("</{kind}>\n"));
        format!("{attribute}=\"url(#p{id})\"")
    }
}

fn cover(attribute: &str, tint: Tint) -> String {
    if tint.alpha >= 1.0 { String::new() } else { format!(" {attribute}-opacity=\"{}\"", number(tint.alpha, 3)) }
}

/// A number with so many places at most, without trailing zeros and without a negative zero.
fn number(value: f64, places: usize) -> String {
    if !value.is_finite() {
        return String::from("0");
    }
    let text = format!("{value:.places$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { String::from("0") } else { text.to_owned() }
}

fn matrix(place: Affine) -> String {
    let numbers = place.as_coeffs().map(|c| number(c, 6));
    format!("matrix({})", numbers.join(" "))
}

fn outline(path: &BezPath) -> String {
    let mut text = String::new();
    let mut put = |letter: &str, points: &[Point]| {
        text.push_str(letter);
        for (i, p) in points.iter().enumerate() {
            let gap = if i == 0 { "" } else { " " };
            // Writing to a string cannot fail.
            write!(text, "{gap}{} {}", number(p.x, 3), number(p.y, 3)).unwrap_or_default();
        }
    };
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => put("M", &[p]),
            PathEl::LineTo(p) => put("L", &[p]),
            PathEl::QuadTo(a, p) => put("Q", &[a, p]),
            PathEl::CurveTo(a, b, p) => put("C", &[a, b, p]),
            PathEl::ClosePath => put("Z", &[]),
        }
    }
    text
}
