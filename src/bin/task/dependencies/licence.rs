//! Which licences a dependency may have.

use spdx::{Expression, Licensee, ParseMode};

/// Licences that let the page and the runner be given on under MIT. Those of the GPL family are not among them.
const ALLOWED: &[&str] = &[
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MPL-2.0",
    // A face, of the tests alone.
    "OFL-1.1",
    "Unicode-3.0",
    "Zlib",
];

#[derive(Debug, PartialEq, Eq)]
pub enum Refused {
    Missing,
    Unreadable(String),
    NotAllowed(String),
}

/// Whether an SPDX licence expression can be met with allowed licences alone: one side of each OR, both sides of each AND.
pub fn accept(text: Option<&str>) -> Result<(), Refused> {
    let text = text.ok_or(Refused::Missing)?;
    // Older packages write "MIT/Apache-2.0".
    let mode = ParseMode {
        allow_slash_as_or_operator: true,
        ..ParseMode::STRICT
    };
    let expression = Expression::parse_mode(text, mode).map_err(|_| Refused::Unreadable(text.to_string()))?;
    let allowed = ALLOWED.iter().filter_map(|name| Licensee::parse(name).ok()).collect::<Vec<_>>();
    if expression.evaluate(|asked| allowed.iter().any(|licence| licence.satisfies(asked))) {
        Ok(())
    } else {
        Err(Refused::NotAllowed(text.to_string()))
    }
}

#[cfg(test)]
mod tests {
    use spdx::Licensee;

    use super::{ALLOWED, Refused, accept};

    #[test]
    fn every_allowed_licence_is_one() {
        for name in ALLOWED {
            assert!(Licensee::parse(name).is_ok(), "{name}");
            assert_eq!(accept(Some(name)), Ok(()), "{name}");
        }
    }

    #[test]
    fn one_side_of_or_is_enough_and_both_of_and_are_needed() {
        for met in [
            "MIT OR GPL-3.0-only",
            "GPL-3.0-only/MIT",
            "(MIT OR Apache-2.0) AND Unicode-3.0",
            "MIT AND BSD-3-Clause OR GPL-2.0-only",
        ] {
            assert_eq!(accept(Some(met)), Ok(()), "{met}");
        }
        for unmet in [
            "GPL-3.0-only",
            "MIT AND GPL-3.0-only",
            "(MIT OR GPL-2.0-only) AND LGPL-2.1-or-later",
            "AGPL-3.0-or-later OR GPL-3.0-only",
        ] {
            assert_eq!(accept(Some(unmet)), Err(Refused::NotAllowed(unmet.to_string())), "{unmet}");
        }
    }

    #[test]
    fn an_exception_counts_as_part_of_the_licence() {
        assert_eq!(accept(Some("Apache-2.0 WITH LLVM-exception")), Ok(()));
        for unmet in ["GPL-2.0-only WITH Classpath-exception-2.0", "MIT WITH LLVM-exception"] {
            assert_eq!(accept(Some(unmet)), Err(Refused::NotAllowed(unmet.to_string())), "{unmet}");
        }
    }

    #[test]
    fn what_is_no_expression_is_refused() {
        assert_eq!(accept(None), Err(Refused::Missing));
        for text in ["", "Apache 2", "MIT OR", "see LICENCE"] {
            assert_eq!(accept(Some(text)), Err(Refused::Unreadable(text.to_string())), "{text}");
        }
    }
}
