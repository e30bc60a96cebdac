//! From calculated numbers to whole ones. Not-a-number is nothing; what is too large is the largest there is.

/// The nearest whole number; halves go away from zero.
#[expect(clippy::cast_possible_truncation, reason = "a cast from f64 stops at the ends of i64 and takes NaN for 0")]
pub fn nearest_whole(value: f64) -> i64 {
    value.round() as i64
}

/// The least count that is not below `value`; none below zero.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the cast stops at the ends of u32")]
pub fn ceil_u32(value: f64) -> u32 {
    value.ceil() as u32
}

/// The greatest count that is not above `value`; none below zero.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the cast stops at the ends of u32")]
pub fn floor_u32(value: f64) -> u32 {
    value as u32
}
