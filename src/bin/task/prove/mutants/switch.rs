//! Which one of the written-in changes is in force. This file is put into the changed copy of the package.

use std::env;
use std::fs::OpenOptions;
use std::io::Write as _;
use std::panic;
use std::process;
use std::sync::Once;
use std::sync::atomic::Ordering::Relaxed;
use std::sync::atomic::{AtomicBool, AtomicUsize};

/// Nothing has been asked yet.
const UNKNOWN: usize = usize::MAX;
/// No change is in force; what is reached is noted.
const NOTED: usize = usize::MAX - 1;

static ACTIVE: AtomicUsize = AtomicUsize::new(UNKNOWN);

/// Whether the change of this number, from 1, is in force.
#[inline(always)]
pub fn on(number: usize) -> bool {
    at(number) == number
}

/// The number of the change that is in force, or 0, asked at a place whose first change is `number`.
#[inline(always)]
pub fn at(number: usize) -> usize {
    let active = ACTIVE.load(Relaxed);
    if active >= NOTED { asked(number) } else { active }
}

#[cold]
#[inline(never)]
fn asked(number: usize) -> usize {
    if ACTIVE.load(Relaxed) == UNKNOWN {
        ask();
    }
    let active = ACTIVE.load(Relaxed);
    if active == NOTED {
        note(number);
        return 0;
    }
    active
}

fn ask() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let change = env::var("FIRST_TRUSS_CHANGE").ok().and_then(|text| text.parse().ok());
        let active = match change {
            // The first check that fails says enough.
            Some(change) => {
                panic::set_hook(Box::new(|_| process::exit(101)));
                change
            }
            None if env::var_os("FIRST_TRUSS_REACHED").is_some() => NOTED,
            None => 0,
        };
        ACTIVE.store(active, Relaxed);
    });
}

fn note(number: usize) {
    static SEEN: [AtomicBool; 1 << 15] = [const { AtomicBool::new(false) }; 1 << 15];
    let Some(seen) = SEEN.get(number) else {
        process::exit(102);
    };
    if seen.load(Relaxed) || seen.swap(true, Relaxed) {
        return;
    }
    let file = env::var_os("FIRST_TRUSS_REACHED").and_then(|file| OpenOptions::new().create(true).append(true).open(file).ok());
    match file.map(|mut file| writeln!(file, "{number}")) {
        Some(Ok(())) => {}
        _ => process::exit(102),
    }
}
