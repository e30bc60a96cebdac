//! The papers of orders into a folder, of many at once.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Sender, channel};

use super::cli_error::CliError;
use super::loaded_order::{LoadedOrder, name_of};
use crate::export::pdf::PaperSize;
use crate::export::{PAPERS, PaperKind, PaperMaker};
use crate::store;

/// Orders whose papers are made at once, at most; each takes some tens of megabytes.
const MOST_AT_ONCE: usize = 4;

/// What was made of one order, and what is to be reported about it.
#[derive(Debug, Default)]
pub(super) struct PapersMade {
    pub(super) paths: Vec<PathBuf>,
    warnings: Vec<String>,
}

impl LoadedOrder {
    /// Makes papers of these kinds into a folder, all there are where none is named. A paper that is named and that the
    /// order does not have is reported; where nothing else was made it is the failure.
    pub(super) fn papers_into(
        &self,
        folder: &Path,
        name: &str,
        paper: PaperSize,
        only: &[&'static PaperKind],
    ) -> Result<PapersMade, CliError> {
        store::make_folder(folder)?;
        let Self { shop, stock, style, written, .. } = self;
        let desk = PaperMaker { shop, stock, style, written: *written, paper };
        let mut made = PapersMade::default();
        for kind in PAPERS.into_iter().filter(|kind| only.is_empty() || only.contains(kind)) {
            let files = desk.files(&self.order, kind)?;
            if files.is_empty() && !only.is_empty() {
                made.warnings.push(format!("{name}: {}.", kind.why_missing()));
            }
            for (kind, bytes) in files {
                let path = folder.join(format!("{name}-{kind}"));
                store::write_bytes(&path, &bytes)?;
                made.paths.push(path);
            }
        }
        if made.paths.is_empty() { Err(CliError::Failed(made.warnings.join("\n"))) } else { Ok(made) }
    }
}

/// Which papers of which orders to make, and where.
#[derive(Clone, Copy, Debug)]
pub(super) struct PapersJob<'a> {
    pub(super) files: &'a [PathBuf],
    pub(super) shop: Option<&'a Path>,
    pub(super) into: &'a Path,
    pub(super) paper: PaperSize,
    pub(super) only: &'a [&'static PaperKind],
}

/// The papers of several orders: as many orders at once as there are cores, so that memory stays as it is however many
/// there are. An order that cannot be read does not keep the others from their papers.
pub(super) fn papers(job: PapersJob<'_>, progress: &mut dyn FnMut(&str)) -> Result<(String, Vec<String>), CliError> {
    let (mut list, mut warnings, mut refusals) = (String::new(), Vec::new(), Vec::new());
    for made in all_made(job, progress) {
        match made {
            Ok(made) => {
                list.extend(made.paths.iter().map(|path| format!("{}\n", path.display())));
                warnings.extend(made.warnings);
            }
            Err(refusal) => refusals.push(refusal.to_string()),
        }
    }
    warnings.dedup();
    if refusals.is_empty() {
        return Ok((list, warnings));
    }
    if !list.is_empty() {
        refusals.push(format!("Saved for the other orders:\n{}", list.trim_end()));
    }
    Err(CliError::Failed(refusals.join("\n")))
}

type PapersResult = Result<PapersMade, CliError>;

/// What became of each order, in the order in which they were named.
fn all_made(job: PapersJob<'_>, progress: &mut dyn FnMut(&str)) -> Vec<PapersResult> {
    let mut taken = BTreeSet::new();
    let names: Vec<String> = job.files.iter().map(|file| free_name(&name_of(file), &mut taken)).collect();
    let n = job.files.len();
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let (next, (sender, results)) = (AtomicUsize::new(0), channel());
    let mut made: Vec<Option<PapersResult>> = std::iter::repeat_with(|| None).take(n).collect();
    std::thread::scope(|scope| {
        for _ in 0..cores.min(MOST_AT_ONCE).min(n) {
            let (sender, next, names) = (sender.clone(), &next, &names);
            scope.spawn(move || make_next(job, names, next, &sender));
        }
        drop(sender);
        for (done, (i, outcome)) in results.into_iter().enumerate() {
            if n > 1 {
                progress(&format!("{} of {n}: {}\n", done + 1, job.files[i].display()));
            }
            made[i] = Some(outcome);
        }
    });
    made.into_iter().flatten().collect()
}

/// Makes the papers of the next order that no other thread has taken, until there is none.
fn make_next(job: PapersJob<'_>, names: &[String], next: &AtomicUsize, sender: &Sender<(usize, PapersResult)>) {
    while let Some((i, file)) = Some(next.fetch_add(1, Ordering::Relaxed)).and_then(|i| Some((i, job.files.get(i)?))) {
        let made = LoadedOrder::read(file, job.shop).and_then(|loaded| {
            let made = loaded.papers_into(job.into, &names[i], job.paper, job.only)?;
            Ok(PapersMade { warnings: loaded.warnings.into_iter().chain(made.warnings).collect(), ..made })
        });
        if sender.send((i, made)).is_err() {
            return;
        }
    }
}

/// A name that no order before had: `mina`, `mina-2`. Two files in two folders may be called alike. Letters are compared
/// without case, as some disks do.
fn free_name(name: &str, taken: &mut BTreeSet<String>) -> String {
    let numbered = (2..).map(|n: u32| format!("{name}-{n}"));
    let free = std::iter::once(name.to_owned()).chain(numbered).find(|n| taken.insert(n.to_lowercase()));
    free.unwrap_or_else(|| name.to_owned())
}
