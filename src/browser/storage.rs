use gloo_storage::{LocalStorage, Storage as _};

use crate::notebook::{Refused, Slot, Store};

/// The device's local storage, or nothing at all where the browser blocks it.
///
/// `gloo_storage` throws out of the program when storage is blocked, so it is touched only after a probe has passed.
#[derive(Debug)]
pub struct BrowserStore {
    available: bool,
}

impl BrowserStore {
    /// Probes the browser's storage once.
    #[must_use]
    pub fn probe() -> Self {
        let storage = web_sys::window().and_then(|window| window.local_storage().ok().flatten());
        Self {
            available: storage.is_some(),
        }
    }
}

fn key(slot: Slot) -> String {
    match slot {
        Slot::Current => "first-truss.notebook".to_owned(),
        Slot::Before => "first-truss.notebook.before".to_owned(),
        Slot::SetAside(number) => format!("first-truss.notebook.set-aside.{number}"),
    }
}

impl Store for BrowserStore {
    fn read(&self, slot: Slot) -> Option<String> {
        if !self.available {
            return None;
        }
        LocalStorage::raw().get_item(&key(slot)).ok().flatten()
    }

    fn write(&self, slot: Slot, text: &str) -> Result<(), Refused> {
        if !self.available {
            return Err(Refused);
        }
        LocalStorage::raw().set_item(&key(slot), text).map_err(|_| Refused)
    }
}
