//! Writing a file so that it is there completely or not at all: after a full disk, a pulled plug or a second program, the
//! last version stays.
//!
//! The order of steps: follow links; refuse a read-only file and one that something else has changed; write a temporary
//! file in the same folder, with the same rights, down to the disk; put it in place of the old one; bring the folder down
//! to the disk. The temporary file goes away with every refusal; what a killed program leaves is removed a day later.
//!
//! Temporary names and the replacing are `tempfile`'s. The order of steps is ours: it also brings file and folder down to the
//! disk, keeps links and rights, and writes over nothing that was changed since it was read.

use std::fs::{self, File, Metadata, Permissions};
use std::hash::{DefaultHasher, Hasher};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use tempfile::NamedTempFile;

use super::reading::name_of;
use super::store_error::{Cause, StoreError};

/// How the names of our temporary files begin.
pub(super) const PREFIX: &str = ".posywright-keeping-";

/// Temporary files older than this are left over; our choice, so that no other window's save is removed.
pub(super) const LEFT_BEHIND: Duration = Duration::from_hours(24);

/// How a file looked when it was read or written, to see whether something else has changed it since.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FileStamp {
    length: u64,
    hash: u64,
}

impl FileStamp {
    /// The stamp of a file with these bytes.
    pub(super) fn of_bytes(bytes: &[u8]) -> Self {
        let mut hasher = DefaultHasher::new();
        hasher.write(bytes);
        Self { length: bytes.len() as u64, hash: hasher.finish() }
    }

    /// The stamp of what is at `path` now, if anything: for writing over it on purpose.
    pub fn of_file(path: &Path) -> Result<Option<Self>, StoreError> {
        // However large it is: whoever reads it later has a limit, but it may always be written over.
        match super::reading::bytes_up_to(path, u64::MAX - 1, Cause::TooBig) {
            Ok(bytes) => Ok(Some(Self::of_bytes(&bytes))),
            Err(StoreError { cause: Cause::NotThere, .. }) => Ok(None),
            Err(refusal) => Err(refusal),
        }
    }
}

/// What saving asks of a disk, so that a test can let each step fail.
pub(super) trait Disk {
    fn canonical(&self, path: &Path) -> io::Result<PathBuf>;
    fn status(&self, path: &Path) -> io::Result<Metadata>;
    fn bytes(&self, path: &Path) -> io::Result<Vec<u8>>;
    fn temp_in(&self, folder: &Path) -> io::Result<NamedTempFile>;
    fn set_rights(&self, temp: &NamedTempFile, rights: Permissions) -> io::Result<()>;
    fn write(&self, temp: &mut NamedTempFile, bytes: &[u8]) -> io::Result<()>;
    fn sync(&self, temp: &NamedTempFile) -> io::Result<()>;
    fn put_in_place(&self, temp: NamedTempFile, target: &Path) -> io::Result<()>;
    fn sync_folder(&self, folder: &Path) -> io::Result<()>;
}

/// The disk there is.
#[derive(Debug)]
pub(super) struct RealDisk;

