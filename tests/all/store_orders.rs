//! Orders as files: what is written reads back the same, what is damaged is refused in words, nothing panics.

use std::panic::catch_unwind;

use posywright::book::{
    Agreed, Asked, Beside, Change, DEAREST, DateStyle, Day, DayReader, Discount, DressColour, Extra, Order, OrderState,
    PayWay, Payment, Progress, Reduction, Shown, WearerKind, When, Written,
};
use posywright::colour::Rgb;
use posywright::piece::{Fixing, Level, Measured, PartId, Side, Skin, Worn};
use posywright::stock::{Role, Stock, StockId};
use posywright::store::{
    Cause, built_in_stock, built_in_style, order_from_text, order_to_text, samples, style_from_text,
};
use posywright::units::{Cents, LengthUnit};
use proptest::prelude::*;

fn read(text: &str, stock: &Stock) -> Result<Order, String> {
    order_from_text(text, "a.ron", stock).map_err(|refusal| refusal.to_string())
}

/// An order file with these fields for its piece.
fn with_piece(fields: &str) -> String {
    format!("(\n  version: 1,\n  piece: (\n    oval: (length: 90, width: 54),\n    {fields}\n  ),\n)")
}

/// An order file with these fields before its piece, on its second line.
fn with_fields(fields: &str) -> String {
    format!("(version: 1,\n {fields}\n piece: (oval: (length: 90, width: 54)))")
}

/// An agreed sheet of that day, with fields in its order.
fn agreed(day: &str, fields: &str) -> String {
    format!("agreed: (on: \"{day}\", price: 27, order: (version: 1, {fields} piece: (oval: (length: 90, width: 54)))),")
}

#[test]
fn every_sample_reads_back_the_same_after_writing() {
    let stock = built_in_stock();
    for sample in samples::orders() {
        let order = read(sample.text, &stock).unwrap();
        let text = order_to_text(&order);
        assert_eq!(read(&text, &stock), Ok(order.clone()), "{}\n{text}", sample.path);
        assert_eq!(order_to_text(&read(&text, &stock).unwrap()), text, "{}", sample.path);
    }
}

#[test]
fn the_samples_hold_what_their_size_promises() {
    let (stock, style) = (built_in_stock(), built_in_style());
    for name in ["01-petite", "02-classic", "03-full", "07-orchid-classic", "08-boutonniere"] {
        let sample = samples::orders().find(|s| s.path.contains(name)).unwrap();
        let order = read(sample.text, &stock).unwrap();
        let size = style.size(order.size.as_deref().unwrap()).unwrap();
        let count = |id: &StockId| order.piece.parts().iter().filter(|p| p.stock == *id).count();
        for planned in &size.holds {
            assert_eq!(count(&planned.stock), planned.count as usize, "{name}: {}", planned.stock);
        }
        assert_eq!(order.piece.parts().len(), size.holds.iter().map(|p| p.count as usize).sum::<usize>(), "{name}");
        let oval = order.piece.footprint;
        assert_eq!((oval.length_mm, oval.width_mm, order.piece.worn), (size.length_mm, size.width_mm, size.worn));
        assert_eq!(order.piece.bow.is_some(), size.bow.is_some(), "{name}");
    }
}

#[test]
fn parts_of_the_good_samples_lie_within_their_oval() {
    let stock = built_in_stock();
    for sample in samples::orders().filter(|s| !s.path.contains("04-") && !s.path.contains("05-")) {
        let order = read(sample.text, &stock).unwrap();
        for part in order.piece.parts() {
            assert!(order.piece.oval().gauge(part.centre) < 0.95, "{} part {:?}", sample.path, part.id);
            let size = part.size_in(&stock);
            let range = stock.botanical(&part.stock).unwrap().size_mm;
            assert!(range[0] <= size && size <= range[2], "{} part {:?}", sample.path, part.id);
        }
    }
}

#[test]
fn what_a_hand_leaves_out_is_filled_in() {
    let stock = built_in_stock();
    let order = read(include_str!("../files/order-1-by-hand.ron"), &stock).unwrap();
    assert_eq!((order.wearer.as_str(), order.dance.as_str(), order.size.as_deref()), ("", "", None));
    assert_eq!((order.wrist.side, order.wrist.measured), (Side::Left, Measured::Tape));
    assert_eq!((order.wrist.girth_mm(), order.wrist.girth.typed()), (158.75, "6 1/4"));
    assert_eq!(order.wrist.girth.unit(), LengthUnit::FractionInch);
    let piece = &order.piece;
    assert_eq!((piece.worn, piece.fixing, piece.band.clone()), (Worn::Wrist, Fixing::Glued, None));
    assert!((piece.footprint.length_mm - 88.9).abs() < 1e-9);
    assert_eq!((piece.footprint.width_mm, piece.footprint.offset_mm), (54.5, 50.0));
    let bow = piece.bow.as_ref().unwrap();
    assert_eq!((bow.ribbon.as_str(), &*bow.colour, bow.loops_a_side, bow.tails), ("satin-15", "blush", 2, 2));
    let [rose, leaf, pearl] = piece.parts() else { panic!("three parts") };
    assert_eq!(
        (rose.id, &*rose.colour, rose.role, rose.level, rose.size_mm),
        (PartId(8), "white", Role::Bloom, Level::Raised, None)
    );
    assert_eq!(
        (leaf.id, leaf.level, leaf.centre.y, leaf.turn_rad),
        (PartId(9), Level::Flat, -12.0, 15.0_f64.to_radians())
    );
    assert_eq!(
        (pearl.id, &*pearl.colour, pearl.role, pearl.level, pearl.locked),
        (PartId(7), "ivory", Role::Accent, Level::Top, true)
    );
}

