//! What the bench must know of a wearer before a flower is cut, in short sentences: what does not agree, what must not touch
//! her, and what nobody has confirmed yet. Reasons stay with the wearer.

use super::child_rules::{POISON_BELOW_YEARS, SMALL_PARTS_BELOW_YEARS};
use super::{Avoided, MissingDetail, Order, Stopped, WearerStops, Words, stopped};
use crate::piece::Worn;
use crate::stock::{Stock, StockId};
use crate::units::fold;

impl Order {
    /// What does not agree with the wearer, in words: what a file tells by its id is called by its name in stock.
    pub fn allergy_names(&self, stock: &Stock) -> Vec<String> {
        let named = |told: &String| {
            let id = StockId::new(told);
            let flower = stock.botanical(&id).map(|b| &b.name);
            let name =
                flower.or_else(|| stock.sundry(&id).map(|s| &s.name)).or_else(|| stock.band(&id).map(|b| &b.name));
            name.filter(|name| fold(name) != fold(told)).unwrap_or(told).clone()
        };
        self.needs.allergies.iter().flatten().map(named).collect()
    }

    /// What must not be overlooked, most important first; none when there is nothing.
    pub fn for_the_bench(&self, stock: &Stock) -> Vec<String> {
        let needs = &self.needs;
        let things = self.allergy_names(stock);
        let said = |told: bool, words: &str| told.then(|| words.to_owned());
        let unread: Vec<String> = Avoided::of(needs, stock).open().map(|word| word.unread.clone()).collect();
        let is_below = |limit| needs.child_years().is_some_and(|years| years < limit);
        let stops = stopped(self, stock).into_iter().filter(Stopped::concerns_safety).map(|stop| stop.line());
        let fixed = [
            (!things.is_empty()).then(|| Words::allergy_names(&things)),
            said(needs.no_latex, Words::NO_LATEX),
            said(needs.no_snug_band, Words::NO_SNUG_BAND),
            said(needs.body.has_implant, Words::IMPLANT),
            said(needs.body.no_scent, Words::NO_SCENT),
            needs.spared_arm.map(|arm| Words::spare(arm.word())),
            needs.body.worn_already.map(|arm| Words::worn_already(arm.word())),
            said(is_below(SMALL_PARTS_BELOW_YEARS), Words::SMALL_CHILD),
            said(is_below(POISON_BELOW_YEARS), Words::SOME_CHILD),
            (!unread.is_empty()).then(|| Words::not_understood(&unread)),
        ];
        let on_lapel = self.piece.worn == Worn::Lapel;
        let open = if on_lapel { Words::NOT_ASKED_ON_LAPEL } else { Words::NOT_ASKED };
        let not_asked = said(!needs.body.is_asked, open);
        let fixed = fixed.into_iter().flatten().chain(not_asked);
        stops.chain(fixed).chain(self.missing_sentence(stock)).collect()
    }

    /// What must stand on the box of the piece, short and loud: what does not agree with its wearer, and what is on the
    /// piece all the same. None when there is nothing.
    pub fn for_the_box(&self, stock: &Stock) -> Vec<String> {
        let things = self.allergy_names(stock);
        let told = (!things.is_empty()).then(|| Words::allergy_names(&things));
        let said = |told: bool, words: &str| told.then(|| words.to_owned());
        let fixed = [
            said(self.needs.no_latex, Words::NO_LATEX),
            said(self.needs.body.has_implant, Words::NO_MAGNET_ON_BOX),
            said(self.needs.body.no_scent, Words::NO_SCENT),
        ];
        let stops = WearerStops::of(self, stock).all().into_iter().filter(Stopped::concerns_safety);
        told.into_iter().chain(fixed.into_iter().flatten()).chain(stops.map(|stop| stop.line())).collect()
    }

    /// What holds up the work and is not known: one sentence. A name is seen to be missing anyhow.
    pub fn missing_sentence(&self, stock: &Stock) -> Option<String> {
        let open =
            self.missing_details(stock).into_iter().filter(|what| what.holds_up() && *what != MissingDetail::Wearer);
        let names: Vec<&str> = open.map(MissingDetail::name).collect();
        (!names.is_empty()).then(|| Words::missing(&super::listed(&names)))
    }
}

#[cfg(test)]
mod tests {
    use crate::book::{Change, Order, WearerKind, When};
    use crate::piece::Side;
    use crate::stock::Stock;

    #[test]
    fn what_must_not_be_overlooked_comes_before_what_is_not_confirmed() {
        let stock = Stock::default();
        let changes = vec![
            Change::Allergies(Some(vec!["baby\u{2019}s breath".into(), "lilies".into()])),
            Change::NoLatex(true),
            Change::SparedArm(Some(Side::Right)),
            Change::Kind(Some(WearerKind::Child { years: 2 })),
            Change::Dance("Harbour Hall".into()),
            Change::Wanted(When::typed("9 May 2026")),
        ];
        let order = Order::blank(None, &stock).apply(&Change::Together(changes), &stock).unwrap();
        let told = order.for_the_bench(&stock);
        assert_eq!(
            told,
            [
                "ALLERGY: baby\u{2019}s breath and lilies.",
                "NO LATEX.",
                "AVOID THE RIGHT ARM.",
                "UNDER THREE: no small parts, no pins, no cords.",
                "CHILD UNDER SIX: nothing poisonous.",
                "NOT UNDERSTOOD, stops nothing: baby\u{2019}s breath and lilies.",
                "Not asked: pacemaker, scent, watch or bandage, arm to spare.",
                "Missing: wrist size and dress colour.",
            ]
        );
    }

    #[test]
    fn who_was_asked_and_bears_everything_brings_no_warning_of_it() {
        let stock = Stock::default();
        let order = Order::blank(None, &stock).apply(&Change::Allergies(Some(Vec::new())), &stock).unwrap();
        assert!(order.for_the_bench(&stock).iter().all(|says| !says.contains("ALLERGY")));
    }
}
