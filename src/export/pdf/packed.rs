//! A finished PDF packed smaller: what is no stream goes into object streams, and so does the table of objects.
//!
//! A picture has thousands of small gradients, each a few dictionaries of its own, which stand unpacked in the file and take
//! twenty bytes each in its table: two thirds of a client's page. ISO 32000-1:2008, 7.5.7 (object streams) and 7.5.8
//! (cross-reference streams), 7.4.4.4 (predictors). The same bytes in give the same bytes out.

use std::io::Write as _;

use flate2::Compression;
use flate2::write::ZlibEncoder;

/// Objects to an object stream: many, so that they pack well; not all, so that a reader need not unpack all for one.
const TOGETHER: usize = 500;
/// Widths of the columns of the table, bytes: kind, place or stream, number within the stream.
const WIDTHS: [usize; 3] = [1, 4, 2];

/// The same PDF packed; one that is written in another way than this file knows stays as it is.
pub(super) fn packed(pdf: Vec<u8>) -> Vec<u8> {
    repacked(&pdf).unwrap_or(pdf)
}

/// Where an object is found.
#[derive(Clone, Copy, Debug)]
enum Place {
    Free,
    At(usize),
    Within { stream: usize, index: usize },
}

fn repacked(pdf: &[u8]) -> Option<Vec<u8>> {
    let table = last(pdf, b"startxref\n").and_then(|at| number(&pdf[at..]))?.0;
    let (offsets, trailer) = objects(pdf, table)?;
    let mut ends = offsets[1..].to_vec();
    ends.sort_unstable();
    let mut out = pdf[..*ends.first()?].to_vec();
    ends.push(table);
    let mut places = vec![Place::Free; offsets.len()];
    let mut small: Vec<(usize, &[u8])> = Vec::new();
    for (id, &from) in offsets.iter().enumerate().skip(1) {
        let to = ends[ends.partition_point(|&end| end <= from)];
        let whole = pdf.get(from..to)?.trim_ascii();
        let body = whole.strip_prefix(format!("{id} 0 obj").as_bytes())?.strip_suffix(b"endobj")?.trim_ascii();
        if body.ends_with(b"endstream") {
            places[id] = Place::At(out.len());
            out.extend_from_slice(whole);
            out.push(b'\n');
        } else {
            small.push((id, body));
        }
    }
    for together in small.chunks(TOGETHER) {
        let stream = places.len();
        for (index, (id, _)) in together.iter().enumerate() {
            places[*id] = Place::Within { stream, index };
        }
        places.push(Place::At(out.len()));
        object_stream(&mut out, stream, together)?;
    }
    let at = out.len();
    places.push(Place::At(at));
    table_stream(&mut out, &places, trailer)?;
    write!(out, "startxref\n{at}\n%%EOF").ok()?;
    Some(out)
}

/// Where each object begins, by its number, and what the trailer says besides their count.
fn objects(pdf: &[u8], table: usize) -> Option<(Vec<usize>, &[u8])> {
    /// Bytes to a line of the table (7.5.4).
    const LINE: usize = 20;
    let rest = pdf.get(table..)?.strip_prefix(b"xref\n0 ")?;
    let (n, digits) = number(rest)?;
    let lines = rest.get(digits + 1..digits + 1 + n.checked_mul(LINE)?)?;
    let offsets = lines.chunks_exact(LINE).map(|line| number(line).map(|(at, _)| at)).collect::<Option<Vec<_>>>()?;
    let trailer = rest.get(digits + 1 + n * LINE..)?.trim_ascii_start().strip_prefix(b"trailer\n<<")?;
    let trailer = &trailer[..trailer.windows(2).rposition(|w| w == b">>")?];
    let said = trailer.strip_prefix(b"/Size ")?;
    Some((offsets, &said[number(said)?.1..]))
}

/// One stream with these objects in it: their numbers and places first, then themselves.
fn object_stream(out: &mut Vec<u8>, id: usize, together: &[(usize, &[u8])]) -> Option<()> {
    let (mut head, mut bodies) = (Vec::new(), Vec::new());
    for (id, body) in together {
        write!(head, "{id} {} ", bodies.len()).ok()?;
        bodies.extend_from_slice(body);
        bodies.push(b'\n');
    }
    let said = format!("/Type/ObjStm/N {}/First {}", together.len(), head.len());
    head.extend_from_slice(&bodies);
    stream(out, id, &said, &head)
}

/// The table as a stream, each row told by what differs from the one above it.
fn table_stream(out: &mut Vec<u8>, places: &[Place], trailer: &[u8]) -> Option<()> {
    const ROW: usize = WIDTHS[0] + WIDTHS[1] + WIDTHS[2];
    /// The predictor "up" of PNG, as its rows name it and as the dictionary does.
    const UP: u8 = 2;
    let mut above = [0_u8; ROW];
    let mut rows = Vec::with_capacity(places.len() * (ROW + 1));
    for place in places {
        let (kind, first, second) = match *place {
            Place::Free => (0, 0, u16::MAX),
            Place::At(at) => (1, at, 0),
            Place::Within { stream, index } => (2, stream, u16::try_from(index).ok()?),
        };
        let [a, b, c, d] = u32::try_from(first).ok()?.to_be_bytes();
        let [e, f] = second.to_be_bytes();
        let row: [u8; ROW] = [kind, a, b, c, d, e, f];
        rows.push(UP);
        rows.extend(row.iter().zip(above).map(|(now, before)| now.wrapping_sub(before)));
        above = row;
    }
    let [kind, first, second] = WIDTHS;
    let said = format!(
        "/Type/XRef/Size {}/W[{kind} {first} {second}]/DecodeParms<</Predictor 12/Columns {ROW}>>{}",
        places.len(),
        std::str::from_utf8(trailer).ok()?
    );
    stream(out, places.len() - 1, &said, &rows)
}

/// A packed stream object.
fn stream(out: &mut Vec<u8>, id: usize, said: &str, bytes: &[u8]) -> Option<()> {
    let mut packer = ZlibEncoder::new(Vec::new(), Compression::default());
    packer.write_all(bytes).ok()?;
    let packed = packer.finish().ok()?;
    write!(out, "{id} 0 obj\n<<{said}/Filter/FlateDecode/Length {}>>\nstream\n", packed.len()).ok()?;
    out.extend_from_slice(&packed);
    out.extend_from_slice(b"\nendstream\nendobj\n");
    Some(())
}

/// The number at the start of these bytes, and how many digits it has.
fn number(bytes: &[u8]) -> Option<(usize, usize)> {
    let digits = bytes.iter().take_while(|b| b.is_ascii_digit()).count();
    Some((std::str::from_utf8(&bytes[..digits]).ok()?.parse().ok()?, digits))
}

/// Where what follows the last `what` begins.
fn last(bytes: &[u8], what: &[u8]) -> Option<usize> {
    bytes.windows(what.len()).rposition(|w| w == what).map(|at| at + what.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_pdf_of_the_known_kind_stays_as_it_is() {
        for bytes in [&b""[..], b"startxref\n", b"%PDF-1.7\nstartxref\n5\n%%EOF", b"xref\n0 9\nstartxref\n0\n"] {
            assert_eq!(packed(bytes.to_vec()), bytes);
        }
        let far = b"%PDF-1.7\nxref\n0 99999999999999999999\ntrailer\n<</Size 1>>\nstartxref\n9\n%%EOF";
        assert_eq!(packed(far.to_vec()), far);
    }
}
