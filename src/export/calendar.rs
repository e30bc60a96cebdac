//! Pick-ups, order-by days and the day before as a calendar that other programs take in (RFC 5545). Days and hours are those
//! on the wall of the shop: they name no zone ("floating", 3.3.5), so that they stand at the same hour wherever it is opened.

use crate::book::{Day, Hour, Occasion, Order};
use crate::paperwork::{MarketList, first_pickup};
use crate::units::counted;

/// Longest line, octets without its end (RFC 5545, 3.1).
const LINE_OCTETS: usize = 75;

/// Something in the calendar: on a day, or at an hour of it.
struct CalendarEntry {
    id: String,
    day: Day,
    hour: Option<Hour>,
    summary: String,
}

/// The calendar of an occasion; `stamp` is the day on which it is written.
pub fn calendar(occasion: &Occasion, orders: &[&Order], market: Option<&MarketList>, stamp: Day) -> String {
    let head = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Posywright//Weekend//EN"].map(str::to_owned);
    let entries = entries(occasion, orders, market);
    let lines = head.into_iter().chain(entries.iter().flat_map(|entry| entry.lines(stamp)));
    let lines = lines.chain(["END:VCALENDAR".to_owned()]);
    lines.map(|line| folded(&line)).collect()
}

/// A pick-up for each order whose day is known, the bench day before the first, and the last day to order from each supplier.
fn entries(occasion: &Occasion, orders: &[&Order], market: Option<&MarketList>) -> Vec<CalendarEntry> {
    let id = occasion.id();
    let mut entries = Vec::new();
    for (i, order) in orders.iter().enumerate() {
        let Some(day) = order.wanted.day() else { continue };
        let number = order.number.map_or_else(|| format!("order-{}", i + 1), |number| number.to_string());
        let told = [format!("Pick-up: {}", order.title()), order.number_text()];
        let told = told.into_iter().filter(|words| !words.is_empty()).collect::<Vec<_>>();
        entries.push(CalendarEntry {
            id: format!("pickup-{number}-{id}"),
            day,
            hour: order.wanted.hour(),
            summary: told.join(", "),
        });
    }
    if let Some(day) = first_pickup(orders).and_then(|day| day.plus(-1)) {
        let pieces = orders.len() + orders.iter().filter(|order| order.partner_piece.is_some()).count();
        let summary = format!("Bench day: {}, {}", occasion.name(), counted(pieces, "piece", "pieces"));
        entries.push(CalendarEntry { id: format!("bench-{id}"), day, hour: None, summary });
    }
    for (i, to) in market.into_iter().flat_map(|list| &list.suppliers).enumerate() {
        let Some(day) = to.order_by else { continue };
        let summary = format!("Last day to order: {}, {}", to.name, occasion.name());
        entries.push(CalendarEntry { id: format!("order-by-{}-{id}", i + 1), day, hour: None, summary });
    }
    entries
}

impl CalendarEntry {
    /// An event with what RFC 5545 asks of one (3.6.1): an id of its own, when it was written, when it begins.
    fn lines(&self, stamp: Day) -> Vec<String> {
        let begins = match self.hour {
            None => format!("DTSTART;VALUE=DATE:{}", plain(self.day)),
            Some(hour) => format!("DTSTART:{}T{}00", plain(self.day), hour.to_string().replace(':', "")),
        };
        // A time of none takes no room in a calendar: a quarter of an hour, our choice.
        let lasts = self.hour.map(|_| "DURATION:PT15M".to_owned());
        [
            Some("BEGIN:VEVENT".to_owned()),
            Some(format!("UID:{}@posywright.invalid", safe_id(&self.id))),
            Some(format!("DTSTAMP:{}T000000Z", plain(stamp))),
            Some(begins),
            lasts,
            Some(format!("SUMMARY:{}", escaped(&self.summary))),
            Some("END:VEVENT".to_owned()),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

/// `20260509`
fn plain(day: Day) -> String {
    day.to_string().replace('-', "")
}

/// Letters, digits and hyphens, so that an id is the same to every reader.
fn safe_id(id: &str) -> String {
    id.chars().map(|letter| if letter.is_ascii_alphanumeric() { letter } else { '-' }).collect()
}

/// Text as 3.3.11 asks for it: backslash, semicolon and comma escaped, ends of lines as `\n`, no other control characters.
fn escaped(words: &str) -> String {
    let mut text = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '\\' | ';' | ',' => text.extend(['\\', letter]),
            '\n' => text.push_str("\\n"),
            _ if letter.is_control() => {}
            _ => text.push(letter),
        }
    }
    text
}

/// A line in pieces of at most [`LINE_OCTETS`], never within a letter, each further one begun by a space (3.1); with its end.
fn folded(line: &str) -> String {
    let (mut text, mut octets) = (String::with_capacity(line.len() + 2), 0);
    for letter in line.chars() {
        if octets + letter.len_utf8() > LINE_OCTETS {
            text.push_str("\r\n ");
            octets = 1;
        }
        text.push(letter);
        octets += letter.len_utf8();
    }
    text + "\r\n"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Change, OccasionMark, When, occasions};
    use crate::stock::Stock;
    use std::collections::BTreeSet;