impl Disk for RealDisk {
    fn canonical(&self, path: &Path) -> io::Result<PathBuf> {
        fs::canonicalize(path)
    }
    fn status(&self, path: &Path) -> io::Result<Metadata> {
        fs::metadata(path)
    }
    fn bytes(&self, path: &Path) -> io::Result<Vec<u8>> {
        fs::read(path)
    }
    fn temp_in(&self, folder: &Path) -> io::Result<NamedTempFile> {
        let mut builder = tempfile::Builder::new();
        builder.prefix(PREFIX).suffix(".tmp");
        #[cfg(unix)]
        {
            // A new file gets the rights any new file gets, and not the private ones of a temporary file.
            use std::os::unix::fs::PermissionsExt;
            builder.permissions(Permissions::from_mode(0o666));
        }
        builder.tempfile_in(folder)
    }
    fn set_rights(&self, temp: &NamedTempFile, rights: Permissions) -> io::Result<()> {
        temp.as_file().set_permissions(rights)
    }
    fn write(&self, temp: &mut NamedTempFile, bytes: &[u8]) -> io::Result<()> {
        temp.write_all(bytes)
    }
    fn sync(&self, temp: &NamedTempFile) -> io::Result<()> {
        temp.as_file().sync_all()
    }
    fn put_in_place(&self, temp: NamedTempFile, target: &Path) -> io::Result<()> {
        /// Windows refuses while a scanner holds the file: five tries over about a second.
        const PAUSES_MS: [u64; 4] = [50, 150, 300, 500];
        let mut temp = temp;
        for pause in PAUSES_MS {
            match temp.persist(target) {
                Ok(_) => return Ok(()),
                Err(e) if cfg!(windows) && e.error.kind() == io::ErrorKind::PermissionDenied => temp = e.file,
                Err(e) => return Err(e.error),
            }
            std::thread::sleep(Duration::from_millis(pause));
        }
        temp.persist(target).map(|_| ()).map_err(|e| e.error)
    }
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        if cfg!(unix) { File::open(folder).and_then(|f| f.sync_all()) } else { Ok(()) }
    }
}

/// Puts `bytes` into the file at `path`, or leaves everything as it was and says why.
pub(super) fn save(
    disk: &dyn Disk,
    path: &Path,
    bytes: &[u8],
    stamp: Option<&FileStamp>,
) -> Result<FileStamp, StoreError> {
    super::thread_guard::touch_disk();
    let refuse = |cause| StoreError::new(&name_of(path), cause);
    let trouble = |e: io::Error| refuse(Cause::of_saving(&e));
    let (target, rights) = check_target(disk, path, stamp).map_err(refuse)?;
    let folder = target.parent().map_or_else(|| PathBuf::from("."), Path::to_path_buf);
    let mut temp = disk.temp_in(&folder).map_err(trouble)?;
    if let Some(rights) = rights {
        disk.set_rights(&temp, rights).map_err(trouble)?;
    }
    disk.write(&mut temp, bytes).map_err(trouble)?;
    disk.sync(&temp).map_err(trouble)?;
    disk.put_in_place(temp, &target).map_err(trouble)?;
    // The new file is in place whatever the folder answers, and some network disks cannot answer at all.
    drop(disk.sync_folder(&folder));
    Ok(FileStamp::of_bytes(bytes))
}

/// Where `path` leads, and the rights of the file there, if there is one and it may be replaced.
fn check_target(
    disk: &dyn Disk,
    path: &Path,
    stamp: Option<&FileStamp>,
) -> Result<(PathBuf, Option<Permissions>), Cause> {
    let of = |e: io::Error| Cause::of_saving(&e);
    let target = match disk.canonical(path) {
        Ok(target) => target,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return new_place(disk, path).map(|place| (place, None)),
        Err(e) => return Err(of(e)),
    };
    let status = disk.status(&target).map_err(of)?;
    if status.is_dir() {
        return Err(Cause::FolderInTheWay);
    }
    let Some(stamp) = stamp else { return Err(Cause::AlreadyThere) };
    if status.permissions().readonly() {
        return Err(Cause::ReadOnly);
    }
    let is_same = status.len() == stamp.length && FileStamp::of_bytes(&disk.bytes(&target).map_err(of)?) == *stamp;
    if is_same { Ok((target, Some(status.permissions()))) } else { Err(Cause::Changed) }
}

/// The full path of a file that is not there yet.
fn new_place(disk: &dyn Disk, path: &Path) -> Result<PathBuf, Cause> {
    if fs::symlink_metadata(path).is_ok() {
        return Err(Cause::LinkToNothing);
    }
    let name = path.file_name().ok_or(Cause::FolderInTheWay)?;
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    disk.canonical(folder).map(|folder| folder.join(name)).map_err(|e| Cause::of_saving(&e))
}

