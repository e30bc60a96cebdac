//! Where the ticks of the rulers along the edges of the sheet stand, as plain numbers.

use super::View;
use crate::geometry::Point;
use crate::units::{MM_PER_INCH, nearest_whole};

/// Most ticks of one ruler, however far one looks; our choice.
const MOST_TICKS: i32 = 400;

/// Which way a ruler runs on the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RulerAxis {
    /// Along the arm: up and down on screen.
    AlongTheArm,
    /// Across the arm: left and right on screen.
    AcrossTheArm,
}

/// One tick of a ruler.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RulerTick {
    /// From the centre point of the piece, mm.
    pub mm: f64,
    /// On screen, points: down for a ruler along the arm, to the right for one across.
    pub at: f64,
    /// Whether it is a long one, with a figure.
    pub is_long: bool,
}

/// The ticks that are seen in `view`, counted from the centre point.
pub fn ruler_ticks(view: &View, axis: RulerAxis, inches: bool) -> Vec<RulerTick> {
    let step = step_mm(view.scale, inches);
    let corners = [view.to_piece(view.area.origin()), view.to_piece(Point::new(view.area.x1, view.area.y1))];
    let [from, to] = corners.map(|corner| match axis {
        RulerAxis::AlongTheArm => corner.x,
        RulerAxis::AcrossTheArm => corner.y,
    });
    let whole = |steps: f64| i32::try_from(nearest_whole(steps)).unwrap_or(0);
    let (low, high) = (whole((from.min(to) / step).ceil()), whole((from.max(to) / step).floor()));
    let tick = |n: i32| {
        let mm = f64::from(n) * step;
        let at = match axis {
            RulerAxis::AlongTheArm => view.to_screen(Point::new(mm, 0.0)).y,
            RulerAxis::AcrossTheArm => view.to_screen(Point::new(0.0, mm)).x,
        };
        RulerTick { mm, at, is_long: n % 2 == 0 }
    };
    (low..=high.min(low.saturating_add(MOST_TICKS))).map(tick).collect()
}

/// From one tick to the next, mm: wider apart the smaller the piece is seen.
fn step_mm(scale: f64, inches: bool) -> f64 {
    match (inches, scale) {
        (false, s) if s > 9.0 => 5.0,
        (false, s) if s > 2.2 => 10.0,
        (false, _) => 25.0,
        (true, s) if s > 9.0 => MM_PER_INCH / 4.0,
        (true, s) if s > 2.2 => MM_PER_INCH / 2.0,
        (true, _) => MM_PER_INCH,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Rect;

    fn view(scale: f64) -> View {
        let mut view = View::new();
        view.area = Rect::new(0.0, 0.0, 800.0, 600.0);
        view.scale = scale;
        view
    }

    /// By hand: at 4 points to the millimetre a tick of 10 mm is 40 points from the next, at 10 points one of 5 mm is 50, at
    /// 1 point one of 25 mm is 25; in inches 4 x 12.7, 10 x 6.35 and 25.4 points.
    #[test]
    fn ticks_are_as_far_apart_on_screen_as_their_figures_say() {
        for (scale, inches, step, apart) in [
            (4.0, false, 10.0, 40.0),
            (10.0, false, 5.0, 50.0),
            (1.0, false, 25.0, 25.0),
            (4.0, true, 12.7, 50.8),
            (10.0, true, 6.35, 63.5),
            (1.0, true, 25.4, 25.4),
        ] {
            for axis in [RulerAxis::AlongTheArm, RulerAxis::AcrossTheArm] {
                let ticks = ruler_ticks(&view(scale), axis, inches);
                assert!(ticks.len() > 8, "{} ticks", ticks.len());
                for pair in ticks.windows(2) {
                    assert!((pair[1].mm - pair[0].mm - step).abs() < 1e-9, "{pair:?}");
                    assert!(((pair[1].at - pair[0].at).abs() - apart).abs() < 1e-9, "{pair:?}");
                    assert_ne!(pair[0].is_long, pair[1].is_long);
                }
                let zero = ticks.iter().find(|t| t.mm == 0.0).unwrap();
                assert!(zero.is_long);
            }
        }
    }

    /// Toward the elbow is up, so that larger numbers stand higher; across, larger ones stand further right.
    #[test]
    fn ticks_begin_and_end_at_the_edges_of_the_sheet() {
        for (axis, edge, sign) in [(RulerAxis::AlongTheArm, 600.0, -1.0), (RulerAxis::AcrossTheArm, 800.0, 1.0)] {
            let ticks = ruler_ticks(&view(4.0), axis, false);
            assert!(ticks.iter().all(|t| (0.0..=edge).contains(&t.at)));
            assert!(ticks.windows(2).all(|pair| (pair[1].at - pair[0].at) * sign > 0.0));
            // 40 points apart, so that none is missing within 40 points of either edge.
            let places: Vec<f64> = ticks.iter().map(|t| t.at).collect();
            assert!(places.iter().any(|at| *at < 40.0) && places.iter().any(|at| *at > edge - 40.0), "{places:?}");
        }
    }
}
