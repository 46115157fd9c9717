use std::fmt;

/// Why a link is not opened. Nothing is changed for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// It is no link that First Truss makes.
    NotOurs,
    /// A later program made it.
    Newer,
    /// It is longer than any that is made.
    TooLong,
    /// It holds a sign that none holds.
    ForeignSign,
    /// Its end is missing.
    CutShort,
    /// Its check does not fit.
    Damaged,
    /// Something in it cannot be.
    Impossible {
        /// What.
        what: &'static str,
    },
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (why, what_to_do) = match self {
            Self::NotOurs => ("This address is not a link that First Truss makes", "Ask for it once more."),
            Self::Newer => (
                "This link was made by a newer First Truss",
                "Use the new version of this page first, then open it again.",
            ),
            Self::TooLong => (
                "This link is longer than any that First Truss makes (8,000 characters)",
                "Ask for it once more.",
            ),
            Self::ForeignSign => (
                "This link holds a character that does not belong there: it was changed on its way",
                "Copy it once more, from its first character to its last.",
            ),
            Self::CutShort => (
                "The end of this link is missing",
                "Copy it once more, from its first character to its last.",
            ),
            Self::Damaged => (
                "This link was changed or cut on its way",
                "Copy it once more, or ask for it to be sent again.",
            ),
            Self::Impossible { what } => {
                f.write_str("This link says something that cannot be: ")?;
                (*what, "Ask for a new one.")
            }
        };
        f.write_str(why)?;
        f.write_str(". ")?;
        f.write_str(what_to_do)?;
        f.write_str(" Nothing was changed.")
    }
}

impl std::error::Error for LinkError {}
