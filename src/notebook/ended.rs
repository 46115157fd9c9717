//! Programmes against pests that are ended, what they leave, and what was done in any of them.

use super::{A_SEASON, Done, LeftUse, Notebook, PestRecord, Treatment, Waits};
use crate::almanac::CivilDay;
use crate::pest::{Control, Pest};

/// What was done in a programme.
fn done_in(programme: &PestRecord) -> impl Iterator<Item = Treatment> {
    let deeds = programme.deeds.iter().filter(|deed| deed.is_done);
    deeds.map(|deed| Treatment {
        day: deed.day,
        pest: programme.pest,
        control: deed.control,
        plants: programme.plants,
    })
}

/// Whether a programme says itself what became of a treatment that is ticked on a day: done, or left out.
fn tells(programme: &PestRecord, day: CivilDay, control: Control) -> bool {
    programme.deeds.iter().any(|deed| (deed.day, deed.control) == (day, control))
}

/// Whether a programme is against a pest on these plants, or may be where nobody said on which.
fn is_against(programme: &PestRecord, pest: Pest, plants: Option<u32>) -> bool {
    programme.pest == pest && (programme.plants == plants || programme.plants.is_none() || plants.is_none())
}

impl Notebook {
    /// Ends the programme at a place. How long its labels keep the crop from being picked is kept, what was done in it stands on the
    /// pages of its days from now on, and what it used counts on where another has the same product: which uses are left to whom is
    /// told, for putting it back.
    pub fn end_programme(&mut self, at: usize) -> Option<(PestRecord, Vec<LeftUse>)> {
        let ended = (at < self.programmes.len()).then(|| self.programmes.remove(at))?;
        self.waits = ended.uses().into_iter().fold(self.waits, Waits::with);
        let left = self.leave_uses(&ended);
        self.tick_done(&ended, true);
        Some((ended, left))
    }

    /// Puts an ended programme back where it stood among the others, and takes back what it left: its place.
    pub fn put_back(&mut self, ended: PestRecord, left: &[LeftUse]) -> usize {
        self.take_back_uses(left);
        self.tick_done(&ended, false);
        let at = self.programmes.binary_search_by_key(&ended.id, |programme| programme.id);
        let at = at.unwrap_or_else(|at| at);
        self.programmes.insert(at, ended);
        at
    }

    fn tick_done(&mut self, programme: &PestRecord, is_done: bool) {
        for Treatment {
            day,
            pest,
            control,
            plants,
        } in done_in(programme)
        {
            self.note(day, |page| page.tick(Done::Treated(pest, control, plants), is_done));
        }
    }

    /// What was done against pests from a day to another, by day: in programmes, and what the pages of days say of those that were
    /// ended, and a neighbour's list told; once where both say it.
    #[must_use]
    pub fn treatments_done(&self, from: CivilDay, to: CivilDay) -> Vec<Treatment> {
        let mut done: Vec<_> = self.programmes.iter().flat_map(done_in).collect();
        for page in &self.days {
            for ticked in &page.done {
                if let Done::Treated(pest, control, plants) = *ticked
                    && !self
                        .programmes
                        .iter()
                        .any(|programme| tells(programme, page.day, control) && is_against(programme, pest, plants))
                {
                    done.push(Treatment {
                        day: page.day,
                        pest,
                        control,
                        plants,
                    });
                }
            }
        }
        done.retain(|treatment| (from..=to).contains(&treatment.day));
        done.sort_by_key(|treatment| treatment.day);
        done
    }

    /// What was sprayed within a season on the plants of this number, or may have been where nobody said on which.
    #[must_use]
    pub fn sprayed(&self, plants: Option<u32>, today: CivilDay) -> Vec<(CivilDay, Control)> {
        let is_on = |of: &Treatment| of.plants == plants || of.plants.is_none() || plants.is_none();
        let done = self.treatments_done(today.days_later(-A_SEASON), today).into_iter();
        let sprays = done.filter(|treatment| treatment.control.is_sprayed() && is_on(treatment));
        sprays.map(|treatment| (treatment.day, treatment.control)).collect()
    }
}
