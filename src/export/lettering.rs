//! Letters: shaped once, measured, wrapped, and drawn as outlines.
//!
//! Knows the three faces of the house and lines that run from left to right; sizes and widths are millimetres, a size
//! being that of the em. Does not know pages or pixels. No hyphenation. Nothing is ever shown as an empty box: what no face
//! has a letter for is shown as a question mark, and marks that steer the reading direction are taken out.

use std::ops::Range;
use std::sync::LazyLock;

use harfrust::{Direction, ShapeOptions, ShaperData, UnicodeBuffer};
use kurbo::{Affine, BezPath};
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::prelude::{LocationRef, Size};
use skrifa::{FontRef, GlyphId, MetadataProvider as _};

/// Shown where no letter is to be had.
const STAND_IN: char = '?';

/// The faces of the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// Words and figures: Source Sans 3 Regular. Its figures are all of one width.
    Text,
    /// What must be seen first: Source Sans 3 Semibold.
    Strong,
    /// Titles: EB Garamond Medium.
    Title,
}

impl Face {
    /// All faces.
    pub const ALL: [Self; 3] = [Self::Text, Self::Strong, Self::Title];

    /// The font file.
    pub fn file(self) -> &'static [u8] {
        match self {
            Self::Text => include_bytes!("../../assets/fonts/SourceSans3_400Regular.ttf"),
            Self::Strong => include_bytes!("../../assets/fonts/SourceSans3_600SemiBold.ttf"),
            Self::Title => include_bytes!("../../assets/fonts/EBGaramond_500Medium.ttf"),
        }
    }

    fn opened(self) -> Option<&'static OpenedFont> {
        static OPENED: LazyLock<[Option<OpenedFont>; 3]> = LazyLock::new(|| Face::ALL.map(OpenedFont::of));
        match self {
            Self::Text => OPENED[0].as_ref(),
            Self::Strong => OPENED[1].as_ref(),
            Self::Title => OPENED[2].as_ref(),
        }
    }
}

/// A font file, read once.
struct OpenedFont {
    font: FontRef<'static>,
    shaper: ShaperData,
    units_per_em: f64,
}

impl OpenedFont {
    fn of(face: Face) -> Option<Self> {
        let font = FontRef::new(face.file()).ok()?;
        let shaper = ShaperData::new(&font);
        let units = font.metrics(Size::unscaled(), LocationRef::default()).units_per_em;
        Some(Self { font, shaper, units_per_em: f64::from(units.max(1)) })
    }

    fn has(&self, letter: char) -> bool {
        self.font.charmap().map(letter).is_some_and(|id| id != GlyphId::NOTDEF)
    }

    /// The glyphs for these letters; each letter comes with the place in the text that it stands for.
    fn shape(&self, letters: &[(usize, char)], text_len: usize) -> Vec<Glyph> {
        let mut buffer = UnicodeBuffer::new();
        for (at, letter) in letters {
            buffer.add(*letter, u32::try_from(*at).unwrap_or(u32::MAX));
        }
        buffer.guess_segment_properties();
        buffer.set_direction(Direction::LeftToRight);
        let shaped = self.shaper.shaper(&self.font).build().shape(buffer, ShapeOptions::new());
        let em = |units: i32| f64::from(units) / self.units_per_em;
        let starts: Vec<usize> = shaped.glyph_infos().iter().map(|g| g.cluster as usize).collect();
        let end_of = |i: usize| starts[i..].iter().copied().find(|s| *s > starts[i]).unwrap_or(text_len);
        let glyphs = shaped.glyph_infos().iter().zip(shaped.glyph_positions()).enumerate();
        glyphs
            .map(|(i, (info, place))| Glyph {
                id: info.glyph_id,
                advance: em(place.x_advance),
                dx: em(place.x_offset),
                dy: em(place.y_offset),
                bytes: starts[i]..end_of(i),
            })
            .collect()
    }
}

