//! What a comment says of a number: its unit, and on whose word it stands.

/// On whose word a number stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    Exact,
    Read,
    SecondHand,
    Computed,
    Practice,
    Choice,
    Limit,
    Memory,
}

impl Status {
    pub const ALL: [Self; 8] = [
        Self::Exact,
        Self::Read,
        Self::SecondHand,
        Self::Computed,
        Self::Practice,
        Self::Choice,
        Self::Limit,
        Self::Memory,
    ];

    pub const fn name(self) -> &'static str {
        match self {
            Self::Exact => "exact",
            Self::Read => "read",
            Self::SecondHand => "read second-hand",
            Self::Computed => "computed",
            Self::Practice => "common practice",
            Self::Choice => "choice",
            Self::Limit => "limit",
            Self::Memory => "from memory",
        }
    }

    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Exact => "true by definition: a unit, or arithmetic on constants of this list",
            Self::Read => "read in the source that is named",
            Self::SecondHand => "read in another text that repeats the source; the source itself was not seen",
            Self::Computed => "worked out from what was read, apart from the program",
            Self::Practice => "what growers do and advisers say; no study behind it",
            Self::Choice => "our own judgement or default",
            Self::Limit => "our own bound of what can be typed, kept, shown or worked on; no claim about the world",
            Self::Memory => "published, but written down from memory and not read again",
        }
    }

    /// The words that stand for it in a comment.
    const fn words(self) -> &'static [&'static str] {
        match self {
            Self::Exact => &["exact"],
            Self::Read => &["read"],
            Self::SecondHand => &["second-hand"],
            Self::Computed => &["computed"],
            Self::Practice => &["common practice", "common:", "rule of thumb"],
            Self::Choice => &["choice"],
            Self::Limit => &["limit"],
            Self::Memory => &["from memory"],
        }
    }
}

/// Where a comment points for what it does not say itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reference {
    /// "The same": what stands before it.
    Before,
    /// "See [`NAME`]".
    To(String),
}

/// What a comment says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Statement {
    /// The comment itself, on one line.
    pub text: String,
    /// Each status that it names, in its order, once.
    pub statuses: Vec<Status>,
    pub unit: Option<String>,
    pub refers: Option<Reference>,
}

impl Statement {
    /// What stands above an item, and the plain comments in it.
    pub fn of(above: &str, inside: &[String]) -> Self {
        let mut statuses = Vec::new();
        let groups = in_brackets(above);
        let own = inside.iter().flat_map(|comment| {
            let mut groups = in_brackets(comment);
            groups.insert(0, comment.split(['(', '.', ';', ',', ':']).next().unwrap_or("").to_string());
            groups
        });
        for status in groups.into_iter().chain(own).filter_map(|group| status_in(&group)) {
            if !statuses.contains(&status) {
                statuses.push(status);
            }
        }
        let mut text = above.to_string();
        for comment in inside {
            if !text.is_empty() {
                text.push(' ');
            }
            text.push_str(comment);
        }
        Self {
            statuses,
            unit: unit_in(above),
            refers: reference_in(above),
            text,
        }
    }

    /// Takes over from another what this one does not say.
    pub fn lean_on(&mut self, other: &Self) {
        if self.statuses.is_empty() {
            self.statuses.clone_from(&other.statuses);
        }
        if self.unit.is_none() {
            self.unit.clone_from(&other.unit);
        }
    }
}

/// What stands in each outermost pair of brackets.
fn in_brackets(text: &str) -> Vec<String> {
    let mut groups = Vec::new();
    let mut depth = 0_usize;
    let mut group = String::new();
    for sign in text.chars() {
        if sign == ')' {
            depth = depth.saturating_sub(1);
            if depth == 0 && !group.is_empty() {
                groups.push(std::mem::take(&mut group));
            }
        }
        if depth > 0 {
            group.push(sign);
        }
        if sign == '(' {
            depth += 1;
        }
    }
    groups
}

/// The first status that a bracket names. What was read second-hand was not read.
fn status_in(group: &str) -> Option<Status> {
    let group = group.to_lowercase();
    let place = |status: Status| status.words().iter().filter_map(|word| place_of(&group, word)).min();
    let first = Status::ALL
        .into_iter()
        .filter_map(|status| Some((place(status)?, status)))
        .min()
        .map(|(_, status)| status)?;
    let is_second_hand = first == Status::Read && place(Status::SecondHand).is_some();
    Some(if is_second_hand { Status::SecondHand } else { first })
}

/// Where a word stands, not as a part of another.
fn place_of(text: &str, word: &str) -> Option<usize> {
    let is_letter = |sign: Option<char>| sign.is_some_and(char::is_alphanumeric);
    text.match_indices(word).map(|(at, _)| at).find(|&at| {
        let before = text[..at].chars().next_back();
        let after = text[at + word.len()..].chars().next();
        !is_letter(before) && (!is_letter(after) || word.ends_with(':'))
    })
}

/// Units, the longer before those that they begin with.
const UNITS: &[&str] = &[
    "no unit",
    "MJ/m²/minute",
    "MJ/m²/day",
    "MJ/K⁴/m²/day",
    "MJ/m²",
    "MJ/kg",
    "K per MJ/m²",
    "kPa/°C",
    "kPa",
    "1/(°C·d)",
    "1/°C",
    "1/m",
    "°C and °C·d",
    "°C and %",
    "°C·d",
    "°C",
    "m/s",
    "mm a metre",
    "mm/day",
    "mm",
    "cm",
    "m²",
    "m",
    "km",
    "mS/cm",
    "S·cm²/eq",
    "mmol²/L²",
    "mmol/L",
    "mg/L",
    "mg",
    "g/mol",
    "g in a litre",
    "g in 100 g of water",
    "g",
    "kg/ha",
    "kg a litre",
    "kg",
    "ml or g in a litre",
    "ml or g",
    "ml",
    "litres a day",
    "litres",
    "gallons",
    "K",
    "%",
    "degrees",
    "radians",
    "characters",
    "bytes",
    "digits",
    "decimals",
    "months",
    "weeks",
    "days",
    "hours",
    "minutes",
    "seconds",
    "years",
];

