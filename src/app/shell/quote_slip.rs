//! The quote slip out of the window: made into the shop's folder to be printed and sent, with its day kept in the order, so
//! that "holds until" is still true when the client comes back.

use std::path::PathBuf;
use std::sync::Arc;

use crate::app::shell::window::Window;
use crate::app::widgets::today::today;
use crate::app::widgets::words::Mine;
use crate::app::workers::paper_worker::paper_of;
use crate::book::{Change, Day, Order};
use crate::command::Command;
use crate::export::{PaperMaker, QUOTE_SLIP};
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::store::{self, Shop};

impl Window {
    /// Makes the slip as PDF and PNG and keeps the order with the day of it. The day counts only when the slip was made.
    pub(crate) fn make_quote_slip(&mut self) {
        self.leave_taps();
        self.take_what_is_typed();
        self.run_command(&Command::EndRun);
        let Some(day) = today(self.pricing.days_off) else {
            self.say(Mine::NO_DAY);
            return;
        };
        let told = self.session.order().apply(&Change::QuotedOn(Some(day)), self.session.stock());
        let order = match told {
            Ok(order) => order,
            Err(refusal) => return self.say(&refusal.to_string()),
        };
        let (shop, stock, style) =
            (self.shop.clone(), Arc::clone(self.session.stock()), Arc::clone(self.session.style()));
        self.with_files(
            move |_| write_slip(&shop, &order, &stock, &style),
            move |w, _, written| match written {
                Err(why) => w.say(&why),
                Ok(path) => w.date_slip(day, path),
            },
        );
    }

    /// The slip was made: its day is saved with the order.
    fn date_slip(&mut self, day: Day, path: PathBuf) {
        self.change(&Change::QuotedOn(Some(day)));
        self.save_then(move |w, _, is_saved| {
            if is_saved {
                let name = path.file_name().unwrap_or_default().to_string_lossy();
                w.tell_done(Mine::slip_made(&name));
            }
        });
    }
}

/// Writes the slip of an order; where its PDF is, or why there is none, as a sentence.
fn write_slip(shop: &Shop, order: &Order, stock: &Stock, style: &HouseStyle) -> Result<PathBuf, String> {
    let paper = paper_of(&style.prices.currency);
    let desk = PaperMaker { shop: shop.name(), stock, style, paper };
    let pdf = shop.new_slip_file(order).map_err(|refusal| refusal.to_string())?;
    for (ending, bytes) in desk.files(order, &QUOTE_SLIP).map_err(|error| error.to_string())? {
        let path = pdf.with_extension(ending.rsplit('.').next().unwrap_or_default());
        store::write_bytes(&path, &bytes).map_err(|refusal| refusal.to_string())?;
    }
    Ok(pdf)
}
