//! Stand-ins for programs of the system, such as its print command. A path can only be set for a whole process, so a test runs itself once
//! more, with the stand-ins and no other program on its path.

use std::fs;
use std::os::unix::fs::PermissionsExt as _;
use std::path::PathBuf;
use std::process::Command;

/// Set in the run that sees stand-in programs alone: the folder they lie in.
const STAND_INS: &str = "POSYWRIGHT_STAND_INS";

/// The folder of the stand-ins, in the run that sees them.
pub(crate) fn folder_of_stand_ins() -> PathBuf {
    PathBuf::from(std::env::var_os(STAND_INS).unwrap())
}

/// Runs the test of this whole name once more, with these programs and no other on its path. Returns what the programs noted; none in that
/// second run itself, which is to go on.
pub(crate) fn again_with_stand_ins(test: &str, programs: &[(&str, &str)]) -> Option<String> {
    if std::env::var_os(STAND_INS).is_some() {
        return None;
    }
    let folder = tempfile::tempdir().unwrap();
    for (program, script) in programs {
        let file = folder.path().join(program);
        let noted = folder.path().join("noted");
        let text =
            format!("#!/bin/sh\n{{ echo \"{program}:\"; printf '%s\\n' \"$@\"; }} >>'{}'\n{script}\n", noted.display());
        fs::write(&file, text).unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(0o755)).unwrap();
    }
    let run = Command::new(std::env::current_exe().unwrap())
        .args([test, "--exact", "--nocapture"])
        .env("PATH", folder.path())
        .env(STAND_INS, folder.path())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&run.stdout).into_owned() + &String::from_utf8_lossy(&run.stderr);
    assert!(run.status.success() && said.contains("1 passed"), "{said}");
    Some(fs::read_to_string(folder.path().join("noted")).unwrap_or_default())
}
