//! The forms that can be drawn; several botanicals may share one.

/// How a botanical looks from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "each form is the flower it is named for")]
pub enum Form {
    Rose,
    SprayRose,
    Ranunculus,
    Carnation,
    Lisianthus,
    Freesia,
    Anemone,
    Daisy,
    ButtonMum,
    Craspedia,
    Dendrobium,
    Cymbidium,
    Stephanotis,
    Alstroemeria,
    Nerine,
    StarFloret,
    Delphinium,
    Hydrangea,
    SweetPea,
    Muscari,
    Astrantia,
    Scabiosa,
    Berry,
    Thistle,
    Waxflower,
    BabysBreath,
    Statice,
    Heather,
    Lavender,
    Veronica,
    Goldenrod,
    Succulent,
    Brunia,
    BroadLeaf,
    NarrowLeaf,
    RoundLeaf,
    Frond,
    IvyLeaf,
    Rosette,
    FeltLeaf,
    Needle,
    GrassLoop,
    Plume,
    Pearl,
    Stone,
}

impl Form {
    /// Every form, in the order of the form chart.
    pub const ALL: [Self; 45] = [
        Self::Rose,
        Self::SprayRose,
        Self::Ranunculus,
        Self::Carnation,
        Self::Lisianthus,
        Self::Freesia,
        Self::Anemone,
        Self::Daisy,
        Self::ButtonMum,
        Self::Craspedia,
        Self::Dendrobium,
        Self::Cymbidium,
        Self::Stephanotis,
        Self::Alstroemeria,
        Self::Nerine,
        Self::StarFloret,
        Self::Delphinium,
        Self::Hydrangea,
        Self::SweetPea,
        Self::Muscari,
        Self::Astrantia,
        Self::Scabiosa,
        Self::Berry,
        Self::Thistle,
        Self::Waxflower,
        Self::BabysBreath,
        Self::Statice,
        Self::Heather,
        Self::Lavender,
        Self::Veronica,
        Self::Goldenrod,
        Self::Succulent,
        Self::Brunia,
        Self::BroadLeaf,
        Self::NarrowLeaf,
        Self::RoundLeaf,
        Self::Frond,
        Self::IvyLeaf,
        Self::Rosette,
        Self::FeltLeaf,
        Self::Needle,
        Self::GrassLoop,
        Self::Plume,
        Self::Pearl,
        Self::Stone,
    ];

    /// Whether it is reckoned as a lens (a leaf, a spike, a sprig) and not as a disc.
    pub fn is_long(self) -> bool {
        matches!(
            self,
            Self::BroadLeaf
                | Self::NarrowLeaf
                | Self::RoundLeaf
                | Self::Frond
                | Self::IvyLeaf
                | Self::FeltLeaf
                | Self::Needle
                | Self::GrassLoop
                | Self::Plume
                | Self::Muscari
                | Self::Lavender
                | Self::Veronica
                | Self::Heather
        )
    }
}
