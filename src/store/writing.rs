//! From a value to text that a person can read and change by hand: one part to a line.

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::Serialize;

/// `value` as RON, laid out in lines down to `depth` and in one line below it. Nothing when it cannot be written.
pub(super) fn pretty<T: Serialize>(value: &T, depth: usize) -> String {
    let layout = PrettyConfig::new().depth_limit(depth).new_line("\n").indentor("    ").extensions(Extensions::empty());
    let options = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    options.to_string_pretty(value, layout).map(|text| text + "\n").unwrap_or_default()
}
