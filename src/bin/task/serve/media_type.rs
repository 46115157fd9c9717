//! What a file is, told by the end of its name.

use std::path::Path;

/// The media type to send, and whether the file is text-like enough to be worth compressing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MediaType {
    pub name: &'static str,
    pub compressible: bool,
}

const fn text(name: &'static str) -> MediaType {
    MediaType { name, compressible: true }
}

/// For a file whose format has compression of its own.
const fn packed(name: &'static str) -> MediaType {
    MediaType { name, compressible: false }
}

const UNKNOWN: MediaType = packed("application/octet-stream");

impl MediaType {
    pub fn of(file: &Path) -> Self {
        let extension = file.extension().and_then(|extension| extension.to_str());
        match extension.map(str::to_ascii_lowercase).as_deref() {
            Some("html") => text("text/html; charset=utf-8"),
            Some("css") => text("text/css; charset=utf-8"),
            Some("js" | "mjs") => text("text/javascript; charset=utf-8"),
            // Without exactly this type the browser refuses to compile while it downloads.
            Some("wasm") => text("application/wasm"),
            Some("webmanifest") => text("application/manifest+json"),
            Some("json") => text("application/json"),
            Some("svg") => text("image/svg+xml"),
            Some("ics") => text("text/calendar; charset=utf-8"),
            Some("csv") => text("text/csv; charset=utf-8"),
            Some("txt") => text("text/plain; charset=utf-8"),
            Some("ico") => text("image/x-icon"),
            Some("png") => packed("image/png"),
            Some("jpg" | "jpeg") => packed("image/jpeg"),
            Some("webp") => packed("image/webp"),
            Some("woff2") => packed("font/woff2"),
            _ => UNKNOWN,
        }
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::{MediaType, UNKNOWN};

    #[track_caller]
    fn check(file: &str, name: &str, compressible: bool) {
        let found = MediaType::of(Path::new(file));
        assert_eq!((found.name, found.compressible), (name, compressible));
    }

    #[test]
    fn each_file_of_a_page_has_its_type() {
        check("index.html", "text/html; charset=utf-8", true);
        check("base.css", "text/css; charset=utf-8", true);
        check("first-truss.js", "text/javascript; charset=utf-8", true);
        check("first-truss_bg.wasm", "application/wasm", true);
        check("page.webmanifest", "application/manifest+json", true);
        check("drawings.SVG", "image/svg+xml", true);
        check("numerals.woff2", "font/woff2", false);
        check("icon-192.png", "image/png", false);
    }

    #[test]
    fn an_unknown_file_is_only_bytes() {
        assert_eq!(MediaType::of(Path::new("notes.xyz")), UNKNOWN);
        assert_eq!(MediaType::of(Path::new("LICENCE")), UNKNOWN);
    }
}
