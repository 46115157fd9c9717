//! What is kept goes wrong in every way that can be counted, and nothing is lost by it. Each check prints how many faults it
//! tried; `FIRST_TRUSS_EVERY_FAULT`, which `cargo task prove` sets, makes it try them all.

use std::cell::{Cell, RefCell};
use std::{env, thread};

use first_truss::notebook::{Keeper, Notebook, OpenError, Plot, Refused, Slot, Store, open, seal};

use crate::keeping::{full_notebook, newer_text};

/// The longest text for which every byte is tried.
const LONGEST: usize = 4096;

/// A device's store, with the operations counted and some of them refused.
#[derive(Default)]
struct Device {
    slots: RefCell<Vec<(Slot, String)>>,
    operations: Cell<usize>,
    /// The first operation that is refused, and the first one after it that is not.
    refused: Cell<(usize, usize)>,
}

impl Device {
    fn holding(text: &str) -> Self {
        let device = Self::default();
        device.slots.borrow_mut().push((Slot::Current, text.to_owned()));
        device
    }

    fn get(&self, slot: Slot) -> Option<String> {
        let slots = self.slots.borrow();
        slots.iter().find(|(other, _)| *other == slot).map(|(_, text)| text.clone())
    }

    fn operate(&self) -> Result<(), Refused> {
        let number = self.operations.replace(self.operations.get() + 1);
        let (from, to) = self.refused.get();
        if (from..to).contains(&number) { Err(Refused) } else { Ok(()) }
    }

    fn holds_somewhere(&self, text: &str) -> bool {
        self.slots.borrow().iter().any(|(_, kept)| kept == text)
    }
}

impl Store for &Device {
    fn read(&self, slot: Slot) -> Result<Option<String>, Refused> {
        self.operate()?;
        Ok(self.get(slot))
    }

    fn write(&self, slot: Slot, text: &str) -> Result<(), Refused> {
        self.operate()?;
        let mut slots = self.slots.borrow_mut();
        slots.retain(|(other, _)| *other != slot);
        slots.push((slot, text.to_owned()));
        Ok(())
    }
}

/// A sealed notebook that is nearly as long as every byte is tried for.
fn long_text() -> String {
    let mut notebook = full_notebook();
    let group = notebook.groups.last().cloned().expect("a full notebook has groups");
    let mut text = seal(&notebook, 41);
    while notebook.groups.len() < Notebook::MOST_GROUPS {
        notebook.add_group(group.clone());
        let longer = seal(&notebook, 41);
        if longer.len() > LONGEST {
            break;
        }
        text = longer;
    }
    assert!(text.len() > LONGEST / 2, "{} bytes", text.len());
    text
}

/// A visit that finds `text` in place of `whole`. It opens as if nothing had happened, or is refused: then it is told, it lies
/// set aside byte for byte, and stays there when the grower begins anew.
#[track_caller]
fn check_visit(text: &str, whole: &str, original: &Notebook) {
    let device = Device::holding(text);
    let (mut keeper, start) = Keeper::start(&device);
    let Some(trouble) = start.trouble else {
        assert_eq!(text, whole, "only the whole text opens");
        assert_eq!(start.notebook, *original);
        return;
    };
    assert!(trouble == OpenError::Damaged || matches!(trouble, OpenError::Newer { .. }));
    assert_eq!(start.notebook, Notebook::default());
    assert!(!start.refused);
    assert_eq!(device.get(Slot::Current).as_deref(), Some(text), "untouched");
    assert_eq!(device.get(Slot::SetAside(0)).as_deref(), Some(text), "set aside");
    let mut begun = named("begun anew");
    assert_eq!(keeper.keep(&mut begun, &mut 0), Ok(()));
    assert_eq!(device.get(Slot::SetAside(0)).as_deref(), Some(text), "and left there");
    let kept = device.get(Slot::Current).expect("a notebook that was kept");
    assert_eq!(open(&kept).map(|opened| opened.notebook), Ok(begun));
}

fn named(name: &str) -> Notebook {
    Notebook {
        plot: Plot {
            name: name.to_owned(),
            ..Plot::default()
        },
        ..Notebook::default()
    }
}

fn tries_all() -> bool {
    env::var_os("FIRST_TRUSS_EVERY_FAULT").is_some()
}

fn report(tried: usize, what: &str) {
    println!("faults tried: {tried} {what}");
}

