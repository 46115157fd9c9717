use super::{Notebook, OpenError, open, seal};

/// A place where text can be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// The notebook itself.
    Current,
    /// The notebook as it was when this visit began.
    Before,
    /// Text that could not be opened, untouched; numbered from 0.
    SetAside(u8),
}

impl Slot {
    /// How many texts can be set aside.
    pub const MOST_SET_ASIDE: u8 = 4;
}

/// The store refused: blocked, full, or gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Refused;

/// Where text is kept from visit to visit. The browser's storage is one; a map in memory is another.
pub trait Store {
    /// What is kept in a slot, if anything is.
    fn read(&self, slot: Slot) -> Option<String>;

    /// Puts text into a slot, replacing what is there, all or nothing.
    ///
    /// # Errors
    /// [`Refused`], and then the slot is as it was.
    fn write(&self, slot: Slot, text: &str) -> Result<(), Refused>;
}

/// Keeps a notebook in a store, and never writes over text that it could not open.
#[derive(Debug)]
pub struct Keeper<S> {
    store: S,
    kept: Notebook,
    kept_text: Option<String>,
    revision: u32,
    may_write: bool,
    before_is_kept: bool,
}

/// What a visit starts with.
#[derive(Debug)]
pub struct Start {
    /// The notebook: the kept one, or an empty one.
    pub notebook: Notebook,
    /// Why the kept text was not opened, if it was not.
    pub trouble: Option<OpenError>,
}

impl<S: Store> Keeper<S> {
    /// Opens what is kept. Text that cannot be opened is copied aside; only when that copy is safe may it be replaced.
    pub fn start(store: S) -> (Self, Start) {
        let (notebook, kept_text, revision, trouble, may_write) = match store.read(Slot::Current) {
            None => (Notebook::default(), None, 0, None, true),
            Some(text) => match open(&text) {
                Ok(opened) => (opened.notebook, Some(text), opened.revision, None, true),
                Err(trouble) => (Notebook::default(), None, 0, Some(trouble), set_aside(&store, &text)),
            },
        };
        let keeper = Self {
            store,
            kept: notebook.clone(),
            kept_text,
            revision,
            may_write,
            before_is_kept: false,
        };
        (keeper, Start { notebook, trouble })
    }

    /// Keeps the notebook, unless it is the kept one already. The first time, what was kept before is kept beside it.
    ///
    /// # Errors
    /// [`Refused`], when the store refuses or holds text that could neither be opened nor copied aside.
    pub fn keep(&mut self, notebook: &Notebook) -> Result<(), Refused> {
        if *notebook == self.kept {
            return Ok(());
        }
        if !self.may_write {
            return Err(Refused);
        }
        let revision = self.revision.saturating_add(1);
        let text = seal(notebook, revision);
        if !self.before_is_kept
            && let Some(before) = &self.kept_text
        {
            // A store with room for one notebook only still keeps that one.
            self.before_is_kept = self.store.write(Slot::Before, before).is_ok();
        }
        self.store.write(Slot::Current, &text)?;
        self.kept = notebook.clone();
        self.kept_text = Some(text);
        self.revision = revision;
        Ok(())
    }

    /// All texts that were set aside, oldest first.
    pub fn set_aside_texts(&self) -> Vec<String> {
        (0..Slot::MOST_SET_ASIDE)
            .filter_map(|number| self.store.read(Slot::SetAside(number)))
            .collect()
    }

    /// The store itself.
    pub const fn store(&self) -> &S {
        &self.store
    }
}

/// Copies text to a free slot, or finds it there already, and says whether it is now safe.
fn set_aside<S: Store>(store: &S, text: &str) -> bool {
    for number in 0..Slot::MOST_SET_ASIDE {
        let slot = Slot::SetAside(number);
        match store.read(slot) {
            Some(other) if other == text => return true,
            Some(_) => {}
            None => return store.write(slot, text).is_ok() && store.read(slot).as_deref() == Some(text),
        }
    }
    false
}
