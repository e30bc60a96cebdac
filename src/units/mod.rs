//! Millimetres, money and minutes, as people type them and read them.
//!
//! Lengths are f64 millimetres, money is whole [`Cents`], time is f64 minutes. Nothing here knows what is measured.

pub(crate) mod chance;
mod currency;
mod decimal;
mod fold;
mod join;
mod length;
mod money;
mod near;
mod whole;

pub use currency::{COMMON_CURRENCIES, CommonCurrency, Currency};
pub use decimal::{DecimalMark, with_a_point};
pub use fold::{fold, holds_words};
pub(crate) use join::join;
pub use length::{Doubt, Length, LengthUnit, MM_PER_INCH, inches_text, mm_text};
pub use money::Cents;
pub use near::steps_between;
pub use whole::{ceil_u32, floor_u32, nearest_whole};

/// Minutes as people say them: `14 min`, `1 h 05`.
pub fn minutes_text(minutes: f64) -> String {
    let whole = nearest_whole(minutes.max(0.0));
    if whole < 60 { format!("{whole} min") } else { format!("{} h {:02}", whole / 60, whole % 60) }
}

/// More than one of what a name says; a name in `s` (ranunculus, lisianthus) stays as it is, as the trade says it.
pub fn plural(name: &str) -> String {
    let (name, rest) = name.split_once(',').map_or((name, String::new()), |(n, rest)| (n, format!(",{rest}")));
    let stem = name.strip_suffix('y').filter(|s| !s.ends_with(['a', 'e', 'o', 'u']));
    match stem {
        Some(stem) => format!("{stem}ies{rest}"),
        None if name.ends_with('s') => format!("{name}{rest}"),
        None if ["x", "ch", "sh"].iter().any(|end| name.ends_with(end)) => format!("{name}es{rest}"),
        None => format!("{name}s{rest}"),
    }
}

/// A count with its noun: `1 stem`, `3 stems`.
pub fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}
