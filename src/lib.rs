//! Posywright: one sketch of a wrist corsage becomes the picture, the once-over, the stem list and the price.
//!
//! This file is the map. The house has floors; a module may use only floors below its own, and `tests/all/house.rs` reads
//! the sources and guards that. Data flows one way: a piece is changed only by an [`piece::Edit`], everything else is
//! derived from it by pure functions.
//!
//! | floor | module | knows |
//! |---|---|---|
//! | 0 | [`units`] | millimetres, money, minutes: as people type and read them |
//! | 1 | [`geometry`] | discs, ovals, lenses, area, gaps, spacing, outline, wrap, ribbon; no flower word |
//! | 1 | [`colour`] | colours: difference, names, other eyes, photos |
//! | 1 | [`light`] | surfaces, rays, a camera; no flower word |
//! | 2 | [`stock`] | what can be bought |
//! | 3 | [`piece`] | the wrist piece, its edits, the house style |
//! | 3 | [`history`] | snapshots, gestures, revisions |
//! | 4 | [`once_over`] | pure judgement: findings |
//! | 4 | [`book`] | orders |
//! | 5 | [`command`] | the one way in which an order changes |
//! | 5 | [`set_out`] | proposals: edits that make a piece better |
//! | 5 | [`paperwork`] | stem list, price: rows without formatting |
//! | 6 | [`scene`] | the picture in millimetres |
//! | 6 | [`model`] | a piece in the round: surfaces that light falls on |
//! | 7 | [`export`] | scene or rows to bytes |
//! | 7 | [`store`] | the shop folder: files, versions, refusals |
//! | 8 | [`session`] | the open order, its history, what is derived from it |
//! | 8 | [`sheet`] | the wrist sheet's view and hands, without a window |
//! | 9 | [`cli`] | the commands that need no window |
//! | 9 | `app` | the window (feature `gui`) |

pub mod units;

pub mod colour;
pub mod geometry;
pub mod light;

pub mod stock;

pub mod history;
pub mod piece;

pub mod book;
pub mod command;
pub mod once_over;
pub mod set_out;

pub mod paperwork;

pub mod model;
pub mod scene;

pub mod export;
pub mod store;

pub mod session;
pub mod sheet;

#[cfg(feature = "gui")]
pub mod app;
pub mod cli;
