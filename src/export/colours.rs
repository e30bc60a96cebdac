//! Colours as text for people and as JSON for machines. The caveat stands by every one of them.

use std::fmt::Write as _;

use serde_json::{Value, json};

use super::json::number;
use crate::colour::{
    CAVEAT, ColourWarning, Likeness, MainColour, Photo, Reading, Rgb, everyday_name, is_pastel, name_of,
};
use crate::paperwork::ColourRow;

/// Rows of text that a person reads; machines get all.
const SHOWN: usize = 20;

/// Stock against a dress, as a table: things of one name and colour share a line.
pub fn match_text(dress: Rgb, rows: &[ColourRow]) -> String {
    let mut text = format!("Dress: {} {}\n\n", everyday_name(dress), dress.text());
    let groups = grouped(rows);
    for group in groups.iter().take(SHOWN) {
        let row = group[0];
        let likeness = Likeness::of(row.delta_e00).words();
        let mut things: Vec<&str> = group.iter().map(|r| r.of.as_str()).collect();
        things.dedup();
        let more = if things.len() > 2 { format!(" and {} more", things.len() - 2) } else { String::new() };
        let things = things.iter().take(2).copied().collect::<Vec<_>>().join("; ");
        // Writing to a String cannot fail.
        _ = writeln!(
            text,
            "{:>5.1}  {likeness:<9}  {}  {:<16} {things}{more}",
            row.delta_e00,
            row.rgb.text(),
            row.name
        );
        let warned = warning_words(&row.warnings);
        if !warned.is_empty() {
            _ = writeln!(text, "{:>9}{warned}", "! ");
        }
    }
    if groups.len() > SHOWN {
        _ = writeln!(text, "       ... and {} further off", groups.len() - SHOWN);
    }
    if rows.is_empty() {
        text += "Nothing in that list has a colour.\n";
    }
    text + "\nFirst figure: the difference (CIEDE2000). 1 is hardly seen, above 10 is another colour.\n" + CAVEAT + "\n"
}

/// Rows of one colour under one name, in the order of the best of each.
fn grouped(rows: &[ColourRow]) -> Vec<Vec<&ColourRow>> {
    let mut groups: Vec<Vec<&ColourRow>> = Vec::new();
    for row in rows {
        match groups.iter_mut().find(|g| g[0].rgb == row.rgb && g[0].name == row.name) {
            Some(group) => group.push(row),
            None => groups.push(vec![row]),
        }
    }
    groups
}

/// Warnings in a few words, each once. Of what blends in nobody needs to read that it is as light, too.
fn warning_words(warnings: &[ColourWarning]) -> String {
    let reads_as_one = warnings.contains(&ColourWarning::ReadsAsOne);
    let kept = warnings.iter().filter(|w| !(reads_as_one && **w == ColourWarning::OnlyColourSeparates));
    let mut words: Vec<&str> = kept.map(|w| w.short()).collect();
    words.dedup();
    words.join("; ")
}

/// Stock against a dress: every colour, the most like first.
pub fn match_json(dress: Rgb, rows: &[ColourRow]) -> Value {
    let ranked = rows.iter().map(|row| {
        json!({
            "stock": row.stock.as_str(),
            "kind": row.kind,
            "of": row.of,
            "name": row.name,
            "hex": row.rgb.text(),
            "delta_e00": number(row.delta_e00),
            "likeness": Likeness::of(row.delta_e00).id(),
            "palette": row.relation.id(),
            "warnings": warnings_json(&row.warnings),
        })
    });
    json!({ "dress": colour_json(dress), "ranked": ranked.collect::<Vec<_>>(), "caveat": CAVEAT })
}

fn warnings_json(warnings: &[ColourWarning]) -> Vec<Value> {
    warnings.iter().map(|w| json!({ "id": w.id(), "says": w.says() })).collect()
}

/// A colour with its name in plain words.
fn colour_json(colour: Rgb) -> Value {
    let name = name_of(colour);
    json!({
        "hex": colour.text(),
        "name": name.words,
        "everyday": everyday_name(colour),
        "about": name.is_about(),
        "delta_e00": number(name.delta_e00),
        "pastel": is_pastel(colour),
    })
}

/// Share of clipped pixels from which a reading is doubtful.
const DOUBTFUL: f64 = 0.5;

/// The colour of a dress in a photo, for people.
pub fn dress_text(photo: &Photo, (x, y): (u32, u32), share: f64, reading: &Reading, main: &[MainColour]) -> String {
    let mut text = format!("At {x},{y}: {} {}\n", everyday_name(reading.rgb), reading.rgb.text());
    let [shade, light] = reading.ends.map(Rgb::text);
    _ = writeln!(text, "Read from {:.0} % of the photo: {shade} in shade, {light} in light", share * 100.0);
    if reading.clipped >= DOUBTFUL {
        text += "Much of it is too bright or too dark for the camera, so the colour is doubtful.\n";
    }
    if let Some(doubt) = photo.profile().doubt() {
        _ = writeln!(text, "{doubt}");
    }
    text += "\nMain colours of the photo\n";
    for colour in main {
        _ = writeln!(text, "{:>4.0} %  {}  {}", colour.share * 100.0, colour.rgb.text(), everyday_name(colour.rgb));
    }
    text + "\n" + CAVEAT + "\n"
}

/// The colour of a dress in a photo, for machines.
pub fn dress_json(photo: &Photo, (x, y): (u32, u32), share: f64, reading: &Reading, main: &[MainColour]) -> Value {
    json!({
        "photo": { "width_px": photo.width(), "height_px": photo.height() },
        "at": { "x_px": x, "y_px": y },
        "region_share": number(share),
        "colour": colour_json(reading.rgb),
        "clipped_share": number(reading.clipped),
        "shade": reading.ends[0].text(),
        "light": reading.ends[1].text(),
        "main": main.iter().map(|m| json!({
            "hex": m.rgb.text(), "name": name_of(m.rgb).words, "everyday": everyday_name(m.rgb), "share": number(m.share),
        })).collect::<Vec<_>>(),
        "caveat": CAVEAT,
    })
}
