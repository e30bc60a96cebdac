//! The quote slip out of the window: made into the shop's folder to be printed and sent, with its day kept in the order, so
//! that "holds until" is still true when the client comes back.

use std::path::PathBuf;

use crate::app::shell::papers::paper_of;
use crate::app::shell::window::Window;
use crate::app::widgets::today::today;
use crate::app::widgets::words::Mine;
use crate::book::{Change, Day, Order};
use crate::command::Command;
use crate::export::{PaperMaker, QUOTE_SLIP};
use crate::store;

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
        match self.slip_of(day) {
            Err(why) => self.say(&why),
            Ok(path) => {
                self.change(&Change::QuotedOn(Some(day)));
                if self.keep() {
                    let name = path.file_name().unwrap_or_default().to_string_lossy();
                    self.tell_done(Mine::slip_made(&name));
                }
            }
        }
    }

    /// Writes the slip of the order as told on this day; where its PDF is, or why there is none, as a sentence.
    fn slip_of(&self, day: Day) -> Result<PathBuf, String> {
        let (stock, style) = (self.session.stock(), self.session.style());
        let told = self.session.order().apply(&Change::QuotedOn(Some(day)), stock);
        let order: &Order = &told.map_err(|refusal| refusal.to_string())?;
        let paper = paper_of(&style.prices.currency);
        let desk = PaperMaker { shop: self.shop.name(), stock, style, paper };
        let pdf = self.shop.new_slip_file(order).map_err(|refusal| refusal.to_string())?;
        for (ending, bytes) in desk.files(order, &QUOTE_SLIP).map_err(|error| error.to_string())? {
            let path = pdf.with_extension(ending.rsplit('.').next().unwrap_or_default());
            store::write_bytes(&path, &bytes).map_err(|refusal| refusal.to_string())?;
        }
        Ok(pdf)
    }
}
