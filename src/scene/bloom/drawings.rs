//! How each form is drawn, one entry a form, in the order of [`Form::ALL`]: from above, in profile, and before it has opened.
//!
//! A form without an entry, or out of its order, does not compile.

use std::f64::consts::FRAC_PI_2;

use kurbo::Affine;

use super::profile::within;
use super::{
    Openness, bud, bulb, fern, greens, half_open, knob, leaf, opening, orchid, rayed, rose, ruffled, side, spike,
    sprig, star,
};
use crate::colour::Rgb;
use crate::scene::draft::Draft;
use crate::scene::hues::Hues;
use crate::stock::Form;

/// What is drawn in the tones of a colour.
type InTones = fn(&mut Draft, &Hues);

/// How a form is drawn from above. Long ones get their width over their length.
#[derive(Clone, Copy, Debug)]
enum FromAbove {
    Petals(InTones),
    Spike(fn(&mut Draft, &Hues, f64)),
    Tuft(fn(&mut Draft, Rgb)),
    Leaf(fn(&mut Draft, Rgb, f64)),
}

/// How a form is drawn from beside it; the number is its height over half its width.
#[derive(Clone, Copy, Debug)]
enum InProfile {
    Head(fn(&mut Draft, f64, &Hues)),
    TuftHead(fn(&mut Draft, f64, Rgb)),
    /// Round or as flat from every side, or known by its face.
    AsFromAbove,
    /// Long ones lie on their side.
    LaidFlat,
}

use FromAbove::{Leaf, Petals, Spike, Tuft};
use InProfile::{AsFromAbove, Head, LaidFlat, TuftHead};

/// How one form is drawn.
#[derive(Clone, Copy, Debug)]
pub(super) struct Drawing {
    form: Form,
    from_above: FromAbove,
    in_profile: InProfile,
    /// As a bud, and half open; of a form that opens.
    stages: Option<[InTones; 2]>,
    /// The colour and the width over length in which the chart shows it.
    pub(super) chart_colour: Rgb,
    pub(super) chart_breadth: f64,
}

const fn drawing(form: Form, from_above: FromAbove, in_profile: InProfile, chart_colour: u32) -> Drawing {
    let chart_colour = Rgb::hex(chart_colour);
    Drawing { form, from_above, in_profile, stages: None, chart_colour, chart_breadth: 1.0 }
}

