//! The door: reads the call, opens the window or runs the command, and says what happened.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use posywright::cli::{Call, help, read_call, run};

/// Could not be done.
const COULD_NOT: u8 = 1;
/// The call was not understood.
const WRONG_CALL: u8 = 2;

fn main() -> ExitCode {
    match read_call(std::env::args_os().skip(1)) {
        Err(sentence) => {
            tell(&format!("{sentence}\n\n{}", help(None)));
            ExitCode::from(WRONG_CALL)
        }
        Ok((Call::Window { file, photo }, shop)) => match open_window(file.clone(), shop, photo) {
            Ok(()) => ExitCode::SUCCESS,
            Err(why) => papers_instead(file.as_deref(), &why),
        },
        Ok((call, shop)) => match run(&call, shop.as_deref(), &mut tell) {
            Ok((text, warnings)) => {
                for warning in warnings {
                    tell(&format!("{warning}\n"));
                }
                print(&text)
            }
            Err(sentence) => {
                tell(&format!("{sentence}\n"));
                ExitCode::from(COULD_NOT)
            }
        },
    }
}

#[cfg(feature = "gui")]
fn open_window(file: Option<PathBuf>, shop: Option<PathBuf>, photo: Option<PathBuf>) -> Result<(), String> {
    posywright::app::open(&posywright::app::Opening { file, shop, photo })
}

#[cfg(not(feature = "gui"))]
fn open_window(_file: Option<PathBuf>, _shop: Option<PathBuf>, _photo: Option<PathBuf>) -> Result<(), String> {
    Err("this build has none".to_owned())
}

/// Without a display: the papers of the order, or of a sample order, into the folder `papers`.
fn papers_instead(file: Option<&Path>, why: &str) -> ExitCode {
    match posywright::cli::papers_without_window(file, Path::new("papers")) {
        Ok(made) => {
            let list: Vec<String> = made.iter().map(|p| format!("  {}", p.display())).collect();
            let list = list.join("\n");
            print(&format!("No window, because {why}; made the papers of the order instead:\n{list}\n"))
        }
        Err(sentence) => {
            tell(&format!("No window, because {why}. {sentence}\n"));
            ExitCode::from(COULD_NOT)
        }
    }
}

/// A closed pipe on the other side is no concern of ours.
fn print(text: &str) -> ExitCode {
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(why) if why.kind() != std::io::ErrorKind::BrokenPipe => ExitCode::from(COULD_NOT),
        _ => ExitCode::SUCCESS,
    }
}

fn tell(text: &str) {
    // Nobody is left to tell when stderr is closed.
    drop(std::io::stderr().lock().write_all(text.as_bytes()));
}
