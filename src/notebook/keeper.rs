use super::envelope::{check_in, seal_after};
use super::merge::{joined, set_apart};
use super::{Notebook, OpenError, open};

/// A place where text can be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// The notebook itself.
    Current,
    /// The notebook as it stood before this visit, or this tab of it, first wrote.
    Before,
    /// Text that could not be opened, untouched; numbered from 0.
    SetAside(u8),
}

impl Slot {
    /// How many texts can be set aside (limit).
    pub const MOST_SET_ASIDE: u8 = 4;
}

/// The store refused: blocked, full, or gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Refused;

/// Where text is kept from visit to visit. The browser's storage is one; a map in memory is another.
pub trait Store {
    /// What is kept in a slot, if anything is.
    ///
    /// # Errors
    /// [`Refused`], when the store does not say; there may be something then.
    fn read(&self, slot: Slot) -> Result<Option<String>, Refused>;

    /// Puts text into a slot, replacing what is there, all or nothing.
    ///
    /// # Errors
    /// [`Refused`], and then the slot is as it was.
    fn write(&self, slot: Slot, text: &str) -> Result<(), Refused>;
}

/// What a text is written after by a tab that found nothing in the store.
const NOTHING: &str = "nothing";

/// Keeps a notebook in a store. It never writes over text that it could not open, nor over what another tab has written:
/// that is joined with its own first.
#[derive(Debug)]
pub struct Keeper<S> {
    store: S,
    /// What the store holds, as far as this tab knows: whatever else it holds is news.
    known: Option<String>,
    /// The notebook in that text.
    kept: Notebook,
    /// The notebook that was last taken over from the store, before anything that this tab has written since.
    shared: Notebook,
    /// The check of the text that it stood in.
    shared_check: String,
    revision: u32,
    before_is_kept: bool,
    has_written: bool,
    /// The last text that could not be opened.
    unopened: Option<String>,
    /// Why it could not, until somebody has asked.
    trouble: Option<OpenError>,
}

/// What a visit starts with.
#[derive(Debug)]
pub struct Start {
    /// The notebook: the kept one, or an empty one.
    pub notebook: Notebook,
    /// Why the kept text was not opened, if it was not.
    pub trouble: Option<OpenError>,
    /// Whether the store keeps back what it holds, or holds what is neither opened nor safe elsewhere.
    pub refused: bool,
}

impl<S: Store> Keeper<S> {
    /// Opens what is kept, or an empty notebook.
    pub fn start(store: S) -> (Self, Start) {
        Self::start_with(store, Notebook::default())
    }

    /// Opens what is kept, or where nothing is this `empty` notebook. Text that cannot be opened is copied aside; only when that copy is
    /// safe may it be replaced.
    pub fn start_with(store: S, empty: Notebook) -> (Self, Start) {
        let mut notebook = empty;
        let mut keeper = Self {
            store,
            known: None,
            kept: notebook.clone(),
            shared: notebook.clone(),
            shared_check: NOTHING.to_owned(),
            revision: 0,
            before_is_kept: false,
            has_written: false,
            unopened: None,
            trouble: None,
        };
        let refused = keeper.join(&mut notebook, &mut 0).is_err();
        let trouble = keeper.take_trouble();
        let start = Start {
            notebook,
            trouble,
            refused,
        };
        (keeper, start)
    }

    /// Keeps the notebook, joined with what another tab has written meanwhile. What is kept already is not written again.
    /// `position` follows the group that it belongs to. The first time, what was kept before is kept beside it.
    ///
    /// # Errors
    /// [`Refused`], when the store refuses or holds text that could neither be opened nor copied aside.
    pub fn keep(&mut self, notebook: &mut Notebook, position: &mut usize) -> Result<(), Refused> {
        self.join(notebook, position)?;
        if *notebook == self.kept {
            return Ok(());
        }
        let revision = self.revision.saturating_add(1);
        let text = seal_after(notebook, revision, &self.shared_check);
        self.keep_before();
        self.store.write(Slot::Current, &text)?;
        self.kept = notebook.clone();
        self.known = Some(text);
        self.revision = revision;
        self.has_written = true;
        Ok(())
    }

