//! The headers that every answer carries, and the policy of what runs.

use std::path::Path;

use crate::seal::{self, WORKER};

/// A good static host sends the same.
pub const ALWAYS: &[(&str, &str)] = &[
    // Of every file: a built file may keep its name while its bytes change.
    ("Cache-Control", "no-cache"),
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Permissions-Policy", PERMISSIONS),
];

/// The page uses none of a device's powers. Only what Chromium knows is named: it warns about the rest.
const PERMISSIONS: &str = "accelerometer=(), autoplay=(), bluetooth=(), camera=(), clipboard-read=(), clipboard-write=(), \
    display-capture=(), encrypted-media=(), fullscreen=(), gamepad=(), geolocation=(), gyroscope=(), hid=(), \
    identity-credentials-get=(), idle-detection=(), local-fonts=(), magnetometer=(), microphone=(), midi=(), payment=(), \
    picture-in-picture=(), publickey-credentials-create=(), publickey-credentials-get=(), screen-wake-lock=(), serial=(), \
    storage-access=(), usb=(), web-share=(), window-management=(), xr-spatial-tracking=()";

/// The worker fetches the page's own files and does nothing else.
const WORKER_POLICY: &str = "default-src 'none'; connect-src 'self'";

/// The policy for a file: the page's own, with what only a header can say. A picture needs none.
pub fn policy(file: &Path, bytes: &[u8]) -> Option<String> {
    let ends_with = |name: &str| file.file_name().is_some_and(|found| found == name);
    if ends_with(WORKER) {
        return Some(WORKER_POLICY.to_string());
    }
    let is_page = file.extension().is_some_and(|extension| extension == "html");
    let page = is_page.then(|| std::str::from_utf8(bytes).ok()).flatten()?;
    Some(format!("{}; frame-ancestors 'none'", seal::policy_of(page)?))
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::policy;

    #[test]
    fn the_page_is_sent_with_its_own_policy_and_in_no_frame() {
        let page = br#"<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self'"><p>a"#;
        let sent = policy(Path::new("index.html"), page).unwrap();
        assert_eq!(sent, "default-src 'none'; img-src 'self'; frame-ancestors 'none'");
        assert_eq!(policy(Path::new("plain.html"), b"<p>a"), None);
        assert_eq!(policy(Path::new("icon.svg"), page), None);
    }
}
