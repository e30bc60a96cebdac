//! Minutes on the bench, step by step.

use crate::piece::{MakingMinutes, Piece, Worn};
use crate::stock::Role;

/// Minutes to make `piece` with `extra` more parts of a role than are on it yet.
pub fn making_minutes(piece: &Piece, extra: &[(Role, u32)], minutes: &MakingMinutes) -> f64 {
    let each = |role: Role| minutes.each.get(&role).copied().unwrap_or(0.0);
    let base = match piece.worn {
        Worn::Wrist => minutes.wrist_base,
        Worn::Lapel => minutes.lapel_base,
    };
    let bow = if piece.bow.is_some() { minutes.bow } else { 0.0 };
    let placed: f64 = piece.parts().iter().map(|p| each(p.role)).sum();
    let to_place: f64 = extra.iter().map(|&(role, n)| f64::from(n) * each(role)).sum();
    base + bow + placed + to_place
}
