//! The papers of an order in their folder `papers/NAME`: put there together, all of them or none.
//!
//! They are written into a temporary folder beside it, down to the disk, and then moved into place; what stood there before
//! goes into the temporary folder and comes back when a move is refused. Files that are not ours are never touched.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::reading::name_of;
use super::saving::{LEFT_BEHIND, PREFIX};
use super::shop::{Shop, make_folder};
use super::store_error::{Cause, StoreError};

impl Shop {
    /// Puts papers, by the names of their files, into the folder of the order of this name, all of them or none; those of
    /// the same name are replaced, and those that `is_stale` names are taken away. Returns the folder.
    pub fn put_papers(
        &self,
        name: &str,
        papers: &[(String, Vec<u8>)],
        is_stale: impl Fn(&str) -> bool,
    ) -> Result<PathBuf, StoreError> {
        let all = self.folder().ok_or_else(|| StoreError::new(name, Cause::NoPlace))?.join("papers");
        let folder = all.join(name);
        make_folder(&folder)?;
        remove_left_behind(&all, SystemTime::now());
        let trouble = |e: io::Error| StoreError::new(&name_of(&folder), Cause::of_saving(&e));
        let temp = tempfile::Builder::new().prefix(PREFIX).tempdir_in(&all).map_err(trouble)?;
        let (new, old) = (temp.path().join("new"), temp.path().join("old"));
        for made in [&new, &old] {
            fs::create_dir(made).map_err(trouble)?;
        }
        for (file, bytes) in papers {
            written(&new.join(file), bytes).map_err(trouble)?;
        }
        let mut moves = Moves::default();
        let moved = exchange(&mut moves, papers, &folder, [&new, &old], is_stale);
        if let Err(why) = moved {
            // What cannot be put back lies in the temporary folder, which then stays.
            if moves.take_back().is_err() {
                drop(temp.keep());
            }
            return Err(trouble(why));
        }
        Ok(folder)
    }

    /// The folder of the papers of the order of this name; it is made if need be.
    pub fn papers_folder(&self, name: &str) -> Result<PathBuf, StoreError> {
        let folder = self.folder().ok_or_else(|| StoreError::new(name, Cause::NoPlace))?.join("papers").join(name);
        make_folder(&folder)?;
        Ok(folder)
    }
}

/// Moves the new files into `folder` and the old ones out of it.
fn exchange(
    moves: &mut Moves,
    papers: &[(String, Vec<u8>)],
    folder: &Path,
    [new, old]: [&Path; 2],
    is_stale: impl Fn(&str) -> bool,
) -> io::Result<()> {
    for (file, _) in papers {
        let place = folder.join(file);
        if place.is_dir() {
            return Err(io::Error::from(io::ErrorKind::IsADirectory));
        }
        if fs::symlink_metadata(&place).is_ok() {
            moves.make(&place, &old.join(file))?;
        }
        moves.make(&new.join(file), &place)?;
    }
    for entry in fs::read_dir(folder)?.flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let is_new = papers.iter().any(|(file, _)| *file == name);
        if !is_new && is_stale(&name) && entry.path().is_file() {
            moves.make(&entry.path(), &old.join(&name))?;
        }
    }
    Ok(())
}

/// Files that were moved, in their order.
#[derive(Debug, Default)]
struct Moves(Vec<(PathBuf, PathBuf)>);

impl Moves {
    fn make(&mut self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)?;
        self.0.push((from.to_owned(), to.to_owned()));
        Ok(())
    }

    /// Everything goes back to where it was.
    fn take_back(self) -> io::Result<()> {
        self.0.into_iter().rev().try_for_each(|(from, to)| fs::rename(to, from))
    }
}

fn written(file: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create_new(file)?;
    file.write_all(bytes)?;
    file.sync_all()
}

