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

    /// Takes away what is kept of other plots' cards whose text `is_over`, but not of the card that is `open`, and of none from
    /// which anything was set aside.
    pub fn forget_cards(open: Option<u32>, is_over: &dyn Fn(&str) -> bool) {
        let Some(storage) = Self::probe().storage else { return };
        let keys = 0..storage.length().unwrap_or_default();
        let names: Vec<_> = keys.filter_map(|place| storage.key(place).ok().flatten()).collect();
        for name in &names {
            let check = name.strip_prefix(CARD).and_then(|check| check.parse::<u32>().ok());
            let text = storage.get_item(name).ok().flatten().unwrap_or_default();
            let has_set_aside = names.contains(&(name.clone() + ".set-aside.0"));
            if check.is_some() && check != open && !has_set_aside && is_over(&text) {
                let _ = storage.remove_item(name);
                let _ = storage.remove_item(&(name.clone() + ".before"));
            }
        }
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
