//! Flowers, leaves and trims: each form is one surface, with a seed, a size and how far it has opened.

mod cups;
mod knobs;
mod leaves;
mod orchids;
mod rays;
mod spikes;
mod sprays;
mod stars;
#[cfg(test)]
mod tests;

use super::luck::Luck;
use super::solid::{fit_long, fit_round};
use super::tone::linear;
use crate::colour::Rgb;
use crate::light::{Mesh, Vec3};
use crate::stock::Form;

/// What one head, sprig or leaf is to look like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Its form.
    pub form: Form,
    /// Its colour in stock.
    pub colour: Rgb,
    /// Diameter of a round form, length of a long one, mm.
    pub size_mm: f64,
    /// Width over length of a long form.
    pub breadth: f64,
    /// From its underside to its top, mm.
    pub height_mm: f64,
    /// How far it has opened: 0 a bud, 1 full.
    pub open: f64,
    /// What makes it differ from its neighbour.
    pub seed: u64,
}

/// What a form is grown from: its colour as a share of light, chance, and how far it has opened.
struct Seed {
    tint: Vec3,
    luck: Luck,
    open: f32,
    /// Height over radius of what is to come out, or over half the length.
    rise: f32,
}

/// The least size that is modelled, mm.
const LEAST_MM: f32 = 0.2;
/// The largest, mm: far beyond anything worn.
const MOST_MM: f32 = 2_000.0;

/// The surface of one head, sprig or leaf. Round forms stand on z = 0 about the z axis; long ones lie on it along x, the tip at
/// +x. Sizes that are none are brought to the nearest that is.
pub fn bloom(look: &Look) -> Mesh {
    let sound = |mm: f64, or: f32| if mm.is_finite() { (mm as f32).clamp(LEAST_MM, MOST_MM) } else { or };
    let size = sound(look.size_mm, LEAST_MM);
    let height = sound(look.height_mm, LEAST_MM);
    let breadth = sound(look.breadth, 1.0).clamp(0.02, 1.0) * size;
    let open = if look.open.is_finite() { look.open.clamp(0.0, 1.0) as f32 } else { 1.0 };
    let mut seed = Seed {
        tint: linear(look.colour),
        luck: Luck::seeded(look.seed),
        open,
        rise: (2.0 * height / size).clamp(0.05, 4.0),
    };
    let mut mesh = grown(look.form, &mut seed, breadth / size);
    if look.form.is_long() {
        fit_long(&mut mesh, size, breadth, height.min(breadth));
    } else {
        fit_round(&mut mesh, size / 2.0, height);
    }
    mesh
}

fn grown(form: Form, seed: &mut Seed, breadth: f32) -> Mesh {
    match form {
        Form::Rose => cups::rose(seed, 36),
        Form::SprayRose => cups::rose(seed, 24),
        Form::Ranunculus => cups::ranunculus(seed),
        Form::Carnation => cups::carnation(seed),
        Form::Lisianthus => cups::lisianthus(seed),
        Form::Tulip => cups::tulip(seed),
        Form::SweetPea => cups::sweet_pea(seed),
        Form::ButtonMum => cups::button_mum(seed),
        Form::Succulent => cups::succulent(seed),
        Form::Rosette => cups::rosette(seed),
        Form::Freesia => stars::freesia(seed),
        Form::Stephanotis => stars::stephanotis(seed),
        Form::Alstroemeria => stars::alstroemeria(seed),
        Form::Nerine => stars::nerine(seed),
        Form::StarFloret => stars::star_floret(seed),
        Form::Delphinium => stars::delphinium(seed),
        Form::Hydrangea => stars::hydrangea(seed),
        Form::Dendrobium => orchids::dendrobium(seed),
        Form::Cymbidium => orchids::cymbidium(seed),
        Form::Phalaenopsis => orchids::phalaenopsis(seed),
        Form::Anemone => rays::anemone(seed),
        Form::Daisy => rays::daisy(seed),
        Form::Astrantia => rays::astrantia(seed),
        Form::Scabiosa => rays::scabiosa(seed),
        Form::Cornflower => rays::cornflower(seed),
        Form::Thistle => rays::thistle(seed),
        Form::Craspedia => knobs::craspedia(seed),
        Form::Berry => knobs::berry(seed),
        Form::Brunia => knobs::brunia(seed),
        Form::Pearl => knobs::pearl(seed),
        Form::Stone => knobs::stone(seed),
        Form::Waxflower => sprays::waxflower(seed),
        Form::BabysBreath => sprays::babys_breath(seed),
        Form::Statice => sprays::statice(seed),
        Form::Goldenrod => sprays::goldenrod(seed),
        Form::Muscari => spikes::muscari(seed),
        Form::Heather => spikes::heather(seed),
        Form::Lavender => spikes::lavender(seed),
        Form::Veronica => spikes::veronica(seed),
        Form::Bells => spikes::bells(seed),
        Form::Plume => spikes::plume(seed),
        Form::Calla => cups::calla(seed),
        Form::BroadLeaf => leaves::broad(seed, breadth),
        Form::NarrowLeaf => leaves::narrow(seed, breadth),
        Form::RoundLeaf => leaves::eucalyptus(seed),
        Form::Frond => leaves::frond(seed),
        Form::IvyLeaf => leaves::ivy(seed),
        Form::FeltLeaf => leaves::felt(seed),
        Form::Needle => leaves::needle(seed),
        Form::GrassLoop => leaves::grass_loop(seed),
    }
}
