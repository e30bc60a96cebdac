//! One kind of worker for whatever takes longer than a frame: a thread with a name that does one request after the other.
//!
//! A request reports through its [`JobReporter`] and asks it whether it is still wanted. A request that breaks off by a panic is
//! told as [`WorkerEvent::Failed`], and the next one is done as if nothing had happened; a thread that is gone is
//! started anew by the next request. This is the one file of the window that starts threads.

use std::cell::Cell;
use std::collections::VecDeque;
use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::JoinHandle;
use std::time::Duration;

use egui::{Context, ViewportId};

/// Progress less far apart than this is not reported: more is not seen.
const PROGRESS_STEP: f64 = 0.02;

/// What becomes of requests that wait for their turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum WorkerPolicy {
    /// The newest is done; what it overtook is dropped, and so is everything when the worker goes.
    NewestOnly,
    /// All are done in the order in which they came, those too that wait when the worker goes: it stays until they are.
    InTurn,
}

/// Which request something belongs to; a later one is greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct WorkerTicket(u64);

/// What is heard from a worker.
#[derive(Debug, PartialEq)]
pub(crate) enum WorkerEvent<Event> {
    /// So much of it is done, 0 to 1; never less than was reported before.
    Progress(WorkerTicket, f64),
    /// What the request has found.
    Reported(WorkerTicket, Event),
    /// It broke off, or its thread is gone; nothing more comes of it.
    Failed(WorkerTicket),
}

/// What goes from the thread to the window.
enum WorkerSignal<Event> {
    Told(WorkerEvent<Event>),
    Ended(WorkerTicket),
    /// The so manyth thread is gone.
    Gone(u64),
}

/// Does one request.
type JobHandler<Request, Event> = Box<dyn FnMut(Request, &JobReporter<Event>) + Send>;
/// Makes a handler that knows nothing yet: at the start, and again after a panic, which may have left the last one half changed.
type JobHandlerMaker<Request, Event> = Arc<dyn Fn() -> JobHandler<Request, Event> + Send + Sync>;

/// A worker, and the way to its thread and back.
pub(crate) struct Worker<Request, Event> {
    name: &'static str,
    policy: WorkerPolicy,
    make_handler: JobHandlerMaker<Request, Event>,
    line: WorkerLine<Event>,
    signals: Receiver<WorkerSignal<Event>>,
    /// What has been heard and not been handed on.
    heard: VecDeque<WorkerEvent<Event>>,
    thread: Option<WorkerThread<Request>>,
    n_threads: u64,
    /// The last request that has come to its end.
    ended: WorkerTicket,
}

struct WorkerThread<Request> {
    requests: Sender<(WorkerTicket, Request)>,
    handle: JoinHandle<()>,
}

/// The way back to the window.
struct WorkerLine<Event> {
    to_window: Sender<WorkerSignal<Event>>,
    ctx: Context,
    window: ViewportId,
    /// The number of the newest request.
    newest: Arc<AtomicU64>,
    /// Requests up to this number are no longer wanted.
    cancelled: Arc<AtomicU64>,
}

impl<Event> Clone for WorkerLine<Event> {
    fn clone(&self) -> Self {
        Self {
            to_window: self.to_window.clone(),
            ctx: self.ctx.clone(),
            window: self.window,
            newest: Arc::clone(&self.newest),
            cancelled: Arc::clone(&self.cancelled),
        }
    }
}

impl<Event> WorkerLine<Event> {
    fn is_cancelled(&self, ticket: WorkerTicket) -> bool {
        ticket.0 <= self.cancelled.load(Ordering::Relaxed)
    }

    /// Tells the window, and wakes it. It may be gone by now.
    fn tell(&self, event: WorkerEvent<Event>) {
        self.to_window.send(WorkerSignal::Told(event)).ok();
        self.wake();
    }

    /// Tells that the so manyth thread is gone.
    fn gone(&self, nth: u64) {
        self.to_window.send(WorkerSignal::Gone(nth)).ok();
        self.wake();
    }

    fn wake(&self) {
        self.ctx.request_repaint_of(self.window);
    }
}

/// Tells of the end of a thread that broke off, last of all that it does.
struct Farewell<Event> {
    line: WorkerLine<Event>,
    nth: u64,
}

