//! Letters as fingers type them: without accents, in small letters, so that "ory" finds \u{150}ry.
//!
//! Accents that stand apart after compatibility decomposition (Unicode Standard Annex 15, through the crate
//! `unicode-normalization`) fall away. Letters that Unicode does not take apart are in a table by hand, under the plain
//! letters that people type for them.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Letters that no decomposition takes apart, in small letters.
const BY_HAND: [(char, &str); 15] = [
    ('\u{142}', "l"),  // l with stroke, Polish
    ('\u{111}', "d"),  // d with stroke, Vietnamese, Croatian
    ('\u{f0}', "d"),   // eth, Icelandic
    ('\u{fe}', "th"),  // thorn, Icelandic
    ('\u{f8}', "o"),   // o with stroke, Danish, Norwegian
    ('\u{df}', "ss"),  // sharp s, German
    ('\u{e6}', "ae"),  // ae, Danish, Icelandic
    ('\u{153}', "oe"), // oe, French
    ('\u{131}', "i"),  // dotless i, Turkish
    ('\u{127}', "h"),  // h with stroke, Maltese
    ('\u{167}', "t"),  // t with stroke, Sami
    ('\u{14b}', "n"),  // eng, Sami
    ('\u{2019}', "'"), // apostrophes as printed and as typed
    ('\u{2018}', "'"),
    ('\u{2bc}', "'"),
];

/// `text` in small letters without accents.
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for letter in text.nfkd().filter(|c| !is_combining_mark(*c)).flat_map(char::to_lowercase) {
        match BY_HAND.iter().find(|(from, _)| *from == letter) {
            Some((_, plain)) => folded.push_str(plain),
            // Small letters of a capital may bring an accent of their own (Turkish I with a dot).
            None if is_combining_mark(letter) => {}
            None => folded.push(letter),
        }
    }
    folded
}

/// Whether `text` holds every word of `search`, whatever the accents and capitals; a search without words finds all.
pub fn holds_words(text: &str, search: &str) -> bool {
    let text = fold(text);
    fold(search).split_whitespace().all(|word| text.contains(word))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_found_as_fingers_type_them() {
        for (name, typed) in [
            ("Zs\u{f3}fia \u{150}ry-N\u{e9}meth", "ory"),
            ("\u{141}ucja \u{17b}\u{f3}\u{142}kiewska", "zolkiewska lucja"),
            ("Nguy\u{1ec5}n Th\u{1ecb} B\u{ed}ch \u{110}\u{e0}o", "nguyen dao"),
            ("\u{de}\u{f3}rd\u{ed}s", "thordis"),
            ("O\u{2019}Brien-de la Cruz", "o'brien"),
            ("S\u{f8}ren Gro\u{df}", "soren gross"),
            ("\u{130}pek", "ipek"),
            ("Ory", "\u{150}RY"),
        ] {
            assert!(holds_words(name, typed), "{name} {typed}: {} {}", fold(name), fold(typed));
        }
        assert!(!holds_words("Ory", "oria") && holds_words("anything", "  "));
    }

    /// Unicode Standard Annex 15, figure 6: the ligature fi and the long s with dot decompose to plain letters.
    #[test]
    fn compatibility_forms_fold_to_plain_letters() {
        assert_eq!((fold("\u{fb01}"), fold("\u{1e9b}\u{323}")), ("fi".to_owned(), "s".to_owned()));
    }
}