    /// What a reader by the letter of RFC 5545 makes of it: the events, each as its properties; fails where a rule is broken.
    fn read(text: &str) -> Vec<Vec<(String, String)>> {
        assert!(text.ends_with("\r\n") && !text.replace("\r\n", "").contains(['\r', '\n']), "3.1: lines end in CR LF");
        assert!(text.split("\r\n").all(|line| line.len() <= 75), "3.1: lines of 75 octets at most");
        let unfolded = text.replace("\r\n ", "").replace("\r\n\t", "");
        let lines: Vec<&str> = unfolded.split_terminator("\r\n").collect();
        assert_eq!((lines[0], lines[lines.len() - 1]), ("BEGIN:VCALENDAR", "END:VCALENDAR"), "3.4");
        let of_calendar = |name: &str| lines.iter().filter(|line| line.starts_with(name)).count();
        assert_eq!((of_calendar("VERSION:2.0"), of_calendar("PRODID:")), (1, 1), "3.6: both, once");
        let (mut events, mut event) = (Vec::new(), None::<Vec<(String, String)>>);
        for line in &lines[1..lines.len() - 1] {
            match (*line, &mut event) {
                ("BEGIN:VEVENT", None) => event = Some(Vec::new()),
                ("END:VEVENT", Some(_)) => events.extend(event.take()),
                (line, Some(event)) => {
                    let (name, value) = line.split_once(':').expect("3.1: a name and a value");
                    event.push((name.to_owned(), value.to_owned()));
                }
                (line, None) => assert!(line.starts_with("VERSION:") || line.starts_with("PRODID:"), "{line}"),
            }
        }
        assert!(event.is_none(), "3.6.1: every event ends");
        let mut ids = BTreeSet::new();
        for event in &events {
            let of = |name: &str| -> Vec<&String> {
                event.iter().filter(|(n, _)| n.split(';').next() == Some(name)).map(|(_, value)| value).collect()
            };
            assert_eq!((of("UID").len(), of("DTSTAMP").len(), of("DTSTART").len()), (1, 1, 1), "3.6.1: once each");
            assert!(ids.insert(of("UID")[0].clone()), "3.8.4.7: ids are unique");
            let stamp = of("DTSTAMP")[0];
            assert!(is_time(stamp.strip_suffix('Z').expect("3.8.7.2: in UTC")), "{stamp}");
            let is_date = event.iter().any(|(name, _)| name == "DTSTART;VALUE=DATE");
            let begins = of("DTSTART")[0];
            assert!(if is_date { is_day(begins) } else { is_time(begins) }, "3.3.4, 3.3.5: {begins}");
            assert!(is_date != of("DURATION").contains(&&"PT15M".to_owned()), "3.6.1: a day has no hours");
            let mut letters = of("SUMMARY")[0].chars();
            while let Some(letter) = letters.next() {
                match letter {
                    '\\' => assert!(letters.next().is_some_and(|next| "\\;,nN".contains(next)), "3.3.11"),
                    _ => assert!(letter != ';' && letter != ',', "3.3.11: {:?}", of("SUMMARY")),
                }
            }
        }
        events
    }

    fn is_day(text: &str) -> bool {
        text.len() == 8 && Day::parse(&format!("{}-{}-{}", &text[..4], &text[4..6], &text[6..])).is_some()
    }

    fn is_time(text: &str) -> bool {
        text.split_once('T').is_some_and(|(day, time)| {
            is_day(day) && time.len() == 6 && Hour::parse(&format!("{}:{}", &time[..2], &time[2..4])).is_some()
        })
    }

    fn order(wearer: &str, wanted: &str) -> Order {
        let changes = vec![
            Change::Wearer(wearer.into()),
            Change::Dance("Quayside Prom; late, and long".into()),
            Change::Wanted(When::typed(wanted)),
        ];
        let stock = Stock::default();
        Order::blank(None, &stock).apply(&Change::Together(changes), &stock).unwrap()
    }

    #[test]
    fn a_reader_by_the_letter_of_the_standard_takes_it_in() {
        let long = "Nguy\u{1ec5}n Th\u{1ecb} B\u{ed}ch \u{110}\u{e0}o ".repeat(5);
        let orders = [
            order("Zs\u{f3}fia \u{150}ry", "Sat 9 May 2026, 1:45 pm"),
            order("a\\b;c,d\ne\r\u{7}", "Sat 9 May 2026"),
            order(&long, "Fri 8 May 2026, 9 am"),
            order("Ava", "some day"),
        ];
        let marks: Vec<OccasionMark> = orders.iter().map(OccasionMark::of).collect();
        let occasion = &occasions(&marks)[0];
        let lent: Vec<&Order> = orders.iter().collect();
        let list = MarketList {
            suppliers: vec![crate::paperwork::SupplierOrder {
                name: "Tidewater Stems".into(),
                packs_cost: crate::units::Cents(0),
                delivery: crate::units::Cents(0),
                order_by: Day::parse("2026-05-01"),
            }],
            ..MarketList::default()
        };
        let text = calendar(occasion, &lent, Some(&list), Day::parse("2026-04-30").unwrap());
        let events = read(&text);
        let told: Vec<(&str, &str)> = events
            .iter()
            .map(|event| {
                let of = |name: &str| event.iter().find(|(n, _)| n.starts_with(name)).unwrap().1.as_str();
                (of("DTSTART"), of("SUMMARY"))
            })
            .collect();
        assert_eq!(told[0], ("20260509T134500", "Pick-up: Zs\u{f3}fia \u{150}ry"));
        assert_eq!(told[1], ("20260509", "Pick-up: a\\\\b\\;c\\,d\\ne"));
        assert_eq!(told[2].0, "20260508T090000");
        assert_eq!(told[3], ("20260507", "Bench day: Quayside Prom\\; late\\, and long\\, 4 pieces"));
        assert_eq!(told[4].0, "20260501");
        assert_eq!(told.len(), 5, "an order without a day has no place in a calendar");
        assert_eq!(text, calendar(occasion, &lent, Some(&list), Day::parse("2026-04-30").unwrap()));
    }
}