impl<Event> Drop for Farewell<Event> {
    fn drop(&mut self) {
        if std::thread::panicking() {
            self.line.gone(self.nth);
        }
    }
}

/// What a request reports through.
pub(crate) struct JobReporter<Event> {
    line: WorkerLine<Event>,
    ticket: WorkerTicket,
    progress: Cell<f64>,
}

impl<Event> JobReporter<Event> {
    /// Tells the window what was found, and wakes it.
    pub(crate) fn report(&self, event: Event) {
        if !self.is_cancelled() {
            self.line.tell(WorkerEvent::Reported(self.ticket, event));
        }
    }

    /// Tells how much is done, 0 to 1, when that is visibly more than before.
    pub(crate) fn progress(&self, share: f64) {
        let share = share.clamp(0.0, 1.0);
        if share >= self.progress.get() + PROGRESS_STEP && !self.is_cancelled() {
            self.progress.set(share);
            self.line.tell(WorkerEvent::Progress(self.ticket, share));
        }
    }

    /// Whether nobody wants it any more: asked between two steps.
    pub(crate) fn is_cancelled(&self) -> bool {
        self.line.is_cancelled(self.ticket)
    }

    /// Whether nobody wants it any more or something newer is wanted.
    pub(crate) fn is_overtaken(&self) -> bool {
        self.is_cancelled() || self.line.newest.load(Ordering::Relaxed) > self.ticket.0
    }
}

impl<Request: Send + 'static, Event: Send + 'static> Worker<Request, Event> {
    /// A worker of this name; its thread starts with the first request and wakes the present window. `make_handler` makes
    /// what does a request and may remember something from one to the next.
    pub(crate) fn new<Do: FnMut(Request, &JobReporter<Event>) + Send + 'static>(
        name: &'static str,
        ctx: &Context,
        policy: WorkerPolicy,
        make_handler: impl Fn() -> Do + Send + Sync + 'static,
    ) -> Self {
        let (to_window, signals) = channel();
        let line = WorkerLine {
            to_window,
            ctx: ctx.clone(),
            window: ctx.viewport_id(),
            newest: Arc::default(),
            cancelled: Arc::default(),
        };
        let make_handler: JobHandlerMaker<Request, Event> = Arc::new(move || Box::new(make_handler()));
        let (heard, thread, n_threads, ended) = (VecDeque::new(), None, 0, WorkerTicket(0));
        Self { name, policy, make_handler, line, signals, heard, thread, n_threads, ended }
    }

    /// Asks for something.
    pub(crate) fn request(&mut self, request: Request) -> WorkerTicket {
        let ticket = WorkerTicket(self.line.newest.fetch_add(1, Ordering::Relaxed) + 1);
        let unsent = match &self.thread {
            Some(thread) => thread.requests.send((ticket, request)).err().map(|gone| gone.0),
            None => Some((ticket, request)),
        };
        if let Some(job) = unsent {
            self.fail_before(ticket);
            self.start(job);
        }
        ticket
    }

    /// Starts a thread with its first request. That there is none is reported like the end of one.
    fn start(&mut self, job: (WorkerTicket, Request)) {
        self.n_threads += 1;
        let (requests, from_window) = channel();
        let (policy, make_handler) = (self.policy, Arc::clone(&self.make_handler));
        let farewell = Farewell { line: self.line.clone(), nth: self.n_threads };
        let started = start_thread(self.name, move || {
            work(&from_window, policy, &make_handler, &farewell.line);
        });
        self.thread = started.ok().map(|handle| WorkerThread { requests, handle });
        let is_sent = self.thread.as_ref().is_some_and(|thread| thread.requests.send(job).is_ok());
        if !is_sent {
            self.line.gone(self.n_threads);
        }
    }

    /// What was asked for so far is no longer wanted: it ends at its next step, and nothing more is heard of it.
    pub(crate) fn cancel(&self) {
        self.line.cancelled.store(self.newest().0, Ordering::Relaxed);
    }

    /// Whether something that was asked for has not come to its end.
    pub(crate) fn is_busy(&self) -> bool {
        self.ended < self.newest() && !self.line.is_cancelled(self.newest())
    }

    fn newest(&self) -> WorkerTicket {
        WorkerTicket(self.line.newest.load(Ordering::Relaxed))
    }

    /// Everything heard since it was last asked.
    pub(crate) fn poll(&mut self) -> Vec<WorkerEvent<Event>> {
        while let Ok(signal) = self.signals.try_recv() {
            self.take(signal);
        }
        self.heard.drain(..).collect()
    }

    /// Waits at most so long for the next thing to be heard; none when nothing more is to come.
    pub(crate) fn wait(&mut self, at_most: Duration) -> Option<WorkerEvent<Event>> {
        while self.heard.is_empty() && self.is_busy() {
            let signal = self.signals.recv_timeout(at_most).ok()?;
            self.take(signal);
        }
        self.heard.pop_front()
    }

    /// Takes up a signal; of what was cancelled nothing is heard.
    fn take(&mut self, signal: WorkerSignal<Event>) {
        let (ticket, event) = match signal {
            WorkerSignal::Ended(ticket) => {
                self.ended = self.ended.max(ticket);
                return;
            }
            WorkerSignal::Gone(nth) => {
                if nth == self.n_threads {
                    self.thread = None;
                    self.fail_before(WorkerTicket(self.newest().0 + 1));
                }
                return;
            }
            WorkerSignal::Told(event @ (WorkerEvent::Progress(ticket, _) | WorkerEvent::Reported(ticket, _))) => {
                (ticket, event)
            }
            WorkerSignal::Told(WorkerEvent::Failed(ticket)) => {
                self.ended = self.ended.max(ticket);
                (ticket, WorkerEvent::Failed(ticket))
            }
        };
        if !self.line.is_cancelled(ticket) {
            self.heard.push_back(event);
        }
    }

    /// Requests before this one that have not come to their end went with their thread.
    fn fail_before(&mut self, ticket: WorkerTicket) {
        let lost = (self.ended.0 + 1..ticket.0).map(WorkerTicket).filter(|lost| !self.line.is_cancelled(*lost));
        self.heard.extend(lost.map(WorkerEvent::Failed));
        self.ended = WorkerTicket(ticket.0 - 1);
    }
}

