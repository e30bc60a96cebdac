//! The squares that wait their turn, the most promising first.
//!
//! Knows numbers of squares and what they promise. A heap of whole numbers: the bits of a positive float rise as it does, so
//! one comparison shows both which promise is the greater and, of two as good as equal, which square is the older.

use std::collections::BinaryHeap;

/// The bits that hold a square's number; the promise has the rest, which is more than nine digits.
const NUMBER_BITS: u32 = 20;

const NUMBERS: u64 = (1 << NUMBER_BITS) - 1;

/// The queue.
#[derive(Debug)]
pub(super) struct Queue {
    tickets: BinaryHeap<u64>,
}

impl Queue {
    /// An empty queue, with room.
    pub(super) fn with_room(n_squares: usize) -> Self {
        Self { tickets: BinaryHeap::with_capacity(n_squares) }
    }

    /// Puts a square in line. Its promise is above nought, its number below a million.
    pub(super) fn push(&mut self, promise: f64, square: usize) {
        self.tickets.push(ticket(promise, square));
    }

    /// The number of the first.
    pub(super) fn first(&self) -> Option<usize> {
        self.tickets.peek().and_then(|ticket| usize::try_from(NUMBERS - (ticket & NUMBERS)).ok())
    }

    /// The first leaves.
    pub(super) fn pop(&mut self) {
        self.tickets.pop();
    }

    /// The first promises less than it did, and takes the place in line that it now deserves.
    pub(super) fn wait_longer(&mut self, promise: f64, square: usize) {
        if let Some(mut first) = self.tickets.peek_mut() {
            *first = ticket(promise, square);
        }
    }
}

fn ticket(promise: f64, square: usize) -> u64 {
    (promise.to_bits() & !NUMBERS) | (NUMBERS - square as u64)
}
