//! Every colour, font and measure of the window, in one place.
//!
//! Paper and leaf, not a tool window. Text stands at 4.5 : 1 or more against its ground in all three lights (WCAG 2.2,
//! 1.4.3); a test holds it.

use std::sync::Arc;

use egui::{Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Stroke, TextStyle};

/// Smallest target, points: 9.5 mm (ANSI/HFES 100-2007) on a 14 inch screen of 1366 x 768 is 42.
pub(crate) const TARGET: f32 = 44.0;
/// A main action, points.
pub(crate) const MAIN_TARGET: f32 = 56.0;
/// A press that moves no farther than this, points, is a tap, on a button as on the sheet.
pub(crate) const SLIP: f32 = 12.0;
/// A press that lasts longer than this, seconds, does nothing: a hand that rests on the screen. Wet and gloved fingers press long,
/// and an old machine may be slow to hear of it; our choice.
pub(crate) const LONGEST_TAP: f64 = 1.5;
/// The grid that everything stands on, points.
pub(crate) const GRID: f32 = 8.0;
/// Rounding of tags and buttons.
pub(crate) const ROUND: CornerRadius = CornerRadius::same(6);

/// In which light the screen stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Light {
    /// The counter.
    Day,
    /// The cold room.
    Dim,
    /// A window in the sun.
    Sun,
}

impl Light {
    pub(crate) const ALL: [Self; 3] = [Self::Day, Self::Dim, Self::Sun];

    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Day => "day",
            Self::Dim => "dim",
            Self::Sun => "sun",
        }
    }

    pub(crate) fn next(self) -> Self {
        match self {
            Self::Day => Self::Dim,
            Self::Dim => Self::Sun,
            Self::Sun => Self::Day,
        }
    }

    pub(crate) fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|l| l.word() == word)
    }
}

/// The colours of one light.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Colours {
    /// The sheet and the panels.
    pub(crate) paper: Color32,
    /// Tags and fields on the paper.
    pub(crate) card: Color32,
    /// The rail.
    pub(crate) kraft: Color32,
    /// Words.
    pub(crate) ink: Color32,
    /// Quieter words.
    pub(crate) soft: Color32,
    /// Hairlines.
    pub(crate) line: Color32,
    /// The main action.
    pub(crate) leaf: Color32,
    /// Words on the main action.
    pub(crate) on_leaf: Color32,
    /// What is in the hand, and what wants a look.
    pub(crate) rose: Color32,
}

const fn rgb(hex: u32) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

impl Colours {
    pub(crate) fn of(light: Light) -> Self {
        match light {
            Light::Day => Self {
                paper: rgb(0xfb_f6ee),
                card: rgb(0xff_fdf9),
                kraft: rgb(0xd4_b791),
                ink: rgb(0x3a_1f33),
                soft: rgb(0x6b_5364),
                line: rgb(0xdf_d0bd),
                leaf: rgb(0x2f_6b3c),
                on_leaf: rgb(0xff_ffff),
                rose: rgb(0xa6_4339),
            },
            Light::Dim => Self {
                paper: rgb(0x2b_2329),
                card: rgb(0x37_2d34),
                kraft: rgb(0x4a_3b30),
                ink: rgb(0xf3_e9e4),
                soft: rgb(0xc9_b8bf),
                line: rgb(0x55_4850),
                leaf: rgb(0x8f_c795),
                on_leaf: rgb(0x14_2a18),
                rose: rgb(0xf0_a296),
            },
            Light::Sun => Self {
                paper: rgb(0xff_ffff),
                card: rgb(0xff_ffff),
                kraft: rgb(0xe8_dccb),
                ink: rgb(0x14_0610),
                soft: rgb(0x3a_2833),
                line: rgb(0x6a_5a62),
                leaf: rgb(0x0c_4a1c),
                on_leaf: rgb(0xff_ffff),
                rose: rgb(0x85_1d14),
            },
        }
    }
}

/// A colour of the house's goods as the window paints it.
pub(crate) fn colour_of(rgb: crate::colour::Rgb) -> Color32 {
    Color32::from_rgb(rgb.r, rgb.g, rgb.b)
}

/// Words and figures.
pub(crate) fn words(size: f32) -> FontId {
    FontId::new(size, FontFamily::Proportional)
}

/// Words that carry weight.
pub(crate) fn strong(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name("strong".into()))
}

/// Titles and the price.
pub(crate) fn title(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name("title".into()))
}