/// Written by the program when version 1 was new. It may never change, and every later version must open it.
#[test]
fn the_first_file_ever_written_still_opens() {
    let stock = built_in_stock();
    let text = include_str!("../files/order-1-by-program.ron");
    let order = read(text, &stock).unwrap();
    assert_eq!(order, read(samples::orders().nth(1).unwrap().text, &stock).unwrap());
    assert_eq!(order_to_text(&order), text);
}

/// Written by the program with every field that an order can hold. It may never change, and every later version must open
/// it.
#[test]
fn a_file_with_every_field_still_opens() {
    let stock = built_in_stock();
    let text = include_str!("../files/order-1-every-field.ron");
    let order = read(text, &stock).unwrap();
    assert_eq!(order_to_text(&order), text);
    assert_eq!((order.place.as_str(), order.people.partner.as_str()), ("Harbour School", "Tobias"));
    assert_eq!(order.wanted.day().map(|d| d.to_string()).as_deref(), Some("2026-05-09"));
    assert_eq!((order.needs.kind, order.needs.handed), (Some(WearerKind::Child { years: 17 }), Some(Side::Left)));
    assert_eq!((order.needs.spared_arm, order.needs.pushes_chair), (Some(Side::Left), true));
    assert_eq!(order.needs.allergies, Some(vec!["babys-breath".to_owned()]));
    assert!(order.needs.no_latex && order.needs.no_snug_band && order.terms.rush);
    assert_eq!((order.taste.dress.name().as_str(), order.taste.dress.hex), ("teal", Rgb::parse("#1f6f78")));
    assert_eq!((order.terms.budget, order.terms.extras.len()), (Some(Cents(4000)), 1));
    assert_eq!(order.terms.asked.as_ref().map(|a| a.price), Some(Cents(2550)));
    assert_eq!((order.piece.wishes.height_mm, order.terms.paid()), (Some(30.0), Cents(1275)));
    assert_eq!(order.partner_piece.as_ref().map(|p| p.parts().len()), Some(2));
    let agreed = order.agreed.as_ref().unwrap();
    assert_eq!((agreed.on, agreed.price, agreed.says.len()), (Day::new(2026, 5, 2).unwrap(), Cents(2700), 2));
    assert_eq!((agreed.order().piece.parts().len(), &agreed.order().agreed), (2, &None));
}

/// Written by the program with every field of version 2. It may never change, and every later version must open it.
#[test]
fn a_file_of_version_2_with_every_field_still_opens() {
    let stock = built_in_stock();
    let text = include_str!("../files/order-2-every-field.ron");
    let order = read(text, &stock).unwrap();
    assert_eq!(order_to_text(&order), text);
    let balance = order.piece.wishes.ignored.iter().next().map(|(question, reason)| (question.id(), reason.as_str()));
    assert_eq!(balance, Some(("balance", "lopsided on purpose")));
    let agreed = order.agreed.as_ref().unwrap();
    assert_eq!((agreed.deposit, agreed.order().terms.payments.len()), (Some(Cents(1350)), 0));
}

/// How it is shown raises the version, in the agreed order too; as usual it is not written at all.
#[test]
fn how_it_is_shown_reads_back_and_raises_the_version_where_it_is_not_as_usual() {
    let stock = built_in_stock();
    let every_field = read(include_str!("../files/order-3-every-field.ron"), &stock).unwrap();
    assert_eq!(every_field.shown, Shown { skin: Skin::Brown, cloth: false, beside: Beside::Coin });
    let first = include_str!("../files/order-1-every-field.ron");
    let version = |text: &str| order_to_text(&read(text, &stock).unwrap()).lines().nth(1).unwrap().trim().to_owned();
    for (shown, raised) in [
        ("shown: (skin: plain, cloth: true, beside: ruler),", "version: 1,"),
        ("shown: (),", "version: 1,"),
        ("shown: (cloth: false),", "version: 3,"),
        ("shown: (skin: fair),", "version: 3,"),
        ("shown: (beside: nothing),", "version: 3,"),
    ] {
        let text = first.replacen("version: 1,", &format!("version: 1,\n    {shown}"), 1);
        assert_eq!(version(&text), raised, "{shown}");
        let (outer, inner) = first.split_once("order: (").unwrap();
        let text = format!("{outer}order: ({}", inner.replacen("version: 1,", &format!("version: 1,\n    {shown}"), 1));
        assert_eq!(version(&text), raised, "agreed with {shown}");
    }
    let unknown = first.replacen("version: 1,", "version: 1,\n    shown: (skin: green),", 1);
    assert!(read(&unknown, &stock).unwrap_err().contains("green"));
}