/// Words that open a comment and tell the unit: "Days that …", "Share of …".
const OPENING: &[(&str, &str)] = &[
    ("metres", "m"),
    ("square metres", "m²"),
    ("millimetres", "mm"),
    ("kilograms", "kg"),
    ("milligrams", "mg"),
    ("grams", "g"),
    ("litres", "litres"),
    ("millilitres", "ml"),
    ("days", "days"),
    ("weeks", "weeks"),
    ("hours", "hours"),
    ("nights", "nights"),
    ("trusses", "trusses"),
    ("waterings", "waterings"),
    ("parts", "parts"),
    ("times", "times"),
    ("pints", "imperial pints"),
    ("chance", "share"),
    ("the same chance", "share"),
    ("plants", "plants"),
    ("uses", "uses"),
    ("animals", "animals"),
    ("feeds", "feeds"),
    ("months", "month of the year"),
    ("minutes", "minutes"),
    ("characters", "characters"),
    ("digits", "digits"),
    ("share", "share"),
    ("shares", "share"),
];

fn unit_in(text: &str) -> Option<String> {
    let plain = text.replace('`', "");
    // "…, °C." or "…, °C (read)": a part of the sentence that is a unit.
    let mut parts = plain
        .split([',', ';', ':', '(', ')'])
        .flat_map(|part| part.split(". "))
        .map(|part| part.trim().trim_end_matches('.'));
    let lower = plain.to_lowercase();
    let opening = OPENING.iter().find(|(word, _)| lower.starts_with(&format!("{word} ")));
    if let Some((_, unit)) = opening.filter(|(_, unit)| *unit == "share") {
        return Some((*unit).to_string());
    }
    let is_unit = |part: &str, unit: &str| part == unit || part.strip_prefix(unit).is_some_and(|rest| rest.starts_with(' '));
    if let Some(unit) = parts.find_map(|part| UNITS.iter().find(|unit| is_unit(part, unit))) {
        return Some((*unit).to_string());
    }
    if let Some((_, unit)) = opening {
        return Some((*unit).to_string());
    }
    ["as a share", "as shares", "share of", "per cent"]
        .iter()
        .find(|words| lower.contains(*words))
        .map(|words| if words.contains("share") { "share" } else { *words }.to_string())
}

/// Whether a constant is called exact, in brackets or not.
pub fn says_exact(text: &str) -> bool {
    place_of(&text.to_lowercase(), "exact").is_some()
}

fn reference_in(text: &str) -> Option<Reference> {
    if let Some((_, rest)) = text.split_once("See [`") {
        let name = rest.split('`').next().unwrap_or("");
        return Some(Reference::To(name.rsplit("::").next().unwrap_or(name).to_string()));
    }
    place_of(&text.to_lowercase(), "same").map(|_| Reference::Before)
}

#[cfg(test)]
mod tests {
    use super::{Reference, Statement, Status};

    fn statuses(text: &str) -> Vec<Status> {
        Statement::of(text, &[]).statuses
    }

    #[test]
    fn a_status_stands_in_brackets_and_the_first_word_of_each_counts() {
        assert_eq!(
            statuses("A table (read). The upper end is ours (choice, from memory)."),
            [Status::Read, Status::Choice]
        );
        assert_eq!(statuses("Eq. 8 (from memory; its inverse was read)."), [Status::Memory]);
        assert_eq!(statuses("Osborne 1982 (second-hand)."), [Status::SecondHand]);
        assert_eq!(statuses("Maas 1990 (read second-hand)."), [Status::SecondHand]);
        assert_eq!(statuses("Spread of days (already ready to choose), read."), []);
    }

    #[test]
    fn plain_comments_name_theirs_at_their_start() {
        let inside = ["Choice; up to 16 a day (read).".to_string(), "A hair, by choice.".to_string()];
        assert_eq!(Statement::of("", &inside).statuses, [Status::Choice, Status::Read]);
    }

    #[test]
    fn a_unit_is_a_part_of_the_sentence_or_its_first_word() {
        let unit = |text: &str| Statement::of(text, &[]).unit;
        assert_eq!(unit("Solar constant `Gsc`, MJ/m²/minute. FAO-56").as_deref(), Some("MJ/m²/minute"));
        assert_eq!(unit("Evaporation of 1 MJ/m², mm.").as_deref(), Some("mm"));
        assert_eq!(unit("Share of the days, weeks apart (choice).").as_deref(), Some("share"));
        assert_eq!(unit("Days without a record (choice).").as_deref(), Some("days"));
        assert_eq!(unit("Fewest, as a share of all (choice).").as_deref(), Some("share"));
        assert_eq!(unit("A factor of something (choice)."), None);
    }

    #[test]
    fn a_comment_points_to_the_one_before_or_to_a_name() {
        assert_eq!(Statement::of("The same for nights.", &[]).refers, Some(Reference::Before));
        assert_eq!(
            Statement::of("See [`Self::LOWEST`].", &[]).refers,
            Some(Reference::To("LOWEST".to_string()))
        );
        assert_eq!(Statement::of("Sameness.", &[]).refers, None);
    }
}