/// Puts the fonts in; once.
pub(crate) fn put_fonts(ctx: &egui::Context) {
    let mut fonts = FontDefinitions::default();
    let faces: [(&str, &'static [u8]); 3] = [
        ("Source Sans 3", include_bytes!("../../../assets/fonts/SourceSans3_400Regular.ttf")),
        ("Source Sans 3 SemiBold", include_bytes!("../../../assets/fonts/SourceSans3_600SemiBold.ttf")),
        ("EB Garamond Medium", include_bytes!("../../../assets/fonts/EBGaramond_500Medium.ttf")),
    ];
    for (name, bytes) in faces {
        fonts.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    let plain = fonts.families.entry(FontFamily::Proportional).or_default();
    plain.insert(0, faces[0].0.to_owned());
    let behind = plain.clone();
    for (family, face) in [("strong", faces[1].0), ("title", faces[2].0)] {
        let mut list = vec![face.to_owned()];
        list.extend(behind.iter().cloned());
        fonts.families.insert(FontFamily::Name(family.into()), list);
    }
    ctx.set_fonts(fonts);
    // The window is laid out for its size; a zoom of its own would push buttons off it.
    ctx.options_mut(|o| {
        o.zoom_with_keyboard = false;
        o.input_options.max_click_dist = SLIP;
        o.input_options.max_click_duration = LONGEST_TAP;
    });
}

/// Dresses egui's own widgets for a light.
pub(crate) fn dress(ctx: &egui::Context, light: Light) {
    let c = Colours::of(light);
    ctx.set_theme(if light == Light::Dim { egui::ThemePreference::Dark } else { egui::ThemePreference::Light });
    ctx.all_styles_mut(|style| {
        style.text_styles = [
            (TextStyle::Body, words(16.0)),
            (TextStyle::Button, words(16.0)),
            (TextStyle::Small, words(14.0)),
            (TextStyle::Monospace, words(15.0)),
            (TextStyle::Heading, title(24.0)),
        ]
        .into();
        style.spacing.item_spacing = egui::vec2(GRID, GRID);
        style.spacing.button_padding = egui::vec2(14.0, 8.0);
        style.spacing.interact_size = egui::vec2(TARGET, TARGET);
        // A bar lies beside what it scrolls, not on it.
        style.spacing.scroll.floating_allocated_width = GRID;
        style.animation_time = 0.12;
        dress_visuals(&mut style.visuals, &c);
    });
}

fn dress_visuals(v: &mut egui::Visuals, c: &Colours) {
    v.override_text_color = Some(c.ink);
    v.panel_fill = c.paper;
    v.window_fill = c.card;
    v.extreme_bg_color = c.card;
    v.faint_bg_color = c.card;
    v.window_stroke = Stroke::new(1.0, c.line);
    v.window_corner_radius = CornerRadius::same(14);
    v.menu_corner_radius = ROUND;
    v.selection.bg_fill = c.leaf.gamma_multiply(0.35);
    v.selection.stroke = Stroke::new(2.0, c.leaf);
    v.hyperlink_color = c.leaf;
    v.warn_fg_color = c.rose;
    v.error_fg_color = c.rose;
    let widgets = &mut v.widgets;
    let states = [
        (&mut widgets.noninteractive, c.card, c.line),
        (&mut widgets.inactive, c.card, c.line),
        (&mut widgets.hovered, c.paper, c.soft),
        (&mut widgets.active, c.kraft, c.ink),
        (&mut widgets.open, c.kraft, c.line),
    ];
    for (state, fill, edge) in states {
        state.bg_fill = fill;
        state.weak_bg_fill = fill;
        state.bg_stroke = Stroke::new(1.0, edge);
        state.fg_stroke = Stroke::new(1.5, c.ink);
        state.corner_radius = ROUND;
        state.expansion = 0.0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance and contrast as WCAG 2.2 defines them.
    fn contrast(a: Color32, b: Color32) -> f64 {
        let light = |c: Color32| {
            let part = |v: u8| {
                let v = f64::from(v) / 255.0;
                if v <= 0.04045 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
            };
            0.2126 * part(c.r()) + 0.7152 * part(c.g()) + 0.0722 * part(c.b())
        };
        let (x, y) = (light(a), light(b));
        (x.max(y) + 0.05) / (x.min(y) + 0.05)
    }

    #[test]
    fn a_tap_on_a_button_may_slip_as_far_as_one_on_the_sheet() {
        assert_eq!(f64::from(SLIP), crate::sheet::TAP_SLIP);
    }

    #[test]
    fn words_stand_out_from_their_ground_in_every_light() {
        assert!((contrast(Color32::WHITE, Color32::from_rgb(0x76, 0x76, 0x76)) - 4.54).abs() < 0.005, "WCAG's example");
        for light in Light::ALL {
            let c = Colours::of(light);
            for (what, words, ground) in [
                ("ink on paper", c.ink, c.paper),
                ("ink on card", c.ink, c.card),
                ("ink on kraft", c.ink, c.kraft),
                ("soft on paper", c.soft, c.paper),
                ("soft on card", c.soft, c.card),
                ("words on leaf", c.on_leaf, c.leaf),
                ("leaf on paper", c.leaf, c.paper),
                ("rose on paper", c.rose, c.paper),
                ("rose on card", c.rose, c.card),
            ] {
                assert!(contrast(words, ground) >= 4.5, "{light:?}: {what} {:.2}", contrast(words, ground));
            }
        }
    }
}
