use std::sync::atomic::{AtomicBool, Ordering};

use gloo_storage::{LocalStorage, Storage as _};

use crate::notebook::{Refused, Slot, Store};

/// The device's local storage, or nothing at all where the browser blocks it.
#[derive(Debug)]
pub struct BrowserStore {
    storage: Option<web_sys::Storage>,
    name: String,
}

/// The key of the notebook.
const NOTEBOOK: &str = "first-truss.notebook";
/// What the key of another plot's card begins with.
const CARD: &str = "first-truss.card.";

impl BrowserStore {
    /// Probes the browser's storage once. `gloo_storage` throws out of the program when storage is blocked, so it is asked
    /// only after a probe has passed, and never again: a browser may block it in the middle of a visit.
    #[must_use]
    pub fn probe() -> Self {
        Self::named(NOTEBOOK.to_owned())
    }

    /// The store of another plot's card, apart from the notebook: by the check of its plan.
    #[must_use]
    pub fn of_card(check: u32) -> Self {
        Self::named(CARD.to_owned() + &check.to_string())
    }

    fn named(name: String) -> Self {
        let storage = web_sys::window().and_then(|window| window.local_storage().ok().flatten());
        Self {
            storage: storage.map(|_| LocalStorage::raw()),
            name,
        }
    }

    fn key(&self, slot: Slot) -> String {
        let name = self.name.clone();
        match slot {
            Slot::Current => name,
            Slot::Before => name + ".before",
            Slot::SetAside(number) => name + ".set-aside." + &number.to_string(),
        }
    }
}

impl Store for BrowserStore {
    fn read(&self, slot: Slot) -> Result<Option<String>, Refused> {
        let storage = self.storage.as_ref().ok_or(Refused)?;
        storage.get_item(&self.key(slot)).map_err(|_| Refused)
    }

    fn write(&self, slot: Slot, text: &str) -> Result<(), Refused> {
        let storage = self.storage.as_ref().ok_or(Refused)?;
        storage.set_item(&self.key(slot), text).map_err(|_| Refused)
    }
}

/// Asks the browser, once in a visit, not to clear this page's storage when the device runs short of room. It answers when it
/// likes, and may know nothing of such a promise.
pub fn ask_to_persist() {
    static ASKED: AtomicBool = AtomicBool::new(false);
    if !ASKED.swap(true, Ordering::Relaxed)
        && let Some(window) = web_sys::window()
    {
        // Whatever it answers, a copy in a file is the only certainty.
        let _ = window.navigator().storage().persist();
    }
}
