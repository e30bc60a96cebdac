//! Occasions: a dance, a wedding or a span of days gathers its orders by what they say already. Nothing is typed twice: the
//! event, else the party, and the day of the event, else that of the pick-up, tell which orders belong together.

use std::collections::BTreeMap;

use super::{Day, Order};
use crate::units::fold;

/// Orders of one name whose days lie further apart than this are of different occasions: the same dance a year later. Our
/// choice, days.
const DAYS_APART: i64 = 7;

/// What of an order tells its occasion.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OccasionMark {
    name: String,
    /// The day of the event, else that of the pick-up.
    day: Option<Day>,
    pickup: Option<Day>,
}

impl OccasionMark {
    /// The mark of an order.
    pub fn of(order: &Order) -> Self {
        let names = [order.dance.trim(), order.party.trim()];
        let name = names.into_iter().find(|name| !name.is_empty()).unwrap_or_default().to_owned();
        let pickup = order.wanted.day();
        Self { name, day: order.event_day.day().or(pickup), pickup }
    }

    fn key(&self) -> String {
        fold(&self.name).split_whitespace().collect::<Vec<_>>().join(" ")
    }
}

/// A dance, a wedding, or a span of days.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Occasion {
    id: String,
    name: String,
    days: Option<(Day, Day)>,
    gathers: Gathers,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Gathers {
    /// Orders of this name, folded, in its days; those without a day too, where that is said.
    Named { key: String, with_undated: bool },
    /// Every order that is picked up, or whose event is, in its days.
    InDays,
}

impl Occasion {
    /// All that is wanted from one day to another.
    pub fn of_days(first: Day, last: Day) -> Self {
        let (first, last) = (first.min(last), first.max(last));
        let id = if first == last { first.to_string() } else { format!("{first}..{last}") };
        Self { name: String::new(), id, days: Some((first, last)), gathers: Gathers::InDays }
    }

    /// By what it is called on the command line: `quayside-prom-2026-05-09`, `2026-05-08..2026-05-10`.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// The name of the dance, the wedding or the party; empty for a span of days.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its first and last day, where any order tells one.
    pub fn days(&self) -> Option<(Day, Day)> {
        self.days
    }

    /// Whether an order with this mark belongs to it.
    pub fn holds(&self, mark: &OccasionMark) -> bool {
        let within = |day: Day| self.days.is_some_and(|(first, last)| first <= day && day <= last);
        match &self.gathers {
            Gathers::Named { key, with_undated } => mark.key() == *key && mark.day.map_or(*with_undated, within),
            Gathers::InDays => mark.day.is_some_and(within) || mark.pickup.is_some_and(within),
        }
    }
}

/// The occasions that these orders tell, the earliest first; those without a day last.
pub fn occasions<'a>(marks: impl IntoIterator<Item = &'a OccasionMark>) -> Vec<Occasion> {
    let mut by_name: BTreeMap<String, Vec<&OccasionMark>> = BTreeMap::new();
    for mark in marks {
        if !mark.name.is_empty() {
            by_name.entry(mark.key()).or_default().push(mark);
        }
    }
    let mut found: Vec<Occasion> = by_name.into_iter().flat_map(|(key, marks)| of_one_name(&key, &marks)).collect();
    found.sort_by(|a, b| {
        let undated = a.days.is_none().cmp(&b.days.is_none());
        undated.then_with(|| a.days.cmp(&b.days)).then_with(|| a.id.cmp(&b.id))
    });
    found
}

/// Those that are meant by an id, by a name as it is said, or by days: `2026-05-09`, `2026-05-08..2026-05-10`.
pub fn occasions_called<'a>(called: &str, marks: impl IntoIterator<Item = &'a OccasionMark>) -> Vec<Occasion> {
    let called = called.trim();
    let (first, last) = called.split_once("..").unwrap_or((called, called));
    if let (Some(first), Some(last)) = (Day::parse(first), Day::parse(last)) {
        return vec![Occasion::of_days(first, last)];
    }
    let all = occasions(marks);
    if let Some(exact) = all.iter().find(|occasion| occasion.id == called) {
        return vec![exact.clone()];
    }
    let slug = slug_of(&fold(called));
    let is_meant = |occasion: &Occasion| slug_of(&fold(&occasion.name)) == slug;
    all.into_iter().filter(is_meant).collect()
}

