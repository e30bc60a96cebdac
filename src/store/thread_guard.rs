//! For tests: a thread that must never wait for a disk, and whether it touches a file all the same.

/// Called by whatever reads or writes. Panics on a thread that must not, in a test that says so.
pub(super) fn touch_disk() {
    #[cfg(test)]
    assert!(!forbidden::is_forbidden(), "a file is touched on a thread that must not wait for a disk");
}

#[cfg(test)]
pub(crate) use forbidden::NoFilesHere;

#[cfg(test)]
mod forbidden {
    use std::cell::Cell;

    thread_local! {
        static FORBIDDEN: Cell<bool> = const { Cell::new(false) };
    }

    /// While it lives, this thread must not touch a file.
    pub(crate) struct NoFilesHere;

    impl NoFilesHere {
        pub(crate) fn begin() -> Self {
            FORBIDDEN.set(true);
            Self
        }
    }

    impl Drop for NoFilesHere {
        fn drop(&mut self) {
            FORBIDDEN.set(false);
        }
    }

    pub(super) fn is_forbidden() -> bool {
        FORBIDDEN.get()
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;
    use crate::store::{OrderLock, Shop};

    #[test]
    fn a_file_touched_where_none_may_be_is_noticed_and_one_touched_elsewhere_is_not() {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        let file = folder.path().join("orders/x.ron");
        let touches: [&(dyn Fn() + Sync); 7] = [
            &|| drop(Shop::open(folder.path())),
            &|| drop(shop.orders()),
            &|| drop(shop.styles()),
            &|| drop(crate::store::read_order(&file, shop.stock())),
            &|| drop(crate::store::write_bytes(Path::new("/nowhere/x"), b"")),
            &|| drop(crate::store::make_folder(&folder.path().join("a"))),
            &|| drop(OrderLock::try_acquire(&file)),
        ];
        let guard = NoFilesHere::begin();
        for (n, touch) in touches.iter().enumerate() {
            let caught = std::panic::catch_unwind(std::panic::AssertUnwindSafe(touch));
            assert!(caught.is_err(), "touch {n} is not noticed");
            std::thread::scope(|scope| scope.spawn(touch).join()).expect("another thread may");
        }
        drop(guard);
        for touch in touches {
            touch();
        }
    }
}
