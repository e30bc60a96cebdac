//! No bloom hidden or crushed by another? Visible areas from below, and pairs whose cores would have to be in one place.

use super::{Finding, Measures, Remedy, SketchMark, Subject, finding, words};
use crate::piece::{PartId, Question};

/// Each crushed pair costs this share of the score; our choice.
const CRUSHED_COST: f64 = 0.25;

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let relief = &measures.relief;
    let (worst, share) = relief.hidden.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1))?;
    let limit = subject.style.shape.hidden_share;
    let over = |share: f64| ((share - limit) / (1.0 - limit).max(1e-6)).clamp(0.0, 1.0);
    let lost: f64 = relief.hidden.iter().map(|(_, s)| over(*s)).fold(0.0, f64::max);
    let score = 1.0 - lost - CRUSHED_COST * relief.crushed.len() as f64;
    let name = |id: PartId| name_of(subject, id);
    let says = match relief.crushed.first() {
        Some((below, above)) if share <= limit => words::crushed(&name(*below), &name(*above)),
        _ if share > limit => words::hidden(&name(worst), share),
        _ => words::hidden_well(),
    };
    let mut found = finding(Question::Hidden, says, share, "", score);
    if !found.is_well() {
        let lost_one = if share > limit { worst } else { relief.crushed.first().map_or(worst, |pair| pair.0) };
        let disc = measures.heads.iter().find(|h| h.id == lost_one).map(|h| h.disc);
        found.marks = disc.map(|d| SketchMark::Ring { centre: d.centre, radius: d.radius }).into_iter().collect();
        found.remedies.push(Remedy::BringOut(lost_one));
    }
    Some(found)
}

fn name_of(subject: Subject<'_>, id: PartId) -> String {
    let part = subject.piece.part(id);
    let botanical = part.and_then(|p| subject.stock.botanical(&p.stock));
    botanical.map_or_else(|| "bloom".to_owned(), |b| b.name.to_lowercase())
}