/// Each field that version 2 added raises the version of a file that holds it, and no other field does: an older program
/// opens what it knows, and says of the rest that it is newer.
#[test]
fn only_what_version_2_added_raises_the_version() {
    let stock = built_in_stock();
    let (first, second) =
        (include_str!("../files/order-1-every-field.ron"), include_str!("../files/order-2-every-field.ron"));
    let version = |text: &str| {
        let written = order_to_text(&read(text, &stock).unwrap());
        written.lines().nth(1).unwrap().trim().to_owned()
    };
    assert_eq!(version(first), "version: 1,");
    let new: Vec<&str> = second.lines().filter(|line| !first.lines().any(|old| old == *line)).collect();
    let fields: Vec<&str> = new.iter().filter_map(|line| line.trim().split(':').next()).collect();
    let added = ["version", "paid_on", "quoted_on", "holds_until", "set_aside", "reasons", "deposit", "holds_until"];
    assert_eq!(fields, added, "the two stored files differ in these alone");
    for field in new.iter().filter(|line| !line.contains("version")) {
        // Version 2 with this one field of it alone.
        let alone: Vec<&str> =
            second.lines().filter(|line| line == field || line.contains("set_aside") || !new.contains(line)).collect();
        let text = format!("(version: 1,{}", alone.join("\n").trim_start_matches('('));
        let raised = if field.contains("set_aside") { "version: 1," } else { "version: 2," };
        assert_eq!(version(&text), raised, "{field}");
    }
}

/// Each field that version 3 added does so too, alone in a file of version 1.
#[test]
fn what_version_3_added_raises_the_version_and_reads_back() {
    let stock = built_in_stock();
    let text = include_str!("../files/order-3-every-field.ron");
    let order = read(text, &stock).unwrap();
    assert_eq!(order_to_text(&order), text, "as the program writes it");
    let told = |when: &When| when.written(Written::default());
    assert_eq!(order.number, Some(104));
    assert_eq!(told(&order.event_day), "Sat 9 May 2026, the 9th");
    assert_eq!(told(&order.wanted), "Sat 9 May 2026, 9:30 am");
    assert_eq!((order.collected_by.as_str(), told(&order.last_change).as_str()), ("Marisol Quay", "Mon 4 May 2026"));
    let first = include_str!("../files/order-1-every-field.ron");
    for field in [
        "number: 104",
        "event_day: \"9 May 2026\"",
        "event_day: \"Sat\", event_day_told: (day: \"2026-05-09\")",
        "collected_by: \"Ana\"",
        "last_change: \"4 May 2026\"",
        "last_change: \"Mon\", last_change_told: (day: \"2026-05-04\")",
        "wanted_told: (day: \"2026-05-10\")",
        "wanted_told: (hour: \"15:00\")",
    ] {
        let with = first.replacen("version: 1,", &format!("version: 1, {field},"), 1);
        let written = order_to_text(&read(&with, &stock).unwrap());
        assert_eq!(written.lines().nth(1).unwrap().trim(), "version: 3,", "{field}");
    }
    for bad in ["wanted_told: (hour: \"2 pm\")", "event_day_told: (day: \"9 May\")", "number: -1", "number: 5000000000"]
    {
        let with = first.replacen("version: 1,", &format!("version: 3, {bad},"), 1);
        assert!(read(&with, &stock).unwrap_err().contains("Not opened"), "{bad}");
    }
}

/// How far an order has come and its party came with version 3: each of them raises the version of its file.
#[test]
fn state_and_party_are_read_back_and_raise_the_version() {
    let stock = built_in_stock();
    let order = read(include_str!("../files/order-2-every-field.ron"), &stock).unwrap();
    let with = |change: Change| {
        let text = order_to_text(&order.apply(&change, &stock).unwrap());
        (text.lines().nth(1).unwrap().trim().to_owned(), read(&text, &stock).unwrap())
    };
    for (word, progress) in
        [("made", Progress::Made), ("collected", Progress::Collected), ("cancelled", Progress::Cancelled)]
    {
        let (version, after) = with(Change::Progress(Some(progress)));
        assert_eq!((version.as_str(), after.progress, after.state().word()), ("version: 3,", Some(progress), word));
    }
    let (version, after) = with(Change::Party("Linden wedding".to_owned()));
    assert_eq!((version.as_str(), after.party.as_str()), ("version: 3,", "Linden wedding"));
    assert_eq!(with(Change::Progress(None)).0, "version: 2,");
}

