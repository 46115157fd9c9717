//! Runs other programs: each is named before it starts, and what it prints is passed on.

use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Command, Stdio};
use std::sync::mpsc::{self, Sender};
use std::thread;

use crate::failure::{Failure, Outcome};

/// What a program printed, and whether it ended well.
pub struct Heard {
    pub success: bool,
    pub lines: Vec<String>,
}

/// Runs a program whose output nobody needs to read but the person at the terminal.
///
/// # Errors
///
/// When it cannot be started or ends badly.
pub fn run(command: &mut Command) -> Outcome<()> {
    announce(command);
    let status = command.stdin(Stdio::null()).status().map_err(|cause| unstarted(command, &cause))?;
    if status.success() {
        Ok(())
    } else {
        Err(Failure::new(format!("`{}` failed ({status}).", shown(command))))
    }
}

/// Runs a program, passes its output on line by line and keeps the lines.
///
/// # Errors
///
/// When it cannot be started. A program that ends badly is not an error here: its lines say more.
pub fn listen(command: &mut Command) -> Outcome<Heard> {
    announce(command);
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map_err(|cause| unstarted(command, &cause))?;
    let (sender, receiver) = mpsc::channel();
    let mut readers = Vec::new();
    if let Some(output) = child.stdout.take() {
        let sender = sender.clone();
        readers.push(thread::spawn(move || pass_on(output, &sender)));
    }
    if let Some(output) = child.stderr.take() {
        readers.push(thread::spawn(move || pass_on(output, &sender)));
    }
    let lines = receiver.into_iter().collect();
    for reader in readers {
        // A reader only ends early when the terminal is gone; the exit status still counts.
        drop(reader.join());
    }
    let success = child.wait().map_err(|cause| unstarted(command, &cause))?.success();
    Ok(Heard { success, lines })
}

/// Runs a program and gives what it prints to its standard output, or nothing when it fails.
pub fn ask(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).output().ok()?;
    output
        .status
        .success()
        .then(|| String::from_utf8_lossy(&output.stdout).trim().to_string())
}

fn pass_on(output: impl Read, sender: &Sender<String>) {
    let mut reader = BufReader::new(output);
    let mut bytes = Vec::new();
    while reader.read_until(b'\n', &mut bytes).is_ok_and(|n| n > 0) {
        let line = String::from_utf8_lossy(&bytes).trim_end().to_string();
        // Not println!: a closed terminal must not stop the program that is being read.
        drop(writeln!(std::io::stdout(), "{line}"));
        drop(sender.send(line));
        bytes.clear();
    }
}

fn announce(command: &Command) {
    println!("\n> {}", shown(command));
}

fn shown(command: &Command) -> String {
    let program = std::path::Path::new(command.get_program());
    let name = program.file_name().unwrap_or(program.as_os_str());
    std::iter::once(name)
        .chain(command.get_args())
        .map(|word| word.to_string_lossy())
        .collect::<Vec<_>>()
        .join(" ")
}

fn unstarted(command: &Command, cause: &std::io::Error) -> Failure {
    Failure::new(format!("Cannot run `{}`: {cause}.", shown(command)))
}