/// One letter, or several grown together, in its place. Lengths in ems, y upward.
#[derive(Clone, Debug, PartialEq)]
pub struct Glyph {
    /// Its number in the font.
    pub id: u32,
    /// From here to the next.
    pub advance: f64,
    /// Moved to the right.
    pub dx: f64,
    /// Moved up.
    pub dy: f64,
    /// The bytes of the text that it stands for.
    pub bytes: Range<usize>,
}

/// Words on one line, shaped.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// What they say; what they show differs where a letter is missing.
    pub text: String,
    /// Their face.
    pub face: Face,
    /// Their glyphs, left to right.
    pub glyphs: Vec<Glyph>,
}

impl Run {
    /// Shapes words for one line; line breaks and tabs become spaces.
    pub fn new(words: &str, face: Face) -> Self {
        let text = readable(words);
        let mut run = Self { text, face, glyphs: Vec::new() };
        let Some(opened) = face.opened() else { return run };
        let letters: Vec<(usize, char)> = run.text.char_indices().collect();
        run.glyphs = opened.shape(&letters, run.text.len());
        if run.glyphs.iter().any(|g| g.id == 0) {
            let shown = with_stand_ins(opened, &run.glyphs, &letters);
            run.glyphs = opened.shape(&shown, run.text.len());
        }
        run
    }

    /// Its width at this size, mm.
    pub fn width_mm(&self, size_mm: f64) -> f64 {
        self.glyphs.iter().map(|g| g.advance).sum::<f64>() * size_mm
    }

    /// Its outlines, the start of its baseline at the origin, x to the right and y downward.
    pub fn outline(&self, size_mm: f64) -> BezPath {
        let mut path = BezPath::new();
        let Some(opened) = self.face.opened() else { return path };
        let outlines = opened.font.outline_glyphs();
        let scale = size_mm / opened.units_per_em;
        let mut at = 0.0;
        for glyph in &self.glyphs {
            if let Some(outline) = outlines.get(GlyphId::new(glyph.id)) {
                let mut pen = Pen::default();
                let settings = DrawSettings::unhinted(Size::unscaled(), LocationRef::default());
                if outline.draw(settings, &mut pen).is_ok() {
                    let place = (size_mm * (at + glyph.dx), -size_mm * glyph.dy);
                    path.extend(Affine::translate(place) * Affine::scale_non_uniform(scale, -scale) * pen.path);
                }
            }
            at += glyph.advance;
        }
        path
    }

    /// The words, cut with an ellipsis where they are wider than `width_mm`.
    pub fn cut(words: &str, face: Face, size_mm: f64, width_mm: f64) -> Self {
        let whole = Self::new(words, face);
        if whole.width_mm(size_mm) <= width_mm {
            return whole;
        }
        let room = width_mm - Self::new("\u{2026}", face).width_mm(size_mm);
        let kept = whole.fitting(0, size_mm, room);
        Self::new(&format!("{}\u{2026}", whole.text[..kept].trim_end()), face)
    }

    /// Up to which byte the glyphs from byte `from` on fit into `width_mm`.
    fn fitting(&self, from: usize, size_mm: f64, width_mm: f64) -> usize {
        let (mut width, mut kept) = (0.0, from);
        for glyph in self.glyphs.iter().filter(|g| g.bytes.start >= from) {
            width += glyph.advance * size_mm;
            if width > width_mm {
                return kept;
            }
            kept = kept.max(glyph.bytes.end);
        }
        kept
    }
}

/// The outlines of `words` on one line: the start of the baseline at the origin, x to the right and y downward, mm.
pub fn outline(words: &str, face: Face, size_mm: f64) -> BezPath {
    Run::new(words, face).outline(size_mm)
}

