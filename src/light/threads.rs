//! Work shared out among threads. Which thread does what changes from run to run, what comes out does not: no task knows of another.

use std::sync::Mutex;
use std::thread;

/// Threads of this computer.
pub(super) fn n_cores() -> usize {
    thread::available_parallelism().map_or(1, usize::from)
}

/// Does all tasks, this thread among the workers. Each worker has a state of its own, made by `start`.
pub(super) fn share_out<T, S>(
    n_threads: usize,
    tasks: impl Iterator<Item = T> + Send,
    start: impl Fn() -> S + Sync,
    work: impl Fn(&mut S, T) + Sync,
) {
    let tasks = Mutex::new(tasks);
    let worker = || {
        let mut state = start();
        // A task taken is a task done, so a lock that broke leaves none half taken.
        let next = || tasks.lock().unwrap_or_else(|broken| broken.into_inner()).next();
        while let Some(task) = next() {
            work(&mut state, task);
        }
    };
    thread::scope(|scope| {
        for _ in 1..n_threads {
            // Where no thread can be had, the others do its share.
            if thread::Builder::new().spawn_scoped(scope, worker).is_err() {
                break;
            }
        }
        worker();
    });
}
