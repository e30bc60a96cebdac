//! Which day it is. The clock tells the day at Greenwich and nothing here knows the time zone, so a person can put it
//! right by a day.

use std::time::{SystemTime, UNIX_EPOCH};

use crate::book::Day;

const SECONDS_A_DAY: u64 = 24 * 60 * 60;

/// Today, put right by `off` days; none when the clock is nowhere near.
pub(crate) fn today(off: i64) -> Option<Day> {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    Day::after_1970(i64::try_from(since.as_secs() / SECONDS_A_DAY).ok()?.saturating_add(off))
}
