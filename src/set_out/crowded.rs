//! When the blooms are too many or too large for their oval: how long an oval they want, and what else would help.

use std::f64::consts::PI;

use super::words;
use crate::once_over::Subject;
use crate::piece::{Edit, Footprint, OVALS_MM, Part, PartId, Worn};
use crate::stock::Role;

/// Said of a layout that is offered all the same.
#[derive(Clone, Debug, PartialEq)]
pub struct Crowded {
    /// How long an oval the blooms want.
    pub says: String,
    /// What would help: longer, smaller, fewer; after the proposal's own edit.
    pub offers: Vec<Offer>,
}

/// One way out.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// What its button says.
    pub label: String,
    /// The edit.
    pub edit: Edit,
}

/// Longer ovals and smaller blooms are offered in whole steps of this, mm.
const STEP_MM: [f64; 2] = [2.0, 1.0];

/// What is to be said of a piece whose blooms and accents make more of the oval than the house style allows. What of the oval is
/// wider than the wrist carries does not count: there the blooms do not lie.
pub(super) fn crowded(subject: Subject<'_>) -> Option<Crowded> {
    let piece = subject.piece;
    let [_, most] = subject.style.shape.fullness;
    let heads: Vec<&Part> = piece.parts().iter().filter(|p| matches!(p.role, Role::Bloom | Role::Accent)).collect();
    let area = |p: &&Part| p.shape_in(subject.stock).area();
    let all: f64 = heads.iter().map(area).sum();
    let now = piece.footprint;
    let carried_mm = match piece.worn {
        Worn::Wrist => subject.style.width_limit_mm(subject.wrist.girth_mm()),
        Worn::Lapel => f64::INFINITY,
    };
    let width_mm = now.width_mm.min(carried_mm);
    let full = |mm2: f64| mm2 / (PI / 4.0 * now.length_mm * width_mm);
    if full(all) <= most {
        return None;
    }
    let wanted = (4.0 * all / (PI * width_mm * most) / STEP_MM[0]).ceil() * STEP_MM[0];
    let blooms: Vec<&Part> = heads.iter().copied().filter(|p| p.role == Role::Bloom).collect();
    let sizes: Vec<f64> = blooms.iter().map(|p| p.size_in(subject.stock)).collect();
    let one_size = sizes.first().copied().filter(|s| sizes.iter().all(|t| (t - s).abs() < 0.5));
    let unit = subject.wrist.girth.unit();
    let mut offers = Vec::new();
    // No longer than the proportions of the house allow.
    if wanted <= (subject.style.shape.length_to_width[1] * width_mm).min(*OVALS_MM.end()) {
        let longer = Footprint { length_mm: wanted, ..now };
        offers.push(Offer { label: words::longer(wanted, unit), edit: Edit::Reshape(longer) });
    }
    let bloom_mm2: f64 = blooms.iter().map(area).sum();
    let left_mm2 = most / full(all) * all - (all - bloom_mm2);
    offers.extend(smaller(subject, &blooms, one_size, (left_mm2 / bloom_mm2).max(0.0).sqrt()));
    offers.extend(fewer(subject, &blooms, all, most / full(all) * all));
    let found = words::TooCrowded {
        n_blooms: blooms.len(),
        across_mm: one_size,
        wanted_mm: wanted,
        now_mm: now.length_mm,
        on_narrow_wrist: width_mm < now.width_mm,
        unit,
    };
    Some(Crowded { says: words::crowded(&found), offers })
}

/// Free blooms of one size made smaller, where the trade has them so small.
fn smaller(subject: Subject<'_>, blooms: &[&Part], one_size: Option<f64>, share: f64) -> Option<Offer> {
    let size = (one_size? * share / STEP_MM[1]).floor() * STEP_MM[1];
    let least =
        blooms.iter().filter_map(|p| subject.stock.botanical(&p.stock)).map(|b| b.size_mm[0]).fold(0.0, f64::max);
    let free: Vec<PartId> = blooms.iter().filter(|p| !p.locked).map(|p| p.id).collect();
    let can = size >= least.max(1.0) && !free.is_empty();
    can.then(|| Offer { label: words::smaller(size, subject.wrist.girth.unit()), edit: Edit::Resize(free, Some(size)) })
}

/// The newest free blooms left out until the rest fit, down to an odd number.
fn fewer(subject: Subject<'_>, blooms: &[&Part], all: f64, room: f64) -> Option<Offer> {
    let mut left = all;
    let mut off = Vec::new();
    let area = |p: &Part| p.shape_in(subject.stock).area();
    let welcome = |n: usize| subject.piece.wishes.welcomes(u32::try_from(n).unwrap_or(u32::MAX));
    for part in blooms.iter().rev().filter(|p| !p.locked) {
        if left <= room && welcome(blooms.len() - off.len()) {
            break;
        }
        left -= area(part);
        off.push(part.id);
    }
    let n_left = blooms.len() - off.len();
    (left <= room && n_left > 0 && !off.is_empty())
        .then(|| Offer { label: words::fewer(n_left), edit: Edit::Remove(off) })
}