static DRAWINGS: [Drawing; Form::ALL.len()] = [
    drawing(Form::Rose, Petals(rose::rose), Head(side::cups::rose), 0xe3979c).opening(bud::rose, rose::rose_half_open),
    drawing(Form::SprayRose, Petals(rose::spray_rose), Head(side::cups::spray_rose), 0xf3c6b4)
        .opening(bud::spray_rose, rose::spray_rose_half_open),
    drawing(Form::Ranunculus, Petals(rose::ranunculus), Head(side::cups::ranunculus), 0xf3b283)
        .opening(bud::ranunculus, rose::ranunculus_half_open),
    drawing(Form::Carnation, Petals(ruffled::carnation), Head(side::cups::carnation), 0x9c2344)
        .opening(bud::carnation, half_open::carnation),
    drawing(Form::Lisianthus, Petals(rose::lisianthus), Head(side::cups::lisianthus), 0xc3aede)
        .opening(bud::lisianthus, half_open::lisianthus),
    drawing(Form::Freesia, Petals(star::freesia), Head(side::flares::freesia), 0xf4e19c)
        .opening(bud::freesia, half_open::freesia),
    drawing(Form::Anemone, Petals(rayed::anemone), Head(side::discs::anemone), 0x7d5bb5)
        .opening(bud::anemone, half_open::anemone),
    drawing(Form::Tulip, Petals(bulb::tulip), Head(side::cups::tulip), 0xea9a6a)
        .opening(bulb::tulip_bud, bulb::tulip_half_open),
    drawing(Form::Daisy, Petals(rayed::daisy), Head(side::discs::daisy), 0xfdfbf5)
        .opening(bud::daisy, half_open::daisy),
    drawing(Form::ButtonMum, Petals(rayed::button_mum), Head(side::discs::button_mum), 0xe9e6a4)
        .opening(bud::button_mum, |d, h| opening::raised(d, h, 19, 0.15, Rgb::hex(0xb9c04a))),
    drawing(Form::Craspedia, Petals(knob::craspedia), Head(side::sprays::drumstick), 0xecc02d)
        .opening(|d, h| bud::craspedia(d, h, 0.0), |d, h| bud::craspedia(d, h, 1.0)),
    drawing(Form::Dendrobium, Petals(orchid::dendrobium), Head(side::flares::dendrobium), 0xf3e4f1)
        .opening(opening::chin, |d, h| orchid::half_open(d, h, 0.36)),
    drawing(Form::Cymbidium, Petals(orchid::cymbidium), Head(side::flares::cymbidium), 0xd5dc9a)
        .opening(bud::cymbidium, |d, h| orchid::half_open(d, h, 0.3)),
    drawing(Form::Phalaenopsis, Petals(orchid::phalaenopsis), Head(side::flares::dendrobium), 0xf6eef4)
        .opening(opening::chin, |d, h| orchid::half_open(d, h, 0.52)),
    drawing(Form::Stephanotis, Petals(star::stephanotis), Head(side::flares::stephanotis), 0xfdfbf5)
        .opening(bud::stephanotis, side::flares::stephanotis_half_open),
    drawing(Form::Alstroemeria, Petals(star::alstroemeria), Head(side::flares::alstroemeria), 0xe98aa0)
        .opening(bud::alstroemeria, half_open::alstroemeria),
    drawing(Form::Nerine, Petals(star::nerine), Head(side::flares::nerine), 0xec8fb6)
        .opening(bud::nerine, half_open::nerine),
    drawing(Form::StarFloret, Petals(star::star_floret), Head(side::flares::star_floret), 0x9cc3e3)
        .opening(bud::star_floret, side::flares::star_floret_half_open),
    drawing(Form::Delphinium, Petals(star::delphinium), Head(side::flares::delphinium), 0x5b7fd0)
        .opening(bud::delphinium, half_open::delphinium),
    drawing(Form::Hydrangea, Petals(star::hydrangea), Head(side::flares::hydrangea), 0xa9bde4)
        .opening(bud::hydrangea, |d, h| opening::funnel(d, h, 4, 0.54, Rgb::hex(0xd7dfae))),
    drawing(Form::SweetPea, Petals(ruffled::sweet_pea), AsFromAbove, 0xe9a9cd)
        .opening(bud::sweet_pea, ruffled::sweet_pea_half_open),
    drawing(Form::Muscari, Spike(spike::muscari), LaidFlat, 0x4a5bb0).with_breadth(0.38),
    drawing(Form::Calla, Spike(bulb::calla), LaidFlat, 0xf3e6c4).with_breadth(0.5),
    drawing(Form::Bells, Spike(bulb::bells), LaidFlat, 0xf8f8f0).with_breadth(0.36),
    drawing(Form::Astrantia, Petals(rayed::astrantia), Head(side::discs::astrantia), 0xe6c3cc)
        .opening(bud::astrantia, |d, h| opening::raised(d, h, 12, 0.17, Rgb::hex(0xd9b7bd))),
    drawing(Form::Scabiosa, Petals(ruffled::scabiosa), Head(side::discs::scabiosa), 0xa9a5dc)
        .opening(bud::scabiosa, |d, h| opening::raised(d, h, 9, 0.3, Rgb::hex(0xd3d8be))),
    drawing(Form::Cornflower, Petals(rayed::cornflower), Head(side::discs::scabiosa), 0x4665c8)
        .opening(bud::thistle, |d, h| opening::raised(d, h, 11, 0.13, Rgb::hex(0x5a3f8a))),
    drawing(Form::Berry, Petals(knob::berry), AsFromAbove, 0xb5382f),
    drawing(Form::Thistle, Petals(rayed::thistle), Head(side::discs::thistle), 0x6d8bb5)
        .opening(bud::thistle, |d, h| opening::raised(d, h, 13, 0.1, Rgb::hex(0x5f7fa8))),
    drawing(Form::Waxflower, Petals(sprig::waxflower), Head(side::sprays::waxflower), 0xfdfbf5),
    drawing(Form::BabysBreath, Petals(sprig::babys_breath), Head(side::sprays::babys_breath), 0xfdfbf5),
    drawing(Form::Statice, Petals(sprig::statice), Head(side::sprays::statice), 0x7e5cb0),
    drawing(Form::Heather, Spike(spike::heather), LaidFlat, 0xd277a8).with_breadth(0.3),
    drawing(Form::Lavender, Spike(spike::lavender), LaidFlat, 0x8f7cc4).with_breadth(0.3),
    drawing(Form::Veronica, Spike(spike::veronica), LaidFlat, 0x8d83d2).with_breadth(0.22),
    drawing(Form::Goldenrod, Petals(sprig::goldenrod), Head(side::sprays::goldenrod), 0xe7bd35),
    drawing(Form::Succulent, Tuft(rose::succulent), TuftHead(side::discs::rosette), 0x93b39c),
    drawing(Form::Brunia, Petals(knob::brunia), AsFromAbove, 0xb9c4b4),
    drawing(Form::BroadLeaf, Leaf(leaf::broad), LaidFlat, 0x487a48).with_breadth(0.6),
    drawing(Form::NarrowLeaf, Leaf(leaf::narrow), LaidFlat, 0x3f7045).with_breadth(0.34),
    drawing(Form::RoundLeaf, Leaf(greens::eucalyptus), LaidFlat, 0x93ab9f).with_breadth(0.56),
    drawing(Form::Frond, Leaf(fern::frond), LaidFlat, 0x47783c).with_breadth(0.6),
    drawing(Form::IvyLeaf, Leaf(greens::ivy), LaidFlat, 0x3f6a3d).with_breadth(0.85),
    drawing(Form::Rosette, Tuft(greens::rosette), TuftHead(side::discs::rosette), 0x5b8a4d),
    drawing(Form::FeltLeaf, Leaf(greens::felt), LaidFlat, 0xbac6bd).with_breadth(0.5),
    drawing(Form::Needle, Leaf(fern::needle), LaidFlat, 0x6b8a72).with_breadth(0.34),
    drawing(Form::GrassLoop, Leaf(fern::grass_loop), LaidFlat, 0x6c9a4a).with_breadth(0.4),
    drawing(Form::Plume, Leaf(fern::plume), LaidFlat, 0x6ba052).with_breadth(0.46),
    drawing(Form::Pearl, Petals(knob::pearl), AsFromAbove, 0xf4ece2),
    drawing(Form::Stone, Petals(knob::stone), AsFromAbove, 0xcfe0ee),
];