impl<Request, Event> Drop for Worker<Request, Event> {
    fn drop(&mut self) {
        let Some(WorkerThread { requests, handle }) = self.thread.take() else { return };
        drop(requests);
        match self.policy {
            WorkerPolicy::NewestOnly => self.line.cancelled.store(u64::MAX, Ordering::Relaxed),
            // A thread that broke off has nothing more to do either.
            WorkerPolicy::InTurn => drop(handle.join()),
        }
    }
}

/// Does what is asked for until the window is gone.
fn work<Request, Event>(
    requests: &Receiver<(WorkerTicket, Request)>,
    policy: WorkerPolicy,
    make_handler: &JobHandlerMaker<Request, Event>,
    line: &WorkerLine<Event>,
) {
    let mut handler = make_handler();
    while let Some((ticket, request)) = next(requests, policy) {
        let reporter = JobReporter { line: line.clone(), ticket, progress: Cell::new(0.0) };
        if reporter.is_cancelled() {
            continue;
        }
        // What may be left half changed is made anew below.
        let ended = catch_unwind(AssertUnwindSafe(|| handler(request, &reporter)));
        if ended.is_ok() {
            line.to_window.send(WorkerSignal::Ended(ticket)).ok(); // the window may be gone by now
        } else {
            handler = make_handler();
            line.tell(WorkerEvent::Failed(ticket));
        }
    }
}

/// Waits for the request whose turn it is; none when the window is gone.
fn next<Request>(requests: &Receiver<Request>, policy: WorkerPolicy) -> Option<Request> {
    let first = requests.recv().ok()?;
    match policy {
        WorkerPolicy::NewestOnly => Some(requests.try_iter().last().unwrap_or(first)),
        WorkerPolicy::InTurn => Some(first),
    }
}

/// Starts a thread that bears a name.
pub(crate) fn start_thread<Found: Send + 'static>(
    name: &str,
    job: impl FnOnce() -> Found + Send + 'static,
) -> io::Result<JoinHandle<Found>> {
    std::thread::Builder::new().name(name.to_owned()).spawn(job)
}

/// How long a test waits for a worker, at most: far more than the slowest machine takes.
#[cfg(test)]
pub(crate) const PATIENCE: Duration = Duration::from_mins(2);