/// Written by hand when version 3 was new. It may never change, and every later version must open it. 25.00 and 8.25 % of it are
/// 27.06; what lies between that and the agreed 40.00 is said.
#[test]
fn a_file_of_version_3_still_opens() {
    let stock = built_in_stock();
    let order = read(include_str!("../files/order-3-by-hand.ron"), &stock).unwrap();
    let terms = &order.terms;
    assert_eq!((terms.extras[0].tax_percent, terms.extras[1].tax_percent), (None, Some(0.0)));
    let discount = terms.discount.as_ref().unwrap();
    assert_eq!((discount.off, discount.words.as_str()), (Reduction::Percent(10.0), "for a friend"));
    let payments: Vec<(i64, &str)> = terms.payments.iter().map(|p| (p.sum.0, p.way.words())).collect();
    assert_eq!((payments, terms.paid()), (vec![(2000, "cash"), (550, "voucher 17"), (-125, "")], Cents(2425)));
    let quoted = order.quoted.as_deref().unwrap();
    assert_eq!((quoted.until, quoted.charges.total()), (Day::new(2026, 5, 14), Cents(3700)));
    assert_eq!((quoted.charges.taxes()[0].amount, quoted.order().piece.parts().len()), (Cents(450), 1));
    let agreed = order.agreed.as_deref().unwrap();
    let charges = agreed.charges().unwrap();
    assert_eq!((agreed.price, charges.total(), charges.lines()[2].price), (Cents(4000), Cents(4000), Cents(1294)));
    assert_eq!(read(&order_to_text(&order), &stock), Ok(order));
}

/// Number, days, state and party, and what was in the price as it was quoted: all as it was written by hand.
#[test]
fn an_order_of_a_party_in_version_3_still_opens() {
    let stock = built_in_stock();
    let order = read(include_str!("../files/order-3-of-a-party.ron"), &stock).unwrap();
    assert_eq!((order.number, order.party.as_str(), order.state()), (Some(112), "Linden wedding", OrderState::Made));
    assert_eq!(order.wanted.day(), Day::new(2026, 12, 4));
    assert_eq!(order.quoted.as_deref().unwrap().charges.shares(), Some([30, 31, 39]));
    assert_eq!(read(&order_to_text(&order), &stock), Ok(order));
}

/// Each field that version 3 added raises the version of a file that holds it; a file without one stays as it was.
#[test]
fn only_what_version_3_added_raises_the_version_to_it() {
    let stock = built_in_stock();
    let (first, second) =
        (include_str!("../files/order-1-every-field.ron"), include_str!("../files/order-2-every-field.ron"));
    let version = |order: &Order| order_to_text(order).lines().nth(1).unwrap().trim().to_owned();
    assert_eq!(version(&read(first, &stock).unwrap()), "version: 1,");
    let order = read(second, &stock).unwrap();
    assert_eq!(version(&order), "version: 2,");
    let third = read(include_str!("../files/order-3-by-hand.ron"), &stock).unwrap();
    let with: [fn(&mut Order, &Order); 5] = [
        |order, third| order.terms.extras.clone_from(&third.terms.extras),
        |order, third| order.terms.discount.clone_from(&third.terms.discount),
        |order, third| order.terms.payments.clone_from(&third.terms.payments),
        |order, third| order.quoted.clone_from(&third.quoted),
        |order, third| order.agreed.clone_from(&third.agreed),
    ];
    for (n, add) in with.iter().enumerate() {
        let mut order = order.clone();
        add(&mut order, &third);
        assert_eq!(version(&order), "version: 3,", "{n}");
    }
}

/// What a later program adds is not called unknown, neither in the order nor in the agreed one.
#[test]
fn a_file_of_a_newer_program_is_called_newer_and_not_damaged() {
    let stock = built_in_stock();
    let text = include_str!("../files/order-2-every-field.ron");
    let newer = text.replacen("version: 2,", "version: 5,\n    scent: \"sweet\",", 1);
    let refusal = order_from_text(&newer, "mina.ron", &stock).unwrap_err();
    assert_eq!(refusal.cause, Cause::Newer { kind: "order", version: 5 });
    assert_eq!(
        refusal.to_string(),
        "Not opened: \u{201c}mina.ron\u{201d}, line 2. This order was saved by a newer Posywright. Update Posywright to open it. \
         Line 2 reads: version: 5,"
    );
    let agreed_newer = text.replacen("version: 1,", "version: 5,", 1);
    assert_ne!(agreed_newer, text);
    let cause = order_from_text(&agreed_newer, "mina.ron", &stock).unwrap_err().cause;
    assert_eq!(cause, Cause::Newer { kind: "order", version: 5 });
    let style = style_from_text("(version: 2, scent: 3)", "s.ron", &built_in_style(), &stock).unwrap_err().cause;
    assert_eq!(style, Cause::Newer { kind: "style", version: 2 });
}

