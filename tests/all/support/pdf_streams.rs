//! What is in a PDF, for the tests that look inside.

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