#[cfg(test)]
impl<Request: Send + 'static, Event: Send + 'static> Worker<Request, Event> {
    /// The next thing reported, whatever progress was reported before it.
    pub(crate) fn wait_for_report(&mut self) -> Event {
        loop {
            match self.wait(PATIENCE) {
                Some(WorkerEvent::Reported(_, event)) => return event,
                Some(WorkerEvent::Progress(..)) => {}
                Some(WorkerEvent::Failed(_)) => panic!("{} broke off", self.name),
                None => panic!("nothing more comes from {}", self.name),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Mutex;

    use super::*;

    /// A worker that reports the words it is given, and the name of its thread; `!` breaks it off. A request waits for the gate first.
    fn echo(policy: WorkerPolicy) -> (Worker<&'static str, String>, Sender<()>) {
        let (open, gate) = channel::<()>();
        let gate = Arc::new(Mutex::new(gate));
        let worker = Worker::new("echo", &Context::default(), policy, move || {
            let gate = Arc::clone(&gate);
            let mut before = String::new();
            move |word: &'static str, reporter: &JobReporter<String>| {
                gate.lock().unwrap().recv().unwrap();
                assert_ne!(word, "!", "asked to break off");
                before.push_str(word);
                reporter.report(before.clone());
            }
        });
        (worker, open)
    }

    fn n_open(gate: &Sender<()>, n: usize) {
        (0..n).for_each(|_| gate.send(()).unwrap());
    }

    /// Everything that is heard until nothing more is to come.
    fn all<R: Send + 'static, E: Send + 'static>(worker: &mut Worker<R, E>) -> Vec<WorkerEvent<E>> {
        std::iter::from_fn(|| worker.wait(PATIENCE)).collect()
    }

    fn reported(n: u64, words: &str) -> WorkerEvent<String> {
        WorkerEvent::Reported(WorkerTicket(n), words.to_owned())
    }

    #[test]
    fn in_turn_everything_is_done_in_order() {
        let (mut worker, gate) = echo(WorkerPolicy::InTurn);
        for word in ["a", "b", "c"] {
            worker.request(word);
        }
        n_open(&gate, 3);
        assert_eq!(all(&mut worker), [reported(1, "a"), reported(2, "ab"), reported(3, "abc")]);
        assert!(!worker.is_busy());
    }

    #[test]
    fn of_the_newest_only_what_was_overtaken_is_not_begun() {
        let (to_worker, requests) = channel();
        for n in 1..=5 {
            to_worker.send(n).unwrap();
        }
        assert_eq!(next(&requests, WorkerPolicy::NewestOnly), Some(5));
        for n in 6..=7 {
            to_worker.send(n).unwrap();
        }
        assert_eq!(next(&requests, WorkerPolicy::InTurn), Some(6));
        drop(to_worker);
        assert_eq!(
            (next(&requests, WorkerPolicy::NewestOnly), next(&requests, WorkerPolicy::NewestOnly)),
            (Some(7), None)
        );
    }

    #[test]
    fn a_request_that_breaks_off_is_told_and_the_next_ones_work_with_nothing_left_of_it() {
        for policy in [WorkerPolicy::InTurn, WorkerPolicy::NewestOnly] {
            let (mut worker, gate) = echo(policy);
            n_open(&gate, 4);
            let mut heard = Vec::new();
            for word in ["a", "!", "b", "c"] {
                worker.request(word);
                heard.extend(all(&mut worker));
            }
            let failed = WorkerEvent::Failed(WorkerTicket(2));
            assert_eq!(heard, [reported(1, "a"), failed, reported(3, "b"), reported(4, "bc")], "{policy:?}");
        }
    }

    #[test]
    fn a_thread_that_is_gone_is_told_and_the_next_request_starts_another() {
        let (open, gate) = channel::<()>();
        let gate = Arc::new(Mutex::new(gate));
        let made = AtomicU64::new(0);
        let mut worker = Worker::new("gone", &Context::default(), WorkerPolicy::InTurn, move || {
            assert_ne!(made.fetch_add(1, Ordering::Relaxed), 1, "the second handler cannot be made");
            let gate = Arc::clone(&gate);
            move |word: &'static str, reporter: &JobReporter<String>| {
                gate.lock().unwrap().recv().unwrap();
                assert_ne!(word, "!", "asked to break off");
                reporter.report(word.to_owned());
            }
        });
        worker.request("!");
        worker.request("lost with it");
        n_open(&open, 1);
        assert_eq!(all(&mut worker), [1, 2].map(|n| WorkerEvent::Failed(WorkerTicket(n))));
        worker.request("a");
        worker.request("b");
        n_open(&open, 2);
        assert_eq!(all(&mut worker), [reported(3, "a"), reported(4, "b")]);
    }

    #[test]
    fn what_is_cancelled_ends_at_its_next_step_and_nothing_more_is_heard_of_it() {
        let (open, gate) = channel::<()>();
        let (step, steps) = channel();
        let gate = Arc::new(Mutex::new(gate));
        let mut worker = Worker::new("steps", &Context::default(), WorkerPolicy::InTurn, move || {
            let (gate, step) = (Arc::clone(&gate), step.clone());
            move |n: u32, reporter: &JobReporter<u32>| {
                for k in 0..n {
                    gate.lock().unwrap().recv().unwrap();
                    if reporter.is_cancelled() {
                        break;
                    }
                    reporter.report(k);
                    step.send(k).unwrap();
                }
            }
        });
        worker.request(1000);
        n_open(&open, 2);
        assert_eq!([worker.wait_for_report(), worker.wait_for_report()], [0, 1]);
        worker.cancel();
        assert!(!worker.is_busy() && worker.poll().is_empty());
        worker.request(1);
        n_open(&open, 2);
        assert_eq!(all(&mut worker), [WorkerEvent::Reported(WorkerTicket(2), 0)]);
        assert_eq!(steps.try_iter().collect::<Vec<_>>(), [0, 1, 0], "the first did two steps of its thousand");
    }

    #[test]
    fn a_request_knows_that_something_newer_is_wanted() {
        let (open, gate) = channel::<()>();
        let gate = Arc::new(Mutex::new(gate));
        let mut worker = Worker::new("overtaken", &Context::default(), WorkerPolicy::NewestOnly, move || {
            let gate = Arc::clone(&gate);
            move |(): (), reporter: &JobReporter<bool>| {
                gate.lock().unwrap().recv().unwrap();
                reporter.report(reporter.is_overtaken());
            }
        });
        worker.request(());
        n_open(&open, 1);
        assert!(!worker.wait_for_report());
        worker.request(());
        // It has been begun or has been overtaken before that: either way the last one is the newest.
        worker.request(());
        n_open(&open, 2);
        let last = all(&mut worker).pop();
        assert_eq!(last, Some(WorkerEvent::Reported(WorkerTicket(3), false)));
    }

    #[test]
    fn progress_only_grows_and_is_not_told_in_trifles() {
        let mut worker = Worker::new("progress", &Context::default(), WorkerPolicy::InTurn, || {
            |shares: Vec<f64>, reporter: &JobReporter<()>| shares.into_iter().for_each(|share| reporter.progress(share))
        });
        worker.request(vec![0.3, 0.1, 0.31, 0.5, f64::NAN, 0.4, 7.0]);
        worker.request(vec![0.2]);
        let told =
            [(1, 0.3), (1, 0.5), (1, 1.0), (2, 0.2)].map(|(n, share)| WorkerEvent::Progress(WorkerTicket(n), share));
        assert_eq!(all(&mut worker), told);
    }

    #[test]
    fn in_turn_what_waits_is_done_before_the_worker_goes_and_the_thread_bears_the_name() {
        let done = Arc::new(Mutex::new(Vec::new()));
        let list = Arc::clone(&done);
        let mut worker = Worker::new("last wishes", &Context::default(), WorkerPolicy::InTurn, move || {
            let list = Arc::clone(&list);
            move |n: u32, _: &JobReporter<()>| {
                let name = std::thread::current().name().unwrap().to_owned();
                list.lock().unwrap().push((n, name));
            }
        });
        for n in 0..3 {
            worker.request(n);
        }
        drop(worker);
        assert_eq!(*done.lock().unwrap(), [0, 1, 2].map(|n| (n, "last wishes".to_owned())));
    }
}
