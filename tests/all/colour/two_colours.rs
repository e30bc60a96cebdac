//! Difference, warnings and harmony: what is said of two colours and more.

use posywright::colour::{
    ColourWarning, Eyes, Lab, Rgb, Vision, is_pastel, lab_difference, palette_words, rank, warnings,
};

use super::{colour, list, near, read, three};

/// G. Sharma, W. Wu, E. N. Dalal, Color Research and Application 30(1):21-30, 2005, table 1. Pairs 10 and 14 lie on the jump
/// of the mean hue, where either of two values is right.
#[test]
fn ciede2000_gives_the_34_published_differences_both_ways() {
    let file = read("ciede2000_sharma_34.json");
    let pairs = list(&file, "pairs");
    assert_eq!(pairs.len(), 34);
    for row in pairs {
        let lab = |key: &str| {
            let [l, a, b] = three(&row[key]);
            Lab::new(l, a, b)
        };
        let number = row["pair"].as_u64().unwrap();
        let published = row["de2000"].as_f64().unwrap();
        let other = match number {
            10 => 7.2195,
            14 => 4.7461,
            _ => published,
        };
        for found in [lab_difference(lab("lab1"), lab("lab2")), lab_difference(lab("lab2"), lab("lab1"))] {
            let off = (found - published).abs().min((found - other).abs());
            assert!(off <= 5.01e-5, "pair {number}: {found}, published {published}");
        }
    }
}

/// Colours from all over sRGB, the same on every run.
fn walk(n: u32) -> impl Iterator<Item = Rgb> {
    let mut numbers = fastrand::Rng::with_seed(1);
    (0..n).map(move |_| Rgb::hex(numbers.u32(..1 << 24)))
}

#[test]
fn a_difference_is_the_same_both_ways_nothing_to_itself_and_never_below_nothing() {
    let colours: Vec<Rgb> = walk(400).collect();
    for pair in colours.windows(2) {
        let (there, back) = (pair[0].difference(pair[1]), pair[1].difference(pair[0]));
        assert!((there - back).abs() < 1e-9 && there >= 0.0, "{pair:?}: {there} {back}");
        assert!(pair[0].difference(pair[0]) < 1e-9);
    }
}

#[test]
fn a_ranking_holds_everything_once_and_never_falls() {
    let list: Vec<(usize, Rgb)> = walk(500).enumerate().collect();
    let ranked = rank(Rgb::hex(0xc99093), &list);
    assert!(ranked.windows(2).all(|w| w[0].delta_e00 <= w[1].delta_e00));
    let mut ids: Vec<usize> = ranked.iter().map(|r| r.what).collect();
    ids.sort_unstable();
    assert_eq!(ids, (0..500).collect::<Vec<_>>());
}

/// Sixteen pairs: CIEDE2000 and lightness by coloraide 8.13.1 and numpy, other eyes by colour-science's matrices.
#[test]
fn pairs_of_bloom_and_dress_are_as_far_apart_as_two_libraries_say() {
    let file = read("contrast_examples.json");
    for row in list(&file, "rows") {
        let (a, b, what) = (colour(&row["a"]), colour(&row["b"]), row["pair"].to_string());
        let figure = |key: &str| row[key].as_f64().unwrap();
        near(&[a.difference(b)], &[figure("de2000")], 0.006, &what);
        near(&[(a.oklab()[0] - b.oklab()[0]).abs()], &[figure("dL_ok")], 6e-4, &what);
        for (vision, key) in
            [(Vision::Protan, "de2000_prota"), (Vision::Deutan, "de2000_deute"), (Vision::Tritan, "de2000_trita")]
        {
            let eyes = Eyes::new(vision, 1.0);
            // They stayed unrounded where we go through eight bits, which is a few tenths at most.
            near(&[eyes.see(a).difference(eyes.see(b))], &[figure(key)], 0.6, &format!("{what} {vision:?}"));
        }
    }
}

/// The same pairs; which warnings they get is our own choice, and the figures above decide.
#[test]
fn warnings_follow_from_the_figures() {
    use ColourWarning::{MayMerge, OnlyColourSeparates, ReadsAsOne};
    let of = |a, b| warnings(Rgb::hex(a), Rgb::hex(b));
    assert_eq!(of(0xffffff, 0xfffff0), [ReadsAsOne, OnlyColourSeparates], "white, ivory");
    assert_eq!(of(0xc08081, 0xb76e79), [ReadsAsOne, OnlyColourSeparates], "dusty rose, rose gold");
    assert_eq!(
        of(0xf4c2c2, 0xf7e7ce),
        [OnlyColourSeparates, MayMerge(Vision::Protan), MayMerge(Vision::Deutan), MayMerge(Vision::Tritan)],
        "blush, champagne"
    );
    assert_eq!(of(0xffffff, 0xe6e6fa), [OnlyColourSeparates], "white, lavender");
    assert_eq!(of(0xd2042d, 0x046307), [OnlyColourSeparates, MayMerge(Vision::Protan)], "red, emerald");
    assert_eq!(of(0x800020, 0x000080), [OnlyColourSeparates], "burgundy, navy");
    for (a, b) in [(0xc8a2c8, 0xe6e6fa), (0xff7f50, 0x008080), (0xffffff, 0x000080)] {
        assert!(of(a, b).is_empty(), "{a:x} {b:x}");
    }
    for (a, b) in walk(60).zip(walk(61).skip(1)) {
        assert_eq!(warnings(a, b), warnings(b, a), "{a:?} {b:?}");
    }
}

/// Palettes computed in Python from the same definition; templates of Cohen-Or et al., 2006.
#[test]
fn palettes_are_described_by_the_template_that_a_second_program_chose() {
    let file = read("harmony.json");
    for row in list(&file, "palettes") {
        let colours: Vec<(Rgb, f64)> = list(row, "hex").iter().map(|hex| (colour(hex), 1.0)).collect();
        let found = palette_words(&colours);
        near(&[found.distance_deg], &[row["distance_deg"].as_f64().unwrap()], 0.05, &row["name"].to_string());
        near(&[found.lightness_span], &[row["lightness_span"].as_f64().unwrap()], 2e-4, &row["name"].to_string());
        let words = match row["chosen"].as_str().unwrap() {
            "i" => "one colour family",
            "V" => "neighbours on the colour wheel",
            "I" => "contrasting colours",
            "L" | "Y" | "X" => "two colour families",
            letter => panic!("{letter}"),
        };
        assert!(found.words().starts_with(words), "{}: {}", row["name"], found.words());
    }
}

/// The centres of the very pale, pale and very light names, by the table of names.
#[test]
fn pastel_takes_the_pale_names_and_not_the_deep_ones() {
    let file = read("names_iscc_nbs_267.json");
    let of = |starts: &[&str]| {
        let named = list(&file, "names").iter().filter(|n| {
            let plain = n["plain"].as_str().unwrap();
            starts.iter().any(|s| plain.starts_with(s))
        });
        let named: Vec<bool> = named.map(|n| is_pastel(colour(&n["hex"]))).collect();
        (named.iter().filter(|p| **p).count(), named.len())
    };
    assert_eq!(of(&["very pale", "pale ", "very light"]), (20, 26));
    assert_eq!(of(&["deep", "dark", "strong", "very dark", "very deep", "blackish"]).0, 0);
    // Two pinks, which the system calls vivid because painted pinks are never stronger.
    assert_eq!(of(&["vivid"]).0, 2);
}