/// Words on as many lines as they need, none wider than `width_mm` if it can be helped: line breaks are kept, lines break
/// between words, and a word wider than a line breaks where it must.
pub fn wrapped(words: &str, face: Face, size_mm: f64, width_mm: f64) -> Vec<Run> {
    let space = Run::new(" ", face).width_mm(size_mm);
    let mut lines = Vec::new();
    for paragraph in words.lines() {
        let (mut line, mut width) = (String::new(), 0.0);
        for word in readable(paragraph).split(breaks_line).filter(|word| !word.is_empty()) {
            for piece in broken(word, face, size_mm, width_mm) {
                let wide = Run::new(&piece, face).width_mm(size_mm);
                if !line.is_empty() && width + space + wide > width_mm {
                    lines.push(std::mem::take(&mut line));
                    width = 0.0;
                }
                if !line.is_empty() {
                    line.push(' ');
                    width += space;
                }
                line.push_str(&piece);
                width += wide;
            }
        }
        lines.push(line);
    }
    lines.iter().map(|line| Run::new(line, face)).collect()
}

/// Whether a line may end here: at any white space but the one that keeps a sum and its currency together.
fn breaks_line(letter: char) -> bool {
    letter.is_whitespace() && letter != '\u{a0}'
}

/// A word in pieces no wider than the line.
fn broken(word: &str, face: Face, size_mm: f64, width_mm: f64) -> Vec<String> {
    let run = Run::new(word, face);
    if run.width_mm(size_mm) <= width_mm {
        return vec![word.to_owned()];
    }
    let (mut pieces, mut from) = (Vec::new(), 0);
    while from < run.text.len() {
        let first = run.text[from..].chars().next().map_or(1, char::len_utf8);
        let to = run.fitting(from, size_mm, width_mm).max(from + first);
        pieces.push(run.text[from..to].to_owned());
        from = to;
    }
    pieces
}

/// The words without what cannot be read: control characters go, white space becomes a space, and so do marks that steer
/// the reading direction or join letters, which could make one name look like another.
fn readable(words: &str) -> String {
    let kept = words.chars().filter_map(|letter| match letter {
        '\t' | '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{2028}' | '\u{2029}' => Some(' '),
        _ if letter.is_control() || is_unseen(letter) => None,
        _ => Some(letter),
    });
    kept.collect()
}

/// Soft hyphen, joiners, direction marks, byte order mark, variation selectors, tags: Unicode's default ignorables, as far
/// as a name or a note may hold them (`DerivedCoreProperties.txt`, from memory).
fn is_unseen(letter: char) -> bool {
    matches!(letter, '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{fff0}'..='\u{fffb}'
        | '\u{e0000}'..='\u{e0fff}')
}

/// The letters again, with stand-ins for those that came out as an empty box.
fn with_stand_ins(opened: &OpenedFont, glyphs: &[Glyph], letters: &[(usize, char)]) -> Vec<(usize, char)> {
    let boxed = |at: usize| glyphs.iter().any(|g| g.id == 0 && g.bytes.contains(&at));
    let shown = letters.iter().filter_map(|&(at, letter)| match letter {
        _ if opened.has(letter) || !boxed(at) => Some((at, letter)),
        // A loose accent that the face does not have: its letter is worth more without it than not at all.
        '\u{300}'..='\u{36f}' | '\u{1ab0}'..='\u{1aff}' | '\u{1dc0}'..='\u{1dff}' | '\u{20d0}'..='\u{20ff}' => None,
        _ => Some((at, STAND_IN)),
    });
    shown.collect()
}

/// Takes outlines as skrifa gives them, in font units.
#[derive(Default)]
struct Pen {
    path: BezPath,
}