/// Days and the deposit stand beside what files had before; the file without them opens to the same order without them.
#[test]
fn days_and_the_deposit_of_the_yes_read_back_and_may_be_left_out() {
    let stock = built_in_stock();
    let old = read(include_str!("../files/order-1-every-field.ron"), &stock).unwrap();
    let paid_on = |order: &Order| order.terms.payments.last().and_then(|payment| payment.on);
    let none = (paid_on(&old), old.terms.quoted_on, old.terms.holds_until);
    assert_eq!(none, (None, None, None));
    let old_yes = old.agreed.as_deref().unwrap();
    assert_eq!((old_yes.deposit, old_yes.holds_until), (None, None));
    let text = include_str!("../files/order-1-by-hand-agreed.ron");
    let order = read(text, &stock).unwrap();
    let days = [paid_on(&order), order.terms.quoted_on, order.terms.holds_until].map(|d| d.unwrap().to_string());
    assert_eq!(days, ["2026-05-03", "2026-04-30", "2026-05-14"]);
    let yes = order.agreed.as_deref().unwrap();
    assert_eq!((yes.deposit, yes.holds_until), (Some(Cents(1350)), Day::new(2026, 5, 16)));
    assert_eq!(read(&order_to_text(&order), &stock), Ok(order));
    let more = text.replace("deposit: 13.50", "deposit: 99");
    let yes = read(&more, &stock).unwrap().agreed.unwrap();
    assert_eq!(yes.deposit, Some(Cents(2700)), "a deposit is never more than the price");
    for (good, bad) in [("\"2026-05-03\"", "\"3 May\""), ("\"2026-05-16\"", "\"2026-02-30\""), ("13.50", "-1")] {
        let said = read(&text.replace(good, bad), &stock).unwrap_err();
        assert!(said.contains("Not opened"), "{bad}: {said}");
    }
}

/// A file of which nothing new is known is written without a word about it.
#[test]
fn what_is_not_known_is_not_written() {
    let stock = built_in_stock();
    for sample in samples::orders().filter(|s| !s.path.contains("/1")) {
        let text = order_to_text(&read(sample.text, &stock).unwrap());
        for field in ["place", "wanted", "allergies", "dress", "purse", "asked", "agreed", "partner", "kind", "rush"] {
            assert!(!text.contains(&format!("    {field}:")), "{} says {field}", sample.path);
        }
    }
}

#[test]
fn a_mark_at_the_beginning_and_foreign_line_ends_do_no_harm() {
    let stock = built_in_stock();
    let text = samples::orders().next().unwrap().text;
    let order = read(text, &stock).unwrap();
    assert_eq!(read(&format!("\u{feff}{}", text.replace('\n', "\r\n")), &stock), Ok(order));
}

#[test]
fn no_cut_off_file_panics_and_none_passes_for_whole() {
    let stock = built_in_stock();
    let every_field = ("every field", include_str!("../files/order-1-every-field.ron"));
    for (path, text) in samples::orders().map(|s| (s.path, s.text)).chain([every_field]) {
        let closed = text.trim_end().len();
        for cut in (0..closed).filter(|&i| text.is_char_boundary(i)) {
            let answer = catch_unwind(|| order_from_text(&text[..cut], "a.ron", &stock).is_ok());
            assert_eq!(answer.ok(), Some(false), "{path} cut at {cut}");
        }
    }
}

#[test]
fn no_flipped_bit_panics() {
    let stock = built_in_stock();
    for text in [samples::orders().next().unwrap().text, include_str!("../files/order-1-every-field.ron")] {
        no_flipped_bit_panics_in(text.as_bytes(), &stock);
    }
}

fn no_flipped_bit_panics_in(text: &[u8], stock: &Stock) {
    for place in 0..text.len() {
        for bit in 0..8 {
            let mut bytes = text.to_vec();
            bytes[place] ^= 1 << bit;
            let Ok(damaged) = std::str::from_utf8(&bytes) else { continue };
            let answer = catch_unwind(|| order_from_text(damaged, "a.ron", stock).map(|o| order_to_text(&o)));
            assert!(answer.is_ok(), "bit {bit} of byte {place}");
        }
    }
}

