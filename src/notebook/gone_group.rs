//! Groups that were removed: whose it is what was noted under their numbers.

use super::{Done, GroupRecord, Notebook, PestRecord};

/// The line that begins the page of a group that is gone.
pub(super) const GONE_PAGE: &str = "page gone";

impl Notebook {
    /// The removed group of a number, as it was.
    #[must_use]
    pub fn gone(&self, id: u32) -> Option<&GroupRecord> {
        self.gone.iter().find(|gone| gone.id == id)
    }

    /// The group of a number, as it stands or as it was when it was removed.
    #[must_use]
    pub fn known(&self, id: u32) -> Option<&GroupRecord> {
        self.groups.iter().find(|group| group.id == id).or_else(|| self.gone(id))
    }

    /// Whether a group of this number stands.
    #[must_use]
    pub fn stands(&self, id: u32) -> bool {
        self.groups.iter().any(|group| group.id == id)
    }

    /// Whether anything is noted of the group of this number: by the day, or done in a programme of its plants.
    fn is_noted(&self, id: u32) -> bool {
        let is_treated = |done: &Done| matches!(done, Done::Treated(.., Some(plants)) if *plants == id);
        let is_in = |programme: &PestRecord| programme.plants == Some(id) && programme.deeds.iter().any(|deed| deed.is_done);
        let mut pages = self.days.iter();
        pages.any(|page| page.group(id).is_some() || page.done.iter().any(is_treated)) || self.programmes.iter().any(is_in)
    }

    /// Remembers a group that stands no more, if anything is noted of it.
    pub(super) fn remember(&mut self, group: &GroupRecord) {
        if let Err(index) = self.gone.binary_search_by_key(&group.id, |gone| gone.id)
            && !self.stands(group.id)
            && self.is_noted(group.id)
        {
            self.gone.insert(index, group.clone());
        }
    }

    /// Forgets the groups of which nothing is noted any more, and those that stand again. What a later program wrote of one that is
    /// gone stays.
    pub(super) fn forget_gone(&mut self) {
        let mut gone = std::mem::take(&mut self.gone);
        gone.retain(|gone| !self.stands(gone.id) && (self.is_noted(gone.id) || !gone.unknown.is_empty()));
        self.gone = gone;
    }
}