/// Every byte of a stored text changed: into all other 255 in `prove`, by one bit in a quick run. Bytes that are no text any
/// more are read as a browser reads them.
#[test]
fn every_changed_byte_is_refused_and_set_aside() {
    let whole = long_text();
    let original = open(&whole).expect("what was just sealed").notebook;
    let every = tries_all();
    let workers = thread::available_parallelism().map_or(2, usize::from);
    let (whole, original) = (whole.as_str(), &original);
    let tried: usize = thread::scope(|scope| {
        let worker = |first: usize| {
            let mut tried = 0;
            for at in (first..whole.len()).step_by(workers) {
                let mut bytes = whole.as_bytes().to_vec();
                let old = bytes[at];
                let others: Vec<u8> = if every {
                    (0..=u8::MAX).filter(|&byte| byte != old).collect()
                } else {
                    (0..8).map(|bit| old ^ (1 << bit)).collect()
                };
                for byte in others {
                    bytes[at] = byte;
                    check_visit(&String::from_utf8_lossy(&bytes), whole, original);
                    tried += 1;
                }
            }
            tried
        };
        let running: Vec<_> = (0..workers).map(|first| scope.spawn(move || worker(first))).collect();
        running.into_iter().map(|worker| worker.join().expect("every check held")).sum()
    });
    assert_eq!(tried, whole.len() * if every { 255 } else { 8 });
    report(tried, "changed bytes");
}

/// Cut off at every length, and torn at every place between an older text and the newer one that was to replace it.
#[test]
fn every_cut_and_every_torn_writing_is_refused_and_set_aside() {
    let whole = long_text();
    let original = open(&whole).expect("what was just sealed").notebook;
    let older = seal(
        &Notebook {
            plot: named("older").plot,
            ..original.clone()
        },
        40,
    );
    let mut tried = 0;
    for at in 0..whole.len() {
        let (start, _) = whole.as_bytes().split_at(at);
        check_visit(&String::from_utf8_lossy(start), &whole, &original);
        tried += 1;
        let mut torn = start.to_vec();
        torn.extend(older.as_bytes().get(at..).unwrap_or_default());
        let torn = String::from_utf8_lossy(&torn).into_owned();
        if torn != older && torn != whole {
            check_visit(&torn, &whole, &original);
            tried += 1;
        }
        let mut blank = start.to_vec();
        blank.resize(whole.len(), 0);
        check_visit(&String::from_utf8_lossy(&blank), &whole, &original);
        tried += 1;
    }
    let (newer, _) = newer_text();
    check_visit(&newer, &whole, &original);
    report(tried + 1, "cuts, torn writings and later forms");
}

/// The store refuses for a while, from any reading or writing on: no record is lost, and there is always a text that opens.
#[test]
fn a_store_that_refuses_at_any_moment_loses_no_record() {
    let whole = seal(&full_notebook(), 9);
    let records = |notebook: &Notebook| notebook.groups.iter().map(|group| group.name.clone()).collect::<Vec<_>>();
    let kept_before = records(&full_notebook());
    let damaged = whole.replace("height", "weight");
    let mut tried = 0;
    for found in [whole.as_str(), damaged.as_str()] {
        for from in 0..40 {
            for length in [1, 2, 3, 5, 40] {
                let device = Device::holding(found);
                device.refused.set((from, from + length));
                let mut last = None;
                for visit in ["first", "second"] {
                    let (mut keeper, start) = Keeper::start(&device);
                    let mut notebook = start.notebook;
                    for change in 0..3 {
                        notebook.plot.name = format!("{visit} {change}");
                        if keeper.keep(&mut notebook, &mut 0).is_ok() {
                            last = Some(notebook.clone());
                        }
                        let current = device.get(Slot::Current).expect("the store is never emptied");
                        assert!(current == found || open(&current).is_ok(), "from {from} for {length}");
                    }
                }
                if device.operations.get() <= from {
                    // The visits were over before.
                    continue;
                }
                device.refused.set((0, 0));
                let (mut keeper, start) = Keeper::start(&device);
                let mut notebook = start.notebook;
                if let Some(last) = last {
                    let name = |notebook: &Notebook| notebook.plot.name.clone();
                    assert!(
                        name(&notebook) >= name(&last),
                        "from {from} for {length}: {} after {}",
                        name(&notebook),
                        name(&last)
                    );
                }
                if found == whole {
                    for record in &kept_before {
                        assert!(records(&notebook).contains(record), "from {from} for {length}: {record} is lost");
                    }
                } else {
                    assert!(device.holds_somewhere(found), "from {from} for {length}: the damaged text is lost");
                }
                notebook.plot.name = "with room again".to_owned();
                assert_eq!(keeper.keep(&mut notebook, &mut 0), Ok(()));
                let current = device.get(Slot::Current).expect("a notebook that was kept");
                assert_eq!(open(&current).map(|opened| opened.notebook), Ok(notebook));
                tried += 1;
            }
        }
    }
    report(tried, "moments at which the store refuses");
}