impl OutlinePen for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.move_to((x, y));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to((x, y));
    }
    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        self.path.quad_to((cx, cy), (x, y));
    }
    fn curve_to(&mut self, ax: f32, ay: f32, bx: f32, by: f32, x: f32, y: f32) {
        self.path.curve_to((ax, ay), (bx, by), (x, y));
    }
    fn close(&mut self) {
        self.path.close_path();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Shape as _;

    const NAMES: [&str; 5] = [
        "Zs\u{f3}fia \u{150}ry-N\u{e9}meth",
        "\u{141}ucja \u{17b}\u{f3}\u{142}kiewska",
        "Nguy\u{1ec5}n Th\u{1ecb} B\u{ed}ch \u{110}\u{e0}o",
        "\u{de}\u{f3}rd\u{ed}s",
        "O\u{2019}Brien-de la Cruz / O'Brien-de la Cruz",
    ];

    #[test]
    fn every_name_prints_without_an_empty_box_in_every_face() {
        for face in Face::ALL {
            for name in NAMES {
                let run = Run::new(name, face);
                assert_eq!(run.text, name);
                assert!(run.glyphs.iter().all(|g| g.id != 0), "{face:?}: {name}");
                let said: String = run.glyphs.iter().map(|g| &run.text[g.bytes.clone()]).collect();
                assert_eq!(said, name, "each letter is some glyph's");
                let drawn = run.outline(10.0).bounding_box();
                assert!((drawn.width() - run.width_mm(10.0)).abs() < 3.0 && drawn.y0 < -5.0 && drawn.y1 < 4.0);
            }
        }
    }

    #[test]
    fn a_letter_and_its_loose_accent_show_like_the_letter_that_has_it() {
        // "e" with a combining circumflex and tilde, as some keyboards send it.
        let (loose, whole) = (Run::new("e\u{302}\u{303}", Face::Text), Run::new("\u{1ec5}", Face::Text));
        assert_eq!(loose.glyphs[0].id, whole.glyphs[0].id);
        assert_eq!(loose.glyphs[0].bytes, 0..5);
    }

    #[test]
    fn what_no_face_has_is_a_question_mark_that_still_says_the_letter() {
        let mark = Run::new("?", Face::Text).glyphs[0].id;
        for unknown in ["\u{6f22}", "\u{1f339}", "\u{5d0}", "\u{e000}"] {
            let run = Run::new(&format!("A{unknown}B"), Face::Title);
            assert!(run.glyphs.iter().all(|g| g.id != 0), "{unknown}");
            assert!(run.text.contains(unknown) && run.glyphs.len() == 3);
        }
        assert_eq!(Run::new("\u{6f22}", Face::Text).glyphs[0].id, mark);
    }

    #[test]
    fn marks_that_steer_the_reading_and_control_characters_are_gone() {
        let run = Run::new("Mi\u{202e}na\u{7}\u{200d}\u{feff}\tB\u{ad}ell\u{0}", Face::Text);
        assert_eq!(run.text, "Mina Bell");
    }

    #[test]
    fn figures_are_all_of_one_width() {
        for face in Face::ALL {
            let width = |n: u32| Run::new(&n.to_string(), face).width_mm(10.0);
            assert!((0..10).all(|n| (width(n) - width(0)).abs() < 1e-9), "{face:?}");
        }
    }

    #[test]
    fn lines_break_between_words_and_long_words_where_they_must() {
        let words =
            "Lavender and ivory, no snug band please.\nSecond paragraph with Donaudampfschifffahrtsgesellschaft";
        let lines = wrapped(words, Face::Text, 4.0, 30.0);
        assert!(lines.len() > 5 && lines.iter().all(|l| l.width_mm(4.0) <= 30.0 + 1e-9));
        let again: String = lines.iter().map(|l| l.text.replace(' ', "")).collect();
        assert_eq!(again, words.replace([' ', '\n'], ""));
        let narrow = wrapped("WWW", Face::Strong, 40.0, 1.0);
        assert_eq!(narrow.len(), 3, "a line too narrow for a letter takes one all the same");
    }

    #[test]
    fn what_is_too_wide_is_cut_with_an_ellipsis() {
        let run = Run::cut("Harbour Hall and a very long name indeed", Face::Strong, 5.0, 40.0);
        assert!(run.text.ends_with('\u{2026}') && run.width_mm(5.0) <= 40.0);
        assert_eq!(Run::cut("Mina", Face::Strong, 5.0, 40.0).text, "Mina");
    }
}
