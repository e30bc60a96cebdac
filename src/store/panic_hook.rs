//! When the program panics: a line in the log, and everything open is saved as a recovery copy before anything else
//! happens to it.
//!
//! Whoever has something to lose registers how it is saved ([`save_at_panic`]). Panics of worker threads, after which the
//! window goes on, are treated alike.

use std::collections::BTreeMap;
use std::panic::PanicHookInfo;
use std::sync::{Mutex, PoisonError, TryLockError};

use super::log_file::{LogEvent, log_event};

/// Saves what is open; whether that worked.
type Save = Box<dyn Fn() -> bool + Send>;

static SAVES: Mutex<Saves> = Mutex::new(Saves { next: 0, by_number: BTreeMap::new() });

struct Saves {
    next: u64,
    by_number: BTreeMap<u64, Save>,
}

/// A registered way of saving, until it is dropped.
#[derive(Debug)]
pub(super) struct SaveAtPanic {
    number: u64,
}

/// Registers how something is saved when the program panics. `save` may be called from any thread, must not panic and
/// must not wait long.
pub(super) fn save_at_panic(save: impl Fn() -> bool + Send + 'static) -> SaveAtPanic {
    let mut saves = SAVES.lock().unwrap_or_else(PoisonError::into_inner);
    let number = saves.next;
    saves.next += 1;
    saves.by_number.insert(number, Box::new(save));
    SaveAtPanic { number }
}

impl Drop for SaveAtPanic {
    fn drop(&mut self) {
        let removed = SAVES.lock().unwrap_or_else(PoisonError::into_inner).by_number.remove(&self.number);
        drop(removed);
    }
}

/// From now on a panic is logged and what is open is saved, after what happened at a panic before.
pub fn install_panic_hook() {
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        before(info);
        log_event(&LogEvent::Panicked(in_words(info)));
        save_all();
    }));
}

/// Saves everything that is registered. Where another thread registers something this very moment, that thread goes on
/// and saves by itself.
fn save_all() {
    let saves = match SAVES.try_lock() {
        Ok(saves) => saves,
        Err(TryLockError::Poisoned(poisoned)) => poisoned.into_inner(),
        Err(TryLockError::WouldBlock) => return,
    };
    let written = saves.by_number.values().filter(|save| save()).count();
    log_event(&LogEvent::CopiesWritten { written, of: saves.by_number.len() });
}

/// Where it panicked, and its words as far as they cannot hold a client's name: words in the code itself, and those
/// of the language itself about numbers.
fn in_words(info: &PanicHookInfo<'_>) -> String {
    const OF_NUMBERS: [&str; 5] =
        ["index out of bounds: ", "range start ", "range end ", "slice index ", "attempt to "];
    let place = info.location().map_or_else(String::new, |at| format!("at {}:{}", short(at.file()), at.line()));
    let made =
        info.payload().downcast_ref::<String>().filter(|words| OF_NUMBERS.iter().any(|of| words.starts_with(of)));
    let words = info.payload().downcast_ref::<&'static str>().copied().or(made.map(String::as_str));
    let words = words.map(|words| format!(": {}", words.replace(char::is_control, " ")));
    let thread = std::thread::current();
    format!("{place} in thread {}{}", thread.name().unwrap_or("without a name"), words.unwrap_or_default())
}

/// The end of a source's path: the beginning is of the computer that built the program.
fn short(file: &str) -> String {
    const SHOWN: usize = 3;
    let parts: Vec<&str> = file.split(['/', '\\']).collect();
    parts[parts.len().saturating_sub(SHOWN)..].join("/")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Arc;
    use std::sync::atomic::{AtomicUsize, Ordering};

    #[test]
    fn what_is_registered_is_saved_until_it_is_dropped() {
        let saved = Arc::new(AtomicUsize::new(0));
        let counted = Arc::clone(&saved);
        let guard = save_at_panic(move || {
            counted.fetch_add(1, Ordering::SeqCst);
            true
        });
        // Other tests may register at this moment, so that one try is passed over.
        while saved.load(Ordering::SeqCst) == 0 {
            save_all();
        }
        drop(guard);
        let before = saved.load(Ordering::SeqCst);
        save_all();
        assert_eq!(saved.load(Ordering::SeqCst), before);
    }

    #[test]
    fn a_path_is_shown_by_its_end() {
        assert_eq!(short("/somewhere/of/mine/src/store/x.rs"), "src/store/x.rs");
        assert_eq!(short("C:\\a\\b\\c\\d.rs"), "b/c/d.rs");
        assert_eq!(short("x.rs"), "x.rs");
    }
}