/// Removes what a killed program left in `folder`. What cannot be removed stays and does no harm.
pub(super) fn remove_stale_temps(folder: &Path, now: SystemTime) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let is_ours = entry.file_name().to_string_lossy().starts_with(PREFIX);
        let changed = entry.metadata().ok().filter(Metadata::is_file).and_then(|m| m.modified().ok());
        let age = changed.and_then(|changed| now.duration_since(changed).ok());
        if is_ours && age.is_some_and(|age| age > LEFT_BEHIND) {
            drop(fs::remove_file(entry.path()));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    /// Lets the n-th operation fail; a write that fails has written half.
    struct FailingDisk {
        left: Cell<usize>,
    }

    impl FailingDisk {
        fn step(&self) -> io::Result<()> {
            let left = self.left.get();
            self.left.set(left.wrapping_sub(1));
            if left == 0 { Err(io::Error::from(io::ErrorKind::StorageFull)) } else { Ok(()) }
        }
    }

    impl Disk for FailingDisk {
        fn canonical(&self, path: &Path) -> io::Result<PathBuf> {
            self.step().and_then(|()| RealDisk.canonical(path))
        }
        fn status(&self, path: &Path) -> io::Result<Metadata> {
            self.step().and_then(|()| RealDisk.status(path))
        }
        fn bytes(&self, path: &Path) -> io::Result<Vec<u8>> {
            self.step().and_then(|()| RealDisk.bytes(path))
        }
        fn temp_in(&self, folder: &Path) -> io::Result<NamedTempFile> {
            self.step().and_then(|()| RealDisk.temp_in(folder))
        }
        fn set_rights(&self, temp: &NamedTempFile, rights: Permissions) -> io::Result<()> {
            self.step().and_then(|()| RealDisk.set_rights(temp, rights))
        }
        fn write(&self, temp: &mut NamedTempFile, bytes: &[u8]) -> io::Result<()> {
            match self.step() {
                Ok(()) => RealDisk.write(temp, bytes),
                Err(e) => RealDisk.write(temp, &bytes[..bytes.len() / 2]).and(Err(e)),
            }
        }
        fn sync(&self, temp: &NamedTempFile) -> io::Result<()> {
            self.step().and_then(|()| RealDisk.sync(temp))
        }
        fn put_in_place(&self, temp: NamedTempFile, target: &Path) -> io::Result<()> {
            self.step().and_then(|()| RealDisk.put_in_place(temp, target))
        }
        fn sync_folder(&self, folder: &Path) -> io::Result<()> {
            self.step().and_then(|()| RealDisk.sync_folder(folder))
        }
    }

    fn names_in(folder: &Path) -> Vec<String> {
        fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect()
    }

    #[test]
    fn whichever_step_fails_the_old_or_the_new_version_stands_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("order.ron");
        let old = b"the old version".as_slice();
        let new = b"the new version, which is longer".as_slice();
        let mut n_failed = 0;
        for n in 0..40 {
            fs::write(&path, old).unwrap();
            let disk = FailingDisk { left: Cell::new(n) };
            let answer = save(&disk, &path, new, Some(&FileStamp::of_bytes(old)));
            let now = fs::read(&path).unwrap();
            assert_eq!(names_in(folder.path()), ["order.ron"], "step {n}: no litter");
            match answer {
                Ok(stamp) => assert_eq!((now.as_slice(), stamp), (new, FileStamp::of_bytes(new))),
                Err(refusal) => {
                    n_failed += 1;
                    assert_eq!((now.as_slice(), refusal.cause), (old, Cause::Full), "step {n}");
                }
            }
        }
        assert_eq!(n_failed, 8, "every step but the last may fail");
    }

    #[test]
    fn only_old_files_of_ours_are_swept_up() {
        let folder = tempfile::tempdir().unwrap();
        for name in [".posywright-keeping-abc.tmp", "order.ron", ".other.tmp"] {
            fs::write(folder.path().join(name), "x").unwrap();
        }
        remove_stale_temps(folder.path(), SystemTime::now());
        assert_eq!(names_in(folder.path()).len(), 3);
        remove_stale_temps(folder.path(), SystemTime::now() + Duration::from_hours(25));
        let mut left = names_in(folder.path());
        left.sort();
        assert_eq!(left, [".other.tmp", "order.ron"]);
    }
}
