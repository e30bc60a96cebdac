//! What the window opens on: the shop, and the order that is shown first.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::app::preload::Preloaded;
use crate::session::Session;
use crate::store::{LastOrders, LockState, OrderLock, Shop};

/// What to open the window on.
#[derive(Clone, Debug, Default)]
pub struct Opening {
    /// The file of an order.
    pub file: Option<PathBuf>,
    /// The shop's folder.
    pub shop: Option<PathBuf>,
    /// A photo of the dress, to be read.
    pub photo: Option<PathBuf>,
}

/// The name under which settings and the shop's folder are kept.
pub(crate) const APP_ID: &str = "posywright";

/// What the window opens on.
pub(crate) struct Opened {
    pub(crate) shop: Shop,
    pub(crate) session: Session,
    /// What is to be said about them.
    pub(crate) said: Vec<String>,
    /// The folder for a shop that nobody has begun yet.
    pub(crate) begin_in: Option<PathBuf>,
    /// Where this computer remembers which order was open last.
    pub(crate) last_orders: LastOrders,
    /// Whether the order is the one that was open last, and nobody asked for it by name.
    pub(crate) is_last: bool,
    /// What is drawn already.
    pub(crate) preloaded: Preloaded,
}

/// The shop and the order to begin with, and what is to be said about them. `own` is the folder that the computer gives
/// this program.
pub(crate) fn lay_out(opening: &Opening, own: &Path) -> Opened {
    let mut said = Vec::new();
    let shop = match (&opening.shop, &opening.file) {
        (Some(dir), _) => Shop::open(dir).map(Some),
        (None, Some(file)) => Ok(Some(Shop::of_file(file))),
        (None, None) => Shop::own(own),
    };
    let begin_in = matches!(shop, Ok(None)).then(|| own.to_owned());
    let shop = shop.unwrap_or_else(|refusal| {
        said.push(refusal.to_string());
        None
    });
    let shop = shop.unwrap_or_else(Shop::built_in);
    said.extend(shop.warnings().iter().cloned());
    let last_orders = LastOrders::in_folder(own.parent().unwrap_or(own));
    let last = last_orders.of(&shop).filter(|file| opening.file.is_none() && is_free(file));
    let is_last = last.is_some();
    let session = first_order(&shop, opening.file.clone().or(last), &mut said);
    let preloaded = Preloaded::begin(&session);
    Opened { shop, session, said, begin_in, last_orders, is_last, preloaded }
}

/// The order asked for; else the showpiece of the sample shop, which no other shop has; else a new one.
pub(crate) fn first_order(shop: &Shop, asked: Option<PathBuf>, said: &mut Vec<String>) -> Session {
    let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
    let first = asked.or_else(|| Some(shop.orders_folder().join(SHOWN_FIRST)).filter(|f| is_free(f)));
    match first {
        None => Session::fresh(stock, style),
        Some(file) => match Session::open(&file, Arc::clone(&stock), Arc::clone(&style)) {
            Ok((session, warnings)) => {
                said.extend(warnings);
                session
            }
            Err(refusal) => {
                said.push(refusal.to_string());
                Session::fresh(stock, style)
            }
        },
    }
}

/// The sample that a person sees first.
const SHOWN_FIRST: &str = "09-showpiece.ron";

/// Whether it is there and no other window shows it: a second window begins a new order.
fn is_free(file: &Path) -> bool {
    file.exists() && !matches!(OrderLock::try_acquire(file), LockState::HeldElsewhere)
}

pub(crate) fn own_folder() -> PathBuf {
    eframe::storage_dir(APP_ID).unwrap_or_else(|| PathBuf::from(".")).join("shop")
}