/// What must not get in: the file's text, and words that the refusal must say.
#[test]
fn what_cannot_be_meant_is_refused_with_its_line_and_a_remedy() {
    let stock = built_in_stock();
    let part = |fields: &str| with_piece(&format!("parts: [\n      ({fields}),\n    ],"));
    for (text, line, words) in [
        (part(r#"stock: "spay-rose", at: (0, 0)"#), 6, "Did you mean spray-rose"),
        (part(r#"stock: "spray-rose", colour: "blu", at: (0, 0)"#), 6, "It comes in white, ivory"),
        (part(r#"stock: "spray-rose", at: (NaN, 0)"#), 6, "not NaN"),
        (part(r#"stock: "spray-rose", at: (0, -inf)"#), 6, "not -inf"),
        (part(r#"stock: "spray-rose", at: (1e999, 0)"#), 6, "not inf"),
        (part(r#"stock: "spray-rose", at: (1001, 0)"#), 6, "from -1000 to 1000 mm"),
        (part(r#"stock: "spray-rose", at: (0, 0), size: 0"#), 6, "from 1 to 500 mm"),
        (part(r#"stock: "spray-rose", at: (0, 0), size: -30"#), 6, "from 1 to 500 mm"),
        (part(r#"stock: "spray-rose", at: (0, 0), size: 501"#), 6, "from 1 to 500 mm"),
        (part(r#"stock: "spray-rose", at: (0, 0), size: "big""#), 6, "\u{201c}15.5 cm\u{201d}"),
        (part(r#"stock: "spray-rose", at: (0, 0), level: rised"#), 6, "Did you mean \u{201c}raised\u{201d}?"),
        (part(r#"stock: "spray-rose", at: (0, 0), trun: 3"#), 6, "Did you mean \u{201c}turn\u{201d}?"),
        (part(r#"stock: "spray-rose", at: (0, 0), at: (0, 0)"#), 6, "is given twice"),
        (part(r#"stock: "spray-rose", at: (0, 0, 0)"#), 6, ""),
        (part(r#"stock: "spray-rose", at: 5"#), 6, "( )"),
        (part(r#"stock: "spray-rose""#), 6, "\u{201c}at\u{201d} is missing"),
        (part(r"at: (0, 0)"), 6, "\u{201c}stock\u{201d} is missing"),
        (
            part(r#"id: 1, stock: "rose", at: (0, 0)), (id: 1, stock: "rose", at: (9, 0)"#),
            6,
            "Give one of them another",
        ),
        (part(r#"id: 0, stock: "rose", at: (0, 0)"#), 6, " whole number from 1"),
        (part(r#"id: 1.5, stock: "rose", at: (0, 0)"#), 6, " whole number from 1"),
        (with_piece(r#"band: "elastic-smal","#), 5, "Did you mean elastic-small"),
        (with_piece(r#"bow: (ribbon: "satin15"),"#), 5, "Did you mean satin-15"),
        (with_piece(r#"bow: (colour: "puce"),"#), 5, "It comes in white"),
        (with_piece("bow: (loops_a_side: 100),"), 5, "at most 24 loops"),
        (with_piece("worn: ankle,"), 5, "Known: wrist and lapel"),
        (with_piece("petals: 3,"), 5, "\u{201c}petals\u{201d} is not a field here"),
        ("(version: 1, wrist: (girth: 1.55), piece: (oval: (length: 90, width: 54)))".into(), 1, "155 may be meant"),
        ("(version: 1, piece: (oval: (length: 90)))".into(), 1, "\u{201c}width\u{201d} is missing"),
        ("(version: 1)".into(), 1, "\u{201c}piece\u{201d} is missing"),
        (with_fields("kind: infant,"), 2, ""),
        (with_fields("kind: child(400),"), 2, "from 0 to 130"),
        (with_fields("kind: child(2.5),"), 2, "from 0 to 130"),
        (with_fields("dress: (hex: \"tealish\"),"), 2, "\u{201c}#f2cfc8\u{201d}"),
        (with_fields("handed: both,"), 2, "left and right"),
        (with_fields("purse: -3,"), 2, "18.50"),
        (with_fields("asked: (reason: \"none\"),"), 2, "\u{201c}price\u{201d} is missing"),
        (with_fields("extras: [(name: \"wand\", price: NaN)],"), 2, "18.50"),
        (with_piece("wishes: (height: 4),"), 5, "from 5 to 200 mm"),
        (with_fields(&agreed("2026-02-30", "")), 2, "\u{201c}2026-05-09\u{201d}"),
        (with_fields(&agreed("2026-05-02", &agreed("2026-05-01", ""))), 2, "an agreement of its own"),
        (
            with_fields(&agreed("2026-05-02", "").replace("version: 1", "version: 9")),
            2,
            "This order was saved by a newer Posywright",
        ),
        ("(version: 5, petals: [])".into(), 1, "This order was saved by a newer Posywright"),
        ("(version: 0)".into(), 1, "There is no version 0"),
        ("(wearer: \"Mina\", piece: (oval: (length: 90, width: 54)))".into(), 0, "It has no version"),
        ("[1, 2]".into(), 1, "( )"),
        ("version".into(), 1, ""),
        ("   \n ".into(), 0, "It is empty"),
        (
            format!("(version: 1, notes: \"{}\", piece: (oval: (length: 90, width: 54)))", "x".repeat(10_001)),
            1,
            "10000",
        ),
    ] {
        let refusal = order_from_text(&text, "a.ron", &stock).expect_err(&text);
        let said = refusal.to_string();
        assert!(said.contains(words), "{text}\n{said}");
        assert!(said.starts_with("Not opened: \u{201c}a.ron\u{201d}"), "{said}");
        assert_eq!(refusal.line.as_ref().map_or(0, |l| l.number), line, "{text}\n{said}");
        assert!(!refusal.remedy().is_empty());
        for word in ["error", "invalid", "user", "struct", "tuple", "enum", "Option", "parse", "expected"] {
            assert!(!said.contains(word), "{word}: {said}");
        }
    }
}

/// The line that a refusal shows is the line that is wrong, not the first that looks like it.
#[test]
fn the_line_is_that_of_the_part_in_question() {
    let stock = built_in_stock();
    let text = samples::orders().next().unwrap().text;
    let damaged =
        text.replacen("\"italian-ruscus\", colour: \"green\", at: (17, 17)", "\"italian-rsucus\", at: (17, 17)", 1);
    let refusal = order_from_text(&damaged, "orders/01-petite.ron", &stock).unwrap_err();
    let line = refusal.line.clone().unwrap();
    assert!(line.text.contains("italian-rsucus"), "{refusal}");
    assert_eq!(damaged.lines().nth(line.number - 1).unwrap().trim(), line.text);
    let twice = text.replacen("id: 5,", "id: 3,", 1);
    let refusal = order_from_text(&twice, "orders/01-petite.ron", &stock).unwrap_err();
    assert!(refusal.line.as_ref().unwrap().text.contains("at: (15.5, -15.5)"), "{refusal}");
}

#[test]
fn deep_nesting_and_long_lists_are_refused() {
    let stock = built_in_stock();
    for n in [33, 65, 100_000, 3_000_000] {
        let text = format!("(version: 1, notes: {})", "[".repeat(n));
        let refusal = order_from_text(&text, "a.ron", &stock).unwrap_err();
        assert_eq!(refusal.cause, Cause::Nested, "{n}");
    }
    let parts = "(stock: \"rose\", at: (0, 0)),".repeat(5001);
    let refusal = order_from_text(&with_piece(&format!("parts: [{parts}],")), "a.ron", &stock).unwrap_err();
    assert_eq!(refusal.cause, Cause::TooManyParts(5001));
    let parts = "(stock: \"rose\", at: (0, 0)),".repeat(5000);
    let order = read(&with_piece(&format!("parts: [{parts}],")), &stock).unwrap();
    assert_eq!(read(&order_to_text(&order), &stock), Ok(order));
    let big = format!("(version: 1, notes: \"{}\"", "x".repeat(16 * 1024 * 1024));
    assert_eq!(order_from_text(&big, "a.ron", &stock).unwrap_err().cause, Cause::TooBig);
}

/// The program's own look at the table of bad inputs: values that load in RON but are no lengths, numbers beyond bounds,
/// remarks nested without end.
#[test]
fn odd_writing_is_read_or_refused_but_never_panics() {
    let stock = built_in_stock();
    for value in [
        "NaN",
        "inf",
        "-inf",
        "1e999",
        "4294967296",
        "-1",
        "99999999999999999999999999",
        "\"\"",
        "\"6 1/0\"",
        "'x'",
        "b\"x\"",
        "true",
        "()",
        "None",
        "Some(30)",
        "{}",
        "{\"a\": 1}",
        "[]",
        "r#\"30\"#",
        "0x1e",
        "3_0",
        "_",
        "1..5",
        "@",
        "\\",
        "\"",
        "/*",
        "//",
        "\u{0}",
        "\u{202e}",
        "ident",
        "ident(1)",
        "(((((",
        "\u{1f338}",
    ] {
        for field in ["size", "turn", "id", "at", "stock", "colour", "level", "locked", "role", "zzz"] {
            let text = with_piece(&format!("parts: [(stock: \"rose\", at: (0, 0), {field}: {value})],"));
            assert!(catch_unwind(|| drop(order_from_text(&text, "a.ron", &stock))).is_ok(), "{text}");
        }
    }
    let remarks =
        format!("{}{}(version: 1, piece: (oval: (length: 90, width: 54)))", "/*".repeat(50_000), "*/".repeat(50_000));
    assert!(read(&remarks, &stock).is_ok());
}

fn any_text() -> impl Strategy<Value = String> {
    ".{0,30}"
}

/// Words about a day as they may be typed on some day in some shop, and any words.
fn any_when() -> impl Strategy<Value = When> {
    let figure = "[0-9]{1,2}";
    let told = prop_oneof![
        any_text(),
        (figure, "[/.-]", figure, "(/|[.]|-)?(20)?[0-9]{0,2}", "( [0-9]{1,2}([:.][0-9]{2})?( pm| am|))?")
            .prop_map(|(a, mark, b, year, hour)| format!("{a}{mark}{b}{year}{hour}")),
        "(Sat|Friday|tomorrow|5 Dec|March 9th|29 Feb|31 June) ?(2026|'27|)?( at)? ?(2 pm|14:00|9.30|10.11|)",
    ];
    let style = prop_oneof![Just(DateStyle::MonthName), Just(DateStyle::Slashes), Just(DateStyle::Dots)];
    (told, proptest::option::of(any_day()), style).prop_map(|(words, today, date)| {
        let written = Written { date, ..Written::default() };
        When::read(&words, DayReader { today, written })
    })
}

fn any_cents() -> impl Strategy<Value = Cents> {
    (0..=DEAREST.0).prop_map(Cents)
}

fn any_kind() -> impl Strategy<Value = WearerKind> {
    prop_oneof![Just(WearerKind::Adult), (0..=130_u32).prop_map(|years| WearerKind::Child { years })]
}

fn any_side() -> impl Strategy<Value = Side> {
    prop_oneof![Just(Side::Left), Just(Side::Right)]
}

/// Everything that can be known about an order besides its piece.
fn any_knowledge() -> impl Strategy<Value = Vec<Change>> {
    use proptest::{collection::vec, option::of};
    let words = (
        any_text(),
        any_when(),
        any_text(),
        any_text(),
        any_text(),
        any_text(),
        any_text(),
        any_when(),
        any_when(),
        any_text(),
    );
    let words = words.prop_map(|w| {
        vec![
            Change::Place(w.0),
            Change::Wanted(w.1),
            Change::EventDay(w.7),
            Change::LastChange(w.8),
            Change::CollectedBy(w.9),
            Change::Payer(w.2),
            Change::Partner(w.3),
            Change::Phone(w.4),
            Change::Metal(w.5),
            Change::Likes(w.6),
        ]
    });
    let body = (of(any_kind()), of(any_side()), of(any_side()), of(vec(any_text(), 0..3)), any::<[bool; 3]>());
    let body = body.prop_map(|(kind, hand, arm, allergies, [chair, latex, snug])| {
        vec![
            Change::Kind(kind),
            Change::Handed(hand),
            Change::SparedArm(arm),
            Change::Allergies(allergies),
            Change::PushesChair(chair),
            Change::NoLatex(latex),
            Change::NoSnugBand(snug),
        ]
    });
    let dress = (of(any::<[u8; 3]>()), any_text())
        .prop_map(|(hex, words)| vec![Change::Dress(DressColour { hex: hex.map(|[r, g, b]| Rgb { r, g, b }), words })]);
    let asked = (any_cents(), any_text()).prop_map(|(price, reason)| Asked { price, reason });
    let extra = (any_text(), any_cents(), of(0.0..100.0_f64));
    let extra = extra.prop_map(|(name, price, tax_percent)| Extra { name, price, tax_percent });
    let payment = (of(any_day()), any_text(), -DEAREST.0..=DEAREST.0);
    let payment = payment.prop_map(|(on, way, sum)| Payment { on, way: PayWay::of(&way), sum: Cents(sum) });
    let off = prop_oneof![any_cents().prop_map(Reduction::Amount), (0.0..100.0_f64).prop_map(Reduction::Percent)];
    let discount = (off, any_text()).prop_map(|(off, words)| Discount { off, words });
    let days = (of(any_day()), of(any_day()));
    let terms = (
        of(any_cents()),
        of(asked),
        vec(extra, 0..3),
        any::<bool>(),
        of(5.0..200.0_f64),
        vec(payment, 0..3),
        days,
        of(discount),
    );
    let terms = terms.prop_map(|(purse, asked, extras, rush, height, payments, (quoted_on, until), discount)| {
        vec![
            Change::Budget(purse),
            Change::Asked(asked),
            Change::Extras(extras),
            Change::Rush(rush),
            Change::Payments(payments),
            Change::Discount(discount),
            Change::QuotedOn(quoted_on),
            Change::HoldsUntil(until),
            Change::HeightLimit(height),
        ]
    });
    (words, body, dress, terms).prop_map(|(a, b, c, d)| [a, b, c, d].concat())
}

fn any_day() -> impl Strategy<Value = Day> {
    (2000..2200_i16, 1..=12_i8, 1..=28_i8).prop_filter_map("a day", |(y, m, d)| Day::new(y, m, d))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_gives_an_order_or_a_sentence(text in ".{0,400}") {
        let stock = Stock::default();
        if let Err(said) = read(&text, &stock) {
            prop_assert!(said.contains("Not opened"));
        }
    }

    #[test]
    fn whatever_is_known_about_an_order_reads_back_the_same(
        known in any_knowledge(), agreed in any_knowledge(), day in any_day(), price in any_cents(),
        terms in (proptest::option::of(any_cents()), proptest::option::of(any_day())),
        says in proptest::collection::vec(any_text(), 0..4), partner: bool,
    ) {
        let stock = built_in_stock();
        let sample = samples::orders().find(|s| s.path.contains("11-")).unwrap();
        let blank = read(sample.text, &stock).unwrap();
        let frozen = blank.apply(&Change::Together(agreed), &stock).unwrap();
        let mut order = blank.apply(&Change::Together(known), &stock).unwrap();
        order.agreed = Some(Box::new(Agreed::freeze(&frozen, day, price, says).on_terms(terms.0, terms.1)));
        order.partner_piece = order.partner_piece.filter(|_| partner);
        prop_assert_eq!(read(&order_to_text(&order), &stock), Ok(order));
    }

    #[test]
    fn any_words_and_places_read_back_the_same(
        wearer in ".{0,60}", notes in "(?s).{0,200}", x in -1000.0..1000.0_f64, y in -1000.0..1000.0_f64,
        degrees in -3600.0..3600.0_f64, size in proptest::option::of(1.0..500.0_f64), locked: bool,
    ) {
        let stock = built_in_stock();
        let mut order = read(samples::orders().nth(5).unwrap().text, &stock).unwrap();
        order.wearer = wearer;
        order.notes = notes;
        let size = size.map_or(String::new(), |s| format!("size: {s:?},"));
        let text = with_piece(&format!(
            "parts: [(stock: \"rose\", at: ({x:?}, {y:?}), turn: {degrees:?}, {size} locked: {locked})],"
        ));
        order.piece = read(&text, &stock).unwrap().piece;
        let back = read(&order_to_text(&order), &stock).unwrap();
        let turn = |o: &Order| o.piece.parts()[0].turn_rad;
        prop_assert!((turn(&back) - turn(&order)).abs() < 1e-10);
        prop_assert_eq!(back.piece.parts()[0].centre, order.piece.parts()[0].centre);
        prop_assert_eq!(back.piece.parts()[0].size_mm, order.piece.parts()[0].size_mm);
        prop_assert_eq!((back.wearer, back.notes), (order.wearer, order.notes));
    }
}
