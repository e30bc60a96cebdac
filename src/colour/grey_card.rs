//! Taking the light of the room out of a photographed colour, with a grey card in the same photo.
//!
//! The card is 18 % grey in any light. Its colour in the photo tells the light: the colour wanted is carried from that white
//! to D65 with the Bradford matrix (the von Kries rule in sharpened cone space, as in ICC.1:2022 annex E) and made as bright
//! as makes the card 18 %. Under light bulbs and tubes some 2 to 3 of CIEDE2000 are left, with 5 to 9 for the worst colours.

use super::Rgb;
use super::light::{Matrix, WHITE, linear_of_oklab, linear_of_xyz, oklab_of_linear, times, xyz_of, xyz_of_linear};
use super::rgb::oklch_of;

/// Bradford, XYZ to sharpened cones.
const CONES: Matrix = [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]];

/// XYZ under one white as it looks under another. Y of the whites need not be 1; a white without light gives back what came.
pub fn adapted(xyz: [f64; 3], from_white: [f64; 3], to_white: [f64; 3]) -> [f64; 3] {
    let (from, to) = (times(&CONES, from_white), times(&CONES, to_white));
    if from.iter().any(|cone| cone.abs() < 1e-9) {
        return xyz;
    }
    let cones = times(&CONES, xyz);
    times(&inverse(&CONES), [0, 1, 2].map(|i| cones[i] * to[i] / from[i]))
}

/// What a grey card in a photo tells of the light there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GreyCard {
    /// XYZ of the card as photographed.
    card: [f64; 3],
}

/// Why a spot cannot be a grey card in usable light.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardDoubt {
    /// Next to nothing is seen of it.
    TooDark,
    /// It is blown out, or nearly so.
    TooBright,
    /// Too strong a colour, in any light that one sells flowers in.
    Coloured,
}

impl CardDoubt {
    /// What is the matter, and what to do.
    pub fn says(self) -> &'static str {
        match self {
            Self::TooDark => "Too dark for a grey card. Tap the middle of the card, or take the photo in more light.",
            Self::TooBright => {
                "Too bright for a grey card. Tap the middle of the card, or take the photo without glare."
            }
            Self::Coloured => "Too much colour for a grey card. Tap the middle of the card.",
        }
    }
}

impl GreyCard {
    /// How much light a grey card gives back: 18 %, L* 49.5. Common practice in photography; no card is exact.
    pub const GIVES_BACK: f64 = 0.18;
    /// Y below and above which a card cannot be read: a fifth of and four times what it should be. Our choice.
    const READABLE: std::ops::RangeInclusive<f64> = 0.036..=0.72;
    /// OKLab chroma over lightness of a card: under a light bulb in a photo set for daylight it is 0.16. Our choice.
    const MOST_COLOUR: f64 = 0.25;

    /// The card as it looks in the photo.
    pub fn seen_as(colour: Rgb) -> Result<Self, CardDoubt> {
        let card = xyz_of(colour);
        let [l, chroma, _] = colour.oklch();
        match card[1] {
            y if y < *Self::READABLE.start() => Err(CardDoubt::TooDark),
            y if y > *Self::READABLE.end() => Err(CardDoubt::TooBright),
            _ if chroma > Self::MOST_COLOUR * l => Err(CardDoubt::Coloured),
            _ => Ok(Self { card }),
        }
    }

    /// A card of known XYZ, as a spectrometer would give it.
    pub fn of_xyz(card: [f64; 3]) -> Self {
        Self { card }
    }

    /// XYZ of something in the same photo, as it would be in daylight, bright as it should be.
    pub fn correct(&self, xyz: [f64; 3]) -> [f64; 3] {
        let day = adapted(xyz, self.card, WHITE);
        day.map(|part| part * Self::GIVES_BACK)
    }

    /// The same for a colour in OKLab.
    pub fn correct_oklab(&self, lab: [f64; 3]) -> [f64; 3] {
        oklab_of_linear(linear_of_xyz(self.correct(xyz_of_linear(linear_of_oklab(lab)))))
    }

    /// How strongly the light is coloured: OKLab chroma of the card over its lightness, 0 in daylight.
    pub fn cast(&self) -> f64 {
        let [l, chroma, _] = oklch_of(oklab_of_linear(linear_of_xyz(self.card)));
        if l > 0.0 { chroma / l } else { 0.0 }
    }
}

/// By cofactors; for the matrix above, whose determinant is far from nothing.
fn inverse(m: &Matrix) -> Matrix {
    let minor = |r: usize, c: usize| {
        let at = |i: usize, j: usize| m[(r + i) % 3][(c + j) % 3];
        at(1, 1) * at(2, 2) - at(1, 2) * at(2, 1)
    };
    let determinant: f64 = [0, 1, 2].map(|c| m[0][c] * minor(0, c)).iter().sum();
    [0, 1, 2].map(|r| [0, 1, 2].map(|c| minor(c, r) / determinant))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_card_itself_becomes_the_grey_it_is() {
        for seen in [0x767676, 0x9a7650, 0x5a6070, 0xb0a890] {
            let card = GreyCard::seen_as(Rgb::hex(seen)).unwrap();
            let lab = card.correct_oklab(Rgb::hex(seen).oklab());
            let grey = Rgb::from_oklab(lab);
            assert!(grey.difference(Rgb::hex(0x767676)) < 0.7, "{seen:x} {grey:?}");
        }
    }

    #[test]
    fn what_cannot_be_a_grey_card_is_told() {
        for (seen, doubt) in
            [(0x101010, CardDoubt::TooDark), (0xfafafa, CardDoubt::TooBright), (0xc02030, CardDoubt::Coloured)]
        {
            assert_eq!(GreyCard::seen_as(Rgb::hex(seen)), Err(doubt));
            assert!(doubt.says().ends_with('.') && doubt.says().len() <= 90);
        }
        assert_eq!(adapted([0.2, 0.3, 0.4], [0.0; 3], [1.0; 3]), [0.2, 0.3, 0.4]);
    }
}