    /// Keeps what was kept before beside the notebook, once in a visit: at the latest with the first change, earlier where there
    /// is time for it.
    pub fn keep_before(&mut self) {
        if !self.before_is_kept
            && let Some(before) = self.known.as_ref().filter(|text| self.unopened.as_ref() != Some(text))
        {
            // A store with room for one notebook only still keeps that one.
            self.before_is_kept = self.store.write(Slot::Before, before).is_ok();
        }
    }

    /// Joins the notebook with what the store holds, if that is news.
    fn join(&mut self, notebook: &mut Notebook, position: &mut usize) -> Result<(), Refused> {
        let text = self.store.read(Slot::Current)?;
        if text == self.known {
            return Ok(());
        }
        let Some(text) = text else {
            // Thrown away by another hand. It is written again with the next change.
            self.forget(None);
            return Ok(());
        };
        match open(&text) {
            Ok(opened) => {
                // Its writer knew the last text that this tab knows, or began where this tab did, or with nothing at all.
                let known = self.known.as_deref().map(check_in);
                let empty = nothing();
                let is_next = known.is_none_or(|known| known == opened.after);
                let base = if is_next {
                    &self.kept
                } else if opened.after == NOTHING && opened.revision < self.revision {
                    &empty
                } else {
                    &self.shared
                };
                // When neither has anything new, both tabs must come to the same notebook.
                let is_mine = is_next || *notebook != self.kept || self.known.as_ref() > Some(&text);
                let theirs = &opened.notebook;
                if is_mine {
                    set_apart(base, notebook, theirs);
                }
                let looked_at = notebook.groups.get(*position).map(|group| group.id);
                *notebook = if is_mine {
                    joined(base, notebook, theirs)
                } else {
                    joined(base, theirs, notebook)
                };
                *position = notebook
                    .groups
                    .iter()
                    .position(|group| Some(group.id) == looked_at)
                    .unwrap_or_else(|| notebook.groups.len().saturating_sub(1).min(*position));
                check_in(&text).clone_into(&mut self.shared_check);
                self.revision = self.revision.max(opened.revision);
                self.shared = opened.notebook.clone();
                self.kept = opened.notebook;
                self.known = Some(text);
                Ok(())
            }
            // Another tab runs a later program by now: its notebook is in good hands.
            Err(OpenError::Newer { .. }) if self.known.is_some() => Err(Refused),
            Err(trouble) => {
                if self.unopened.as_ref() != Some(&text) {
                    self.unopened = Some(text.clone());
                    self.trouble = Some(trouble);
                }
                set_aside(&self.store, &text)?;
                if self.known.is_some() {
                    // What was good before it is only here now.
                    self.forget(Some(text));
                } else {
                    self.known = Some(text);
                }
                Ok(())
            }
        }
    }

    /// Takes it that the store holds nothing of the notebook any more.
    fn forget(&mut self, text: Option<String>) {
        self.known = text;
        self.kept = nothing();
        self.shared = nothing();
        NOTHING.clone_into(&mut self.shared_check);
    }

    /// Why text that was found since this was last asked was not opened.
    pub const fn take_trouble(&mut self) -> Option<OpenError> {
        self.trouble.take()
    }

    /// Whether anything has been written in this visit.
    pub const fn has_written(&self) -> bool {
        self.has_written
    }

    /// All texts that were set aside, oldest first.
    pub fn set_aside_texts(&self) -> Vec<String> {
        (0..Slot::MOST_SET_ASIDE)
            .filter_map(|number| self.store.read(Slot::SetAside(number)).ok()?)
            .collect()
    }
}

/// A notebook with nothing in it, not even the first group.
fn nothing() -> Notebook {
    Notebook {
        groups: Vec::new(),
        ..Notebook::default()
    }
}

/// Copies text to a free slot, or finds it there already.
fn set_aside<S: Store>(store: &S, text: &str) -> Result<(), Refused> {
    for number in 0..Slot::MOST_SET_ASIDE {
        let slot = Slot::SetAside(number);
        let there = store.read(slot)?;
        if there.is_none() {
            store.write(slot, text)?;
            let is_safe = store.read(slot)?.as_deref() == Some(text);
            return if is_safe { Ok(()) } else { Err(Refused) };
        }
        if there.as_deref() == Some(text) {
            return Ok(());
        }
    }
    Err(Refused)
}
