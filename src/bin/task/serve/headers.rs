//! The headers of each answer: those of `hosting/_headers`, and the policy of what runs.

use std::path::Path;

use crate::seal::{self, WORKER};

/// What a static host should send, in the form of such a host: a pattern, then an indented line for each header.
const EXAMPLE: &str = include_str!("../../../../hosting/_headers");

/// The one header that is not the same for all files.
pub const POLICY: &str = "Content-Security-Policy";

/// For whatever can run nothing.
pub const NO_FRAME: &str = "frame-ancestors 'none'";

/// The worker fetches the page's own files and does nothing else.
const WORKER_POLICY: &str = "default-src 'none'; connect-src 'self'";

/// The headers for every file but its policy.
pub fn always<'a>() -> impl Iterator<Item = (&'a str, &'a str)> {
    EXAMPLE
        .lines()
        .skip_while(|line| *line != "/*")
        .skip(1)
        .map_while(|line| line.strip_prefix("  "))
        .filter_map(|line| line.split_once(": "))
        .filter(|(name, _)| *name != POLICY)
}

/// The policy for a file: the page's own, with what only a header can say.
pub fn policy(file: &Path, bytes: &[u8]) -> String {
    if file.file_name().is_some_and(|name| name == WORKER) {
        return WORKER_POLICY.to_string();
    }
    let is_page = file.extension().is_some_and(|extension| extension == "html");
    let own = is_page.then(|| std::str::from_utf8(bytes).ok()).flatten().and_then(seal::policy_of);
    own.map_or_else(|| NO_FRAME.to_string(), |own| format!("{own}; {NO_FRAME}"))
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::{NO_FRAME, always, policy};

    #[test]
    fn the_page_is_sent_with_its_own_policy_and_in_no_frame() {
        let page = br#"<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self'"><p>a"#;
        let sent = policy(Path::new("index.html"), page);
        assert_eq!(sent, "default-src 'none'; img-src 'self'; frame-ancestors 'none'");
        assert_eq!(policy(Path::new("plain.html"), b"<p>a"), NO_FRAME);
        assert_eq!(policy(Path::new("icon.svg"), page), NO_FRAME);
    }

    #[test]
    fn the_example_is_read_up_to_its_next_pattern() {
        let headers: Vec<_> = always().collect();
        assert_eq!(headers.len(), 6, "{headers:?}");
        assert!(headers.contains(&("Cache-Control", "no-cache")));
        assert!(!headers.iter().any(|(name, _)| *name == "Content-Type"));
    }
}
