//! The pages, in the order in which they are shown to a person. A new page is a folder under `pages/` and one line here.

/// Hands the list of pages to a macro: a name and, after it, the type that is the page.
macro_rules! page_list {
    ($make:ident) => {
        $make! {
            Colour: colour::ColourPage,
            Price: price::PricePage,
            Stock: stock::StockPage,
            Style: style::StylePage,
            Order: order::OrderPage,
            Sizes: sizes::SizesPage,
            Shop: shop::ShopPage,
            Variations: variations::VariationsPage,
            Orders: orders::OrdersPage,
            Papers: papers::PapersPage,
            Photograph: photograph::PhotographPage,
            Weekend: weekend::WeekendPage,
        }
    };
}
pub(crate) use page_list;

macro_rules! page_ids {
    ($($name:ident: $folder:ident::$kind:ident,)*) => {
        /// What takes the middle of the window.
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
        pub(crate) enum PageId {
            /// The wrist sheet; not a page of the list, for it is always there.
            #[default]
            Sheet,
            $($name,)*
        }
    };
}
page_list!(page_ids);