/// Removes temporary folders that a killed program left a day ago or earlier. What cannot be removed stays and does no harm.
fn remove_left_behind(all: &Path, now: SystemTime) {
    let Ok(entries) = fs::read_dir(all) else { return };
    for entry in entries.flatten() {
        let is_ours = entry.file_name().to_string_lossy().starts_with(PREFIX) && entry.path().is_dir();
        let changed = entry.metadata().ok().and_then(|m| m.modified().ok());
        let age = changed.and_then(|changed| now.duration_since(changed).ok());
        if is_ours && age.is_some_and(|age| age > LEFT_BEHIND) {
            drop(fs::remove_dir_all(entry.path()));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shop() -> (tempfile::TempDir, Shop) {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        (folder, shop)
    }

    fn papers(named: &[(&str, &str)]) -> Vec<(String, Vec<u8>)> {
        named.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec())).collect()
    }

    /// Names and texts of the files in a folder, and no litter beside it.
    fn seen(shop: &Shop) -> Vec<(String, String)> {
        let all = shop.folder().unwrap().join("papers");
        assert_eq!(fs::read_dir(&all).unwrap().count(), 1, "nothing is left beside it");
        let files = fs::read_dir(all.join("mina")).unwrap().map(|e| e.unwrap().path()).filter(|p| p.is_file());
        let named = |p: &Path| p.file_name().unwrap().to_string_lossy().into_owned();
        let mut seen: Vec<_> = files.map(|p| (named(&p), fs::read_to_string(&p).unwrap())).collect();
        seen.sort();
        seen
    }

    fn pairs(of: &[(&str, &str)]) -> Vec<(String, String)> {
        of.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect()
    }

    #[test]
    fn papers_are_replaced_stale_ones_go_and_what_is_not_ours_stays() {
        let (_folder, shop) = shop();
        shop.put_papers("mina", &papers(&[("a.pdf", "1"), ("b.pdf", "1")]), |_| false).unwrap();
        fs::write(shop.folder().unwrap().join("papers/mina/signed.pdf"), "by hand").unwrap();
        let put = shop.put_papers("mina", &papers(&[("a.pdf", "2"), ("c.pdf", "2")]), |name| name == "b.pdf").unwrap();
        assert_eq!(put, shop.folder().unwrap().join("papers/mina"));
        assert_eq!(seen(&shop), pairs(&[("a.pdf", "2"), ("c.pdf", "2"), ("signed.pdf", "by hand")]));
    }

    /// A folder of the third paper's name is in the way: the first two were in place by then.
    #[test]
    fn when_one_cannot_be_put_in_place_all_are_as_they_were() {
        let (_folder, shop) = shop();
        shop.put_papers("mina", &papers(&[("a.pdf", "1"), ("b.pdf", "1")]), |_| false).unwrap();
        fs::create_dir(shop.folder().unwrap().join("papers/mina/c.pdf")).unwrap();
        let new = papers(&[("a.pdf", "2"), ("b.pdf", "2"), ("c.pdf", "2")]);
        let refusal = shop.put_papers("mina", &new, |_| true).unwrap_err();
        assert!(!refusal.to_string().is_empty());
        assert_eq!(seen(&shop), pairs(&[("a.pdf", "1"), ("b.pdf", "1")]));
    }

    #[test]
    fn what_a_killed_program_left_goes_after_a_day() {
        let (_folder, shop) = shop();
        shop.put_papers("mina", &papers(&[("a.pdf", "1")]), |_| false).unwrap();
        let all = shop.folder().unwrap().join("papers");
        fs::create_dir(all.join(format!("{PREFIX}x"))).unwrap();
        remove_left_behind(&all, SystemTime::now());
        assert_eq!(fs::read_dir(&all).unwrap().count(), 2);
        remove_left_behind(&all, SystemTime::now() + LEFT_BEHIND * 2);
        assert_eq!(fs::read_dir(&all).unwrap().count(), 1);
    }

    #[test]
    fn a_shop_without_a_folder_has_no_place_for_them() {
        let refusal = Shop::built_in().put_papers("mina", &[], |_| false).unwrap_err();
        assert_eq!(refusal.cause, Cause::NoPlace);
    }
}
