//! What is calculated from a piece: stem list, goods, minutes, price; and for many: what to buy where, who works at what
//! when. Rows and figures, no formatting.
//!
//! Money is whole [`crate::units::Cents`] wherever a person reads it: a line is calculated in f64, so that three sprigs of 12.5
//! cents are 37.5, and rounded once; sums add up rounded lines. Knows nothing of pictures, files or screens.

mod agree;
mod bench_day;
mod bench_plan;
mod bill;
mod buying;
mod care;
mod cautions;
mod cold_room;
mod colour_match;
mod example_prices;
mod firm;
mod market_list;
mod minutes;
mod offers;
mod party_bill;
mod price;
mod price_list;
mod price_words;
mod quote;
mod restyle;
mod stem_list;
mod steps;
mod together;
mod variations;
mod weekend;

pub use agree::{agree, changed_since_agreed};
pub use bench_day::{BenchDay, BenchWork, Makers, StageSum, USUAL_BEGIN, USUAL_HOURS, bench_day};
pub use bench_plan::{
    BenchPiece, BenchPlan, BenchStep, Effort, MINUTES_A_DAY, MOST_BENCH_STEPS, MOST_PIECES, NoPlan, PlannedStep,
    bench_plan,
};
pub use bill::{BillLine, bill_of_materials, line_of};
pub use buying::{
    BuyingList, Figure, MOST_ITEMS, MOST_MONEY, MOST_OFFERS, MOST_STEMS, MOST_SUPPLIERS, NoList, PackOffer, Shortage,
    Supplier, Wanted, buying_list,
};
pub use care::{Care, FRIDGE_FRONT_C, care_of, hours_of};
pub use cautions::cautions_of;
pub use cold_room::{ChillsThere, chills_there};
pub use colour_match::{ColourRow, PieceColour, colour_match, palette_sentence, piece_colours, piece_palette};
pub use example_prices::n_example_prices;
pub use firm::{Firm, FirmBy, Pending, keep_quote};
pub use market_list::{
    MarketBuy, MarketGoods, MarketLine, MarketList, NoMarket, SupplierOrder, first_pickup, market_list, more_to_buy,
};
pub use minutes::making_minutes;
pub use offers::{BudgetAnswer, Difference, SizeOffer, fits_budget, other_charges, sizes_side_by_side};
pub use party_bill::{PartyBill, PartyBillLine, party_bill};
pub use price::{Price, ShareOfThree, making_from_whole};
pub use price_list::{
    AmountFault, PriceChange, PriceColumn, PriceColumns, PriceImport, PriceRow, PriceTable, RefusedRow, price_import,
};
pub use price_words::{
    WHY_BELOW, below_words_my_side, budget_words, difference_words, full_price, holds_words, payment_words,
    pending_words, price_difference, share_words, short_price, tax_words, today_words_my_side,
};
pub use quote::{MySide, Quote, quote};
pub use restyle::{BeforeAfter, InStyle, in_style, judged_anew, restyled};
pub use stem_list::{HardLine, StemLine, StemList, bow_ribbon_mm, stem_list};
pub use steps::{Stage, Step, making_steps};
pub use together::{Together, TogetherLine, bought_together};
pub use variations::{
    Variation, VariationChoice, VariationChoices, VariationOffer, offer_variation, variation_choices,
};
pub use weekend::{PieceCount, Weekend, weekend};