const _: () = {
    let mut i = 0;
    while i < DRAWINGS.len() {
        assert!(DRAWINGS[i].form as usize == i, "the drawings stand in the order of the forms");
        i += 1;
    }
};

/// How this form is drawn.
pub(super) fn drawing_of(form: Form) -> &'static Drawing {
    &DRAWINGS[form as usize]
}

/// Whether a form is also drawn as a bud and half open: a bloom that opens. Sprigs, spikes, leaves, berries and beads
/// are bought as they stay.
pub fn opens(form: Form) -> bool {
    drawing_of(form).stages.is_some()
}

impl Drawing {
    const fn opening(self, bud: InTones, half_open: InTones) -> Self {
        Self { stages: Some([bud, half_open]), ..self }
    }

    const fn with_breadth(self, chart_breadth: f64) -> Self {
        Self { chart_breadth, ..self }
    }

    /// Draws it from above; `breadth` is the width over the length of a long one.
    pub(super) fn draw_from_above(&self, draft: &mut Draft, breadth: f64, colour: Rgb, openness: Openness) {
        let hues = &Hues::of(colour);
        match (openness, self.stages) {
            (Openness::Bud, Some([bud, _])) => return bud(draft, hues),
            (Openness::Half, Some([_, half_open])) => return half_open(draft, hues),
            (Openness::Open, _) | (_, None) => {}
        }
        match self.from_above {
            Petals(draw) => draw(draft, hues),
            Spike(draw) => draw(draft, hues, breadth),
            Tuft(draw) => draw(draft, colour),
            Leaf(draw) => draw(draft, colour, breadth),
        }
    }

    /// Draws it open, from beside it; `high` is its height over half its width.
    pub(super) fn draw_in_profile(&self, draft: &mut Draft, high: f64, colour: Rgb) {
        match self.in_profile {
            Head(draw) => draw(draft, high, &Hues::of(colour)),
            TuftHead(draw) => draw(draft, high, colour),
            AsFromAbove => self.draw_from_above(draft, 1.0, colour, Openness::Open),
            LaidFlat => within(draft, Affine::rotate(FRAC_PI_2), |draft| {
                self.draw_from_above(draft, (high / 2.0).min(1.0), colour, Openness::Open);
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Point;

    use super::*;
    use crate::scene::draft::LIGHT;

    /// One entry is all that it takes: a made-up form is drawn from above, in profile and at each stage, by what its entry names.
    #[test]
    fn a_form_is_drawn_by_its_entry_alone() {
        const MADE_UP: Drawing = drawing(
            Form::Rose,
            Petals(|draft, hues| draft.ball(Point::ZERO, 4.0, hues, 0.0)),
            Head(|draft, high, hues| draft.ball(Point::ZERO, high, hues, 0.0)),
            0xe3979c,
        )
        .opening(
            |draft, hues| draft.ball(Point::ZERO, 1.0, hues, 0.0),
            |draft, hues| draft.ball(Point::ZERO, 2.0, hues, 0.0),
        );
        let colour = Rgb::hex(0xe3979c);
        let ball = |radius: f64| {
            let mut draft = Draft::new(3, LIGHT);
            draft.ball(Point::ZERO, radius, &Hues::of(colour), 0.0);
            draft.group
        };
        let drawn = |draw: &dyn Fn(&mut Draft)| {
            let mut draft = Draft::new(3, LIGHT);
            draw(&mut draft);
            draft.group
        };
        for (openness, radius) in [(Openness::Bud, 1.0), (Openness::Half, 2.0), (Openness::Open, 4.0)] {
            let from_above = drawn(&|draft| MADE_UP.draw_from_above(draft, 1.0, colour, openness));
            assert_eq!(from_above, ball(radius), "{openness:?}");
        }
        assert_eq!(drawn(&|draft| MADE_UP.draw_in_profile(draft, 1.5, colour)), ball(1.5));
    }

    #[test]
    fn only_long_forms_lie_and_are_narrow_on_the_chart() {
        for (form, drawing) in Form::ALL.into_iter().zip(&DRAWINGS) {
            assert_eq!(matches!(drawing.in_profile, LaidFlat), form.is_long(), "{form:?}");
            assert_eq!(drawing.chart_breadth < 1.0, form.is_long(), "{form:?}");
        }
    }
}
