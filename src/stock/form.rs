//! The forms that can be drawn, each on one line; several botanicals may share one.
//!
//! To add a form: a line here, and a line in the table of drawings (`scene/bloom/drawings.rs`). Its word in files is its name in small
//! letters: `SprayRose` is `spray_rose`.

/// The outline by which a form is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Measure {
    /// A disc.
    Round,
    /// A lens, as of a leaf, a spike or a sprig.
    Long,
    /// A disc that is glued on as it is, without a stem: no two of one size differ.
    Bead,
}

/// Defines [`Form`], and what is known of each form, from one line each.
macro_rules! forms {
    ($($name:ident: $measure:ident),+ $(,)?) => {
        /// How a botanical looks from above.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[expect(missing_docs, reason = "each form is the flower it is named for")]
        pub enum Form {
            $($name),+
        }

        impl Form {
            /// Every form, in the order of the form chart.
            pub const ALL: [Self; [$(Self::$name),+].len()] = [$(Self::$name),+];

            const fn measure(self) -> Measure {
                match self {
                    $(Self::$name => Measure::$measure),+
                }
            }
        }
    };
}

forms! {
    Rose: Round,
    SprayRose: Round,
    Ranunculus: Round,
    Carnation: Round,
    Lisianthus: Round,
    Freesia: Round,
    Anemone: Round,
    Tulip: Round,
    Daisy: Round,
    ButtonMum: Round,
    Craspedia: Round,
    Dendrobium: Round,
    Cymbidium: Round,
    Phalaenopsis: Round,
    Stephanotis: Round,
    Alstroemeria: Round,
    Nerine: Round,
    StarFloret: Round,
    Delphinium: Round,
    Hydrangea: Round,
    SweetPea: Round,
    Muscari: Long,
    Calla: Long,
    Bells: Long,
    Astrantia: Round,
    Scabiosa: Round,
    Cornflower: Round,
    Berry: Round,
    Thistle: Round,
    Waxflower: Round,
    BabysBreath: Round,
    Statice: Round,
    Heather: Long,
    Lavender: Long,
    Veronica: Long,
    Goldenrod: Round,
    Succulent: Round,
    Brunia: Round,
    BroadLeaf: Long,
    NarrowLeaf: Long,
    RoundLeaf: Long,
    Frond: Long,
    IvyLeaf: Long,
    Rosette: Round,
    FeltLeaf: Long,
    Needle: Long,
    GrassLoop: Long,
    Plume: Long,
    Pearl: Bead,
    Stone: Bead,
}

impl Form {
    /// Whether it is measured as a lens (a leaf, a spike, a sprig) and not as a disc.
    pub fn is_long(self) -> bool {
        self.measure() == Measure::Long
    }

    /// Whether it is a hard berry or head that could be swallowed whole; soft blooms and leaves are not.
    pub fn is_hard(self) -> bool {
        matches!(self, Self::Berry | Self::Brunia)
    }

    /// Whether it is glued on as it is: it has no stem, and no two differ.
    pub fn is_bead(self) -> bool {
        self.measure() == Measure::Bead
    }
}
