//! What is in a PDF, for the tests that look inside.

use std::collections::BTreeMap;
use std::io::Read as _;

/// The streams of a PDF, unpacked where they are packed.
pub(crate) fn streams(pdf: &[u8]) -> Vec<Vec<u8>> {
    let find = |from: usize, what: &[u8]| pdf[from..].windows(what.len()).position(|w| w == what).map(|i| from + i);
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(start) = find(at, b"stream\n") {
        let start = start + b"stream\n".len();
        let Some(end) = find(start, b"endstream") else { break };
        let mut unpacked = Vec::new();
        match flate2::read::ZlibDecoder::new(&pdf[start..end]).read_to_end(&mut unpacked) {
            Ok(_) => found.push(unpacked),
            Err(_) => found.push(pdf[start..end].to_vec()),
        }
        at = end + b"endstream".len();
    }
    found
}

/// The words of a PDF as it would be searched: a line for each that is shown, by the `ToUnicode` maps of its fonts (ISO
/// 32000-1, 9.4.3 and 9.10.3). Made for PDFs of one sheet, whose fonts are named `f0`, `f1` in the order of their maps.
pub(crate) fn words(pdf: &[u8]) -> Vec<String> {
    let streams = streams(pdf);
    let text = |stream: &[u8]| String::from_utf8_lossy(stream).into_owned();
    let is_map = |stream: &&Vec<u8>| stream.windows(11).any(|w| w == b"beginbfchar");
    let maps: Vec<BTreeMap<u16, String>> = streams.iter().filter(is_map).map(|s| map_of(&text(s))).collect();
    let mut found = Vec::new();
    for stream in streams.iter().filter(|s| s.windows(3).any(|w| w == b"]TJ")) {
        let mut at = 0;
        while let Some(begin) = find(stream, at, b"BT ") {
            let end = find(stream, begin, b"\nET").unwrap_or(stream.len());
            let mut line = String::new();
            let mut next = find(stream, begin, b"/f").filter(|at| *at < end);
            while let Some(start) = next {
                next = find(stream, start + 2, b"/f").filter(|at| *at < end);
                let digits =
                    stream[start + 2..].iter().take_while(|b| b.is_ascii_digit()).map(|b| usize::from(b - b'0'));
                let font = digits.fold(0, |n, digit| n * 10 + digit);
                let codes = codes(&stream[start..next.unwrap_or(end)]);
                line.extend(codes.iter().map(|code| maps[font].get(code).map_or("\u{fffd}", String::as_str)));
            }
            found.push(line);
            at = end;
        }
    }
    found
}

fn find(bytes: &[u8], from: usize, what: &[u8]) -> Option<usize> {
    bytes[from..].windows(what.len()).position(|w| w == what).map(|i| from + i)
}

fn map_of(map: &str) -> BTreeMap<u16, String> {
    let pairs = map.lines().filter(|line| line.starts_with('<')).filter_map(|line| {
        let (code, letters) = line.trim().trim_start_matches('<').split_once("> <")?;
        let hex = letters.trim_end_matches('>');
        let units = (0..hex.len() / 4).map(|i| u16::from_str_radix(&hex[4 * i..4 * i + 4], 16).unwrap());
        Some((u16::from_str_radix(code, 16).ok()?, String::from_utf16_lossy(&units.collect::<Vec<_>>())))
    });
    pairs.collect()
}

/// The codes of two bytes in the literal strings of an operator (ISO 32000-1, 7.3.4.2).
fn codes(operator: &[u8]) -> Vec<u16> {
    // Brackets in pairs need no backslash within a string: how deep it is in them.
    let (mut bytes, mut rest, mut depth) = (Vec::new(), operator.iter().copied().peekable(), 0_u32);
    while let Some(byte) = rest.next() {
        match (depth > 0, byte) {
            (false, b'(') => depth = 1,
            (true, b'(') => {
                depth += 1;
                bytes.push(byte);
            }
            (true, b')') => {
                depth -= 1;
                if depth > 0 {
                    bytes.push(byte);
                }
            }
            (true, b'\\') => {
                let mut octal = None;
                for _ in 0..3 {
                    let Some(digit) = rest.next_if(|b| (b'0'..=b'7').contains(b)) else { break };
                    octal = Some(octal.unwrap_or(0_u32) * 8 + u32::from(digit - b'0'));
                }
                bytes.push(match octal {
                    Some(code) => u8::try_from(code).unwrap(),
                    None => match rest.next().unwrap() {
                        b'n' => b'\n',
                        b'r' => b'\r',
                        b't' => b'\t',
                        b'b' => 8,
                        b'f' => 12,
                        other => other,
                    },
                });
            }
            (true, byte) => bytes.push(byte),
            (false, _) => {}
        }
    }
    bytes.chunks_exact(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect()
}
