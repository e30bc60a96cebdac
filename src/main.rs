//! Parses the command line, opens the window or runs the command, and reports what happened.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use posywright::cli::{CliCommand, parse_args, run};

/// The command failed.
const FAILED: u8 = 1;
/// The command was not understood.
const WRONG_COMMAND: u8 = 2;

fn main() -> ExitCode {
    match parse_args(std::env::args_os().skip(1)) {
        Err(sentence) => {
            report(&format!("{sentence}\nSee posywright --help.\n"));
            ExitCode::from(WRONG_COMMAND)
        }
        Ok((CliCommand::Window { file, photo }, shop)) => match open_window(file.clone(), shop, photo) {
            Ok(()) => ExitCode::SUCCESS,
            Err(why) => papers_instead(file.as_deref(), &why),
        },
        Ok((command, shop)) => match run(&command, shop.as_deref(), &mut report) {
            Ok((text, warnings)) => {
                for warning in warnings {
                    report(&format!("{warning}\n"));
                }
                print(&text)
            }
            Err(sentence) => {
                report(&format!("{sentence}\n"));
                ExitCode::from(FAILED)
            }
        },
    }
}

#[cfg(feature = "gui")]
fn open_window(file: Option<PathBuf>, shop: Option<PathBuf>, photo: Option<PathBuf>) -> Result<(), String> {
    posywright::store::start_log();
    posywright::store::install_panic_hook();
    posywright::app::open(&posywright::app::Opening { file, shop, photo })
}

#[cfg(not(feature = "gui"))]
fn open_window(_file: Option<PathBuf>, _shop: Option<PathBuf>, _photo: Option<PathBuf>) -> Result<(), String> {
    Err("this build has no window".to_owned())
}

/// Without a display: the papers of the order, or of a sample order, into the folder `papers`.
fn papers_instead(file: Option<&Path>, why: &str) -> ExitCode {
    match posywright::cli::papers_without_window(file, Path::new("papers")) {
        Ok(made) => {
            let list: Vec<String> = made.iter().map(|p| format!("  {}", p.display())).collect();
            let list = list.join("\n");
            print(&format!("No window: {why}. Saved the papers of the order instead:\n{list}\n"))
        }
        Err(sentence) => {
            report(&format!("{sentence}\nNo window: {why}.\n"));
            ExitCode::from(FAILED)
        }
    }
}

/// A closed pipe on the other side is no concern of ours.
fn print(text: &str) -> ExitCode {
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(why) if why.kind() != std::io::ErrorKind::BrokenPipe => ExitCode::from(FAILED),
        _ => ExitCode::SUCCESS,
    }
}

fn report(text: &str) {
    // Nothing can be reported once stderr is closed.
    drop(std::io::stderr().lock().write_all(text.as_bytes()));
}