/// Orders of one name, parted where their days lie far apart.
fn of_one_name(key: &str, marks: &[&OccasionMark]) -> Vec<Occasion> {
    let mut days: Vec<Day> = marks.iter().filter_map(|mark| mark.day).collect();
    days.sort_unstable();
    let mut spans: Vec<(Day, Day)> = Vec::new();
    for day in days {
        match spans.last_mut() {
            Some((_, last)) if last.plus(DAYS_APART).is_none_or(|far| day <= far) => *last = day,
            Some(_) | None => spans.push((day, day)),
        }
    }
    let name = marks.first().map(|mark| mark.name.clone()).unwrap_or_default();
    let slug = slug_of(key);
    let of = |days: Option<(Day, Day)>, is_last: bool| Occasion {
        id: days.map_or_else(|| slug.clone(), |(first, _)| format!("{slug}-{first}")),
        name: name.clone(),
        days,
        gathers: Gathers::Named { key: key.to_owned(), with_undated: is_last },
    };
    let n = spans.len();
    if n == 0 {
        return vec![of(None, true)];
    }
    spans.into_iter().enumerate().map(|(i, span)| of(Some(span), i + 1 == n)).collect()
}

/// Letters and digits, hyphens between.
fn slug_of(words: &str) -> String {
    let parts = words.split(|letter: char| !letter.is_alphanumeric()).filter(|part| !part.is_empty());
    let slug = parts.collect::<Vec<_>>().join("-");
    if slug.is_empty() { "occasion".to_owned() } else { slug }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mark(name: &str, day: &str) -> OccasionMark {
        OccasionMark { name: name.to_owned(), day: Day::parse(day), pickup: Day::parse(day) }
    }

    #[test]
    fn orders_of_one_name_within_a_week_are_one_occasion_and_a_year_later_another() {
        let marks = [
            mark("Quayside Prom", "2026-05-09"),
            mark("quayside  prom", "2026-05-08"),
            mark("Quayside Prom", "2027-05-08"),
            mark("QUAYSIDE PROM", ""),
            mark("Linden wedding", "2026-06-20"),
            mark("Someday dance", ""),
            mark("", "2026-05-09"),
        ];
        let found = occasions(&marks);
        let ids: Vec<&str> = found.iter().map(Occasion::id).collect();
        assert_eq!(
            ids,
            ["quayside-prom-2026-05-08", "linden-wedding-2026-06-20", "quayside-prom-2027-05-08", "someday-dance"]
        );
        let held = |of: &Occasion| marks.iter().filter(|mark| of.holds(mark)).count();
        assert_eq!(found.iter().map(held).collect::<Vec<_>>(), [2, 1, 2, 1], "an order without a day joins the last");
        assert_eq!(found[0].days(), Day::parse("2026-05-08").zip(Day::parse("2026-05-09")));
    }

    #[test]
    fn an_occasion_is_found_by_its_id_by_its_name_and_by_days() {
        let marks =
            [mark("Bal d\u{2019}\u{e9}t\u{e9}", "2026-06-20"), mark("Prom", "2026-05-09"), mark("Prom", "2027-05-08")];
        let ids = |called: &str| -> Vec<String> {
            occasions_called(called, &marks).iter().map(|found| found.id().to_owned()).collect()
        };
        assert_eq!(ids("bal d'ete"), ["bal-d-ete-2026-06-20"]);
        assert_eq!(ids("prom-2027-05-08"), ["prom-2027-05-08"]);
        assert_eq!(ids("PROM").len(), 2);
        assert_eq!(ids("nobody's"), Vec::<String>::new());
        assert_eq!(ids("2026-05-10..2026-05-08"), ["2026-05-08..2026-05-10"]);
        let days = &occasions_called("2026-05-08..2026-05-10", &marks)[0];
        assert_eq!(marks.iter().filter(|mark| days.holds(mark)).count(), 1);
        assert_eq!(ids("2026-05-09"), ["2026-05-09"]);
    }
}
